//! Special functions against R 4.2.2 (`qbeta`, `pbeta`, `qnorm`, `pnorm`, `pchisq`, `qt`, `pt`, `lbeta`),
//! printed with 17 digits.

use hilum_calc::special::*;

fn near(name: &str, got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs(), "{name}: want {want:e}, got {got:e}");
}

#[test]
fn beta_quantiles() {
    let cases = [
        (0.025, 81.0, 183.0, 0.25273674558527115),
        (0.975, 1.0, 20.0, 0.16843347098308536),
        (1e-12, 5.0, 3.0, 0.0021670559786980082),
        (0.025, 500000.0, 500001.0, 0.49901951919531184),
        (0.3, 0.5, 0.5, 0.20610737385376351),
        (1e-300, 2.0, 3.0, 4.082482904638743e-151),
        (0.975, 999999.5, 1.5, 0.9999998921023375),
        (0.025, 3e8, 7e8, 0.2999715978023743),
        (0.5, 0.001, 0.001, 0.5),
    ];
    for (p, a, b, want) in cases {
        near(&format!("qbeta({p}, {a}, {b})"), beta_quantile(p, a, b), want, 1e-12);
    }
}

#[test]
fn beta_tails() {
    let cases = [
        (0.4, 81.0, 183.0, 0.9992004744112184, 0.0007995255887816551),
        (0.001, 5.0, 3.0, 2.0965015e-14, 0.999999999999979),
        (0.5005, 500000.0, 500001.0, 0.8415867166720902, 0.1584132833279098),
        (0.999, 0.5, 0.5, 0.9798649583666226, 0.020135041633377496),
        (1e-100, 2.0, 3.0, 5.999999999999876e-200, 1.0),
    ];
    for (x, a, b, cdf, sf) in cases {
        near(&format!("pbeta({x}, {a}, {b})"), beta_cdf(x, a, b), cdf, 2e-12);
        near(&format!("1 - pbeta({x}, {a}, {b})"), beta_sf(x, a, b), sf, 2e-12);
    }
}

#[test]
fn normal() {
    let quantiles = [
        (0.975, 1.9599639845400536),
        (0.5, 0.0),
        (1e-10, -6.361340902404056),
        (0.9995, 3.2905267314919255),
        (0.3, -0.5244005127080407),
        (1e-300, -37.0470962993612),
    ];
    for (p, want) in quantiles {
        near(&format!("qnorm({p})"), normal_quantile(p), want, 1e-13);
    }
    let tails = [(-10.0, 7.619853024160527e-24), (-1.0, 0.15865525393145705), (0.5, 0.691462461274013)];
    for (z, want) in tails {
        near(&format!("pnorm({z})"), normal_cdf(z), want, 1e-13);
        near(&format!("1 - pnorm({})", -z), normal_sf(-z), want, 1e-13);
    }
    near("two-sided 95%", two_sided_z(0.95), 1.9599639845400536, 1e-14);
}

#[test]
fn chi_squared() {
    let cases = [
        (3.84, 1.0, 0.050043521248705224),
        (20.1, 3.0, 0.00016183190365152265),
        (1.0, 10.0, 0.9998278843700441),
        (200.0, 50.0, 7.857610724654742e-20),
        (1e-5, 2.0, 0.9999950000125),
    ];
    for (x, df, want) in cases {
        near(&format!("pchisq({x}, {df})"), chi2_sf(x, df), want, 1e-12);
    }
    near("pchisq(1000500, 1e6)", chi2_sf(1_000_500.0, 1e6), 0.3616822317103044, 1e-7);
}

#[test]
fn student() {
    let cases = [
        (0.975, 4.0, 2.7764451051977934),
        (0.01, 1.0, -31.820515953773956),
        (0.6, 30.0, 0.2556053649519128),
        (0.9995, 2.5, 18.277893528131514),
    ];
    for (p, df, want) in cases {
        near(&format!("qt({p}, {df})"), t_quantile(p, df), want, 1e-11);
    }
    for (t, df, want) in
        [(2.0, 4.0, 0.1161165235168155), (0.1, 1.0, 0.9365489651388929), (-30.0, 7.0, 1.1788468880733126e-08)]
    {
        near(&format!("2 pt(-|{t}|, {df})"), t_two_sided(t, df), want, 1e-12);
    }
}

#[test]
fn log_beta() {
    let cases = [
        (0.5, 0.5, 1.1447298858494004),
        (3.0, 1e6, -40.75338749333037),
        (0.001, 20.0, 6.904208335756638),
        (2e5, 3e5, -336510.76218907814),
    ];
    for (a, b, want) in cases {
        near(&format!("lbeta({a}, {b})"), ln_beta(a, b), want, 1e-13);
    }
}

#[test]
fn odd_arguments_give_an_answer_or_nan() {
    let odd =
        [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 5e-324, 1e-9, 0.5, 1.0, 2.0, 1e9, 1e300];
    for &a in &odd {
        for &b in &odd {
            for &x in &odd {
                for f in [beta_quantile, beta_cdf, beta_sf] {
                    let y = f(x, a, b);
                    assert!(y.is_nan() || (0.0..=1.0).contains(&y), "({x}, {a}, {b}) gave {y}");
                }
            }
            let p = chi2_sf(a, b);
            assert!(p.is_nan() || (0.0..=1.0).contains(&p), "chi2_sf({a}, {b}) gave {p}");
            let _ = (t_two_sided(a, b), t_quantile(a, b), ln_beta(a, b));
        }
        let _ = (normal_cdf(a), normal_quantile(a), ln_gamma(a), two_sided_z(a));
    }
}

#[test]
fn quantile_inverts_far_in_the_tail() {
    for p in [1e-140, 1e-100, 1e-16, 1e-6, 0.4] {
        for (a, b) in [(0.5, 0.5), (1.0, 1e6), (1e6, 1.0), (0.5, 1e6), (3.0, 4.0), (1e6, 1e6)] {
            near(&format!("{p} {a} {b}"), beta_cdf(beta_quantile(p, a, b), a, b), p, 1e-7);
        }
    }
}
