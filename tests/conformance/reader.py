#!/usr/bin/env python3
"""A second reader of ohmlore documents: structure and quantities, and nothing that needs knowledge of the trade.

It is written from spec/v1: what records hold it takes from the tables of format.md, the rest from the words there, in
quantities.md and in conformance/README.md. It knows neither the library nor the schemas, and needs only what Python
brings along. It exists to show that those pages suffice, and is not installed.

Usage: reader.py FOLDER_OF_SPEC            reads the conformance folder, and compares with its manifest
       reader.py FOLDER_OF_SPEC PATH...    prints the errors in documents, and in all documents below folders"""
import decimal
import json
import pathlib
import re
import sys

import quantity_reader

MOST_BYTES, MOST_LEVELS, MOST_ENTRIES, MOST_TEXT = 16 * 1024 * 1024, 64, 1000, 2048
THIS_MINOR = 0
ID = "[A-Za-z0-9][A-Za-z0-9_-]{0,63}"


# ---- the tables of format.md

class Record:
    def __init__(self, rows):
        # A key whose value differs by kind stands in several rows.
        self.fields = [Field(row) for row in rows]
        # Where the table has a column for them, the record comes in kinds.
        self.kinds = self.field("kind").words() if "kinds" in rows[0] else None

    def field(self, key, kind=None):
        return next((f for f in self.fields if f.key == key and (f.kinds == "all" or kind and f.belongs_to(kind))),
                    None)


class Field:
    def __init__(self, row):
        self.key, self.type = row["key"].strip("`"), row["value"]
        self.required, self.kinds = row["required"], row.get("kinds", "all")

    def belongs_to(self, kind):
        return self.kinds == "all" or f"`{kind}`" in self.kinds

    def is_needed_by(self, kind):
        return self.belongs_to(kind) if self.required == "yes" else f"`{kind}`" in self.required

    def words(self):
        return WORDS[re.search(r"#words-(\w+)", self.type)[1]]


def blocks(page, what):
    return re.findall(rf"<!-- {what}: (\w+) -->\n(.*?)<!-- end -->", page, re.S)


def rows_of(block):
    lines = [line.strip("|").split("|") for line in block.splitlines() if line.startswith("|")]
    lines = [[cell.strip() for cell in line] for line in lines]
    return [dict(zip(lines[0], line)) for line in lines[2:]]


WORDS, RECORDS = {}, {}


def learn(page):
    """Takes the lists of words and the tables of keys from the text of format.md."""
    WORDS.update((name, re.findall(r"^- `([^`]+)`", block, re.M)) for name, block in blocks(page, "words"))
    RECORDS.update((name, Record(rows_of(block))) for name, block in blocks(page, "fields"))


DIMENSIONS = {
    "a resistance": "resistance", "a voltage": "voltage", "a current": "current", "a power": "power",
    "a capacitance": "capacitance", "a temperature": "temperature",
    "a temperature difference": "temperature_difference",
    "a thermal constant": "thermal_constant", "a duration": "time", "a ratio": "ratio",
    **{f"a coefficient (K^-{n}": "per_kelvin" if n == 1 else f"per_kelvin_{n}" for n in range(1, 7)},
}


def dimensions_of(type_):
    phrases = re.findall(r"a [a-z ]+? \((?:[^)]+)\)", type_.split(": ", 1)[1])
    return [DIMENSIONS.get(p.split(" (")[0]) or DIMENSIONS[p.rstrip(")")] for p in phrases]


# ---- JSON, with what Python's own values forget

class Number(str):
    """A number as it is written."""


class Object(list):
    """The members of an object in order, those that stand twice included."""

    def get(self, key):
        return next((value for name, value in self if name == key), None)


class Not_json(Exception):
    pass


def refuse_constant(word):
    raise Not_json(word)


def load(text):
    try:
        return json.loads(text, object_pairs_hook=Object, parse_int=Number, parse_float=Number,
                          parse_constant=refuse_constant)
    except ValueError as error:
        raise Not_json(str(error)) from None


