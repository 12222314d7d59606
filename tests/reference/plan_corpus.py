#!/usr/bin/env python3
"""Every code of the corpus planned, alone and with another, and gone on with after readings: each report is what its schema
says, carries the cautions, and names every suspect of its codes once; every record is what its schema says, and gives the
same plan again.

Usage: plan_corpus.py PROGRAM SOURCE_FOLDER. Exit status 77: python3-jsonschema is missing."""
import collections
import itertools
import json
import pathlib
import subprocess
import sys
import tempfile

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

program, source = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
place = pathlib.Path(tempfile.mkdtemp())


def validator(name):
    return jsonschema.Draft7Validator(json.loads((source / f"spec/v1/{name}.schema.json").read_text(encoding="utf-8")))


plans, jobs = validator("plan"), validator("job")
READINGS = itertools.cycle(["OL", "0.4 Ω", "45 Ω at 18 °C", "12.1 kΩ at 18 °C, answers", "3.3 MΩ", "OL, on part 12.1 kΩ"])
failures, counts = [], collections.Counter()


def run(*words):
    done = subprocess.run([program, "plan", *words], capture_output=True, text=True, check=False)
    if done.returncode != 0 or done.stderr:
        failures.append(f"{' '.join(map(str, words))}: exit status {done.returncode}: {done.stderr[:300]}")
    return done.stdout


def report(name, *words):
    text = run(*words, "--format", "json")
    if not text:
        return None
    plan = json.loads(text)
    for error in itertools.islice(plans.iter_errors(plan), 3):
        failures.append(f"{name}: {error.json_path}: {error.message[:200]}")
    if len(plan["cautions"]) < 8 or not any("leaves dead testing" in one for one in plan["all_healthy"]):
        failures.append(f"{name}: cautions are missing")
    counts["plans"] += 1
    counts["steps"] += len(plan["steps"])
    return plan


def identity(suspect):
    return suspect["kind"], suspect.get("component", suspect.get("connector", suspect.get("cause", "")))


for file in sorted((source / "corpus/profiles").glob("*/*.profile.json")):
    profile = json.loads(file.read_text(encoding="utf-8"))
    codes = list(profile["faults"])
    for code, other in zip(codes, codes[1:] + codes[:1]):
        name = f"{file.name} {code}"
        plan = report(name, file, code)
        if plan is None:
            continue
        fault = profile["faults"][code]
        meant = [entry["id"] for entry in plan["codes"]]
        if code not in meant:
            failures.append(f"{name}: plans for {meant}")
        if meant == [code]:
            if len(plan["suspects"]) != len({identity(s) for s in fault["suspects"]}):
                failures.append(f"{name}: {len(plan['suspects'])} suspects")
            named = {test for s in fault["suspects"] for test in s.get("decided_by", [])}
            done = [step["test"] for step in plan["steps"] + plan["more"]]
            if len(done) != len(set(done)) or not set(done) <= named:
                failures.append(f"{name}: steps {done}")
            counts["tests that the codes name"] += len(named)
            counts["of them planned"] += len(done)
        for step in plan["steps"]:
            if not step["outcomes"] or step["outcomes"][0]["shown"] != ["healthy"]:
                failures.append(f"{name}: {step['test']} has no healthy outcome")
            total = sum(float(one["probability"].split()[0]) for one in step["outcomes"])
            if not 98 < total < 100.1:
                failures.append(f"{name}: {step['test']}: its outcomes add up to {total} %")
        text = run(file, code) if counts["plans"] % 3 == 0 else None
        for begin in ("! Dead test only", "! Isolate every supply", "! Never bridge"):
            if text is not None and begin not in text:
                failures.append(f"{name}: the text lacks {begin}")
        both = None if counts["plans"] % 2 else report(f"{name} {other}", file, code, other)
        if both is not None and len(both["suspects"]) < len(plan["suspects"]):
            failures.append(f"{name} {other}: fewer suspects than of one code")
        if not plan["steps"]:
            counts["codes without a test"] += 1
            continue
        # The first step read in some way; then on from its record.
        readings, record = place / "readings.txt", place / "job.json"
        reading = next(READINGS)
        readings.write_text(f"{plan['steps'][0]['test']} {reading}\n", encoding="utf-8")
        record.unlink(missing_ok=True)
        ran = subprocess.run([program, "plan", file, code, "-t", "18 °C", "--readings", readings, "--record", record, "--format",
                              "json"], capture_output=True, text=True, check=False)
        if ran.returncode != 0:
            counts["readings that cannot be judged"] += 1
            if not ran.stderr.startswith("ohmlore: "):
                failures.append(f"{name} {reading}: {ran.stderr[:200]}")
            continue
        first = json.loads(ran.stdout)
        for error in itertools.islice(plans.iter_errors(first), 3):
            failures.append(f"{name} {reading}: {error.json_path}: {error.message[:200]}")
        job = json.loads(record.read_text(encoding="utf-8"))
        for error in itertools.islice(jobs.iter_errors(job), 3):
            failures.append(f"{name} {reading}, record: {error.json_path}: {error.message[:200]}")
        again = report(f"{name} from its record", file, "-t", "18 °C", "--readings", record)
        if again != first:
            failures.append(f"{name} {reading}: another plan from its record")
        asked = plan["steps"][0]["test"]
        undecided = any(line.startswith(f"{asked}: undecided") for line in first["conclusion"])
        if not undecided and asked in [step["test"] for step in first["steps"]]:
            failures.append(f"{name} {reading}: asks for what was read")
        counts["records"] += 1
        counts["found" if any(s["standing"] == "found" for s in first["suspects"]) else "nothing found"] += 1

for failure in failures[:40]:
    print(failure)
print(", ".join(f"{count} {what}" for what, count in counts.items()), f"- {len(failures)} failures")
for what, least in (("plans", 250), ("records", 100), ("found", 50), ("nothing found", 10)):
    if counts[what] < least:
        sys.exit(f"{what}: too few for the check to mean anything")
sys.exit(1 if failures else 0)
