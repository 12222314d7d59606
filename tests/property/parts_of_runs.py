#!/usr/bin/env python3
"""However the work is divided, what is found is the same to the byte: by several threads, in shards that are merged, with
a cache, with a cache that is torn or changed anywhere, and after some files changed.

The corpus: the one of this project, the bad cases of all rules, broken profiles, documents of one id, waivers, a file that
is no text and one that cannot be read. Usage: parts_of_runs.py PROGRAM WRITE_MUTANTS SOURCE_FOLDER COUNT."""
import os
import pathlib
import random
import shutil
import subprocess
import sys
import tempfile

program, write_mutants, source, count = sys.argv[1:]
program, source = os.path.abspath(program), pathlib.Path(source)
os.environ["SOURCE_DATE_EPOCH"] = "1767225600"
KINDS = ("json", "sarif", "junit", "github", "markdown")
failures = []
compared = 0


def fail(why):
    failures.append(why)
    print(f"--- {why[:3000]}")


def run(folder, *words):
    """Exit status, stdout, stderr and reports of a run with all reports."""
    reports = [f"--report={kind}=/{folder}/../out.{kind}" for kind in KINDS]
    done = subprocess.run([program, *words, *reports], cwd=folder, capture_output=True, check=False)
    return [done.returncode, done.stdout, done.stderr] + [
        (folder.parent / f"out.{kind}").read_bytes() for kind in KINDS]


def compare(what, wanted, found):
    global compared
    compared += 1
    for name, a, b in zip(("exit status", "stdout", "stderr", *KINDS), wanted, found):
        if a == b:
            continue
        if isinstance(a, bytes):
            lines = [(x, y) for x, y in zip(a.splitlines(), b.splitlines()) if x != y]
            fail(f"{what}: {name} differs, {len(a)} and {len(b)} bytes: {lines[:3]}")
        else:
            fail(f"{what}: {name} {b}, not {a}")
        return


def quiet(folder, *words):
    done = subprocess.run([program, *words], cwd=folder, capture_output=True, check=False)
    return done.returncode, done.stdout.decode(errors="replace"), done.stderr.decode(errors="replace")


def make_corpus(folder):
    shutil.copytree(source / "corpus", folder)
    for case in sorted((source / "tests" / "rules").glob("*/bad*.json")):
        target = folder / "profiles" / "cases" / f"{case.parent.name}-{case.stem}.profile.json"
        target.parent.mkdir(exist_ok=True)
        shutil.copyfile(case, target)
    mutants = folder.parent / "mutants"
    mutants.mkdir()
    subprocess.run([write_mutants, mutants, count], check=True)
    (folder / "profiles" / "mutants").mkdir()
    for mutant in sorted(mutants.glob("0*.json")):
        shutil.copyfile(mutant, folder / "profiles" / "mutants" / f"{mutant.stem}.profile.json")
    for name in ("a", "b"):  # of one id, one controller and one code with what is there already
        first = sorted((folder / "profiles").glob("*/*.profile.json"))[0]
        shutil.copyfile(first, folder / "profiles" / f"copy-{name}.profile.json")
    (folder / "profiles" / "no-text.profile.json").write_bytes(bytes(range(256)))
    (folder / "profiles" / "empty.profile.json").write_bytes(b"")
    os.symlink("nowhere.json", folder / "profiles" / "gone.profile.json")


def merged(folder, shards, *words):
    files = []
    for number in range(1, shards + 1):
        file = folder.parent / f"shard{number}"
        status, out, err = quiet(folder, "lint", ".", f"--shard={number}/{shards}", f"--report=shard={file}")
        if status != 2 and "gives the verdict" not in err:
            fail(f"shard {number}/{shards}: exit status {status}: {err[:500]}")
        if "[waiver-unused]" in out or "files read:" in out:
            fail(f"shard {number}/{shards} says what only the merge can know")
        files.append(str(file))
    random.Random(shards).shuffle(files)
    return run(folder, "merge", *files, *words)


def cached(folder, cache, *words):
    return run(folder, "lint", ".", f"--cache={cache}", *words)


