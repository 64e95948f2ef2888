"""Writes ../checks/special-functions.json: values of the special functions, extremes included.

Made with Python 3.11.7, mpmath 1.3.0 (60 digits; the values printed) and scipy 1.17.1 (a second opinion: every value that
scipy gives must agree to the relative distance in SECOND, or the script stops).

    python3 tests/reference/generators/special-functions.py
"""

import json
import pathlib

import mpmath as mp
from scipy import special, stats

mp.mp.dps = 60
SECOND = 1e-8  # scipy's own tails lose digits at large shapes
rows = []


def row(function, arguments, value, second=None):
    value = mp.mpf(value)
    if second is not None and mp.isfinite(value) and abs(value) > mp.mpf("1e-290"):
        assert abs(second - value) <= SECOND * max(abs(value), mp.mpf("1e-290")), (function, arguments, value, second)
    rows.append({"function": function, "arguments": arguments, "value": float(value)})


def root(f, low, high):
    """Bisection in the logarithm, so that tiny answers come out with all their digits."""
    low, high = mp.log(low), mp.log(high)
    for _ in range(90):
        middle = (low + high) / 2
        if f(mp.e**middle) > 0:
            high = middle
        else:
            low = middle
    return mp.e ** ((low + high) / 2)


for x in [1e-8, 0.01, 0.5, 1, 1.5, 2, 3.25, 10, 15.9, 100, 12345.5, 1e6]:
    row("logGamma", [x], mp.loggamma(mp.mpf(x)), special.gammaln(x) if x not in (1, 2) else None)
for n, k in [(5, 0), (150, 5), (300, 150), (1000, 3), (100000, 50000), (1000000, 7), (12.5, 3.25)]:
    row("logChoose", [n, k], mp.log(mp.binomial(mp.mpf(n), mp.mpf(k))))
for a, b in [(0.5, 0.5), (1e-6, 3), (2, 300), (1000, 1000), (50000.5, 3.5)]:
    row("logBeta", [a, b], mp.log(mp.beta(mp.mpf(a), mp.mpf(b))), special.betaln(a, b))


def lower_gamma(a, x):
    a, x = mp.mpf(a), mp.mpf(x)
    total = term = mp.mpf(1)
    n = 0
    while term > total * mp.eps:
        n += 1
        term *= x / (a + n)
        total += term
    return mp.exp(-x + a * mp.log(x) - mp.loggamma(a + 1)) * total


def upper_gamma(a, x):
    with mp.workdps(120 + int(float(x) * 0.5)):
        return 1 - lower_gamma(a, x)


GAMMA = [(0.5, 1e-6), (0.5, 0.5), (0.5, 40), (1, 0.3), (2.5, 30), (4, 3.3), (10, 1), (10, 9), (50, 80), (100, 60),
         (1000, 1000), (1000, 900), (1000, 1150), (20000, 20100), (100000, 99000), (100000, 100300)]
for a, x in GAMMA:
    row("gammaLower", [a, x], lower_gamma(a, x), special.gammainc(a, x))
    if a <= 1000:
        row("gammaUpper", [a, x], upper_gamma(a, x), special.gammaincc(a, x))
# In the large, above the mean: the same by way of the integral's own 60 digits.
row("gammaUpper", [20000, 20100], 1 - lower_gamma(20000, 20100), special.gammaincc(20000, 20100))
row("gammaUpper", [100000, 101000], 1 - lower_gamma(100000, 101000), special.gammaincc(100000, 101000))

for p, a in [(1e-10, 0.5), (0.025, 4), (0.5, 0.1), (0.975, 5), (0.025, 22), (1e-12, 30), (0.05, 1000), (0.999, 1000),
             (0.025, 100000), (1e-300, 3)]:
    guess = max(float(special.gammaincinv(a, p)), 1e-250)
    value = root(lambda x: lower_gamma(a, x) - mp.mpf(p), guess * 0.9999, guess * 1.0001)
    row("gammaQuantile", [p, a], value, float(special.gammaincinv(a, p)) if p > 1e-200 else None)
for q, a in [(1e-20, 2), (1e-10, 50), (0.025, 1)]:
    guess = float(special.gammainccinv(a, q))
    value = root(lambda x: mp.mpf(q) - upper_gamma(a, x), guess * 0.9999, guess * 1.0001)
    row("gammaUpperQuantile", [q, a], value, guess)


