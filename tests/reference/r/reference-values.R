# Values of R that the workings and special functions are compared with.
#
#   Rscript tests/reference/r/reference-values.R > tests/reference/checks/r-values.json
#
# Needs R with the package survival (Debian: r-base-core, r-cran-survival). Continuous integration does not run it: the values
# are kept. R's own odds-ratio limits are searched coarsely (fisher.test, mantelhaen.test: up to some per cent off), so
# the limits here come from R's distributions and a search in log odds to 1e-14.

suppressMessages(library(survival))
options(digits = 17)

number <- function(x) {
  if (is.infinite(x)) if (x > 0) '"Infinity"' else '"-Infinity"' else sprintf("%.17g", x)
}
json <- function(x) {
  if (is.list(x) && !is.null(names(x)))
    return(paste0("{", paste0('"', names(x), '": ', vapply(x, json, ""), collapse = ", "), "}"))
  if (is.list(x)) return(paste0("[", paste(vapply(x, json, ""), collapse = ", "), "]"))
  if (is.character(x)) return(paste0('"', x, '"'))
  if (is.logical(x)) return(if (x) "true" else "false")
  if (length(x) == 1) return(number(x))
  paste0("[", paste(vapply(x, number, ""), collapse = ", "), "]")
}

special <- list()
add <- function(name, arguments, value)
  special[[length(special) + 1]] <<- list(`function` = name, arguments = as.list(arguments), value = value)

# Special functions ---------------------------------------------------------------------------------------------------

for (shape in list(c(0.5, 0.5), c(1, 30), c(3, 97), c(4, 17), c(12.5, 3), c(250, 9750), c(1000, 2)))
  for (p in c(1e-6, 0.025, 0.3, 0.5, 0.975)) add("betaQuantile", c(p, shape), qbeta(p, shape[1], shape[2]))
for (shape in list(c(0.5, 0.5), c(3, 97), c(40, 2), c(250, 9750)))
  for (x in c(0.001, 0.025, 0.2, 0.9)) {
    add("betaLower", c(shape, x), pbeta(x, shape[1], shape[2]))
    add("betaUpper", c(shape, x), pbeta(x, shape[1], shape[2], lower.tail = FALSE))
  }
for (shape in c(0.5, 1, 4, 13.5, 120, 2500))
  for (p in c(1e-6, 0.025, 0.5, 0.975)) add("gammaQuantile", c(p, shape), qgamma(p, shape))
for (shape in c(0.5, 4, 120)) for (x in c(0.01, 1, 5, 130)) {
  add("gammaLower", c(shape, x), pgamma(x, shape))
  add("gammaUpper", c(shape, x), pgamma(x, shape, lower.tail = FALSE))
}
for (p in c(1e-9, 0.0005, 0.025, 0.2, 0.5, 0.8, 0.975, 0.9995)) add("normalQuantile", p, qnorm(p))
for (z in c(-8, -3, -1.959963984540054, 0, 0.5, 2.5)) add("normalLower", z, pnorm(z))
for (degrees in c(1, 2, 5, 12, 30, 250)) for (p in c(0.6, 0.9, 0.975, 0.9995)) add("studentQuantile", c(p, degrees), qt(p, degrees))
for (x in c(0, 3, 17)) for (mean in c(0.3, 3, 20)) add("poissonProbability", c(x, mean), dpois(x, mean))
for (x in c(0, 2, 9)) for (p in c(0.01, 0.2)) add("binomialProbability", c(x, 40, p), dbinom(x, 40, p))

# Workings ------------------------------------------------------------------------------------------------------------

rows <- list()
row <- function(working, input, expected, within = 1e-9)
  rows[[length(rows) + 1]] <<- list(working = working, input = input, expected = expected, within = within)

for (each in list(c(0, 20), c(1, 29), c(4, 20), c(15, 148), c(81, 263), c(3, 10000), c(20, 20))) {
  limits <- binom.test(each[1], each[2])$conf.int
  row("prop-ci-clopper-pearson", list(x = each[1], n = each[2], conf = 0.95), list(value = as.numeric(limits)))
}
for (each in list(c(1, 0.7), c(4, 3.3), c(8, 3.59), c(22, 13.534), c(130, 99.5))) {
  limits <- poisson.test(each[1], each[2])$conf.int
  row("sir-ci-exact", list(observed = each[1], expected = each[2], conf = 0.95), list(value = as.numeric(limits)))
}

