# Rank tests by R: coin, exact given the ties that came, and wilcox.test by the normal curve with continuity correction.
suppressMessages({library(jsonlite); library(coin)})
folder <- commandArgs(trailingOnly = TRUE)[1]
set.seed(731)

groups <- list(list(x = c(-3.1, -1.8, -2.6, -2.2), y = c(-1.2, -2.0, -0.6, -1.4)), list(x = c(1, 2, 2, 3, 3, 3), y = c(2, 3, 4, 4, 5)),
  list(x = sleep$extra[1:10], y = sleep$extra[11:20]), list(x = PlantGrowth$weight[1:10], y = PlantGrowth$weight[11:30]),
  list(x = c(5, 5, 5, 6), y = c(5, 5, 9)))
exact <- lapply(groups, function(g) {
  d <- data.frame(v = c(g$x, g$y), g = factor(rep(c("x", "y"), c(length(g$x), length(g$y)))))
  list(test = "mann-whitney", distribution = "exact", x = g$x, y = g$y, pValue = as.numeric(pvalue(wilcox_test(v ~ g, d, distribution = "exact"))))
})
large <- lapply(list(0, 0.5), function(shift) {
  x <- round(rnorm(40) + shift, 1); y <- round(rnorm(45), 1)
  w <- wilcox.test(x, y, exact = FALSE)
  list(test = "mann-whitney", distribution = "normal-approximation", x = x, y = y, statistic = unname(w$statistic), pValue = w$p.value)
})
# Its exact distribution is that of all signs; zeros are left out beforehand.
signs <- lapply(list(c(-1.9, 0.2, -2.0, -0.8), c(1, -1, 2, 2, -3, 3, 4, 0, 5), sleep$extra[1:10] - sleep$extra[11:20], c(2, 2, 2, -2, 2)), function(d) {
  k <- d[d != 0]
  p <- as.numeric(pvalue(wilcoxsign_test(k ~ rep(0, length(k)), distribution = "exact", zero.method = "Wilcoxon")))
  list(test = "signed-rank", distribution = "exact", x = d, pValue = p)
})
many <- list({
  d <- round(rnorm(80, 0.2), 1)
  w <- suppressWarnings(wilcox.test(d, exact = FALSE))
  list(test = "signed-rank", distribution = "normal-approximation", x = d, statistic = unname(w$statistic), pValue = w$p.value)
})
write(toJSON(list(
  source = "Samples written out in generate.R, R's sleep and PlantGrowth, and rounded normal draws",
  tool = paste(R.version.string, "coin", packageVersion("coin")), cases = c(exact, large, signs, many)
), auto_unbox = TRUE, digits = NA), file.path(folder, "rank-tests.json"))
