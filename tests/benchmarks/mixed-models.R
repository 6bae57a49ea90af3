# R's side of mixed-models.mjs: Rscript mixed-models.R FOLDER CASE REPEATS
arguments <- commandArgs(trailingOnly = TRUE)
suppressMessages({
  library(lme4)
  library(pbkrtest)
})
name <- arguments[2]
files <- c(
  intercepts = "large", slopes = "large", "kenward-roger-small" = "small", "kenward-roger" = "large", simulated = "simulated"
)
data <- read.csv(file.path(arguments[1], paste0(files[[name]], ".csv")))
fit <- function(data) lmer(y1 ~ arm * time + (1 | wall) + (1 | station), data)
contrast <- matrix(c(0, 0, 0, 1), 1)
run <- switch(name,
  intercepts = function() fit(data),
  slopes = function() lmer(y1 ~ arm * time + (1 | block) + (time | wall) + (1 | station), data),
  simulated = function() {
    for (replicate in 1:200) {
      data$y1 <- data[[paste0("y", replicate)]]
      fit(data)
    }
  },
  {
    fitted <- fit(data)
    function() KRmodcomp(fitted, contrast)
  }
)
seconds <- vapply(seq_len(as.integer(arguments[3])), function(i) system.time(suppressMessages(run()))[["elapsed"]], 0)
status <- readLines("/proc/self/status")
peak <- as.numeric(gsub("[^0-9]", "", grep("^VmHWM", status, value = TRUE))) / 1024
cat(sprintf('{"seconds": [%s], "megabytes": %.1f}\n', paste(format(seconds, digits = 6), collapse = ", "), peak))