def lower_beta(a, b, x):
    a, b, x = mp.mpf(a), mp.mpf(b), mp.mpf(x)
    if b >= 250 and a == int(a) and a < 50:
        # A binomial tail of few terms.
        n = a + b - 1
        with mp.workdps(400):
            return 1 - mp.fsum(mp.binomial(n, j) * x**j * (1 - x) ** (n - j) for j in range(int(a)))
    if a >= 250 and b == int(b) and b < 50:
        n = a + b - 1
        return mp.fsum(mp.binomial(n, j) * (1 - x) ** j * x ** (n - j) for j in range(int(b)))
    if x > (a + 1) / (a + b + 2):
        # Too slow on this side: the other side with enough digits for the subtraction.
        with mp.workdps(200):
            return 1 - lower_beta(b, a, 1 - x)
    lead = mp.exp(a * mp.log(x) + b * mp.log(1 - x) - mp.log(a) - mp.log(mp.beta(a, b)))
    # All terms positive, so nothing is lost however many are needed.
    total = term = mp.mpf(1)
    n = 0
    while term > total * mp.eps:
        term *= x * (a + b + n) / (a + 1 + n)
        total += term
        n += 1
    return lead * total


def upper_beta(a, b, x):
    with mp.workdps(200):
        return lower_beta(b, a, 1 - mp.mpf(x))


BETA = [(0.5, 0.5, 1e-9), (0.5, 0.5, 0.3), (1, 72, 0.04), (4, 284, 0.0038), (82, 182, 0.31), (5, 2, 0.99), (0.01, 5, 0.2),
        (300, 2, 0.9), (1000, 1000, 0.52), (3, 100000, 1e-6), (3, 100000, 5e-5), (50000, 50000, 0.49), (100000, 20, 0.9995)]
for a, b, x in BETA:
    lower = lower_beta(a, b, x)
    row("betaLower", [a, b, x], lower, special.betainc(a, b, x))
    row("betaUpper", [a, b, x], upper_beta(a, b, x), special.betaincc(a, b, x))

for p, a, b in [(0.025, 4, 284), (0.975, 5, 283), (0.025, 0.5, 0.5), (1e-10, 2, 300), (0.05, 1000, 3), (1e-4, 0.05, 5),
                (0.5, 2000, 2000), (0.975, 0.5, 72.5), (1e-200, 4, 7), (0.001, 3, 100000)]:
    guess = max(float(special.betaincinv(a, b, p)), 1e-250)
    value = root(lambda x: lower_beta(a, b, x) - mp.mpf(p), guess * 0.9999, guess * 1.0001)
    row("betaQuantile", [p, a, b], value, float(special.betaincinv(a, b, p)))
row("betaUpperQuantile", [1e-30, 3, 40], root(lambda x: mp.mpf("1e-30") - lower_beta(40, 3, 1 - x), 0.1, 0.999))

for z in [-38, -8, -1.5, 0, 0.001, 1, 1.2247, 1.959963984540054, 6, 20]:
    row("normalLower", [z], mp.ncdf(mp.mpf(z)), stats.norm.cdf(z))
for p in [1e-300, 1e-12, 0.025, 0.3, 0.4999, 0.5, 0.95, 0.999999]:
    value = stats.norm.ppf(p)
    for _ in range(6):
        value = mp.mpf(value) - (mp.ncdf(mp.mpf(value)) - mp.mpf(p)) / mp.npdf(mp.mpf(value))
    row("normalQuantile", [p], value if p != 0.5 else 0, stats.norm.ppf(p))
for x, k in [(3.841458820694124, 1), (0.001, 1), (5.65714285714286, 1), (40, 3), (900, 1000), (300, 2)]:
    row("chiSquareUpper", [x, k], upper_gamma(mp.mpf(k) / 2, mp.mpf(x) / 2), stats.chi2.sf(x, k))

for x, m in [(0, 2.5), (4, 3.3), (100, 60), (100000, 100000)]:
    row("poissonProbability", [x, m], mp.exp(-mp.mpf(m) + x * mp.log(mp.mpf(m)) - mp.loggamma(x + 1)), stats.poisson.pmf(x, m))
for x, n, p in [(0, 72, 0.04), (5, 150, 0.01), (81, 263, 0.3), (50, 100000, 0.001), (100000, 100000, 0.9999)]:
    value = mp.binomial(n, x) * mp.mpf(p) ** x * (1 - mp.mpf(p)) ** (n - x)
    row("binomialProbability", [x, n, p], value, stats.binom.pmf(x, n, p))


def xoshiro(state, count):
    """xoshiro128** 1.1 from its public description, in Python's own integers."""
    mask, out = 0xFFFFFFFF, []
    rotate = lambda word, by: ((word << by) | (word >> (32 - by))) & mask
    s = list(state)
    for _ in range(count):
        out.append(rotate(s[1] * 5 & mask, 7) * 9 & mask)
        t = s[1] << 9 & mask
        s[2] ^= s[0]; s[3] ^= s[1]; s[1] ^= s[2]; s[0] ^= s[3]
        s[2] ^= t
        s[3] = rotate(s[3], 11)
    return out


out = {"rows": rows, "generator": {"state": [1, 2, 3, 4], "bits": xoshiro([1, 2, 3, 4], 40)}}
path = pathlib.Path(__file__).parent.parent / "checks" / "special-functions.json"
path.write_text(json.dumps(out, indent=1) + "\n")
