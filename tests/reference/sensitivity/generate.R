# Sensitivity of a difference of means to missing units, to hidden causes and to selection by value, by other routes than the formulas:
# missing units filled in, truncated normal moments integrated numerically, ratios written out.
suppressMessages({ library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

# The missing units filled in with the least and the greatest value observed.
missing <- function(name, x, y, missing_x, missing_y) {
  values <- c(x, y)
  extreme <- function(for_x, for_y) mean(c(x, rep(for_x, missing_x))) - mean(c(y, rep(for_y, missing_y)))
  list(name = name, x = x, y = y, missing = list(x = missing_x, y = missing_y),
       lower = extreme(min(values), max(values)), upper = extreme(max(values), min(values)))
}

regression <- function(mean, sd, icc, cutoff, selected, m) {
  spread <- sd * sqrt(icc + (1 - icc) / m)
  range <- if (selected == "above") c(cutoff, mean + 12 * spread) else c(mean - 12 * spread, cutoff)
  area <- integrate(function(v) dnorm(v, mean, spread), range[1], range[2], rel.tol = 1e-12)$value
  first <- integrate(function(v) v * dnorm(v, mean, spread), range[1], range[2], rel.tol = 1e-12)$value / area
  # Measured again, a unit is expected at the regression line through the mean.
  again <- mean + icc / (icc + (1 - icc) / m) * (first - mean)
  list(mean = mean, standardDeviation = sd, reliability = icc, cutoff = cutoff, selected = selected, measurements = m,
       expected = abs(first - again), selectedMean = first, meanAgain = again)
}

ratio <- function(rr, lower, upper) {
  # The smallest equal pair of ratios whose bounding factor B = q^2 / (2 q - 1) reaches the ratio.
  needed <- function(r) if (r <= 1) 1 else uniroot(function(q) q^2 / (2 * q - 1) - r, c(r, 2 * r + 1), tol = 1e-13)$root
  limit <- if (rr >= 1) lower else 1 / upper
  list(estimate = rr, lower = lower, upper = upper, forEstimate = needed(max(rr, 1 / rr)), forLimit = needed(limit))
}
difference <- function(d, se) {
  # 1.78 is printed in the paper: 0.91 times 1.96, rounded.
  r <- ratio(exp(0.91 * abs(d)), exp(0.91 * abs(d) - 1.78 * se), exp(0.91 * abs(d) + 1.78 * se))
  list(difference = d, standardError = se, forEstimate = r$forEstimate, forLimit = r$forLimit)
}

of_kind <- function(kind, ...) lapply(list(...), function(case) c(list(kind = kind), case))

change <- with(anorexia, Postwt - Prewt)
sleeping <- split(sleep$extra, sleep$group)
record <- list(
  source = "missing units filled in; truncated normal means by integrate; the bounding factor of VanderWeele and Ding solved by uniroot",
  tool = paste0(R.version.string, ", MASS ", packageVersion("MASS")),
  cases = c(
    of_kind("missing",
      missing("MASS::anorexia, weight change, FT against Cont, two and three missing", change[anorexia$Treat == "FT"], change[anorexia$Treat == "Cont"], 2, 3),
      missing("datasets::sleep as two groups, one missing on each side", sleeping[[1]], sleeping[[2]], 1, 1)),
    of_kind("regression",
      regression(60, 15, 0.25, 40, "below", 1), regression(60, 15, 0.75, 40, "below", 1), regression(7, 3, 0.7, 10, "above", 1),
      regression(7, 3, 0.7, 10, "above", 2), regression(7, 3, 0.7, 10, "above", 3), regression(9.5, 1.6, 0.4, 8, "above", 2)),
    of_kind("difference", difference(0.5, 0.1), difference(-1.9, 0.62), difference(0.2, 0.3))))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "sensitivity.json"))