def levels(text):
    """How deep brackets and braces are nested, those inside of texts left out."""
    deepest = depth = 0
    for mark in re.findall(r'"(?:[^"\\]|\\.)*"|[][{}]', text, re.S):
        depth += (mark in "{[") - (mark in "}]")
        deepest = max(deepest, depth)
    return deepest


def is_text(value):
    return isinstance(value, str) and not isinstance(value, Number)


def is_list(value):
    return isinstance(value, list) and not isinstance(value, Object)


# ---- reading

class Reader:
    def __init__(self):
        self.findings = []  # (rule, JSON Pointer or None, severity)
        self.of_grammar = []  # those of them that are about the grammar of a quantity
        self.values = {}  # of quantities, by JSON Pointer
        self.minor = THIS_MINOR

    def find(self, rule, at, severity="error"):
        self.findings.append((rule, at, severity))

    def read(self, data):
        if len(data) > MOST_BYTES:
            return self.find("file-too-large", None)
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError:
            return self.find("utf8-malformed", None)
        if text.startswith("\ufeff"):
            self.find("byte-order-mark", None, "warning")
            text = text[1:]
        if levels(text) > MOST_LEVELS:
            return self.find("nesting-too-deep", None)
        try:
            root = load(text)
        except Not_json:
            return self.find("json-syntax", None)
        self.document(root)
        self.everywhere(root, "")

    def everywhere(self, value, at):
        """Also where nobody looks otherwise, no number is beyond 1e308, and no text holds half of a surrogate pair."""
        if isinstance(value, Number) and abs(decimal.Decimal(value)) > decimal.Decimal("1e308"):
            self.find("number-out-of-limits", at)
        if is_text(value):
            self.half(value, at)
        members = value if isinstance(value, Object) else enumerate(value) if is_list(value) else ()
        for key, member in members:
            self.half(str(key), below(at, key))
            self.everywhere(member, below(at, key))

    def half(self, text, at):
        finding = ("text-forbidden-character", at, "error")
        if re.search("[\ud800-\udfff]", text) and finding not in self.findings:
            self.find(*finding)

    def document(self, root):
        if not isinstance(root, Object):
            return self.find("type-wrong", "")
        tag = root.get("format")
        if is_text(tag):
            if not (version := re.fullmatch(r"ohmlore/1\.(0|[1-9][0-9]?)", tag)):
                return self.find("format-unsupported", "/format")
            self.minor = int(version[1])
            if self.minor > THIS_MINOR:
                self.find("format-newer", "/format", "note")
        kind = root.get("kind")
        if is_text(kind) and kind in ("profile", "part", "corpus"):
            return self.record(RECORDS[kind], root, "")
        # Which keys belong here is not known: only the two that all documents have are spoken of.
        for key in ("kind", "format"):
            if key not in (name for name, _ in root):
                self.find("key-missing", "")
            elif not is_text(root.get(key)):
                self.find("type-wrong", f"/{key}")
            elif key == "kind":
                self.find("word-unknown", "/kind")

    def duplicates(self, members, at):
        seen = set()
        for key, _ in members:
            if key in seen:
                self.find("key-duplicate", below(at, key))
            seen.add(key)
        return seen

    def record(self, record, members, at):
        if not isinstance(members, Object):
            return self.find("type-wrong", at)
        seen = self.duplicates(members, at)
        kind = members.get("kind") if record.kinds else None
        known = not record.kinds or is_text(kind) and kind in record.kinds
        for key, value in members:
            field = record.field(key, kind if known else None)
            if field:
                self.value(field.type, value, below(at, key), (record, key))
            elif known and not key.startswith("x_"):
                self.find("key-unknown", below(at, key), "note" if self.minor > THIS_MINOR else "error")
        for field in record.fields:
            needed = field.is_needed_by(kind) if known else field.required == "yes" and field.kinds == "all"
            if field.key not in seen and needed:
                self.find(rule_of_absence(record, field.key), at)

    def value(self, type_, value, at, whose):
        record, key = whose
        type_, counts = split_counts(type_)
        if type_.startswith("list of "):
            if not is_list(value):
                return self.find("type-wrong", at)
            self.count(len(value), counts, at, whose)
            for i, item in enumerate(value):
                self.value(type_.removeprefix("list of "), item, below(at, i), (None, None))
        elif type_.startswith("[map](#maps) of "):
            if not isinstance(value, Object):
                return self.find("type-wrong", at)
            self.count(len(value), counts, at, whose)
            self.duplicates(value, at)
            for name, entry in value:
                if not re.fullmatch(ID, name):
                    self.find("id-malformed", below(at, name))
                self.value(type_.removeprefix("[map](#maps) of "), entry, below(at, name), (None, None))
        elif fields := re.search(r"#fields-(\w+)", type_):
            self.record(RECORDS[fields[1]], value, at)
        elif type_ == "true or false":
            if not isinstance(value, bool):
                self.find("type-wrong", at)
        elif integer := re.fullmatch(r"integer, (\d+) to (\d+)", type_):
            if not isinstance(value, Number) or re.search("[.eE]", value):
                self.find("type-wrong", at)
            elif not int(integer[1]) <= int(value) <= int(integer[2]):
                self.find("number-out-of-limits", at)
        elif isinstance(value, Number) and "(#quantities)" in type_:
            self.find("unit-missing", at)
        elif not is_text(value):
            self.find("type-wrong", at)
        elif words := re.search(r"#words-(\w+)", type_):
            if value not in WORDS[words[1]]:
                self.find("word-unknown", at)
        elif type_ == "[contact](#contacts)":
            if not re.fullmatch(rf"{ID}\.{ID}", value):
                self.find("contact-malformed", at)
        elif not type_.startswith("`"):  # format and kind of the document, which were looked at before
            self.text(type_, value, at)

    def text(self, type_, value, at):
        if value == "" and not type_.endswith("may be empty"):
            return self.find("text-empty", at)
        if len(value.encode("utf-8", "surrogatepass")) > MOST_TEXT:
            return self.find("text-too-long", at)
        if re.search("[\u0000-\u001f\u007f-\u009f\ufffe\uffff\ud800-\udfff]", value):
            return self.find("text-forbidden-character", at)
        if "(#quantities)" in type_:
            return self.quantity(type_, value, at)
        forms = {
            "[id](#ids)": (ID, "id-malformed"),
            "[date](#dates)": (r"[0-9]{4}-(0[1-9]|1[0-2])(-(0[1-9]|[12][0-9]|3[01]))?", "text-malformed"),
            "[path](#paths)": (r"(?!.*/[./])[A-Za-z0-9_][A-Za-z0-9_./-]*", "text-malformed"),
            "JSON Pointer": ("/.*", "text-malformed"),
            "version, MAJOR.MINOR": (r"(0|[1-9][0-9]{0,3})\.(0|[1-9][0-9]{0,3})", "text-malformed"),
            "two capital letters": ("[A-Z]{2}", "text-malformed"),
        }
        for name, (form, rule) in forms.items():
            if type_.startswith(name) and not re.fullmatch(form, value, re.S):
                self.find(rule, at)

    def quantity(self, type_, value, at):
        grammar = re.match(r"\[(\w+)\]", type_)[1]
        try:
            canonical, values = quantity_reader.read(value, grammar, dimensions_of(type_))
        except quantity_reader.Refused as refused:
            self.find(refused.args[0], at)
            self.of_grammar.append(self.findings[-1])
            return
        self.values[at] = {"canonical": canonical, **values}
        if note := quantity_reader.spelling_note(value, canonical):
            self.find(note, at, "note")

    def accepts_structure(self):
        """The verdict as far as a JSON Schema can share it."""
        apart = {"key-duplicate", "text-forbidden-character", "text-too-long", "nesting-too-deep"}
        return not any(severity == "error" and rule not in apart and (rule, at, severity) not in self.of_grammar
                       for rule, at, severity in self.findings)

    def count(self, n, counts, at, whose):
        least, most = counts
        if n < least and rule_of_absence(*whose) != "key-missing":
            self.find(rule_of_absence(*whose), at)
        elif not least <= n <= most:
            self.find("count-out-of-limits", at)


