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

knowing <- function(name, long, paired) {
  wide <- reshape(long, direction = "wide", idvar = c("wall", "side", "block"), timevar = "knew")
  wide$d <- wide$y.yes - wide$y.no
  wide <- wide[order(wide$block, wide$wall), ]
  treated <- wide$d[wide$side == "treated"]; untreated <- wide$d[wide$side == "untreated"]
  test <- if (paired) t.test(treated - untreated) else t.test(treated, untreated)
  long$knew <- factor(long$knew, c("no", "yes")); long$side <- factor(long$side, c("untreated", "treated"))
  random <- if (paired) "(1 | block / wall)" else "(1 | wall)"
  mixed <- lmer(as.formula(paste("y ~ knew * side +", random)), long)
  fixed <- coef(summary(mixed))["knewyes:sidetreated", ]
  list(kind = "knowing", name = name, wall = as.character(long$wall), side = as.character(long$side), block = as.character(long$block),
       knew = as.character(long$knew), y = long$y, lower = test$conf.int[1], upper = test$conf.int[2], pValue = test$p.value,
       mixedEstimate = fixed[["Estimate"]], mixedError = fixed[["Std. Error"]])
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
    knowing("nlme::Oats, nitrogen 0.6 against none, two kinds in six blocks", fields, TRUE)))
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "judging.json"))
