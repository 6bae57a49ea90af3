# Mixed and marginal models whose residuals are autoregressive, differ in variance, or both, by nlme.
#
# nlme differentiates its likelihood numerically, so its optimum is polished here: Newton steps on Richardson-extrapolated derivatives of
# the likelihood with the covariance of all observations written out. The script stops unless nlme's own log-likelihood agrees.
#
# nlme has no Satterthwaite degrees of freedom. They are computed here by their definition from that same likelihood: 2 v^2 / (g' A g)
# with v a coefficient's variance, g its derivatives by the variance parameters and A twice the inverse of the deviance's second derivatives.
#
# Usage: Rscript generate.R OUTPUT-FOLDER
suppressMessages({
  library(nlme)
  library(jsonlite)
})
output <- commandArgs(trailingOnly = TRUE)[1]
wide <- list(d = 0.02, r = 6)

# Parameters: log sd of an intercept by unit (if any), log sd of the residual, atanh of the correlation (if any), log ratios of sd by group.
covariance <- function(case, parameters) {
  rest <- parameters
  total <- 0
  if (!is.null(case$unit)) {
    total <- exp(2 * rest[1]) * outer(case$unit, case$unit, "==")
    rest <- rest[-1]
  }
  sd <- exp(rest[1])
  rest <- rest[-1]
  correlation <- diag(length(case$response))
  if (!is.null(case$series)) {
    apart <- abs(outer(case$steps, case$steps, "-"))
    correlation <- tanh(rest[1])^apart * outer(case$series, case$series, "==")
    rest <- rest[-1]
  }
  deviations <- rep(sd, length(case$response))
  if (!is.null(case$groups)) deviations <- sd * c(1, exp(rest))[match(case$groups, unique(case$groups))]
  total + outer(deviations, deviations) * correlation
}

log_likelihood <- function(case, parameters, reml) {
  upper <- chol(covariance(case, parameters))
  x <- backsolve(upper, case$design, transpose = TRUE)
  y <- backsolve(upper, case$response, transpose = TRUE)
  qrx <- qr(x)
  squares <- sum(qr.resid(qrx, y)^2)
  size <- ncol(x)
  n <- length(y)
  value <- -0.5 * ((n - reml * size) * log(2 * pi) + squares) - sum(log(diag(upper)))
  list(
    value = value - if (reml) sum(log(abs(diag(qr.R(qrx))))) else 0,
    coefficients = qr.coef(qrx, y),
    errors = sqrt(diag(chol2inv(qr.R(qrx))))
  )
}

polish <- function(case, start, reml) {
  at <- function(parameters) -2 * log_likelihood(case, parameters, reml)$value
  for (i in 1:30) {
    step <- solve(numDeriv::hessian(at, start), numDeriv::grad(at, start, method.args = wide))
    start <- start - step
    if (max(abs(step)) < 1e-8) break
  }
  answer <- log_likelihood(case, start, reml)
  freedom <- if (reml) satterthwaite(case, start)
  rest <- start
  terms <- list()
  if (!is.null(case$unit)) {
    terms <- list(exp(rest[1]))
    rest <- rest[-1]
  }
  list(
    coefficients = I(unname(answer$coefficients)), standardErrors = I(unname(answer$errors)), logLikelihood = answer$value,
    degreesOfFreedom = I(as.numeric(freedom)),
    terms = I(as.numeric(unlist(terms))), residual = exp(rest[1]),
    ratios = I(if (is.null(case$groups)) numeric() else unname(c(1, exp(rest[-(1:(1 + !is.null(case$series)))])))),
    correlation = I(if (is.null(case$series)) numeric() else tanh(rest[2]))
  )
}

satterthwaite <- function(case, parameters) {
  deviance <- function(at) -2 * log_likelihood(case, at, TRUE)$value
  variances <- function(at) log_likelihood(case, at, TRUE)$errors^2
  spread <- 2 * solve(numDeriv::hessian(deviance, parameters))
  slopes <- numDeriv::jacobian(variances, parameters, method.args = wide)
  2 * variances(parameters)^2 / rowSums((slopes %*% spread) * slopes)
}

orthodont <- as.data.frame(Orthodont)
orthodont$Subject <- as.character(orthodont$Subject)
orthodont$step <- (orthodont$age - 6) / 2
gaps <- orthodont[-seq(3, nrow(orthodont), by = 7), ]
ovary <- as.data.frame(Ovary)
ovary$Mare <- as.character(ovary$Mare)
ovary$step <- ave(ovary$Time, ovary$Mare, FUN = rank)
ovary$half <- ifelse(ovary$Time %% 1 < 0.5, "first", "second")
weights <- as.data.frame(BodyWeight)
weights$Rat <- as.character(weights$Rat)
weights$Diet <- as.character(weights$Diet)
# Weekly, but for one weighing on day 44, which is left out.
weights <- weights[weights$Time != 44, ]
weights$step <- (weights$Time - 1) / 7
oats <- as.data.frame(Oats)
oats$Block <- as.character(oats$Block)
oats$Variety <- as.character(oats$Variety)
machines <- as.data.frame(Machines)
machines$Worker <- as.character(machines$Worker)
machines$Machine <- as.character(machines$Machine)

