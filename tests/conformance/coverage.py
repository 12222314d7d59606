#!/usr/bin/env python3
"""Which keyword of the schemas each refused document violates, and at which place, as python3-jsonschema sees it.

Every keyword at every place must be violated by a document that violates nothing else; every key of every record and
every word must stand in an accepted one. What programs print (reports and the like) is no document that a reader meets,
and has none in the folder: its schemas are tried here with documents made from their examples.
Usage: coverage.py FOLDER_OF_SPEC [--list]. Exit status 77: the package is missing."""
import collections
import json
import pathlib
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

import structure

spec = pathlib.Path(sys.argv[1]) / "v1"
DOCUMENTS = ("profile", "part", "corpus")
OUTPUTS = sorted(path.name.removesuffix(".schema.json") for path in spec.glob("*.schema.json")
                 if not path.name.startswith(DOCUMENTS))
KINDS = (*DOCUMENTS, *OUTPUTS)
schemas = {kind: json.loads((spec / f"{kind}.schema.json").read_text(encoding="utf-8")) for kind in KINDS}
engines = {kind: jsonschema.Draft7Validator(schema) for kind, schema in schemas.items()}
ASSERTIONS = {"type", "enum", "const", "required", "additionalProperties", "minLength", "pattern", "minItems",
              "maxItems", "minimum", "maximum", "minProperties", "maxProperties", "propertyNames"}
failures = []


def followed(kind, ref):
    """Owner, path in it and schema that "#/definitions/OWNER" or "#/definitions/OWNER/properties/KEY" names."""
    _, _, owner, *rest = ref.split("/")
    schema = schemas[kind]["definitions"][owner]
    return (owner, (rest[1],), schema["properties"][rest[1]]) if rest else (owner, (), schema)


def places_of(kind):
    """Every place at which a keyword asserts something: (definition or kind, path in it, keyword, value)."""
    def walk(owner, schema, path):
        for keyword, value in schema.items():
            if keyword in ("if", "then", "definitions", "examples", "allOf", "patternProperties"):
                continue  # a condition asserts nothing, and what is reached by $ref is walked by itself
            if keyword == "properties":
                for key, member in value.items():
                    yield from walk(owner, member, (*path, key))
            elif keyword == "items":
                yield from walk(owner, value, (*path, "[]"))
            elif keyword == "additionalProperties" and isinstance(value, dict):
                yield from walk(owner, value, (*path, "{}"))
            elif keyword == "required":
                yield from ((owner, path, keyword, key) for key in value)
            elif keyword in ASSERTIONS:
                yield owner, path, keyword, json.dumps(value, sort_keys=True)

    yield from walk(kind, schemas[kind], ())
    for name, definition in schemas[kind]["definitions"].items():
        yield from walk(name, definition, ())


def place_of(kind, error):
    """The place of an error of the engine, and what of the document it is about."""
    owner, path, schema = kind, (), schemas[kind]
    steps = list(error.absolute_schema_path)
    keyword = steps.pop()
    while steps:
        step = steps.pop(0)
        if step == "properties":
            path, schema = (*path, steps[0]), schema["properties"][steps.pop(0)]
        elif step == "propertyNames":
            keyword, steps = "propertyNames", []
        else:
            if step in ("items", "additionalProperties"):
                path = (*path, {"items": "[]", "additionalProperties": "{}"}[step])
            schema = schema[step]
        if "$ref" in schema:  # of which the engine says nothing in the path
            owner, path, schema = followed(kind, schema["$ref"])
    about = list(error.absolute_path)
    value = json.dumps(schema.get(keyword), sort_keys=True)
    if keyword == "required":
        missing = [key for key in error.validator_value if key not in error.instance]
        value = next(key for key in missing if error.message.startswith(repr(key)))
        about.append(value)
    elif keyword == "additionalProperties":
        known = schema["properties"]
        about += [key for key in error.instance if key not in known and not key.startswith("x_")]
    elif keyword == "propertyNames":
        about.append(error.instance)
    return (owner, path, keyword, value), tuple(about)


def visit(kind, schema, value, seen, owner, path=()):
    """Notes the keys and words that an accepted document has."""
    if "$ref" in schema:
        seen.add((owner, path, None))
        owner, path, schema = followed(kind, schema["$ref"])
    seen.add((owner, path, None))
    if "enum" in schema:
        seen.add((owner, path, value))
    for part in schema.get("allOf", []):
        if "if" not in part:
            visit(kind, part, value, seen, owner, path)
        elif value.get("kind") == part["if"]["properties"]["kind"]["const"]:
            visit(kind, part["then"], value, seen, owner, path)
    if isinstance(value, dict):
        for key, member in value.items():
            if key in schema.get("properties", {}):
                visit(kind, schema["properties"][key], member, seen, owner, (*path, key))
            elif isinstance(schema.get("additionalProperties"), dict):
                visit(kind, schema["additionalProperties"], member, seen, owner, (*path, "{}"))
    if isinstance(value, list):
        for item in value:
            visit(kind, schema["items"], item, seen, owner, (*path, "[]"))


def is_variant(owner):
    return any(owner.removeprefix(f"{name}_") in kinds for name, kinds in structure.KINDS.items())


def keys_of(owner):
    return next(set(s["definitions"][owner]["properties"]) for s in schemas.values() if owner in s["definitions"])


