# NIST Statistical Reference Datasets, one-way analysis of variance: data and certified values as Debian's package
# python3-scipy carries them (public domain), and what R's aov makes of each.
# https://www.itl.nist.gov/div898/strd/anova/anova.html
# Rscript generate.R OUTPUT-FOLDER; the package is looked for below the folder named by DEBIAN_ROOT, or /.
suppressPackageStartupMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]
nist <- file.path(Sys.getenv("DEBIAN_ROOT", "/"), "usr/lib/python3/dist-packages/scipy/stats/tests/data/nist_anova")
if (!dir.exists(nist)) stop("needs Debian's package python3-scipy")

numbers <- function(line) {
  found <- regmatches(line, gregexpr("[-+]?[0-9]+(\\.[0-9]*)?([eE][-+]?[0-9]+)?", line))[[1]]
  as.numeric(found)
}
exactly <- function(x) {
  if (is.list(x)) return(lapply(x, exactly))
  if (!is.numeric(x)) return(x)
  short <- sprintf("%.15g", x)
  text <- ifelse(as.numeric(short) == x, short, sprintf("%.17g", x))
  if (inherits(x, "AsIs")) text <- paste0("[", paste(text, collapse = ", "), "]")
  structure(text, class = "json")
}
case <- function(name) {
  lines <- readLines(file.path(nist, paste0(name, ".dat")))
  between <- numbers(sub("^Between [A-Za-z]+", "", grep("^Between", lines, value = TRUE)))
  within <- numbers(sub("^Within [A-Za-z]+", "", grep("^Within", lines, value = TRUE)))
  rSquared <- numbers(sub(".*R-Squared", "", grep("R-Squared", lines, value = TRUE)))
  deviation <- numbers(lines[grep("Certified Residual", lines) + 1])
  start <- tail(grep("^Data:", lines), 1)
  data <- read.table(text = lines[(start + 1):length(lines)])
  table <- summary(aov(data[, 2] ~ factor(data[, 1])))[[1]]
  list(
    name = name, difficulty = sub("^ *(Lower|Average|Higher) Level.*", "\\1", grep("Level of Difficulty", lines, value = TRUE)),
    groups = unname(lapply(split(data[, 2], data[, 1]), I)),
    certified = list(betweenSum = between[2], withinSum = within[2], fStatistic = between[4], rSquared = rSquared,
                     residualStandardDeviation = deviation),
    r = list(betweenSum = table[1, 2], withinSum = table[2, 2], fStatistic = table[1, 4],
             rSquared = table[1, 2] / sum(table[, 2]), residualStandardDeviation = sqrt(table[2, 3]))
  )
}
names <- c("SiRstv", paste0("SmLs0", 1:9), "AtmWtAg")
document <- list(source = "NIST Statistical Reference Datasets, one-way analysis of variance; 'r' is R's aov",
                 tool = paste("R", getRversion()), cases = lapply(names, case))
writeLines(toJSON(exactly(document), auto_unbox = TRUE, json_verbatim = TRUE),
           file.path(folder, "analysis-of-variance.json"))
