# A meter in ohms that runs over four decades, calibrated by Deming's line on the base-10 logarithm, walls as the units; moisture from a
# reading by Fieller's argument, from the roots of the excess itself. And what a straight line in ohms makes of the same pairs.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]

wall <- rep(sprintf("W%02d", 1:12), each = 4); k <- 1:48
truth <- rep(seq(1.5, 13, length.out = 12), each = 4) + rep(c(-0.6, -0.2, 0.3, 0.5), 12)
moisture <- round(truth + 0.35 * sin(7.3 * k), 2)
ohms <- signif(10^(6.5 - 0.25 * truth + 0.09 * cos(3.1 * k)), 3)

line <- function(x, y, lambda) {
  sxx <- var(x); syy <- var(y); sxy <- cov(x, y)
  b <- (syy - lambda * sxx + sqrt((syy - lambda * sxx)^2 + 4 * lambda * sxy^2)) / (2 * sxy)
  c(b, mean(y) - b * mean(x))
}
fit <- function(y, lambda, y0) {
  est <- line(moisture, y, lambda); units <- unique(wall); n <- length(units)
  jack <- sapply(units, function(u) line(moisture[wall != u], y[wall != u], lambda))
  centred <- jack - rowMeans(jack); v <- (n - 1) / n * centred %*% t(centred); q <- qt(0.975, n - 2)
  scatter <- sqrt(sum((y - est[2] - est[1] * moisture)^2) / (length(y) - 2))
  missed <- unlist(lapply(seq_along(y), function(i) { j <- jack[, match(wall[i], units)]; (y[i] - j[2]) / j[1] - moisture[i] }))
  x0 <- (y0 - est[2]) / est[1]
  excess <- function(at) (y0 - est[2] - est[1] * at)^2 - q^2 * (scatter^2 + v[2, 2] + 2 * at * v[1, 2] + at^2 * v[1, 1])
  list(slope = est[1], slopeError = sqrt(v[1, 1]), reach = q, intercept = est[2], scatter = scatter, rootMeanSquareUnseen = sqrt(mean(missed^2)), moisture = x0,
       lower = uniroot(excess, c(x0 - 30, x0), tol = 1e-13)$root, upper = uniroot(excess, c(x0, x0 + 30), tol = 1e-13)$root)
}
lambda <- 0.05; reading <- 47000
out <- list(note = "DO NOT EDIT: made by generate.R", version = R.version.string, wall = wall, moisture = moisture, ohms = ohms, errorRatio = lambda, reading = reading,
            logarithmic = fit(log10(ohms), lambda, log10(reading)))
# In ohms no line can be read backwards at every reading: its miss on unseen walls alone is kept.
straight <- local({ y <- ohms; est <- 1e12; units <- unique(wall)
  jack <- sapply(units, function(u) line(moisture[wall != u], y[wall != u], est))
  sqrt(mean(sapply(seq_along(y), function(i) { j <- jack[, match(wall[i], units)]; (y[i] - j[2]) / j[1] - moisture[i] })^2)) })
out$straight <- list(errorRatio = 1e12, rootMeanSquareUnseen = straight)
write_json(out, file.path(folder, "logarithmic-meter.json"), digits = NA, auto_unbox = TRUE, pretty = TRUE)
