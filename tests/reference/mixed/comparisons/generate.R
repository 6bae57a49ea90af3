# Likelihood-ratio tests by lme4's anova(), a parametric bootstrap by pbkrtest, and the F test that a bootstrap of one variance must agree with.
#
# Usage: Rscript generate.R OUTPUT-FOLDER
suppressMessages({
  library(lme4)
  library(pbkrtest)
  library(jsonlite)
})
output <- commandArgs(trailingOnly = TRUE)[1]
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-9))
# The call is kept as one that can be evaluated anywhere, as pbkrtest does.
fit <- function(formula, data) eval(bquote(lmer(.(formula), .(substitute(data)), REML = FALSE, control = tight)), globalenv())
columns_of <- function(design) lapply(seq_len(ncol(design)), function(j) list(name = colnames(design)[j], values = unname(design[, j])))
side <- function(m) {
  list(
    fixed = columns_of(getME(m, "X")),
    random = lapply(seq_along(getME(m, "flist")), function(i) {
      list(groups = as.character(getME(m, "flist")[[i]]), columns = columns_of(getME(m, "mmList")[[i]]))
    })
  )
}
compare <- function(name, small, large) {
  table <- anova(small, large, refit = FALSE)
  list(
    name = name, response = unname(getME(large, "y")), small = side(small), large = side(large),
    statistic = table$Chisq[2], degreesOfFreedom = table$Df[2], pValue = table[["Pr(>Chisq)"]][2]
  )
}
data(package = "pbkrtest", list = "beets")
without <- fit(sugpct ~ block + sow + (1 | block:harvest), beets)
with <- fit(sugpct ~ block + sow + harvest + (1 | block:harvest), beets)
replicates <- 500
set.seed(20240201)
simulated <- PBmodcomp(with, without, nsim = replicates, cl = 1)$test["PBtest", "p.value"]

ratios <- list(
  c(compare("beets, harvest", without, with), list(bootstrap = list(pValue = simulated, replicates = replicates))),
  compare("sleepstudy, slope of days", fit(Reaction ~ 1 + (Days | Subject), sleepstudy), fit(Reaction ~ Days + (Days | Subject), sleepstudy)),
  compare("sleepstudy, varying slopes", fit(Reaction ~ Days + (1 | Subject), sleepstudy), fit(Reaction ~ Days + (Days | Subject), sleepstudy))
)
table <- anova(lm(Yield ~ Batch, Dyestuff))
variance <- list(
  response = as.numeric(Dyestuff$Yield), groups = as.character(Dyestuff$Batch),
  statistic = table[1, "F value"], pValue = table[1, "Pr(>F)"]
)
tool <- paste0(R.version.string, "; lme4 ", packageVersion("lme4"), ", pbkrtest ", packageVersion("pbkrtest"))
source <- "Data sets of the R packages lme4 and pbkrtest"
writeLines(
  toJSON(list(source = source, tool = tool, cases = ratios, variance = variance), digits = I(17), auto_unbox = TRUE),
  file.path(output, "comparisons.json")
)
