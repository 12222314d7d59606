"""Smallest good documents, one for each record and kind of the format: the conformance documents are these with one
change. Everything here is invented."""
import copy

PROFILE = {
    "format": "ohmlore/1.0",
    "kind": "profile",
    "id": "base",
    "revision": 1,
    "appliance": {
        "maker": "Orrinvale",
        "models": ["Larch"],
        "type": "room_heater",
        "fuel": "oil",
        "controller": {"part": "OV-1"},
    },
    "safety": {"supplies": [{"kind": "mains", "isolate_at": "fused spur"}]},
}
PART = {
    "format": "ohmlore/1.0",
    "kind": "part",
    "id": "base",
    "revision": 1,
    "component": {"kind": "ntc", "name": "Pipe sensor"},
}
CORPUS = {"format": "ohmlore/1.0", "kind": "corpus", "title": "Orrinvale boards", "licence": "CC0-1.0"}

CONNECTORS = {
    "X4": {"label": "X4", "ways": 4, "circuit": "selv", "pins": {str(n): {} for n in (1, 2, 3, 4)}},
}
COMPONENTS = {"sensor": {"kind": "ntc", "name": "Pipe sensor", "between": ["X4.1", "X4.2"]}}
TEST = {"component": "sensor", "probes": ["X4.1", "X4.2"], "side": "at_board_plug"}
FAULT = {
    "display": {"kind": "text", "text": "H3"},
    "meaning": "sensor out of range",
    "suspects": [{"kind": "board", "not_decidable": "no dead test shows it"}],
}

# The members that each kind needs, beside `kind` and what the records of all kinds need.
KINDS = {
    "supply": {
        kind: {"isolate_at": "fused spur"}
        for kind in ("mains", "switched_live", "external_control", "second_tariff", "immersion_heater",
                     "solar_diverter", "battery", "other_appliance")
    },
    "hazard": {
        "stored_charge": {"where": ["X4.1", "X4.2"], "wait": "5 min", "verify_below": "10 V"},
        "generates_when_turned": {},
        "ignition_voltage": {},
        "hot_surface": {},
        "fuel_gas": {},
        "flammable_refrigerant": {},
        "sealed_case": {},
        "pressure": {},
    },
    "source": {
        "maker_document": {"title": "Larch service notes"},
        "measurement": {"instrument": "handheld meter"},
        "standard": {"title": "Resistance of things"},
        "calculation": {"method": "mean of the readings"},
        "common_practice": {},
    },
    "component": {
        kind: {"name": name}
        for kind, name in {
            "ntc": "Pipe sensor", "ptc": "Motor sensor", "rtd": "Platinum sensor", "resistor": "Damping resistor",
            "coil": "Gas valve", "winding": "Pump", "heater": "Immersion heater", "switch": "Flow switch",
            "fuse": "Board fuse", "electrode": "Flame electrode", "potentiometer": "Damper feedback",
            "capacitor": "Pump capacitor", "transformer": "Ignition transformer", "igniter": "Glow bar",
            "photocell": "Flame watcher", "thermocouple": "Pilot thermocouple", "coding": "Coding plug",
            "anode": "Tank anode", "electronic": "Fan",
        }.items()
    },
    "model": {
        "beta": {"resistance": "10 kΩ", "at": "25 °C", "b_value": "3977 K", "b_between": "25 °C to 85 °C"},
        "steinhart_hart": {"a": "1.129148e-3 K^-1", "b": "2.34125e-4 K^-1", "c": "8.76741e-8 K^-1"},
        "table": {"rows": [{"at": "25 °C", "nominal": "10.00 kΩ"}, {"at": "50 °C", "nominal": "3.60 kΩ"}]},
        "iec_60751": {"r0": "100 Ω", "tolerance_class": "B"},
        "polynomial": {"r0": "100 Ω", "a1": "6e-3 K^-1"},
        "copper": {"resistance": "43 Ω", "at": "20 °C"},
        "fixed": {"resistance": "470 Ω"},
        "power": {"voltage": "230 V ac", "power": "2 kW"},
        "open": {"above": "1 MΩ"},
        "closed": {"below": "1 Ω"},
    },
    "element": {
        "component": {"component": "sensor"},
        "circuit": {"circuit": "inner"},
        "resistor": {"resistance": "1 kΩ"},
        "diode": {},
    },
    "expectation": {
        "band": {"min": "9.5 kΩ", "max": "10.5 kΩ", "at": "25 °C"},
        "open": {"above": "1 MΩ"},
        "closed": {"below": "1 Ω"},
        "pair": {"with": "twin", "largest_difference": "1 K"},
        "not_short": {"above": "1 kΩ"},
        "rises_to_open": {"above": "1 MΩ"},
        "smooth_sweep": {"min": "100 Ω", "max": "5 kΩ"},
        "both_directions": {"min": "100 Ω", "reverse_min": "1 MΩ"},
    },
    "display": {
        "text": {"text": "H3"},
        "blink": {"pattern": "3 short, 1 long"},
        "subcode": {"text": "H", "subcode": "3"},
    },
    "suspect": {
        "component": {"component": "sensor", "modes": ["open"], "decided_by": ["sensor_resistance"]},
        "harness": {"connector": "X4", "decided_by": ["sensor_resistance"]},
        "board": {"not_decidable": "no dead test shows it"},
        "supply": {"not_decidable": "no dead test shows it"},
        "cause": {"cause": "air in the circuit", "not_decidable": "hydraulic"},
    },
}
KINDS["component_type"] = KINDS["component"]

