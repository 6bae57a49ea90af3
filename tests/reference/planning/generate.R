# Planning: chances of verdicts by power.t.test, by the noncentral t of pt, and by nested integrals over both variances; block designs by lm.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]
tight <- function(f, lower, upper) integrate(f, lower, upper, rel.tol = 1e-10, abs.tol = 1e-14, subdivisions = 2000)$value

# All chances of a t interval with df degrees of freedom, by integration over the root of the chi-square.
verdicts <- function(effect, se, df, level, margin) {
  critical <- qt(1 - (1 - level) / 2, df)
  over <- function(chance) {
    f <- function(s) sapply(s, function(one) chance(critical * one * se)) * 2 * df * s * dchisq(df * s^2, df)
    bend <- margin / 2 / critical / se
    ends <- sort(c(0, min(bend, 12), 1, 3, 12)); ends <- unique(ends[ends <= 12])
    sum(sapply(seq_len(length(ends) - 1), function(i) if (ends[i + 1] > ends[i]) tight(f, ends[i], ends[i + 1]) else 0))
  }
  below <- function(x) pnorm(x, effect, se)
  list(worthwhile = pt(critical, df, (effect - margin) / se, lower.tail = FALSE),
       harmful = pt(-critical, df, effect / se),
       smaller = over(function(h) max(0, below(margin - h) - below(h))),
       none = over(function(h) max(0, below(min(h, margin - h)) - below(-h))),
       undecided = over(function(h) max(0, below(h) - below(margin - h))))
}
student <- lapply(list(c(4, 0.6, 11, 0.95, 2), c(0, 0.6, 11, 0.95, 2), c(1, 0.3, 5, 0.9, 2), c(2, 1.5, 2, 0.95, 2), c(3, 0.4, 40, 0.99, 1)), function(v)
  c(list(effect = v[1], standardError = v[2], degreesOfFreedom = v[3], level = v[4], margin = v[5]), verdicts(v[1], v[2], v[3], v[4], v[5])))

paired <- lapply(list(c(8, 1, 1.2, 0.95), c(12, 0.5, 0.8, 0.95), c(20, 1, 2, 0.9)), function(v)
  list(pairs = v[1], effect = v[2], sd = v[3], level = v[4],
       power = power.t.test(v[1], v[2], v[3], 1 - v[4], type = "paired", strict = TRUE)$power))

# Welch's interval of two arms that vary alike: P(lower limit > mark) by two nested integrals.
welch <- lapply(list(c(6, 6, 3, 1.5, 2), c(12, 4, 3, 1, 0), c(3, 9, 4, 1.2, 2), c(2, 2, 5, 1, 0)), function(v) {
  n1 <- v[1]; n2 <- v[2]; effect <- v[3]; sd <- v[4]; mark <- v[5]
  f1 <- n1 - 1; f2 <- n2 - 1; se0 <- sd * sqrt(1 / n1 + 1 / n2)
  inner <- function(u1) sapply(u1, function(one) tight(function(u2) sapply(u2, function(two) {
    w1 <- sd^2 * one^2 / n1; w2 <- sd^2 * two^2 / n2
    df <- (w1 + w2)^2 / (w1^2 / f1 + w2^2 / f2)
    half <- qt(0.975, df) * sqrt(w1 + w2)
    pnorm(mark + half, effect, se0, lower.tail = FALSE)
  }) * 2 * f2 * u2 * dchisq(f2 * u2^2, f2), 1e-9, 9))
  value <- integrate(function(u1) inner(u1) * 2 * f1 * u1 * dchisq(f1 * u1^2, f1), 1e-9, 9, rel.tol = 1e-8, subdivisions = 500)$value
  list(treated = n1, untreated = n2, effect = effect, sd = sd, mark = mark, chance = value)
})

# The standard error of the arm in least squares on arm and block, for a residual standard deviation of 1, and its degrees of freedom.
blocks <- lapply(list(c(6, 2, 2), c(5, 2, 1), c(4, 3, 2)), function(v) {
  data <- expand.grid(unit = seq_len(v[2] + v[3]), block = seq_len(v[1])); data$arm <- as.numeric(data$unit <= v[2])
  fit <- lm(rnorm(nrow(data)) ~ arm + factor(block), data)
  list(blocks = v[1], treated = v[2], untreated = v[3], standardError = sqrt(summary(fit)$cov.unscaled["arm", "arm"]), degreesOfFreedom = fit$df.residual)
})

