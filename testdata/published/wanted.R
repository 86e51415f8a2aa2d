# Writes infer_more.csv, effect_more.csv and pool_more.csv: wanted values of the
# methods for which the other tables have no rows. Run it in this folder with R
# 4.2.2 and metafor 3.8-1. Samples with an exact mean and SD take the place of
# raw data; the source column names the call.
options(digits = 17, warn = 1)
sample_of <- function(n, m, s, seed = 1) { set.seed(seed); m + s * as.vector(scale(rnorm(n))) }
j <- function(x) paste(format(x, digits = 15, trim = TRUE, scientific = FALSE, drop0trailing = TRUE), collapse = ";")
cell <- function(x) format(x, digits = 17, trim = TRUE)
table_of <- function(cols) {
  rows <- list()
  list(add = function(id, fn, quantity, expected, source, ..., tol = 1e-9, kind = "rel") {
         extra <- list(...)
         r <- setNames(rep("", length(cols)), cols)
         r[c("id", "fn", "quantity", "expected", "tolerance", "tol_kind", "source")] <-
           c(id, fn, quantity, if (is.character(expected)) expected else cell(expected), cell(tol), kind, source)
         for (n in names(extra)) r[n] <- if (is.character(extra[[n]])) extra[[n]] else cell(extra[[n]])
         rows[[length(rows) + 1]] <<- r
       },
       write = function(file) write.csv(as.data.frame(do.call(rbind, rows)), file, row.names = FALSE, quote = TRUE))
}

# --- infer -------------------------------------------------------------------
T <- table_of(c("id", "fn", "quantity", "m", "sd", "n", "x", "k", "df", "df2", "r", "low", "high", "decimals",
                "expected", "tolerance", "tol_kind", "source"))
groups <- list(
  three = list(m = c(1.20, 1.45, 1.10), s = c(0.15, 0.18, 0.12), n = c(10, 10, 10)),
  ncf = list(m = c(1242.5, 913.2, 1020.1, 771.4), s = c(188.3, 140.6, 95.2, 201.7), n = c(12, 12, 12, 12)),
  uneven = list(m = c(812.4, 745.1, 990.6, 1002.3), s = c(95.2, 120.4, 88.1, 140.0), n = c(10, 12, 8, 15)),
  torque = list(m = c(0.226, 0.163, 0.094, 0.160, 0.274), s = c(0.010, 0.012, 0.011, 0.030, 0.040), n = c(20, 20, 20, 20, 20)),
  pair = list(m = c(23.1, 9.8), s = c(2.3, 1.1), n = c(10, 10)),
  small = list(m = c(5, 7, 6), s = c(1, 2.5, 0.4), n = c(2, 3, 4)),
  wide = list(m = c(10, 10.5, 11, 11.5, 12, 12.5), s = c(1, 1.2, 0.9, 1.4, 1.1, 0.8), n = c(15, 15, 15, 15, 15, 15)),
  equal = list(m = c(25, 25, 25), s = c(4, 6, 5), n = c(12, 12, 12)))
