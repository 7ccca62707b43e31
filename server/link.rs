//! How the program is linked: its relocations packed, which takes two megabytes off the file. The C library reads them
//! so since glibc 2.36 (Debian 12).

#[expect(clippy::disallowed_methods, reason = "Cargo tells a build script so what it builds for")]
fn main() {
    println!("cargo::rerun-if-changed=server/link.rs");
    let of = |name: &str| std::env::var(name).unwrap_or_default();
    if of("CARGO_CFG_TARGET_OS") == "linux" && of("CARGO_CFG_TARGET_ENV") == "gnu" {
        println!("cargo::rustc-link-arg-bins=-Wl,-z,pack-relative-relocs");
    }
}
