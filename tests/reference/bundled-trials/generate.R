# The two paired trials in datasets/, from the weighings to the interval, in base R alone.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]
script <- sub("^--file=", "", grep("^--file=", commandArgs(), value = TRUE))
datasets <- file.path(dirname(script), "..", "..", "..", "datasets")

# Cores with their moisture in percent by mass, dry basis; semicolons go with decimal commas.
read_cores <- function(trial) {
  file <- file.path(datasets, trial, "cores.csv")
  reader <- if (grepl(";", readLines(file, n = 1))) read.csv2 else read.csv
  cores <- reader(file, na.strings = c("NA", ""))
  cores$moisture <- 100 * (cores$wet_g - cores$dry_g) / (cores$dry_g - cores$container_g)
  cores[!is.na(cores$moisture), ]
}

read_walls <- function(trial) {
  file <- file.path(datasets, trial, "walls.csv")
  reader <- if (grepl(";", readLines(file, n = 1))) read.csv2 else read.csv
  reader(file)
}

inside <- function(cores, window) cores[cores$date >= window$from & cores$date <= window$to, ]

# A wall's change: the mean over its stations of after less before, each the mean of the station's cores.
wall_changes <- function(trial, windows) {
  cores <- read_cores(trial)
  of_stations <- function(window) aggregate(moisture ~ wall + station, inside(cores, window), mean)
  stations <- merge(of_stations(windows$before), of_stations(windows$after), by = c("wall", "station"))
  stations$change <- stations$moisture.y - stations$moisture.x
  walls <- aggregate(change ~ wall, stations, mean)
  merge(walls, read_walls(trial), by = "wall")
}

judge <- function(test) list(
  estimate = unname(test$estimate[1]), standardError = test$stderr, degreesOfFreedom = unname(test$parameter),
  pValue = test$p.value, lower = test$conf.int[1], upper = test$conf.int[2])

judge_trial <- function(trial) {
  protocol <- read_json(file.path(datasets, trial, "protocol.json"))
  walls <- wall_changes(trial, protocol$windows)
  walls <- walls[order(walls$block), ]
  treated <- walls[walls$arm != "sham", ]
  sham <- walls[walls$arm == "sham", ]
  stopifnot(identical(treated$block, sham$block))
  list(trial = trial,
       treatedAlone = judge(t.test(treated$change)),
       inPairs = judge(t.test(treated$change - sham$change)))
}

answer <- list(
  source = "datasets/paired-garden-walls and datasets/season-dries-both",
  tool = paste("R", getRversion()),
  cases = lapply(c("paired-garden-walls", "season-dries-both"), judge_trial))
write_json(answer, file.path(folder, "bundled-trials.json"), auto_unbox = TRUE, digits = I(17), pretty = TRUE)