tight <- lmeControl(maxIter = 500, msMaxIter = 500, niterEM = 0, tolerance = 1e-10, msTol = 1e-12, returnObject = TRUE)
tight_gls <- glsControl(maxIter = 500, msMaxIter = 500, tolerance = 1e-10, msTol = 1e-12, returnObject = TRUE)
models <- list(
  list(name = "Orthodont, variance by sex", data = orthodont, fixed = distance ~ age * Sex, unit = "Subject", groups = "Sex"),
  list(name = "Machines, variance by machine", data = machines, fixed = score ~ Machine, unit = "Worker", groups = "Machine"),
  list(name = "Oats, variance by variety, no random term", data = oats, fixed = yield ~ nitro + Variety, groups = "Variety"),
  list(name = "Ovary, autoregressive", data = ovary, fixed = follicles ~ sin(2 * pi * Time) + cos(2 * pi * Time), unit = "Mare", series = "Mare"),
  list(name = "Orthodont, autoregressive, no random term", data = orthodont, fixed = distance ~ age * Sex, series = "Subject"),
  list(name = "Orthodont with gaps, autoregressive, no random term", data = gaps, fixed = distance ~ age * Sex, series = "Subject"),
  list(name = "Ovary, autoregressive, variance by half of the cycle", data = ovary, fixed = follicles ~ sin(2 * pi * Time) + cos(2 * pi * Time), unit = "Mare", series = "Mare", groups = "half"),
  list(name = "Orthodont, autoregressive, variance by sex", data = orthodont, fixed = distance ~ age * Sex, unit = "Subject", series = "Subject", groups = "Sex"),
  list(name = "BodyWeight, autoregressive, variance by diet, no random term", data = weights, fixed = weight ~ Time * Diet, series = "Rat", groups = "Diet"),
  list(name = "Orthodont with gaps, autoregressive, variance by sex, no random term", data = gaps, fixed = distance ~ age * Sex, series = "Subject", groups = "Sex")
)

fit_by_nlme <- function(model, method) {
  data <- model$data
  weights <- if (!is.null(model$groups)) varIdent(form = as.formula(paste("~1 |", model$groups)))
  correlation <- if (!is.null(model$series)) corAR1(0.3, form = as.formula(paste("~ step |", model$series)))
  if (is.null(model$unit)) {
    do.call(gls, list(model$fixed, data, correlation, weights, method = method, control = tight_gls))
  } else {
    random <- setNames(list(~1), model$unit)
    do.call(lme, list(model$fixed, data, random = random, correlation = correlation, weights = weights, method = method, control = tight))
  }
}

start_of <- function(model, fit) {
  sd <- fit$sigma
  log_ratios <- NULL
  if (!is.null(model$groups)) {
    ratios <- coef(fit$modelStruct$varStruct, unconstrained = FALSE, allCoef = TRUE)
    levels <- as.character(unique(model$data[[model$groups]]))
    sd <- fit$sigma * ratios[[levels[1]]]
    log_ratios <- log(unlist(lapply(levels[-1], function(l) ratios[[l]])) / ratios[[levels[1]]])
  }
  correlation <- if (!is.null(model$series)) atanh(coef(fit$modelStruct$corStruct, unconstrained = FALSE))
  unname(c(if (!is.null(model$unit)) log(as.numeric(VarCorr(fit)[1, "StdDev"])), log(sd), correlation, log_ratios))
}

cases <- lapply(models, function(model) {
  data <- model$data
  case <- list(
    design = model.matrix(model$fixed, data), response = data[[all.vars(model$fixed)[1]]],
    unit = if (!is.null(model$unit)) data[[model$unit]],
    kind = if (is.null(model$series)) "by-group" else if (is.null(model$groups)) "autoregressive" else "autoregressive-by-group",
    groups = if (!is.null(model$groups)) as.character(data[[model$groups]]),
    series = if (!is.null(model$series)) data[[model$series]], steps = data$step
  )
  answers <- lapply(c(REML = "REML", ML = "ML"), function(method) {
    fit <- fit_by_nlme(model, method)
    answer <- polish(case, start_of(model, fit), method == "REML")
    difference <- answer$logLikelihood - as.numeric(logLik(fit))
    if (difference < -1e-8 || difference > 1e-5) stop(model$name, " by ", method, ": nlme differs by ", difference)
    answer
  })
  list(
    name = model$name, kind = case$kind, response = as.numeric(case$response),
    fixed = lapply(seq_len(ncol(case$design)), function(j) list(name = colnames(case$design)[j], values = unname(case$design[, j]))),
    units = I(as.character(case$unit)), groups = I(as.character(case$groups)), series = I(as.character(case$series)),
    steps = I(if (is.null(case$series)) numeric() else as.numeric(case$steps)),
    reml = answers$REML, ml = answers$ML
  )
})
tool <- paste0(R.version.string, "; nlme ", packageVersion("nlme"))
source <- "Data sets of the R package nlme; nlme's fits polished by Newton steps on the likelihood until below 1e-8"
writeLines(
  toJSON(list(source = source, tool = tool, cases = cases), digits = I(17), auto_unbox = TRUE),
  file.path(output, "residuals.json")
)