# The distribution of the exposed cases given the margins of each stratum, convolved.
exposed_cases <- function(strata) {
  low <- 0
  log_density <- 0
  for (s in strata) {
    cases <- s[1] + s[2]; others <- s[3] + s[4]; exposed <- s[1] + s[3]
    from <- max(0, exposed - others); to <- min(exposed, cases)
    own <- dhyper(from:to, cases, others, exposed)
    # Term by term: the convolution by Fourier transform loses the small terms.
    sums <- numeric(length(log_density) + length(own) - 1)
    for (i in seq_along(own)) {
      at <- i - 1 + seq_along(log_density)
      sums[at] <- sums[at] + exp(log_density) * own[i]
    }
    log_density <- log(sums)
    low <- low + from
  }
  list(support = low + seq_along(log_density) - 1, log_density = log_density)
}
weighted <- function(d, log_odds) {
  w <- d$log_density + d$support * log_odds
  w <- exp(w - max(w))
  w / sum(w)
}
search <- function(f) uniroot(f, c(-25, 25), tol = 1e-14, maxiter = 5000)$root
odds_of <- function(d, x) {
  mean_at <- function(l) sum(d$support * weighted(d, l))
  upper <- function(l) sum(weighted(d, l)[d$support >= x])
  lower <- function(l) sum(weighted(d, l)[d$support <= x])
  half <- function(l) weighted(d, l)[d$support == x] / 2
  low_end <- x == min(d$support); high_end <- x == max(d$support)
  list(
    estimate = if (low_end) 0 else if (high_end) Inf else exp(search(function(l) mean_at(l) - x)),
    exact = c(if (low_end) 0 else exp(search(function(l) upper(l) - 0.025)), if (high_end) Inf else exp(search(function(l) lower(l) - 0.025))),
    mid = c(if (low_end) 0 else exp(search(function(l) upper(l) - half(l) - 0.025)), if (high_end) Inf else exp(search(function(l) lower(l) - half(l) - 0.025)))
  )
}

for (t in list(c(4, 1, 9, 41), c(43, 3, 11, 18), c(6, 2, 1, 26), c(3, 1, 37, 1110), c(5, 1, 2, 16), c(4, 0, 6, 10), c(0, 4, 6, 10))) {
  m <- matrix(c(t[1], t[2], t[3], t[4]), 2) # columns: cases, others
  d <- exposed_cases(list(t))
  odds <- odds_of(d, t[1])
  density <- exp(d$log_density)
  greater <- sum(density[d$support > t[1]]) + density[d$support == t[1]] / 2
  less <- sum(density[d$support < t[1]]) + density[d$support == t[1]] / 2
  row("two-by-two-exact",
    list(casesExposed = t[1], casesUnexposed = t[2], nonCasesExposed = t[3], nonCasesUnexposed = t[4]),
    list(
      fisher_p_two_sided = fisher.test(m)$p.value,
      fisher_p_greater = fisher.test(m, alternative = "greater")$p.value,
      fisher_p_less = fisher.test(m, alternative = "less")$p.value,
      midp_p_greater = greater,
      midp_p_two_sided_doubling = min(1, 2 * min(greater, less)),
      or_conditional_mle = odds$estimate,
      or_exact_ci95 = odds$exact,
      or_midp_ci95 = odds$mid
    ), 1e-7)
}

stratified <- list(
  list(c(0, 6, 0, 5), c(3, 3, 0, 6), c(6, 0, 2, 4), c(5, 1, 6, 0), c(2, 0, 5, 0)),
  list(c(3, 1, 12, 40), c(2, 2, 20, 31), c(1, 0, 9, 44)),
  list(c(4, 6, 30, 60), c(5, 5, 40, 80), c(2, 8, 10, 90), c(7, 3, 55, 45))
)
order <- "exp&case, unexp&case, exp&noncase, unexp&noncase"
for (strata in stratified) {
  cube <- array(unlist(lapply(strata, function(s) c(s[1], s[2], s[3], s[4]))), c(2, 2, length(strata)))
  a <- sum(cube[1, 1, ])
  d <- exposed_cases(strata)
  odds <- odds_of(d, a)
  row("cmh-exact", list(strata = strata, cellOrder = order), list(
    p_two_sided = mantelhaen.test(cube, exact = TRUE)$p.value,
    p_greater = mantelhaen.test(cube, exact = TRUE, alternative = "greater")$p.value,
    or_cmle = odds$estimate, ci = odds$exact, midp_ci = odds$mid
  ), 1e-7)
  # The conditional logistic regression of one exposure within strata has the same odds ratio.
  people <- do.call(rbind, lapply(seq_along(strata), function(i) {
    s <- strata[[i]]
    data.frame(infected = rep(c(1, 1, 0, 0), s), exposed = rep(c(1, 0, 1, 0), s), stratum = i)
  }))
  fit <- clogit(infected ~ exposed + strata(stratum), data = people, method = "exact", eps = 1e-11, iter.max = 100)
  row("cmh-exact", list(strata = strata, cellOrder = order), list(or_cmle = as.numeric(exp(coef(fit)))), 1e-6)
  plain <- mantelhaen.test(cube, correct = FALSE)
  row("mantel-haenszel-or-and-chisq", list(strata = strata, cellOrder = order, continuity = FALSE),
    list(or_mh = as.numeric(plain$estimate), chisq = as.numeric(plain$statistic), p = plain$p.value), 1e-9)
}

# Lengths at type 7, and the logistic fit of grouped rows.
row("percentile75", list(values = c(31, 44, 52, 52, 60, 61, 75, 80, 99, 140, 33)),
  list(value = as.numeric(quantile(c(31, 44, 52, 52, 60, 61, 75, 80, 99, 140, 33), 0.75))))

cat('{\n"made": ', json(list(
  by = "tests/reference/r/reference-values.R",
  R = R.version.string,
  packages = list(stats = as.character(packageVersion("stats")), survival = as.character(packageVersion("survival")))
)), ',\n"special": [\n', paste(vapply(special, json, ""), collapse = ",\n"), '\n],\n"workings": [\n',
  paste(vapply(rows, json, ""), collapse = ",\n"), "\n]\n}\n", sep = "")
