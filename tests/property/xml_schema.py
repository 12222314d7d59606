#!/usr/bin/env python3
"""XML judged by xmllint with the published schema: all that is written is valid; seeded invalid documents are
refused by the schema and by the reader; and on random damage the two agree.

Usage: xml_schema.py PROGRAM WRITE_HOSTILE FOLDER_OF_SOURCE [COUNT]. Exit status 77: xmllint is missing.
What the reader proves with rules (a reference that leads nowhere) is part of its verdict here."""
import json
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile

program, write_hostile, source = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
count = int(sys.argv[4]) if len(sys.argv) > 4 else 5000
random_damages = 2000 if count >= 5000 else 400
schema = source / "spec/v1/exchange.xsd"
if shutil.which("xmllint") is None:
    print("skipped: xmllint is not installed")
    sys.exit(77)


def in_parts(files):
    for first in range(0, len(files), 500):
        yield files[first : first + 500]


def valid_under_schema(folder):
    """The files that xmllint accepts, and what it says about the others."""
    accepted, said = set(), []
    for files in in_parts(sorted(folder.rglob("*.xml"))):
        run = subprocess.run(["xmllint", "--noout", "--nonet", "--schema", schema, *files],
                             capture_output=True, check=False)
        for line in run.stderr.decode("utf-8", "replace").splitlines():
            if line.endswith(" validates"):
                accepted.add(line.removesuffix(" validates"))
            else:
                said.append(line)
    return {str(pathlib.Path(name).relative_to(folder)) for name in accepted}, said


def convert(*words):
    run = subprocess.run([program, "convert", *words], capture_output=True, check=False)
    return run.returncode, run.stderr.decode("utf-8", "replace")


DANGLING = {"reference-dangling", "pin-undeclared"}


def readable(folder, scratch):
    """The files that the reader accepts, references looked at as well."""
    shutil.rmtree(scratch, ignore_errors=True)
    status, said = convert("--from", "xml", "--to", "json", folder, "-o", scratch)
    if status not in (0, 1):
        sys.exit(f"convert, exit status {status}: {said[-2000:]}")
    accepted = {str(path.relative_to(scratch))[: -len("json")] + "xml" for path in scratch.rglob("*.json")}
    run = subprocess.run([program, "lint", "--format", "json", scratch], capture_output=True, check=False)
    for finding in json.loads(run.stdout)["findings"]:
        if finding["rule"] in DANGLING:
            accepted.discard(str(pathlib.Path(finding["file"]).relative_to(scratch))[: -len("json")] + "xml")
    return accepted, said


# ---- damage: each takes XML text and returns it damaged, or None where it has no place for that

def first(pattern, replacement, text):
    damaged, n = re.subn(pattern, replacement, text, count=1, flags=re.S)
    return damaged if n else None


def every(pattern, replacement):
    return lambda text: first(pattern, replacement, text)


def swap_neighbours(text):
    return first(r"(<id>[^<]*</id>)(\s*)(<revision>\d+</revision>)", r"\3\2\1", text)


def duplicate(pattern):
    return lambda text: first(f"({pattern})", r"\1\1", text)


def deeply_nested(text):
    inner = '<map key="x_a">' + "<map key='a'>" * 200 + "</map>" * 200 + "</map>"
    return first(r"</profile>", f"<extension>{inner}</extension></profile>", text)