for (name in names(groups)) {
  g <- groups[[name]]
  value <- unlist(Map(sample_of, g$n, g$m, g$s, seq_along(g$n)))
  group <- factor(rep(seq_along(g$n), g$n))
  add <- function(fn, q, v, source, ...) T$add(paste("inf", fn, name, q, sep = "-"), fn, q, v, source, m = j(g$m), sd = j(g$s), n = j(g$n), ...)
  w <- oneway.test(value ~ group)
  src <- "R 4.2.2, oneway.test(value ~ group) on samples with these means and SDs"
  if (name == "equal") add("welch_anova", "F", 0, src, tol = 1e-12, kind = "abs") else add("welch_anova", "F", unname(w$statistic), src)
  add("welch_anova", "df2", unname(w$parameter[2]), src)
  add("welch_anova", "p", w$p.value, src)
  b <- bartlett.test(value, group)
  src <- "R 4.2.2, bartlett.test(value, group) on samples with these SDs"
  add("bartlett", "statistic", unname(b$statistic), src); add("bartlett", "p", b$p.value, src)
  k <- length(g$n); v <- g$s^2 / g$n
  for (a in 1:(k - 1)) for (b2 in (a + 1):k) if (a == 1 || name == "three") {
    q <- abs(g$m[a] - g$m[b2]) / sqrt((v[a] + v[b2]) / 2)
    df <- (v[a] + v[b2])^2 / (v[a]^2 / (g$n[a] - 1) + v[b2]^2 / (g$n[b2] - 1))
    p <- ptukey(q, k, df, lower.tail = FALSE)
    if (p > 1e-6 && df >= 2) T$add(paste("inf-games_howell", name, a, b2, sep = "-"), "games_howell", paste(a, b2, sep = "-"), p,
      "R 4.2.2, ptukey(q, k, df, lower.tail = FALSE), q and df by Games & Howell (1976)", tol = 1e-6,
      m = j(g$m), sd = j(g$s), n = j(g$n))
  }
}
# paired: the two samples get exactly the correlation r
for (c in list(list(a = c(702.3, 106.8), b = c(588.0, 140.3), n = 12, r = 0.5), list(a = c(702.3, 106.8), b = c(588.0, 140.3), n = 12, r = -0.3),
               list(a = c(10, 2), b = c(12, 2.5), n = 8, r = 0.9), list(a = c(10, 2), b = c(10, 2.5), n = 8, r = 0),
               list(a = c(0.226, 0.01), b = c(0.219, 0.012), n = 20, r = 0.75), list(a = c(5, 1), b = c(4, 1), n = 3, r = 0.99),
               list(a = c(100, 15), b = c(95, 14), n = 40, r = 0.62), list(a = c(33, 4), b = c(31, 9), n = 15, r = 0.2))) {
  x <- sample_of(c$n, 0, 1, 1); y <- sample_of(c$n, 0, 1, 2)
  y <- as.vector(scale(residuals(lm(y ~ x)))); y <- c$r * x + sqrt(1 - c$r^2) * y
  t <- t.test(c$a[1] + c$a[2] * x, c$b[1] + c$b[2] * y, paired = TRUE)
  for (q in c("t", "p")) T$add(paste("inf-paired", c$n, c$r, c$a[1], c$b[1], q, sep = "-"), "paired", q, if (q == "t") unname(t$statistic) else t$p.value,
    "R 4.2.2, t.test(paired = TRUE) on samples with these means, SDs and correlation", m = j(c(c$a[1], c$b[1])), sd = j(c(c$a[2], c$b[2])),
    n = j(c(c$n, c$n)), r = c$r, tol = if (t$statistic == 0 || abs(t$statistic) < 1e-9) 1e-9 else 1e-9, kind = if (abs(t$statistic) < 1e-9) "abs" else "rel")
}
# Fmax
fmax <- function(x, k, df) k * integrate(function(y) {
  u <- exp(y); S <- pchisq(df * u, df, lower.tail = FALSE); r <- pchisq(df * u * x, df, lower.tail = FALSE)
  ifelse(S == 0, 0, df * dchisq(df * u, df) * u * S^(k - 1) * -expm1((k - 1) * log1p(-pmin(1, r / S))))
}, -30, 5, rel.tol = 1e-12, subdivisions = 5000)$value
for (c in list(c(4.85, 3, 10), c(2.95, 3, 20), c(10, 4, 5), c(1.2, 5, 12), c(87.5, 3, 2), c(2.2, 6, 30), c(30, 8, 9), c(3.3, 12, 15), c(5, 2, 9)))
  T$add(paste("inf-fmax", c[1], c[2], c[3], sep = "-"), "fmax", "p", fmax(c[1], c[2], c[3]),
    "R 4.2.2, integrate() of Hartley (1950) over ln u", tol = 1e-7, x = c[1], k = c[2], df = c[3])
