#!/usr/bin/env python3
"""What ohmlore lint reports of the corpus, of the cases of all rules and of broken profiles, judged by others: SARIF by
the schema of OASIS (sarif-schema-2.1.0.json) and JSON by report.schema.json with ajv, JSON also with python3-jsonschema
(and with valijson in schema_agreement.cpp), JUnit XML by the schema of the Ant task (JUnit.xsd, Windy Road) with
xmllint. Baselines that are written are judged likewise, and read back: then nothing is new.

Usage: report_schemas.py PROGRAM WRITE_MUTANTS SOURCE_FOLDER REFERENCE_FOLDER COUNT. Exit status 77: a judge is missing."""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program, write_mutants, source, reference, count = sys.argv[1:]
source, data = pathlib.Path(source), pathlib.Path(reference) / "data"
sarif_schema, junit_schema = data / "sarif" / "sarif-schema-2.1.0.json", data / "junit" / "JUnit.xsd"


def skip(why):
    print(f"skipped: {why}")
    sys.exit(77)


try:
    import jsonschema
except ImportError:
    skip("python3-jsonschema is not installed")
for schema in (sarif_schema, junit_schema):
    if not schema.exists():
        skip(f"{schema} is not there")
for tool in ("xmllint", "node"):
    if shutil.which(tool) is None:
        skip(f"{tool} is not installed")

AJV = """
const fs = require('fs');
let Ajv;
try { Ajv = require('ajv'); } catch { process.exit(77); }
const [schema, file] = process.argv.slice(2).map(name => JSON.parse(fs.readFileSync(name, 'utf8')));
// That of SARIF is draft-04, and has no keyword but `id` that later drafts read in another way.
if (schema.$schema.includes('draft-04')) { delete schema.$schema; delete schema.id; }
const judge = new Ajv({ strict: false, validateFormats: false }).compile(schema);
if (!judge(file)) { console.error(JSON.stringify(judge.errors)); process.exit(1); }
"""

failures = []
counts = {"runs": 0, "results": 0, "suppressed": 0, "fixes": 0, "related": 0, "test cases": 0}


def fail(why):
    failures.append(why)
    print(f"--- {why[:2000]}")


def parsed(file):
    return json.loads(file.read_text(encoding="utf-8"))


def judge_with_jsonschema(schema, file, what):
    for error in list(jsonschema.Draft7Validator(parsed(schema)).iter_errors(parsed(file)))[:5]:
        fail(f"{what}: {list(error.absolute_path)}: {error.message}")


def judge_with_ajv(folder, schema, file, what):
    script = folder / "judge.js"
    script.write_text(AJV, encoding="utf-8")
    run = subprocess.run(["node", script, schema, file], capture_output=True, text=True, check=False)
    if run.returncode == 77:
        skip("ajv is not installed: tools/install node")
    if run.returncode != 0:
        fail(f"{what}, ajv: {run.stderr[:1000]}")


def lint(paths, folder, *options):
    run = subprocess.run([program, "lint", *options, *map(str, paths)], capture_output=True, text=True, check=False,
                         errors="replace")
    if run.returncode not in (0, 1):
        fail(f"ohmlore lint: exit status {run.returncode}: {run.stderr[:500]}")
    return run


