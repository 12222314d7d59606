# embed.py LIBRARY DOCUMENT: another language embeds the shared library, which must have the functions of c.h alone.
import ctypes
import json
import subprocess
import sys

library_path, document = sys.argv[1:]
library = ctypes.CDLL(library_path)
library.ohmlore_version.restype = ctypes.c_char_p
library.ohmlore_lint.restype = ctypes.c_void_p
library.ohmlore_lint.argtypes = [ctypes.c_char_p, ctypes.c_char_p, ctypes.c_size_t]
library.ohmlore_free.argtypes = [ctypes.c_void_p]

with open(document, "rb") as file:
    text = file.read()
report = library.ohmlore_lint(document.encode(), text, len(text))
findings = json.loads(ctypes.string_at(report))["findings"]
library.ohmlore_free(report)
assert [finding["rule"] for finding in findings if finding["fails"]] == ["key-missing"], findings
assert library.ohmlore_version().count(b".") == 2

symbols = subprocess.run(["nm", "-D", "--defined-only", library_path], check=True, capture_output=True, text=True).stdout
names = sorted(line.split()[-1] for line in symbols.splitlines())
assert names == ["ohmlore_free", "ohmlore_lint", "ohmlore_version"], names
