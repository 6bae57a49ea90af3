# Fits by R's nls on data sets of R and MASS, with profile intervals two ways: MASS's confint, which interpolates the profile by
# splines, and the profile's equation solved by uniroot over fits with the parameter held.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
suppressPackageStartupMessages(library(MASS))
level <- 0.95
control <- nls.control(maxiter = 500, tol = 1e-7, minFactor = 2^-30)

sets <- list(
  list(
    name = "Puromycin, treated", data = with(subset(Puromycin, state == "treated"), data.frame(x = conc, y = rate)),
    right = quote(most * x / (half + x)), start = c(most = 200, half = 0.05)
  ),
  list(
    name = "DNase, run 1", data = with(subset(DNase, Run == 1), data.frame(x = conc, y = density)),
    right = quote(most / (1 + exp((middle - log(x)) / scale))), start = c(most = 3, middle = 0, scale = 1)
  ),
  list(
    name = "ChickWeight, chick 7", data = with(subset(ChickWeight, Chick == 7), data.frame(x = Time, y = weight)),
    right = quote(most / (1 + exp((middle - x) / scale))), start = c(most = 400, middle = 20, scale = 8)
  ),
  list(
    name = "wtloss", data = with(wtloss, data.frame(x = Days, y = Weight)),
    right = quote(last + lost * 2^(-x / half)), start = c(last = 90, lost = 95, half = 120)
  )
)

# With derivatives by deriv, so that nls can meet the tolerance.
fitted_by_nls <- function(right, data, start) {
  curve <- deriv(right, names(start), function.arg = c(names(start), "x"))
  formula <- as.formula(call("~", quote(y), as.call(c(quote(curve), lapply(c(names(start), "x"), as.name)))))
  nls(formula, data, start, control)
}

held_sum <- function(set, name, value, others) {
  right <- do.call(substitute, list(set$right, setNames(list(value), name)))
  fit <- fitted_by_nls(right, set$data, others)
  list(sum = deviance(fit), others = coef(fit))
}

solved <- function(set, fit, name, side) {
  estimate <- coef(fit)[[name]]
  error <- summary(fit)$coefficients[name, 2]
  reach <- qt(1 - (1 - level) / 2, df.residual(fit))
  others <- coef(fit)[names(coef(fit)) != name]
  excess <- function(steps) {
    held <- held_sum(set, name, estimate + side * steps * error, others)
    others <<- held$others
    sqrt(max(0, held$sum - deviance(fit))) / sigma(fit) - reach
  }
  estimate + side * error * uniroot(excess, c(0.6, 1.2) * reach, extendInt = "upX", tol = 1e-10)$root
}

case <- function(set) {
  fit <- fitted_by_nls(set$right, set$data, set$start)
  table <- summary(fit)$coefficients
  plain <- nls(as.formula(call("~", quote(y), set$right)), set$data, coef(fit))
  spline <- suppressMessages(confint(plain, level = level))
  list(
    name = set$name, x = set$data$x, response = set$data$y, start = as.list(set$start), level = level,
    estimates = as.list(table[, 1]), standardErrors = as.list(table[, 2]),
    residualSumOfSquares = deviance(fit), residualDeviation = sigma(fit), degreesOfFreedom = df.residual(fit),
    profile = sapply(names(set$start), function(name) c(solved(set, fit, name, -1), solved(set, fit, name, 1)), simplify = FALSE),
    confint = sapply(names(set$start), function(name) unname(spline[name, ]), simplify = FALSE)
  )
}

text <- jsonlite::toJSON(
  list(
    source = "Puromycin, DNase and ChickWeight of R's datasets, wtloss of MASS; fits by nls, intervals by confint and by uniroot",
    tool = paste0("R ", getRversion(), ", MASS ", packageVersion("MASS")), cases = lapply(sets, case)
  ),
  digits = I(17), auto_unbox = TRUE
)
writeLines(text, file.path(folder, "fits.json"))
