# Reference values of the binomial mixed model with sources across varieties and lots within cells, and
# of two published data sets, from R's lme4. Writes both oracle files; run in tests/reference:
#   apt-get install r-base-core r-cran-lme4 r-cran-jsonlite
#   Rscript scripts/source_term_lme4.R
# The stored files are from R 4.2.2, lme4 1.1-31 (Debian 12). The made clubs are R's own random
# numbers (set.seed below); the rows are in the files, so the tests need no R.
suppressMessages({library(lme4); library(jsonlite)})
tool <- paste0("R ", getRversion(), ", lme4 ", packageVersion("lme4"), ": ")
control <- glmerControl(optimizer = "bobyqa", optCtrl = list(maxfun = 2e5, rhoend = 1e-9),
                        tolPwrss = 1e-12, check.conv.singular = "ignore")
modes <- function(m, group) {
  r <- ranef(m, condVar = FALSE)[[group]]
  as.list(setNames(r[, 1], rownames(r)))
}
sds <- function(m) {
  s <- as.data.frame(VarCorr(m))
  setNames(as.list(s$sdcor), paste0("sd_", s$grp))
}
write_oracle <- function(path, document)
  writeLines(toJSON(document, auto_unbox = TRUE, digits = NA, null = "null"), path)

# Made clubs. Every variety is offered by most sources; few growers are busy, many try little.
club <- function(seed, varieties, sources, growers, trials, lots) {
  set.seed(seed)
  cells <- expand.grid(v = seq_len(varieties), s = seq_len(sources))
  cells <- cells[runif(nrow(cells)) < 0.7, ]
  variety <- rnorm(varieties, 0, 0.5); source <- rnorm(sources, 0, 0.6); grower <- rnorm(growers, 0, 0.5)
  cell <- rnorm(nrow(cells), 0, 0.4); lot <- matrix(rnorm(nrow(cells) * lots, 0, 0.5), ncol = lots)
  c <- c(seq_len(nrow(cells)), sample(nrow(cells), trials - nrow(cells), TRUE))
  g <- 1 + floor(growers * runif(trials)^1.5); l <- sample(lots, trials, TRUE)
  n <- sample(c(5, 8, 10, 12, 20, 30), trials, TRUE)
  logit <- 1 + variety[cells$v[c]] + source[cells$s[c]] + cell[c] + grower[g] + rnorm(trials, 0, 0.5)
  if (lots > 1) logit <- logit + lot[cbind(c, l)]
  d <- data.frame(variety = paste0("v", cells$v[c]), source = paste0("s", cells$s[c]), lot = paste0("l", l),
                  grower = paste0("g", g), trial = paste0("t", seq_len(trials)),
                  x = rbinom(trials, n, plogis(logit)), n = n)
  if (lots == 1) d$lot <- NULL
  d
}
club_case <- function(name, terms, seed, ...) {
  rows <- club(seed, ...); d <- rows
  d$cell <- paste(d$variety, d$source, sep = "/")
  if (!is.null(d$lot)) d$lot <- paste(d$cell, d$lot)
  groups <- c("variety", "cell", "grower", "trial", terms)
  call <- paste("cbind(x,n-x) ~ 1 +", paste0("(1|", groups, ")", collapse = " + "))
  m <- glmer(as.formula(call), d, binomial, nAGQ = 1, control = control)
  expected <- c(list(intercept = unname(fixef(m)), loglik = as.numeric(logLik(m)), singular = isSingular(m)), sds(m))
  for (group in setdiff(groups, c("trial", "lot"))) expected[[paste0("mode_", group)]] <- modes(m, group)
  list(name = name, input = list(rows = rows, random = as.list(setNames(rep(TRUE, length(terms)), terms))),
       expected = expected,
       tolerance = list(abs = 1e-3, rel = 1e-3, overrides = c(
         list(loglik = list(abs = 1e-3), intercept = list(rel = 1e-3), singular = "exact"),
         setNames(rep(list(list(rel = 1e-3)), length(groups)), paste0("sd_", groups)))),
       source = paste0("made club, scripts/source_term_lme4.R, set.seed(", seed, ")"),
       tool = paste0(tool, "glmer(", call, ", binomial, nAGQ=1, bobyqa, rhoend 1e-9, tolPwrss 1e-12)"))
}
write_oracle("oracles/m16_source_term.json", list(
  method = "M16", title = "The same with sources across varieties and lots", set = "visible",
  meaning = list(rows = "one trial each: x rooted of n; cell = variety/source; lot within its cell",
                 random = "terms besides variety, cell, grower and trial",
                 loglik = "Laplace, binomial coefficients included",
                 sd_x = "standard deviation on the logit scale", mode_x = "conditional modes",
                 singular = "a variance at zero"),
  cases = list(
    club_case("sources, 300 trials", "source", 2101, 12, 6, 20, 300, 1),
    club_case("sources, 1500 trials", "source", 2102, 25, 9, 40, 1500, 1),
    club_case("lots, 300 trials", "lot", 2103, 6, 4, 15, 300, 3),
    club_case("sources and lots, 1500 trials", c("source", "lot"), 2104, 15, 7, 30, 1500, 3))))

