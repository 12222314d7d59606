"""What lies outside of any schema: bytes, JSON, duplicate keys, forbidden characters, versions, keys of one's own."""
from bases import CORPUS, PART as PART_DOCUMENT, home, part, profile
from cases import Case, put, text_of

# The members before the last, so that a line can follow them.
HEAD = """{
  "format": "ohmlore/1.0",
  "kind": "part",
  "id": "%s",
  "revision": 1,
  "component": { "kind": "ntc", "name": "Pipe sensor" }"""


def raw(part_name, name, shows, rest, findings=(), at_end="\n}\n", head=HEAD):
    """A part whose text goes on after its last member with `rest`; text may hold \\udcXX for the byte XX."""
    text = head % name + rest + at_end
    return Case(part_name, name, "part", shows, text.encode("utf-8", "surrogateescape"), list(findings))


SYNTAX = [("json-syntax", None)]
UTF8 = [("utf8-malformed", None)]


def json_text():
    def refused(name, shows, rest, at_end="\n}\n"):
        return raw("text", name, shows, rest, SYNTAX, at_end)

    def accepted(name, shows, rest, at_end="\n}\n"):
        return raw("text", name, shows, rest, (), at_end)

    def bytes_of(name, shows, content, findings):
        return Case("text", name, "part", shows, content, findings)

    yield bytes_of("empty-file", "a file of no bytes", b"", SYNTAX)
    yield bytes_of("white-space-alone", "a file of white space", b" \n\t\r\n", SYNTAX)
    yield refused("comma-before-brace", "a comma before the closing brace", ",")
    yield refused("comma-missing", "no comma between two members", '\n  "title": "Sensors"')
    yield refused("comma-twice", "two commas between members", ',, "title": "Sensors"')
    yield refused("colon-missing", "no colon behind a key", ',\n  "title" "Sensors"')
    yield refused("comment-line", "a comment of one line", ", // sensors\n  \"title\": \"Sensors\"")
    yield refused("comment-block", "a comment", " /* sensors */")
    yield refused("quotes-single", "single quotation marks", ",\n  'title': 'Sensors'")
    yield refused("key-without-quotes", "a key without quotation marks", ',\n  title: "Sensors"')
    yield refused("quantity-without-quotes", "a quantity without quotation marks", ',\n  "x_limit": 10 kΩ')
    yield refused("quote-inside-text", "a quotation mark in a text, not escaped", ',\n  "title": "3/4" sensors"')
    yield refused("escape-unknown", "a backslash that begins no escape", ',\n  "title": "Sensors\\x41"')
    yield refused("escape-short", "an escape of three digits", ',\n  "title": "Sensors\\u004"')
    yield refused("tab-in-text", "a tab in a text, not escaped", ',\n  "title": "Pipe\tsensors"')
    yield refused("line-break-in-text", "a line break in a text, not escaped", ',\n  "title": "Pipe\nsensors"')
    yield refused("nul-in-text", "a zero byte in a text", ',\n  "title": "Pipe\0sensors"')
    yield refused("text-unclosed", "a text that does not end", ',\n  "title": "Sensors')
    yield refused("brace-missing", "no closing brace", "", at_end="\n")
    yield refused("bracket-for-brace", "a bracket where a brace closes", "", at_end="\n]\n")
    yield refused("brace-too-many", "one closing brace too many", "", at_end="\n}\n}\n")
    yield refused("second-document", "a second document behind the first", "", at_end="\n}\n{}\n")
    for name, written, shows in (("nan", "NaN", "NaN"), ("infinity", "-Infinity", "an infinity"),
                                 ("zero-leading", "01", "a leading zero"), ("plus-leading", "+1", "a plus sign"),
                                 ("point-leading", ".5", "no digit before the point"),
                                 ("point-trailing", "1.", "no digit behind the point"),
                                 ("exponent-empty", "1e", "an exponent without digits"),
                                 ("hexadecimal", "0x1F", "a hexadecimal number"),
                                 ("true-capital", "True", "`True` with a capital letter"),
                                 ("undefined", "undefined", "`undefined`")):
        yield refused(f"number-{name}" if written[0] in "0123456789+-.N" else f"word-{name}", shows,
                      f',\n  "x_value": {written}')

    yield raw("text", "utf8-latin-1", "a degree sign of ISO 8859-1", ',\n  "title": "Sensors, 25 \udcb0C"', UTF8)
    yield raw("text", "utf8-continuation", "a continuation byte alone", ',\n  "title": "Sensors \udc80"', UTF8)
    yield raw("text", "utf8-cut-short", "a sequence that is cut short", ',\n  "title": "Sensors \udce2\udc84"', UTF8)
    yield raw("text", "utf8-overlong", "a solidus in two bytes", ',\n  "title": "Sensors \udcc0\udcaf"', UTF8)
    yield raw("text", "utf8-surrogate", "half of a surrogate pair in three bytes",
              ',\n  "title": "Sensors \udced\udca0\udcbd"', UTF8)
    yield raw("text", "utf8-beyond-unicode", "a code point above U+10FFFF",
              ',\n  "title": "Sensors \udcf4\udc90\udc80\udc80"', UTF8)
    yield raw("text", "utf8-in-key", "a byte that is no UTF-8, in a key of one's own",
              ',\n  "x_\udcff": 1', UTF8)

    yield accepted("utf8-lengths", "sequences of two, three and four bytes", ',\n  "title": "é Ω 水 🔥 \ufffd \u2028"')
    yield accepted("escapes", "every escape of JSON, in a text that may hold it",
                   ',\n  "title": "\\" \\\\ \\/ \\u0041 \\ud83d\\udd25", "x_more": "\\b\\f\\n\\r\\t\\u0000"')
    yield accepted("key-escaped", "a key written with an escape", ',\n  "t\\u0069tle": "Sensors"')
    yield accepted("line-ends-crlf", "lines that end in CR LF", "".replace("\n", "\r\n"), "\r\n}\r\n")
    yield accepted("tabs", "tabs for indentation, and none behind the last brace", ',\n\t"title"\t:\t"Sensors"',
                   "\n\t}")
    yield accepted("numbers", "every form of a number, in a member of one's own",
                   ',\n  "x_numbers": [0, -0, -1.5, 1e5, 1E-5, 2.5e+10, 12345678901234567890, 1e308]')
    bom = accepted("byte-order-mark", "a byte order mark, which is a warning", "")
    bom.content = b"\xef\xbb\xbf" + bom.content
    bom.findings = [("byte-order-mark", None, "warning")]
    yield bom
    for depth, findings, shows in ((64, [], "64 levels, the root counted"),
                                   (65, [("nesting-too-deep", None)], "65 levels, the root counted")):
        yield raw("text", f"nesting-{depth}", shows, ',\n  "x_deep": ' + "[" * (depth - 1) + "]" * (depth - 1),
                  findings)


