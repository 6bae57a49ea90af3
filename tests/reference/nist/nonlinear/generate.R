# What R's nls makes of NIST's nonlinear sets, from both starts, by its Gauss-Newton, as it comes and with central
# differences and a stricter tolerance, and by its port algorithm; all with more iterations than they have of themselves. Data, starts and certified values: nonlinear.json one folder up, see read-nonlinear.mjs beside it.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
here <- dirname(sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE)))
sets <- jsonlite::fromJSON(file.path(here, "..", "nonlinear.json"), simplifyDataFrame = FALSE)$cases

saturating <- y ~ b1 * (1 - exp(-b2 * x))
chwirut <- y ~ exp(-b1 * x) / (b2 + b3 * x)
decays <- y ~ b1 * exp(-b2 * x) + b3 * exp(-b4 * x) + b5 * exp(-b6 * x)
peaks <- y ~ b1 * exp(-b2 * x) + b3 * exp(-(x - b4)^2 / b5^2) + b6 * exp(-(x - b7)^2 / b8^2)
cubics <- y ~ (b1 + b2 * x + b3 * x^2 + b4 * x^3) / (1 + b5 * x + b6 * x^2 + b7 * x^3)
models <- list(
  Bennett5 = y ~ b1 * (b2 + x)^(-1 / b3), BoxBOD = saturating, Chwirut1 = chwirut, Chwirut2 = chwirut, DanWood = y ~ b1 * x^b2,
  ENSO = y ~ b1 + b2 * cos(2 * pi * x / 12) + b3 * sin(2 * pi * x / 12) + b5 * cos(2 * pi * x / b4) + b6 * sin(2 * pi * x / b4) +
    b8 * cos(2 * pi * x / b7) + b9 * sin(2 * pi * x / b7),
  Eckerle4 = y ~ b1 / b2 * exp(-0.5 * ((x - b3) / b2)^2), Gauss1 = peaks, Gauss2 = peaks, Gauss3 = peaks, Hahn1 = cubics,
  Kirby2 = y ~ (b1 + b2 * x + b3 * x^2) / (1 + b4 * x + b5 * x^2), Lanczos1 = decays, Lanczos2 = decays, Lanczos3 = decays,
  MGH09 = y ~ b1 * (x^2 + x * b2) / (x^2 + x * b3 + b4), MGH10 = y ~ b1 * exp(b2 / (x + b3)),
  MGH17 = y ~ b1 + b2 * exp(-x * b4) + b3 * exp(-x * b5), Misra1a = saturating, Misra1b = y ~ b1 * (1 - (1 + b2 * x / 2)^-2),
  Misra1c = y ~ b1 * (1 - (1 + 2 * b2 * x)^-0.5), Misra1d = y ~ b1 * b2 * x / (1 + b2 * x),
  Nelson = log(y) ~ b1 - b2 * x * exp(-b3 * z), Rat42 = y ~ b1 / (1 + exp(b2 - b3 * x)),
  Rat43 = y ~ b1 / (1 + exp(b2 - b3 * x))^(1 / b4), Roszman1 = y ~ b1 - b2 * x - atan(b3 / (x - b4)) / pi, Thurber = cubics
)

by_nls <- function(set, start, algorithm, tolerance) {
  data <- data.frame(y = set$response, x = set$predictors[1, ])
  if (nrow(set$predictors) > 1) data$z <- set$predictors[2, ]
  names(start) <- paste0("b", seq_along(start))
  control <- nls.control(maxiter = 1000, tol = tolerance, nDcentral = tolerance < 1e-5)
  tryCatch(
    suppressWarnings({
      fit <- summary(nls(models[[set$name]], data, start, control, algorithm))
      list(estimates = unname(fit$coefficients[, 1]), standardErrors = unname(fit$coefficients[, 2]), residualDeviation = fit$sigma)
    }),
    error = function(problem) list(failed = conditionMessage(problem))
  )
}

case <- function(set) {
  by <- function(algorithm, tolerance) lapply(1:2, function(k) by_nls(set, set$starts[k, ], algorithm, tolerance))
  list(name = set$name, gaussNewton = by("default", 1e-5), strict = by("default", 1e-8), port = by("port", 1e-5))
}

text <- jsonlite::toJSON(
  list(
    source = "nls of R on the NIST Statistical Reference Datasets, nonlinear regression, from both starts of each",
    tool = paste("R", getRversion()), cases = lapply(sets, case)
  ),
  digits = I(17), auto_unbox = TRUE
)
writeLines(text, file.path(folder, "nls.json"))
