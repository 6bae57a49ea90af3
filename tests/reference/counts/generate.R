# Tests of counts by R: fisher.test, chisq.test without continuity correction.
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

write(toJSON(list(
  source = "Counts written out in generate.R; fisher.test and chisq.test (correct = FALSE) of R's stats",
  tool = R.version.string, cases = c(fisher, uniformity, homogeneity)
), auto_unbox = TRUE, digits = NA), file.path(folder, "counts.json"))
