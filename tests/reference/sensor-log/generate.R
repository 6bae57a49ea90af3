# The bundled log of twenty sensors, reduced again with whole vectors in base R: means by day, and what is wrong with the log.
# Rscript generate.R FOLDER
library(jsonlite)
arguments <- commandArgs(trailingOnly = TRUE)
here <- dirname(sub("--file=", "", grep("--file=", commandArgs(FALSE), value = TRUE)))
log <- read.csv(file.path(here, "..", "..", "..", "datasets", "water-up-a-wall", "sensors.csv"))
# A row pasted twice is the same as the row above it in the file.
pasted <- c(FALSE, apply(log[-1, ] == log[-nrow(log), ], 1, all))
log <- log[!is.na(log$value) & !(pasted & !is.na(pasted)), ]

reduce <- function(own) {
  hours <- as.numeric(as.POSIXct(own$time, format = "%Y-%m-%dT%H:%M", tz = "UTC")) / 3600
  spacing <- diff(hours)
  # The clock is set back: an hour is there twice.
  spacing[spacing == 0] <- 1
  interval <- median(spacing)
  step <- diff(own$value)
  typical <- median(abs(step[step != 0]))
  large <- abs(step) > 10 * typical & spacing <= 1.5 * interval
  back <- c(large[-1] & sign(step[-1]) == -sign(step[-length(step)]) &
    abs(step[-1] + step[-length(step)]) <= pmin(abs(step[-1]), abs(step[-length(step)])) / 2, FALSE)
  spike <- large & back
  spike[c(FALSE, head(spike, -1))] <- FALSE
  stays <- large & !spike & !c(FALSE, head(spike, -1))
  begins <- stays & !c(FALSE, head(stays, -1) & sign(tail(step, -1)) == sign(head(step, -1)))
  run <- rle(own$value)
  longest <- run$lengths >= 25 & run$lengths >= 5 * (nrow(own) - run$lengths) / (length(run$lengths) - 1)
  stuck <- rep(longest, run$lengths)
  good <- own[!stuck & !c(FALSE, spike), ]
  day <- substr(good$time, 1, 10)
  list(
    sensor = own$sensor[1], readings = nrow(own),
    gaps = sum(spacing > 1.5 * interval), missing = sum(round(spacing[spacing > 1.5 * interval] / interval) - 1),
    stuck = sum(stuck), spikes = sum(spike), steps = sum(begins),
    days = data.frame(
      day = sort(unique(day)), mean = as.vector(tapply(good$value, day, mean)),
      coverage = pmin(1, as.vector(table(day)) * interval / 24)
    )
  )
}
sensors <- lapply(split(log, log$sensor), reduce)

changes <- sapply(sensors, function(one) {
  whole <- one$days[one$days$coverage >= 0.75, ]
  all <- as.character(seq(as.Date("2024-09-30"), as.Date("2024-11-02"), by = 1))
  diff(whole$mean[match(all, whole$day)])
})
drift <- function(at) {
  apart <- changes[, at] - apply(changes[, -at], 1, median, na.rm = TRUE)
  apart <- apart[!is.na(apart)]
  c(median(apart), sqrt(pi / 2) * mad(apart) / sqrt(length(apart)))
}
for (at in seq_along(sensors)) {
  sensors[[at]]$perDay <- drift(at)[1]
  sensors[[at]]$standardError <- drift(at)[2]
}
answer <- list(
  source = unbox("datasets/water-up-a-wall; read.csv, rle, tapply, median, mad"),
  tool = unbox(sprintf("R %s", getRversion())),
  cases = lapply(unname(sensors), function(one) {
    days <- one$days
    lapply(c(one[names(one) != "days"], list(days = days)), function(part) if (is.data.frame(part)) part else unbox(part))
  })
)
write(toJSON(answer, digits = I(17)), file.path(arguments[1], "water-up-a-wall.json"))
