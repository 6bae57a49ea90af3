# Linear mixed models on open data sets, by lme4 (fits), lmerTest (Satterthwaite) and pbkrtest (Kenward-Roger).
#
# lme4's optimisers stop at about five digits. Each fit is therefore polished: Newton steps on Richardson-extrapolated
# derivatives of lme4's own deviance function, until a step moves no parameter by more than 1e-9.
#
# Usage: Rscript generate.R OUTPUT-FOLDER
suppressMessages({
  library(lme4)
  library(lmerTest)
  library(pbkrtest)
  library(jsonlite)
})
output <- commandArgs(trailingOnly = TRUE)[1]
tool <- paste0(
  R.version.string, "; lme4 ", packageVersion("lme4"), ", lmerTest ", packageVersion("lmerTest"),
  ", pbkrtest ", packageVersion("pbkrtest"), ", nlme ", packageVersion("nlme")
)

# Wide differences: the default ones drown in the rounding of the deviance.
wide <- list(d = 0.02, r = 6)

polished <- function(formula, data, reml) {
  call <- call("lmer", formula = formula, data = quote(data), REML = reml)
  # A new set of parts each time: deviance functions made from the same parts share memory.
  parse <- function() lFormula(formula, data, REML = reml, control = lmerControl(check.nobs.vs.nlev = "ignore"))
  parts <- parse()
  fun <- do.call(mkLmerDevfun, parts)
  start <- optimizeLmer(fun, optimizer = "bobyqa", control = list(rhoend = 1e-9, maxfun = 1e5))
  theta <- start$par
  on_boundary <- parts$reTrms$lower == 0 & theta < 1e-4
  theta[on_boundary] <- 0
  free <- which(!on_boundary)
  at <- function(part) fun(replace(theta, free, part))
  part <- theta[free]
  for (i in seq_len(if (length(free)) 20 else 0)) {
    step <- solve(numDeriv::hessian(at, part), numDeriv::grad(at, part, method.args = wide))
    part <- part - step
    if (max(abs(step)) < 1e-9) break
  }
  theta[free] <- part
  value <- fun(theta)
  fit <- mkMerMod(environment(fun), list(par = theta, fval = value, conv = 0), parts$reTrms, parts$fr, mc = call)
  list(fit = fit, boundary = any(on_boundary), fun = do.call(mkLmerDevfun, parse()))
}

random_terms <- function(fit) {
  bars <- findbars(formula(fit))
  lapply(seq_along(bars), function(i) {
    frame <- getME(fit, "mmList")[[i]]
    group <- getME(fit, "flist")[[attr(getME(fit, "flist"), "assign")[i]]]
    list(
      groups = as.character(group),
      columns = lapply(seq_len(ncol(frame)), function(j) list(name = colnames(frame)[j], values = unname(frame[, j])))
    )
  })
}

components <- function(fit) {
  bars <- VarCorr(fit)
  lapply(seq_along(bars), function(i) {
    list(
      standardDeviations = I(unname(attr(bars[[i]], "stddev"))),
      covariance = unclass(unname(matrix(bars[[i]], nrow(bars[[i]]))))
    )
  })
}

estimates <- function(fit) {
  list(
    coefficients = I(unname(fixef(fit))),
    standardErrors = I(unname(sqrt(diag(as.matrix(vcov(fit)))))),
    terms = components(fit),
    residual = sigma(fit),
    logLikelihood = as.numeric(logLik(fit))
  )
}

# lmerTest differentiates numerically: from the seventh digit on its degrees of freedom differ from run to run.
steady <- function(value) signif(value, 6)

contrast_tests <- function(polish, joint) {
  fit <- polish$fit
  size <- length(fixef(fit))
  tested <- lmerTest:::as_lmerModLT(fit, polish$fun)
  adjusted <- vcovAdj(fit)
  single <- lapply(seq_len(size), function(i) {
    weights <- as.numeric(seq_len(size) == i)
    one <- contest(tested, weights, joint = FALSE)
    two <- contest(tested, weights, joint = FALSE, ddf = "Kenward-Roger")
    list(
      satterthwaite = list(standardError = one[["Std. Error"]], degreesOfFreedom = steady(one[["df"]])),
      kenwardRoger = list(standardError = two[["Std. Error"]], degreesOfFreedom = two[["df"]])
    )
  })
  answer <- list(single = single, adjusted = unname(as.matrix(adjusted)))
  if (length(joint) > 1) {
    weights <- diag(size)[joint, , drop = FALSE]
    one <- contest(tested, weights, joint = TRUE)
    two <- KRmodcomp(fit, weights)$test["Ftest", ]
    answer$joint <- list(
      rows = I(joint - 1),
      satterthwaite = list(statistic = one[["F value"]], degreesOfFreedom = steady(one[["DenDF"]])),
      kenwardRoger = list(statistic = two$stat, degreesOfFreedom = two$ddf, scale = two$F.scaling)
    )
  }
  answer
}

