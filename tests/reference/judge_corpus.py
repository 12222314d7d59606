#!/usr/bin/env python3
"""Every test of the corpus judged with readings of all kinds: each report is what its schema says, carries the cautions,
and agrees with its exit status; what cannot be judged is said.

Usage: judge_corpus.py PROGRAM SOURCE_FOLDER. Exit status 77: python3-jsonschema is missing."""
import collections
import itertools
import json
import pathlib
import subprocess
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

program, source = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
schema = json.loads((source / "spec/v1/judgement.schema.json").read_text(encoding="utf-8"))
validator = jsonschema.Draft7Validator(schema)

T = ["-t", "18 °C ± 1 K"]
WAYS = [["OL"], ["0.4 Ω"], ["45 Ω", *T], ["12.1 kΩ"], ["12.1 kΩ", *T, "--taken", "on-pipe", "--minutes-since-running", "15"],
        ["3.3 MΩ", *T], ["OL 6 kΩ", *T], ["44.1 Ω", *T, "--at-part", "43.9 Ω"], ["OL", *T, "--at-part", "12 kΩ"],
        ["12.4 kΩ", *T, "--after", "9.1 kΩ", "--after-temperature", "26 °C"], ["0.6 Ω", "--after", "OL"],
        ["12.4 kΩ", *T, "--twin", "12.5 kΩ"], ["0 Ω", "--leads", "0"]]
REVERSED = ["4.9 kΩ", *T, "--reverse", "OL"]
turn = itertools.count()
failures, counts, refusals = [], collections.Counter(), collections.Counter()

for file in sorted((source / "corpus/profiles").glob("*/*.profile.json")):
    for test, content in json.loads(file.read_text(encoding="utf-8")).get("tests", {}).items():
        # Four ways a test, every way by turns.
        ways = [WAYS[next(turn) % len(WAYS)] for _ in range(4)]
        if content.get("expect", {}).get("kind") == "both_directions":
            ways.append(REVERSED)
        for way in ways:
            run = subprocess.run([program, "judge", file, test, *way, "--format", "json"], capture_output=True, text=True,
                                 check=False)
            name = f"{file.name} {test} {' '.join(way)}"
            counts["runs"] += 1
            if run.returncode == 2:
                counts["refused"] += 1
                refusals[run.stderr.split(": ", 2)[-1].strip()] += 1
                if run.stdout or not run.stderr.startswith("ohmlore: "):
                    failures.append(f"{name}: refused, and not as it should be: {run.stdout[:80]}{run.stderr}")
                continue
            report = json.loads(run.stdout)
            for error in validator.iter_errors(report):
                failures.append(f"{name}: {error.json_path}: {error.message[:200]}")
            if run.stderr or (run.returncode == 0) != (report["result"] == "within"):
                failures.append(f"{name}: exit status {run.returncode}, {report['result']}: {run.stderr}")
            if len(report["cautions"]) < 8:
                failures.append(f"{name}: cautions are missing")
            counts[report["result"]] += 1
            for verdict in report["verdicts"]:
                for key in ("harness", "response", "reverse", "manufacturing", "means"):
                    counts[key] += key in verdict
                for key in ("others", "settle"):
                    counts[key] += bool(verdict[key])
                shown = [mode["mode"] for mode in verdict["modes"] if mode["verdict"] == "excluded"]
                counts["excluded"] += len(shown)
                if verdict["result"] == "within" and any(m["verdict"] == "fits" for m in verdict["modes"]):
                    failures.append(f"{name}: within, and it looks like a failure")

for why, count in refusals.most_common():
    print(f"{count:5} refused: {why}")
for failure in failures[:40]:
    print(failure)
print(", ".join(f"{count} {what}" for what, count in counts.items()), f"- {len(failures)} failures")
for what in ("within", "outside", "too_close", "harness", "response", "reverse", "manufacturing", "means", "others", "settle", "excluded"):
    if counts[what] < 5:
        sys.exit(f"{what} is too rare for the check to mean anything")
sys.exit(1 if failures else 0)
