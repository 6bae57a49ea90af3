# Profile likelihood limits of the variance components of mixed models fitted by maximum likelihood.
#
# lme4's confint() interpolates its profile, which leaves four digits or so. Here the profile of lme4's own deviance as a function of standard
# deviations and correlations (devfun2) is minimised anew at every value, and the limits are found by uniroot. The script stops
# unless confint() agrees to one part in 100.
#
# Usage: Rscript generate.R OUTPUT-FOLDER
suppressMessages({
  library(lme4)
  library(jsonlite)
})
output <- commandArgs(trailingOnly = TRUE)[1]
data(package = "nlme", list = "Oats")
oats <- as.data.frame(Oats)
oats$Block <- factor(as.character(oats$Block))
oats$plot <- factor(paste(oats$Block, oats$Variety))

# Which component each parameter is: a term (from 0) and its columns (from 0), or the residual.
sd_of <- function(term, column) list(kind = "standard-deviation", term = term, columns = I(column))
correlation_of <- function(term) list(kind = "correlation", term = term, columns = I(c(0, 1)))
residual <- list(kind = "standard-deviation", term = -1, columns = I(integer()))
models <- list(
  list(name = "sleepstudy, slopes", data = sleepstudy, formula = Reaction ~ Days + (Days | Subject),
    components = list(sd_of(0, 0), correlation_of(0), sd_of(0, 1), residual)),
  list(name = "sleepstudy, uncorrelated slopes", data = sleepstudy, formula = Reaction ~ Days + (1 | Subject) + (0 + Days | Subject),
    components = list(sd_of(0, 0), sd_of(1, 0), residual)),
  list(name = "Dyestuff, balanced", data = Dyestuff, formula = Yield ~ 1 + (1 | Batch), components = list(sd_of(0, 0), residual)),
  list(name = "Dyestuff2, boundary", data = Dyestuff2, formula = Yield ~ 1 + (1 | Batch), components = list(sd_of(0, 0), residual)),
  list(name = "Penicillin, crossed", data = Penicillin, formula = diameter ~ 1 + (1 | plate) + (1 | sample),
    components = list(sd_of(0, 0), sd_of(1, 0), residual)),
  list(name = "Pastes, nested", data = Pastes, formula = strength ~ 1 + (1 | sample) + (1 | batch),
    components = list(sd_of(0, 0), sd_of(1, 0), residual)),
  list(name = "Oats, split plot", data = oats, formula = yield ~ nitro + (1 | plot) + (1 | Block),
    components = list(sd_of(0, 0), sd_of(1, 0), residual))
)

limits <- function(model) {
  fit <- lmer(model$formula, model$data, REML = FALSE, control = lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9)))
  fun <- lme4:::devfun2(fit, useSc = TRUE, signames = FALSE)
  best <- unname(attr(fun, "optimum"))[seq_along(model$components)]
  isc <- vapply(model$components, function(one) one$kind == "correlation", TRUE)
  low <- ifelse(isc, -1, 0)
  high <- ifelse(isc, 1, Inf)
  low[length(low)] <- best[length(best)] / 100
  least <- function(k, value, start) {
    if (length(best) == 1) return(list(objective = fun(value)))
    at <- function(rest) fun(append(rest, value, k - 1))
    nlminb(start, at, lower = low[-k], upper = high[-k], control = list(rel.tol = 1e-15, x.tol = 1e-12, eval.max = 5000, iter.max = 5000))
  }
  minimum <- min(fun(best), nlminb(best, fun, lower = low, upper = high, control = list(rel.tol = 1e-15))$objective)
  rise <- qchisq(0.95, 1)
  excess <- function(k, value) min(
    least(k, value, best[-k])$objective,
    least(k, value, pmax(best[-k] * 1.3, 0.1 * (!isc[-k])))$objective
  ) - minimum - rise
  interpolated <- suppressMessages(suppressWarnings(confint(fit, parm = "theta_", method = "profile", quiet = TRUE)))
  lapply(seq_along(best), function(k) {
    near <- interpolated[k, ]
    # On the boundary confint() does not find the limits of the residual's standard deviation.
    if (k == length(best) && best[1] == 0) near[] <- NA
    side <- function(guess, end, instead) {
      if (is.na(guess) && k == length(best)) guess <- instead * best[k]
      if (is.na(guess) || (abs(guess - end) < 1e-6 && is.finite(end))) {
        if (excess(k, end) > 0) stop("no limit where there should be one")
        return(end)
      }
      uniroot(function(v) excess(k, v), sort(guess * c(0.995, 1.005)), tol = 1e-9, extendInt = "yes")$root
    }
    found <- unname(c(side(near[1], low[k], 0.8), side(near[2], high[k], 1.25)))
    if (any(abs(found - near) > 1e-2 * abs(near) + 1e-6, na.rm = TRUE)) stop(model$name, " ", k, ": confint differs")
    c(model$components[[k]], list(lower = found[1], upper = found[2]))
  })
}

cases <- lapply(models, function(model) {
  parts <- lFormula(model$formula, model$data, REML = FALSE)
  list(
    name = model$name, response = unname(model.response(parts$fr)),
    fixed = lapply(seq_len(ncol(parts$X)), function(j) list(name = colnames(parts$X)[j], values = unname(parts$X[, j]))),
    random = lapply(findbars(model$formula), function(bar) {
      frame <- model.matrix(eval(substitute(~x, list(x = bar[[2]]))), model$data)
      list(
        groups = as.character(model$data[[as.character(bar[[3]])]]),
        columns = lapply(seq_len(ncol(frame)), function(j) list(name = colnames(frame)[j], values = unname(frame[, j])))
      )
    }),
    limits = limits(model)
  )
})
tool <- paste0(R.version.string, "; lme4 ", packageVersion("lme4"), ", nlme ", packageVersion("nlme"))
source <- "Data sets of the R packages lme4 and nlme; limits by uniroot on the minimised deviance, 95 %"
writeLines(
  toJSON(list(source = source, tool = tool, cases = cases), digits = I(17), auto_unbox = TRUE),
  file.path(output, "profiles.json")
)
