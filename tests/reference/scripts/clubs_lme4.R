# Reference values of the binomial mixed model with a random level for the clubs of the growers, from R's
# lme4. Writes oracles/m18_clubs.json; run in tests/reference:
#   apt-get install r-base-core r-cran-lme4 r-cran-jsonlite
#   Rscript scripts/clubs_lme4.R
# The stored file is from R 4.2.2, lme4 1.1-31 (Debian 12). The made clubs are R's own random numbers
# (set.seed below); the rows are in the file, so the tests need no R.
suppressMessages({library(lme4); library(jsonlite)})
tool <- paste0("R ", getRversion(), ", lme4 ", packageVersion("lme4"), ": ")
control <- glmerControl(optimizer = "bobyqa", optCtrl = list(maxfun = 2e5, rhoend = 1e-9),
                        tolPwrss = 1e-12, check.conv.singular = "ignore")
modes <- function(m, group) {
  r <- ranef(m, condVar = FALSE)[[group]]
  as.list(setNames(r[, 1], rownames(r)))
}
case <- function(name, seed, clubs, growers, trials, source) {
  set.seed(seed)
  varieties <- 8; sources <- 5
  cells <- expand.grid(v = seq_len(varieties), s = seq_len(sources))
  club <- rep_len(seq_len(clubs), growers)
  of_club <- rnorm(clubs, 0, 0.9); of_grower <- rnorm(growers, 0, 0.5)
  of_variety <- rnorm(varieties, 0, 0.5); of_source <- rnorm(sources, 0, 0.6)
  of_cell <- rnorm(nrow(cells), 0, 0.4)
  c <- sample(nrow(cells), trials, TRUE); g <- sample(growers, trials, TRUE)
  n <- sample(c(8, 10, 12, 20, 30), trials, TRUE)
  logit <- 1 + of_variety[cells$v[c]] + of_source[cells$s[c]] + of_cell[c] + of_grower[g] + of_club[club[g]] +
    rnorm(trials, 0, 0.5)
  d <- data.frame(variety = paste0("v", cells$v[c]), source = paste0("s", cells$s[c]), grower = paste0("g", g),
                  club = paste0("c", club[g]), trial = paste0("t", seq_len(trials)),
                  x = rbinom(trials, n, plogis(logit)), n = n)
  rows <- d
  d$cell <- paste(d$variety, d$source, sep = "/")
  groups <- c("variety", "cell", "grower", "club", "trial", if (source) "source")
  call <- paste("cbind(x,n-x) ~ 1 +", paste0("(1|", groups, ")", collapse = " + "))
  m <- glmer(as.formula(call), d, binomial, nAGQ = 1, control = control)
  s <- as.data.frame(VarCorr(m))
  expected <- c(list(intercept = unname(fixef(m)), loglik = as.numeric(logLik(m)), singular = isSingular(m)),
                setNames(as.list(s$sdcor), paste0("sd_", s$grp)))
  for (group in setdiff(groups, "trial")) expected[[paste0("mode_", group)]] <- modes(m, group)
  list(name = name, input = list(rows = rows, random = list(club = TRUE, source = source)), expected = expected,
       tolerance = list(abs = 1e-3, rel = 1e-3, overrides = c(
         list(loglik = list(abs = 1e-3), intercept = list(rel = 1e-3), singular = "exact"),
         setNames(rep(list(list(rel = 1e-3)), length(groups)), paste0("sd_", groups)))),
       source = paste0("made clubs, scripts/clubs_lme4.R, set.seed(", seed, ")"),
       tool = paste0(tool, "glmer(", call, ", binomial, nAGQ=1, bobyqa, rhoend 1e-9, tolPwrss 1e-12)"))
}
writeLines(toJSON(list(
  method = "M18", title = "The same with a level for the clubs of the growers", set = "visible",
  meaning = list(rows = "one trial each: x rooted of n; cell = variety/source; each grower is of one club",
                 random = "terms besides variety, cell, grower and trial",
                 loglik = "Laplace, binomial coefficients included",
                 sd_x = "standard deviation on the logit scale", mode_x = "conditional modes",
                 singular = "a variance at zero"),
  cases = list(case("three clubs, 300 trials", 3101, 3, 15, 300, FALSE),
               case("eight clubs, 1200 trials", 3102, 8, 48, 1200, FALSE),
               case("six clubs with sources, 800 trials", 3103, 6, 30, 800, TRUE))),
  auto_unbox = TRUE, digits = NA, null = "null"), "oracles/m18_clubs.json")
