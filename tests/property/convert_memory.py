#!/usr/bin/env python3
"""Memory does not grow with the corpus: converting 20,000 profiles peaks below 1.2 times what 1,000 need.

Usage: convert_memory.py PROGRAM WRITE_HOSTILE [COUNT [XML_COUNT]]. The profiles are the 100 smallest of 1,000 generated
ones, under new ids. 20,000 take minutes: fewer are tried where COUNT says so, and of XML, a file a profile, XML_COUNT."""
import pathlib
import re
import subprocess
import sys
import tempfile
import time

program, write_hostile = sys.argv[1:3]
FEW = 1000
MANY = int(sys.argv[3]) if len(sys.argv) > 3 else 20000
XML_MANY = int(sys.argv[4]) if len(sys.argv) > 4 else MANY
LIMIT = 1.2


def peak(*words):
    """Largest resident size of one run, in KiB. What wait4 says would include this interpreter, which the run began
    as; the kernel's own mark of the run only rises, so that its last sample counts."""
    process = subprocess.Popen([program, *map(str, words)], stdout=subprocess.DEVNULL)
    highest = 0
    while process.poll() is None:
        try:
            status = pathlib.Path(f"/proc/{process.pid}/status").read_text(encoding="ascii")
            if (found := re.search(r"VmHWM:\s*(\d+) kB", status)) and f"Name:\t{pathlib.Path(program).name}\n" in status:
                highest = int(found[1])
        except OSError:
            pass
        time.sleep(0.002)
    if process.returncode not in (0, 1) or highest == 0:  # 1: lines warn that tables and XML come without parts
        sys.exit(f"{' '.join(map(str, words))}: exit status {process.returncode}, {highest} KiB")
    return highest


failed = False
with tempfile.TemporaryDirectory() as name:
    place = pathlib.Path(name)
    (place / "made").mkdir()
    subprocess.run([write_hostile, place / "made", "1000", "json"], check=True)
    profiles = sorted((path.read_bytes() for path in (place / "made").iterdir()), key=len)[:100]
    corpora = {count: place / str(count) for count in sorted({FEW, XML_MANY, MANY})}
    for count, folder in corpora.items():
        for number in range(count):
            maker = folder / f"{number // 500:03}"
            maker.mkdir(parents=True, exist_ok=True)
            new_id = f"board-{number:05}"
            text = re.sub(rb'"id":\s*"healthy-\d+"', f'"id":"{new_id}"'.encode(), profiles[number % 100], count=1)
            (maker / f"{new_id}.profile.json").write_bytes(text)
    for what, most, words in (("json to csv", MANY, ("--to", "csv", "{json}", "-o", "{csv}")),
                              ("csv to jsonl", MANY, ("--from", "csv", "--to", "jsonl", "{csv}")),
                              ("json to xml", XML_MANY, ("--to", "xml", "{json}", "-o", "{xml}")),
                              ("xml to jsonl", XML_MANY, ("--from", "xml", "--to", "jsonl", "{xml}"))):
        started = time.monotonic()
        few, many = (peak("convert", *(word.format(json=folder, csv=f"{folder}-csv", xml=f"{folder}-xml")
                                       for word in words)) for folder in (corpora[FEW], corpora[most]))
        print(f"{what}: {few} KiB for {FEW} profiles, {many} KiB for {most}: {many / few:.3f} "
              f"({time.monotonic() - started:.0f} s)", flush=True)
        failed = failed or many >= LIMIT * few
sys.exit(1 if failed else 0)
