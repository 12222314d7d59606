"""What the schemas say, walked: for every keyword at every place one document that violates it there and nowhere
else; and for every record and kind, documents that must be accepted."""
import copy
import json
import zlib

from bases import COMPONENTS, CONNECTORS, KINDS, TEST, home
from cases import Case, pointed, put, without

PART = "structure"
GENERAL_LIMIT = 1000  # of lists and maps whose key states none; tried once, since the document is long
TRIED_WITH_GENERAL_LIMIT = ("appliance", "markets")

# Where the example of a key refers to what the smallest document does not have.
SAMPLES = {
    "circuits": {"chain": {"between": ["X4.1", "X4.2"], "arrangement": "series", "elements": [{"kind": "diode"}]}},
    "elements": [{"kind": "diode"}],
    "tests": {"sensor_resistance": {**TEST, "component": "sensor"}},
    "decided_by": ["sensor_resistance"],
    "rows": [{"at": "25 °C", "nominal": "10 kΩ"}],
}
# What a key needs beside it so that it is the only fault.
BESIDE = {
    ("profile", "tests"): {"/components": COMPONENTS},
    ("connector", "pins"): {"/connectors/X4/ways": 200},
    ("table_row", "min"): {"/component/model/rows/0/max": "11 kΩ"},
    ("table_row", "max"): {"/component/model/rows/0/min": "9 kΩ"},
}


def definitions(schemas):
    """(document kind, record, kind of the record or None, schema), each record once."""
    seen = set()
    for kind, schema in schemas.items():
        for name, definition in {kind: schema, **schema["definitions"]}.items():
            if name in seen:
                continue
            seen.add(name)
            for record, kinds in KINDS.items():
                rest = name.removeprefix(record + "_")
                if rest != name and rest in kinds:
                    yield record, rest, definition
                    break
            else:
                yield name, None, definition


def title(record, kind):
    if kind:
        return f"{record.replace('_', ' ')} `{kind}`"
    return record.replace("_", " ")


def chosen(choices, seed):
    """One of them, the same in every run and whatever is added beside it."""
    return choices[zlib.crc32(seed.encode()) % len(choices)]


def good(schema):
    """A value that the schema of a member accepts."""
    if "pattern" in schema and "[.]" in schema["pattern"]:
        return "X4.1"
    if schema.get("enum"):
        return schema["enum"][0]
    if schema.get("items") is not None and not schema.get("examples"):
        return [good(schema["items"])]
    if not schema.get("examples"):
        return "a1"
    return copy.deepcopy(schema["examples"][0])


WRONG = {
    "string": lambda v: [None, True, [v], {"text": v}],
    "integer": lambda v: [str(v), 1.5, True, None],
    "boolean": lambda v: ["true", 1, None],
    "array": lambda v: [v[0] if v else "text", {}, None],
    "object": lambda v: ["text", [], 7],
}
NOUN = {"string": "text", "integer": "a whole number", "boolean": "true or false", "array": "a list",
        "object": "an object"}
KIND_OF_JSON = {bool: "true or false", int: "a number", float: "a number", str: "text", list: "a list",
                dict: "an object", type(None): "null"}
FORMS = [  # mark in the pattern, rule, what it is, wrong ones
    ("[.]", "contact-malformed", "a contact", ["X4", "X4.", ".1", "X4.1.2", "X 4.1", "X4:1"]),
    ("[0-9]{4}", "text-malformed", "a date", ["March 2021", "2021", "2021-13", "2021-3-4", "2021-03-32"]),
    ("[A-Z][A-Z]", "text-malformed", "two capital letters", ["ie", "IRL"]),
    ("[./]", "text-malformed", "a path", ["../parts", "/parts", "parts/../other", "parts//ntc"]),
    ("{0,63}", "id-malformed", "an id", ["two words", "_first", "-first", "café", "a" * 65, "a.b"]),
    ("^/", "text-malformed", "a JSON Pointer", ["components/pump"]),
    ("{0,3}", "text-malformed", "a version", ["1", "1.0.0", "1.", "01.0", "1.00", "v1.0", "10000.0"]),
]


def form_of(pattern):
    return next(form for form in FORMS if form[0] in pattern)


