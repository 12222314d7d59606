"""What the comparisons with scipy share: quantities as reports write them, and the ranges of a handheld meter."""
import re

PREFIX = {"p": 1e-12, "n": 1e-9, "µ": 1e-6, "m": 1e-3, "": 1, "k": 1e3, "M": 1e6, "G": 1e9}


def value(text):
    """A quantity as a report writes it; temperatures in °C."""
    number, unit = re.fullmatch(r"(-?[0-9.]+(?:e[-+]?[0-9]+)?) (.+)", text).groups()
    if unit in ("°C", "K", "%", "s", "K^-1"):
        return float(number) / (100 if unit == "%" else 1)
    return float(number) * PREFIX[re.fullmatch(r"(.?)Ω", unit).group(1)]


def step_of(ohm, counts):
    """The last digit: decades of the display, the lowest range from 100 Ω up."""
    end = counts
    while end < 100:
        end *= 10
    while end >= 1000:
        end /= 10
    while end < ohm:
        end *= 10
    return end / counts
