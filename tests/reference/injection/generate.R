# The slope of change on dose inside the treated arm by lm, with its interval: eight walls, three walls, and open data laid out as walls (cars:
# speed as the dose, distance as the change).
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]
slope <- function(name, dose, change, level) {
  fit <- lm(change ~ dose); limits <- confint(fit, "dose", level); row <- summary(fit)$coefficients["dose", ]
  list(name = name, dose = dose, change = change, level = level, slope = row[["Estimate"]], standardError = row[["Std. Error"]],
       degreesOfFreedom = fit$df.residual, pValue = row[["Pr(>|t|)"]], lower = limits[1], upper = limits[2])
}
cases <- list(
  slope("eight walls", c(1.5, 1.55, 1.2, 1.6, 1.45, 1, 1.7, 1.5), c(-2.6, -2.9, -2.1, -3.2, -2.2, -1.9, -2.8, -3), 0.95),
  slope("three walls", c(0.8, 1.3, 2.1), c(-1.1, -1.9, -2.4), 0.9),
  slope("datasets::cars", cars$speed, cars$dist, 0.99))
out <- list(source = "invented walls; datasets::cars. lm, confint, summary of R's stats",
            tool = paste0("R ", getRversion(), ", jsonlite ", packageVersion("jsonlite")), cases = cases)
writeLines(toJSON(out, auto_unbox = TRUE, digits = NA, pretty = TRUE), file.path(folder, "injection.json"))
