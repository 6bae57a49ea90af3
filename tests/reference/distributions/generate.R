# Tails, densities and quantiles of distributions, by ways that are not ours: densities integrated in 140-bit arithmetic,
# and for the noncentral t and the studentised range R's own chi-square and normal functions averaged.
# Rscript generate.R OUTPUT-FOLDER; some two minutes, most of it 140-bit arithmetic.
# R's own functions of the same names supply starting points and, as "base", values to compare with: they are not the
# yardstick, because R's own noncentral t is off by 1e-5 in far tails and its gamma and beta by 1e-10 for huge shapes.
suppressPackageStartupMessages({ library(Rmpfr); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]
bits <- 140
big <- function(x) mpfr(x, bits)

# Integral of exp(logWeight) from l to infinity (direction 1) or from minus infinity to l (direction -1), for a
# log-concave weight that falls in that direction.
integrateAway <- function(logWeight, l, direction, scale) {
  at <- function(tau) {
    u <- scale * exp(Const("pi", bits) / 2 * sinh(tau))
    exp(logWeight(l + direction * u)) * u * cosh(tau) * (Const("pi", bits) / 2)
  }
  from <- -4.4; to <- 2
  h <- 1 / 8
  total <- sum(at(big(seq(from, to, by = h))))
  previous <- total * h
  repeat {
    total <- total + sum(at(big(seq(from + h / 2, to - h / 2, by = h))))
    h <- h / 2
    value <- total * h
    # The error squares with each halving, so the value is good to twice these digits.
    if (abs(value - previous) < 1e-14 * value) return(value)
    stopifnot(h > 1 / 500)
    previous <- value
  }
}

# How far from l, in that direction, the weight has fallen by a factor e, to some two hundredths: only the unit in which the
# integral is taken. By whole ladders of points, because a call takes longer than the numbers in it.
reach <- function(logWeight, l, direction) {
  here <- logWeight(l)
  fallen <- function(u) as.numeric(here - logWeight(l + direction * u)) >= 1
  first <- function(ladder) c(ladder[fallen(ladder)], ladder[length(ladder)])[1]
  far <- first(1e-8 * 4^(0:24))
  first(far * 4^(-(63:0) / 64))
}

# Both tails at l, the logarithm (or log odds) of the point: one integrated away from the peak, the other its complement.
bothTails <- function(logWeight, l, whole, mode) {
  left <- reach(logWeight, l, -1)
  right <- reach(logWeight, l, 1)
  direction <- if (l < mode || left < right) -1 else 1
  tail <- integrateAway(logWeight, l, direction, big(if (direction == 1) right else left))
  if (direction == 1) list(lower = whole - tail, upper = tail) else list(lower = tail, upper = whole - tail)
}

number <- function(x) as.numeric(x)

probabilities <- c(1e-300, 1e-60, 1e-12, 1e-4, 0.05, 0.4)

# One case for each probability on each side: a double near the quantile, everything there, and the quantile itself
# by a last Newton step so small that what it leaves out is its square. A point that no double holds is left out.
casesOf <- function(parameters, family, sides = c("lower", "upper")) {
  cases <- list()
  for (side in sides) for (p in probabilities) {
    l <- big(family$start(p, side))
    if (!is.finite(l) || abs(l) > 650) next
    x <- 0
    for (step in 1:60) {
      previous <- x
      x <- number(family$point(l))
      if (x <= 1e-290 || x >= family$greatest || x == previous) break
      l <- family$logPoint(big(x))
      tails <- bothTails(family$logWeight, l, family$whole, family$mode)
      weight <- exp(family$logWeight(l))
      move <- log(tails[[side]] / big(p)) * tails[[side]] / weight * (if (side == "lower") -1 else 1)
      l <- l + max(min(move, 3), -3)
      if (abs(move) < 1e-8) break
    }
    if (x <= 1e-290 || x >= family$greatest || abs(move) >= 1e-8) next
    cases[[length(cases) + 1]] <- list(
      parameters = I(parameters), side = side, probability = p, quantile = number(family$point(l)), x = x,
      density = number(weight * family$jacobian(big(x))),
      lower = number(tails$lower + family$offset), upper = number(tails$upper),
      base = list(lower = family$base(x, TRUE), upper = family$base(x, FALSE))
    )
  }
  cases
}

studentT <- function(df) {
  n <- big(df)
  constant <- lgamma((n + 1) / 2) - lgamma(n / 2) - log(n * Const("pi", bits)) / 2
  list(
    logWeight = function(l) l + constant - (n + 1) / 2 * log1p(exp(2 * l) / n),
    mode = 0, whole = big(0.5), offset = big(0.5), greatest = 1e300,
    start = function(p, side) log(qt(log(p), df, lower.tail = FALSE, log.p = TRUE)),
    point = exp, logPoint = log, jacobian = function(x) 1 / x,
    base = function(x, lower) pt(x, df, lower.tail = lower)
  )
}

gammaFamily <- function(shape, rate, base, quantile) {
  a <- big(shape)
  constant <- lgamma(a)
  list(
    logWeight = function(l) a * l - exp(l) - constant,
    mode = log(a), whole = big(1), offset = big(0), greatest = 1e300,
    start = function(p, side) {
      q <- quantile(log(p), side == "lower") * rate
      if (q > 1e-290) log(q) else (log(p) + lgamma(shape + 1)) / shape
    },
    point = function(l) exp(l) / rate, logPoint = function(x) log(x * rate), jacobian = function(x) 1 / x, base = base
  )
}
gammaCase <- function(shape, rate) gammaFamily(shape, rate,
  function(x, lower) pgamma(x, shape, rate, lower.tail = lower),
  function(logP, lower) qgamma(logP, shape, rate, lower.tail = lower, log.p = TRUE))
chiSquareCase <- function(df) gammaFamily(df / 2, 0.5,
  function(x, lower) pchisq(x, df, lower.tail = lower),
  function(logP, lower) qchisq(logP, df, lower.tail = lower, log.p = TRUE))

logOddsWeight <- function(a, b) {
  constant <- lgamma(a) + lgamma(b) - lgamma(a + b)
  function(l) -a * log1p(exp(-l)) - b * log1p(exp(l)) - constant
}
clampOdds <- function(odds, powerLaw) if (is.finite(odds) && abs(odds) < 600) odds else powerLaw
betaCase <- function(shape1, shape2) {
  a <- big(shape1); b <- big(shape2)
  list(
    logWeight = logOddsWeight(a, b), mode = log(a / b), whole = big(1), offset = big(0), greatest = 1,
    start = function(p, side) {
      q <- suppressWarnings(qbeta(log(p), shape1, shape2, lower.tail = side == "lower", log.p = TRUE))
      law <- if (side == "lower") (log(p) + log(shape1) + lbeta(shape1, shape2)) / shape1
             else -(log(p) + log(shape2) + lbeta(shape1, shape2)) / shape2
      clampOdds(qlogis(q), law)
    },
    point = function(l) 1 / (1 + exp(-l)), logPoint = function(x) log(x / (1 - x)),
    jacobian = function(x) 1 / (x * (1 - x)),
    base = function(x, lower) pbeta(x, shape1, shape2, lower.tail = lower)
  )
}
fisherCase <- function(df1, df2) {
  a <- big(df1) / 2; b <- big(df2) / 2
  ratio <- a / b
  list(
    logWeight = logOddsWeight(a, b), mode = log(a / b), whole = big(1), offset = big(0), greatest = 1e300,
    start = function(p, side) {
      q <- suppressWarnings(qf(log(p), df1, df2, lower.tail = side == "lower", log.p = TRUE))
      law <- if (side == "lower") (log(p) + log(df1 / 2) + lbeta(df1 / 2, df2 / 2)) / (df1 / 2)
             else -(log(p) + log(df2 / 2) + lbeta(df1 / 2, df2 / 2)) / (df2 / 2)
      clampOdds(log(q * df1 / df2), law)
    },
    point = function(l) exp(l) / ratio, logPoint = function(x) log(x * ratio), jacobian = function(x) 1 / x,
    base = function(x, lower) pf(x, df1, df2, lower.tail = lower)
  )
}

normalCases <- lapply(c(0, 1e-9, 0.01, 0.3, 0.9999, 1, 1.6, 3, 7, 8.5, 15, 26, 37), function(z) {
  upper <- erfc(big(z) / sqrt(big(2))) / 2
  list(parameters = I(c(0, 1)), x = z, density = number(exp(-big(z)^2 / 2) / sqrt(2 * Const("pi", bits))),
       lower = number(1 - upper), upper = number(upper),
       base = list(lower = pnorm(z), upper = pnorm(z, lower.tail = FALSE)))
})
# Quantiles of the normal, from R's start polished in 140 bits.
normalQuantiles <- lapply(c(1e-300, 1e-100, 1e-20, 1e-12, 1e-5, 0.025, 0.2, 0.29, 0.31, 0.45, 0.499999), function(q) {
  z <- big(qnorm(q, lower.tail = FALSE))
  for (step in 1:4) z <- z + (erfc(z / sqrt(big(2))) / 2 - q) / (exp(-z^2 / 2) / sqrt(2 * Const("pi", bits)))
  list(probability = q, x = number(z))
})

binomialCases <- list()
for (setting in list(c(1, 0.3), c(10, 0.5), c(24, 0.03), c(100, 0.999), c(1000, 1e-5), c(12345, 0.4), c(1e6, 0.25))) {
  n <- setting[1]; p <- setting[2]
  counts <- unique(c(0, n, qbinom(c(1e-200, 1e-50, 1e-12, 0.01, 0.5, 0.99), n, p),
                     qbinom(c(1e-200, 1e-50, 1e-12), n, p, lower.tail = FALSE)))
  for (k in sort(counts)) {
    exact <- function(j) exp(lgamma(big(n) + 1) - lgamma(big(j) + 1) - lgamma(big(n - j) + 1) +
                             j * log(big(p)) + (n - j) * log(1 - big(p)))
    odds <- big(p) / (1 - big(p))
    runUp <- function(from) {
      if (from > n) return(big(0))
      steps <- seq_len(min(n - from, 8000))
      first <- exact(from)
      if (length(steps) == 0) return(first)
      first * (1 + sum(cumprod((big(n) - from - steps + 1) / (from + steps) * odds)))
    }
    runDown <- function(from) {
      if (from < 0) return(big(0))
      steps <- seq_len(min(from, 8000))
      first <- exact(from)
      if (length(steps) == 0) return(first)
      first * (1 + sum(cumprod((from - steps + 1) / (big(n) - from + steps) / odds)))
    }
    if (k > n * p) { upper <- runUp(k + 1); lower <- 1 - upper } else { lower <- runDown(k); upper <- 1 - lower }
    binomialCases[[length(binomialCases) + 1]] <- list(
      parameters = I(setting), x = k, density = number(exact(k)), lower = number(lower), upper = number(upper),
      base = list(lower = pbinom(k, n, p), upper = pbinom(k, n, p, lower.tail = FALSE)))
  }
}

# Noncentral t and studentised range, in double precision: positive analytic integrands over log s, where df * s^2 is
# chi-square, by the trapezoidal rule with R's own chi-square and normal functions on the logarithmic scale.
logChiWeight <- function(u, df) dchisq(df * exp(2 * u), df, log = TRUE) + log(2 * df) + 2 * u
# Wide enough for the peak that far tails shift: small s for a far point, large s for a large noncentrality.
grid <- function(df, reachLeft, reachRight) {
  fine <- min(0.02, 0.1 / sqrt(2 * df + max(reachLeft, reachRight)^2))
  seq(-80 / df - 13 / sqrt(2 * df) - log1p(reachLeft^2 / df),
      min(2.5, 13 / sqrt(2 * df)) + log1p(reachRight^2 / df), by = fine)
}
meanOverS <- function(logConditional, df, t, shift) {
  u <- grid(df, t, shift)
  sum(exp(logChiWeight(u, df) + logConditional(exp(u)))) * (u[2] - u[1])
}
noncentralAbove <- function(t, df, shift)
  meanOverS(function(s) pnorm(t * s - shift, lower.tail = FALSE, log.p = TRUE), df, t, shift)

noncentralCases <- list()
for (setting in list(c(0.7, 0.5), c(2, -1), c(3.37, 3), c(10, 0.1), c(22, 2.5), c(22, -6), c(58.3, 12), c(1000, 1),
                     c(1e5, 30), c(7.5, 37))) {
  df <- setting[1]; shift <- setting[2]
  for (t in unique(signif(c(-40, -3, 0, shift - 1.3, shift, shift * 1.2 + 4, shift + 25, 200), 6))) {
    noncentralCases[[length(noncentralCases) + 1]] <- list(
      parameters = I(setting), x = t,
      density = meanOverS(function(s) log(s) + dnorm(t * s - shift, log = TRUE), df, t, shift),
      lower = noncentralAbove(-t, df, -shift), upper = noncentralAbove(t, df, shift),
      base = list(lower = suppressWarnings(pt(t, df, shift)), upper = suppressWarnings(pt(t, df, shift, lower.tail = FALSE))))
  }
}

noncentralityCases <- lapply(list(c(2.5, 20, 0.95), c(0, 3, 0.9), c(-7.2, 11.5, 0.95), c(1.1, 5, 0.99), c(30, 46, 0.95)), function(s) {
  tail <- (1 - s[3]) / 2
  limit <- function(t) uniroot(function(d) log(max(noncentralAbove(t, s[2], d), 1e-300) / tail), c(-100, 100), tol = 1e-13)$root
  list(t = s[1], degreesOfFreedom = s[2], level = s[3], lower = limit(s[1]), upper = -limit(-s[1]))
})

# Points of the standard normal scale, with what every call needs of them.
points <- seq(-13, 45, by = 1 / 16)
densities <- dnorm(points); belows <- pnorm(points); aboves <- pnorm(points, lower.tail = FALSE)
rangeCases <- list()
for (setting in list(c(3, 1.5), c(3, 10), c(4, 7.7), c(6, 24), c(10, 60), c(25, 1000), c(100, 1e6))) {
  groups <- setting[1]; df <- setting[2]
  for (q in c(0.1, 1, 3.5, 8, 20, 60)) {
    u <- grid(df, q, 0)
    inner <- sapply(exp(u), function(s) {
      w <- q * s
      k <- seq_len(floor((min(w / 2 + 13, 45) + 13) * 16 + 1e-10) + 1)
      density <- densities[k]; below <- belows[k]
      low <- points[k] - w
      belowLow <- pnorm(low)
      # Probability of a normal value between z - w and z, from the tails on the side where they do not cancel.
      gap <- below - belowLow
      right <- low > 0
      gap[right] <- pnorm(low[right], lower.tail = FALSE) - aboves[k][right]
      one <- groups / 16
      c(below = one * sum(density * gap^(groups - 1)),
        above = one * sum(-density * below^(groups - 1) *
                          expm1((groups - 1) * log1p(-pmin(1, belowLow / below)))),
        density = s * one * (groups - 1) * sum(density * dnorm(low) * gap^(groups - 2)))
    })
    total <- function(name) sum(exp(logChiWeight(u, df)) * inner[name, ]) * (u[2] - u[1])
    rangeCases[[length(rangeCases) + 1]] <- list(
      parameters = I(setting), x = q, density = total("density"), lower = total("below"), upper = total("above"),
      base = list(lower = ptukey(q, groups, df), upper = ptukey(q, groups, df, lower.tail = FALSE)))
  }
}

# Every number with 17 significant digits, which jsonlite by itself does not give.
exactly <- function(x) {
  if (is.list(x)) return(lapply(x, exactly))
  if (!is.numeric(x)) return(x)
  text <- ifelse(is.finite(x), sprintf("%.17g", x), "null")
  if (inherits(x, "AsIs")) text <- paste0("[", paste(text, collapse = ", "), "]")
  structure(text, class = "json")
}
integrated <- "Density integrated by the double-exponential rule in 140-bit arithmetic; 'base' is R's own function"
summed <- "Probabilities summed in 140-bit arithmetic; 'base' is R's own function"
averaged <- paste("Trapezoidal rule over the chi distribution, with R's dchisq, pnorm and dnorm on the logarithmic scale;",
                  "'base' is R's own function")
write <- function(name, cases, source, extra = list()) {
  document <- c(list(source = source, tool = paste0("R ", getRversion(), ", Rmpfr ", packageVersion("Rmpfr"))),
                extra, list(cases = cases))
  writeLines(toJSON(exactly(document), auto_unbox = TRUE, json_verbatim = TRUE, pretty = 1),
             file.path(folder, paste0(name, ".json")))
}

over <- function(settings, make, sides = c("lower", "upper"))
  unlist(lapply(settings, function(s) casesOf(s, do.call(make, as.list(s)), sides)), recursive = FALSE)

write("normal", normalCases, "Error function in 140-bit arithmetic; 'base' is R's own function", list(quantiles = normalQuantiles))
write("student-t", over(list(0.05, 0.3, 1, 2.5, 3.37, 10, 30, 100.5, 1e4, 12345678.9, 1e10, 1e15), studentT, "upper"), integrated)
write("gamma", over(list(c(1e-5, 1), c(0.01, 2), c(0.3, 0.7), c(1, 1), c(2.5, 3), c(17.3, 0.01), c(399, 1), c(5001, 1),
                         c(12345.6, 2), c(1e7, 1), c(1e10, 3)), gammaCase), integrated)
write("chi-square", over(list(0.01, 0.5, 1, 2, 3.37, 10, 99.5, 1000, 1e5, 1e10), chiSquareCase), integrated)
write("beta", over(list(c(1e-5, 2), c(0.01, 0.02), c(0.3, 1e4), c(0.5, 0.5), c(1, 1), c(2.5, 0.7), c(1e-5, 1e5),
                        c(3.37, 12.2), c(50, 0.001), c(120, 77.7), c(290, 310), c(5100, 5200.5), c(1e5, 3), c(1e6, 1e6),
                        c(1e8, 1e4), c(1e10, 1e10)), betaCase), integrated)
write("fisher-f", over(list(c(0.1, 0.2), c(1, 1), c(1, 3.37), c(2, 10), c(3.37, 22.2), c(7, 1e6), c(1e6, 7), c(40, 40.5),
                            c(1000, 2000), c(1e5, 1e8), c(1e10, 1e10), c(0.01, 1e4)), fisherCase), integrated)
write("binomial", binomialCases, summed)
write("noncentral-t", noncentralCases, averaged)
write("noncentrality-interval", noncentralityCases, averaged)
write("studentised-range", rangeCases, averaged)
