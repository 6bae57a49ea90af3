# NIST Statistical Reference Datasets, linear regression: data and certified values as Debian's package gretl-data carries
# them, and what R's lm makes of each. https://www.itl.nist.gov/div898/strd/lls/lls.shtml, public domain.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
nist <- "/usr/share/gretl/data/nist"
if (!dir.exists(nist)) stop("needs Debian's package gretl-data")
number <- "([-+.0-9Ee]+)"

found <- function(lines, pattern) {
  matches <- regmatches(lines, regexec(pattern, lines, perl = TRUE))
  do.call(rbind, matches[lengths(matches) > 0])
}

case <- function(name) {
  lines <- readLines(file.path(nist, paste0(name, ".dat")))
  parameters <- found(lines, paste0("^\\s+B(\\d+)\\s+", number, "\\s+", number, "\\s*$"))
  powers <- as.integer(parameters[, 2])
  certified <- as.numeric(parameters[, 3:4])
  start <- tail(grep("^Data:", lines), 1)
  data <- as.matrix(read.table(text = lines[(start + 1):length(lines)]))
  # Longley has six predictors; every other set is a polynomial in one.
  several <- ncol(data) > 2
  columns <- lapply(powers, function(k) if (several) (if (k == 0) rep(1, nrow(data)) else data[, k + 1]) else data[, 2]^k)
  by_R <- function(tolerance) {
    fit <- lm(data[, 1] ~ 0 + do.call(cbind, columns), tol = tolerance)
    if (anyNA(coef(fit))) return(NULL)
    list(estimates = unname(coef(fit)), standardErrors = unname(sqrt(diag(vcov(fit)))), residualDeviation = summary(fit)$sigma)
  }
  deviation <- found(lines, paste0("^\\s*Standard Deviation\\s+", number, "\\s*$"))
  default <- suppressWarnings(by_R(1e-7))
  list(
    name = name,
    difficulty = found(lines, "(Lower|Average|Higher) Level of Difficulty")[1, 2],
    response = unname(data[, 1]),
    predictors = unname(lapply(2:ncol(data), function(k) unname(data[, k]))),
    powers = if (several) NULL else I(powers),
    certified = list(
      estimates = I(certified[seq_along(powers)]), standardErrors = I(certified[length(powers) + seq_along(powers)]),
      residualDeviation = as.numeric(deviation[1, 2])
    ),
    # lm refuses a column at its default tolerance on Filip; a smaller tolerance lets it through.
    lm = lapply(if (is.null(default)) suppressWarnings(by_R(1e-12)) else default, I),
    lmTolerance = if (is.null(default)) 1e-12 else 1e-7
  )
}

sets <- c("Norris", "Pontius", "NoInt1", "NoInt2", "Filip", "Longley", "Wampler1", "Wampler2", "Wampler3", "Wampler4", "Wampler5")
text <- jsonlite::toJSON(
  list(
    source = "NIST Statistical Reference Datasets, linear regression, as in Debian's gretl-data; lm of R on the same data",
    tool = paste("R", getRversion()), cases = lapply(sets, case)
  ),
  digits = I(17), auto_unbox = TRUE, null = "null"
)
writeLines(text, file.path(folder, "linear.json"))