def judge(name, paths, folder, *options):
    files = {kind: folder / f"report_of_{name}.{kind}" for kind in ("json", "sarif", "junit", "github", "markdown")}
    lint(paths, folder, *options, *(f"--report={kind}={file}" for kind, file in files.items()))
    if not options:  # it is slow
        judge_with_jsonschema(report_schema, files["json"], f"{name}, JSON report")
    judge_with_ajv(folder, report_schema, files["json"], f"{name}, JSON report")
    judge_with_ajv(folder, sarif_schema, files["sarif"], f"{name}, SARIF")
    report, sarif = parsed(files["json"]), parsed(files["sarif"])
    run = subprocess.run(["xmllint", "--noout", "--huge", "--schema", junit_schema, files["junit"]],
                         capture_output=True, text=True, check=False)
    if run.returncode != 0:
        fail(f"{name}, JUnit: {run.stderr[:1000]}")

    # All reports say the same.
    results = [result for one in sarif["runs"] for result in one["results"]]
    told = [(f["rule"], f["region"]["begin"], f["message"], "suppression" in f)
            for f in report["findings"] + report["suppressed"]]
    same = [(r["ruleId"], r["locations"][0]["physicalLocation"]["region"]["byteOffset"],
             re.sub(r"\\([\[\]\\])", r"\1", r["message"]["text"].replace("{{", "{").replace("}}", "}")), bool(r["suppressions"])) for r in results]
    if told != same:
        fail(f"{name}: SARIF and JSON differ")
    prints = [r["partialFingerprints"]["ohmlore/v1"] for r in results]
    if len(set(prints)) != len(prints):
        fail(f"{name}: {len(prints) - len(set(prints))} results share a fingerprint")
    annotations = files["github"].read_text(encoding="utf-8").splitlines()
    if len(annotations) != len(report["findings"]) + len(report["troubles"]):
        fail(f"{name}: {len(annotations)} annotations of {len(report['findings'])} findings")
    for one in sarif["runs"]:
        rules = [rule["id"] for rule in one["tool"]["driver"]["rules"]]
        if any(rules[r["ruleIndex"]] != r["ruleId"] for r in one["results"]):
            fail(f"{name}: a ruleIndex names another rule")

    counts["runs"] += 1
    counts["results"] += len(results)
    counts["suppressed"] += sum(bool(r["suppressions"]) for r in results)
    counts["fixes"] += sum("fixes" in r for r in results)
    counts["related"] += sum("relatedLocations" in r for r in results)
    counts["test cases"] += files["junit"].read_text(encoding="utf-8").count("<testcase ")
    return report


def is_read_to_its_end(finding):
    """What a baseline refuses: behind it others may hide."""
    return finding["rule"] not in ("json-syntax", "count-out-of-limits", "format-unsupported") and not (
        finding["family"] == "shape" and finding["pointer"] in ("", "/kind", "/format"))


def judge_baseline(name, paths, report, folder):
    cut = {finding["file"] for finding in report["findings"] if not is_read_to_its_end(finding)}
    paths = [path for path in paths if path.is_file() and str(path) not in cut]
    baseline = folder / f"{name}.baseline.json"
    lint(paths, folder, "--write-baseline", str(baseline), "--owner", "x")
    judge_with_ajv(folder, baseline_schema, baseline, f"{name}, baseline")
    report = judge(f"{name}_known", paths, folder, "--baseline", str(baseline), "--fail-on", "note")
    if report["findings"]:
        fail(f"{name}: {len(report['findings'])} findings are new behind the baseline that was just written: "
             f"{report['findings'][0]}")
    if sum(entry.get("count", 1) for entry in parsed(baseline)["entries"]) == 0:
        fail(f"{name}: the baseline is empty")


report_schema, baseline_schema = (source / f"spec/v1/{name}.schema.json" for name in ("report", "baseline"))

with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    judge("corpus", [source / "corpus"], folder)
    cases = sorted(path for path in (source / "tests/rules").glob("*/*")
                   if path.name.startswith(("bad", "good")) and (path.is_dir() or path.suffix == ".json"))
    judge_baseline("cases", cases, judge("cases", cases, folder), folder)
    mutants = folder / "mutants"
    mutants.mkdir()
    subprocess.run([write_mutants, mutants, count], check=True)
    (mutants / "verdicts.json").unlink()
    broken = sorted(mutants.iterdir())
    judge_baseline("mutants", broken, judge("mutants", broken, folder), folder)

print(", ".join(f"{number} {what}" for what, number in counts.items()))
if counts["results"] < 2 * int(count) or min(counts.values()) < 5:
    sys.exit("too few were judged: the check would prove nothing")
sys.exit(1 if failures else 0)
