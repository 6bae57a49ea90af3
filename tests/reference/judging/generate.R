# Judging against R, on open data laid out as walls: a stand-in's slope inside arms and its share of the effect, and readings by people
# who knew against blind ones, by least squares, by Welch's and the paired test, and by a mixed model with knowledge and arm.
suppressMessages({ library(nlme); library(lme4); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

# The share's limits are the ratios at which the pivot reaches Student's quantile, found by root finding.
stand_in <- function(name, walls, blocked) {
  right <- if (blocked) "side + block" else "side"
  side <- "sidetreated"
  adjusted <- lm(as.formula(paste("y ~ s +", right)), walls)
  both <- lm(as.formula(paste("cbind(y, s) ~", right)), walls)
  slope <- coef(adjusted)[["s"]]; slope_variance <- vcov(adjusted)["s", "s"]
  effect <- coef(both)[side, ]; V <- vcov(both)[paste0(c("y", "s"), ":", side), paste0(c("y", "s"), ":", side)]
  top <- slope * effect[["s"]]
  top_variance <- effect[["s"]]^2 * slope_variance + slope^2 * V[2, 2]
  df <- adjusted$df.residual; quantile <- qt(0.975, df)
  pivot <- function(r) (top - r * effect[["y"]]) / sqrt(top_variance - 2 * r * slope * V[1, 2] + r^2 * V[1, 1])
  share <- top / effect[["y"]]
  limit <- function(sign) uniroot(function(step) abs(pivot(share + sign * exp(step))) - quantile, c(-12, 8), tol = 1e-14)$root
  interval <- confint(adjusted, "s")
  list(kind = "stand-in", name = name, y = walls$y, s = walls$s, side = as.character(walls$side),
       block = if (blocked) as.character(walls$block) else rep("", nrow(walls)),
       slope = slope, slopeLower = interval[1], slopeUpper = interval[2],
       # 1 less adjusted over unadjusted effect, as the share is defined.
       share = 1 - coef(adjusted)[[side]] / effect[["y"]],
       shareLower = share - exp(limit(-1)), shareUpper = share + exp(limit(1)))
}

# The difference by readings of each kind alone, by Welch's or the paired test and by a mixed model with an effect of the arm for each kind; and
# the contrast of knowing and blind readings. With blocks, a block may also differ in how its kinds of readings differ: only then is the
# mixed model's error of the contrast that of paired differences, wherever no variance is estimated as zero (`interior`).
knowing <- function(name, long, paired) {
  long$side <- factor(long$side, c("untreated", "treated"))
  random <- if (paired) "(1 | block) + (1 | wall) + (1 | block:knew)" else "(1 | wall)"
  tested <- function(values) {
    values <- values[order(values$block, values$wall), ]
    treated <- values$y[values$side == "treated"]; untreated <- values$y[values$side == "untreated"]
    if (paired) t.test(treated - untreated) else t.test(treated, untreated)
  }
  kinds <- intersect(c("no", "unsure", "yes"), long$knew)
  all <- transform(long, knew = factor(knew, kinds))
  effects <- coef(summary(suppressMessages(lmer(as.formula(paste("y ~ knew + knew:side +", random)), all))))
  by <- lapply(kinds, function(kind) {
    test <- tested(subset(long, knew == kind))
    list(knew = kind, lower = test$conf.int[1], upper = test$conf.int[2],
         mixedEstimate = effects[[paste0("knew", kind, ":sidetreated"), "Estimate"]])
  })
  two <- transform(subset(long, knew != "unsure"), knew = factor(knew, c("no", "yes")))
  wide <- reshape(two[c("wall", "side", "block", "knew", "y")], direction = "wide", idvar = c("wall", "side", "block"), timevar = "knew")
  test <- tested(transform(wide, y = y.yes - y.no))
  mixed <- suppressMessages(lmer(as.formula(paste("y ~ knew * side +", random)), two))
  fixed <- coef(summary(mixed))["knewyes:sidetreated", ]
  list(kind = "knowing", name = name, wall = as.character(long$wall), side = as.character(long$side), block = as.character(long$block),
       knew = as.character(long$knew), y = long$y, by = by, lower = test$conf.int[1], upper = test$conf.int[2], pValue = test$p.value,
       mixedEstimate = fixed[["Estimate"]], mixedError = fixed[["Std. Error"]], interior = !isSingular(mixed))
}

flowers <- rbind(head(subset(iris, Species == "setosa"), 12), head(subset(iris, Species == "versicolor"), 12))
flowers <- data.frame(y = flowers$Sepal.Length, s = flowers$Sepal.Width, side = factor(rep(c("untreated", "treated"), each = 12), c("untreated", "treated")))
oats <- subset(as.data.frame(Oats), nitro %in% c(0, 0.6))
other <- subset(oats, Variety == "Marvellous")
plots <- subset(oats, Variety == "Victory")
pairs <- data.frame(y = plots$yield, s = other$yield[match(paste(plots$Block, plots$nitro), paste(other$Block, other$nitro))],
                    side = factor(ifelse(plots$nitro == 0.6, "treated", "untreated"), c("untreated", "treated")), block = plots$Block)
plants <- subset(as.data.frame(CO2), conc %in% c(95, 1000))
plants <- data.frame(wall = as.character(plants$Plant), side = ifelse(plants$Treatment == "chilled", "treated", "untreated"), block = "",
                     knew = ifelse(plants$conc == 1000, "yes", "no"), y = plants$uptake)
sown <- subset(as.data.frame(Oats), nitro != 0 & Variety %in% c("Victory", "Marvellous"))
sown <- data.frame(wall = paste(sown$Block, sown$Variety), side = ifelse(sown$Variety == "Victory", "treated", "untreated"),
                   block = as.character(sown$Block), knew = c("no", "unsure", "yes")[round(5 * sown$nitro)], y = sown$yield)
fields <- subset(oats, Variety %in% c("Victory", "Golden Rain"))
fields <- data.frame(wall = paste(fields$Block, fields$Variety), side = ifelse(fields$Variety == "Victory", "treated", "untreated"),
                     block = as.character(fields$Block), knew = ifelse(fields$nitro == 0.6, "yes", "no"), y = fields$yield)
record <- list(
  source = "datasets::iris and CO2, nlme::Oats; lm, t.test, lme4::lmer, and uniroot on the pivot of a ratio",
  tool = paste0(R.version.string, ", nlme ", packageVersion("nlme"), ", lme4 ", packageVersion("lme4")),
  cases = list(
    stand_in("datasets::iris, sepals' length and width, twelve flowers of two kinds", flowers, FALSE),
    stand_in("nlme::Oats, Victory with Marvellous as its stand-in, six pairs", pairs, TRUE),
    knowing("datasets::CO2, uptake at 1000 against 95, chilled plants", plants, FALSE),
    knowing("nlme::Oats, nitrogen 0.6 against none, two kinds in six blocks", fields, TRUE),
    knowing("nlme::Oats, nitrogen 0.2 as blind, 0.4 as unsure, 0.6 as knowing, two kinds in six blocks", sown, TRUE)))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "judging.json"))
