# Exact randomisation p-values on open data sets that R packages carry: coin where it can, else every allocation by combn.
suppressMessages({ library(coin); library(MASS); library(jsonlite) })
folder <- commandArgs(trailingOnly = TRUE)[1]

coin_p <- function(response, treated, block = NULL) {
  d <- data.frame(response = response, group = factor(ifelse(treated, "a treated", "b untreated")))
  if (is.null(block)) test <- oneway_test(response ~ group, d, distribution = exact())
  else { d$block <- factor(block); test <- oneway_test(response ~ group | block, d, distribution = exact()) }
  as.numeric(pvalue(test))
}

# Two-sided p for taking `shift` off the treated, by looking at every allocation inside every block.
enumerated_p <- function(response, treated, block = rep(1, length(response)), shift = 0) {
  y <- response - shift * treated
  sums <- 0
  for (b in unique(block)) {
    inside <- which(block == b)
    centred <- y[inside] - mean(y[inside])
    chosen <- combn(length(inside), sum(treated[inside]), function(at) sum(centred[at]))
    sums <- as.vector(outer(sums, chosen, "+"))
  }
  observed <- sum(ave(y, block, FUN = function(v) v - mean(v))[treated])
  mean(abs(sums) >= abs(observed) - 1e-9)
}

case <- function(name, response, treated, block = NULL, p, shifts = numeric(0)) {
  at <- if (is.null(block)) rep(1, length(response)) else as.integer(factor(block))
  list(name = name, response = response, treated = as.integer(treated), block = at, paired_or_blocked = !is.null(block), pValue = p,
       shifts = I(shifts), shiftedP = I(vapply(shifts, function(s) enumerated_p(response, treated, at, s), 0)))
}

plants <- PlantGrowth[PlantGrowth$group != "trt2", ]
feeds <- chickwts[chickwts$feed %in% c("linseed", "horsebean"), ]
cats_small <- cats[c(1:5, 136:144), ]
juice <- ToothGrowth[ToothGrowth$dose == 0.5, ]
immer_long <- data.frame(yield = c(immer$Y1, immer$Y2)[c(1:10, 31:40)], first = rep(c(TRUE, FALSE), each = 10), plot = rep(1:10, 2))
mt <- mtcars[mtcars$carb %in% c(1, 2), ]
npk_nitrogen <- npk$N == "1"

cases <- list(
  case("coin: datasets::PlantGrowth, trt1 against ctrl", plants$weight, plants$group == "trt1", NULL,
       coin_p(plants$weight, plants$group == "trt1"), c(-0.9, -0.3, 0.2, 0.31)),
  case("coin: datasets::chickwts, linseed against horsebean (12 and 10)", feeds$weight, feeds$feed == "linseed", NULL,
       coin_p(feeds$weight, feeds$feed == "linseed")),
  case("coin: MASS::cats, heart weight, five females against nine males", cats_small$Hwt, cats_small$Sex == "F", NULL,
       coin_p(cats_small$Hwt, cats_small$Sex == "F"), c(-7, -5, -2.5, -1)),
  case("coin: datasets::ToothGrowth, OJ against VC at dose 0.5", juice$len, juice$supp == "OJ", NULL,
       coin_p(juice$len, juice$supp == "OJ"), c(1, 3, 6, 9)),
  case("coin: datasets::sleep, pairs", sleep$extra, sleep$group == 1, sleep$ID, coin_p(sleep$extra, sleep$group == 1, sleep$ID),
       c(-3, -2.4, -1, -0.7, -0.5)),
  case("coin: MASS::immer, ten pairs", immer_long$yield, immer_long$first, immer_long$plot,
       coin_p(immer_long$yield, immer_long$first, immer_long$plot), c(-5, 10, 25, 40)),
  case("enumeration: datasets::npk, nitrogen in six blocks of two and two", npk$yield, npk_nitrogen, npk$block,
       enumerated_p(npk$yield, npk_nitrogen, as.integer(npk$block)), c(0, 2, 8, 11)),
  case("coin: datasets::mtcars, manual in numbers of carburettors (4 of 7, 4 of 10)", mt$mpg, mt$am == 1, mt$carb,
       coin_p(mt$mpg, mt$am == 1, mt$carb), c(2, 5, 9, 12)))

record <- list(source = "coin::oneway_test with the exact distribution, or every allocation by combn, as each case says; shiftedP always by combn",
               tool = paste0(R.version.string, ", coin ", packageVersion("coin"), ", MASS ", packageVersion("MASS")),
               cases = cases)
writeLines(toJSON(record, digits = I(17), auto_unbox = TRUE), file.path(folder, "randomisation.json"))
