# Posterior of a difference: t likelihood times normal prior by integrate and uniroot.
suppressMessages({ library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

posterior <- function(name, estimate, se, df, mean, sd, margin, level) {
  log_density <- function(x) (if (is.finite(df)) dt((x - estimate) / se, df, log = TRUE) else dnorm((x - estimate) / se, log = TRUE)) + dnorm(x, mean, sd, log = TRUE)
  # Cut at the mode and at steps away from it, so that integrate misses nothing.
  mode <- optimize(log_density, range(c(estimate, mean)) + c(-1, 1) * min(se, sd), maximum = TRUE, tol = 1e-10)$maximum
  top <- log_density(mode)
  density <- function(x) exp(log_density(x) - top)
  width <- 1 / sqrt(1 / se^2 + 1 / sd^2)
  cuts <- sort(unique(c(mode + width * c(-4, -1.5, 0, 1.5, 4), mean + sd * c(-12, -4, 4, 12), estimate)))
  between <- function(f, from, to) {
    ends <- c(from, cuts[cuts > from & cuts < to], to)
    sum(mapply(function(a, b) integrate(f, a, b, rel.tol = 1e-12, abs.tol = 0, subdivisions = 2000)$value, head(ends, -1), tail(ends, -1)))
  }
  low <- mean - 14 * sd; high <- mean + 14 * sd
  total <- between(density, low, high)
  lower <- function(x) between(density, low, x) / total
  first <- between(function(x) x * density(x), low, high) / total
  second <- between(function(x) (x - first)^2 * density(x), low, high) / total
  quantile <- function(p) uniroot(function(x) lower(x) - p, c(first - 10 * sqrt(second), first + 10 * sqrt(second)), tol = 1e-13)$root
  list(name = name, estimate = estimate, standardError = se, degreesOfFreedom = if (is.finite(df)) df else "infinite", priorMean = mean, priorSd = sd,
       margin = margin, level = level, mean = first, standardDeviation = sqrt(second), median = quantile(0.5),
       lower = quantile((1 - level) / 2), upper = quantile((1 + level) / 2),
       belowZero = lower(0), belowMargin = lower(-margin), aboveMargin = 1 - lower(margin))
}

welch <- function(x, y) { t <- t.test(x, y); list(estimate = mean(x) - mean(y), se = t$stderr, df = t$parameter[[1]]) }
change <- with(anorexia, Postwt - Prewt)
a <- welch(change[anorexia$Treat == "FT"], change[anorexia$Treat == "Cont"])
p <- welch(PlantGrowth$weight[11:20], PlantGrowth$weight[1:10])
s <- t.test(sleep$extra[1:10] - sleep$extra[11:20])
sceptical <- function(margin, beyond) margin / qnorm(1 - beyond)

cases <- list(
  posterior("MASS::anorexia, FT against Cont, sceptical of 5 lb", a$estimate, a$se, a$df, 0, sceptical(5, 0.05), 5, 0.95),
  posterior("datasets::PlantGrowth, trt1 against ctrl, normal prior at 0.2", p$estimate, p$se, p$df, 0.2, 0.5, 0.4, 0.9),
  posterior("datasets::sleep in pairs, sceptical of 1 h", unname(s$estimate), s$stderr, 9, 0, sceptical(1, 0.1), 1, 0.95),
  posterior("two degrees of freedom, data and prior five standard errors apart", -5, 1, 2, 0, 1, 2, 0.95),
  posterior("one degree of freedom, wide prior", 3, 0.4, 1, 0, 20, 2, 0.8),
  posterior("narrow prior", 3, 2, 6, 0, 0.1, 0.2, 0.95),
  posterior("known standard error", -2.5, 0.6, Inf, 0, 1.2, 2, 0.95))

record <- list(source = "dt and dnorm multiplied, integrate and uniroot, on data sets that R packages carry",
               tool = paste0(R.version.string, ", MASS ", packageVersion("MASS")), cases = cases, scepticalSd = sceptical(2, 0.05))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "bayes.json"))
