"""Seeds for a wanted number of plants through two stages, each rate spread as a beta distribution, by exact sums of
fractions (Python standard library only). Writes tests/reference/plan/two_stages.json."""
import json, platform
from fractions import Fraction as F
from math import comb

def rising(x, n):
    out = F(1)
    for i in range(n):
        out *= x + i
    return out

def mass(g, n, a, b):
    return comb(n, g) * rising(a, g) * rising(b, n - g) / rising(a + b, n)

def known(g, n, p):
    return comb(n, g) * p**g * (1 - p) ** (n - g)

def part(rate, g, n):
    return known(g, n, rate[0]) if len(rate) == 1 else mass(g, n, *rate)

def enough(k, n, first, second):
    """P(at least k of n pass both), over how many pass the first."""
    total = F(0)
    for g in range(k, n + 1):
        total += part(first, g, n) * sum(part(second, h, g) for h in range(k, g + 1))
    return total

CASES = [
    (12, F(9, 10), (F(42) + F(1, 2), F(8) + F(1, 2)), (F(27) + F(1, 2), F(3) + F(1, 2))),
    (12, F(9, 10), (F(21, 5), F(21, 20)), (F(27) + F(1, 2), F(3) + F(1, 2))),
    (24, F(9, 10), (F(33, 2), F(25, 4)), (F(9, 10),)),
    (6, F(19, 20), (F(55, 100),), (F(19, 2), F(3, 2))),
    (1, F(9, 10), (F(3, 2), F(5, 2)), (F(4), F(1))),
]
out = []
for k, conf, first, second in CASES:
    n, before, now = k, F(0), enough(k, k, first, second)
    while now < conf:
        n, before = n + 1, now
        now = enough(k, n, first, second)
    shapes = lambda r: [float(x) for x in r]
    out.append({"plants": k, "conf": float(conf), "first": shapes(first), "second": shapes(second),
                "seeds": n, "probability": float(now), "one_fewer": float(before)})
json.dump({"tool": f"Python {platform.python_version()}, fractions: exact sums",
           "meaning": "first, second: [p] of a known rate, [a, b] of a beta distribution", "cases": out},
          open("tests/reference/plan/two_stages.json", "w"), indent=1)
