# Errors by bag, and the profile interval of what is still to come, of the log-logistic form: the values of
# server/calc/tests/rooting/event_time.rs.   Rscript tests/reference/scripts/event_time_checks.R
d <- data.frame(
  bag = c(1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4),
  l = c(0, 3, 5, 12, 2, 4, 6, 12, 0, 4, 5, 10, 3, 5, 7, 12),
  r = c(3, 5, 8, NA, 4, 6, 9, NA, 4, 5, 7, NA, 5, 7, 11, NA),
  count = c(2, 9, 4, 5, 6, 7, 1, 6, 12, 3, 2, 3, 4, 6, 3, 9))
loglik <- function(th, d) {
  p <- plogis(th[1]); g <- function(t) plogis(exp(th[3]) * (log(t) - th[2]))
  sum(d$count * ifelse(is.na(d$r), log1p(-p * g(d$l)), log(p * (g(ifelse(is.na(d$r), Inf, d$r)) - g(d$l)))))
}
best <- optim(c(1, 1.5, 1), function(th) -loglik(th, d), method = "BFGS", control = list(reltol = 1e-15, maxit = 1000))
th <- best$par
for (i in 1:5) th <- th + { # Newton by central differences
  h <- 1e-4; e <- diag(3) * h
  g <- sapply(1:3, function(i) (loglik(th + e[i, ], d) - loglik(th - e[i, ], d)) / (2 * h))
  H <- sapply(1:3, function(i) sapply(1:3, function(j)
    (loglik(th + e[i, ] + e[j, ], d) - loglik(th + e[i, ] - e[j, ], d) -
     loglik(th - e[i, ] + e[j, ], d) + loglik(th - e[i, ] - e[j, ], d)) / (4 * h * h)))
  -solve(H, g)
}
score <- function(d) sapply(1:3, function(i) { e <- replace(numeric(3), i, 1e-5)
  (loglik(th + e, d) - loglik(th - e, d)) / 2e-5 })
S <- sapply(split(d, d$bag), score)
V <- solve(-H) %*% (S %*% t(S)) %*% solve(-H) * 4 / 3
p <- plogis(th[1])
cat("p, t50, shape", format(c(p, exp(th[2:3])), digits = 10), "loglik", format(loglik(th, d), digits = 12), "\n")
cat("errors by bag of p, t50, shape", format(sqrt(diag(V)) * c(p * (1 - p), exp(th[2:3])), digits = 8), "\n")
now <- 12
lost <- function(phi) { # twice the log-likelihood lost with logit(chance to root after now) held at phi
  f <- function(x) { w <- exp(x[2]) * (log(now) - x[1]); -loglik(c(phi - plogis(-w, log.p = TRUE), x), d) }
  2 * (loglik(th, d) + optim(th[2:3], f, method = "BFGS", control = list(reltol = 1e-15, maxit = 1000))$value)
}
w <- exp(th[3]) * (log(now) - th[2]); phi <- th[1] + plogis(-w, log.p = TRUE)
ends <- sapply(list(c(phi - 20, phi), c(phi, phi + 10)), function(ends) uniroot(function(x) lost(x) - qchisq(.95, 1), ends, tol = 1e-10)$root)
cat("chance ever after 12", format(plogis(phi), digits = 10), "profile", format(plogis(ends), digits = 8), "\n")