# Dunnett: two nested integrate() calls, and printed tables
dun <- function(t, l, df) {
  inner <- function(s) sapply(s, function(s) integrate(function(z) dnorm(z) *
    Reduce(`*`, lapply(l, function(l) { c <- sqrt(1 - l^2); pnorm((t * s + l * z) / c) - pnorm((-t * s + l * z) / c) })),
    -9, 9, rel.tol = 1e-12, subdivisions = 2000)$value)
  f <- function(s) exp(log(2) + df / 2 * log(df / 2) - lgamma(df / 2) + (df - 1) * log(s) - df * s^2 / 2)
  1 - integrate(function(s) f(s) * inner(s), max(0, 1 - 9 / sqrt(2 * df)), 1 + 9 / sqrt(2 * df), rel.tol = 1e-11, subdivisions = 2000)$value
}
for (name in c("three", "ncf", "uneven", "wide", "equal")) {
  g <- groups[[name]]; N <- sum(g$n); k <- length(g$n)
  s <- sqrt(sum((g$n - 1) * g$s^2) / (N - k))
  for (i in 2:k) {
    t <- abs(g$m[i] - g$m[1]) / (s * sqrt(1 / g$n[i] + 1 / g$n[1]))
    p <- if (t == 0) 1 else dun(t, sqrt(g$n[-1] / (g$n[-1] + g$n[1])), N - k)
    if (p > 1e-7) T$add(paste("inf-dunnett", name, i, sep = "-"), "dunnett", as.character(i), p,
      "R 4.2.2, two nested integrate() of Dunnett (1955), eq. for unequal sizes", tol = 1e-7, m = j(g$m), sd = j(g$s), n = j(g$n))
  }
}
for (c in list(c(2.57, 2, 10), c(2.76, 3, 10), c(2.89, 4, 10), c(2.38, 2, 20), c(2.54, 3, 20), c(2.65, 4, 20)))
  T$add(paste("inf-dunnett_table", c[2], c[3], sep = "-"), "dunnett_table", "p", 0.05,
    "Dunnett (1964), Biometrics 20:482-491, table II, joint 95 % (from memory); t printed to two decimals", tol = 1.2e-3, kind = "abs", x = c[1], k = c[2], df = c[3])
# equivalence
for (c in list(list(a = c(25, 4, 12), b = c(25.6, 6, 12), lo = -5, hi = 5), list(a = c(1242.5, 188.3, 12), b = c(913.2, 140.6, 12), lo = -100, hi = 100),
               list(a = c(10, 1, 30), b = c(10, 1, 30), lo = -0.5, hi = 0.5), list(a = c(0.226, 0.01, 20), b = c(0.224, 0.012, 18), lo = -0.02, hi = 0.02),
               list(a = c(702.3, 106.8, 12), b = c(588, 140.3, 12), lo = 0, hi = 250), list(a = c(5, 1, 2), b = c(5.5, 0.5, 3), lo = -4, hi = 4),
               list(a = c(100, 15, 60), b = c(101, 14, 55), lo = -7, hi = 7), list(a = c(33, 4, 15), b = c(31, 9, 15), lo = -3, hi = 8))) {
  x <- sample_of(c$a[3], c$a[1], c$a[2]); y <- sample_of(c$b[3], c$b[1], c$b[2], 2)
  p1 <- t.test(x, y, mu = c$lo, alternative = "greater")$p.value; p2 <- t.test(x, y, mu = c$hi, alternative = "less")$p.value
  T$add(paste("inf-tost", c$a[1], c$b[1], sep = "-"), "tost_means", "p", max(p1, p2), "R 4.2.2, the larger p of t.test(mu = low, alternative = \"greater\") and t.test(mu = high, alternative = \"less\")",
    m = j(c(c$a[1], c$b[1])), sd = j(c(c$a[2], c$b[2])), n = j(c(c$a[3], c$b[3])), low = c$lo, high = c$hi)
  p1 <- t.test(x, 0.8 * y, alternative = "greater")$p.value; p2 <- t.test(x, 1.25 * y, alternative = "less")$p.value
  T$add(paste("inf-tost_ratio", c$a[1], c$b[1], sep = "-"), "tost_ratio", "p", max(p1, p2), "R 4.2.2, the larger p of t.test(x, 0.8*y, alternative = \"greater\") and t.test(x, 1.25*y, alternative = \"less\")",
    m = j(c(c$a[1], c$b[1])), sd = j(c(c$a[2], c$b[2])), n = j(c(c$a[3], c$b[3])), low = 0.8, high = 1.25)
}
# Mann-Whitney
for (c in list(c(3, 3), c(4, 4), c(5, 5), c(3, 7), c(2, 2), c(10, 10), c(8, 12), c(15, 15), c(1, 9)))
  T$add(paste("inf-mw_least", c[1], c[2], sep = "-"), "mw_least", "p", wilcox.test(1:c[1], c[1] + 1:c[2], exact = TRUE)$p.value,
    "R 4.2.2, wilcox.test(1:n1, n1 + 1:n2, exact = TRUE)", n = j(c))
