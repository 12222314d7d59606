"""Documents that must be accepted: every record and kind with as little as it needs and with all it may have, every
word of every list of words, and the limits themselves."""
import copy

from bases import (CARRIER, COMPONENTS, CONNECTORS, CORPUS, FAULT, KINDS, PART as PART_DOCUMENT, TEST, part, profile,
                   record, with_test)
from cases import Case
from structure import GENERAL_LIMIT, closed, full

PART = "structure"
NOTES = {"notes": {"kind": "maker_document", "title": "Larch service notes"}}
WIDE = {"X4": {"label": "X4", "ways": 8, "circuit": "selv", "pins": {str(n): {} for n in range(1, 9)}}}


def case(name, kind, shows, document):
    return Case(PART, name, kind, shows, document)


def smallest():
    yield case("smallest-profile", "profile", "a profile with what it needs", profile())
    yield case("smallest-part", "part", "a part with what it needs", part(PART_DOCUMENT["component"]))
    yield case("smallest-corpus", "corpus", "a corpus with what it needs", CORPUS)
    yield case("smallest-supplies", "profile", "a supply of each kind with what it needs",
               profile(safety={"supplies": [record("supply", k) for k in KINDS["supply"]]}))
    yield case("smallest-hazards", "profile", "a hazard of each kind with what it needs",
               profile(safety={"supplies": [record("supply", "mains")],
                               "hazards": [record("hazard", k) for k in KINDS["hazard"]]}, connectors=CONNECTORS))
    yield case("smallest-sources", "profile", "a source of each kind with what it needs",
               profile(sources={k: record("source", k) for k in KINDS["source"]}))
    yield case("smallest-components", "profile", "a component of each kind with what it needs",
               profile(components={k: record("component", k) for k in KINDS["component"]}))
    yield case("smallest-models", "profile", "a model of each kind with what it needs",
               profile(components={k: {**record("component", CARRIER[k]), "model": record("model", k)}
                                   for k in KINDS["model"]}))
    yield case("smallest-elements", "profile", "an element of each kind with what it needs",
               profile(connectors=CONNECTORS, components={"sensor": record("component", "ntc")}, circuits={
                   "chain": {"between": ["X4.1", "X4.2"], "arrangement": "series",
                             "elements": [record("element", k) for k in KINDS["element"]]},
                   "inner": {"between": ["X4.3", "X4.4"], "arrangement": "parallel",
                             "elements": [record("element", "resistor")]}}))
    document = with_test()
    document["components"] = expected_components()
    document["connectors"] = copy.deepcopy(WIDE)
    document["tests"] = {k: {**TEST, "component": EXPECTED_OF[k], "probes": BETWEEN[EXPECTED_OF[k]],
                             "expect": record("expectation", k)} for k in KINDS["expectation"]}
    yield case("smallest-expectations", "profile", "an expectation of each kind with what it needs", document)
    document = with_test(expect=record("expectation", "band"), excludes=["open"])
    document["faults"] = {k: {**copy.deepcopy(FAULT), "display": record("display", k)} for k in KINDS["display"]}
    document["faults"]["text"]["suspects"] = [record("suspect", k) for k in KINDS["suspect"]]
    yield case("smallest-faults", "profile", "a display and a suspect of each kind with what they need", document)


# Which component each kind of expectation is about, so that no rule of a linter objects.
EXPECTED_OF = {"band": "sensor", "open": "electrode", "closed": "fuse", "pair": "sensor", "not_short": "fan",
               "rises_to_open": "fan", "smooth_sweep": "damper", "both_directions": "valve"}
BETWEEN = {"sensor": ["X4.1", "X4.2"], "twin": ["X4.3", "X4.4"], "electrode": ["X4.5", "X4.6"],
           "fuse": ["X4.6", "X4.7"], "fan": ["X4.7", "X4.8"], "damper": ["X4.5", "X4.7"], "valve": ["X4.5", "X4.8"]}
KIND_OF = {"sensor": "ntc", "twin": "ntc", "electrode": "electrode", "fuse": "fuse", "fan": "electronic",
           "damper": "potentiometer", "valve": "coil"}


# The kind of component that answers like this.
ANSWERS = {"rises_when_warmed": "rtd", "toggles_with_magnet": "switch", "rises_to_open": "capacitor",
           "smooth_sweep": "potentiometer"}

# A rule of a linter objects to them in a harness, which has no turns and no capacitor, and does not turn.
NEVER_OF_WIRES = ("shorted_turns", "low_capacitance", "seized")

# Members whose example would contradict the kind.
HONEST = {"rtd": {"metal": "platinum"}, "winding": {"purely_resistive": False},
          **{kind: {"purely_resistive": False} for kind in ("switch", "capacitor", "electronic", "coil", "igniter")}}


