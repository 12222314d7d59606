#!/usr/bin/env python3
"""Random texts of quantities, read by the library and by the reader that was written from the pages: the same are
accepted, with the same canonical spelling and the same bits. Usage: compare_quantities.py WRITE_QUANTITIES"""
import json
import subprocess
import sys

import quantity_reader

COUNT = 20000
rows = subprocess.run([sys.argv[1], str(COUNT)], capture_output=True, text=True, check=True).stdout.splitlines()
accepted = differing = 0
for row in map(json.loads, rows):
    text, grammar, dimensions = row.pop("text"), row.pop("grammar"), row.pop("dimensions")
    accepted += bool(row)
    try:
        canonical, values = quantity_reader.read(text, grammar, dimensions)
        read = {"canonical": canonical, **values}
    except quantity_reader.Refused as refused:
        read = {}
        why = refused.args[0]
    if read != row:
        differing += 1
        if differing <= 40:
            print(f"{text!r} as a {grammar} of {dimensions}: the library {row or 'refuses'}, the pages {read or why}")
print(f"{len(rows)} texts, {accepted} accepted by the library, {differing} read otherwise")
if len(rows) != COUNT or not COUNT / 5 < accepted < COUNT * 4 / 5:
    sys.exit("one verdict is too rare for the comparison to mean anything")
sys.exit(1 if differing else 0)