SYNTAX = {  # not well-formed, or what the format refuses for safety
    "unknown entity": every(r"<title>", "<title>&nbsp;"),
    "bare ampersand": every(r"<title>", "<title>B & B"),
    "ampersand at the end": every(r"</title>", " &</title>"),
    "reference to no character": every(r"<title>", "<title>&#0;"),
    "reference to half a pair": every(r"<title>", "<title>&#xD800;"),
    "reference beyond Unicode": every(r"<title>", "<title>&#x110000;"),
    "reference without number": every(r"<title>", "<title>&#;"),
    "reference in words": every(r"<title>", "<title>&#12a;"),
    "attribute twice": every(r"<profile ", '<profile format="ohmlore/1.0" '),
    "less-than in an attribute": every(r'format="', 'format="<'),
    "attribute without quotation marks": every(r'format="ohmlore/1.0"', "format=ohmlore"),
    "attributes without a space": every(r'" format=', '"format='),
    "attribute without value": every(r'format="ohmlore/1.0"', "format"),
    "end tag missing": every(r"</title>", ""),
    "end tag of another": every(r"</title>", "</titel>"),
    "end tags crossed": every(r"</models>(\s*)<type>", r"<type>\1</models>"),
    "not ended": every(r"</profile>\s*$", ""),
    "cut in a tag": lambda text: text[: text.rindex("</") + 4],
    "text before the root": every(r"<profile ", "profile <profile "),
    "text behind the root": lambda text: text + "the end\n",
    "second root": lambda text: text + '<profile xmlns="urn:ohmlore:1" format="ohmlore/1.0"/>\n',
    "empty file": lambda text: "",
    "declaration alone": every(r"<profile .*", ""),
    "declaration late": lambda text: "\n" + text,
    "declaration of XML 3": every(r'version="1.0"', 'version="3.0"'),
    "declaration twice": every(r"\?>", '?><?xml version="1.0"?>'),
    "two hyphens in a comment": every(r"<title>", "<!-- a -- b --><title>"),
    "comment not ended": every(r"<title>", "<!-- a <title>"),
    "CDATA not ended": every(r"<title>", "<title><![CDATA[a"),
    "end of CDATA in a text": every(r"<title>", "<title>a ]]> b"),
    "control character": every(r"<title>", "<title>\x01"),
    "escape character": every(r"<title>", "<title>\x1b[31m"),
    "non-character": every(r"<title>", "<title>\uffff"),
    "space before a name": every(r"<title>", "< title>"),
    "prefix without namespace": every(r"<title>(.*?)</title>", r"<o:title>\1</o:title>"),
    "instruction not ended": every(r"<title>", "<?stop <title>"),
    "two colons": every(r"<title>(.*?)</title>", r"<a:b:title>\1</a:b:title>"),
}
STRUCTURE = {
    "no namespace": every(r' xmlns="urn:ohmlore:1"', ""),
    "another namespace": every(r"urn:ohmlore:1", "urn:example:1"),
    "another major version": every(r"urn:ohmlore:1", "urn:ohmlore:2"),
    "element of another namespace": every(r"<title>", '<title xmlns="urn:example:1">'),
    "no format": every(r' format="ohmlore/1.0"', ""),
    "another format": every(r"ohmlore/1\.0", "ohmlore/2.0"),
    "unknown root": lambda text: text.replace("<profile ", "<board ").replace("</profile>", "</board>"),
    "root of another kind": lambda text: text.replace("<profile ", "<corpus ").replace("</profile>", "</corpus>"),
    "kind as attribute": every(r"<profile ", '<profile kind="profile" '),
    "kind as element": every(r"<title>", "<kind>profile</kind><title>"),
    "id missing": every(r"<id>.*?</id>", ""),
    "revision missing": every(r"<revision>.*?</revision>", ""),
    "appliance missing": every(r"<appliance>.*</appliance>", ""),
    "maker missing": every(r"<maker>.*?</maker>", ""),
    "supplies missing": every(r"<supplies>.*?</supplies>", "<supplies/>"),
    "safety missing": every(r"<safety>.*</safety>", ""),
    "id twice": duplicate(r"<id>[^<]*</id>"),
    "maker twice": duplicate(r"<maker>[^<]*</maker>"),
    "order of members": swap_neighbours,
    "element misspelt": lambda text: text.replace("<maker>", "<makre>").replace("</maker>", "</makre>"),
    "element in capitals": lambda text: text.replace("<maker>", "<Maker>").replace("</maker>", "</Maker>"),
    "unknown element": every(r"<title>", "<colour>red</colour><title>"),
    "own element outside of extension": every(r"</profile>", "<x_own>1</x_own></profile>"),
    "unknown attribute": every(r"<maker>", '<maker lang="en">'),
    "attribute of another namespace": every(r"<maker>", '<maker xml:lang="en">'),
    "text between elements": every(r"<appliance>", "<appliance>words"),
    "element in a text": every(r"<maker>", "<maker><b/>"),
    "CDATA between elements": every(r"<appliance>", "<appliance><![CDATA[words]]>"),
    "empty text": every(r"<maker>[^<]*<", "<maker><"),
    "line break in a text": every(r"<maker>", "<maker>a\nb"),
    "tab in a text": every(r"<maker>", "<maker>a&#9;b"),
    "C1 control in a text": every(r"<maker>", "<maker>a\u0085b"),
    "text too long": every(r"<maker>", "<maker>" + "w" * 2049),
    "id with a space": every(r"<id>", "<id>a b"),
    "id too long": every(r"<id>", "<id>" + "a" * 65),
    "id with space around": every(r"<id>([^<]*)<", r"<id> \1 <"),
    "revision zero": every(r"<revision>\d+<", "<revision>0<"),
    "revision beyond": every(r"<revision>\d+<", "<revision>1000001<"),
    "revision with plus": every(r"<revision>", "<revision>+"),
    "revision with zeros": every(r"<revision>", "<revision>00"),
    "revision with point": every(r"</revision>", ".0</revision>"),
    "revision in words": every(r"<revision>\d+<", "<revision>three<"),
    "revision empty": every(r"<revision>\d+<", "<revision><"),
    "unknown word": every(r"<fuel>[^<]*<", "<fuel>coal_dust<"),
    "word in capitals": every(r"<fuel>[^<]*<", "<fuel>OIL<"),
    "word with space": every(r"<fuel>([^<]*)<", r"<fuel> \1<"),
    "item of another name": lambda text: first(r"<models>(\s*)<item>(.*?)</item>", r"<models>\1<model>\2</model>", text),
    "list without items": every(r"<models>.*?</models>", "<models/>"),
    "country in small letters": every(r"<markets>(\s*)<item>..", r"<markets>\1<item>ie"),
    "boolean as yes": every(r"<shared>[^<]*<", "<shared>yes<"),
    "boolean as 1": every(r"<shared>[^<]*<", "<shared>1<"),
    "connector without id": every(r'<connector id="[^"]*"', "<connector"),
    "connector twice": duplicate(r'<connector id="[^"]*">.*?</connector>'),
    "connector with a bad id": every(r'<connector id="', '<connector id="-'),
    "connector of another name": lambda text: first(r"<connector (.*?)</connector>", r"<plug \1</plug>", text),
    "pin with id": every(r'<pin contact="[^".]*\.', '<pin id="'),
    "pin without contact": every(r'<pin contact="[^"]*"', "<pin"),
    "pin twice": duplicate(r'<pin contact="[^"]*">.*?</pin>'),
    "pin with half a contact": every(r'<pin contact="[^".]*\.', '<pin contact="'),
    "ways beyond": every(r"<ways>\d+<", "<ways>201<"),
    "ways missing": every(r"<ways>\d+</ways>", ""),
    "unknown class": every(r"<circuit>[a-z_]+<", "<circuit>hot<"),
    "component without id": every(r'(<components>\s*<\w+) id="[^"]*"', r"\1"),
    "component of unknown kind": lambda text: text.replace("<ntc ", "<sensor ").replace("</ntc>", "</sensor>")
    if "<ntc " in text else None,
    "component without name": every(r"(<components>\s*<\w+ id=\"[^\"]*\">\s*)<name>.*?</name>", r"\1"),
    "member of another kind": every(r"(<ntc [^>]*>.*?)(</ntc>)", r"\1<bleeder>1 MΩ</bleeder>\2"),
    "model without kind": every(r"<model>.*?</model>", "<model/>"),
    "model of two kinds": every(r"</model>", "<open><above>1 MΩ</above></open></model>"),
    "model of unknown kind": every(r"<model>\s*<(\w+)>(.*?)</\1>\s*</model>", r"<model><curve>\2</curve></model>"),
    "kind without model": every(r"<model>(.*?)</model>", r"\1"),
    "test without probes": every(r"<probes>.*?</probes>", ""),
    "test with one probe": every(r"<probes>(\s*)<item>[^<]*</item>", r"<probes>\1"),
    "test with three probes": every(r"(<probes>\s*<item>[^<]*</item>)", r"\1<item>X1.1</item>"),
    "contact without point": every(r"<probes>(\s*)<item>([^<.]*)\.", r"<probes>\1<item>\2"),
    "contact with two points": every(r"<probes>(\s*)<item>([^<.]*)\.", r"<probes>\1<item>\2.."),
    "test without side": every(r"<side>.*?</side>", ""),
    "unknown side": every(r"<side>.*?<", "<side>at_home<"),
    "test without component": every(r'(<test id="[^"]*">\s*)<component>.*?</component>', r"\1"),
    "fault without suspects": every(r"<suspects>.*?</suspects>", ""),
    "fault with no suspect": every(r"<suspects>.*?</suspects>", "<suspects/>"),
    "fault without meaning": every(r"<meaning>.*?</meaning>", ""),
    "display of two kinds": every(r"</display>", "<blink><pattern>3 short</pattern></blink></display>"),
    "mode unknown": every(r"<modes>(\s*)<item>.*?<", r"<modes>\1<item>tired<"),
    "source without kind": every(r'(<sources>\s*)<\w+ (id="[^"]*")>.*?</\w+>\s*(</sources>|<)', r"\1<source \2/>\3"),
    "number beside a quantity is none": every(r' si="[^"]*"', ' si="12,5"'),
    "number beside a quantity with a plus": every(r' si="([1-9])', r' si="+\1'),
    "number beside a quantity without end": every(r' si="[^"]*"', ' si="INF"'),
    "unit beside a quantity is unknown": every(r' unit="[^"]*"', ' unit="furlong"'),
    "attribute of a tolerance on a quantity": every(r' si="', ' minus="'),
    "extension empty": every(r"</profile>", "<extension/></profile>"),
    "extension not last": every(r"<id>", '<extension><null key="x_a"/></extension><id>'),
    "extension twice": every(r"</profile>", '<extension><null key="x_a"/></extension>'
                             '<extension><null key="x_b"/></extension></profile>'),
    "extension without key": every(r"</profile>", "<extension><null/></extension></profile>"),
    "extension with a key of the format": every(r"</profile>", '<extension><null key="note"/></extension></profile>'),
    "extension with text": every(r"</profile>", "<extension>words</extension></profile>"),
    "extension of unknown type": every(r"</profile>", '<extension><date key="x_a">1</date></extension></profile>'),
    "extension with a bad number": every(r"</profile>", '<extension><number key="x_a">01</number></extension></profile>'),
    "extension with a bad boolean": every(r"</profile>", '<extension><boolean key="x_a">1</boolean></extension></profile>'),
    "extension with a full null": every(r"</profile>", '<extension><null key="x_a">0</null></extension></profile>'),
    "extension with a bad escaped": every(r"</profile>", '<extension><string key="x_a" escaped="yes">a</string></extension></profile>'),
    "key in an array": every(r"</profile>", '<extension><array key="x_a"><null key="b"/></array></extension></profile>'),
    "no key in a map": every(r"</profile>", '<extension><map key="x_a"><null/></map></extension></profile>'),
    "text in an array": every(r"</profile>", '<extension><array key="x_a">1, 2</array></extension></profile>'),
}
REFERENCES = {
    "test of no component": every(r'(<test id="[^"]*">\s*<component>)[^<]*', r"\1nothing"),
    "test of no connector": every(r"<unplug>[^<]*", "<unplug>X99"),
    "probe on no pin": every(r"(<probes>\s*<item>)[^<]*", r"\1X99.1"),
    "probe on a pin that is not there": every(r"(<probes>\s*<item>)([^<.]*)\.[^<]*", r"\1\2.999"),
    "suspect of no component": every(r"(<suspects>.*?<component>\s*<component>)[^<]*", r"\1nothing"),
    "decided by no test": every(r"(<decided_by>\s*<item>)[^<]*", r"\1nothing"),
    "from no source": every(r"<from>[^<]*", "<from>nothing"),
    "between no pins": every(r"(<between>\s*<item>)[^<]*", r"\1X99.1"),
    "supply enters nowhere": every(r"(<enters_at>\s*<item>)[^<]*", r"\1X99.1"),
    "connector taken away": every(r'<connector id="[^"]*">.*?</connector>', ""),
    "component taken away": every(r"<components>.*</components>", ""),
    "sources taken away": every(r"<sources>.*</sources>", ""),
}
NOT_FOR_THE_SCHEMA = {  # refused by the reader alone: xmllint has no such limits, or reads them otherwise
    "DOCTYPE": every(r"<profile ", "<!DOCTYPE profile>\n<profile "),
    "entity": every(r"<profile ", '<!DOCTYPE profile [<!ENTITY a "b">]>\n<profile '),
    "entities that grow": every(r"<profile ", '<!DOCTYPE profile [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>\n<profile '),
    "entity from a file": every(r"<profile ", '<!DOCTYPE profile [<!ENTITY a SYSTEM "file:///etc/passwd">]>\n<profile '),
    "DOCTYPE from elsewhere": every(r"<profile ", '<!DOCTYPE profile SYSTEM "http://example.org/a.dtd">\n<profile '),
    "elements 200 deep": deeply_nested,
    "pin of another connector": every(r'<pin contact="[^".]*\.', '<pin contact="X77.'),
    "quantity without unit": every(r">(\d+) ?(Ω|kΩ)<", r">\1<"),
    "quantity with decimal comma": every(r">(\d+)\.(\d+) (Ω|kΩ)<", r">\1,\2 \3<"),
}


