# Wild cluster bootstrap statistics, each wild sample fitted by lm with cluster-robust CR1S errors, for given weights.
suppressMessages({ library(clubSandwich); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

six <- c(-sqrt(1.5), sqrt(1.5), -1, 1, -sqrt(0.5), sqrt(0.5))
t_of <- function(formula, data, term, supposed = 0) {
  fit <- lm(formula, data)
  (coef(fit)[[term]] - supposed) / sqrt(vcovCR(fit, cluster = data$cluster, type = "CR1S")[term, term])
}

case <- function(name, values, cluster, treated, supposed, samples, seed) {
  data <- data.frame(y = values, cluster = factor(cluster, levels = unique(cluster)), treated = treated)
  single <- all(treated == 1)
  formula <- if (single) wild ~ 1 else wild ~ treated
  term <- if (single) "(Intercept)" else "treated"
  data$wild <- data$y
  observed <- t_of(formula, data, term, supposed)
  left <- data$y - supposed * treated
  residuals <- if (single) left else left - mean(left)
  set.seed(seed)
  clusters <- levels(data$cluster)
  weights <- matrix(sample(six, samples * length(clusters), TRUE), samples)
  statistics <- apply(weights, 1, function(w) { data$wild <- residuals * w[as.integer(data$cluster)]; t_of(formula, data, term) })
  of <- split(data$y, data$cluster); flag <- vapply(split(treated, data$cluster), function(f) f[1], 0)
  list(name = name, treated = unname(lapply(of[flag == 1], I)), untreated = unname(lapply(of[flag == 0], I)), supposed = supposed,
       order = I(order(-flag, seq_along(flag)) - 1), weights = weights, observed = observed, statistics = statistics,
       pValue = (1 + sum(abs(statistics) >= abs(observed))) / (samples + 1))
}

chicks <- subset(as.data.frame(ChickWeight), Diet %in% c(1, 3) & as.integer(as.character(Chick)) %in% c(1:5, 18, 31:34))
chicks$Chick <- as.character(chicks$Chick)
sleepers <- sleep$extra[sleep$group == 1] - sleep$extra[sleep$group == 2]

cases <- list(
  case("datasets::ChickWeight, four chicks on diet 3 against six on diet 1, no effect supposed", chicks$weight, chicks$Chick, as.numeric(chicks$Diet == 3), 0, 40, 1),
  case("datasets::ChickWeight, the same, 25 g supposed", chicks$weight, chicks$Chick, as.numeric(chicks$Diet == 3), 25, 40, 2),
  case("datasets::sleep, differences of pairs, one hour less supposed", sleepers, seq_along(sleepers), rep(1, 10), -1, 40, 3))

record <- list(source = "lm and clubSandwich::vcovCR(type = \"CR1S\") on each wild sample",
               tool = paste0(R.version.string, ", clubSandwich ", packageVersion("clubSandwich")), cases = cases)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "wild-cluster.json"))
