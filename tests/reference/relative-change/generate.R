# Relative changes: ratios of means with Fieller's limits, as the roots of the excess itself; Satterthwaite's degrees of freedom for unpaired walls.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]

tb <- c(9.1, 7.4, 10.2, 8.3, 6.9, 9.8, 7.7); ta <- c(5.0, 4.9, 6.1, 3.8, 4.4, 5.9, 3.1)
ub <- c(8.8, 7.1, 9.9, 8.6, 7.4, 9.0, 8.1); ua <- c(8.1, 7.2, 8.9, 8.4, 6.6, 8.9, 7.2)
limits <- function(a, b, var_of, df) {
  q <- qt(0.975, df); r0 <- a / b; excess <- function(r) (a - r * b)^2 - q^2 * var_of(r)
  100 * c(uniroot(excess, c(r0 - 3, r0), tol = 1e-14)$root, uniroot(excess, c(r0, r0 + 3), tol = 1e-14)$root)
}
one <- function(change, before) {
  n <- length(change); l <- limits(mean(change), mean(before), function(r) var(change - r * before) / n, n - 1)
  list(estimate = 100 * mean(change) / mean(before), lower = l[1], upper = l[2])
}
ct <- ta - tb; cu <- ua - ub
welch <- function(ct, tb, cu) {
  d <- mean(ct) - mean(cu); r0 <- d / mean(tb); v1 <- var(ct - r0 * tb) / length(ct); v2 <- var(cu) / length(cu)
  df <- (v1 + v2)^2 / (v1^2 / (length(ct) - 1) + v2^2 / (length(cu) - 1))
  l <- limits(d, mean(tb), function(r) var(ct - r * tb) / length(ct) + var(cu) / length(cu), df)
  list(estimate = 100 * r0, lower = l[1], upper = l[2], degreesOfFreedom = df)
}
# Blocks of several walls, one of them one-sided in number: change and before value by least squares on arm and block, residual covariance of both.
block <- factor(c(1, 2, 2, 1, 3, 3, 3, 1, 2, 2, 1, 3, 1, 2)); arm <- rep(1:0, each = 7)
fit <- lm(cbind(change = c(ct, cu), before = c(tb, ub)) ~ arm + block); S <- crossprod(resid(fit)) / df.residual(fit)
X <- model.matrix(fit); w <- solve(crossprod(X), t(X))["arm", ]; v <- arm / sum(arm)
in_blocks <- function() {
  a <- coef(fit)["arm", "change"]; b <- mean(tb)
  l <- limits(a, b, function(r) S[1, 1] * sum(w^2) - 2 * r * S[1, 2] * sum(w * v) + r^2 * S[2, 2] * sum(v^2), df.residual(fit))
  list(estimate = 100 * unname(a) / b, lower = l[1], upper = l[2])
}
out <- list(note = "DO NOT EDIT: made by generate.R", version = R.version.string, treated = list(before = tb, after = ta), untreated = list(before = ub, after = ua),
            ofTreated = one(ct, tb), ofUntreated = one(cu, ub), complete = welch(ct, tb, cu[1:5]), pairs = one(ct - cu, tb), block = as.integer(block), blocks = in_blocks())
write_json(out, file.path(folder, "relative-change.json"), digits = NA, auto_unbox = TRUE, pretty = TRUE)
