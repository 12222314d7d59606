#!/usr/bin/env python3
"""Mutants judged by engines of others with the published schemas, or by the reader that was written from the pages,
against the library's verdicts.

Usage: other_engines.py jsonschema|ajv|pages WRITE_MUTANTS FOLDER_OF_SPEC. Exit status 77: that engine is missing."""
import json
import pathlib
import subprocess
import sys
import tempfile

COUNT = 2000
engine, write_mutants, spec = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3]) / "v1"


def skip(why):
    print(f"skipped: {why}")
    sys.exit(77)


def judge_with_jsonschema(folder, cases):
    try:
        import jsonschema
    except ImportError:
        skip("python3-jsonschema is not installed")
    judges = {}
    for case in cases:
        name = case["schema"]
        if name not in judges:
            schema = json.loads((spec / f"{name}.schema.json").read_text(encoding="utf-8"))
            judges[name] = jsonschema.Draft7Validator(schema)
        value = json.loads((folder / case["file"]).read_text(encoding="utf-8"))
        yield judges[name].is_valid(value)


AJV = """
const fs = require('fs');
let Ajv;
try { Ajv = require('ajv'); } catch { process.exit(77); }
const [spec, folder] = process.argv.slice(2);
const judges = {};
const verdicts = JSON.parse(fs.readFileSync(folder + '/verdicts.json', 'utf8')).map(({ file, schema }) => {
  judges[schema] ??= new Ajv().compile(JSON.parse(fs.readFileSync(`${spec}/${schema}.schema.json`, 'utf8')));
  return judges[schema](JSON.parse(fs.readFileSync(folder + '/' + file, 'utf8')));
});
console.log(JSON.stringify(verdicts));
"""


def judge_with_ajv(folder, _cases):
    script = folder / "judge.js"
    script.write_text(AJV, encoding="utf-8")
    try:
        run = subprocess.run(["node", script, spec.resolve(), folder], capture_output=True, text=True, check=False)
    except FileNotFoundError:
        skip("node is not installed")
    if run.returncode == 77:
        skip("ajv is not installed: tools/install node")
    if run.returncode != 0 or run.stderr:
        sys.exit(f"node, exit status {run.returncode}: {run.stderr}")
    return json.loads(run.stdout)


def judge_by_pages(folder, cases):
    sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "conformance"))
    import reader
    reader.learn((spec / "format.md").read_text(encoding="utf-8"))
    for case in cases:
        judge = reader.Reader()
        judge.read((folder / case["file"]).read_bytes())
        yield judge.accepts_structure()


with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    subprocess.run([write_mutants, name, str(COUNT)], check=True)
    cases = json.loads((folder / "verdicts.json").read_text(encoding="utf-8"))
    judge = {"ajv": judge_with_ajv, "jsonschema": judge_with_jsonschema, "pages": judge_by_pages}[engine]
    verdicts = list(judge(folder, cases))
    disagreements = 0
    for case, accepted in zip(cases, verdicts, strict=True):
        if accepted != case["accepted"]:
            disagreements += 1
            print(f"{case['file']} ({case['schema']}): reader {'accepts' if case['accepted'] else 'refuses'}")
            print((folder / case["file"]).read_text(encoding="utf-8")[:2000])
    refused = sum(not accepted for accepted in verdicts)
    print(f"{engine}: {len(verdicts)} mutants, {refused} refused, {disagreements} disagreements")
    if not COUNT / 2 < refused < COUNT * 19 / 20:
        sys.exit("one verdict is too rare for the comparison to mean anything")
    sys.exit(1 if disagreements else 0)