# Published data: fixed columns, one random term (as grower) besides.
published <- function(name, rows, x, random, source) {
  d <- data.frame(x = rows$x, n = rows$n, grower = rows$grower, trial = seq_along(rows$x))
  groups <- names(which(unlist(random)))
  call <- paste("cbind(x,n-x) ~ 0 + X +", paste0("(1|", groups, ")", collapse = " + "))
  X <- x
  m <- glmer(as.formula(call), d, binomial, nAGQ = 1, control = control)
  sd <- sds(m)
  fixed <- lapply(seq_len(ncol(x)), function(i) list(name = colnames(x)[i], estimate = unname(fixef(m))[i]))
  expected <- list(fixed = fixed, loglik = as.numeric(logLik(m)), mode_grower = modes(m, "grower"))
  list(name = name,
       input = list(rows = cbind(cell = "all", rows), design = list(columns = colnames(x), X = unname(x)), random = random),
       expected = list(laplace = c(expected, sd)),
       tolerance = list(abs = 1e-3, overrides = list(
         loglik = list(abs = 1e-3), estimate = list(rel = 1e-3), sd_grower = list(rel = 1e-3), sd_trial = list(rel = 1e-3))),
       source = source,
       tool = paste0(tool, "glmer(", call, ", binomial, nAGQ=1, bobyqa, rhoend 1e-9, tolPwrss 1e-12)"))
}
data(cbpp)
herds <- data.frame(grower = paste0("herd", cbpp$herd), x = cbpp$incidence, n = cbpp$size)
periods <- model.matrix(~ period, cbpp); attr(periods, "assign") <- attr(periods, "contrasts") <- NULL
rownames(periods) <- NULL
lesnoff <- "data cbpp of the R package lme4 (Lesnoff et al. 2004 Preventive Veterinary Medicine 64:9-29)"
orobanche <- fromJSON("oracles/m6_glmm.json", simplifyVector = TRUE)$cases$input
rows <- orobanche$rows[[1]][, c("grower", "x", "n")]
x <- orobanche$design$X[[1]]; colnames(x) <- orobanche$design$columns[[1]]
crowder <- paste("Crowder MJ (1978) Applied Statistics 27:34-37, Table 3 (Orobanche), the listing of m6_glmm.json;",
                 "plates as the random term")
write_oracle("oracles/m17_published_mixed.json", list(
  method = "M17", title = "Published data: fixed columns and one or two random terms", set = "visible",
  meaning = list(rows = "x of n in each line; grower = herd or plate",
                 loglik = "Laplace, binomial coefficients included", mode_grower = "conditional modes"),
  cases = list(
    published("cbpp, herds", herds, periods, list(grower = TRUE, trial = FALSE), lesnoff),
    published("cbpp, herds and observations", herds, periods, list(grower = TRUE, trial = TRUE), lesnoff),
    published("Orobanche, plates", rows, x, list(grower = TRUE, trial = FALSE), crowder))))
