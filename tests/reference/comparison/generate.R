# Comparisons of means on open data sets that R packages carry.
suppressMessages({ library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

intervals <- function(test) as.numeric(test$conf.int)

two_groups <- function(name, x, y, level) {
  welch <- t.test(x, y, conf.level = level)
  pooled <- t.test(x, y, var.equal = TRUE, conf.level = level)
  describe <- function(test, estimate) list(
    estimate = estimate, standardError = test$stderr, degreesOfFreedom = unname(test$parameter),
    statistic = unname(test$statistic), pValue = test$p.value, lower = intervals(test)[1], upper = intervals(test)[2])
  list(name = name, x = x, y = y, level = level,
       welch = describe(welch, mean(x) - mean(y)), pooled = describe(pooled, mean(x) - mean(y)))
}

pairs_of <- function(name, differences, level) {
  test <- t.test(differences, conf.level = level)
  list(name = name, differences = differences, level = level, paired = list(
    estimate = unname(test$estimate), standardError = test$stderr, degreesOfFreedom = unname(test$parameter),
    statistic = unname(test$statistic), pValue = test$p.value, lower = intervals(test)[1], upper = intervals(test)[2]))
}

# The block model: least squares of the response on group and block.
in_blocks <- function(name, response, is_x, block, level) {
  block <- factor(block)
  fit <- lm(response ~ is_x + block)
  row <- summary(fit)$coefficients["is_x", ]
  limits <- confint(fit, "is_x", level = level)
  list(name = name, level = level,
       blocks = lapply(levels(block), function(b) list(x = I(response[is_x == 1 & block == b]), y = I(response[is_x == 0 & block == b]))),
       blocked = list(estimate = row[[1]], standardError = row[[2]], degreesOfFreedom = fit$df.residual,
                      statistic = row[[3]], pValue = row[[4]], lower = limits[1], upper = limits[2]))
}

change <- with(anorexia, Postwt - Prewt)
grams <- function(treatment) PlantGrowth$weight[PlantGrowth$group == treatment]
juice <- ToothGrowth$supp == "OJ"
feeds <- function(feed) chickwts$weight[chickwts$feed == feed]

groups <- list(
  two_groups("MASS::anorexia, weight change, FT against Cont", change[anorexia$Treat == "FT"], change[anorexia$Treat == "Cont"], 0.95),
  two_groups("datasets::sleep, extra hours as independent groups", sleep$extra[sleep$group == 1], sleep$extra[sleep$group == 2], 0.95),
  two_groups("datasets::ToothGrowth, OJ against VC", ToothGrowth$len[juice], ToothGrowth$len[!juice], 0.9),
  two_groups("datasets::PlantGrowth, trt1 against ctrl", grams("trt1"), grams("ctrl"), 0.99),
  two_groups("datasets::chickwts, linseed against horsebean", feeds("linseed"), feeds("horsebean"), 0.95),
  two_groups("datasets::mtcars, miles per gallon, manual against automatic", mtcars$mpg[mtcars$am == 1], mtcars$mpg[mtcars$am == 0], 0.95))

paired <- list(
  pairs_of("datasets::sleep, drug 1 less drug 2", sleep$extra[sleep$group == 1] - sleep$extra[sleep$group == 2], 0.95),
  pairs_of("MASS::immer, 1931 less 1932", immer$Y1 - immer$Y2, 0.95),
  pairs_of("MASS::anorexia, FT, after less before", change[anorexia$Treat == "FT"], 0.9),
  pairs_of("MASS::shoes, A less B", shoes$A - shoes$B, 0.99))

blocked <- list(
  in_blocks("datasets::npk, nitrogen in blocks", npk$yield, as.numeric(npk$N == "1"), npk$block, 0.95),
  in_blocks("datasets::mtcars, manual in numbers of cylinders (unequal)", mtcars$mpg, mtcars$am, mtcars$cyl, 0.95),
  in_blocks("datasets::ToothGrowth, OJ in doses", ToothGrowth$len, as.numeric(juice), ToothGrowth$dose, 0.9),
  in_blocks("MASS::anorexia, FT against Cont in thirds of weight before (unequal)",
            change[anorexia$Treat != "CBT"], as.numeric(anorexia$Treat == "FT")[anorexia$Treat != "CBT"],
            cut(anorexia$Prewt[anorexia$Treat != "CBT"], c(0, 79, 84, 100)), 0.95),
  in_blocks("datasets::mtcars, manual in numbers of carburettors (blocks that lack a group)", mtcars$mpg, mtcars$am, mtcars$carb, 0.95))

record <- list(source = "t.test and lm on data sets that R packages carry, named in each case",
               tool = paste0(R.version.string, ", MASS ", packageVersion("MASS")),
               groups = groups, paired = paired, blocked = blocked)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "comparison.json"))