class Walk:
    def __init__(self, schemas, home):
        self.schemas, self.home = schemas, home
        self.cases = []
        self.places = set()

    def refuse(self, record, kind, name, shows, document, rule, at):
        # Contacts that the document uses are declared, so that it has one fault only.
        if "X4." in json.dumps(document) and isinstance(document, dict) and "connectors" not in document \
                and document.get("kind") == "profile":
            document = {**document, "connectors": copy.deepcopy(CONNECTORS)}
        label = "-".join(filter(None, (record, kind, name))).replace("$", "")  # which an id cannot hold
        self.cases.append(Case(PART, label[:64], self.document_kind(record), shows, document, [(rule, at)]))

    def document_kind(self, record):
        return self.home(record)[0].get("kind", "output")

    def new(self, record, path, keyword, value):
        """True for the first record or kind in which a keyword stands at this path with this value."""
        place = (record, path, keyword, json.dumps(value))
        if place in self.places:
            return False
        self.places.add(place)
        return True

    def all(self):
        for record, kind, schema in definitions(self.schemas):
            self.record(record, kind, schema)
        return self.cases

    def record(self, record, kind, schema):
        document, at = self.home(record, kind)
        name = title(record, kind)
        if kind is None:
            wrong = chosen(WRONG["object"](None), record)
            self.refuse(record, None, "type", f"{name}: it is {KIND_OF_JSON[type(wrong)]}", put(document, at, wrong),
                        "type-wrong", at)
        for key in schema.get("required", []):
            if kind is not None and key in self.base_required(record):
                continue
            if kind is None and not self.new(record, None, "required", key):
                continue
            rule = "key-missing"
            if key in ("safety", "supplies"):
                rule = "supplies-missing"
            if record == "hazard" and key in ("where", "wait", "verify_below"):
                rule = "stored-charge-unverified"
            self.refuse(record, kind, f"{key}-missing", f"{name}: `{key}` is missing",
                        without(document, f"{at}/{key}"), rule, at)
        # The kinds of a component are those of a component type: their own keys are tried in parts.
        if schema.get("additionalProperties") is False and not (record == "component" and kind) and \
                self.new(record, None, "additionalProperties", sorted(schema["properties"])):
            others = sorted({k for k in self.keys_of_other_kinds(record) if k not in schema["properties"]})
            strange = chosen(others, record + str(kind)) if others else "remark"
            belongs = ", of another kind" if others else ", unknown"
            self.refuse(record, kind, "key-unknown", f"{name}: the key `{strange}`{belongs}",
                        put(document, f"{at}/{strange}", "text"), "key-unknown", f"{at}/{strange}")
        for key, member in schema.get("properties", {}).items():
            if key == "kind" and kind is not None:
                continue
            self.member(record, kind, name, document, f"{at}/{pointed(key)}", key, member, (key,))

    def base_required(self, record):
        for schema in self.schemas.values():
            if record in schema["definitions"]:
                return schema["definitions"][record]["required"]
        return []

    def keys_of_other_kinds(self, record):
        for schema in self.schemas.values():
            for name, definition in schema["definitions"].items():
                rest = name.removeprefix(record + "_")
                if rest != name and rest in KINDS.get(record, {}):
                    yield from definition["properties"]

    def member(self, record, kind, name, document, at, key, schema, path, wrap=lambda v: v, top=None):
        """The keywords of one member, or of the items of one. `wrap` puts a value into the member."""
        top = top or at
        what = f"{name}: `{key}`"
        if len(path) > 1:
            what = f"{name}: an {path[-1]} of `{key}`"
        label = "-".join(str(p) for p in path)

        def refuse(keyword, shows, value, rule, place=at):
            self.refuse(record, kind, f"{label}-{keyword}", shows, put(document, top, wrap(value)), rule, place)

        # A key to which the same keywords apply in several records is tried in the first of them: a component and a
        # part's component type have most keys in common, and many records have a `note`.
        if not self.new(None, path, "member", {k: v for k, v in schema.items() if k not in ("description",
                                                                                            "examples")}):
            return
        typed = schema.get("type")
        sample = SAMPLES.get(key, good(schema)) if len(path) == 1 else good(schema)
        for pointer, value in BESIDE.get((record, key), {}).items():
            document = put(document, pointer, value)
        if typed:
            wrong = chosen(WRONG[typed](sample), record + label)
            refuse("type", f"{what} is {KIND_OF_JSON[type(wrong)]}, not {NOUN[typed]}", wrong, "type-wrong")
        if "const" in schema:
            if key == "format":
                refuse("other", f"{what} is a version that is not", "ohmlore/0.9", "format-unsupported")
            else:
                refuse("unknown", f"{what} is no kind of document", schema["const"] + "s", "word-unknown")
        if "enum" in schema:
            words = schema["enum"]
            wrong = chosen([w for w in (words[0].upper(), words[-1] + "s", words[0] + " ") if w not in words],
                           record + label)
            refuse("unknown", f"{what} is {json.dumps(wrong)}, which is none of its words", wrong, "word-unknown")
        # That no text is empty is stated once for all of them, so it is tried once in each record.
        if "minLength" in schema and self.new(record, None, "minLength", 1):
            refuse("empty", f"{what} is empty", "", "text-empty")
        if "pattern" in schema:
            _, rule, noun, wrongs = form_of(schema["pattern"])
            wrong = chosen(wrongs, record + label)
            refuse("malformed", f"{what} is {json.dumps(wrong, ensure_ascii=False)}, which is not {noun}"
                   if len(wrong) < 30 else f"{what} has {len(wrong)} characters", wrong, rule)
        for keyword, step in (("minimum", -1), ("maximum", 1)):
            if keyword in schema:
                wrong = schema[keyword] + step
                refuse(keyword, f"{what} is {wrong}", wrong, "number-out-of-limits")
        if typed == "array":
            self.count(record, path, schema, sample, what, refuse, "Items")
            def wrap_item(value):
                least = schema.get("minItems", 1)
                return wrap([value, *([sample[0]] * (max(least, 1) - 1))])
            self.member(record, kind, name, document, f"{at}/0", key, schema["items"], (*path, "item"), wrap_item, top)
        elif typed == "object":
            self.count(record, path, schema, sample, what, refuse, "Properties")
            entry = next(iter(sample.values()))
            if "propertyNames" in schema:
                wrong = chosen(FORMS[4][3], record + label)
                place = f"{at}/{pointed(wrong)}"
                refuse("id-malformed", f"{name}: a key in `{key}` is not an id", {wrong: entry}, "id-malformed",
                       place)
            if "$ref" not in schema["additionalProperties"]:
                name_of_entry = next(iter(sample))
                self.member(record, kind, name, document, f"{at}/{name_of_entry}", key, schema["additionalProperties"],
                            (*path, "entry"), lambda value: wrap({name_of_entry: value}), top)

    def count(self, record, path, schema, sample, what, refuse, noun):
        key = path[0]
        least, most = schema.get(f"min{noun}", 0), schema.get(f"max{noun}")

        def filled(n):
            if noun == "Items":
                items = [f"X4.{i + 1}" for i in range(4)] if sample and str(sample[0]).startswith("X4.") else sample
                return [items[i % len(items)] for i in range(n)]
            entry = {} if key == "pins" else next(iter(sample.values()))
            return {str(i + 1): entry for i in range(n)}

        if least:
            rule = "count-out-of-limits"
            if record == "safety":
                rule = "supplies-missing"
            if record == "hazard":
                rule = "stored-charge-unverified"
            refuse("too_few", f"{what} has {least - 1} entries, not at least {least}", filled(least - 1), rule)
        if most:
            if most > GENERAL_LIMIT or most == GENERAL_LIMIT and (record, key) != TRIED_WITH_GENERAL_LIMIT:
                return
            refuse("too_many", f"{what} has {most + 1} entries, not at most {most}", filled(most + 1),
                   "count-out-of-limits")