# Houses: generalised least squares of walls whose covariance is exchangeable inside a house; the intercept's variance is that of an arm's mean.
houses <- lapply(list(c(6, 3, 0.3), c(10, 20, 0.05), c(4, 5, 0)), function(v) {
  one <- matrix(v[3], v[2], v[2]); diag(one) <- 1
  whole <- kronecker(diag(v[1]), one); ones <- rep(1, v[1] * v[2])
  list(houses = v[1], walls = v[2], correlation = v[3], variance = 1 / as.numeric(t(ones) %*% solve(whole) %*% ones))
})

# Autocorrelated visits: the mean of a stationary first-order series.
visits <- lapply(list(c(4, 0.3), c(12, 0.7), c(5, -0.4)), function(v)
  list(visits = v[1], autocorrelation = v[2], variance = mean(toeplitz(v[2]^(seq_len(v[1]) - 1)))))

widths <- lapply(list(c(9, 0.95), c(22, 0.9), c(3, 0.95)), function(v)
  list(degreesOfFreedom = v[1], level = v[2],
       width = 2 * qt(1 - (1 - v[2]) / 2, v[1]) * sqrt(2 / v[1]) * exp(lgamma((v[1] + 1) / 2) - lgamma(v[1] / 2))))

# Whole designs, reading by reading: the covariance matrix of every reading before and after, and the variance of the contrast of means,
# treated less untreated, after less before. Groups are pairs, houses or single walls; sides are the arms of the walls of each group.
contrasts <- lapply(list(
  list(name = "complete", groups = 7, sides = list(1, 0), r = 0, walls = 1.2, stations = 0.9, visits = 0.4, readings = 1.1, a = 0.3, n = c(3, 2, 4)),
  list(name = "pairs", groups = 6, sides = list(c(1, 0)), r = 0.5, walls = 1.5, stations = 0.7, visits = 0.6, readings = 0.8, a = 0.6, n = c(2, 3, 5)),
  list(name = "pairs", groups = 5, sides = list(c(1, 0)), r = -0.3, walls = 0.8, stations = 1.4, visits = 0.2, readings = 1.6, a = -0.4, n = c(4, 2, 2)),
  list(name = "houses", groups = 4, sides = list(c(1, 1, 1), c(0, 0, 0)), r = 0.25, walls = 2, stations = 0.5, visits = 1, readings = 0.3, a = 0.2, n = c(2, 4, 3))
), function(d) {
  walls <- do.call(rbind, lapply(seq_along(d$sides), function(s) data.frame(
    group = rep(paste(s, seq_len(d$groups)), each = length(d$sides[[s]])), side = rep(d$sides[[s]], d$groups))))
  walls$wall <- seq_len(nrow(walls))
  visits <- rbind(data.frame(window = 0, visit = seq_len(d$n[2])), data.frame(window = 1, visit = seq_len(d$n[3])))
  rows <- merge(merge(walls, data.frame(station = seq_len(d$n[1]))), visits)
  same <- function(x) outer(x, x, "==") * 1
  both <- outer(rows$window, rows$window)
  wall <- same(rows$wall); window <- same(rows$window)
  # True changes enter the readings after; levels go out of the contrast and are left out.
  covariance <- d$walls^2 * both * (wall + d$r * (same(rows$group) - wall)) +
    d$stations^2 * both * wall * same(rows$station) +
    d$visits^2 * wall * window * d$a^abs(outer(rows$visit, rows$visit, "-")) +
    d$readings^2 * diag(nrow(rows))
  weight <- ifelse(rows$window == 1, 1, -1) * ifelse(rows$side == 1, 1, -1)
  weight <- weight / ave(weight, rows$window, rows$side, FUN = length)
  list(kind = d$name, groups = d$groups, size = length(d$sides[[1]]), correlation = d$r, walls = d$walls, stations = d$stations, visits = d$visits,
       readings = d$readings, autocorrelation = d$a, sampling = d$n, standardError = sqrt(as.numeric(t(weight) %*% covariance %*% weight)))
})

writeLines(toJSON(list(source = "power.t.test, pt, integrate, lm and solve of R", tool = R.version.string,
  student = student, paired = paired, welch = welch, blocks = blocks, houses = houses, visits = visits, widths = widths, contrasts = contrasts),
  auto_unbox = TRUE, digits = 15, pretty = TRUE), file.path(folder, "planning.json"))