# The kind of component that carries a model in its smallest document.
CARRIER = {"beta": "ntc", "steinhart_hart": "ntc", "table": "ntc", "iec_60751": "rtd", "polynomial": "rtd",
           "copper": "coil", "fixed": "resistor", "power": "heater", "open": "electrode", "closed": "fuse"}


def record(name, kind):
    return {"kind": kind, **copy.deepcopy(KINDS[name][kind])}


def profile(**members):
    return copy.deepcopy({**PROFILE, **members})


def part(component, **members):
    return copy.deepcopy({**PART, "component": component, **members})


def with_test(**members):
    # An expectation that stands for every reading lets the component do without a model.
    return profile(connectors=CONNECTORS, components=COMPONENTS, tests={"sensor_resistance": {**TEST, **members}})


def home(name, kind=None):
    """A good document that holds the record, and the JSON Pointer at which it does."""
    if name == "profile":
        return profile(), ""
    if name == "part":
        return part(PART["component"]), ""
    if name == "corpus":
        return copy.deepcopy(CORPUS), ""
    if name in ("policy", "meter", "redirects"):
        return copy.deepcopy({**CORPUS, name: {}}), f"/{name}"
    if name in ("appliance", "safety"):
        return profile(), f"/{name}"
    if name == "controller":
        return profile(), "/appliance/controller"
    if name == "supply":
        return profile(safety={"supplies": [record(name, kind or "mains")]}), "/safety/supplies/0"
    if name == "hazard":
        hazard = record(name, kind or "pressure")
        members = {"connectors": CONNECTORS} if "where" in hazard else {}
        return profile(safety={**PROFILE["safety"], "hazards": [hazard]}, **members), "/safety/hazards/0"
    if name == "source":
        return part(PART["component"], sources={"notes": record(name, kind or "common_practice")}), "/sources/notes"
    if name == "source_reference":
        return part(PART["component"], sources={"notes": record("source", "common_practice")},
                    source={"from": "notes"}), "/source"
    if name == "connector":
        return profile(connectors={"X4": {"label": "X4", "ways": 2, "circuit": "selv", "pins": {"1": {}}}}), \
            "/connectors/X4"
    if name == "pin":
        return home("connector")[0], "/connectors/X4/pins/1"
    if name == "wire":
        document, at = home("pin")
        document["connectors"]["X4"]["pins"]["1"]["wire"] = {"base": "BN"}
        return document, f"{at}/wire"
    if name == "component":
        return profile(components={"item": record(name, kind or "ntc")}), "/components/item"
    if name == "component_type":
        return part(record(name, kind or "ntc")), "/component"
    if name == "model":
        kind = kind or "beta"
        return part({**record("component", CARRIER[kind]), "model": record(name, kind)}), "/component/model"
    if name == "table_row":
        return home("model", "table")[0], "/component/model/rows/0"
    if name == "terminal_pair":
        document, at = home("component_type", "winding")
        document["component"]["model"] = {
            "kind": "copper", "at": "20 °C",
            "pairs": [{"from": "start", "to": "common", "resistance": "318 Ω"}],
        }
        return document, f"{at}/model/pairs/0"
    if name == "protector":
        document, at = home("component_type", "winding")
        document["component"]["protector"] = {"reset": "automatic"}
        return document, f"{at}/protector"
    if name in ("circuit", "element"):
        element = record("element", kind or "resistor")
        circuits = {"chain": {"between": ["X4.1", "X4.2"], "arrangement": "series", "elements": [element]}}
        members = {}
        if element["kind"] == "circuit":
            circuits["inner"] = {"between": ["X4.3", "X4.4"], "arrangement": "series",
                                 "elements": [record("element", "resistor")]}
        if element["kind"] == "component":
            members["components"] = {"sensor": record("component", "ntc")}
        document = profile(connectors=CONNECTORS, circuits=circuits, **members)
        return document, "/circuits/chain" if name == "circuit" else "/circuits/chain/elements/0"
    if name == "test":
        return with_test(expect=record("expectation", "band")), "/tests/sensor_resistance"
    if name == "expectation":
        document = with_test(expect=record(name, kind or "band"))
        if kind == "pair":
            document["components"]["twin"] = {**COMPONENTS["sensor"], "between": ["X4.3", "X4.4"]}
        return document, "/tests/sensor_resistance/expect"
    if name == "response":
        return with_test(expect=record("expectation", "band"), response={"kind": "falls_when_warmed"}), \
            "/tests/sensor_resistance/response"
    if name == "fault":
        return profile(faults={"H3": FAULT}), "/faults/H3"
    if name == "display":
        return profile(faults={"H3": {**FAULT, "display": record(name, kind or "text")}}), "/faults/H3/display"
    if name == "applies_when":
        return profile(faults={"H3": {**FAULT, "when": {}}}), "/faults/H3/when"
    if name == "raised":
        return profile(faults={"H3": {**FAULT, "raised": {"below": "350 Ω"}}}), "/faults/H3/raised"
    if name == "suspect":
        suspect = record(name, kind or "board")
        fault = {**FAULT, "suspects": [suspect]}
        if "decided_by" in suspect:
            document = with_test(expect=record("expectation", "band"), excludes=["open"])
            return {**document, "faults": copy.deepcopy({"H3": fault})}, "/faults/H3/suspects/0"
        return profile(faults={"H3": fault}), "/faults/H3/suspects/0"
    if name == "waiver":
        return part(PART["component"],
                    waivers=[{"rule": "source-missing", "at": "/component", "why": "seen"}]), "/waivers/0"
    raise KeyError(f"no base document holds a {name}: add one to bases.py")
