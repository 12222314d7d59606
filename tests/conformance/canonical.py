#!/usr/bin/env python3
"""The canonical form of documents, written as format.md describes it and not as the library does it.

Usage: canonical.py FOLDER_OF_SPEC PROGRAM PATH...   compares with what `PROGRAM normalise` prints, over all documents
below the paths that this reader accepts. Exit status 77: the program does not know the command."""
import json
import pathlib
import re
import subprocess
import sys

import reader

WIDEST = 160


def ordered(record, members):
    """Members of a record in the order of its table, then what the table does not have."""
    kind = members.get("kind") if record.kinds else None
    places = {}
    for place, field in enumerate(record.fields):
        if field.kinds == "all" or field.belongs_to(kind):
            places.setdefault(field.key, place)
    known = sorted((m for m in members if m[0] in places), key=lambda m: places[m[0]])
    return [*known, *(m for m in members if m[0] not in places)], kind


class Writer:
    def __init__(self, values):
        self.values = values  # canonical spellings of quantities, by JSON Pointer

    def rewritten(self, type_, value, at):
        """The value with its members in order and its quantities in their canonical spelling."""
        if at in self.values:
            return self.values[at]["canonical"]
        type_, _ = reader.split_counts(type_)
        if fields := re.match(r"\[\w+\]\(#fields-(\w+)\)", type_):
            return self.record(reader.RECORDS[fields[1]], value, at)
        if type_.startswith("list of "):
            return [self.rewritten(type_.removeprefix("list of "), item, f"{at}/{i}") for i, item in enumerate(value)]
        if type_.startswith("[map](#maps) of "):
            entry = type_.removeprefix("[map](#maps) of ")
            return reader.Object((key, self.rewritten(entry, item, reader.below(at, key))) for key, item in value)
        if type_.startswith("integer") and value == "-0":
            return reader.Number("0")
        return value

    def record(self, record, members, at):
        members, kind = ordered(record, members)
        result = reader.Object()
        for key, value in members:
            field = record.field(key, kind)
            result.append((key, self.rewritten(field.type, value, reader.below(at, key)) if field else value))
        return result


def scalar(value):
    if isinstance(value, reader.Number):
        return str(value)
    return json.dumps(value, ensure_ascii=False)


def members_of(value):
    return [member for _, member in value] if isinstance(value, reader.Object) else value


def is_container(value):
    return isinstance(value, list)


def is_spread(value):
    """Two objects or more stand side by side in it, or further inside."""
    members = members_of(value)
    objects = sum(isinstance(member, reader.Object) for member in members)
    return objects > 1 or any(is_container(member) and is_spread(member) for member in members)


def flat(value):
    if not is_container(value):
        return scalar(value)
    if isinstance(value, reader.Object):
        return "{" + ", ".join(f"{scalar(k)}: {flat(v)}" for k, v in value) + "}"
    return "[" + ", ".join(map(flat, value)) + "]"


def layout(value, indent, before, is_root=False):
    """The text of a value that stands behind so many columns."""
    if not is_container(value) or not value and not is_root:
        return flat(value)
    if not is_root and not is_spread(value) and before + len(flat(value)) <= WIDEST:
        return flat(value)
    inner = indent + "  "
    if isinstance(value, reader.Object):
        lines = (f"{inner}{scalar(k)}: " + layout(v, inner, len(inner) + len(scalar(k)) + 2) for k, v in value)
        return "{\n" + ",\n".join(lines) + f"\n{indent}}}"
    return "[\n" + ",\n".join(inner + layout(v, inner, len(inner)) for v in value) + f"\n{indent}]"


def canonical(data):
    """The canonical bytes of a document; None where this reader refuses it."""
    document = reader.Reader()
    document.read(data)
    if any(severity == "error" for _, _, severity in document.findings):
        return None
    root = reader.load(data.decode("utf-8").removeprefix("\ufeff"))
    root = Writer(document.values).record(reader.RECORDS[root.get("kind")], root, "")
    return (layout(root, "", 0, is_root=True) + "\n").encode()


def main():
    spec, program, paths = pathlib.Path(sys.argv[1]) / "v1", sys.argv[2], sys.argv[3:]
    reader.learn((spec / "format.md").read_text(encoding="utf-8"))
    commands = subprocess.run([program, "--help"], capture_output=True, text=True, check=True).stdout
    if "\n  normalise " not in commands:
        print("skipped: the program has no command `normalise`")
        return 77
    compared = differing = 0
    for file in (file for path in paths for file in reader.documents_below(pathlib.Path(path))):
        wanted = canonical(file.read_bytes())
        if wanted is None:
            continue
        compared += 1
        run = subprocess.run([program, "normalise", file], capture_output=True, check=False)
        if run.stdout != wanted:
            differing += 1
            print(f"{file}: `normalise` prints something else (exit status {run.returncode})")
    print(f"{compared} documents, {differing} differ")
    return 1 if differing or compared == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
