#!/usr/bin/env python3
"""Published schemas judged by python3-jsonschema: they are draft-07, every example of a property is one, and so is
every marked example of format.md. Usage: schemas.py FOLDER_OF_SPEC. Exit status 77: the package is missing."""
import json
import pathlib
import re
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

folder = pathlib.Path(sys.argv[1]) / "v1"
failures = []
counts = {"schemas": 0, "properties": 0, "examples of format.md": 0}


def check(schema, value, place):
    errors = list(jsonschema.Draft7Validator(schema).iter_errors(value))
    failures.extend(f"{place}: {e.message}" for e in errors)


def within(root, part):
    """A schema for one part of another, with its definitions at hand."""
    return {"allOf": [part], "definitions": root["definitions"]}


def properties(root, part, place):
    for key, value in part.get("properties", {}).items():
        if "$ref" in value:
            continue  # looked at where it stands
        counts["properties"] += 1
        where = f"{place}/{key}"
        if not value.get("description"):
            failures.append(f"{where} has no description")
        if not value.get("examples"):
            failures.append(f"{where} has no examples")
        for example in value.get("examples", []):
            check(within(root, value), example, where)


def references(node):
    if isinstance(node, dict):
        if "$ref" in node and len(node) > 1:
            failures.append(f"{sorted(node)}: something stands beside $ref")
        if "oneOf" in node:
            failures.append("oneOf is used")
        for value in node.values():
            references(value)
    elif isinstance(node, list):
        for value in node:
            references(value)


schemas = {}
for path in sorted(folder.glob("*.schema.json")):
    schema = json.loads(path.read_text(encoding="utf-8"))
    counts["schemas"] += 1
    schemas[path.name] = schema
    check(jsonschema.Draft7Validator.META_SCHEMA, schema, path.name)
    references({k: v for k, v in schema.items()})
    properties(schema, schema, path.name)
    for name, definition in schema["definitions"].items():
        properties(schema, definition, f"{path.name}/{name}")

page = (folder / "format.md").read_text(encoding="utf-8")
for name, text in re.findall(r"<!-- example: (\w+) -->\n```json\n(.*?)```", page, re.S):
    counts["examples of format.md"] += 1
    value = json.loads(text)
    owners = [s for s in schemas.values() if name in s["definitions"] or s["$id"].endswith(f"/{name}.schema.json")]
    if not owners:
        failures.append(f"format.md has an example of {name}, which no schema knows")
    for schema in owners:
        whole = schema["$id"].endswith(f"/{name}.schema.json")
        check(schema if whole else within(schema, {"$ref": f"#/definitions/{name}"}), value, f"format.md, {name}")

for failure in failures:
    print(failure)
print(", ".join(f"{count} {what}" for what, count in counts.items()))
if counts["schemas"] != 11 or counts["properties"] < 200 or counts["examples of format.md"] < 30:
    print("too few were found: the check would prove nothing")
    sys.exit(1)
sys.exit(1 if failures else 0)
