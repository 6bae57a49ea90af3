# Ratios of means, trimmed means and rank shifts on open data sets that R packages carry.
suppressMessages({ library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

# Fieller's limits as the ratios r at which the t statistic of mean(x) - r mean(y) reaches its quantile.
ratio <- function(x, y, level, spread) {
  r <- mean(x) / mean(y); n <- c(length(x), length(y))
  if (spread == "equal") {
    df <- sum(n) - 2; v <- ((n[1] - 1) * var(x) + (n[2] - 1) * var(y)) / df; v <- c(v, v) / n
  } else {
    v <- c(var(x), var(y)) / n
    df <- (v[1] + r^2 * v[2])^2 / (v[1]^2 / (n[1] - 1) + r^4 * v[2]^2 / (n[2] - 1))
  }
  excess <- function(at) abs(mean(x) - at * mean(y)) / sqrt(v[1] + at^2 * v[2]) - qt((1 + level) / 2, df)
  list(estimate = r, degreesOfFreedom = df, lower = uniroot(excess, c(r - 3, r), tol = 1e-14)$root, upper = uniroot(excess, c(r, r + 3), tol = 1e-14)$root)
}

trim <- function(x, y, level, cut) {
  part <- function(v) {
    g <- floor(cut * length(v)); h <- length(v) - 2 * g; s <- sort(v)
    w <- pmin(pmax(v, s[g + 1]), s[length(v) - g])
    list(mean = mean(v, trim = cut), d = (length(v) - 1) * var(w) / (h * (h - 1)), h = h)
  }
  a <- part(x); b <- part(y)
  se <- sqrt(a$d + b$d); df <- (a$d + b$d)^2 / (a$d^2 / (a$h - 1) + b$d^2 / (b$h - 1)); estimate <- a$mean - b$mean
  list(estimate = estimate, standardError = se, degreesOfFreedom = df, statistic = estimate / se, pValue = 2 * pt(-abs(estimate / se), df),
       lower = estimate - qt((1 + level) / 2, df) * se, upper = estimate + qt((1 + level) / 2, df) * se)
}

# The limits at the places that qwilcox and qsignrank give, which also hold with ties.
located <- function(differences, quantile) {
  s <- sort(differences)
  list(estimate = median(s), lower = if (quantile == 0) NULL else s[quantile], upper = if (quantile == 0) NULL else s[length(s) + 1 - quantile])
}
shift <- function(x, y, level) located(as.vector(outer(x, y, "-")), qwilcox((1 - level) / 2, length(x), length(y)))
centre <- function(d, level) {
  walsh <- outer(d, d, "+") / 2
  located(walsh[lower.tri(walsh, diag = TRUE)], qsignrank((1 - level) / 2, length(d)))
}

case <- function(name, x, y, level, cut) list(name = name, x = x, y = y, level = level, cut = cut,
  equal = ratio(x, y, level, "equal"), unequal = ratio(x, y, level, "unequal"), trimmed = trim(x, y, level, cut), shift = shift(x, y, level))

grams <- function(treatment) PlantGrowth$weight[PlantGrowth$group == treatment]
feeds <- function(feed) chickwts$weight[chickwts$feed == feed]
juice <- ToothGrowth$supp == "OJ"
groups <- list(
  case("MASS::anorexia, weight after, FT against Cont", anorexia$Postwt[anorexia$Treat == "FT"], anorexia$Postwt[anorexia$Treat == "Cont"], 0.95, 0.2),
  case("datasets::PlantGrowth, trt1 against ctrl", grams("trt1"), grams("ctrl"), 0.9, 0.1),
  case("datasets::chickwts, linseed against horsebean", feeds("linseed"), feeds("horsebean"), 0.95, 0.25),
  case("datasets::ToothGrowth, OJ against VC", ToothGrowth$len[juice], ToothGrowth$len[!juice], 0.99, 0.2),
  case("datasets::mtcars, manual against automatic", mtcars$mpg[mtcars$am == 1], mtcars$mpg[mtcars$am == 0], 0.95, 0.2))

# Where there are no ties wilcox.test itself gives interval and estimate.
exact <- function(x, y, level) { test <- wilcox.test(x, y, conf.int = TRUE, conf.level = level, exact = TRUE); list(x = x, y = y, level = level, lower = test$conf.int[1], upper = test$conf.int[2], estimate = unname(test$estimate)) }
untied <- list(exact(trees$Volume[1:9] + (1:9) / 1000, trees$Volume[20:31] + (1:12) / 977, 0.95), exact(c(1.1, 2.3, 5.9), c(0.2, 4.4, 7.1, 9.6), 0.9))

pairs_of <- function(name, d, level) list(name = name, differences = d, level = level, centre = centre(d, level))
paired <- list(
  pairs_of("datasets::sleep, drug 1 less drug 2", sleep$extra[sleep$group == 1] - sleep$extra[sleep$group == 2], 0.95),
  pairs_of("MASS::immer, 1931 less 1932", immer$Y1 - immer$Y2, 0.95),
  pairs_of("MASS::shoes, A less B", shoes$A - shoes$B, 0.9))

record <- list(source = "written out with qt, uniroot, qwilcox and qsignrank; wilcox.test where there are no ties",
               tool = paste0(R.version.string, ", MASS ", packageVersion("MASS")),
               groups = groups, untied = untied, paired = paired,
               rankSum = list(nx = 4, ny = 7, chances = dwilcox(0:28, 4, 7)), signedRank = list(n = 9, chances = dsignrank(0:45, 9)))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "robust-comparison.json"))
