# Effect sizes on open data sets that R packages carry.
suppressMessages({ library(metafor); library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

noncentrality <- function(t, df, level) {
  tail <- (1 - level) / 2
  solve_for <- function(p) uniroot(function(ncp) pt(t, df, ncp) - p, t + c(-25, 25), tol = 1e-14)$root
  c(solve_for(1 - tail), solve_for(tail))
}

superiority <- function(x, y, level) {
  theta <- mean(outer(x, y, function(a, b) (a < b) + 0.5 * (a == b)))
  h <- (length(x) + length(y)) / 2 - 1
  variance <- function(t) t * (1 - t) * (1 + h * (1 - t) / (2 - t) + h * t / (1 + t)) / (length(x) * length(y))
  outside <- function(t) (t - theta)^2 - qnorm((1 + level) / 2)^2 * variance(t)
  limit <- function(from, to) uniroot(outside, c(from, to), tol = 1e-15)$root
  list(estimate = theta, lower = if (theta > 0) limit(0, theta - 1e-9) else 0, upper = if (theta < 1) limit(theta + 1e-9, 1) else 1)
}

case <- function(name, x, y, level = 0.95, difference = mean(x) - mean(y), ratio = TRUE) {
  n <- c(length(x), length(y)); df <- sum(n) - 2; root <- sqrt(prod(n) / sum(n))
  pooled <- sqrt(((n[1] - 1) * var(x) + (n[2] - 1) * var(y)) / df)
  correction <- exp(lgamma(df / 2) - log(sqrt(df / 2)) - lgamma((df - 1) / 2))
  g <- noncentrality(difference / pooled * root, df, level) / root * correction
  delta <- noncentrality(difference / sd(y) * root, n[2] - 1, level) / root
  smd <- escalc("SMD", m1i = mean(x), m2i = mean(y), sd1i = sd(x), sd2i = sd(y), n1i = n[1], n2i = n[2])
  answer <- list(name = name, x = x, y = y, level = level, difference = difference, pooledSd = pooled, untreatedSd = sd(y),
    hedgesG = list(estimate = difference / pooled * correction, lower = g[1], upper = g[2]),
    standardisedByMetafor = as.numeric(smd$yi),
    glassDelta = list(estimate = difference / sd(y), lower = delta[1], upper = delta[2]),
    superiority = superiority(x, y, level))
  if (ratio) {
    rom <- escalc("ROM", m1i = mean(x), m2i = mean(y), sd1i = sd(x), sd2i = sd(y), n1i = n[1], n2i = n[2])
    reach <- qnorm((1 + level) / 2) * sqrt(rom$vi)
    answer$logRatio <- list(estimate = as.numeric(rom$yi), standardError = sqrt(rom$vi), lower = as.numeric(rom$yi) - reach, upper = as.numeric(rom$yi) + reach)
  }
  answer
}

change <- with(anorexia, Postwt - Prewt)
grams <- function(treatment) PlantGrowth$weight[PlantGrowth$group == treatment]
feeds <- function(feed) chickwts$weight[chickwts$feed == feed]
in_blocks <- coef(lm(yield ~ N + block, npk))[["N1"]]

cases <- list(
  case("MASS::anorexia, weight change, FT against Cont", change[anorexia$Treat == "FT"], change[anorexia$Treat == "Cont"], ratio = FALSE),
  case("MASS::anorexia, weight after, FT against Cont", anorexia$Postwt[anorexia$Treat == "FT"], anorexia$Postwt[anorexia$Treat == "Cont"]),
  case("datasets::PlantGrowth, trt1 against ctrl", grams("trt1"), grams("ctrl"), 0.9),
  case("datasets::chickwts, horsebean against linseed", feeds("horsebean"), feeds("linseed")),
  case("datasets::ToothGrowth, OJ against VC", ToothGrowth$len[ToothGrowth$supp == "OJ"], ToothGrowth$len[ToothGrowth$supp == "VC"], 0.99),
  case("datasets::npk, nitrogen, difference from lm with block", npk$yield[npk$N == 1], npk$yield[npk$N == 0], 0.95, in_blocks, ratio = FALSE),
  case("datasets::mtcars, weight of eight cylinders against four: wholly apart but for one", mtcars$wt[mtcars$cyl == 8], mtcars$wt[mtcars$cyl == 4]),
  case("datasets::iris, petal length, setosa against virginica: wholly apart", iris$Petal.Length[1:6], iris$Petal.Length[101:109]))

record <- list(source = "pt(ncp) by uniroot, metafor::escalc SMD and ROM, lm; superiority by Newcombe's (2006) method 5 written out and solved by uniroot",
               tool = paste0(R.version.string, ", metafor ", packageVersion("metafor"), ", MASS ", packageVersion("MASS")),
               cases = cases,
               correction = lapply(c(2, 3, 6, 22.5, 60, 1e4, 1e6), function(m)
                 list(degreesOfFreedom = m, value = if (m <= 60) exp(lgamma(m / 2) - log(m / 2) / 2 - lgamma((m - 1) / 2)) else 1 - 3 / (4 * m) - 7 / (32 * m^2) - 9 / (128 * m^3))))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "effect-size.json"))
