# Decisions: adjusted p-values by p.adjust, power by power.t.test and pt, the rest from t.test at the margin.
suppressMessages({ library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

shoes_difference <- shoes$A - shoes$B
anorexia_change <- with(anorexia, Postwt - Prewt)
feeds <- function(feed) chickwts$weight[chickwts$feed == feed]

# Everything from t.test itself, moved to the margin, with the alternative that each question means.
judge <- function(name, x, y, margin) {
  test <- function(mu, alternative) { arguments <- list(x = x, mu = mu, alternative = alternative); if (!is.null(y)) arguments$y <- y; do.call(t.test, arguments) }
  plain <- test(0, "two.sided")
  estimate <- if (is.null(y)) mean(x) else mean(x) - mean(y)
  ninety <- if (is.null(y)) t.test(x, conf.level = 0.9) else t.test(x, y, conf.level = 0.9)
  size <- abs(estimate); se <- plain$stderr; df <- plain$parameter[[1]]
  list(name = name, estimate = estimate, standardError = se, degreesOfFreedom = df, margin = margin,
       equivalence = list(againstLower = test(-margin, "greater")$p.value, againstUpper = test(margin, "less")$p.value,
                          lower = ninety$conf.int[1], upper = ninety$conf.int[2]),
       minimumEffect = list(lower = test(-margin, "less")$p.value, higher = test(margin, "greater")$p.value,
                            either = pt((size - margin) / se, df, lower.tail = FALSE) + pt((size + margin) / se, df, lower.tail = FALSE)),
       curve = lapply(c(-2, -1, 0.5, 3), function(at) list(steps = at, pValue = test(estimate + at * se, "two.sided")$p.value)))
}

judged <- list(
  judge("MASS::shoes, A less B in pairs", shoes_difference, NULL, 0.5),
  judge("MASS::anorexia, FT against Cont", anorexia_change[anorexia$Treat == "FT"], anorexia_change[anorexia$Treat == "Cont"], 2),
  judge("datasets::chickwts, linseed against horsebean", feeds("linseed"), feeds("horsebean"), 20),
  judge("datasets::PlantGrowth, trt1 against ctrl", PlantGrowth$weight[11:20], PlantGrowth$weight[1:10], 0.4))

families <- list(c(0.01, 0.04, 0.03), c(0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1),
                 c(0.2, 0.2, 0.01, 0.9, 0), c(0.5))
adjusted <- lapply(families, function(p) list(p = I(p), holm = I(p.adjust(p, "holm"))))

detect <- function(n, sd, level, power) {
  delta <- uniroot(function(d) power.t.test(n, d, sd, 1 - level, strict = TRUE)$power - power, c(1e-3, 20) * sd, tol = 1e-13)$root
  list(standardError = sd * sqrt(2 / n), degreesOfFreedom = 2 * n - 2, level = level, power = power, smallest = delta)
}
powers <- lapply(list(c(0.9, 0.3, 22, 0.95), c(0, 1, 5, 0.9), c(-4, 1.5, 3.3, 0.99), c(2, 0.7, 11.6, 0.95)), function(v) {
  critical <- qt((1 + v[4]) / 2, v[3])
  list(effect = v[1], standardError = v[2], degreesOfFreedom = v[3], level = v[4],
       power = pt(critical, v[3], v[1] / v[2], lower.tail = FALSE) + pt(-critical, v[3], v[1] / v[2]))
})

record <- list(source = "t.test at the margin on data sets that R packages carry, p.adjust, power.t.test(strict), pt(ncp); the family of 15 p-values is that of Benjamini and Hochberg (1995)",
               tool = paste0(R.version.string, ", MASS ", packageVersion("MASS")),
               judged = judged, adjusted = adjusted, powers = powers,
               detectable = list(detect(12, 1, 0.95, 0.8), detect(4, 0.7, 0.95, 0.9), detect(3, 2, 0.9, 0.5), detect(40, 1.3, 0.99, 0.95)))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "decisions.json"))
