# Falling curves of R's and MASS's data sets: shapes by nls with AICc; bends and steps by brute force over lm.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
suppressPackageStartupMessages(library(MASS))
control <- nls.control(maxiter = 500, tol = 1e-7, minFactor = 2^-30)

corrected <- function(fit) {
  k <- attr(logLik(fit), "df")
  AIC(fit) + 2 * k * (k + 1) / (nobs(fit) - k - 1)
}

# One day stands there twice.
kept <- !duplicated(wtloss$Days)
t <- wtloss$Days[kept]
y <- wtloss$Weight[kept]
first <- c(wet = 184, rate = 0.0049, dry = 81)
exponential <- nls(y ~ dry + (wet - dry) * exp(-rate * t), start = first, control = control)
held <- nls(y ~ 80 + (wet - 80) * exp(-rate * t), start = first[1:2], control = control)
shapes <- list(
  x = t, response = y,
  exponential = list(estimates = as.list(coef(exponential)), errors = as.list(summary(exponential)$coefficients[, 2]), criterion = corrected(exponential)),
  given = list(estimates = as.list(coef(held)), criterion = corrected(held)),
  "square-root" = list(estimates = as.list(setNames(coef(lm(y ~ sqrt(t))) * c(1, -1), c("wet", "rate"))), criterion = corrected(lm(y ~ sqrt(t)))),
  "constant-rate" = list(estimates = as.list(setNames(coef(lm(y ~ t)) * c(1, -1), c("wet", "rate"))), criterion = corrected(lm(y ~ t)))
)

# A bend: continuous, straight in x before and in after(x) beyond.
bend <- function(name, x, y, after) {
  columns <- function(b) data.frame(before = pmin(x, b) - b, after = after(pmax(x, b)) - after(b))
  rss <- function(b) deviance(lm(y ~ ., data = columns(b)))
  knots <- sort(unique(x))
  knots <- knots[-c(1, length(knots))]
  found <- lapply(seq_along(knots)[-1], function(k) optimize(rss, knots[c(k - 1, k)], tol = 1e-12))
  best <- found[[which.min(sapply(found, `[[`, "objective"))]]
  df <- length(x) - 4
  limit <- best$objective * (1 + qt(0.975, df)^2 / df)
  grid <- sort(c(best$minimum, unlist(lapply(seq_along(knots)[-1], function(k) seq(knots[k - 1], knots[k], length.out = 61)))))
  inside <- grid[sapply(grid, rss) <= limit]
  edge <- function(from, side) {
    out <- if (side < 0) rev(grid[grid < from])[1] else grid[grid > from][1]
    if (is.na(out)) return(from)
    uniroot(function(b) rss(b) - limit, sort(c(from, out)), tol = 1e-13)$root
  }
  fit <- lm(y ~ ., data = columns(best$minimum))
  # The curve is straight in its parameters once the bend is one of them: standard errors from all four derivatives.
  jacobian <- cbind(1, as.matrix(columns(best$minimum)), step = x > best$minimum)
  errors <- sqrt(diag(solve(crossprod(jacobian))) * best$objective / df)
  list(
    name = name, x = x, response = y, bend = best$minimum, lower = edge(min(inside), -1), upper = edge(max(inside), 1),
    slopes = unname(coef(fit)[2:3]), errors = unname(errors[2:3]), sum = best$objective
  )
}
subject <- subset(Indometh, Subject == 1)
bends <- list(
  bend("Indometh, subject 1", subject$time, subject$conc, function(x) x),
  bend("wtloss", t, y, sqrt)
)

# A step: the split of least sum, and all splits allowed.
value <- as.numeric(Nile)
year <- as.numeric(time(Nile))
splits <- 2:(length(value) - 2)
sums <- sapply(splits, function(k) sum((value[1:k] - mean(value[1:k]))^2) + sum((value[-(1:k)] - mean(value[-(1:k)]))^2))
df <- length(value) - 3
allowed <- splits[sums <= min(sums) * (1 + qt(0.975, df)^2 / df)]
at <- splits[which.min(sums)]
step <- list(
  x = year, values = value, time = mean(year[c(at, at + 1)]), lower = year[min(allowed)], upper = year[max(allowed) + 1],
  before = mean(value[1:at]), after = mean(value[-(1:at)]), sum = min(sums)
)
# A straight line of times on squared heights: stopping distances of cars stand in, which grow with the squared speed.
line <- lm(dist ~ I((speed / 1000)^2), data = cars)
limits <- confint(line) # rows: start, slope in days per squared metre
speed <- function(slope) 1 / sqrt(slope / 1e6 * 1440)
front <- list(
  height = cars$speed, time = cars$dist, start = coef(line)[[1]], startLimits = unname(limits[1, ]),
  speed = speed(coef(line)[[2]]), speedLimits = speed(rev(unname(limits[2, ])))
)
text <- jsonlite::toJSON(
  list(
    source = "wtloss of MASS, Indometh, Nile and cars of R's datasets; nls, lm, AIC, and searches by optimize and uniroot",
    tool = paste0("R ", getRversion(), ", MASS ", packageVersion("MASS")), cases = list(shapes = shapes, bends = bends, step = step, front = front)
  ),
  digits = I(17), auto_unbox = TRUE
)
writeLines(text, file.path(folder, "drying-curves.json"))
