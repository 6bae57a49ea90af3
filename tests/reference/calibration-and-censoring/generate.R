# Lines with errors in both variables, agreement, censored means, product-limit estimates.
suppressMessages({ library(survival); library(lme4); library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

# --- Deming's line and its jackknife, written out -------------------------------------------------------------------
line <- function(x, y, lambda) {
  sxx <- var(x); syy <- var(y); sxy <- cov(x, y)
  b <- (syy - lambda * sxx + sqrt((syy - lambda * sxx)^2 + 4 * lambda * sxy^2)) / (2 * sxy)
  c(b, mean(y) - b * mean(x))
}
deming <- function(name, x, y, lambda, groups = NULL) {
  g <- if (is.null(groups)) seq_along(x) else groups
  est <- line(x, y, lambda); units <- unique(g); k <- length(units)
  jack <- sapply(units, function(u) line(x[g != u], y[g != u], lambda))
  centred <- jack - rowMeans(jack)
  v <- (k - 1) / k * centred %*% t(centred)
  se <- sqrt(diag(v)); q <- qt(0.975, k - 2)
  # x for a y by Fieller's argument, from the roots of the excess itself
  y0 <- quantile(y, 0.7, names = FALSE); u <- 0.4 * sd(y); x0 <- (y0 - est[2]) / est[1]
  excess <- function(at) (y0 - est[2] - est[1] * at)^2 - q^2 * (u^2 + v[2, 2] + 2 * at * v[1, 2] + at^2 * v[1, 1])
  wide <- 6 * diff(range(x))
  list(name = name, x = x, y = y, errorRatio = lambda, groups = groups, slope = est[1], intercept = est[2],
       slopeError = se[1], interceptError = se[2], reach = q, y0 = y0, u = u, inverse = x0,
       lower = uniroot(excess, c(x0 - wide, x0), tol = 1e-13)$root, upper = uniroot(excess, c(x0, x0 + wide), tol = 1e-13)$root)
}
lines <- list(
  deming("datasets::women, height and weight", women$height, women$weight, 4),
  deming("MASS::mammals, logarithms", log(mammals$body), log(mammals$brain), 1),
  deming("datasets::iris, by species and ten flowers", iris$Petal.Length, iris$Petal.Width, 0.25, paste0(iris$Species, (seq_len(150) - 1) %/% 10)),
  deming("datasets::faithful, falling", -faithful$eruptions, faithful$waiting, 100))

# --- York: the least weighted sum itself ----------------------------------------------------------------------------
york <- function(name, x, y, sx, sy, r) {
  sum_at <- function(b) { w <- 1 / (sy^2 + b^2 * sx^2 - 2 * b * r * sx * sy); a <- sum(w * (y - b * x)) / sum(w); sum(w * (y - b * x - a)^2) }
  slope <- function(b, h = 1e-4) (8 * (sum_at(b + h) - sum_at(b - h)) - (sum_at(b + 2 * h) - sum_at(b - 2 * h))) / (12 * h)
  start <- coef(lm(y ~ x))[[2]]; near <- optimize(sum_at, start + c(-1, 1) * abs(start), tol = 1e-10)$minimum
  b <- uniroot(slope, near + c(-1, 1) * 0.01 * abs(near), tol = 1e-14, extendInt = "upX")$root
  w <- 1 / (sy^2 + b^2 * sx^2 - 2 * b * r * sx * sy); xb <- sum(w * x) / sum(w); yb <- sum(w * y) / sum(w); a <- yb - b * xb
  # the points on the line that are most likely, for the standard errors
  res <- y - a - b * x; adj <- x + w * (b * sx^2 - r * sx * sy) * res
  am <- sum(w * adj) / sum(w); vb <- 1 / sum(w * (adj - am)^2)
  list(name = name, x = x, y = y, uncertaintyX = sx, uncertaintyY = sy, correlation = r, slope = b, intercept = a,
       slopeError = sqrt(vb), interceptError = sqrt(1 / sum(w) + am^2 * vb), chiSquare = sum_at(b))
}
px <- c(0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4); py <- c(5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5)
wx <- c(1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1); wy <- c(1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500)
yorks <- list(
  york("Pearson's points with York's weights", px, py, 1 / sqrt(wx), 1 / sqrt(wy), rep(0, 10)),
  york("datasets::cars with made uncertainties and correlations", cars$speed, cars$dist, 0.5 + (seq_len(50) %% 5) / 4, 3 + (seq_len(50) %% 7), rep(c(0.3, -0.2), 25)))

# The same with pairs that belong together: the jackknife of York's line, a group left out at a time.
york_groups <- function(name, x, y, sx, sy, g) {
  all <- york(name, x, y, sx, sy, rep(0, length(x))); k <- length(unique(g))
  jack <- sapply(unique(g), function(u) { s <- g != u; f <- york(name, x[s], y[s], sx[s], sy[s], rep(0, sum(s))); c(f$slope, f$intercept) })
  se <- sqrt((k - 1) / k * rowSums((jack - rowMeans(jack))^2))
  list(name = name, x = x, y = y, uncertaintyX = sx, uncertaintyY = sy, groups = g, slope = all$slope, intercept = all$intercept,
       slopeError = se[1], interceptError = se[2], reach = qt(0.975, k - 2), scatter = sqrt(sum((y - all$intercept - all$slope * x)^2) / (length(x) - 2)))
}
yorks_grouped <- list(york_groups("datasets::cars with made uncertainties, by fives", cars$speed, cars$dist, 0.5 + (seq_len(50) %% 5) / 4,
                                  3 + (seq_len(50) %% 7), paste0("g", (seq_len(50) - 1) %% 10)))

# --- Agreement ------------------------------------------------------------------------------------------------------
# Interval of a sum of mean squares, and of bias +- z sd (Zou 2013), written out.
limits <- function(bias, vbias, df, weights, ms, dfs) {
  part <- weights * ms; tot <- sum(part)
  l <- tot - sqrt(sum((part - part * dfs / qchisq(0.975, dfs))^2)); u <- tot + sqrt(sum((part * dfs / qchisq(0.025, dfs) - part)^2))
  z <- qnorm(0.975); h <- qt(0.975, df) * sqrt(vbias); up <- bias + z * sqrt(tot)
  list(bias = bias, biasLower = bias - h, sd = sqrt(tot), upper = up, upperFrom = up - sqrt(h^2 + z^2 * (sqrt(tot) - sqrt(max(0, l)))^2), upperTo = up + sqrt(h^2 + z^2 * (sqrt(u) - sqrt(tot))^2))
}
single <- function(name, d) c(list(name = name, differences = d), limits(mean(d), var(d) / length(d), length(d) - 1, 1, var(d), length(d) - 1))
one <- list(single("MASS::shoes, A less B", shoes$A - shoes$B), single("MASS::immer", immer$Y1 - immer$Y2))
# Repeated: lme4 gives the components of paired differences; equal numbers, so the moments are the same.
d <- data.frame(thing = rep(1:12, each = 3), x = nlme::Orthodont$distance[1:36])
d$y <- d$x + rep(sin(1:12), each = 3) * 1.5 + cos(1:36 * 1.7)
fit <- lmer(I(x - y) ~ 1 + (1 | thing), d); comp <- as.data.frame(VarCorr(fit))$vcov
repeated <- list(things = lapply(split(d, d$thing), function(s) list(x = s$x, y = s$y)), variance = sum(comp), bias = fixef(fit)[[1]], biasError = sqrt(vcov(fit)[1, 1]))
names(repeated$things) <- NULL
within <- function(v) anova(lm(v ~ factor(d$thing)))[["Mean Sq"]][2]
means <- with(aggregate(cbind(x, y) ~ thing, d, mean), x - y)
repeated$constantVariance <- var(means) + 2 / 3 * within(d$x) + 2 / 3 * within(d$y)
lin <- function(name, x, y) {
  m <- function(a, b) mean((a - mean(a)) * (b - mean(b))); n <- length(x)
  r <- cor(x, y); ccc <- 2 * m(x, y) / (m(x, x) + m(y, y) + (mean(x) - mean(y))^2); u <- (mean(x) - mean(y)) / (m(x, x) * m(y, y))^0.25
  v <- ((1 - r^2) * ccc^2 / (r^2 * (1 - ccc^2)) + 2 * ccc^3 * (1 - ccc) * u^2 / (r * (1 - ccc^2)^2) - ccc^4 * u^4 / (2 * r^2 * (1 - ccc^2)^2)) / (n - 2)
  list(name = name, x = x, y = y, estimate = ccc, lower = tanh(atanh(ccc) - qt(0.975, n - 1) * sqrt(v)), upper = tanh(atanh(ccc) + qt(0.975, n - 1) * sqrt(v)))
}
concordances <- list(lin("MASS::shoes", shoes$A, shoes$B), lin("MASS::immer", immer$Y1, immer$Y2))
# Equal numbers: lme4's components are those of the mean squares.
rail <- nlme::Rail; fr <- lmer(travel ~ 1 + (1 | Rail), rail)
readers <- list(groups = unname(split(rail$travel, as.character(rail$Rail))), repeatability = sigma(fr), between = as.data.frame(VarCorr(fr))$sdcor[1])

# ISO 5725-2:1994, annex B.1, sulphur in coal (% by mass), eight laboratories. Data and the results printed there are from memory;
# mean squares of the analysis of variance give all twelve of them, to the three decimals printed.
iso <- function(results, printed) {
  v <- unlist(results); n <- lengths(results); ms <- anova(lm(v ~ factor(rep(seq_along(n), n))))[["Mean Sq"]]
  between <- max(0, (ms[1] - ms[2]) / ((sum(n) - sum(n^2) / sum(n)) / (length(n) - 1)))
  list(results = results, printed = printed, mean = mean(v), repeatability = sqrt(ms[2]), reproducibility = sqrt(ms[2] + between))
}
coal <- list(
  iso(list(c(.71, .71, .70, .71), c(.69, .67, .68), c(.66, .65, .69), c(.67, .65, .66), c(.70, .69, .66, .71, .69), c(.73, .74, .73),
           c(.71, .71, .69), c(.70, .65, .68)), c("0.690", "0.015", "0.026")),
  iso(list(c(1.20, 1.18, 1.23, 1.21), c(1.22, 1.21, 1.22), c(1.28, 1.31, 1.30), c(1.23, 1.18, 1.20), c(1.31, 1.22, 1.22, 1.24),
           c(1.39, 1.36, 1.37), c(1.20, 1.26, 1.26), c(1.24, 1.22, 1.30)), c("1.252", "0.029", "0.061")),
  iso(list(c(1.68, 1.70, 1.68, 1.69), c(1.64, 1.64, 1.65), c(1.61, 1.61, 1.62), c(1.68, 1.66, 1.66), c(1.64, 1.67, 1.60, 1.66, 1.68),
           c(1.70, 1.73, 1.73), c(1.69, 1.70, 1.68), c(1.67, 1.68, 1.67)), c("1.667", "0.017", "0.035")),
  iso(list(c(3.26, 3.26, 3.20, 3.24), c(3.20, 3.20, 3.20), c(3.37, 3.36, 3.38), c(3.16, 3.22, 3.23), c(3.20, 3.19, 3.18, 3.27, 3.24),
           c(3.27, 3.31, 3.29), c(3.27, 3.24, 3.23), c(3.25, 3.26, 3.26)), c("3.250", "0.026", "0.058")))

# --- Censored -------------------------------------------------------------------------------------------------------
censored <- function(name, value, below, dist) {
  s <- Surv(value, !below, type = "left")
  fit <- survreg(s ~ 1, dist = dist, control = survreg.control(rel.tolerance = 1e-14, maxiter = 100))
  mu <- coef(fit)[[1]]; sd <- fit$scale; lift <- if (dist == "lognormal") 0.5 else 0
  v <- if (dist == "lognormal") log(value) else value
  loglik <- function(m, s) sum(dnorm(v[!below], m, s, log = TRUE)) + sum(pnorm(v[below], m, s, log.p = TRUE))
  profile <- function(target) optimize(function(ls) loglik(target - lift * exp(2 * ls), exp(ls)), log(sd) + c(-3, 3), maximum = TRUE, tol = 1e-12)$objective
  best <- mu + lift * sd^2; n <- length(v)
  need <- loglik(mu, sd) - n / 2 * log(1 + qt(0.975, n - 1)^2 / (n - 1))
  root <- function(to) uniroot(function(t) profile(t) - need, sort(c(best, to)), tol = 1e-12, extendInt = "yes")$root
  out <- if (dist == "lognormal") exp else identity
  list(name = name, kind = if (dist == "lognormal") "lognormal" else "normal", value = value, below = below, location = mu, spread = sd,
       estimate = out(best), lower = out(root(best - sd)), upper = out(root(best + sd)), logLikelihood = fit$loglik[1])
}
chem <- sort(MASS::chem); low <- chem < 2.9
cens <- list(
  censored("MASS::chem, below 2.9", ifelse(low, 2.9, chem), low, "gaussian"),
  censored("MASS::chem, below 2.9, lognormal", ifelse(low, 2.9, chem), low, "lognormal"),
  censored("datasets::rivers, two limits", ifelse(seq_along(rivers) %% 2 == 0, pmax(rivers, 300), pmax(rivers, 400)), ifelse(seq_along(rivers) %% 2 == 0, rivers < 300, rivers < 400), "lognormal"))
# Groups with one spread: a censored regression on the groups alone.
grouped <- function(name, value, below, group) {
  fit <- survreg(Surv(value, !below, type = "left") ~ group - 1, dist = "gaussian", control = survreg.control(rel.tolerance = 1e-14, maxiter = 200))
  list(name = name, groups = unname(lapply(split(data.frame(value, below), group), as.list)), means = unname(coef(fit)), spread = fit$scale)
}
trees <- nlme::Orthodont; dry <- trees$distance < 23
groups <- list(grouped("nlme::Orthodont, by age, below 23", ifelse(dry, 23, trees$distance), dry, factor(trees$age)),
  grouped("MASS::immer, by place, below 90", pmax(immer$Y1, 90), immer$Y1 < 90, immer$Loc))
flip <- function(value, below) { m <- max(value); t <- summary(survfit(Surv(m - value, !below) ~ 1), rmean = max(m - value))$table; c(m - t[["rmean"]], t[["se(rmean)"]]) }
cens <- lapply(cens, function(case) { f <- flip(case$value, case$below); c(case, productLimit = f[1], productLimitError = f[2]) })

followed <- function(name, time, seen, until) {
  f <- survfit(Surv(time, seen) ~ 1); at <- f$n.event > 0; t <- summary(f, rmean = until)$table
  list(name = name, time = time, seen = seen, times = f$time[at], atRisk = f$n.risk[at], surviving = f$surv[at], error = (f$surv * f$std.err)[at], until = until, mean = t[["rmean"]], meanError = t[["se(rmean)"]])
}
surv <- list(followed("survival::aml", aml$time, aml$status == 1, 100), followed("survival::lung", lung$time, lung$status == 2, 500),
             followed("all seen", c(3, 1, 4, 1, 5), rep(TRUE, 5), 5))

record <- list(source = "written out in base R; survival::survreg and survfit; lme4::lmer; data of datasets, MASS, nlme, survival; Pearson 1901 with the weights of York 1966; ISO 5725-2:1994, annex B.1 (from memory)",
  tool = paste0(R.version.string, ", survival ", packageVersion("survival"), ", lme4 ", packageVersion("lme4"), ", MASS ", packageVersion("MASS")),
  lines = lines, yorks = yorks, yorksGrouped = yorks_grouped, single = one, repeated = repeated, concordances = concordances, readers = readers, coal = coal, censored = cens, grouped = groups, followed = surv)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE, null = "null"), file.path(folder, "calibration-and-censoring.json"))
