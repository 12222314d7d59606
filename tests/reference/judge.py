#!/usr/bin/env python3
"""Verdicts of `ohmlore judge` on random cases, against what others compute: probabilities by scipy (distributions added
by convolution) and by Monte Carlo (JCGM 101), the uncertainty budget by python3-uncertainties.

Usage: judge.py PROGRAM [CASES [DRAWS]]. Exit status 77: scipy or uncertainties is missing."""
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

try:
    import numpy
    import scipy.signal
    import scipy.stats
    import uncertainties
    import uncertainties.umath
except ImportError as missing:
    print(f"skipped: {missing}")
    sys.exit(77)

from handheld import step_of, value

program = pathlib.Path(sys.argv[1]).resolve()
CASES = int(sys.argv[2]) if len(sys.argv) > 2 else 200
DRAWS = int(sys.argv[3]) if len(sys.argv) > 3 else 1_000_000

# Relations between resistance and temperature in °C, written anew: IEC 60539-1, IEC 60751, IEC 60335-1.
def beta(r, b):
    return lambda t, exp=numpy.exp: r * exp(b * (1 / (t + 273.15) - 1 / 298.15))


def platinum(r0):
    return lambda t, exp=None: r0 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t)


def copper(r):
    return lambda t, exp=None: r * (234.5 + t) / 254.5


def random_case(dice):
    """A component as JSON, its curve, and its limits at t."""
    kind = dice.choice(["ntc", "table", "rtd", "coil", "resistor"])
    if kind == "table":
        # Between its two rows and, for what is uncertain, beyond: one B.
        first, last, limit = dice.choice([5, 15, 25]), 60, dice.choice([2, 3])
        near, far = (round(float(beta(10000, dice.uniform(3400, 4200))(t)), 1) for t in (first, last))
        b = math.log(near / far) / (1 / (first + 273.15) - 1 / (last + 273.15))
        curve = lambda t, exp=numpy.exp: near * exp(b * (1 / (t + 273.15) - 1 / (first + 273.15)))
        rows = [{"at": f"{t} °C", "nominal": f"{r} Ω", "tolerance": "2 %"} for t, r in ((first, near), (last, far))]
        return "ntc", {"kind": "table", "rows": rows}, f"{limit} K", curve, lambda t: (curve(t + limit), curve(t - limit))
    if kind == "ntc":
        r, b, limit = dice.choice([2000, 5000, 10000, 12000, 50000]), dice.choice([3435, 3740, 3977]), dice.choice([1, 2, 3, 5])
        curve = beta(r, b)
        model = {"kind": "beta", "resistance": f"{r} Ω", "at": "25 °C", "tolerance": "1 %", "b_value": f"{b} K", "b_between": "25 °C to 85 °C"}
        return kind, model, f"{limit} K", curve, lambda t: (curve(t + limit), curve(t - limit))
    if kind == "rtd":
        r0, limit = dice.choice([500, 1000]), dice.choice([1, 2, 3])
        curve = platinum(r0)
        model = {"kind": "iec_60751", "r0": f"{r0} Ω", "tolerance_class": "B"}
        return kind, model, f"{limit} K", curve, lambda t: (curve(t - limit), curve(t + limit))
    percent = dice.choice([5, 8, 10])
    share = percent / 100
    if kind == "coil":
        r = dice.choice([14.5, 43, 160, 900, 4200])
        curve = copper(r)
        model = {"kind": "copper", "resistance": f"{r} Ω", "at": "20 °C", "tolerance": f"{percent} %"}
        return kind, model, None, curve, lambda t: (curve(t) * (1 - share), curve(t) * (1 + share))
    r = dice.choice([22, 470, 3300])
    model = {"kind": "fixed", "resistance": f"{r} Ω", "tolerance": f"{percent} %"}
    return kind, model, None, lambda t, exp=None: r + 0 * t, lambda t: (r * (1 - share) + 0 * t, r * (1 + share) + 0 * t)


