# Least squares and contrasts by R's lm, on data sets that R and its packages carry.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
write_json <- function(name, source, tool, cases) {
  text <- jsonlite::toJSON(list(source = source, tool = tool, cases = cases), digits = I(17), auto_unbox = TRUE)
  writeLines(text, file.path(folder, name))
}
r <- paste("R", getRversion())
covariate <- function(name, values) list(kind = "covariate", name = name, values = as.numeric(values))
factor_term <- function(name, values, reference) {
  list(kind = "factor", name = name, values = as.character(values), reference = reference)
}

# Each model: our terms, R's formula, and for every column of ours the coefficient of R's that it must equal.
models <- list(
  list(
    name = "ToothGrowth", formula = len ~ supp * factor(dose), data = ToothGrowth,
    factors = list(
      factor_term("supp", ToothGrowth$supp, "OJ"), factor_term("dose", ToothGrowth$dose, "0.5")
    ),
    interactions = list(c(0, 1)),
    columns = c(
      "intercept" = "(Intercept)", "supp: VC" = "suppVC", "dose: 1" = "factor(dose)1", "dose: 2" = "factor(dose)2",
      "supp: VC × dose: 1" = "suppVC:factor(dose)1", "supp: VC × dose: 2" = "suppVC:factor(dose)2"
    ),
    contrasts = list(
      c("supp: VC" = 1), c("dose: 2" = 1, "dose: 1" = -1), c("supp: VC" = 1, "supp: VC × dose: 1" = 1 / 3, "supp: VC × dose: 2" = 1 / 3)
    )
  ),
  list(
    name = "mtcars", formula = mpg ~ wt + hp + factor(cyl), data = mtcars,
    factors = list(
      covariate("wt", mtcars$wt), covariate("hp", mtcars$hp), factor_term("cyl", mtcars$cyl, "4")
    ),
    interactions = list(),
    columns = c("intercept" = "(Intercept)", "wt" = "wt", "hp" = "hp", "cyl: 6" = "factor(cyl)6", "cyl: 8" = "factor(cyl)8"),
    contrasts = list(c("cyl: 8" = 1, "cyl: 6" = -1), c("intercept" = 1, "wt" = 3, "hp" = 120))
  ),
  list(
    name = "npk", formula = yield ~ block + N + P + K, data = npk,
    factors = list(
      factor_term("block", npk$block, "1"), factor_term("N", npk$N, "0"), factor_term("P", npk$P, "0"),
      factor_term("K", npk$K, "0")
    ),
    interactions = list(),
    columns = c(
      "intercept" = "(Intercept)", "block: 2" = "block2", "block: 3" = "block3", "block: 4" = "block4",
      "block: 5" = "block5", "block: 6" = "block6", "N: 1" = "N1", "P: 1" = "P1", "K: 1" = "K1"
    ),
    contrasts = list(c("N: 1" = 1), c("block: 3" = 1, "block: 2" = -1))
  ),
  list(
    name = "stackloss", formula = stack.loss ~ Air.Flow + Water.Temp + Acid.Conc., data = stackloss,
    factors = list(
      covariate("air flow", stackloss$Air.Flow), covariate("water temperature", stackloss$Water.Temp),
      covariate("acid concentration", stackloss$Acid.Conc.)
    ),
    interactions = list(),
    columns = c(
      "intercept" = "(Intercept)", "air flow" = "Air.Flow", "water temperature" = "Water.Temp",
      "acid concentration" = "Acid.Conc."
    ),
    contrasts = list(c("air flow" = 10, "water temperature" = -2))
  )
)

contrast_by_R <- function(fit, columns, weights, level) {
  w <- setNames(numeric(length(coef(fit))), names(coef(fit)))
  w[columns[names(weights)]] <- weights
  estimate <- sum(w * coef(fit))
  se <- sqrt(drop(t(w) %*% vcov(fit) %*% w))
  df <- fit$df.residual
  reach <- qt((1 - level) / 2, df, lower.tail = FALSE) * se
  list(
    weights = as.list(weights), level = level, estimate = estimate, standardError = se, degreesOfFreedom = df,
    statistic = estimate / se, pValue = 2 * pt(abs(estimate / se), df, lower.tail = FALSE),
    lower = estimate - reach, upper = estimate + reach
  )
}

fit_case <- function(model) {
  fit <- lm(model$formula, model$data)
  order <- model$columns
  list(
    name = model$name,
    response = as.numeric(model.response(model.frame(fit))),
    terms = model$factors, interactions = model$interactions,
    columns = names(order),
    estimates = unname(coef(fit)[order]),
    standardErrors = unname(sqrt(diag(vcov(fit)))[order]),
    residualVariance = summary(fit)$sigma^2,
    degreesOfFreedom = fit$df.residual,
    fitted = unname(fitted(fit)),
    contrasts = c(
      lapply(model$contrasts, function(w) contrast_by_R(fit, order, w, 0.95)),
      lapply(model$contrasts, function(w) contrast_by_R(fit, order, w, 0.8))
    )
  )
}
write_json(
  "least-squares.json",
  "lm on ToothGrowth, mtcars, npk and stackloss of R's package datasets; contrasts from coef and vcov",
  r, lapply(models, fit_case)
)