set.seed(7)
for (c in list(c(10, 10), c(12, 12), c(8, 15), c(20, 20), c(6, 9))) for (cc in c(TRUE, FALSE)) {
  w <- wilcox.test(rnorm(c[1]), rnorm(c[2], 0.8), exact = FALSE, correct = cc)
  T$add(paste("inf-mw_z", c[1], c[2], cc, sep = "-"), "mw_z", if (cc) "continuity" else "plain", w$p.value, "R 4.2.2, wilcox.test(exact = FALSE, correct = ...)", n = j(c), x = unname(w$statistic))
}
# tails
l10 <- function(x) x / log(10)
for (c in list(c(2.0860, 20), c(12, 198), c(50, 1e6), c(50, 3), c(1e-3, 7), c(-3, 4.5), c(40, 2e5), c(1.96, 1e9), c(1e5, 2), c(8, 0.7)))
  T$add(paste("inf-t", c[1], c[2], sep = "-"), "t_upper", "log10p", l10(pt(c[1], c[2], lower.tail = FALSE, log.p = TRUE)), "R 4.2.2, pt(x, df, lower.tail = FALSE, log.p = TRUE)", x = c[1], df = c[2])
for (c in list(c(4, 2, 27), c(200, 3, 100), c(50, 2, 40), c(0.3, 5, 60), c(1e4, 4, 200), c(1.5, 59, 540), c(3.84, 1, 1e6), c(2, 300, 400), c(1e-4, 3, 9), c(3, 2, 1e12), c(2, 300, 1e5), c(1, 1, 1e10)))
  T$add(paste("inf-F", c[1], c[2], c[3], sep = "-"), "f_upper", "log10p", l10(pf(c[1], c[2], c[3], lower.tail = FALSE, log.p = TRUE)), "R 4.2.2, pf(x, df1, df2, lower.tail = FALSE, log.p = TRUE)", x = c[1], df = c[2], df2 = c[3])
for (c in list(c(3.84, 1), c(1400, 3), c(0.02, 5), c(61.44, 2), c(700, 700), c(1e4, 60), c(12, 7.5), c(250, 200)))
  T$add(paste("inf-chi2", c[1], c[2], sep = "-"), "chi2_upper", "log10p", l10(pchisq(c[1], c[2], lower.tail = FALSE, log.p = TRUE)), "R 4.2.2, pchisq(x, df, lower.tail = FALSE, log.p = TRUE)", x = c[1], df = c[2])
for (z in c(0, 1.96, -1.2, 5, 8.3, 24.9, 25.1, 40, 300))
  T$add(paste("inf-z", z, sep = "-"), "z_upper", "log10p", l10(pnorm(z, lower.tail = FALSE, log.p = TRUE)), "R 4.2.2, pnorm(x, lower.tail = FALSE, log.p = TRUE)", x = z)
for (c in list(c(0.05, 22), c(0.05, 1), c(0.01, 3.7), c(1e-10, 18), c(1e-6, 250.5), c(0.5, 5), c(0.001, 1e6), c(0.05, 0.8), c(0.9, 12)))
  T$add(paste("inf-qt", c[1], c[2], sep = "-"), "t_critical", "t", qt(c[1] / 2, c[2], lower.tail = FALSE), "R 4.2.2, qt(alpha/2, df, lower.tail = FALSE)", x = c[1], df = c[2])