def expected_components():
    return {name: {**record("component", kind), "between": BETWEEN[name]} for name, kind in KIND_OF.items()}


def complete(schemas):
    """Every member of every record at least once."""
    def of(name, kind=None, **members):
        return full(schemas, name, kind, **members)

    yield case("full-appliance", "profile", "every key of an appliance and its safety", profile(
        appliance=of("appliance", controller=of("controller")),
        safety={"supplies": [of("supply", k) for k in KINDS["supply"]],
                "hazards": [of("hazard", k) for k in KINDS["hazard"]]},
        connectors={"X4": {**CONNECTORS["X4"], "circuit": "mains"}}, components=COMPONENTS))
    yield case("full-sources", "profile", "every key of a source of each kind, and of a citation", profile(
        title="Larch boards", **{"$schema": "../profile.schema.json"}, sources={**NOTES,
                                                                                **{k: of("source",
                                                                                         k) for k in KINDS["source"]}},
        source=of("source_reference")))
    yield case("full-connector", "profile", "every key of a connector, a pin and a wire", profile(
        sources=NOTES, connectors={"X4": of("connector", ways=2, rows=1, circuit="selv", pins={
            "1": of("pin", circuit="selv", wire={"base": "BN", "stripe": "WH"}),
            "2": {"wire": of("wire", base="other", stripe="WH", other="clear")}})}))
    components = {}
    for kind in KINDS["component"]:
        model = MODELS.get(kind, MODELS["resistor"])
        honest = HONEST.get(kind, {})
        ends = {"terminals": TERMINALS, "between": None} if kind in THREE_ENDS else {"terminals": None}
        components[kind] = of("component", kind, model=model, part=f"{kind}-part",
                              when=of("applies_when", models=["Larch"]), **ends, **honest)
        yield case(f"full-component_type-{kind}", "part", f"every key of component type `{kind}`", part(
            of("component_type", kind, model=model, **honest), sources=NOTES))
    half = len(components) // 2
    for number, chosen in (("1", list(components)[:half]), ("2", list(components)[half:])):
        yield case(f"full-components-{number}", "profile", "every key of a component, of these kinds", profile(
            sources=NOTES, connectors=WIDE, components={k: components[k] for k in chosen}))
    for kind in KINDS["model"]:
        for pairs in (False, True) if kind in ("copper", "fixed") else (False,):
            members = {"pairs": PAIRS, "resistance": None} if pairs else {"pairs": None}
            name = f"full-model-{kind}" + ("-pairs" if pairs else "")
            yield case(name, "part", f"every key of model `{kind}`" + (", between terminals" if pairs else ""), part(
                {**record("component_type", "winding" if pairs else CARRIER[kind]),
                 "model": of("model", kind, **{**members, **SPECIAL_MODEL.get(kind, {})})}, sources=NOTES))
    yield case("full-part", "part", "every key of a part", part(
        of("component_type", "ntc", model=MODELS["ntc"]), title="Pipe sensors", sources=NOTES,
        source={"from": "notes"},
        waivers=[{"rule": "source-missing", "at": "/component", "why": "seen", "until": "2099-12-31"}],
        **{"$schema": "../part.schema.json"}))
    yield case("full-circuit", "profile", "every key of a circuit and its elements", profile(
        sources=NOTES, connectors=CONNECTORS, components={"sensor": record("component", "ntc")}, circuits={
            "chain": of("circuit", between=["X4.1", "X4.2"], elements=[
                of("element", "component", component="sensor"), of("element", "resistor", resistance="1 kΩ"),
                of("element", "circuit", circuit="inner"), of("element", "diode")]),
            "inner": {"between": ["X4.3", "X4.4"], "arrangement": "parallel",
                      "elements": [record("element", "resistor")]}}))
    tests = {}
    for kind in KINDS["expectation"]:
        probes = BETWEEN[EXPECTED_OF[kind]]
        tests[kind] = of("test", component=EXPECTED_OF[kind], probes=probes, positive=probes[0], condition=None,
                         unplug="X4", excludes=None, response={"kind": "steady_when_moved", "how": "bend the lead"},
                         disconnect_also=["the earth lead"], before=["let it cool"],
                         expect=of("expectation", kind, **SPECIAL_EXPECTATION.get(kind, {})))
    components = {**expected_components(),
                  "flow": {**record("component", "switch"), "contacts": "no", "between": ["X4.6", "X4.8"],
                           "states": {"flow": "closed", "no_flow": "open"}}}
    tests["flow"] = {**TEST, "component": "flow", "probes": ["X4.6", "X4.8"], "condition": "flow",
                     "expect": record("expectation", "closed"), "excludes": ["stuck_open", "high_contact_resistance"]}
    yield case("full-tests", "profile", "every key of a test and of an expectation of each kind", profile(
        sources=NOTES, connectors=WIDE, components=components, tests=tests))
    document = with_test(expect=record("expectation", "band"), excludes=["open", "short"])
    document["sources"] = NOTES
    document["faults"] = {
        k: of("fault", display=of("display", k, **({"text": "H9"} if k == "subcode" else {})),
              when={"models": ["Larch"], "software": ["2.1"]},
              raised={"component": "sensor", "below": "350 Ω", "above": "190 kΩ", "after": "5 s"},
              suspects=[
                  of("suspect", "component", component="sensor", modes=["open", "short"],
                     decided_by=["sensor_resistance"], not_decidable=None),
                  of("suspect", "harness", connector="X4", modes=["open"], decided_by=["sensor_resistance"],
                     not_decidable=None),
                  {**record("suspect", "component"), "decided_by": None, "modes": ["intermittent"],
                   "not_decidable": "comes and goes"},
                  of("suspect", "board"), of("suspect", "supply"), of("suspect", "cause")])
        for k in KINDS["display"]}
    for fault in document["faults"].values():
        del fault["suspects"][2]["decided_by"]
    yield case("full-faults", "profile", "every key of a fault, its display and its suspects", document)
    yield case("full-corpus", "corpus", "every key of a corpus, its policy, its meter and its redirects", {
        "$schema": "corpus.schema.json", **CORPUS, "policy": of("policy",
                                                                severities={"source-unused": "off",
                                                                            "component-unreached": "note",
                                                     "band-empty": "warning", "pin-undeclared": "error"}),
        "meter": of("meter"), "house_schema": "house.schema.json", "part_paths": ["parts"],
        "redirects": of("redirects")})


