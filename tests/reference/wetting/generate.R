# Fronts that rise in a wall which evaporates: root-time line and its curvature by lm; the sharp-front curve, which is a straight line
# for each bend, by optimize over lm, its limits by uniroot on the profile of the sum of squares.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
set.seed(20261128)
tight <- .Machine$double.eps^0.75
speed <- function(slope) sqrt(1e6 / (slope * 1440))
bent <- function(q, b) -log1p(-b * q) / b

case_of <- function(name, height, evaporation, noise) {
  # S = 1 mm/min^0.5, a fifth of the volume, 225 mm; e in mm a minute.
  q <- (height / 1000)^2
  rest <- sqrt(225 / (2 * evaporation * 0.2)) / 1000
  time <- 2.5 + bent(q, 1 / rest^2) * 1e6 / (5^2 * 1440)
  time <- round(time + rnorm(length(time), sd = noise), 3)
  line <- lm(time ~ q)
  bend <- lm(time ~ q + I(q^2))
  tested <- summary(bend)$coefficients[3, ]

  most <- 0.999 / max(q)
  sum_at <- function(b) deviance(lm(time ~ bent(q, b)))
  b <- optimize(sum_at, c(1e-3, most), tol = tight)$minimum
  curve <- lm(time ~ bent(q, b))
  free <- length(q) - 3
  reach <- deviance(curve) * (1 + qt(0.975, free)^2 / free)
  bends <- c(
    if (sum_at(1e-9) > reach) uniroot(function(x) sum_at(x) - reach, c(1e-9, b), tol = tight)$root,
    uniroot(function(x) sum_at(x) - reach, c(b, most), tol = tight)$root
  )
  slope <- unname(coef(curve)[2])
  sum_of <- function(s) optimize(function(x) deviance(lm(I(time - s * bent(q, x)) ~ 1)), c(1e-9, most), tol = tight)$objective
  slopes <- c(
    uniroot(function(s) sum_of(s) - reach, c(0.3 * slope, slope), tol = tight)$root,
    uniroot(function(s) sum_of(s) - reach, c(slope, 2 * slope), tol = tight)$root
  )
  list(
    name = name, height = height, time = time,
    line = list(speed = speed(unname(coef(line)[2])), lower = speed(confint(line)[2, 2]), upper = speed(confint(line)[2, 1])),
    curvature = list(estimate = tested[[1]], lower = confint(bend)[3, 1], upper = confint(bend)[3, 2], pValue = tested[[4]], freedom = df.residual(bend)),
    curve = list(
      start = unname(coef(curve)[1]), speed = speed(slope), lower = speed(slopes[2]), upper = speed(slopes[1]),
      rest = 1000 / sqrt(b), lowest = 1000 / sqrt(max(bends)), highest = if (length(bends) == 2) 1000 / sqrt(min(bends)), loss = b / (2 * slope)
    )
  )
}

cases <- list(
  case_of("225 mm, 1.44 mm a day", seq(50, 700, 50), 0.001, 0.08),
  case_of("225 mm, 0.72 mm a day", seq(60, 900, 70), 0.0005, 0.1),
  case_of("unequal heights", c(40, 90, 130, 260, 300, 480, 510, 620, 690), 0.001, 0.15)
)
text <- jsonlite::toJSON(
  list(source = "made: sharp-front arrivals with normal scatter, seed in generate.R", tool = paste0("R ", getRversion()), cases = cases),
  digits = I(17), auto_unbox = TRUE, null = "null"
)
writeLines(text, file.path(folder, "wetting.json"))
