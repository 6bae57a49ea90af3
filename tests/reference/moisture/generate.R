# Isotonic fits, a logistic damp front with its profile interval, water stored in a wall, and electrical integrals.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]

# --- Isotonic: weights that are whole numbers, by repeating the observations ----------------------------------------
isotonic <- function(name, x, y, w = rep(1, length(x)), direction = "increasing") {
  s <- if (direction == "increasing") 1 else -1
  f <- isoreg(rep(x, w), rep(s * y, w)); ord <- if (is.null(f$ord)) seq_along(f$x) else f$ord
  at <- f$x[ord]; fit <- s * f$yf
  list(name = name, x = x, response = y, weights = w, direction = direction, at = unique(at), fitted = fit[!duplicated(at)],
       residualSumOfSquares = sum((f$y[ord] - f$yf)^2))
}
small <- cars[c(TRUE, FALSE), ]
isotonics <- list(
  isotonic("datasets::nhtemp against time", 1:60, as.numeric(nhtemp)),
  isotonic("datasets::faithful, first 60", faithful$eruptions[1:60], faithful$waiting[1:60]),
  isotonic("datasets::cars, weighted", small$speed, small$dist, 1 + seq_len(25) %% 4),
  isotonic("datasets::mtcars, falling", mtcars$wt, mtcars$mpg, direction = "decreasing"),
  isotonic("datasets::lynx against time, falling", 1:114, as.numeric(lynx), direction = "decreasing"))

# --- Damp front: logistic in height, nls, interval of the profile by its own root ------------------------------------
front <- function(name, h, u, start) {
  model <- function(p, at = h) p[["above"]] + (p[["below"]] - p[["above"]]) / (1 + exp((at - p[["front"]]) / p[["width"]]))
  fit <- nls(u ~ above + (below - above) / (1 + exp((h - front) / width)), start = start, control = nls.control(tol = 1e-7, minFactor = 1e-10))
  b <- coef(fit); rss <- deviance(fit); df <- df.residual(fit); need <- rss * (1 + qt(0.975, df)^2 / df)
  # Above and below are straight once the front and its width are held.
  held <- function(at, logwidth) { z <- 1 / (1 + exp((h - at) / exp(logwidth))); sum(lm.fit(cbind(1, z), u)$residuals^2) }
  least <- function(at) optimize(function(lw) held(at, lw), log(b[["width"]]) + c(-1.5, 1.5), tol = 1e-10)$objective
  limit <- function(side) uniroot(function(at) least(at) - need, sort(b[["front"]] + side * c(0, 4 * summary(fit)$coefficients["front", 2])), tol = 1e-9)$root
  list(name = name, height_mm = h, value = u, below = b[["below"]], above = b[["above"]], front = b[["front"]], width = b[["width"]],
       lower = limit(-1), upper = limit(1), residualSumOfSquares = rss)
}
h1 <- c(100, 250, 400, 550, 700, 850, 1000, 1200, 1500)
h2 <- rep(c(150, 400, 650, 900, 1150, 1400), 2)
fronts <- list(
  front("nine heights, made", h1, c(11.9, 12.3, 11.6, 10.4, 7.2, 4.1, 2.8, 2.2, 2.4), c(below = 12, above = 2, front = 700, width = 90)),
  front("six heights, two depths, made", h2, c(9.1, 8.8, 7.9, 4.6, 2.4, 2.0, 10.0, 9.2, 8.1, 5.3, 2.2, 1.6), c(below = 9, above = 2, front = 850, width = 100)))

# --- Water stored: trapezoid over depth and height by interpolation and integrate -------------------------------------
stored <- function(name, heights, depths, u, s, thickness, density, sdensity) {
  # The trapezoid's value is the integral of the bilinear interpolation, held level from the outermost points to the faces.
  cut <- function(at, value, from, to) {
    f <- approxfun(at, value, rule = 2); knots <- sort(unique(c(from, at[at > from & at < to], to)))
    sum(mapply(function(a, b) integrate(f, a, b, rel.tol = 1e-13)$value, head(knots, -1), tail(knots, -1)))
  }
  water <- function(u, density) {
    byheight <- apply(u, 1, function(row) cut(depths, row, 0, thickness))
    density * cut(heights, byheight, min(heights), max(heights)) / 1e5 / (max(heights) - min(heights))
  }
  w <- water(u, density)
  slope <- sapply(seq_along(u), function(k) { v <- u * 0; v[k] <- 1; water(v, density) })
  list(name = name, heights_mm = heights, depths_mm = depths, value_pct = u, standardUncertainty_pp = s, thickness_mm = thickness,
       dryDensity = density, dryDensityUncertainty = sdensity, water = w,
       standardUncertainty = sqrt(sum((slope * as.vector(s))^2) + (w * sdensity / density)^2))
}
u <- rbind(c(11.2, 12.6, 12.0), c(8.4, 9.9, 9.1), c(3.0, 4.2, 4.4), c(1.1, 1.6, 2.0))
stores <- list(stored("four heights, three depths, made", c(100, 400, 800, 1400), c(30, 110, 190), u, 0.2 + u / 40, 220, 1700, 60))

# --- Electrical: power, energy and charge by trapezoid ---------------------------------------------------------------
t <- c(0, 10, 25, 60, 120, 300); v <- c(12.1, 12.0, 11.8, 11.7, 11.2, 10.9); i <- c(0.31, 0.30, 0.28, 0.27, 0.24, 0.20)
trapezoid <- function(y) { f <- approxfun(t, y); sum(mapply(function(a, b) integrate(f, a, b, rel.tol = 1e-13)$value, head(t, -1), tail(t, -1))) }
weight <- sapply(seq_along(t), function(k) { e <- t * 0; e[k] <- 1; trapezoid(e) })
sv <- 0.05; si <- 0.004
electric <- list(time_s = t, voltage_v = v, current_a = i, voltageUncertainty_v = sv, currentUncertainty_a = si, charge_c = trapezoid(i), energy_j = trapezoid(v * i),
  chargeUncertainty = si * sqrt(sum(weight^2)), energyUncertainty = sqrt(sum((weight * v * si)^2) + sum((weight * i * sv)^2)))

# --- Masses to moisture, and between bases, written out again ----------------------------------------------------------
mass <- expand.grid(container = c(0, 12.17), dry = c(48.06, 83.4), water = c(0.8, 4.03))
dry <- 100 * mass$water / (mass$dry - mass$container)
masses <- lapply(seq_len(nrow(mass)), function(k) with(mass[k, ], list(container_g = container, wet_g = dry + water, dry_g = dry,
  dryBasis = 100 * water / (dry - container), wetBasis = 100 * water / (dry + water - container), byVolume = 100 * water / (dry - container) * 1750 / 998.2,
  saturation = 100 * (100 * water / (dry - container)) / 16,
  uncertainty = { m <- c(container, dry + water, dry); f <- function(m) 100 * (m[2] - m[3]) / (m[3] - m[1]); use <- if (container == 0) 2:3 else 1:3
    g <- sapply(use, function(j) { e <- 1e-4 * (seq_along(m) == j); (f(m + e) - f(m - e)) / 2e-4 }); 0.005 * sqrt(sum(g^2)) })))

record <- list(source = "stats::isoreg, nls, optimize, uniroot, approxfun, integrate; data of datasets and made series",
  tool = R.version.string, isotonics = isotonics, fronts = fronts, stores = stores, electric = electric, masses = masses)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE, null = "null"), file.path(folder, "moisture.json"))