def below(at, key):
    return f"{at}/{str(key).replace('~', '~0').replace('/', '~1')}"


def split_counts(type_):
    """A list or map, and how many entries it may have."""
    if counts := re.fullmatch(r"((?:list|\[map\]).*), (?:(\d+) to (\d+)|exactly (\d+))", type_):
        return counts[1], (int(counts[2] or counts[4]), int(counts[3] or counts[4]))
    return type_, (0, MOST_ENTRIES)


def rule_of_absence(record, key):
    """What is missing has one rule, but for what safety needs."""
    if record in (RECORDS["profile"], RECORDS["safety"]) and key in ("safety", "supplies"):
        return "supplies-missing"
    if record is RECORDS["hazard"] and key in ("where", "wait", "verify_below"):
        return "stored-charge-unverified"
    return "key-missing"


# ---- the conformance folder

def compare(folder):
    failures = []
    manifest = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
    for case in manifest["cases"]:
        reader = Reader()
        reader.read((folder / case["file"]).read_bytes())
        stated = {(f["rule"], f.get("at"), f.get("severity", "error")) for f in case.get("findings", [])}
        open_places = {rule for rule, at, _ in stated if at is None}
        found = {(rule, None if rule in open_places else at, severity) for rule, at, severity in reader.findings}
        if found != stated:
            failures.append(f"{case['file']}: found {sorted(found, key=str)}, stated {sorted(stated, key=str)}")
        if case["accepted"] == any(severity == "error" for _, _, severity in found):
            failures.append(f"{case['file']}: the verdict")
        for value in case.get("values", []):
            read = reader.values.get(value["at"], {})
            if any(read.get(name) != value[name] for name in value if name != "at"):
                failures.append(f"{case['file']}: read {read}, stated {value}")
    table = json.loads((folder / "quantities.json").read_text(encoding="utf-8"))
    for row in table["accepted"] + table["refused"]:
        try:
            canonical, values = quantity_reader.read(row["text"], row["grammar"], row["dimensions"])
            got = {"canonical": canonical, **values}
        except quantity_reader.Refused as refused:
            got = {"rule": refused.args[0]}
        if any(got.get(name) != row[name] for name in row if name not in ("text", "grammar", "dimensions",
                                                                          "half_digit")) \
                or "half_digit" in row and got.get("half_digit") != row["half_digit"]:
            failures.append(f"{row['text']!r}: read {got}, stated {row}")
    print(*failures, sep="\n", end="\n" if failures else "")
    print(f"{len(manifest['cases'])} documents, {len(table['accepted'])} quantities accepted, "
          f"{len(table['refused'])} refused, {len(failures)} differ")
    if len(manifest["cases"]) < 150:
        sys.exit("too few were found: the comparison would prove nothing")
    return 1 if failures else 0


def documents_below(path):
    return [path] if path.is_file() else sorted(
        file for file in path.rglob("*.json") if re.search(r"(\.profile|\.part|(^|/)corpus)\.json$", file.as_posix()))


def main():
    spec = pathlib.Path(sys.argv[1]) / "v1"
    learn((spec / "format.md").read_text(encoding="utf-8"))
    if len(sys.argv) == 2:
        return compare(spec / "conformance")
    files = [file for path in sys.argv[2:] for file in documents_below(pathlib.Path(path))]
    errors = 0
    for file in files:
        reader = Reader()
        reader.read(file.read_bytes())
        for rule, at, severity in reader.findings:
            if severity == "error":
                errors += 1
                print(f"{file}: {at or 'the document'} [{rule}]")
    print(f"{len(files)} documents, {errors} errors")
    return 1 if errors or not files else 0


if __name__ == "__main__":
    sys.exit(main())
