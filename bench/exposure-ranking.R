# The figures of the ranking in plain R: exact one-sided p within strata, and the family-wise p by step-down min-P over
# shuffles within strata. Input: a table of cases (stratum, infected, then one 0/1 column for each exposure) as text; the number of shuffles.
# Prints the seconds it took, reading left aside, the most memory the process held, and the first exposure.

arguments <- commandArgs(trailingOnly = TRUE)
table <- as.matrix(read.table(arguments[1], sep = ",", colClasses = "integer"))
shuffles <- as.integer(arguments[2])
started <- proc.time()[["elapsed"]]

stratum <- table[, 1]
infected <- table[, 2]
met <- table[, -(1:2)]
places <- split(seq_along(stratum), stratum)
sick <- vapply(places, function(own) sum(infected[own]), 0)

# P(X >= x) for each count of exposed infected, by exposure.
exposed <- vapply(places, function(own) colSums(met[own, , drop = FALSE]), numeric(ncol(met)))
most <- sum(infected)
upper <- vapply(seq_len(ncol(met)), function(column) {
  density <- 1
  for (s in seq_along(places)) {
    own <- dhyper(0:sick[s], exposed[column, s], length(places[[s]]) - exposed[column, s], sick[s])
    sums <- numeric(length(density) + length(own) - 1)
    for (i in seq_along(own)) {
      at <- i - 1 + seq_along(density)
      sums[at] <- sums[at] + density * own[i]
    }
    density <- sums
  }
  rev(cumsum(rev(density)))[seq_len(most + 1)]
}, numeric(most + 1))

columns <- seq_len(ncol(met))
p_of <- function(drawn) upper[cbind(colSums(met[drawn, , drop = FALSE]) + 1, columns)]
raw <- p_of(which(infected == 1))
order <- order(raw)
reached <- numeric(ncol(met))
set.seed(1)
for (shuffle in seq_len(shuffles)) {
  drawn <- unlist(lapply(seq_along(places), function(s) places[[s]][sample.int(length(places[[s]]), sick[s])]))
  least <- rev(cummin(rev(p_of(drawn)[order])))
  reached <- reached + (least <= raw[order] * (1 + 1e-9))
}
family_wise <- cummax((reached + 1) / (shuffles + 1))

seconds <- proc.time()[["elapsed"]] - started
held <- grep("^VmHWM", readLines("/proc/self/status"), value = TRUE)
kilobytes <- as.numeric(gsub("[^0-9]", "", held))
cat(sprintf('{"seconds": %.3f, "megabytes": %.1f, "first": %d, "p": %.6g, "familyWise": %.6g}\n', seconds, kilobytes / 1024, order[1] - 1, raw[order[1]], family_wise[1]))