def excuse(place, violated):
    """Why a place needs no document of its own; None where it does."""
    owner, path, keyword, value = place
    if is_variant(owner) and (path == ("kind",) or not path and (keyword == "type" or (keyword,
                                                                                       value) == ("required", "kind"))):
        return "holds wherever `then` is reached"
    if is_variant(owner) and keyword == "required":
        base = next(name for name, kinds in structure.KINDS.items() if owner.removeprefix(f"{name}_") in kinds)
        if (base, path, keyword, value) in violated:
            return "the same in the record of all kinds"
    if keyword in ("maxItems", "maxProperties") and int(value) >= structure.GENERAL_LIMIT:
        return "the limit that all lists and maps have"
    if keyword == "minLength" and any(k == "minLength" and v == value for _, _, k, v in violated):
        return "that no text is empty, tried in each record"
    same = [p for p in violated if p[1:] == (path, keyword, value)]
    if path and same:
        return "the same keywords of a key of the same name"
    if keyword == "additionalProperties" and is_variant(owner):
        if any(keys_of(owner) == keys_of(p[0]) for p in same if is_variant(p[0])):
            return "another kind with the same keys"
        twin = owner.replace("component_", "component_type_")
        if twin in {p[0] for p in same} or twin != owner and is_variant(twin) and excuse((twin, *place[1:]), violated):
            return "the same kind of a component type"
    return None


def home_in_examples(kind, record):
    """The smallest output that holds a record, of the examples of its schema, and the JSON Pointer of the record."""
    def smallest(schema):
        return {key: schema["properties"][key]["examples"][0] for key in schema.get("required", ())}

    def search(schema, value, at):
        """(value, pointer) with the record in it, or None."""
        for key, member in schema["properties"].items():
            item = member.get("items", {}).get("$ref")
            ref = item or next((part["$ref"] for part in member.get("allOf", [])), None)
            if not ref:
                continue
            owner, _, inner = followed(kind, ref)
            place = f"{at}/{key}/0" if item else f"{at}/{key}"
            found = (smallest(inner), place) if owner == record else search(inner, smallest(inner), place)
            if found:
                return {**value, key: [found[0]] if item else found[0]}, found[1]
        return None

    root = smallest(schemas[kind])
    return (root, "") if record == kind else search(schemas[kind], root, "")


violated, seen = {}, set()
counts = collections.Counter()


def judge(name, kind, document, accepted):
    errors = list(engines[kind].iter_errors(document))
    if bool(errors) == accepted:
        failures.append(f"{name}: the engine {'refuses' if errors else 'accepts'} it")
    if accepted:
        visit(kind, schemas[kind], document, seen, kind)
        counts["accepted"] += 1
        return
    counts["refused"] += 1
    found = [place_of(kind, error) for error in errors]
    if len({about for _, about in found}) > 1:
        failures.append(f"{name} is wrong in more than one place: {[about for _, about in found]}")
    for place, _ in found:
        violated.setdefault(place, []).append(name)


manifest = json.loads((spec / "conformance/manifest.json").read_text(encoding="utf-8"))
for case in manifest["cases"]:
    if case["file"].startswith("structure/"):
        kind = "corpus" if case["file"].endswith("/corpus.json") else case["file"].split(".")[-2]
        text = (spec / "conformance" / case["file"]).read_text(encoding="utf-8")
        judge(case["file"], kind, json.loads(text), case["accepted"])
for kind in OUTPUTS:
    output_home = lambda record, _=None, kind=kind: home_in_examples(kind, record)
    for case in structure.refused({kind: schemas[kind]}, output_home):
        judge(f"{kind}, {case.name}", kind, case.content, False)
    for record in (kind, *schemas[kind]["definitions"]):
        judge(f"{kind}, smallest {record}", kind, output_home(record)[0], True)

places = {place for kind in KINDS for place in places_of(kind)}
strange = set(violated) - places
if strange:
    failures.append(f"places that the walk does not know: {sorted(map(str, strange))[:5]}")
excused = collections.Counter()
for place in sorted(places - set(violated), key=str):
    why = excuse(place, violated)
    excused[why] += 1
    if why is None:
        failures.append(f"no document violates {place}")
if "--list" in sys.argv:
    for (owner, path, keyword, value), names in sorted(violated.items(), key=str):
        print("/".join((owner, *path)), keyword, value[:60], *names)

for kind in KINDS:
    if kind in OUTPUTS:
        continue
    for owner, schema in {kind: schemas[kind], **schemas[kind]["definitions"]}.items():
        for key, member in schema.get("properties", {}).items():
            one_of_two = key in ("between", "terminals")  # a component has the one or the other
            if (owner, (key,), None) not in seen and not (one_of_two and ("component", (key,), None) in seen):
                failures.append(f"no accepted document has {key} of {owner}")
            for word in member.get("enum", []):
                if not any((o, (key,), word) in seen for o in {owner, *(p[0] for p in seen if p[1] == (key,))}):
                    failures.append(f"no accepted document has the word {word} of {key} of {owner}")

for failure in failures:
    print(failure)
print(f"{counts['refused']} refused and {counts['accepted']} accepted documents; {len(places)} places of keywords, "
      f"{len(violated)} violated")
for why, count in sorted(excused.items(), key=str):
    print(f"  {count} not violated themselves: {why}")
if len(places) < 500 or counts["refused"] < 400:
    print("too few were found: the check would prove nothing")
    sys.exit(1)
sys.exit(1 if failures else 0)