def main(place):
    folder = place / "corpus"
    make_corpus(folder)
    wanted = run(folder, "lint", ".", "--jobs=1")
    documents = wanted[3].count(b'"file"')
    if wanted[0] != 2 or b"gone.profile.json: cannot be read" not in wanted[2] or documents < 1000:
        fail(f"the corpus is not what it is meant to be: {documents} findings, {wanted[2][:300]}")

    for jobs in (1, 2, 8):
        compare(f"{jobs} jobs", wanted, run(folder, "lint", ".", f"--jobs={jobs}"))
    for shards in (1, 2, 7, 16):
        compare(f"{shards} shards", wanted, merged(folder, shards))

    # With a baseline, and without waivers; a gate needs a corpus that can be read.
    (folder / "profiles" / "gone.profile.json").unlink()
    whole = quiet(folder, "lint", "profiles", "parts", "--format=json")[1]
    shutil.rmtree(folder / "profiles" / "mutants")  # what is not read to its end no baseline knows
    for broken in ("no-text", "empty"):
        (folder / "profiles" / f"{broken}.profile.json").unlink()
    for case in (folder / "profiles" / "cases").iterdir():
        if quiet(folder, "lint", str(case), "--write-baseline=../try.json", "--owner=x")[0] == 2:
            case.unlink()
    (place / "try.json").unlink(missing_ok=True)
    status, _, err = quiet(folder, "lint", ".", "--write-baseline=baseline.json", "--owner=x")
    if status == 2:
        fail(f"no baseline: {err[:1000]}")
    first = next(iter(sorted((folder / "profiles" / "cases").iterdir())))
    first.unlink()  # stale entries
    for words in (["--baseline=baseline.json"], ["--baseline=baseline.json", "--no-waivers", "--fail-on=note"]):
        compare(f"7 shards, {words}", run(folder, "lint", ".", *words), merged(folder, 7, *words))

    # The cache: not there, whole, after a change of one file, of a part and of the policy.
    cache = place / "cache"
    wanted = run(folder, "lint", ".", "--jobs=2")
    compare("cache, first run", wanted, cached(folder, cache))
    known = cache.read_bytes()
    compare("cache, second run", wanted, cached(folder, cache))
    if cache.read_bytes() != known:
        fail("a second run does not know what the first one kept")
    compare("cache, eight threads", wanted, cached(folder, cache, "--jobs=8"))
    changed = sorted((folder / "profiles").glob("*/*.profile.json"))[3]
    changed.write_text(changed.read_text(encoding="utf-8").replace("kΩ", "Ω"), encoding="utf-8")
    compare("cache, one file changed", run(folder, "lint", "."), cached(folder, cache))
    for part in sorted((folder / "parts").rglob("*.part.json"))[:5]:
        part.write_text(part.read_text(encoding="utf-8").replace("kΩ", "Ω"), encoding="utf-8")
    compare("cache, parts changed", run(folder, "lint", "."), cached(folder, cache))
    policy = folder / "corpus.json"
    policy.write_text(policy.read_text(encoding="utf-8").replace('"kind": "corpus",', '"kind": "corpus", "meter": { "leads": "9 Ω" },', 1)
                      if '"meter"' not in policy.read_text(encoding="utf-8") else
                      policy.read_text(encoding="utf-8").replace("0.3 Ω", "9 Ω"), encoding="utf-8")
    wanted = run(folder, "lint", ".")
    compare("cache, policy changed", wanted, cached(folder, cache))
    whole = cache.read_bytes()
    chance = random.Random(4410)
    for turn in range(12):
        torn = bytearray(whole)
        if turn % 3 == 0:
            torn = torn[:chance.randrange(len(torn))]
        else:
            for _ in range(200 if turn % 3 == 1 else 1):
                torn[chance.randrange(len(torn))] ^= 1 << chance.randrange(8)
        cache.write_bytes(bytes(torn))
        compare(f"cache, damaged ({turn})", wanted, cached(folder, cache))
    for turn in range(3):  # verdicts of one document under the key of another
        lines = whole.splitlines(keepends=True)
        keys = [line.split(b" ", 2)[1] for line in lines[1:]]
        chance.shuffle(keys)
        cache.write_bytes(lines[0] + b"".join(b"0 " + key + b" " + line.split(b" ", 2)[2]
                                              for key, line in zip(keys, lines[1:])))
        compare(f"cache, keys exchanged ({turn})", wanted, cached(folder, cache))
    foreign = place / "letter.txt"
    foreign.write_text("Dear reader\n", encoding="utf-8")
    status, _, err = quiet(folder, "lint", ".", f"--cache={foreign}")
    if status != 2 or "holds something else" not in err or foreign.read_text(encoding="utf-8") != "Dear reader\n":
        fail(f"a file that is no cache: exit status {status}: {err[:300]}")

    # Shards that do not fit.
    files = [str(place / f"shard{number}") for number in range(1, 8)]
    merged(folder, 7)
    for what, given, text in (
            ("one missing", files[:3] + files[4:], "6 of 7 shards are here; missing: 4/7"),
            ("one twice", files + files[:1], "was given twice"),
            ("no shard", [str(policy)], "is no report of a shard")):
        status, out, err = quiet(folder, "merge", *given)
        if status != 2 or text not in err or out:
            fail(f"merge, {what}: exit status {status}: {err[:500]}")
    good = pathlib.Path(files[2]).read_bytes()
    for turn in range(30):
        torn = bytearray(good)
        if turn % 2:
            torn[chance.randrange(len(torn))] ^= 1 << chance.randrange(8)
        else:
            torn = torn[:chance.randrange(len(torn))]
        pathlib.Path(files[2]).write_bytes(bytes(torn))
        status, out, err = quiet(folder, "merge", *files)
        if status != 2 or out or files[2] not in err:
            fail(f"merge, one damaged ({turn}): exit status {status}: {err[:500]}")
    changed.write_text(changed.read_text(encoding="utf-8").replace('"revision": ', '"revision": 1', 1), encoding="utf-8")
    changed.rename(changed.with_name("renamed.profile.json"))
    quiet(folder, "lint", ".", "--shard=3/7", f"--report=shard={files[2]}")
    status, out, err = quiet(folder, "merge", *files)
    if status != 2 or "of another run" not in err:
        fail(f"merge, another run: exit status {status}: {err[:500]}")


with tempfile.TemporaryDirectory() as name:
    main(pathlib.Path(name))
print(f"{compared} runs compared")
sys.exit(1 if failures else 0)
