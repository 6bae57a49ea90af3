# Means of values of which some lie below limits: 240 random samples of every sort that repeated readings give, most with measured
# values that lie close together beside their distance from the limit, and 220 sets of groups with one spread.
#
# `survreg` of package survival gives the maximum of the likelihood. The limits of the interval are found here from the likelihood
# itself: the highest with the mean held at a value is searched on a fine grid of spreads, then narrowed by `optimize`; where the
# profile has fallen far enough is found by `uniroot`.
#
# Usage: Rscript generate.R FOLDER
suppressPackageStartupMessages({
  library(jsonlite)
  library(survival)
})
folder <- commandArgs(trailingOnly = TRUE)[1]
set.seed(20240611)

# Values as they are written in a laboratory: "<0.5" lies below 0.5.
written <- function(value, below) paste0(ifelse(below, "<", ""), format(value, trim = TRUE, drop0trailing = TRUE, digits = 15), collapse = " ")

peak <- function(value, below, kind) {
  seen <- Surv(value, !below, type = "left")
  fit <- survreg(seen ~ 1, dist = kind, control = survreg.control(maxiter = 500, rel.tolerance = 1e-14, toler.chol = 1e-16))
  list(location = unname(coef(fit)), spread = fit$scale, logLik = fit$loglik[1])
}

limits <- function(value, below, kind, top, level = 0.95) {
  x <- if (kind == "lognormal") log(value) else value
  jacobian <- if (kind == "lognormal") sum(x[!below]) else 0
  n <- length(x)
  rise <- n / 2 * log1p(qt((1 + level) / 2, n - 1)^2 / (n - 1))
  logLik <- function(target, logSpread) {
    spread <- exp(logSpread)
    location <- if (kind == "lognormal") target - spread^2 / 2 else target
    sum(dnorm(x[!below], location, spread, log = TRUE)) + sum(pnorm(x[below], location, spread, log.p = TRUE)) - jacobian
  }
  # The same for a whole grid in one call: a row for each value, a column for each spread.
  logLikOver <- function(target, logSpreads) {
    spreads <- exp(logSpreads)
    locations <- if (kind == "lognormal") target - spreads^2 / 2 else rep(target, length(spreads))
    over <- function(own, density) {
      colSums(matrix(density(own, rep(locations, each = length(own)), rep(spreads, each = length(own))), length(own)))
    }
    over(x[!below], function(...) dnorm(..., log = TRUE)) + over(x[below], function(...) pnorm(..., log.p = TRUE)) - jacobian
  }
  profile <- function(target) {
    grid <- seq(log(top$spread) - 12, log(top$spread) + 12, 0.02)
    best <- grid[which.max(logLikOver(target, grid))]
    optimize(function(s) logLik(target, s), best + c(-0.02, 0.02), maximum = TRUE, tol = 1e-10)$objective
  }
  middle <- if (kind == "lognormal") top$location + top$spread^2 / 2 else top$location
  side <- function(sign) {
    excess <- function(reach) top$logLik - profile(middle + sign * top$spread * reach) - rise
    outer <- 0.25
    while (excess(outer) < 0) outer <- 2 * outer
    middle + sign * top$spread * uniroot(excess, c(0, outer), tol = 1e-11 * outer)$root
  }
  found <- c(side(-1), side(1))
  if (kind == "lognormal") exp(found) else found
}

# Readings with two or three decimals, `apart` spreads above their limit.
sample_of <- function(measured, belows, apart, spread) {
  value <- round(10 + spread * rnorm(measured), 3)
  while (length(unique(value)) < 2) value <- round(10 + spread * rnorm(measured), 3)
  limit <- pmax(0.1, round(10 - apart * spread * exp(0.2 * rnorm(belows)), 2))
  list(value = c(value, limit), below = rep(c(FALSE, TRUE), c(measured, belows)))
}
means <- lapply(1:240, function(case) {
  kind <- if (case %% 3 == 0) "lognormal" else "gaussian"
  one <- sample_of(sample(2:8, 1), sample(1:8, 1), 10^runif(1, -0.5, 2.5), 10^runif(1, -2, 0.3))
  top <- peak(one$value, one$below, kind)
  list(
    values = written(one$value, one$below), kind = if (kind == "gaussian") "normal" else kind,
    location = top$location, spread = top$spread, logLikelihood = top$logLik,
    limits = signif(limits(one$value, one$below, kind, top), 8)
  )
})

# Readings with one decimal, as in a trial: 4 to 9 walls of 3 to 6 cores, of which some lie below the limit.
groups <- list()
while (length(groups) < 220) {
  walls <- sample(4:9, 1)
  cores <- sample(3:6, 1)
  value <- round(3.5 + rep(rnorm(walls), each = cores) * 0.7 + rnorm(walls * cores) * runif(1, 0.2, 0.9), 1)
  below <- value < 2.5
  value[below] <- 2.5
  wall <- factor(rep(1:walls, each = cores))
  spare <- tapply(value[!below], wall[!below], function(own) length(unique(own)))
  if (!any(below) || anyNA(spare) || length(spare) < walls || max(spare) < 2) next
  fit <- survreg(Surv(value, !below, type = "left") ~ 0 + wall, dist = "gaussian",
    control = survreg.control(maxiter = 500, rel.tolerance = 1e-14))
  groups[[length(groups) + 1]] <- list(
    groups = vapply(unname(split(seq_along(value), wall)), function(own) written(value[own], below[own]), ""),
    means = signif(unname(coef(fit)), 10), spread = fit$scale
  )
}

tool <- paste0("R ", getRversion(), ", package survival ", packageVersion("survival"))
source <- "simulated in generate.R; maxima by survreg of package survival, limits by a grid, optimize and uniroot on the likelihood"
write(toJSON(list(source = source, tool = tool, means = means, groups = groups), auto_unbox = TRUE, digits = 15), file.path(folder, "censored.json"))
