# Tests and limits of counts by R: fisher.test; chisq.test and prop.test without continuity correction; binom.test.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]

fisher <- lapply(list(c(3, 1, 1, 3), c(10, 2, 3, 15), c(0, 12, 5, 7), c(19, 0, 0, 19), c(7, 93, 21, 80), c(2, 40, 0, 3)), function(x) {
  m <- matrix(x, 2, byrow = TRUE)
  list(test = "fisher", counts = x, pValue = fisher.test(m)$p.value,
    more = fisher.test(m, alternative = "greater")$p.value, fewer = fisher.test(m, alternative = "less")$p.value)
})
chi <- function(test) list(statistic = unname(test$statistic), degreesOfFreedom = unname(test$parameter), pValue = test$p.value)
digits <- list(c(22, 14, 19, 25, 11, 30, 17, 16, 21, 18), c(41, 8, 12, 15, 9, 38, 10, 14, 12, 11))
uniformity <- lapply(digits, function(x) c(list(test = "uniformity", counts = x), chi(chisq.test(x))))
homogeneity <- list(c(list(test = "homogeneity", rows = digits), chi(chisq.test(rbind(digits[[1]], digits[[2]]), correct = FALSE))))

# Limits of one share; those of the difference are put together from prop.test's score limits, as Newcombe 1998 does.
share <- lapply(list(c(7, 8), c(0, 8), c(8, 8), c(56, 70), c(1, 300)), function(x) list(test = "proportion", counts = x,
  wilson = as.numeric(prop.test(x[1], x[2], correct = FALSE)$conf.int), exact = as.numeric(binom.test(x[1], x[2])$conf.int)))
newcombe <- lapply(list(c(56, 14, 48, 32), c(9, 1, 3, 7), c(10, 0, 0, 10), c(5, 51, 0, 29)), function(x) {
  n <- c(x[1] + x[2], x[3] + x[4]); p <- c(x[1], x[3]) / n
  l <- sapply(1:2, function(i) as.numeric(prop.test(c(x[1], x[3])[i], n[i], correct = FALSE)$conf.int))
  d <- p[1] - p[2]
  list(test = "difference", counts = x, estimate = d, lower = d - sqrt((p[1] - l[1, 1])^2 + (l[2, 2] - p[2])^2),
    upper = d + sqrt((l[2, 1] - p[1])^2 + (p[2] - l[1, 2])^2))
})

write(toJSON(list(
  source = "Counts written out in generate.R; fisher.test, chisq.test and prop.test (correct = FALSE) and binom.test of R's stats",
  tool = R.version.string, cases = c(fisher, uniformity, homogeneity), shares = share, differences = newcombe
), auto_unbox = TRUE, digits = NA), file.path(folder, "counts.json"))
