"""A case of the conformance folder, and how its documents are laid out."""
import copy
import dataclasses
import json


@dataclasses.dataclass
class Case:
    part: str  # folder: what of a reader the case tries
    name: str  # stem of the file, and id of the document
    kind: str  # profile, part, corpus or report
    shows: str
    content: object  # a document as a value, or its bytes
    findings: list = dataclasses.field(default_factory=list)  # (rule, JSON Pointer[, severity])
    values: list = dataclasses.field(default_factory=list)  # quantities: (JSON Pointer, canonical spelling, SI...)

    @property
    def accepted(self):
        return all(len(finding) > 2 for finding in self.findings)  # an error states no severity

    @property
    def file(self):
        stem = f"{self.part}/{self.name}"
        return f"{stem}/corpus.json" if self.kind == "corpus" else f"{stem}.{self.kind}.json"

    def bytes(self):
        if isinstance(self.content, bytes):
            return self.content
        return (text_of(self.content) + "\n").encode()

    def entry(self):
        """The case as the manifest lists it."""
        entry = {"file": self.file, "shows": self.shows, "accepted": self.accepted}
        if self.findings:
            entry["findings"] = [
                {"rule": rule, **({} if at is None else {"at": at}), **({"severity": severity[0]} if severity else {})}
                for rule, at, *severity in self.findings
            ]
        if self.values:
            entry["values"] = [{"at": at, **value} for at, value in self.values]
        return entry


def one_line(value):
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def spaced(value):
    """On one line, with a space inside of braces."""
    if isinstance(value, dict) and value:
        return "{ " + ", ".join(f"{one_line(k)}: {spaced(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(spaced, value)) + "]"
    return one_line(value)


def text_of(value, indent="", width=132):
    """JSON for people: what fits on a line stands on one. What is huge stands on one too."""
    flat = spaced(value)
    is_root = indent == "" and isinstance(value, dict)
    if not value or not isinstance(value, (dict, list)) or len(flat) > 4000 and not is_root:
        return flat
    if not is_root and len(flat) + len(indent) <= width:
        return flat
    inner = indent + "  "
    if isinstance(value, list):
        return "[\n" + ",\n".join(inner + text_of(v, inner, width) for v in value) + f"\n{indent}]"
    members = (f"{inner}{one_line(k)}: " + text_of(v, inner, width - len(k) - 4) for k, v in value.items())
    return "{\n" + ",\n".join(members) + f"\n{indent}}}"


def tokens(pointer):
    return [t.replace("~1", "/").replace("~0", "~") for t in pointer.split("/")[1:]]


def pointed(token):
    return str(token).replace("~", "~0").replace("/", "~1")


def put(document, pointer, value):
    """The document with another value at the pointer."""
    if pointer == "":
        return copy.deepcopy(value)
    document = copy.deepcopy(document)
    *path, last = tokens(pointer)
    place = document
    for token in path:
        place = place[int(token)] if isinstance(place, list) else place[token]
    place[int(last) if isinstance(place, list) else last] = copy.deepcopy(value)
    return document


def without(document, pointer):
    """The document without the member at the pointer."""
    document = copy.deepcopy(document)
    *path, last = tokens(pointer)
    place = document
    for token in path:
        place = place[int(token)] if isinstance(place, list) else place[token]
    del place[last]
    return document
