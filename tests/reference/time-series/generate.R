# Series with first-order autocorrelation on R's own data: generalised least squares by nlme, Kenward and Roger's correction,
# averaging over the autocorrelation and Newey and West's error by the textbook formulas on whole matrices.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
suppressPackageStartupMessages(library(nlme))

logRestricted <- function(y, X, R) {
  inside <- t(X) %*% solve(R, X)
  beta <- solve(inside, t(X) %*% solve(R, y))
  rss <- sum((y - X %*% beta) * solve(R, y - X %*% beta))
  df <- length(y) - ncol(X)
  list(
    beta = drop(beta), rss = rss, inside = inside,
    value = -0.5 * (determinant(R)$modulus + determinant(inside)$modulus + df * log(rss))
  )
}
correlations <- function(time, rho) {
  apart <- abs(outer(time, time, "-"))
  steps <- abs(outer(seq_along(time), seq_along(time), "-"))
  sign(rho)^steps * abs(rho)^apart
}
# Kenward and Roger (1997), derivatives of the covariance by central differences in four steps.
kenwardRoger <- function(X, time, rho, s2, weights) {
  V <- function(theta) theta[1] * correlations(time, theta[2])
  theta <- c(s2, rho)
  h <- 1e-4 * c(s2, 1)
  first <- lapply(1:2, function(i) {
    e <- replace(c(0, 0), i, h[i])
    (8 * (V(theta + e) - V(theta - e)) - (V(theta + 2 * e) - V(theta - 2 * e))) / (12 * h[i])
  })
  second <- function(i, j) {
    ei <- replace(c(0, 0), i, 10 * h[i]); ej <- replace(c(0, 0), j, 10 * h[j])
    if (i == j) return((-V(theta + 2 * ei) + 16 * V(theta + ei) - 30 * V(theta) + 16 * V(theta - ei) - V(theta - 2 * ei)) / (12 * (10 * h[i])^2))
    (V(theta + ei + ej) - V(theta + ei - ej) - V(theta - ei + ej) + V(theta - ei - ej)) / (400 * h[i] * h[j])
  }
  inv <- solve(V(theta))
  Phi <- solve(t(X) %*% inv %*% X)
  P <- lapply(first, function(d) -t(X) %*% inv %*% d %*% inv %*% X)
  information <- matrix(0, 2, 2)
  Q <- function(i, j) t(X) %*% inv %*% first[[i]] %*% inv %*% first[[j]] %*% inv %*% X
  for (i in 1:2) for (j in 1:2) {
    information[i, j] <- 0.5 * (sum(diag(inv %*% first[[i]] %*% inv %*% first[[j]])) - 2 * sum(diag(Phi %*% Q(i, j))) + sum(diag(Phi %*% P[[i]] %*% Phi %*% P[[j]])))
  }
  W <- solve(information)
  inner <- matrix(0, ncol(X), ncol(X))
  for (i in 1:2) for (j in 1:2) {
    bent <- t(X) %*% inv %*% second(i, j) %*% inv %*% X
    inner <- inner + W[i, j] * (Q(i, j) - P[[i]] %*% Phi %*% P[[j]] - bent / 4)
  }
  adjusted <- Phi + 2 * Phi %*% inner %*% Phi
  plain <- drop(t(weights) %*% Phi %*% weights)
  g <- sapply(P, function(p) -drop(t(weights) %*% Phi %*% p %*% Phi %*% weights))
  list(standardError = sqrt(drop(t(weights) %*% adjusted %*% weights)), degreesOfFreedom = 2 * plain^2 / drop(t(g) %*% W %*% g))
}
averaged <- function(y, X, time, weights) {
  df <- length(y) - ncol(X)
  at <- function(rho) {
    f <- logRestricted(y, X, correlations(time, rho))
    list(l = f$value, est = sum(weights * f$beta), se = sqrt(f$rss / df * drop(t(weights) %*% solve(f$inside, weights))))
  }
  highest <- max(sapply(seq(-0.99, 0.99, 0.01), function(r) at(r)$l))
  over <- function(g) integrate(function(theta) sapply(theta, function(a) { f <- at(sin(a)); exp(f$l - highest) * g(f, sin(a)) }), -pi / 2, pi / 2, rel.tol = 1e-9, subdivisions = 500)$value
  total <- over(function(f, r) 1)
  lower <- function(q) over(function(f, r) pt((q - f$est) / f$se, df)) / total
  f <- at(0.5)
  quantile <- function(p) uniroot(function(q) lower(q) - p, f$est + c(-25, 25) * f$se, tol = 1e-9)$root
  list(estimate = quantile(0.5), lower = quantile(0.025), upper = quantile(0.975), pValue = 2 * min(lower(0), 1 - lower(0)), correlation = over(function(f, r) r) / total)
}
neweyWest <- function(y, X, weights, lags) {
  fit <- lm.fit(X, y)
  inv <- solve(crossprod(X))
  score <- X * fit$residuals
  S <- crossprod(score)
  if (lags > 1) for (l in 1:(lags - 1)) {
    G <- crossprod(score[-(1:l), , drop = FALSE], score[1:(nrow(X) - l), , drop = FALSE])
    S <- S + (1 - l / lags) * (G + t(G))
  }
  sqrt(drop(t(weights) %*% inv %*% S %*% inv %*% weights))
}
caseOf <- function(name, y, time, X, weights, structure) {
  data <- data.frame(y = as.numeric(y), time = as.numeric(time))
  data$X <- X
  fit <- gls(y ~ 0 + X, data = data, correlation = structure, method = "REML", control = glsControl(tolerance = 1e-12, msTol = 1e-14, msMaxIter = 500, maxIter = 500))
  rho <- as.numeric(coef(fit$modelStruct$corStruct, unconstrained = FALSE))
  lags <- round(0.5 * length(y))
  list(
    name = name, response = data$y, times = data$time, columns = lapply(seq_len(ncol(X)), function(k) as.numeric(X[, k])), weights = weights,
    correlation = rho, residualVariance = fit$sigma^2, coefficients = as.numeric(coef(fit)), logLikelihood = as.numeric(logLik(fit)),
    kenwardRoger = kenwardRoger(X, data$time, rho, fit$sigma^2, weights), averaged = averaged(data$y, X, data$time, weights),
    neweyWestError = neweyWest(data$y, X, weights, lags)
  )
}
step <- function(late) cbind(1, late)
stepAndSlope <- function(time, at) cbind(1, time > at, time - at, (time - at) * (time > at))
years <- as.numeric(time(LakeHuron))
kept <- c(1, 3, 4, 6, 7, 8, 11, 12, 13, 14, 18, 19, 20, 24, 25, 26, 27, 30, 31, 32, 36, 37, 38, 41, 42, 43, 44, 48, 49, 52)
changes <- diff(as.numeric(lh))
cases <- list(
  caseOf("lh, a step in the middle", lh, 1:48, step(as.numeric(1:48 > 24)), c(0, 1), corAR1()),
  caseOf("LakeHuron, step and slope at 1920.5", LakeHuron, years, stepAndSlope(years, 1920.5), c(0, 1, 0, 20), corAR1()),
  caseOf("LakeHuron, 30 years with gaps, a step", LakeHuron[kept], years[kept], step(as.numeric(years[kept] > 1899.5)), c(0, 1), corCAR1(0.5, form = ~time)),
  caseOf("changes of lh, neighbours opposed", changes[1:24], 1:24, step(as.numeric(1:24 > 12)), c(0, 1), corAR1())
)
text <- jsonlite::toJSON(
  list(
    source = "lh and LakeHuron of R's datasets; gls of nlme, formulas of Kenward and Roger 1997, of Newey and West 1987, and integrate() over the autocorrelation",
    tool = paste0("R ", getRversion(), ", nlme ", packageVersion("nlme")), cases = cases
  ),
  digits = I(17), auto_unbox = TRUE, pretty = FALSE
)
writeLines(text, file.path(folder, "time-series.json"))