def duplicates():
    def case(name, shows, document, old, new, at):
        stem = f"key-duplicate-{name}" if at else f"key-{name}"
        text = text_of(put(document, "/id", stem))
        assert text.count(old) == 1, (name, old)
        findings = [("key-duplicate", at)] if at else []
        return Case("beyond", stem, document["kind"], shows,
                    (text.replace(old, new) + "\n").encode(), findings)

    yield case("root", "a key of the document twice", profile(), '"revision": 1', '"revision": 1, "revision": 1',
               "/revision")
    yield case("record", "a key of a record twice", profile(), '"fuel": "oil"', '"fuel": "oil", "fuel": "lpg"',
               "/appliance/fuel")
    connector = home("connector")[0]
    yield case("map", "an id twice in a map", connector, '"pins": { "1": {} }', '"pins": { "1": {}, "1": {} }',
               "/connectors/X4/pins/1")
    yield case("escaped", "an id twice, once with an escape", connector, '"pins": { "1": {} }',
               '"pins": { "1": {}, "\\u0031": {} }', "/connectors/X4/pins/1")
    yield case("in-list", "a key twice in a record of a list", profile(), '"kind": "mains"',
               '"kind": "mains", "kind": "mains"',
               "/safety/supplies/0/kind")
    yield case("own", "a key of one's own twice", profile(), '"revision": 1', '"revision": 1, "x_a": 1, "x_a": 2',
               "/x_a")
    yield case("in-own-value", "a key twice in the value of a key of one's own, which is not looked at", profile(),
               '"revision": 1', '"revision": 1, "x_a": { "b": 1, "b": 2 }', None)
    yield case("case-differs", "two ids that differ in case alone", connector, '"pins": { "1": {} }',
               '"pins": { "a": {}, "A": {} }', None)


def characters():
    def title(name, shows, written, findings):
        return raw("beyond", name, shows, f',\n  "title": "{written}"', findings)

    at = [("text-forbidden-character", "/title")]
    for name, written, shows in (
            ("nul", "\\u0000", "U+0000, escaped"), ("tab", "Pipe\\tsensors", "a tab, escaped"),
            ("line-break", "Pipe\\nsensors", "a line break, escaped"), ("escape", "\\u001b[31m", "an escape code"),
            ("delete", "Pipe\u007fsensors", "U+007F, as it is"), ("c1", "Pipe\u0085sensors", "U+0085, as it is"),
            ("c1-escaped", "Pipe\\u009fsensors", "U+009F, escaped"),
            ("fffe", "Pipe\ufffesensors", "U+FFFE, as it is"), ("ffff", "Pipe\\uffffsensors", "U+FFFF, escaped"),
            ("surrogate-first", "Pipe \\ud83d sensors", "the first half of a surrogate pair, escaped"),
            ("surrogate-second", "Pipe \\udd25 sensors", "the second half of a surrogate pair, escaped"),
            ("surrogates-exchanged", "Pipe \\udd25\\ud83d sensors",
             "the halves of a surrogate pair in the wrong order")):
        yield title(f"character-{name}", f"a text with {shows}", written, at)
    yield raw("beyond", "character-forbidden-in-own-value", "a control character in the value of a key of one's own",
              ',\n  "x_a": "\\u0007"')
    yield raw("beyond", "surrogate-half-in-own-value", "half of a surrogate pair in the value of a key of one's own",
              ',\n  "x_a": "\\ud800"', [("text-forbidden-character", "/x_a")])
    yield title("character-unusual", "soft hyphen, no-break space, a private character, a text from right to left",
                "a\u00adb\u00a0c\ue000 שלום \U0010fffd", ())
    yield title("text-2048-bytes", "a text of 2048 bytes", "Ω" * 1024, ())
    yield title("text-2049-bytes", "a text of 2049 bytes", "a" * 2049, [("text-too-long", "/title")])
    yield title("text-2050-bytes", "a text of 1025 characters and 2050 bytes", "Ω" * 1025,
                [("text-too-long", "/title")])


