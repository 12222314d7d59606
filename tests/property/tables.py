#!/usr/bin/env python3
"""Tables judged by programs of others: each is RFC 4180 for csv-parse in strict mode, which finds the same cells as
Python does; and they are what their W3C metadata say, checked here from the metadata alone: every column, data type,
unit, primary key and foreign key.

Usage: tables.py PROGRAM WRITE_HOSTILE FOLDER_OF_SOURCE COUNT. Exit status 77: csv-parse is missing; all else was
looked at then."""
import csv
import io
import json
import pathlib
import re
import subprocess
import sys
import tempfile

program, write_hostile, source, count = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3]), sys.argv[4]
failures, counted = [], {"cells": 0, "columns": 0, "primary keys": 0, "foreign keys": 0, "references": 0, "quantities": 0}
strict_parser = True

PARSE = """
const fs = require('fs');
let parse;
try { ({ parse } = require('csv-parse/sync')); } catch { process.exit(77); }
const [delimiter, ...files] = process.argv.slice(2);
for (const file of files)
  console.log(JSON.stringify(parse(fs.readFileSync(file), {
    bom: true, delimiter, columns: false, relax_column_count: false, relax_quotes: false, skip_empty_lines: false,
    trim: false, record_delimiter: '\\r\\n' })));
"""


def fail(words):
    if len(failures) < 20:
        failures.append(words)


def compare_with_csv_parse(folder, delimiter, rows_of):
    global strict_parser
    files = sorted(folder.glob("*.csv"))
    with tempfile.NamedTemporaryFile("w", suffix=".js") as script:
        script.write(PARSE)
        script.flush()
        try:
            run = subprocess.run(["node", script.name, delimiter, *files], capture_output=True, encoding="utf-8",
                                 check=False)
        except FileNotFoundError:
            strict_parser = False
            return
    if run.returncode == 77:
        strict_parser = False
    elif run.returncode != 0:
        fail(f"csv-parse refuses a table: {run.stderr[-600:]}")
    else:
        for file, line in zip(files, run.stdout.split("\n")[:-1], strict=True):
            if json.loads(line) != rows_of[file.name]:
                fail(f"{file.name}: csv-parse finds other cells than Python")


def is_value(cell, datatype):
    base = datatype if isinstance(datatype, str) else datatype["base"]
    form = None if isinstance(datatype, str) else datatype.get("format")
    if base == "integer":
        return bool(re.fullmatch(r"-?\d+", cell)) and datatype["minimum"] <= int(cell) <= datatype["maximum"]
    if base == "double":
        return bool(re.fullmatch(r"-?\d+(\.\d+)?([eE][+-]?\d+)?", cell))
    if base == "boolean":
        return cell in form.split("|")
    if base != "string":
        return False
    return form is None or re.fullmatch(form, cell) is not None


SI = {"Ω": 1, "kΩ": 1e3, "MΩ": 1e6, "V": 1, "V ac": 1, "V dc": 1, "W": 1, "kW": 1e3, "A": 1, "mA": 1e-3, "µF": 1e-6,
      "nF": 1e-9, "K": 1, "s": 1, "min": 60, "h": 3600}


def check_quantity(table, column, row, by_name):
    """The number, or the first of two, beside a quantity in a plain spelling."""
    cell = row[by_name[column]].removeprefix("'")
    found = re.fullmatch(r"(-?[0-9.]+) (.+)", cell)
    if not found:
        return
    if found[2] == "°C":
        wanted = float(found[1]) + 273.15
    elif found[2] in SI:
        wanted = float(found[1]) * SI[found[2]]
    else:
        return
    number = row[by_name[column + "_si" if column + "_si" in by_name else column + "_low"]]
    counted["quantities"] += 1
    if not number or abs(float(number) - wanted) > 1e-12 * max(1, abs(wanted)):
        fail(f"{table}: {cell} has the number {number}, not {wanted}")


def read_tables(folder):
    metadata = json.loads((folder / "csv-metadata.json").read_text(encoding="utf-8"))
    if metadata["@context"][0] != "http://www.w3.org/ns/csvw":
        fail("the metadata are no CSVW")
    dialect = metadata["dialect"]
    if dialect["trim"] is not False:
        fail("space at the ends of a text would not count")
    tables = {table["url"]: table["tableSchema"] for table in metadata["tables"]}
    if set(tables) != {path.name for path in folder.glob("*.csv")}:
        fail(f"{folder}: the metadata describe other tables than there are")
    rows_of = {}
    for url in tables:
        data = (folder / url).read_bytes().decode("utf-8-sig")
        if data and not data.endswith("\r\n"):
            fail(f"{url}: does not end in CR LF")
        rows_of[url] = list(csv.reader(io.StringIO(data, newline=""), delimiter=dialect["delimiter"], strict=True))
    compare_with_csv_parse(folder, dialect["delimiter"], rows_of)
    return tables, rows_of


