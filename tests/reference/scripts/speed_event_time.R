# Event-time fits of many bags in R, for the figures of speed.md.
#   cargo run --release -p hilum-calc --example speed -- bags > /tmp/bags.csv
#   Rscript tests/reference/scripts/speed_event_time.R /tmp/bags.csv
# Each bag: capacity p and time in three forms, maximum likelihood with standard errors:
# survival::survreg(Surv(l, r, type = "interval2")) of the rooted seeds as the start, then
# optim(method = "BFGS", hessian = TRUE) of the likelihood with p.
suppressMessages(library(survival))
rows <- read.csv(commandArgs(TRUE)[1])
bags <- split(rows, rows$bag)
forms <- list(
  loglogistic = list(dist = "loglogistic", cdf = plogis, sf = function(w) plogis(-w)),
  lognormal = list(dist = "lognormal", cdf = pnorm, sf = function(w) pnorm(-w)),
  weibull = list(dist = "weibull", cdf = function(w) -expm1(-log(2) * exp(w)), sf = function(w) exp(-log(2) * exp(w)))
)
fit <- function(d, form) {
  on <- is.na(d$r)
  x <- d[!on, ]
  lower <- log(x$l); upper <- log(x$r); last <- log(d$l[on])
  start <- survreg(Surv(ifelse(l == 0, NA, l), r, type = "interval2") ~ 1, data = x, weights = x$count, dist = form$dist)
  less <- function(th) {
    p <- plogis(th[1]); a <- exp(th[3])
    D <- form$cdf(a * (upper - th[2])) - form$cdf(a * (lower - th[2]))
    v <- -sum(x$count * log(p * D)) - sum(d$count[on] * log1p(-p * form$cdf(a * (last - th[2]))))
    if (is.finite(v)) v else 1e10
  }
  p0 <- min(max(sum(x$count) / sum(d$count), .02), .98)
  o <- optim(c(qlogis(p0), coef(start), -log(start$scale)), less, method = "BFGS", hessian = TRUE,
             control = list(reltol = 1e-12, maxit = 500))
  se <- tryCatch(sqrt(diag(solve(o$hessian))), error = function(e) rep(NA, 3))
  c(o$value, plogis(o$par[1]), exp(o$par[2]), se[2])
}
took <- system.time(out <- lapply(bags, function(d) sapply(forms, function(f) fit(d, f))))[["elapsed"]]
plain <- system.time(for (d in bags) for (f in forms)
  survreg(Surv(ifelse(l == 0, NA, l), r, type = "interval2") ~ 1, data = d, weights = d$count, dist = f$dist))[["elapsed"]]
all <- simplify2array(out)
cat(sprintf("%s, survival %s: %d bags, three forms each\n", R.version.string, packageVersion("survival"), length(bags)))
cat(sprintf("survreg + optim with p: %.3f s, %.3f ms a bag\n", took, 1000 * took / length(bags)))
cat(sprintf("survreg alone, without p: %.3f s\n", plain))
cat(sprintf("sums of log-likelihoods: %s\n", paste(sprintf("%s %.4f", names(forms), -rowSums(all[1, , ])), collapse = ", ")))
cat(sprintf("median t50: %s\n", paste(sprintf("%s %.6f", names(forms), apply(all[3, , ], 1, median)), collapse = ", ")))
