# Blinding indices written out in R, the standard errors by numerical derivatives of one multinomial sample, and percentiles of a bootstrap.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]

# Rows: guessed right, guessed wrong, did not know; columns: treated, untreated.
bang <- function(x) (x[1] - x[2]) / sum(x)
james <- function(x) {
  p <- x / sum(x); dk <- sum(p[3, ]); s <- sum(p[1:2, ])
  if (s == 0) return(1)
  # guessed treated or untreated, by arm
  guess <- rbind(c(p[1, 1], p[2, 2]), c(p[2, 1], p[1, 2])) / s
  weight <- matrix(c(0, 0.5, 0.5, 0), 2)
  observed <- sum(weight * guess); expected <- sum(weight * outer(rowSums(guess), colSums(guess)))
  (1 + dk + (1 - dk) * (observed - expected) / expected) / 2
}
delta <- function(f, x) {
  n <- sum(x); p <- x / n; h <- 1e-5
  slope <- vapply(seq_along(p), function(i) {
    if (p[i] == 0) return(0)
    step <- function(d) { q <- p; q[i] <- q[i] + d; f2(f, q) }
    (8 * (step(h) - step(-h)) - (step(2 * h) - step(-2 * h))) / (12 * h)
  }, 0)
  sqrt((sum(p * slope^2) - sum(p * slope)^2) / n)
}
# The index of shares that need not add to one: as one share moves, the others stay, so the rest is "did not know" of neither arm.
f2 <- function(f, q) f(q / sum(q))
bootstrapped <- function(x, f, draws = 4000) {
  set.seed(20240501)
  replicates <- vapply(seq_len(draws), function(i) {
    y <- x; y[] <- c(rmultinom(1, sum(x[, 1]), x[, 1]), rmultinom(1, sum(x[, 2]), x[, 2])); f(y)
  }, 0)
  unname(quantile(replicates, c(0.025, 0.975)))
}

case <- function(name, treated, untreated) {
  x <- cbind(treated, untreated)
  james_error <- delta(james, x)
  list(name = name, treated = treated, untreated = untreated,
    bang = lapply(list(treated, untreated), function(arm) list(estimate = bang(arm), standardError = delta(function(q) bang(q), arm))),
    james = list(estimate = james(x), standardError = james_error, bootstrap = bootstrapped(x, james)))
}
cases <- list(
  case("counts remembered as the CRISP trial's", c(82, 25, 170), c(29, 27, 83)),
  case("counts of a published program's printed example", c(48, 4, 330), c(30, 22, 319)),
  case("small", c(8, 2, 2), c(5, 5, 2)),
  case("twelve and twelve, nobody undecided", c(9, 3, 0), c(7, 5, 0)),
  case("wishful: everybody says treated", c(18, 3, 9), c(4, 17, 9)),
  case("mostly wrong", c(2, 20, 5), c(1, 22, 4)))
record <- list(source = "James's and Bang's indices written out; standard errors by five-point numerical derivatives over a multinomial sample; percentile bootstrap inside arms, 4,000 draws",
               tool = R.version.string, cases = cases)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "blinding.json"))
