# Nonlinear mixed models by nlme's nlme on growth and uptake data of R's datasets.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
suppressPackageStartupMessages(library(nlme))
control <- nlmeControl(maxIter = 200, pnlsMaxIter = 50, msMaxIter = 400, tolerance = 1e-7, pnlsTol = 1e-6, minScale = 1e-8, msTol = 1e-12)

described <- function(name, fit, data, x, response, group, columns = list()) {
  table <- summary(fit)$tTable
  list(
    name = name, x = data[[x]], response = data[[response]], group = as.character(data[[group]]), columns = columns,
    method = tolower(fit$method),
    coefficients = as.list(fixef(fit)), standardErrors = as.list(setNames(sqrt(diag(vcov(fit))), names(fixef(fit)))),
    deviations = as.numeric(VarCorr(fit)[seq_len(nrow(VarCorr(fit)) - 1), "StdDev"]), residual = fit$sigma,
    logLikelihood = as.numeric(logLik(fit))
  )
}

asymptotic <- nlme(
  height ~ Asym + (R0 - Asym) * exp(-exp(lrc) * age), data = Loblolly, fixed = Asym + R0 + lrc ~ 1,
  random = Asym ~ 1 | Seed, start = c(Asym = 103, R0 = -8.5, lrc = -3.3), method = "ML", control = control
)
logistic <- nlme(
  circumference ~ Asym / (1 + exp(-(age - xmid) / scal)), data = Orange, fixed = Asym + xmid + scal ~ 1,
  random = Asym ~ 1 | Tree, start = c(Asym = 190, xmid = 730, scal = 350), method = "ML", control = control
)
uptake <- nlme(
  uptake ~ Asym * (1 - exp(-exp(lrc) * (conc - c0))), data = CO2,
  fixed = list(Asym ~ Type, lrc ~ 1, c0 ~ 1), random = pdDiag(Asym + lrc ~ 1), groups = ~Plant,
  start = c(36, -12, -4.7, 49), method = "ML", control = control
)

# Restricted likelihood: nlme leaves the ratio of its variances where plain likelihood puts it, so that lme is called here on
# the straightened curve, again and again from its own effects, until they stay.
repeated <- function(curve, data, response, group, start, random, design) {
  value <- start
  effect <- matrix(0, nlevels(group), length(random), dimnames = list(levels(group), random))
  for (round in 1:200) {
    own <- lapply(setNames(names(design), names(design)), function(name) {
      fixed <- design[[name]] %*% value[[name]]
      as.numeric(fixed) + if (name %in% random) effect[group, name] else 0
    })
    at <- do.call(curve, c(own, list(data)))
    slope <- attr(at, "gradient")
    columns <- do.call(cbind, lapply(names(design), function(name) slope[, name] * design[[name]]))
    varied <- slope[, random, drop = FALSE]
    frame <- data.frame(
      target = response - as.numeric(at) + as.numeric(columns %*% unlist(value)) + rowSums(varied * effect[group, , drop = FALSE]),
      group = group, varied
    )
    frame$columns <- columns
    form <- as.formula(paste("~ 0 +", paste(random, collapse = " + ")))
    fit <- lme(target ~ 0 + columns, frame, random = list(group = pdDiag(form)), method = "REML",
      control = lmeControl(msTol = 1e-13, tolerance = 1e-10, opt = "optim", reltol = 1e-15, maxIter = 200, msMaxIter = 500))
    sizes <- vapply(design, ncol, 1)
    next_value <- split(unname(fixef(fit)), rep(factor(names(design), names(design)), sizes))
    moved <- max(abs(unlist(next_value) - unlist(value)) / sqrt(diag(vcov(fit))))
    value <- next_value
    effect <- as.matrix(ranef(fit))[levels(group), random, drop = FALSE]
    if (moved < 1e-7) return(fit)
  }
  stop("did not rest")
}

one <- function(data) matrix(1, nrow(data), 1)
restricted <- function(name, fit, names, data, x, response, group, columns = list()) {
  spread <- as.numeric(VarCorr(fit)[seq_len(nrow(VarCorr(fit)) - 1), "StdDev"])
  list(
    name = name, x = data[[x]], response = data[[response]], group = as.character(data[[group]]), columns = columns, method = "reml",
    coefficients = as.list(setNames(unname(fixef(fit)), names)), standardErrors = as.list(setNames(sqrt(diag(vcov(fit))), names)),
    deviations = spread, residual = fit$sigma, logLikelihood = as.numeric(logLik(fit))
  )
}
growth_curve <- deriv(~ Asym + (R0 - Asym) * exp(-exp(lrc) * age), c("Asym", "R0", "lrc"), function(Asym, R0, lrc, data) NULL)
body(growth_curve) <- do.call(substitute, list(body(growth_curve), list(age = quote(data$age))))
growth <- repeated(growth_curve, Loblolly, Loblolly$height, factor(Loblolly$Seed, ordered = FALSE),
  list(Asym = 101.4, R0 = -8.6, lrc = -3.23), "Asym", list(Asym = one(Loblolly), R0 = one(Loblolly), lrc = one(Loblolly)))
uptake_curve <- deriv(~ Asym * (1 - exp(-exp(lrc) * (conc - c0))), c("Asym", "lrc", "c0"), function(Asym, lrc, c0, data) NULL)
body(uptake_curve) <- do.call(substitute, list(body(uptake_curve), list(conc = quote(data$conc))))
typed <- as.numeric(CO2$Type == "Mississippi")
taken <- repeated(uptake_curve, CO2, CO2$uptake, factor(CO2$Plant, ordered = FALSE),
  list(Asym = c(40.3, -15.5), lrc = -4.6, c0 = 48.7), c("Asym", "lrc"), list(Asym = cbind(1, typed), lrc = one(CO2), c0 = one(CO2)))

cases <- list(
  described("Loblolly, ML", asymptotic, Loblolly, "age", "height", "Seed"),
  described("Orange, ML", logistic, Orange, "age", "circumference", "Tree"),
  described("CO2 by type, ML", uptake, CO2, "conc", "uptake", "Plant", list(mississippi = typed)),
  restricted("Loblolly, REML", growth, c("Asym", "R0", "lrc"), Loblolly, "age", "height", "Seed"),
  restricted("CO2 by type, REML", taken, c("Asym.(Intercept)", "Asym.TypeMississippi", "lrc", "c0"), CO2, "conc", "uptake", "Plant", list(mississippi = typed))
)
text <- jsonlite::toJSON(
  list(
    source = "Loblolly, Orange and CO2 of R's datasets; fits by nlme::nlme, and by nlme::lme on the straightened curve for restricted likelihood",
    tool = paste0("R ", getRversion(), ", nlme ", packageVersion("nlme")), cases = cases
  ),
  digits = I(17), auto_unbox = TRUE
)
writeLines(text, file.path(folder, "nonlinear-mixed.json"))
