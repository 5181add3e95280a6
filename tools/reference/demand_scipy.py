#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Writes tests/outside/data/demand_scipy.csv: binomial tails by scipy.stats and sums of independent fixtures by
numpy.convolve, for the test that holds the exact distribution against them. Needs python3-scipy."""
import csv
import math
import os

import numpy
from scipy import __version__ as version
from scipy import stats

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "..", "tests", "outside", "data", "demand_scipy.csv")
SUMS = [
    [(13, 0.247, 141), (16, 0.132, 28), (2, 0.05, 250)],
    [(50, 0.055, 550), (50, 0.02, 150), (50, 0.02, 220), (50, 0.005, 130), (50, 0.055, 350)],
    [(400, 0.045, 200), (400, 0.02, 150), (3, 0.9, 997)],
]


def spelled(kinds):
    return " ".join(f"{n}x{p:g}x{q / 100:g}" for n, p, q in kinds)


def pmf(kinds):
    total = numpy.ones(1)
    for n, p, q in kinds:
        one = numpy.zeros(n * q + 1)
        one[::q] = stats.binom.pmf(numpy.arange(n + 1), n, p)
        total = numpy.convolve(total, one)
    return total


def rows():
    source = f"SciPy {version}"
    for n, p, k in [(20, 0.25, 9), (200, 0.02, 11), (5000, 0.045, 270), (100000, 0.01, 1100), (1000000, 0.005, 5200)]:
        yield "tail", f"{n}x{p:g}x1", f"{k}", stats.binom.sf(k, n, p), "1e-9", "1", source + " binom.sf"
    for kinds in SUMS:
        chance = pmf(kinds)
        tails = chance[::-1].cumsum()[::-1]
        mean = sum(n * p * q for n, p, q in kinds)
        spread = math.sqrt(sum(n * p * (1 - p) * q * q for n, p, q in kinds))
        for sigmas in (0, 1, 2.5, 4):
            k = int(mean + sigmas * spread)
            yield "tail", spelled(kinds), f"{k / 100:g}", tails[k + 1], "1e-9", "1", source + " numpy.convolve"
        for share in (0.9, 0.99, 0.999):
            k = int(numpy.argmax(chance.cumsum() >= share))
            yield "percentile", spelled(kinds), f"{100 * share:g}", k / 100, "1e-9", "gpm", source + " numpy.convolve"


with open(OUT, "w", newline="") as file:
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(["what", "a", "b", "expected", "tolerance", "unit", "source", "standing"])
    for what, a, b, expected, tolerance, unit, source in rows():
        allowed = float(tolerance) * expected if what == "tail" else float(tolerance)
        writer.writerow([what, a, b, repr(float(expected)), f"{allowed:.3g}", unit, source, "computed"])
