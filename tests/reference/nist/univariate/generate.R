# NIST Statistical Reference Datasets, univariate: data and certified values as the tests of Debian's source package gsl
# carry them (public domain), and what R makes of each. https://www.itl.nist.gov/div898/strd/univ/homepage.html
# Rscript generate.R OUTPUT-FOLDER; the sources are looked for below usr/src of the folder named by DEBIAN_ROOT, or /.
suppressPackageStartupMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]
file <- Sys.glob(file.path(Sys.getenv("DEBIAN_ROOT", "/"), "usr/src/gsl*/statistics/test_nist.c"))
if (length(file) == 0) stop("needs Debian's source package gsl")
text <- paste(readLines(file[1]), collapse = " ")

array <- function(name) {
  inside <- regmatches(text, regexec(paste0("double ", name, " *\\[[0-9]+\\] = \\{([^}]*)\\}"), text))[[1]][2]
  as.numeric(Filter(nzchar, trimws(strsplit(inside, ",")[[1]])))
}
# NumAcc2 to 4 are given by a rule: a first value, then two values in turn.
alternating <- function(base) c(base + 0.2, rep(c(base + 0.1, base + 0.3), 500))
written <- function(base) as.numeric(sprintf("%.1f", alternating(base)))
data <- list(Lew = array("lew"), Lottery = array("lottery"), Mavro = array("mavro"), Michelso = array("michelson"),
             PiDigits = array("pidigits"), NumAcc1 = array("numacc1"), NumAcc2 = written(1), NumAcc3 = written(1e6),
             NumAcc4 = written(1e7))

expected <- function(what) {
  found <- regmatches(text, gregexpr(paste0("expected_", what, " = [-0-9.]+"), text))[[1]]
  as.numeric(sub(".* = ", "", found))
}
means <- expected("mean"); deviations <- expected("sd"); lags <- expected("lag1")
stopifnot(length(means) == length(data), length(deviations) == length(data), length(lags) == length(data))

exactly <- function(x) {
  if (is.list(x)) return(lapply(x, exactly))
  if (!is.numeric(x)) return(x)
  short <- sprintf("%.15g", x)
  text <- ifelse(as.numeric(short) == x, short, sprintf("%.17g", x))
  if (inherits(x, "AsIs")) text <- paste0("[", paste(text, collapse = ", "), "]")
  structure(text, class = "json")
}
cases <- lapply(seq_along(data), function(i) {
  x <- data[[i]]
  list(name = names(data)[i], values = I(x),
       certified = list(mean = means[i], standardDeviation = deviations[i], autocorrelation = lags[i]),
       r = list(mean = mean(x), standardDeviation = sd(x), autocorrelation = acf(x, 1, plot = FALSE)$acf[2]))
})
document <- list(source = "NIST Statistical Reference Datasets, univariate; 'r' is R's mean, sd and acf",
                 tool = paste("R", getRversion()), cases = cases)
writeLines(toJSON(exactly(document), auto_unbox = TRUE, json_verbatim = TRUE), file.path(folder, "univariate.json"))
