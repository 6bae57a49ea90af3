# R's side of sensor-log.mjs: Rscript sensor-log.R FOLDER CASE REPEATS
arguments <- commandArgs(trailingOnly = TRUE)
suppressMessages(library(data.table))
run <- function() {
  log <- fread(file.path(arguments[1], "sensors.csv"))
  setkey(log, sensor, time)
  faults <- log[, {
    spacing <- diff(as.numeric(time))
    interval <- median(spacing)
    step <- diff(value)
    large <- abs(step) > 10 * median(abs(step[step != 0]))
    spike <- large[-1] & large[-length(large)] & sign(step[-1]) != sign(step[-length(step)])
    run <- rle(value)$lengths
    .(
      repeated = sum(spacing == 0), gaps = sum(spacing > 1.5 * interval),
      stuck = sum(run[run >= 12 & run * interval >= 86400]), spikes = sum(spike), steps = sum(large) - 2 * sum(spike)
    )
  }, by = sensor]
  means <- log[, .(mean = mean(value), readings = .N, coverage = .N / 720), by = .(sensor, day = as.IDate(time))]
  list(faults, means)
}
seconds <- vapply(seq_len(as.integer(arguments[3])), function(at) system.time(run())[["elapsed"]], 0)
megabytes <- tryCatch(as.numeric(gsub("\\D", "", grep("VmHWM", readLines("/proc/self/status"), value = TRUE))) / 1024, error = function(e) 0)
cat(sprintf('{ "seconds": [%s], "megabytes": %.0f }\n', paste(format(seconds, digits = 6), collapse = ", "), megabytes))