def profile_of(kind, model, service_limit):
    component = {"kind": kind, "name": "part", "between": ["X1.1", "X1.2"], "model": model}
    if service_limit:
        component["service_limit"] = service_limit
    if kind == "coil":
        component |= {"metal": "copper", "drive": "dc", "suppression": "none"}
    return {
        "format": "ohmlore/1.0", "kind": "profile", "id": "case", "revision": 1,
        "appliance": {"maker": "Orrinvale", "models": ["Larch"], "type": "combination_boiler", "fuel": "natural_gas",
                      "controller": {"part": "OV-1"}},
        "safety": {"supplies": [{"kind": "mains", "isolate_at": "spur"}]},
        "sources": {"s": {"kind": "common_practice", "note": "invented"}}, "source": {"from": "s"},
        "connectors": {"X1": {"label": "X1", "ways": 2, "circuit": "selv", "pins": {"1": {}, "2": {}}}},
        "components": {"part": component},
        "tests": {"test": {"component": "part", "unplug": "X1", "probes": ["X1.1", "X1.2"], "side": "at_board_plug",
                           "excludes": ["open"]}}}


def sum_cdf(half_widths, points=4001):
    """x and P(sum <= x) of rectangles, by convolution of densities on a grid."""
    half_widths = [a for a in half_widths if a > 0]
    reach = sum(half_widths) * 1.02
    x = numpy.linspace(-reach, reach, points)
    step = x[1] - x[0]
    density = numpy.zeros(points)
    density[points // 2] = 1
    for a in half_widths:
        # Cells that a rectangle covers in part count in part.
        weights = numpy.clip((numpy.minimum(x + step / 2, a) - numpy.maximum(x - step / 2, -a)) / (2 * a), 0, None)
        density = scipy.signal.fftconvolve(density, weights, mode="same")
    below = numpy.cumsum(density)
    return x + step / 2, below / below[-1], density / below[-1], x


def probability(ohm, own, t, about, limits):
    """P(limits hold) with scipy's convolutions; `t` averaged over its own distribution."""
    edges, below, _, _ = sum_cdf(own)
    at = lambda e: numpy.interp(e, edges, below, left=0, right=1)
    if sum(about) == 0:
        low, high = limits(t)
        return at(high - ohm) - at(low - ohm)
    _, _, density, offsets = sum_cdf(about)
    low, high = limits(t + offsets)
    return float(numpy.sum(density * (at(high - ohm) - at(low - ohm))))


def budget(ohm, own, t, about, curve, kind):
    """Of the difference between reading and curve, by the uncertainties package."""
    reading = ohm + sum(uncertainties.ufloat(0, a / math.sqrt(3), tag=name) for name, a in own)
    warmth = t + sum(uncertainties.ufloat(0, a / math.sqrt(3), tag=name) for name, a in about)
    difference = reading - (curve(warmth, uncertainties.umath.exp) if kind == "ntc" else curve(warmth))
    parts = {variable.tag: abs(error) for variable, error in difference.error_components().items()}
    return difference.std_dev, parts


dice, draws = random.Random(20261), numpy.random.default_rng(20262)
worst = {"scipy": 0.0, "Monte Carlo": 0.0, "uncertainties": 0.0}
results, failures = {}, 0
with tempfile.TemporaryDirectory() as folder:
    file = pathlib.Path(folder) / "case.profile.json"
    for case in range(CASES):
        kind, model, service_limit, curve, limits = random_case(dice)
        file.write_text(json.dumps(profile_of(kind, model, service_limit)), encoding="utf-8")
        t, width = round(dice.uniform(2, 38), 1), dice.choice([0.3, 0.5, 1, 2])
        if model["kind"] == "table":
            t = max(t, value(model["rows"][0]["at"]))
        place, minutes = dice.choice([None, "immersed", "on-part", "on-pipe", "room"]), dice.choice([None, None, 30, 60, 120])
        share, counts, display = dice.choice([0.2, 0.5, 0.8, 1.5]), dice.choice([1, 3, 5]), dice.choice([2000, 6000, 50000])
        leads, leads_width = dice.choice([0, 0.2, 0.4]), dice.choice([0.02, 0.1, 0.2])
        low, high = sorted(float(x) for x in limits(t))
        # Most of them near a limit, where there is something to compute.
        target = dice.choice([low, high]) + dice.gauss(0, 0.25) * (high - low)
        shown = max(target + leads, 1)
        step = step_of(shown, display)
        shown = round(round(shown / step) * step, 6)
        digits = max(0, -math.floor(math.log10(step) + 1e-9))
        command = [program, "judge", file, "test", f"{shown:.{digits}f} Ω", "-t", f"{t} °C ± {width} K", "--meter",
                   f"{share} % + {counts} of {display}", "--leads", f"{leads} Ω ± {leads_width} Ω", "--format", "json"]
        command += ["--taken", place] if place else []
        command += ["--minutes-since-running", str(minutes)] if minutes else []
        run = subprocess.run(command, capture_output=True, text=True, check=False)
        if run.returncode == 2:
            sys.exit(f"case {case}: {run.stderr}")
        found = json.loads(run.stdout)["verdicts"][0]

        ohm = shown - leads
        own = [("meter", share / 100 * shown + counts * step), ("leads", leads_width)]
        about = []
        if kind != "resistor":
            about.append(("thermometer", width))
            if place:
                about.append(("place", {"immersed": 0.5, "on-part": 1, "on-pipe": 3, "room": 2}[place]))
            if minutes:
                about.append(("running", (80 if kind == "coil" else 20) * math.exp(-minutes / 30)))
            if kind in ("ntc", "rtd"):
                about.append(("self_heating", min(0.25 / ohm, 0.25e-6 * ohm) / 1.5e-3))
        own_widths, about_widths = [a for _, a in own], [a for _, a in about]

        said = value(found["limit"]["within"])
        by_scipy = probability(ohm, own_widths, t, about_widths, lambda x: limits(x))
        true = ohm + sum(draws.uniform(-a, a, DRAWS) for a in own_widths)
        warmth = t + sum(draws.uniform(-a, a, DRAWS) for a in about_widths) if about else t
        bottom, top = limits(warmth)
        by_draws = float(numpy.mean((true >= bottom) & (true <= top)))
        error = math.sqrt(max(by_draws * (1 - by_draws), 1 / DRAWS) / DRAWS)

        deviation, parts = budget(ohm, own, t, about, curve, kind)
        lines = {line["from"]: value(line["uncertainty"]) for line in found["budget"]}
        off = max([abs(value(found["uncertainty"]) / deviation - 1)]
                  + [abs(lines[name] - parts.get(name, 0)) / deviation for name in lines]
                  + [abs(u) / deviation for name, u in parts.items() if name not in lines])
        worst["scipy"] = max(worst["scipy"], abs(said - by_scipy))
        worst["Monte Carlo"] = max(worst["Monte Carlo"], abs(said - by_draws) / error)
        worst["uncertainties"] = max(worst["uncertainties"], off)
        results[found["limit"]["result"]] = results.get(found["limit"]["result"], 0) + 1
        # Of 200 comparisons one exceeds 4.5 standard errors once in 700 runs, and the draws are always the same.
        if abs(said - by_scipy) > 1e-3 or abs(said - by_draws) > 4.5 * error or off > 2e-5:
            failures += 1
            print(f"case {case}: {kind} {model}, {' '.join(map(str, command[4:]))}\n  said {said:.6f}, scipy {by_scipy:.6f}, "
                  f"Monte Carlo {by_draws:.6f} ± {error:.6f}; budget off by {off:.2g}: {lines} {parts}")

# The examples of JCGM 106 (see the reference data), by scipy too: the numbers that the unit test expects.
for y, u, low, high, published in [(-5.47, 0.05, -math.inf, -5.4, 0.92), (509.7, 8.6, 490, math.inf, 0.99), (13.6, 1.8, 12.5, 16.3, 0.66)]:
    normal = scipy.stats.norm(y, u)
    assert abs(normal.cdf(high) - normal.cdf(low) - published) < 0.005

print(f"{CASES} cases {results}: scipy differs by at most {worst['scipy']:.2g}, {DRAWS} draws by at most "
      f"{worst['Monte Carlo']:.2g} standard errors, the budget by at most {worst['uncertainties']:.2g}")
if min(results.get(word, 0) for word in ("within", "outside", "too_close")) < CASES / 20:
    sys.exit("one result is too rare for the comparison to mean anything")
sys.exit(1 if failures else 0)