for (c in list(c(5, 60, 120), c(4.5, 20, Inf), c(2, 30, 15), c(6.2, 60, 540), c(3.3, 8, 9), c(4, 15, 30), c(5.5, 40, 60), c(1, 4, 12)))
  T$add(paste("inf-range", c[1], c[2], c[3], sep = "-"), "range", "p", ptukey(c[1], c[2], c[3], lower.tail = FALSE), "R 4.2.2, ptukey(x, k, df, lower.tail = FALSE), good to about 1e-8 (df above 25000 are infinite there)", tol = 1e-6, x = c[1], k = c[2], df = c[3])
# what rounding allows: the box searched by optim from many corners
for (name in names(groups)) {
  g <- groups[[name]]; k <- length(g$n); N <- sum(g$n)
  d <- if (name == "torque") 3 else if (name == "three") 2 else 1
  h <- 0.5 * 10^-d
  mm <- round(g$m, d); ss <- round(g$s, d); lo <- c(mm - h, pmax(0, ss - h)); hi <- c(mm + h, ss + h)
  Fof <- function(x) { m <- x[1:k]; s <- x[k + 1:k]; gm <- sum(g$n * m) / N; sum(g$n * (m - gm)^2) / (k - 1) / (sum((g$n - 1) * s^2) / (N - k)) }
  set.seed(3); least <- Inf; most <- -Inf
  for (i in 1:80) {
    at <- ifelse(runif(2 * k) < 0.5, lo, hi)
    least <- min(least, optim(at, Fof, method = "L-BFGS-B", lower = lo, upper = hi, control = list(factr = 10, maxit = 5000))$value)
    most <- max(most, Fof(at), -optim(at, function(x) -Fof(x), method = "L-BFGS-B", lower = lo, upper = hi, control = list(factr = 10, maxit = 5000))$value)
  }
  for (q in c("low", "high")) { v <- if (q == "low") least else most
    T$add(paste("inf-anova_range", name, q, sep = "-"), "anova_range", q, v, "R 4.2.2, F over the box of roundings by optim(method = \"L-BFGS-B\") from 80 corners",
      tol = if (v < 1e-8) 1e-7 else 1e-6, kind = if (v < 1e-8) "abs" else "rel", m = j(mm), sd = j(ss), n = j(g$n), decimals = d) }
  qof <- function(x) { m <- x[1:k]; s <- x[k + 1:k]; abs(m[1] - m[2]) / sqrt(sum((g$n - 1) * s^2) / (N - k) / 2 * (1 / g$n[1] + 1 / g$n[2])) }
  gap <- abs(mm[1] - mm[2]); s2 <- function(e) sqrt(sum((g$n - 1) * e^2) / (N - k) / 2 * (1 / g$n[1] + 1 / g$n[2]))
  T$add(paste("inf-tukey_range", name, "low", sep = "-"), "tukey_range", "low", max(0, gap - 2 * h) / s2(hi[k + 1:k]), "by hand in R: least gap over greatest pooled SD",
    tol = if (gap <= 2 * h) 1e-12 else 1e-9, kind = if (gap <= 2 * h) "abs" else "rel", m = j(mm), sd = j(ss), n = j(g$n), decimals = d)
  T$add(paste("inf-tukey_range", name, "high", sep = "-"), "tukey_range", "high", (gap + 2 * h) / s2(lo[k + 1:k]), "by hand in R: greatest gap over least pooled SD", m = j(mm), sd = j(ss), n = j(g$n), decimals = d)
}
T$write("infer_more.csv")

# --- effect ------------------------------------------------------------------
E <- table_of(c("id", "fn", "quantity", "m1", "sd1", "n1", "m2", "sd2", "n2", "x", "df", "ncp", "alpha", "power", "expected", "tolerance", "tol_kind", "source"))
pairs <- list(c(23.1, 2.3, 10, 9.8, 1.1, 10), c(702.3, 106.8, 12, 588, 140.3, 12), c(1242.5, 188.3, 12, 913.2, 140.6, 12), c(0.226, 0.01, 20, 0.163, 0.012, 18),
              c(10, 1, 2, 8, 1.5, 2), c(25, 4, 12, 25, 6, 12), c(100, 15, 60, 101, 14, 55), c(5, 1, 3, 4, 2.5, 30))
