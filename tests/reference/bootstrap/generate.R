# Bootstrap intervals by the boot package, on data sets that R packages carry.
suppressMessages({ library(boot); library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

# Each cluster is a total and a size; groups are drawn inside themselves. The last two arguments of boot are the strata's.
# Vectors and the rows drawn, for a data frame takes far longer to draw from than the sums take.
difference_of <- function(group, total, size) {
  part <- function(g) { of <- group == g; sum(total[of]) / sum(size[of]) }
  if (all(group == 1)) part(1) else part(1) - part(0)
}
difference <- function(d) difference_of(d$group, d$total, d$size)
variance_of <- function(group, total, size) {
  part <- function(g) {
    of <- group == g; n <- sum(of); r <- sum(total[of]) / sum(size[of])
    n / (n - 1) * sum((total[of] - r * size[of])^2) / sum(size[of])^2
  }
  sum(vapply(unique(group), part, 0))
}
# Jackknife influences, over the number in their group, so that boot.ci forms Davison and Hinkley's several-sample acceleration.
influence_of <- function(d) vapply(seq_len(nrow(d)), function(i) {
  n <- sum(d$group == d$group[i]); (n - 1) * (difference(d) - difference(d[-i, ])) / n
}, 0)

limits <- function(d, replicates, seed, level, keep) {
  set.seed(seed)
  group <- d$group; total <- d$total; size <- d$size
  drawn <- function(d, i) c(difference_of(group[i], total[i], size[i]), variance_of(group[i], total[i], size[i]))
  out <- boot(d, drawn, R = replicates, strata = factor(d$group))
  ci <- boot.ci(out, conf = level, type = c("perc", "bca", "stud"), L = influence_of(d), index = 1:2)
  answer <- list(level = level, estimate = out$t0[1], standardError = sqrt(out$t0[2]),
    percentile = ci$percent[4:5], bca = ci$bca[4:5], studentised = ci$student[4:5], spread = sd(out$t[, 1]))
  if (keep) { answer$replicates <- out$t[, 1]; answer$replicateErrors <- sqrt(out$t[, 2]); answer$influences <- influence_of(d) }
  answer
}

totals <- function(values, cluster, group) {
  of <- split(seq_along(values), factor(cluster, levels = unique(cluster)))
  data.frame(group = vapply(of, function(i) group[i][1], 0), total = vapply(of, function(i) sum(values[i]), 0), size = lengths(of))
}
alike <- function(d) { d$total <- d$total / d$size; d$size <- 1; d }
clusters_of <- function(values, cluster, group) {
  of <- split(seq_along(values), factor(cluster, levels = unique(cluster)))
  list(treated = unname(lapply(of[vapply(of, function(i) group[i][1] == 1, NA)], function(i) I(values[i]))),
       untreated = unname(lapply(of[vapply(of, function(i) group[i][1] == 0, NA)], function(i) I(values[i]))))
}

# Logarithms, and a seed with which no draw repeats the data: whether such a draw counts as below is up to rounding in boot.
differences <- log(shoes$A / shoes$B)
one <- data.frame(group = 1, total = differences, size = 1)
change <- with(anorexia, Postwt - Prewt); of <- anorexia$Treat != "CBT"
two <- data.frame(group = as.numeric(anorexia$Treat[of] == "FT"), total = change[of], size = 1)
chicks <- subset(as.data.frame(ChickWeight), Diet %in% c(1, 3))
chicks$Chick <- as.character(chicks$Chick); group <- as.numeric(chicks$Diet == 3)
by_chick <- totals(chicks$weight, chicks$Chick, group)

given <- list(c(list(name = "MASS::shoes, ten log ratios of A to B", groups = list(I(rep(1, 10)))), limits(one, 999, 7, 0.95, TRUE)),
              c(list(name = "MASS::anorexia, FT (17) against Cont (26)", groups = list(two$group)), limits(two, 999, 2, 0.9, TRUE)))
drawn <- list(
  c(list(name = "MASS::shoes, ten log ratios of A to B", weighing = "clusters", treated = lapply(differences, I), untreated = list()), limits(one, 19999, 3, 0.95, FALSE)),
  c(list(name = "MASS::anorexia, FT against Cont", weighing = "clusters"), list(treated = lapply(two$total[two$group == 1], I), untreated = lapply(two$total[two$group == 0], I)), limits(two, 19999, 4, 0.95, FALSE)),
  c(list(name = "datasets::ChickWeight, diet 3 (10 chicks) against 1 (20), chicks count alike", weighing = "clusters"), clusters_of(chicks$weight, chicks$Chick, group), limits(alike(by_chick), 19999, 5, 0.9, FALSE)),
  c(list(name = "datasets::ChickWeight, diet 3 against 1, weighings count alike", weighing = "values"), clusters_of(chicks$weight, chicks$Chick, group), limits(by_chick, 19999, 6, 0.95, FALSE)))

# Hesterberg's expanded tail for the mean of n values, and what makes the interval of a difference of means Welch's.
expanded <- lapply(c(4, 5, 10, 20, 40), function(n) list(n = n, tail = pnorm(-sqrt(n / (n - 1)) * qt(0.975, n - 1))))
plain_variance <- with(two, sum(tapply(total, group, function(v) mean((v - mean(v))^2) / length(v))))
welch <- t.test(total ~ group, two)
width <- list(widening = unname(welch$stderr) / sqrt(plain_variance), degreesOfFreedom = unname(welch$parameter))

record <- list(source = "boot::boot and boot::boot.ci with strata; `given` holds the replicates themselves, `drawn` compares two independent sets of draws; `expanded` by pnorm and qt, `anorexiaWidth` by t.test",
               tool = paste0(R.version.string, ", boot ", packageVersion("boot"), ", MASS ", packageVersion("MASS")),
               given = given, drawn = drawn, expanded = expanded, anorexiaWidth = width)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "bootstrap.json"))