THREE_ENDS = ("winding", "potentiometer", "transformer")
TERMINALS = {"start": "X4.1", "common": "X4.2", "run": "X4.3"}
PAIRS = [{"from": "start", "to": "common", "resistance": "318 Ω"},
         {"from": "common", "to": "run", "resistance": "204 Ω"}]
MODELS = {
    "ntc": record("model", "beta"),
    "rtd": record("model", "iec_60751"),
    "resistor": record("model", "fixed"),
    "fuse": record("model", "closed"),
}
SPECIAL_MODEL = {"table": {"rows": [{"at": "25 °C", "nominal": "10.00 kΩ", "tolerance": "1 %"},
                                    {"at": "50 °C", "min": "3.5 kΩ", "max": "3.7 kΩ"}]}}
SPECIAL_EXPECTATION = {
    "band": {"nominal": "10.0 kΩ", "tolerance": "5 %", "min": "9.5 kΩ", "max": "10.5 kΩ", "at": "25 °C"},
    "pair": {"with": "twin"},
    "both_directions": {"reverse_max": "4 MΩ", "max": "900 Ω"},
}


def words(schemas):
    """Every word of every list of words."""
    def of(name, key, kind=None):
        member = closed(schemas, name, kind)["properties"][key]
        return (member.get("items") or member.get("additionalProperties") or member)["enum"]

    fuels = of("appliance", "fuel")
    for i, word in enumerate(of("appliance", "type")):
        document = profile()
        document["appliance"].update(type=word, fuel=fuels[i % len(fuels)])
        yield case(f"words-{word}", "profile", f"appliance `{word}`, fuel `{fuels[i % len(fuels)]}`", document)
    connectors = {}
    for key in ("mounted", "numbering", "circuit"):
        for word in of("connector", key):
            connectors[word] = {**CONNECTORS["X4"], key: word, "pins": {"1": {}}}
    connectors["X4"] = {**CONNECTORS["X4"], "pins": {word: {"circuit": word} for word in of("pin", "circuit")}}
    connectors["X4"]["ways"] = len(connectors["X4"]["pins"])
    yield case("words-connectors", "profile", "every word of a connector and a pin", profile(connectors=connectors))
    components = {}
    for kind in KINDS["component"]:
        for key, member in closed(schemas, "component", kind)["properties"].items():
            for word in member.get("enum", []):
                components[f"{kind}-{key}-{word}"] = {**record("component", kind), key: word}
    components["switch-states"] = {**record("component", "switch"),
                                   "states": {word: word for word in of("component", "states", "switch")}}
    for word in of("protector", "reset"):
        components[f"protector-{word}"] = {**record("component", "winding"), "protector": {"reset": word}}
    yield case("words-components", "profile", "every word of a component", profile(components=components))
    components = {}
    for key in ("tolerance_class", "construction"):
        for word in of("model", key, "iec_60751"):
            components[f"{key}-{word}"] = {**record("component", "rtd"),
                                           "model": {**record("model", "iec_60751"), key: word}}
    for word in of("model", "metal", "copper"):
        components[f"metal-{word}"] = {**record("component", "coil"),
                                       "model": {**record("model", "copper"), "metal": word}}
    yield case("words-models", "profile", "every word of a model", profile(components=components))
    document = with_test()
    band = record("expectation", "band")
    document["tests"] = {word: {**TEST, "side": word, "expect": band} for word in of("test", "side")}
    for word in of("test", "effort"):
        document["tests"][f"effort-{word}"] = {**TEST, "effort": word, "expect": band}
    for word in of("response", "kind"):
        document["components"][f"of-{word}"] = record("component", ANSWERS.get(word, "ntc"))
        document["tests"][f"response-{word}"] = {**TEST, "component": f"of-{word}", "expect": band,
                                                 "response": {"kind": word}}
    document["tests"]["excludes"] = {**TEST, "expect": band, "excludes": ["open", "short"]}
    undecided = {"not_decidable": "no dead test shows it"}
    document["components"]["fan"] = record("component", "electronic")  # which can fail in any way
    of_wires = [mode for mode in of("suspect", "modes", "harness") if mode not in NEVER_OF_WIRES]
    document["faults"] = {word: {**FAULT, "reset": word, "suspects": [
        {"kind": "component", "component": "fan", "modes": of("suspect", "modes", "component"), **undecided},
        {"kind": "harness", "connector": "X4", "modes": of_wires, **undecided}]}
        for word in of("fault", "reset")}
    for i, fault in enumerate(document["faults"].values()):
        fault["display"] = {"kind": "text", "text": f"H{i}"}
    yield case("words-tests", "profile", "every word of a test and a fault", document)
    for word in of("policy", "fail_on"):
        yield case(f"words-fail_on-{word}", "corpus", f"failing level `{word}`",
                   {**CORPUS, "policy": {"fail_on": word}})