for (i in seq_along(pairs)) {
  p <- pairs[[i]]; x <- sample_of(p[3], p[1], p[2]); y <- sample_of(p[6], p[4], p[5], 2)
  add <- function(fn, q, v, source, ...) E$add(paste("eff", fn, i, q, sep = "-"), fn, q, v, source, m1 = p[1], sd1 = p[2], n1 = p[3], m2 = p[4], sd2 = p[5], n2 = p[6], ...)
  w <- t.test(x, y); src <- "R 4.2.2, t.test(x, y)$conf.int on samples with these means and SDs"
  add("difference", "lo", w$conf.int[1], src); add("difference", "hi", w$conf.int[2], src)
  c1 <- p[2]^2 / p[3] / p[1]^2; c2 <- p[5]^2 / p[6] / p[4]^2; df <- (c1 + c2)^2 / (c1^2 / (p[3] - 1) + c2^2 / (p[6] - 1))
  src <- "R 4.2.2, exp(log(m1/m2) + c(-1, 1)*qt(.975, df)*sqrt(v)), v by the delta method, df of Satterthwaite"
  add("ratio_t", "df", df, src); add("ratio_t", "lo", exp(log(p[1] / p[4]) - qt(.975, df) * sqrt(c1 + c2)), src); add("ratio_t", "hi", exp(log(p[1] / p[4]) + qt(.975, df) * sqrt(c1 + c2)), src)
  add("common_language", "p", pnorm((p[1] - p[4]) / sqrt(p[2]^2 + p[5]^2)), "R 4.2.2, pnorm((m1 - m2)/sqrt(sd1^2 + sd2^2))")
  s <- t.test(x, y, var.equal = TRUE); sp <- sqrt(((p[3] - 1) * p[2]^2 + (p[6] - 1) * p[5]^2) / (p[3] + p[6] - 2))
  if (p[1] != p[4]) {
    add("sd_from_t", "sd", sp, "R 4.2.2, x is t.test(var.equal = TRUE)$statistic; wanted: the pooled SD it came from", x = unname(s$statistic))
    a <- anova(lm(c(x, y) ~ rep(c(1, 2), c(p[3], p[6]))))
    add("sd_from_f", "sd", sp, "R 4.2.2, x is the F of anova(lm()); wanted: the pooled SD it came from", x = a$F[1])
  }
}
E$add("eff-common_language-published", "common_language", "p", 0.92, "McGraw & Wong (1992), Psychol Bull 111:361: men 69.7 (2.8), women 64.3 (2.6) (from memory)", tol = 5e-3, kind = "abs", m1 = 69.7, sd1 = 2.8, n1 = 100, m2 = 64.3, sd2 = 2.6, n2 = 100)
for (c in list(c(2, 10, 1), c(0, 5, 1.5), c(-1, 8, 0.5), c(5, 3, 2), c(12, 40, 10), c(2.1, 18, -0.4), c(1, 1, 0.3), c(30, 20, 36), c(50, 4, 30), c(3, 1000, 3), c(0.5, 2.5, -2)))
  E$add(paste("eff-nct", c[1], c[2], c[3], sep = "-"), "nct", "p", pt(c[1], c[2], c[3]), "R 4.2.2, pt(x, df, ncp)", tol = 1e-10, kind = "abs", x = c[1], df = c[2], ncp = c[3])
for (c in list(c(0.5, 64, 0.05), c(1.2, 12, 0.05), c(2, 5, 0.05), c(0.2, 20, 0.05), c(1, 10, 0.01), c(0.8, 26, 0.05), c(3, 4, 0.001), c(0, 10, 0.05)))
  E$add(paste("eff-power", c[1], c[2], sep = "-"), "power", "power", power.t.test(n = c[2], delta = c[1], sig.level = c[3], strict = TRUE)$power, "R 4.2.2, power.t.test(n, delta, sig.level, strict = TRUE)", tol = 1e-8,
    x = c[1], n1 = c[2], n2 = c[2], alpha = c[3])
