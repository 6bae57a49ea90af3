# R's side of cluster-robust.mjs: Rscript cluster-robust.R FOLDER CASE REPEATS
arguments <- commandArgs(trailingOnly = TRUE)
suppressMessages(library(clubSandwich))
data <- read.csv(file.path(arguments[1], paste0(arguments[2], ".csv")))
run <- function() {
  fit <- lm(value ~ arm * period + block, data)
  coef_test(fit, vcov = vcovCR(fit, cluster = data$wall, type = "CR2"), test = "Satterthwaite")
}
seconds <- vapply(seq_len(as.integer(arguments[3])), function(i) system.time(run())[["elapsed"]], 0)
peak <- sub("[^0-9]*([0-9]+) kB", "\\1", grep("^VmHWM", readLines("/proc/self/status"), value = TRUE))
cat(jsonlite::toJSON(list(seconds = I(seconds), megabytes = as.numeric(peak) / 1024), auto_unbox = TRUE, digits = 6), "\n")