def refused(schemas, home=home):
    """The cases of these schemas; `home` gives the smallest good document that holds a record."""
    return Walk(schemas, home).all()


# Members of full records whose example would not fit the document that they stand in.
FITTING = {
    "enters_at": ["X4.1"],
    "between": ["X4.1", "X4.2"],
    "where": {"hazard": ["X4.1", "X4.2"]},
    "component": {"hazard": "sensor"},
    "based_on": ["notes"],
    "links": ["X4.2"],
    "from": {"source_reference": "notes"},
    "source": {"from": "notes", "page": "31", "table": "table 4", "note": "second column"},
}


def closed(schemas, record, kind):
    name = f"{record}_{kind}" if kind else record
    for document_kind, schema in schemas.items():
        if name == document_kind:
            return schema
        if name in schema["definitions"]:
            return schema["definitions"][name]
    raise KeyError(name)


def full(schemas, record, kind=None, **members):
    """A record with every member of its kind, but for those given as None."""
    needed = KINDS[record][kind] if kind else {}
    value = {"kind": kind} if kind else {}
    for key, schema in closed(schemas, record, kind)["properties"].items():
        if key in members:
            if members[key] is not None:
                value[key] = copy.deepcopy(members[key])
            continue
        if key == "kind" and kind:
            continue
        if kind and key in (common := closed(schemas, record, None)["properties"]):
            schema = common[key]  # the examples of what all kinds have stand there
        fitting = FITTING.get(key)
        if isinstance(fitting, dict) and key != "source":
            fitting = fitting.get(record)
        value[key] = copy.deepcopy(needed.get(key, fitting if fitting is not None else good(schema)))
    return value