def check_metadata(tables, rows_of):
    keys = {}
    for url, schema in tables.items():
        header, *rows = rows_of[url]
        columns = schema["columns"]
        names = [column["name"] for column in columns]
        by_name = {name: place for place, name in enumerate(names)}
        if header != names or len(by_name) != len(names):
            fail(f"{url}: the header is not what the metadata say")
        for place, column in enumerate(columns):
            counted["columns"] += 1
            if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9_.]*", column["name"]) or not column["dc:description"]:
                fail(f"{url}: the column {column['name']} has a bad name or no description")
            if column["datatype"] == "double" and "schema:unitText" not in column:
                if not any(name.endswith("_unit") and column["name"].startswith(name[:-5]) for name in names):
                    fail(f"{url}: the numbers in {column['name']} have no unit")
            for row in rows:
                cell = row[place]
                counted["cells"] += cell != ""
                if cell == "":
                    if column.get("required"):
                        fail(f"{url}: an empty cell in {column['name']}, which is required")
                elif cell[0] in "=+@\t\r" or (cell[0] == "-" and column["datatype"] not in ("double",)):
                    fail(f"{url}: {column['name']} holds what a spreadsheet would run: {cell[:40]}")
                else:
                    items = cell.split(column["separator"]) if "separator" in column else [cell]
                    if not all(is_value(item, column["datatype"]) for item in items):
                        fail(f"{url}: {cell[:60]!r} in {column['name']} is no {column['datatype']}")
            if column["name"] + "_si" in by_name or column["name"] + "_low" in by_name:
                for row in rows:
                    check_quantity(url, column["name"], row, by_name)
        counted["primary keys"] += 1
        keys[url] = [tuple(row[by_name[name]] for name in schema["primaryKey"]) for row in rows]
        if len(set(keys[url])) != len(rows) or any("" in key for key in keys[url]):
            fail(f"{url}: the primary key {schema['primaryKey']} is not one")
    for url, schema in tables.items():
        by_name = {column["name"]: place for place, column in enumerate(schema["columns"])}
        for foreign in schema["foreignKeys"]:
            counted["foreign keys"] += 1
            target = foreign["reference"]["resource"]
            if foreign["reference"]["columnReference"] != tables[target]["primaryKey"]:
                fail(f"{url}: a foreign key leads to {target}, but not to its primary key")
            known = set(keys[target])
            for row in rows_of[url][1:]:
                value = tuple(row[by_name[name]] for name in foreign["columnReference"])
                if value[-1] == "":
                    continue
                counted["references"] += 1
                if value not in known:
                    fail(f"{url}: {foreign['columnReference']} = {value} leads nowhere")


with tempfile.TemporaryDirectory() as name:
    place = pathlib.Path(name)
    (place / "all").mkdir()
    (place / "some").mkdir()
    subprocess.run([write_hostile, place / "all", count, "json"], check=True)
    subprocess.run([write_hostile, place / "some", "300", "json"], check=True)
    for number, (folder, *options) in enumerate((
            (source / "corpus",), (source / "corpus", "--excel", "--delimiter", "semicolon"),
            (place / "some",), (place / "some", "--excel", "--delimiter", "tab"), (place / "all",))):
        written = place / f"tables{number}"
        run = subprocess.run([program, "convert", "--to", "csv", folder, "-o", written, *options], capture_output=True,
                             text=True, check=False)
        if run.returncode != 0:
            fail(f"convert --to csv, exit status {run.returncode}: {run.stderr[-600:]}")
        tables, rows_of = read_tables(written)
        if folder.name != "all":
            check_metadata(tables, rows_of)
    committed = json.loads((source / "spec/v1/tables.json").read_text(encoding="utf-8"))
    if committed != json.loads((place / "tables0/csv-metadata.json").read_text(encoding="utf-8")):
        fail("csv-metadata.json is not spec/v1/tables.json")

print(", ".join(f"{number} {what}" for what, number in counted.items()))
if min(counted.values()) < 50:
    fail("too little was looked at to mean anything")
for failure in failures:
    print(failure)
if failures:
    sys.exit(1)
if not strict_parser:
    print("skipped: csv-parse is not installed: tools/install node")
    sys.exit(77)