for (c in list(c(0.9, 10, 20), c(1.4, 5, 15)))
  { df <- c[2] + c[3] - 2; nc <- c[1] * sqrt(c[2] * c[3] / (c[2] + c[3])); t <- qt(.975, df)
    E$add(paste("eff-power", c[1], c[2], c[3], sep = "-"), "power", "power", pt(t, df, nc, lower.tail = FALSE) + pt(-t, df, nc), "R 4.2.2, pt(t, df, ncp, lower.tail = FALSE) + pt(-t, df, ncp)", tol = 1e-8, x = c[1], n1 = c[2], n2 = c[3], alpha = 0.05) }
for (c in list(c(5, .8), c(8, .8), c(10, .8), c(12, .8), c(15, .8), c(20, .8), c(30, .9), c(4, .5)))
  E$add(paste("eff-detectable", c[1], c[2], sep = "-"), "detectable", "d", power.t.test(n = c[1], power = c[2], strict = TRUE, tol = 1e-12)$delta, "R 4.2.2, power.t.test(n, power = , strict = TRUE, tol = 1e-12)$delta", tol = 1e-7,
    n1 = c[1], n2 = c[1], alpha = 0.05, power = c[2])
E$add("eff-detectable-Cohen", "detectable", "d", 0.5, "Cohen (1988), table 2.4.1: d = .50, power .80, two-sided .05 needs n = 64 (from memory)", tol = 5e-3, kind = "abs", n1 = 64, n2 = 64, alpha = 0.05, power = 0.8)
# Weibull by another route: uniroot, moments by integrate(), slopes by differences
shape <- function(cv) uniroot(function(l) { k <- exp(l); gamma(1 + 2 / k) / gamma(1 + 1 / k)^2 - 1 - cv^2 }, log(c(0.2, 80)), tol = 1e-14)$root
life <- function(m, s, f) { k <- exp(shape(s / m)); qweibull(f, k, m / gamma(1 + 1 / k)) }
for (c in list(c(702.3, 106.8, 12), c(1242.5, 188.3, 12), c(100, 50, 20), c(100, 5, 10), c(60, 60, 15), c(474.5, 120, 30), c(2, 0.6, 8), c(839.1, 251.7, 10))) {
  m <- c[1]; s <- c[2]; n <- c[3]; k <- exp(shape(s / m)); eta <- m / gamma(1 + 1 / k)
  mu <- function(j) integrate(function(u) ((qweibull(u, k, 1) - gamma(1 + 1 / k)) / gamma(1 + 1 / k))^j, 0, 1, rel.tol = 1e-10, subdivisions = 5000)$value
  v <- mu(2); V <- matrix(c(v, mu(3) / 2 / sqrt(v), mu(3) / 2 / sqrt(v), (mu(4) - v^2) / 4 / v), 2) / n # of m and s, in units of the mean
  for (f in c(0.1, 0.01)) {
    b <- life(m, s, f); e <- 1e-4
    grad <- c(log(life(m * (1 + e), s, f)) - log(life(m * (1 - e), s, f)), (log(life(m, s * (1 + e), f)) - log(life(m, s * (1 - e), f))) / (s / m)) / (2 * e)
    half <- qt(.975, n - 1) * sqrt(drop(t(grad) %*% V %*% grad))
    E$add(paste("eff-life", m, s, f, sep = "-"), "life", "life", b, "R 4.2.2, qweibull() at the shape of uniroot()", tol = 1e-8, m1 = m, sd1 = s, n1 = n, x = f)
    for (q in c("lo", "hi")) E$add(paste("eff-life", m, s, f, q, sep = "-"), "life", q, b * exp(if (q == "lo") -half else half),
      "R 4.2.2, delta method with moments by integrate() and slopes by differences", tol = 1e-5, m1 = m, sd1 = s, n1 = n, x = f)
  }
  e <- 1e-4; d <- (shape(s * (1 + e) / m) - shape(s * (1 - e) / m)) / (2 * e); grad <- c(-d, d / (s / m))
  half <- qt(.975, n - 1) * sqrt(drop(t(grad) %*% V %*% grad))
  for (q in c("lo", "hi")) E$add(paste("eff-shape", m, s, q, sep = "-"), "shape", q, k * exp(if (q == "lo") -half else half),
    "R 4.2.2, delta method with moments by integrate() and slopes by differences", tol = 1e-5, m1 = m, sd1 = s, n1 = n)
}
E$write("effect_more.csv")

