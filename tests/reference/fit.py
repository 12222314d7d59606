#!/usr/bin/env python3
"""Fits of `ohmlore fit` on random tables, against scipy: orthogonal distance regression (scipy.odr, ODRPACK) where both
variables are uncertain, least squares (scipy.optimize) where only the resistance is; chi-square, the externally studentised
residuals and the tolerance factor besides. Models and derivatives are written anew. Each report is what its schema says.

Usage: fit.py PROGRAM SOURCE_FOLDER [CASES]. Exit status 77: scipy or jsonschema is missing."""
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

try:
    import jsonschema
    import numpy
    import scipy.odr
    import scipy.optimize
    import scipy.special
except ImportError as missing:
    print(f"skipped: {missing}")
    sys.exit(77)

from handheld import value

program, source = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
CASES = int(sys.argv[3]) if len(sys.argv) > 3 else 200
validator = jsonschema.Draft7Validator(json.loads((source / "spec/v1/fit.schema.json").read_text(encoding="utf-8")))


# ln R over T in kelvin, of the parameters p.
def beta(p, kelvin):
    return p[0] + p[1] * 1000 * (1 / kelvin - 1 / 298.15)


def hart(p, kelvin):
    """1/T = a + b l + c l³, solved for l = ln R by Newton's steps; the parameters are scaled to about 1."""
    a, b, c = p[0] * 1e-3, p[1] * 1e-4, p[2] * 1e-7
    l = numpy.full_like(kelvin, 9.0)
    for _ in range(60):
        l = l - (a + b * l + c * l**3 - 1 / kelvin) / (b + 3 * c * l * l)
    return l


def platinum(p, kelvin):
    t = kelvin - 273.15
    return p[0] + numpy.log(1 + 3.9083e-3 * t - 5.775e-7 * t * t + numpy.where(t < 0, -4.183e-12 * (t - 100) * t**3, 0))


def copper(p, kelvin):
    return p[0] + numpy.log((234.5 + kelvin - 273.15) / 254.5)


def fixed(p, kelvin):
    return p[0] + 0 * kelvin


KINDS = {"beta": ("ntc", beta), "steinhart_hart": ("ntc", hart), "iec_60751": ("rtd", platinum), "copper": ("coil", copper),
         "fixed": ("resistor", fixed)}


def truth(model, dice):
    if model == "beta":
        return [math.log(dice.choice([2000, 10000, 50000])), dice.uniform(3.3, 4.2)]
    if model == "steinhart_hart":
        return [1.129148, 2.34125, 0.876741]
    if model == "iec_60751":
        return [math.log(dice.choice([100, 500, 1000]))]
    return [math.log(dice.choice([43, 310, 4200]))]


def exact_factor(n, content, confidence):
    """ISO 16269-6, by Gauss and Legendre's quadrature and scipy's distributions."""
    nodes, weights = numpy.polynomial.legendre.leggauss(200)
    x, w = (nodes + 1) * 4 / math.sqrt(n), weights * 4 / math.sqrt(n)
    low, high = numpy.zeros_like(x), x + 50
    for _ in range(100):
        r = (low + high) / 2
        enough = scipy.special.ndtr(x + r) - scipy.special.ndtr(x - r) >= content
        low, high = numpy.where(enough, low, r), numpy.where(enough, r, high)
    held = lambda k: math.sqrt(2 * n / math.pi) * numpy.sum(
        w * scipy.special.chdtrc(n - 1, (n - 1) * r * r / k / k) * numpy.exp(-n * x * x / 2))
    return scipy.optimize.brentq(lambda k: held(k) - confidence, 1, 60, xtol=1e-12)


