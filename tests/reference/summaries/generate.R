# Interquartile range (quantiles of type 7), median absolute deviation without a factor, and kernel density by R's stats.
suppressMessages(library(jsonlite))
folder <- commandArgs(trailingOnly = TRUE)[1]
samples <- list(precip = as.numeric(precip), faithful = faithful$eruptions, cars = cars$dist, few = c(1, 2, 2.5, 3, 4))
# The sum over all values is written out, for R's density() puts them on a grid first.
cases <- lapply(names(samples), function(n) {
  x <- samples[[n]]; h <- 1.06 * min(sd(x), IQR(x) / 1.34) * length(x)^(-0.2)
  at <- as.numeric(quantile(x, c(0, 0.3, 0.9)))
  list(name = n, values = x, interquartileRange = IQR(x), medianAbsoluteDeviation = mad(x, constant = 1), bandwidth = h, at = at,
    density = sapply(at, function(p) mean(dnorm(p, x, h))))
})
stopifnot(abs(cases[[1]]$bandwidth - bw.nrd(samples$precip)) < 1e-12)
write(toJSON(list(source = "R's precip, faithful and cars, and five numbers; IQR, mad, bw.nrd and dnorm of R's stats", tool = R.version.string,
  cases = cases), auto_unbox = TRUE, digits = NA), file.path(folder, "summaries.json"))