# --- pool --------------------------------------------------------------------
suppressMessages(library(metafor))
P <- table_of(c("id", "fn", "quantity", "dataset", "y", "v", "cov", "m", "sd", "n", "expected", "tolerance", "tol_kind", "source"))
sets <- read.csv("pool_data.csv")
for (name in setdiff(unique(sets$dataset), "k1")) {
  d <- sets[sets$dataset == name, ]
  for (knha in c(FALSE, TRUE)) {
    r <- rma(d$yi, d$vi, method = "PM", test = if (knha) "knha" else "z", control = list(tol = 1e-13, maxiter = 10000))
    src <- sprintf("metafor 3.8-1, rma(yi, vi, method = \"PM\", test = \"%s\")", if (knha) "knha" else "z")
    list <- if (knha) c(pm_hk_se = r$se, pm_hk_lo = r$ci.lb, pm_hk_hi = r$ci.ub) else c(pm_tau2 = r$tau2, pm_est = as.vector(r$beta), pm_se = r$se, pm_lo = r$ci.lb, pm_hi = r$ci.ub)
    for (q in names(list)) P$add(paste("pool", name, q, sep = "-"), "pool", q, list[[q]], src, tol = if (list[[q]] == 0) 1e-9 else 1e-6, kind = if (list[[q]] == 0) "abs" else "rel", dataset = name)
  }
}
gls <- list(list(y = c(.2, .5), v = c(.04, .05), c = .02), list(y = c(.2, .5, .1), v = c(.04, .05, .03), c = .02), list(y = c(1, 1), v = c(1, 1), c = 0),
            list(y = c(-.3, .4, .2, .6), v = c(.1, .2, .15, .12), c = .08), list(y = c(5, 6), v = c(1, 4), c = .9), list(y = c(.7, .7, .7), v = c(.02, .03, .04), c = .01),
            list(y = c(.17763, .8575), v = c(.0817, .0474)^2, c = .0012), list(y = c(0, 10), v = c(2, 2), c = 1.5))
for (i in seq_along(gls)) { g <- gls[[i]]; k <- length(g$y); V <- matrix(g$c, k, k); diag(V) <- g$v; W <- solve(V)
  for (q in c("value", "var")) P$add(paste("pool-merge", i, q, sep = "-"), "merge", q, if (q == "value") sum(W %*% g$y) / sum(W) else 1 / sum(W),
    "R 4.2.2, sum(solve(V) %*% y)/sum(solve(V)) and 1/sum(solve(V))", y = j(g$y), v = paste(cell(g$v), collapse = ";"), cov = g$c) }
for (c in list(c(588, 140.3, 12), c(913.2, 140.6, 12), c(23.1, 2.3, 10), c(1, .5, 5), c(50, 0, 8), c(.163, .01, 20), c(1e3, 1e3, 2), c(7, 2, 100)))
  P$add(paste("pool-shared_ratio", c[1], sep = "-"), "shared_ratio", "cov", c[2]^2 / (c[3] * c[1]^2), "R 4.2.2, sd^2/(n*m^2)", m = c[1], sd = c[2], n = c[3], kind = if (c[2] == 0) "abs" else "rel")
# Gleser & Olkin (2009) with their n of all arms: metafor's vcalc() uses the same expression with N of the two arms
for (c in list(c(.5, .8, 10, 30), c(-.4, .6, 20, 60), c(0, 1, 12, 48), c(2.5, 3.1, 8, 24), c(.1, .1, 100, 300), c(-1, -2, 15, 45), c(7, 5, 10, 40), c(.33, .12, 25, 99)))
  P$add(paste("pool-shared_smd", c[1], c[2], sep = "-"), "shared_smd", "cov", 1 / c[3] + c[1] * c[2] / (2 * c[4]), "R 4.2.2, 1/nc + ga*gb/(2*n)", y = j(c[1:2]), n = j(c[3:4]))
P$write("pool_more.csv")