def seeded(folder, documents, damages, least):
    """Each damage done to documents that have a place for it, until there are enough."""
    made, chance = {}, random.Random(4)
    rounds = -(-least // len(damages))
    for name, damage in damages.items():
        order = chance.sample(documents, len(documents))
        done = [(text, damaged) for text in order if (damaged := damage(text)) is not None and damaged != text][:rounds]
        if not done:
            sys.exit(f"no document has a place for this damage: {name}")
        for _, damaged in done:
            file = f"{len(made):04}.profile.xml"
            (folder / file).write_bytes(damaged.encode("utf-8"))
            made[file] = name
    return made


def random_damage(text, chance, words):
    """One element or attribute, by chance: dropped, doubled, moved, renamed, or given another text."""
    elements = list(re.finditer(r"<(\w+)([^<>]*?)(/>|>([^<]*)</\1>)", text))
    one, other = chance.choice(elements), chance.choice(elements)
    begin, end = one.span()
    what = chance.randrange(7)
    if what == 0:
        return text[:begin] + text[end:]
    if what == 1:
        return text[:end] + one.group() + text[end:]
    if what == 2:
        return text[:begin] + other.group() + text[end:]
    if what == 3:
        return text[:begin] + other.group() + text[begin:]
    if what == 4:
        name = chance.choice(words)
        return text[:begin] + re.sub(rf"(?<=<|/){re.escape(one.group(1))}\b", name, one.group()) + text[end:]
    if what == 5 and one.group(4):
        inner = chance.choice([other.group(4) or "", "", "a b", "0", "-1", "X1.1", "true", "\u00a0", "id-1"])
        at = begin + one.group().index(">") + 1
        return text[:at] + inner + text[at + len(one.group(4)) :]
    opening = chance.choice(list(re.finditer(r'<\w+( [\w-]+="[^"]*")+', text)))
    attribute = chance.choice(list(re.finditer(r' ([\w-]+)="([^"]*)"', opening.group())))
    at, to = opening.start() + attribute.start(), opening.start() + attribute.end()
    value = chance.choice(["", "a b", "1", "X1.1", "K", "Ω", "x_a", attribute.group(2) + "1"])
    return text[:at] + chance.choice(["", f' {attribute.group(1)}="{value}"', f' {chance.choice(words)}="{value}"']) + text[to:]


failures = []
with tempfile.TemporaryDirectory() as name:
    place = pathlib.Path(name)
    generated, xml, damaged, scratch = (place / part for part in ("generated", "xml", "damaged", "scratch"))
    generated.mkdir()

    # ---- all that is written is valid
    subprocess.run([write_hostile, generated, str(count), "xml"], check=True)
    status, said = convert("--to", "xml", source / "corpus", "-o", xml)
    if status != 0 or len(list(xml.rglob("*.xml"))) != len(list((source / "corpus").rglob("*.json"))):
        failures.append(f"convert --to xml corpus: exit status {status}: {said[-1000:]}")
    for folder in (xml, generated):
        files = {str(path.relative_to(folder)) for path in folder.rglob("*.xml")}
        valid, said = valid_under_schema(folder)
        print(f"{len(valid)} of {len(files)} documents written are valid")
        if valid != files:
            failures.append("\n".join(said[:10]))

    # ---- seeded damage
    documents = [path.read_text(encoding="utf-8") for path in sorted(xml.rglob("*.profile.xml"))]
    for title, damages, least, by_schema in (
            ("well-formedness", SYNTAX, 70, True), ("structure", STRUCTURE, 130, True),
            ("references", REFERENCES, 24, True), ("the reader's own", NOT_FOR_THE_SCHEMA, 18, False)):
        shutil.rmtree(damaged, ignore_errors=True)
        damaged.mkdir()
        made = seeded(damaged, documents, damages, least)
        valid, _ = valid_under_schema(damaged)
        read, _ = readable(damaged, scratch)
        for file, what in made.items():
            if file in read:
                failures.append(f"the reader accepts: {what}")
            if by_schema and file in valid:
                failures.append(f"the schema accepts: {what}")
        print(f"{title}: {len(made)} documents, {len(made) - len(valid)} refused by the schema, "
              f"{len(made) - len(read)} by the reader")

    # ---- random damage: the two agree, quantities apart
    shutil.rmtree(damaged)
    damaged.mkdir()
    chance = random.Random(2025)
    words = sorted({word for text in documents for word in re.findall(r"<(\w+)", text)})
    for number in range(random_damages):
        text = random_damage(chance.choice(documents), chance, words)
        (damaged / f"{number:04}.profile.xml").write_text(text, encoding="utf-8")
    valid, said_by_schema = valid_under_schema(damaged)
    read, said_by_reader = readable(damaged, scratch)
    quantities = {line.split(":")[0].rsplit("/", 1)[-1] for line in said_by_reader.splitlines()
                  if re.search(r"\[(unit-|quantity-|number-differs|decimal-|digits-|look-alike)", line)}
    differing = sorted((valid ^ read) - quantities)
    print(f"random damage: {len(valid)} of {random_damages} valid, {len(read)} readable, {len(differing)} disagreements")
    for file in differing[:10]:
        side = said_by_reader if file in valid else "\n".join(said_by_schema)
        failures.append(f"{'the schema alone accepts' if file in valid else 'the reader alone accepts'} {file}: "
                        + " | ".join(line for line in side.splitlines() if file in line and "error" in line)[:600])
    if not random_damages / 10 < len(valid) < 3 * random_damages / 4:
        failures.append("one verdict is too rare for the comparison to mean anything")

for failure in failures:
    print(failure)
sys.exit(1 if failures else 0)
