#!/usr/bin/env python3
"""Writes spec/v1/conformance from the schemas and the cases beside this file, or compares it with them.

Usage: write.py FOLDER_OF_SPEC [--check]. Without --check, what is no longer a case is removed."""
import json
import pathlib
import sys

import accepted
import canonical
import quantities
import reader
import structure
import text
from cases import one_line, put

spec = pathlib.Path(sys.argv[1]) / "v1"
folder = spec / "conformance"
BY_HAND = {"README.md"}


def schemas(*kinds):
    return {kind: json.loads((spec / f"{kind}.schema.json").read_text(encoding="utf-8")) for kind in kinds}


def cases():
    known = schemas("part", "profile", "corpus")
    for case in (*text.everything(), *structure.refused(known), *accepted.everything(known), *quantities.everything()):
        # A document is called by its id, unless its id is what it shows.
        if isinstance(case.content, dict) and case.content.get("id") == "base":
            case.content = put(case.content, "/id", case.name)
        # What must be accepted is laid out in the canonical form, unless another one is what it shows.
        if case.accepted and case.part != quantities.PART and not isinstance(case.content, bytes):
            case.content = canonical.canonical(case.bytes())
        yield case


def lines(key, entries):
    return f"  {one_line(key)}: [\n" + ",\n".join("    " + one_line(entry) for entry in entries) + "\n  ]"


def wanted():
    """Every file of the folder by its name, with its bytes."""
    files, entries = {}, []
    for case in cases():
        assert case.file not in files, f"two cases are called {case.file}"
        files[case.file] = case.bytes()
        entry = case.entry()
        if case.accepted:
            form = canonical.canonical(case.bytes())
            entry["canonical"] = case.file if form == case.bytes() else f"canonical/{case.file}"
            files[entry["canonical"]] = form
        entries.append(entry)
    entries.sort(key=lambda entry: entry["file"])
    head = '{\n  "format": "ohmlore-conformance/1.0",\n'
    files["manifest.json"] = (head + lines("cases", entries) + "\n}\n").encode()
    vectors = quantities.vectors()
    files["quantities.json"] = (head + ",\n".join(lines(key, vectors[key]) for key in vectors) + "\n}\n").encode()
    return files


def present():
    paths = (path for path in folder.rglob("*") if path.is_file() and path.name not in BY_HAND)
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in paths}


def main():
    reader.learn((spec / "format.md").read_text(encoding="utf-8"))
    files, there = wanted(), present()
    differing = sorted(name for name in files.keys() | there.keys() if files.get(name) != there.get(name))
    if "--check" in sys.argv:
        for name in differing:
            print(f"{name}: {'is no case' if name not in files else 'is missing' if name not in there else 'differs'}")
        print(f"{len(files)} files, {sum(map(len, files.values()))} bytes, {len(differing)} differ")
        if differing:
            print("write them: tests/conformance/write.py spec")
        return 1 if differing else 0
    for name in differing:
        path = folder / name
        if name not in files:
            path.unlink()
            continue
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(files[name])
    for path in sorted(folder.rglob("*"), reverse=True):
        if path.is_dir() and not any(path.iterdir()):
            path.rmdir()
    print(f"{len(differing)} of {len(files)} files written, {sum(map(len, files.values()))} bytes in all")
    return 0


sys.exit(main())