dice = random.Random(20263)
worst = {"parameter": 0.0, "chi-square": 0.0, "studentised": 0.0}
failures = 0
with tempfile.TemporaryDirectory() as folder:
    file = pathlib.Path(folder) / "case.csv"
    for case in range(CASES):
        model = dice.choice(list(KINDS))
        kind, curve = KINDS[model]
        true = truth(model, dice)
        count = dice.randint(6, 14)
        celsius = sorted(dice.sample(range(-20, 101), count))
        share, thermometer, counts = dice.choice([0.05, 0.2, 0.8]), dice.choice([0, 0.02, 0.1, 0.5]), 60000
        rows = []
        for t in celsius:
            ohm = math.exp(float(curve(true, numpy.array([t + 273.15 + dice.gauss(0, thermometer / 1.7)]))[0]))
            rows.append((t, round(ohm * (1 + dice.gauss(0, share / 170)), 6)))
        file.write_text("temperature,resistance\n" + "".join(f"{t}.00000 °C,{ohm:.6f} Ω\n" for t, ohm in rows), encoding="utf-8")
        command = [program, "fit", file, "--kind", kind, "--leads", "0 ± 0", "--meter", f"{share} % + 0 of {counts}",
                   "--thermometer", f"{thermometer} K", "--format", "json"]
        if kind == "ntc":
            command += ["--model", model]
        run = subprocess.run(command, capture_output=True, text=True, check=False)
        if run.returncode == 2:
            sys.exit(f"case {case}: {model} {run.stderr}")
        found = json.loads(run.stdout)
        for error in validator.iter_errors(found):
            failures += 1
            print(f"case {case}: {error.json_path}: {error.message}")

        kelvin = numpy.array([t + 273.15 for t, _ in rows])
        ohm = numpy.array([r for _, r in rows])
        log_ohm, u_log, u_kelvin = numpy.log(ohm), numpy.full(count, share / 100 / math.sqrt(3)), thermometer / math.sqrt(3)
        if thermometer > 0:
            odr = scipy.odr.ODR(scipy.odr.RealData(kelvin, log_ohm, sx=u_kelvin, sy=u_log), scipy.odr.Model(curve), beta0=true,
                                maxit=2000, partol=1e-14, sstol=1e-15)
            odr.set_job(fit_type=0, deriv=1)
            fit = odr.run()
            p, chi_square, at = fit.beta, fit.sum_square, kelvin + fit.delta
        else:
            fit = scipy.optimize.least_squares(lambda p: (log_ohm - curve(p, kelvin)) / u_log, true, xtol=1e-15, ftol=1e-15,
                                               gtol=1e-15, x_scale="jac")
            p, chi_square, at = fit.x, 2 * fit.cost, kelvin

        # Derivatives at the true temperatures, and what follows from them.
        slope = (curve(p, at + 0.01) - curve(p, at - 0.01)) / 0.02
        rows_of = numpy.array([(curve([*p[:k], p[k] + 1e-5, *p[k + 1:]], at) - curve([*p[:k], p[k] - 1e-5, *p[k + 1:]], at)) / 2e-5
                               for k in range(len(p))]).T
        deviation = numpy.sqrt(u_log**2 + (slope * u_kelvin) ** 2)
        scaled = rows_of / deviation[:, None]
        covariance = numpy.linalg.inv(scaled.T @ scaled)
        residual = (log_ohm - curve(p, at) - slope * (kelvin - at)) / deviation
        free = 1 - numpy.einsum("ij,jk,ik->i", scaled, covariance, scaled)
        freedom = count - len(p)
        others = (chi_square - residual**2 / free) / (freedom - 1)
        studentised = residual / numpy.sqrt(free * others)

        # A difference in standard uncertainties of what is compared: 0.001 of one means nothing to anybody.
        said = {one["name"]: value(one["value"]) for one in found["parameters"]}
        reference = value(found["reference"]) + 273.15
        here = numpy.array([reference])
        gradient = numpy.array([(curve([*p[:k], p[k] + 1e-5, *p[k + 1:]], here) - curve([*p[:k], p[k] - 1e-5, *p[k + 1:]], here))[0] / 2e-5
                                for k in range(len(p))])
        u = math.sqrt(gradient @ covariance @ gradient)
        offs = [abs(math.log(said["r0" if model == "iec_60751" else "resistance"]) - curve(p, here)[0]) / u]
        if model == "beta":
            offs.append(abs(said["b_value"] - 1000 * p[1]) / (1000 * math.sqrt(covariance[1, 1])))
        if model == "steinhart_hart":
            for k, (name, scale) in enumerate([("a", 1e-3), ("b", 1e-4), ("c", 1e-7)]):
                offs.append(abs(said[name] / scale - p[k]) / math.sqrt(covariance[k, k]))
        tried = next(one for one in found["trials"] if one["chosen"])
        off_chi = abs(float(tried["chi_square"]) / chi_square - 1)
        off_t = max(abs(float(one["studentised"]) - t) for one, t in zip(found["readings"], studentised))
        worst["parameter"] = max(worst["parameter"], *offs)
        worst["chi-square"] = max(worst["chi-square"], off_chi)
        worst["studentised"] = max(worst["studentised"], off_t)
        # The report has 9 digits of the parameters, 6 of chi-square, 4 of t.
        if max(offs) > 1e-3 or off_chi > 1e-5 or off_t > 2e-3 * (1 + max(abs(studentised))):
            failures += 1
            print(f"case {case}: {model} thermometer {thermometer}: off by {offs} u, chi-square {tried['chi_square']} and "
                  f"{chi_square:.9g}, studentised by {off_t:.2g}")

    # The factor of ISO 16269-6, as the report states it.
    for n in (2, 3, 5, 8, 13, 30):
        file.write_text("specimen,temperature,resistance\n" + "".join(f"s{i},20 °C,{100 + dice.gauss(0, 0.1):.4f} Ω\n" for i in range(n)),
                        encoding="utf-8")
        run = subprocess.run([program, "fit", file, "--kind", "heater", "--format", "json"], capture_output=True, text=True, check=False)
        said, exact = float(json.loads(run.stdout)["tolerance"]["factor"]), exact_factor(n, 0.95, 0.95)
        if abs(said / exact - 1) > 1e-5:
            failures += 1
            print(f"factor for {n}: {said} and {exact}")

print(f"{CASES} fits beside scipy: parameters differ by at most {worst['parameter']:.2g} of their uncertainty, chi-square by "
      f"{worst['chi-square']:.2g}, studentised residuals by {worst['studentised']:.2g}")
sys.exit(1 if failures else 0)