def limits():
    """The least and the most that may be."""
    def numbers(revision, ways, rows, samples, wires):
        return profile(
            revision=revision, sources={"bench": {**record("source", "measurement"), "samples": samples}},
            connectors={"X4": {"label": "X4", "ways": ways, "rows": rows, "circuit": "selv", "pins": {"1": {}}}},
            components={"sensor": {**record("component", "rtd"), "wires": wires}})

    yield case("limits-numbers-least", "profile", "whole numbers as small as they may be", numbers(1, 1, 1, 1, 2))
    yield case("limits-numbers-most", "profile", "whole numbers as large as they may be",
               numbers(1000000, 200, 8, 1000000, 4))
    yield case("limits-meter-least", "corpus", "a meter with the smallest numbers",
               {**CORPUS, "meter": {"counts": 0, "display_counts": 100}})
    yield case("limits-meter-most", "corpus", "a meter with the largest numbers",
               {**CORPUS, "meter": {"counts": 1000, "display_counts": 10000000}})
    yield case("limits-empty", "profile", "lists and maps that may be empty are", profile(
        sources={}, connectors={}, components={}, circuits={}, tests={}, faults={}, waivers=[],
        safety={**profile()["safety"], "hazards": []},
        appliance={**profile()["appliance"], "markets": []}))
    yield case("limits-general", "profile", "a list of 1000 items, where its key states no limit of its own", profile(
        appliance={**profile()["appliance"], "markets": ["IE"] * GENERAL_LIMIT}))
    document = with_test(expect=record("expectation", "band"), excludes=["open"])
    document["appliance"]["models"] = [f"L{n}" for n in range(100)]
    document["safety"] = {"supplies": [{**record("supply", "mains"), "isolate_at": f"{n}"} for n in range(16)],
                          "hazards": [{**record("hazard", "stored_charge"), "where": ["X4.1", "X4.2"] * 32}]}
    document["connectors"]["X4"].update(ways=200, pins={str(n + 1): {} for n in range(200)})
    document["components"]["pump"] = {**record("component", "winding"),
                                      "terminals": {f"t{n}": f"X4.{n + 10}" for n in range(32)}}
    document["components"]["flow"] = {**record("component", "switch"), "states": {f"s{n}": "open" for n in range(16)}}
    document["circuits"] = {"chain": {"between": ["X4.1", "X4.3"], "arrangement": "series",
                                      "elements": [{"kind": "diode"}] * 32}}
    document["faults"] = {"H3": {**FAULT, "suspects": [
        {"kind": "board"} for n in range(64)]}}
    yield case("limits-counts", "profile", "lists and maps as long as they may be", document)
    longest = "a" * 64
    yield case("limits-ids", "profile", "ids of one and of 64 characters, and an id that begins with x_", profile(
        connectors={longest: {**CONNECTORS["X4"], "pins": {longest: {}, "1": {}}},
                    "0": {**CONNECTORS["X4"], "pins": {"A-_z": {}}}},
        components={"x_1": {**record("component", "ntc"), "between": [f"{longest}.{longest}", "0.A-_z"]}}))


def everything(schemas):
    yield from smallest()
    yield from complete(schemas)
    yield from words(schemas)
    yield from limits()
