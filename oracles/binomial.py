"""Chances that more than so many of n units break, as exact fractions; see README.md. Standard library only."""

from fractions import Fraction
from math import comb

CASES = [
    (1, "0.03", 0), (10, "0.1", 2), (20, "0.05", 3), (20, "0.05", 0), (20, "0.5", 10), (25, "0.25", 24),
    (100, "0.03", 3), (100, "0.03", 12), (320, "0.035", 9), (320, "0.035", 19), (320, "0.035", 60),
    (1155, "0.015", 17), (1155, "0.015", 40), (2310, "0.03", 69), (2310, "0.03", 95), (2310, "0.03", 300),
    (5000, "0.5", 2400), (5000, "0.5", 2700), (9000, "0.001", 9), (9000, "0.001", 60),
]


def tail(n, p, most):
    """P(X > most), summed from either end, whichever has fewer terms."""
    a, b = p.numerator, p.denominator
    term = lambda k: comb(n, k) * a**k * (b - a) ** (n - k)
    if most < n // 2:
        return 1 - Fraction(sum(map(term, range(most + 1))), b**n)
    return Fraction(sum(map(term, range(most + 1, n + 1))), b**n)


def scientific(value):
    """17 digits, also of what is smaller than any float of Python's."""
    digits = 0
    while value < 1:
        value *= 10
        digits += 1
    return f"{float(value)!r}e-{digits}"


print("# n, rate, most, P(more than most break); by oracles/binomial.py, in exact fractions")
for n, rate, most in CASES:
    print(n, rate, most, scientific(tail(n, Fraction(rate), most)))
