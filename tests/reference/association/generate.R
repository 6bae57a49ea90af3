# Correlations by cor.test, weighted kappa by vcd, intraclass correlation of groups by the analysis of variance.
suppressMessages({library(jsonlite); library(vcd)})
folder <- commandArgs(trailingOnly = TRUE)[1]

pairs <- list(list(x = c(4, 6, 9, 12, 7), y = c(4.4, 5.8, 9.1, 8.2, 6.9)), list(x = cars$speed, y = cars$dist),
  list(x = anscombe$x1, y = anscombe$y1), list(x = trees$Girth, y = trees$Height))
correlations <- lapply(pairs, function(p) {
  t <- cor.test(p$x, p$y); n <- length(p$x)
  s <- suppressWarnings(cor.test(p$x, p$y, method = "spearman", exact = FALSE)); r <- unname(s$estimate)
  half <- qnorm(0.975) * sqrt((1 + r^2 / 2) / (n - 3))
  list(x = p$x, y = p$y, pearson = unname(t$estimate), limits = as.numeric(t$conf.int), pValue = t$p.value,
    spearman = r, rankLimits = tanh(atanh(r) + c(-1, 1) * half), rankPValue = 2 * pt(-abs(r) * sqrt((n - 2) / (1 - r^2)), n - 2))
})
tables <- list(rbind(c(10, 2, 0), c(3, 8, 2), c(0, 1, 9)), rbind(c(44, 5, 1, 0), c(6, 20, 7, 1), c(2, 4, 30, 3), c(0, 0, 2, 25)))
kappas <- unlist(lapply(tables, function(m) lapply(c("Equal-Spacing", "Fleiss-Cohen"), function(w) {
  k <- Kappa(m, weights = w)
  list(table = m, weights = if (w == "Equal-Spacing") "linear" else "quadratic", estimate = unname(k$Weighted["value"]), standardError = unname(k$Weighted["ASE"]))
})), recursive = FALSE)
judges <- rbind(c(9, 2, 5, 8), c(6, 1, 3, 2), c(8, 4, 6, 8), c(7, 1, 2, 6), c(10, 5, 6, 9), c(6, 2, 4, 7))
icc <- function(m) {
  k <- ncol(m); d <- data.frame(v = as.vector(t(m)), g = factor(rep(seq_len(nrow(m)), each = k)))
  a <- anova(lm(v ~ g, d)); f <- a$`F value`[1]; df <- a$Df
  s <- function(x) (x - 1) / (x + k - 1)
  list(groups = m, estimate = s(f), limits = s(f / qf(c(0.975, 0.025), df[1], df[2])))
}
groups <- list(icc(judges), icc(matrix(c(5.1, 5.3, 7.9, 8.2, 6.6, 6.1, 9.0, 8.4), ncol = 2, byrow = TRUE)), icc(matrix(PlantGrowth$weight, nrow = 3, byrow = TRUE)))
write(toJSON(list(
  source = "Shrout and Fleiss 1979, table 2; R's cars, anscombe, trees and PlantGrowth; tables written out in generate.R",
  tool = paste(R.version.string, "vcd", packageVersion("vcd")), correlations = correlations, kappas = kappas, groups = groups
), auto_unbox = TRUE, digits = NA), file.path(folder, "association.json"))
