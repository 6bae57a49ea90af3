# Wild cluster bootstrap statistics for given weights: each wild sample is fitted by lm, with clubSandwich's CR3 errors times
# sqrt((G - 1) / G); the residuals it is made from are solved cluster by cluster from the hat matrix.
suppressMessages({ library(clubSandwich); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

six <- c(-sqrt(1.5), sqrt(1.5), -1, 1, -sqrt(0.5), sqrt(0.5))
error_of <- function(fit, cluster, term) {
  G <- nlevels(cluster)
  sqrt((G - 1) / G * vcovCR(fit, cluster = cluster, type = "CR3")[term, term])
}
jackknifed <- function(fit, cluster) {
  X <- model.matrix(fit); H <- X %*% solve(crossprod(X), t(X)); e <- residuals(fit); out <- e
  for (one in levels(cluster)) { i <- which(cluster == one); out[i] <- solve(diag(length(i)) - H[i, i], e[i]) }
  out
}

case <- function(name, values, cluster, treated, stratum = rep(1, length(values)), supposed, samples, seed) {
  data <- data.frame(y = values, cluster = factor(cluster, levels = unique(cluster)), treated = treated, stratum = factor(stratum))
  single <- all(treated == 1)
  formula <- if (single) y ~ 1 else if (nlevels(data$stratum) == 1) y ~ treated else y ~ treated + stratum
  term <- if (single) "(Intercept)" else "treated"
  fit <- lm(formula, data); estimate <- coef(fit)[[term]]; error <- error_of(fit, data$cluster, term)
  residuals <- jackknifed(fit, data$cluster)
  set.seed(seed)
  clusters <- levels(data$cluster)
  weights <- matrix(sample(six, samples * length(clusters), TRUE), samples)
  statistics <- apply(weights, 1, function(w) {
    data$y <- residuals * w[as.integer(data$cluster)]
    wild <- lm(formula, data); coef(wild)[[term]] / error_of(wild, data$cluster, term)
  })
  of <- split(data$y, data$cluster); first <- function(v) vapply(split(v, data$cluster), function(f) as.numeric(f[1]), 0)
  flag <- first(treated); place <- first(data$stratum)
  strata <- lapply(sort(unique(place)), function(s) list(
    treated = unname(lapply(of[flag == 1 & place == s], I)), untreated = unname(lapply(of[flag == 0 & place == s], I))))
  list(name = name, strata = strata, supposed = supposed, order = I(order(place, -flag, seq_along(flag)) - 1), weights = weights,
       estimate = estimate, standardError = error, statistics = statistics,
       pValue = (1 + sum(abs(statistics) >= abs(estimate - supposed) / error)) / (samples + 1))
}

chicks <- subset(as.data.frame(ChickWeight), Diet %in% c(1, 3) & as.integer(as.character(Chick)) %in% c(1:5, 18, 31:34))
chicks$Chick <- as.character(chicks$Chick)
sleepers <- sleep$extra[sleep$group == 1] - sleep$extra[sleep$group == 2]

cases <- list(
  case("datasets::ChickWeight, four chicks on diet 3 against six on diet 1, 25 g supposed", chicks$weight, chicks$Chick, as.numeric(chicks$Diet == 3), supposed = 25, samples = 40, seed = 2),
  case("datasets::sleep, differences of pairs, one hour less supposed", sleepers, seq_along(sleepers), rep(1, 10), supposed = -1, samples = 40, seed = 3),
  case("datasets::npk, nitrogen in six blocks, no effect supposed", npk$yield, seq_len(24), as.numeric(npk$N == "1"), npk$block, 0, 40, 4))

record <- list(source = "lm and clubSandwich::vcovCR(type = \"CR3\") on each wild sample",
               tool = paste0(R.version.string, ", clubSandwich ", packageVersion("clubSandwich")), cases = cases)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "wild-cluster.json"))