def beyond():
    for name, written, rule in (("1.0", "1.0", "type-wrong"), ("exponent", "1e0", "type-wrong"),
                                ("huge", "100000000000000000000", "number-out-of-limits")):
        yield Case("beyond", f"integer-{name}".replace(".", "-"), "part", f"`revision` is {written}",
                   (HEAD % f"integer-{name}".replace(".", "-") + "\n}\n").replace('"revision": 1',
                                                                                  f'"revision": {written}').encode(),
                   [(rule, "/revision")])

    yield raw("beyond", "number-beyond-limit", "a number beyond 1e308 that a double holds", ',\n  "x_a": 1.1e308',
              [("number-out-of-limits", "/x_a")])
    yield raw("beyond", "number-beyond-double", "a number beyond 1e308 in a member of one's own", ',\n  "x_a": 1e309',
              [("number-out-of-limits", "/x_a")])

    newer = put(profile(), "/format", "ohmlore/1.7")
    note = ("format-newer", "/format", "note")
    yield Case("beyond", "format-newer", "profile", "a newer minor version", newer, [note])
    yield Case("beyond", "format-newest", "profile", "the highest minor version",
               put(newer, "/format", "ohmlore/1.99"), [note])
    yield Case("beyond", "format-newer-key-unknown", "profile",
               "a newer minor version with keys that version 1.0 does not know",
               put(put(newer, "/noise", {"level": "45"}), "/appliance/colour", "white"),
               [note, ("key-unknown", "/noise", "note"), ("key-unknown", "/appliance/colour", "note")])
    yield Case("beyond", "format-newer-type-wrong", "profile",
               "a newer minor version in which a known key is wrong all the same",
               put(newer, "/title", 7), [note, ("type-wrong", "/title")])
    for name, tag in (("major", "ohmlore/2.0"), ("zero", "ohmlore/1.07"), ("three-digits", "ohmlore/1.100"),
                      ("minor-missing", "ohmlore/1."),
                      ("patch", "ohmlore/1.0.0"), ("capital", "Ohmlore/1.0"), ("space", "ohmlore/1.0 "), ("other",
                                                                                                          "1.0")):
        yield Case("beyond", f"format-{name}", "profile", f"`format` is \"{tag}\"", put(profile(), "/format", tag),
                   [("format-unsupported", "/format")])

    anything = {"a": [None, True, {"": ""}], "b": 1.5}
    document = put(profile(), "/x_maker_tool", anything)
    document = put(document, "/appliance/x_", None)
    document = put(document, "/safety/supplies/0/x_note", "")
    yield Case("beyond", "own-keys", "profile", "keys of one's own in records and variants, with any value", document)
    large = {"text": "a" * 2049, "list": [0] * 1001, "": {"\u0007": 1.0}}
    yield Case("beyond", "own-keys-large", "profile", "a key of one's own that is longer, and holds more, than others may",
               put(profile(), "/x_" + "a" * 2049, large))
    yield Case("beyond", "own-keys-capital", "profile", "`X_note` is no key of one's own",
               put(profile(), "/X_note", "a"),
               [("key-unknown", "/X_note")])
    yield Case("beyond", "own-keys-hyphen", "profile", "`x-note` is no key of one's own",
               put(profile(), "/x-note", "a"),
               [("key-unknown", "/x-note")])
    yield Case("beyond", "own-keys-pointer", "profile", "an unknown key with characters that a JSON Pointer escapes",
               put(profile(), "/a~1b~0c", "a"), [("key-unknown", "/a~1b~0c")])
    yield Case("beyond", "map-holds-x", "profile", "in a map, a key that begins with x_ is an id like any other",
               put(home("component")[0], "/components/x_item", "anything"), [("type-wrong", "/components/x_item")])
    for kind, document in (("profile", profile()), ("part", part(PART_DOCUMENT["component"])), ("corpus", CORPUS)):
        yield Case("beyond", f"schema-named-{kind}", kind, "a document that names a schema, which no reader follows",
                   {"$schema": "https://schemas.invalid/nowhere.json", **document})
    yield Case("beyond", "schema-inside", "profile", "`$schema` in a record that is no document",
               put(profile(), "/appliance/$schema", "a"), [("key-unknown", "/appliance/$schema")])
    yield Case("beyond", "date-day-31", "part", "30 February: a reader does not count days, a rule may",
               put(home("source", "standard")[0], "/sources/notes/date", "2021-02-30"))


def everything():
    yield from json_text()
    yield from duplicates()
    yield from characters()
    yield from beyond()
