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
  ),
  list(
    name = "mtcars with slopes", formula = mpg ~ wt * factor(cyl) + factor(am), data = mtcars,
    factors = list(
      covariate("wt", mtcars$wt), factor_term("cyl", mtcars$cyl, "4"), factor_term("am", mtcars$am, "0")
    ),
    interactions = list(c(0, 1)),
    columns = c(
      "intercept" = "(Intercept)", "wt" = "wt", "cyl: 6" = "factor(cyl)6", "cyl: 8" = "factor(cyl)8", "am: 1" = "factor(am)1",
      "wt × cyl: 6" = "wt:factor(cyl)6", "wt × cyl: 8" = "wt:factor(cyl)8"
    ),
    contrasts = list(c("wt" = 1, "wt × cyl: 8" = 1))
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

# Influence by stats, HC3 by sandwich, estimated means by emmeans, on the same models.
influence_case <- function(model) {
  fit <- lm(model$formula, model$data)
  hc3 <- sandwich::vcovHC(fit, type = "HC3")
  list(
    name = model$name, response = as.numeric(model.response(model.frame(fit))), terms = model$factors,
    interactions = model$interactions, columns = names(model$columns),
    leverages = unname(hatvalues(fit)), standardised = unname(rstandard(fit)), studentised = unname(rstudent(fit)),
    cooksDistances = unname(cooks.distance(fit)),
    coefficientChanges = unname(lapply(seq_along(fitted(fit)), function(i) unname(dfbeta(fit)[i, model$columns]))),
    varianceRobust = lapply(model$contrasts, function(weights) {
      w <- setNames(numeric(length(coef(fit))), names(coef(fit)))
      w[model$columns[names(weights)]] <- weights
      se <- sqrt(drop(t(w) %*% hc3 %*% w))
      # HC3 is the leave-one-out covariance with every observation a cluster of its own.
      matched <- clubSandwich::linear_contrast(
        fit, vcov = "CR3", cluster = seq_along(fitted(fit)), contrasts = t(w), test = "Satterthwaite"
      )
      list(
        weights = as.list(weights), standardError = se,
        pValue = 2 * pt(-abs(sum(w * coef(fit)) / se), fit$df.residual), matchedDegreesOfFreedom = matched$df
      )
    })
  )
}
write_json(
  "influence.json",
  paste(
    "hatvalues, rstandard, rstudent, cooks.distance, dfbeta and vcovHC (HC3) of lm fits on R's package datasets;",
    "matched degrees of freedom by linear_contrast with vcov CR3, a cluster an observation"
  ),
  paste0(r, ", sandwich ", packageVersion("sandwich"), ", clubSandwich ", packageVersion("clubSandwich")), lapply(models, influence_case)
)

means_by_R <- function(fit, data, name) {
  grid <- emmeans::emmeans(fit, name, data = data)
  means <- as.data.frame(grid)
  pairs <- as.data.frame(summary(emmeans::contrast(grid, "pairwise", adjust = "none"), infer = c(TRUE, TRUE)))
  levels <- as.character(means[[1]])
  combined <- utils::combn(levels, 2)
  list(
    factor = name, levels = levels, means = means$emmean, standardErrors = means$SE, lower = means$lower.CL,
    upper = means$upper.CL,
    differences = lapply(seq_len(ncol(combined)), function(i) list(
      first = combined[1, i], second = combined[2, i], estimate = pairs$estimate[i], standardError = pairs$SE[i],
      lower = pairs$lower.CL[i], upper = pairs$upper.CL[i], pValue = pairs$p.value[i]
    ))
  )
}
means_case <- function(index, factors) {
  model <- models[[index]]
  fit <- lm(model$formula, model$data)
  list(
    name = model$name, response = as.numeric(model.response(model.frame(fit))), terms = model$factors,
    interactions = model$interactions, columns = names(model$columns),
    means = lapply(factors, function(name) suppressMessages(means_by_R(fit, model$data, name)))
  )
}
write_json(
  "estimated-means.json", "emmeans and its pairwise differences without adjustment, of lm fits on R's package datasets",
  paste0(r, ", emmeans ", packageVersion("emmeans")),
  list(
    means_case(1, c("supp", "dose")), means_case(2, "cyl"), means_case(3, c("N", "block")), means_case(5, c("cyl", "am"))
  )
)

# Cluster-robust CR2 with Satterthwaite degrees of freedom by clubSandwich.
cluster_models <- list(
  list( # rows of a chick in time order, chicks of unequal length; the arm is a property of the chick
    name = "ChickWeight by chick", formula = weight ~ Time * Diet, data = as.data.frame(ChickWeight),
    terms = list(covariate("Time", ChickWeight$Time), factor_term("Diet", ChickWeight$Diet, "1")),
    interactions = list(c(0, 1)), cluster = ChickWeight$Chick,
    columns = c(
      "intercept" = "(Intercept)", "Time" = "Time", "Diet: 2" = "Diet2", "Diet: 3" = "Diet3", "Diet: 4" = "Diet4",
      "Time × Diet: 2" = "Time:Diet2", "Time × Diet: 3" = "Time:Diet3", "Time × Diet: 4" = "Time:Diet4"
    ),
    contrasts = list(c("Time × Diet: 3" = 1, "Time × Diet: 2" = -1), c("Diet: 4" = 1, "Time × Diet: 4" = 10))
  ),
  list(
    name = "sleepstudy by subject", formula = Reaction ~ Days, data = lme4::sleepstudy,
    terms = list(covariate("Days", lme4::sleepstudy$Days)), interactions = list(), cluster = lme4::sleepstudy$Subject,
    columns = c("intercept" = "(Intercept)", "Days" = "Days"), contrasts = list(c("intercept" = 1, "Days" = 9))
  ),
  list( # the clusters have fixed effects of their own: every adjustment is singular
    name = "Oats by block, blocks fixed", formula = yield ~ block + nitro + Variety,
    data = transform(as.data.frame(nlme::Oats), block = factor(as.character(Block))),
    terms = list(
      factor_term("block", nlme::Oats$Block, "I"), covariate("nitro", nlme::Oats$nitro),
      factor_term("Variety", nlme::Oats$Variety, "Golden Rain")
    ),
    interactions = list(), cluster = as.character(nlme::Oats$Block),
    columns = c(
      "intercept" = "(Intercept)", "block: II" = "blockII", "block: III" = "blockIII", "block: IV" = "blockIV",
      "block: V" = "blockV", "block: VI" = "blockVI", "nitro" = "nitro", "Variety: Marvellous" = "VarietyMarvellous",
      "Variety: Victory" = "VarietyVictory"
    ),
    judged = c("nitro", "Variety: Marvellous", "Variety: Victory"),
    contrasts = list(c("Variety: Marvellous" = 1, "Variety: Victory" = -1))
  ),
  list( # one cluster has a level of its own, so that its adjustment alone is singular; days are counted from far away
    name = "ChickWeight by chick, one chick apart", formula = weight ~ days + apart,
    data = transform(as.data.frame(ChickWeight), days = 19000 + Time, apart = as.numeric(Chick == "7")),
    terms = list(covariate("days", 19000 + ChickWeight$Time), covariate("apart", ChickWeight$Chick == "7")),
    interactions = list(), cluster = ChickWeight$Chick,
    columns = c("intercept" = "(Intercept)", "days" = "days", "apart" = "apart"), judged = c("intercept", "days"),
    contrasts = list(c("days" = 21))
  ),
  list( # unequal clusters, two of them of a single observation
    name = "mtcars by carburettors", formula = mpg ~ wt + factor(cyl), data = mtcars,
    terms = list(covariate("wt", mtcars$wt), factor_term("cyl", mtcars$cyl, "4")), interactions = list(),
    cluster = mtcars$carb,
    columns = c("intercept" = "(Intercept)", "wt" = "wt", "cyl: 6" = "factor(cyl)6", "cyl: 8" = "factor(cyl)8"),
    contrasts = list(c("cyl: 8" = 1, "cyl: 6" = -1))
  ),
  list( # every observation its own cluster
    name = "stackloss by row", formula = stack.loss ~ Air.Flow + Water.Temp, data = stackloss,
    terms = list(covariate("Air.Flow", stackloss$Air.Flow), covariate("Water.Temp", stackloss$Water.Temp)),
    interactions = list(), cluster = seq_len(nrow(stackloss)),
    columns = c("intercept" = "(Intercept)", "Air.Flow" = "Air.Flow", "Water.Temp" = "Water.Temp"),
    contrasts = list(c("Air.Flow" = 1, "Water.Temp" = -1))
  ),
  list( # a treatment that some clusters hold and others do not, next to block effects shared by two clusters
    name = "warpbreaks by loom group", formula = breaks ~ wool + tension + half, 
    data = transform(warpbreaks, half = factor(rep(c("a", "b"), c(30, 24))), group = rep(1:9, c(4, 8, 2, 9, 7, 1, 8, 5, 10))),
    terms = list(
      factor_term("wool", warpbreaks$wool, "A"), factor_term("tension", warpbreaks$tension, "L"),
      factor_term("half", rep(c("a", "b"), c(30, 24)), "a")
    ),
    interactions = list(), cluster = rep(1:9, c(4, 8, 2, 9, 7, 1, 8, 5, 10)),
    columns = c(
      "intercept" = "(Intercept)", "wool: B" = "woolB", "tension: H" = "tensionH", "tension: M" = "tensionM", "half: b" = "halfb"
    ),
    contrasts = list(c("tension: H" = 1, "tension: M" = -1))
  )
)

cluster_case <- function(model) {
  fit <- lm(model$formula, model$data)
  v <- clubSandwich::vcovCR(fit, cluster = factor(model$cluster), type = "CR2")
  tests <- as.data.frame(clubSandwich::coef_test(fit, vcov = v, test = "Satterthwaite"))
  rownames(tests) <- names(coef(fit))
  judged <- if (is.null(model$judged)) names(model$columns) else model$judged
  contrasts <- lapply(model$contrasts, function(weights) {
    w <- setNames(numeric(length(coef(fit))), names(coef(fit)))
    w[model$columns[names(weights)]] <- weights
    answer <- clubSandwich::linear_contrast(fit, vcov = v, contrasts = t(w), test = "Satterthwaite", p_values = TRUE)
    list(
      weights = as.list(weights), estimate = answer$Est, standardError = answer$SE, degreesOfFreedom = answer$df,
      lower = answer$CI_L, upper = answer$CI_U, pValue = answer$p_val
    )
  })
  order <- model$columns[judged]
  list(
    name = model$name, response = as.numeric(model.response(model.frame(fit))), terms = model$terms,
    interactions = model$interactions, columns = names(model$columns), clusters = as.character(model$cluster),
    judged = judged, estimates = unname(coef(fit)[order]), standardErrors = tests[order, "SE"],
    degreesOfFreedom = tests[order, grep("^df", names(tests))[1]], pValues = tests[order, grep("^p", names(tests))[1]],
    contrasts = contrasts
  )
}
write_json(
  "cluster-robust.json",
  "vcovCR (CR2), coef_test and linear_contrast (Satterthwaite) on data of R's packages datasets, nlme and lme4",
  paste0(r, ", clubSandwich ", packageVersion("clubSandwich"), ", nlme ", packageVersion("nlme"), ", lme4 ", packageVersion("lme4")),
  lapply(cluster_models, cluster_case)
)
