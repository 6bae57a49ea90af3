# R's side of resampling.mjs: Rscript resampling.R FOLDER CASE REPEATS
arguments <- commandArgs(trailingOnly = TRUE)
suppressMessages(library(boot))
data <- read.csv(file.path(arguments[1], "walls.csv"))
difference <- function(change, arm) mean(change[arm == 1]) - mean(change[arm == 0])
run <- switch(arguments[2],
  randomisation = function() {
    observed <- abs(difference(data$change, data$arm))
    drawn <- replicate(9999, abs(difference(data$change, sample(data$arm))))
    (sum(drawn >= observed - 1e-12) + 1) / 10000
  },
  bca = function() {
    out <- boot(data, function(d, rows) difference(d$change[rows], d$arm[rows]), 9999, strata = data$arm)
    boot.ci(out, type = "bca")
  }
)
seconds <- vapply(seq_len(as.integer(arguments[3])), function(at) system.time(run())[["elapsed"]], 0)
megabytes <- tryCatch(as.numeric(gsub("\\D", "", grep("VmHWM", readLines("/proc/self/status"), value = TRUE))) / 1024, error = function(e) 0)
cat(sprintf('{ "seconds": [%s], "megabytes": %.0f }\n', paste(format(seconds, digits = 6), collapse = ", "), megabytes))