data(package = "nlme", list = c("Machines", "Oats", "Orthodont", "Rail", "ergoStool", "Oxide", "RatPupWeight", "Pixel"))
data(package = "pbkrtest", list = "beets")
students <- subset(InstEval, as.integer(s) %% 120 == 1)
plain <- function(frame) {
  frame <- as.data.frame(frame)
  frame[] <- lapply(frame, function(x) if (is.ordered(x)) factor(x, levels(x), ordered = FALSE) else x)
  frame
}
models <- list(
  list(name = "sleepstudy, slopes", data = sleepstudy, formula = Reaction ~ Days + (Days | Subject)),
  list(name = "sleepstudy, uncorrelated slopes", data = sleepstudy, formula = Reaction ~ Days + (1 | Subject) + (0 + Days | Subject)),
  list(name = "Dyestuff, balanced", data = Dyestuff, formula = Yield ~ 1 + (1 | Batch)),
  list(name = "Dyestuff2, boundary", data = Dyestuff2, formula = Yield ~ 1 + (1 | Batch)),
  list(name = "Penicillin, crossed", data = Penicillin, formula = diameter ~ 1 + (1 | plate) + (1 | sample)),
  list(name = "Pastes, nested", data = Pastes, formula = strength ~ 1 + (1 | sample) + (1 | batch)),
  list(name = "cake, split plot", data = cake, formula = angle ~ recipe + temp + (1 | recipe:replicate)),
  list(name = "Machines, nested", data = Machines, formula = score ~ Machine + (1 | Worker) + (1 | Worker:Machine)),
  list(name = "Machines, three effects a worker", data = Machines, formula = score ~ Machine + (0 + Machine | Worker)),
  list(name = "Oats, split plot", data = Oats, formula = yield ~ nitro * Variety + (1 | Block) + (1 | Block:Variety)),
  list(name = "Orthodont, slopes", data = Orthodont, formula = distance ~ age * Sex + (age | Subject)),
  list(name = "Rail, balanced", data = Rail, formula = travel ~ 1 + (1 | Rail)),
  list(name = "ergoStool, blocks", data = ergoStool, formula = effort ~ Type + (1 | Subject)),
  list(name = "Oxide, nested", data = Oxide, formula = Thickness ~ 1 + (1 | Lot) + (1 | Lot:Wafer)),
  list(name = "RatPupWeight, unbalanced", data = RatPupWeight, formula = weight ~ Treatment * sex + Lsize + (1 | Litter)),
  list(name = "Pixel, unbalanced, nested, slopes", data = Pixel, formula = pixel ~ day + I(day^2) + (day | Dog) + (1 | Dog:Side)),
  list(name = "beets, split plot", data = beets, formula = sugpct ~ block + sow + harvest + (1 | block:harvest)),
  list(name = "InstEval, every 120th student, crossed, unbalanced", data = students, formula = y ~ service + lectage + (1 | s) + (1 | d) + (1 | dept))
)

cases <- lapply(models, function(model) {
  data <- plain(model$data)
  restricted <- polished(model$formula, data, TRUE)
  plain_fit <- polished(model$formula, data, FALSE)
  design <- getME(restricted$fit, "X")
  joint <- seq_len(ncol(design))[-1]
  list(
    name = model$name,
    boundary = restricted$boundary,
    boundaryUnderMl = plain_fit$boundary,
    response = unname(getME(restricted$fit, "y")),
    fixed = lapply(seq_len(ncol(design)), function(j) list(name = colnames(design)[j], values = unname(design[, j]))),
    random = random_terms(restricted$fit),
    modes = lapply(ranef(restricted$fit, condVar = FALSE), function(effects) {
      list(levels = rownames(effects), effects = unname(as.matrix(effects)))
    }),
    reml = estimates(restricted$fit),
    ml = estimates(plain_fit$fit),
    tests = contrast_tests(restricted, joint)
  )
})
source <- "Data sets of the R packages lme4, nlme and pbkrtest; fits polished by Newton steps on lme4's deviance until below 1e-9"
writeLines(
  toJSON(list(source = source, tool = tool, cases = cases), digits = I(17), auto_unbox = TRUE),
  file.path(output, "mixed-models.json")
)
