# The primary analysis on open data sets that R packages carry, each laid out as walls with a before and an after value.
# Usage: Rscript generate.R OUTPUT-FOLDER
library(jsonlite)
folder <- commandArgs(trailingOnly = TRUE)[1]

t_estimate <- function(fit, name) {
  row <- summary(fit)$coefficients[name, ]
  ci <- confint(fit, name)
  list(estimate = row[["Estimate"]], standardError = row[["Std. Error"]], degreesOfFreedom = fit$df.residual,
       pValue = row[["Pr(>|t|)"]], lower = ci[[1]], upper = ci[[2]])
}

welch <- function(treated, untreated) {
  test <- t.test(treated, untreated)
  list(estimate = mean(treated) - mean(untreated), standardError = test$stderr, degreesOfFreedom = test$parameter[["df"]],
       pValue = test$p.value, lower = test$conf.int[1], upper = test$conf.int[2])
}

paired <- function(difference) {
  test <- t.test(difference)
  list(estimate = mean(difference), standardError = test$stderr, degreesOfFreedom = test$parameter[["df"]],
       pValue = test$p.value, lower = test$conf.int[1], upper = test$conf.int[2])
}

# Hedges' g of a difference over the pooled standard deviation of the changes; limits from pt() with a noncentrality.
hedges <- function(treated, untreated, difference) {
  n <- c(length(treated), length(untreated)); df <- sum(n) - 2
  sd <- sqrt((sum((treated - mean(treated))^2) + sum((untreated - mean(untreated))^2)) / df)
  scale <- sqrt(1 / n[1] + 1 / n[2]); t <- difference / sd / scale
  correction <- exp(lgamma(df / 2) - log(sqrt(df / 2)) - lgamma((df - 1) / 2))
  limit <- function(p) uniroot(function(ncp) pt(t, df, ncp) - p, t + c(-15, 15), tol = 1e-13)$root
  list(estimate = correction * difference / sd, lower = correction * scale * limit(0.975), upper = correction * scale * limit(0.025))
}

case <- function(name, walls, primary, method, adjusted) {
  walls$change <- walls$after - walls$before
  treated <- walls$change[walls$side == "treated"]; untreated <- walls$change[walls$side == "untreated"]
  list(name = name, method = method, walls = walls[c("side", "block", "before", "after")], primary = primary,
       baselineAdjusted = adjusted, hedges = hedges(treated, untreated, primary$estimate))
}

# PlantGrowth: control against the second treatment; no before values, so before is zero and the change is the weight.
plants <- subset(PlantGrowth, group %in% c("ctrl", "trt2"))
plant_walls <- data.frame(side = ifelse(plants$group == "trt2", "treated", "untreated"), block = "", before = 0, after = plants$weight)

# sleep: ten patients, two drugs, as pairs.
sleep_walls <- data.frame(side = ifelse(sleep$group == 2, "treated", "untreated"), block = as.character(sleep$ID), before = 0, after = sleep$extra)

# npk: six blocks of four plots, nitrogen on two of each.
npk_walls <- data.frame(side = ifelse(npk$N == 1, "treated", "untreated"), block = as.character(npk$block), before = 0, after = npk$yield)

# MASS::anorexia: weights before and after, family therapy against control.
girls <- subset(MASS::anorexia, Treat %in% c("FT", "Cont"))
girl_walls <- data.frame(side = ifelse(girls$Treat == "FT", "treated", "untreated"), block = "", before = girls$Prewt, after = girls$Postwt)

# MASS::immer: barley yields of 1931 and 1932, variety M against variety S, inside places as blocks.
barley <- subset(MASS::immer, Var %in% c("M", "S"))
barley_walls <- data.frame(side = ifelse(barley$Var == "M", "treated", "untreated"), block = as.character(barley$Loc), before = barley$Y1, after = barley$Y2)

lm_arm <- function(formula, walls) {
  walls$arm <- as.numeric(walls$side == "treated"); walls$change <- walls$after - walls$before
  t_estimate(lm(formula, walls), "arm")
}
pairs_of <- function(walls) {
  walls <- walls[order(walls$block), ]; change <- walls$after - walls$before
  change[walls$side == "treated"] - change[walls$side == "untreated"]
}
welch_of <- function(walls) {
  change <- walls$after - walls$before
  welch(change[walls$side == "treated"], change[walls$side == "untreated"])
}

cases <- list(
  case("datasets::PlantGrowth", plant_walls, welch_of(plant_walls), "welch", NULL),
  case("datasets::sleep", sleep_walls, paired(pairs_of(sleep_walls)), "paired-blocks", NULL),
  case("datasets::npk", npk_walls, lm_arm(change ~ arm + block, npk_walls), "block-model", NULL),
  case("MASS::anorexia", girl_walls, welch_of(girl_walls), "welch", lm_arm(after ~ arm + before, girl_walls)),
  case("MASS::immer", barley_walls, paired(pairs_of(barley_walls)), "paired-blocks", lm_arm(after ~ arm + before + block, barley_walls))
)

write_json(list(
  source = "open data sets of R, analysed with t.test, lm and pt; made by generate.R beside this file, not by hand",
  tool = paste0("R ", getRversion(), ", MASS ", packageVersion("MASS")),
  cases = cases
), file.path(folder, "primary-analysis.json"), digits = I(17), auto_unbox = TRUE, null = "null", pretty = TRUE)
