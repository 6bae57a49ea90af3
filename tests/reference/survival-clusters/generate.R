# Log-rank tests, plain and clustered, and interval-censored distributions by survival on its own data sets.
# Rscript generate.R OUTPUT-FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
suppressPackageStartupMessages(library(survival))

ranked <- function(name, time, event, x, cluster) {
  plain <- survdiff(Surv(time, event) ~ x)
  null <- coxph(Surv(time, event) ~ x, cluster = cluster, ties = "breslow", control = coxph.control(iter.max = 0), init = 0)
  share <- rowsum(residuals(null, type = "score"), cluster)
  list(
    name = name, time = time, event = as.logical(event), x = as.logical(x), cluster = as.character(cluster),
    observed = plain$obs[2], expected = plain$exp[2], chiSquare = plain$chisq, clustered = sum(share) / sqrt(sum(share^2)),
    pValue = t.test(share)$p.value
  )
}
censored <- function(name, after, by) {
  fit <- survfit(Surv(after, by, type = "interval2") ~ 1)
  list(name = name, after = after, by = by, time = fit$time, surviving = fit$surv)
}
lung2 <- subset(lung, !is.na(inst))
inst <- paste(lung2$inst, lung2$sex)
kept <- rats[rats$sex == "f", ]
# The intervals between visits every 90 days that hold the times of veteran; the censored are open.
after <- with(veteran, ifelse(status == 1, floor(time / 90) * 90, time))
by <- with(veteran, ifelse(status == 1, after + 90, NA))
cases <- list(
  ranks = list(
    ranked("lung by institution and sex", lung2$time, lung2$status == 2, lung2$sex == 2, inst),
    ranked("veteran, each a cluster", veteran$time, veteran$status == 1, veteran$trt == 2, seq_len(nrow(veteran))),
    ranked("rats, female, four of a kind", kept$time, kept$status == 1, kept$rx == 1, paste(kept$rx, kept$litter))
  ),
  intervals = list(censored("veteran, visits every 90 days", after, by))
)
text <- jsonlite::toJSON(
  list(
    source = "lung, veteran and rats of survival; survdiff, coxph's score residuals at no effect by Breslow, t.test, survfit of interval2",
    tool = paste0("R ", getRversion(), ", survival ", packageVersion("survival")), cases = cases
  ),
  digits = I(17), auto_unbox = TRUE, na = "null"
)
writeLines(text, file.path(folder, "survival-clusters.json"))
