#!/usr/bin/env python3
"""Documents as large as the format lets them be, each of a shape that would be dear to look at pair by pair or way by
way: `lint` must come to its end on every one, and `diff` on every two of which all differs, `lint --fix` on those in
which much is misspelled, `convert` on tables with many rows, `plan` for all codes at once, and `lint` on corpora of
one board, and of a long schema.

Usage: largest.py PROGRAM [NUMBER | NAME ...]; with a number, one document in so many; with names, only those. Prints
what each took."""
import json
import pathlib
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time

MOST_ITEMS, MOST_TEXT, MOST_PINS, MOST_ROWS = 1000, 2048, 200, 500
HANGS = 60  # seconds of the processor, whatever else it does: many times what the slowest needs


def profile(**members):
    base = {
        "format": "ohmlore/1.0",
        "kind": "profile",
        "id": "example",
        "revision": 1,
        "appliance": {
            "maker": "Orrinvale",
            "models": ["Larch 24 C"],
            "type": "combination_boiler",
            "fuel": "natural_gas",
            "controller": {"part": "OV-4410"},
        },
        "safety": {"supplies": [{"kind": "mains", "isolate_at": "fused spur beside the appliance"}]},
        "sources": {"notes": {"kind": "maker_document", "title": "Larch service notes"}},
        "source": {"from": "notes"},
    }
    return base | members


def connectors(count, pins=MOST_PINS):
    return {
        f"X{c}": {"label": f"X{c}", "ways": pins, "circuit": "selv", "pins": {str(p): {} for p in range(1, pins + 1)}}
        for c in range(count)
    }


def resistor(a, b, **members):
    return {"kind": "resistor", "name": "Resistor", "between": [a, b], **members}


def check(component, a, b, **members):
    return {
        "component": component,
        "unplug": a.split(".")[0],
        "probes": [a, b],
        "side": "at_board_plug",
        "expect": {"kind": "band", "nominal": "100 Ω", "tolerance": "5 %", "at": "20 °C"},
        "excludes": ["open", "short"],
    } | members


def fault(code, suspects, **members):
    return {"display": {"kind": "text", "text": code}, "meaning": "out of range", "suspects": suspects, **members}


def suspect(component, tests, modes=("open", "short")):
    return {"kind": "component", "component": component, "modes": list(modes), "decided_by": list(tests)}


def two_pins(i, pins=MOST_PINS):
    """A pair of contacts of its own for each number."""
    plug, pin = divmod(2 * i, pins)
    return f"X{plug}.{pin + 1}", f"X{plug}.{pin + 2}"


def many(count, make):
    return {f"n{i}": make(i) for i in range(count)}


def chained_pins():
    """Every pin of many plugs joined with the next, and parts and tests along the chain."""
    plugs = connectors(100)
    pins = [f"{c}.{p}" for c in plugs for p in plugs[c]["pins"]]
    for here, following in zip(pins, pins[1:]):
        plug, pin = here.split(".")
        plugs[plug]["pins"][pin]["links"] = [following]
    return profile(
        connectors=plugs,
        components=many(1000, lambda i: resistor(pins[i], pins[-1 - i])),
        tests=many(1000, lambda i: check(f"n{i}", pins[i], pins[-1 - i])),
        faults=many(1000, lambda i: fault(f"E{i}", [suspect(f"n{i}", [f"n{i}"])])),
    )


def starred_pins():
    """Each pin names a thousand others."""
    plugs = connectors(10)
    pins = [f"{c}.{p}" for c in plugs for p in plugs[c]["pins"]]
    for n, here in enumerate(pins[:400]):
        plug, pin = here.split(".")
        plugs[plug]["pins"][pin]["links"] = [p for p in pins[n % 2 :: 2] if p != here][:MOST_ITEMS]
    return profile(
        connectors=plugs,
        components=many(1000, lambda i: resistor(*two_pins(i))),
        tests=many(1000, lambda i: check(f"n{i}", *two_pins(i))),
    )


def many_terminals():
    """1000 components with 32 terminals, each on contacts of its own."""
    plugs = connectors(160)
    pins = [f"{c}.{p}" for c in plugs for p in plugs[c]["pins"]]
    parts = many(
        1000,
        lambda i: {
            "kind": "winding",
            "name": "Motor",
            "connection": "isolated",
            "terminals": {f"t{t}": pins[32 * i + t] for t in range(32)},
        },
    )
    return profile(
        connectors=plugs,
        components=parts,
        tests=many(1000, lambda i: check(f"n{i}", pins[32 * i], pins[32 * i + 1])),
        faults=many(300, lambda i: fault(f"E{i}", [suspect(f"n{i + j}", [f"n{i + j}"]) for j in range(64)])),
    )


def shared_terminals():
    """1000 components with 32 terminals, all on the same 32 contacts."""
    plugs = connectors(1, 32)
    parts = many(
        1000,
        lambda i: {
            "kind": "winding",
            "name": "Motor",
            "connection": "isolated",
            "purely_resistive": True,
            "terminals": {f"t{t}": f"X0.{t + 1}" for t in range(32)},
        },
    )
    tests = many(1000, lambda i: check(f"n{i}", f"X0.{i % 31 + 1}", f"X0.{i % 31 + 2}"))
    return profile(
        connectors=plugs,
        components=parts,
        tests=tests,
        faults=many(300, lambda i: fault(f"E{i}", [suspect(f"n{i + j}", [f"n{i + j}"]) for j in range(32)])),
    )


def one_pair():
    """1000 resistors on the same two contacts, and 1000 tests of them."""
    return profile(
        connectors=connectors(1, 2),
        components=many(1000, lambda i: resistor("X0.1", "X0.2", purely_resistive=True,
                                                 model={"kind": "fixed", "resistance": "1 kΩ", "tolerance": "1 %"})),
        tests=many(1000, lambda i: check(f"n{i}", "X0.1", "X0.2")),
        faults=many(1000, lambda i: fault(f"E{i}", [suspect(f"n{(i + j) % 1000}", [f"n{(i + j) % 1000}"])
                                                    for j in range(8)])),
    )


def nested_circuits():
    """1000 circuits, each in the one before and holding a part, and faults about the parts."""
    def circuit(i):
        elements = [{"kind": "component", "component": f"n{i}"}]
        if i < 999:
            elements.append({"kind": "circuit", "circuit": f"n{i + 1}"})
        return {"arrangement": "series" if i % 2 else "parallel", "between": list(two_pins(i)), "elements": elements}

    return profile(
        connectors=connectors(10),
        components=many(1000, lambda i: {"kind": "resistor", "name": "Resistor"}),
        circuits=many(1000, circuit),
        tests=many(1000, lambda i: check(f"n{i}", *two_pins(i))),
        faults=many(300, lambda i: fault(f"E{i}", [suspect(f"n{i + j}", [f"n{i + j}"]) for j in range(32)])),
    )


def doubled_circuits():
    """Each circuit holds the next one twice."""
    def circuit(i):
        elements = [{"kind": "component", "component": f"n{i}"}]
        if i < 999:
            elements += 2 * [{"kind": "circuit", "circuit": f"n{i + 1}"}]
        return {"arrangement": "series" if i % 2 else "parallel", "between": list(two_pins(i)), "elements": elements}

    return nested_circuits() | {"circuits": many(1000, circuit)}


def wide_circuits():
    """Each circuit holds 100 of those behind it."""
    def circuit(i):
        elements = [{"kind": "component", "component": f"n{i}"}]
        elements += [{"kind": "circuit", "circuit": f"n{j}"} for j in range(i + 1, min(i + 101, 1000))]
        return {"arrangement": "series" if i % 2 else "parallel", "between": list(two_pins(i)), "elements": elements}

    return nested_circuits() | {"circuits": many(1000, circuit)}


def common_of_circuits():
    """1000 parts on one contact, each in 32 of 1000 circuits that lie elsewhere."""
    return profile(
        connectors=connectors(10),
        components=many(1000, lambda i: resistor("X0.1", f"X{1 + i // 199}.{i % 199 + 1}")),
        circuits=many(1000, lambda i: {
            "arrangement": "series", "between": [f"X7.{i % 200 + 1}", f"X8.{i % 200 + 1}"],
            "elements": [{"kind": "component", "component": f"n{(i + 31 * k) % 1000}"} for k in range(32)]}),
    )


def random_tables():
    """500 tables of 500 rows that agree in nothing."""
    chance = random.Random(4)

    def table(i):
        rows = [{"at": f"{t / 2:.1f} °C", "nominal": f"{chance.uniform(100, 9000):.1f} Ω"} for t in range(-100, 400)]
        return {
            "kind": "ntc",
            "name": "Sensor",
            "between": list(two_pins(i)),
            "model": {"kind": "table", "tolerance": "1 %", "rows": rows[:MOST_ROWS]},
        }

    return profile(connectors=connectors(10), components=many(400, table))


def smooth_tables():
    """500 tables of 500 rows along a curve, each a little off."""
    chance = random.Random(5)

    def table(i):
        rows = [
            {"at": f"{t / 2:.1f} °C", "nominal": f"{10000 * 2 ** (-t / 40) * chance.uniform(0.98, 1.02):.1f} Ω"}
            for t in range(-100, 400)
        ]
        kind = ("ntc", "rtd", "ptc", "winding")[i % 4]
        return {"kind": kind, "name": "Sensor", "between": list(two_pins(i)),
                "model": {"kind": "table", "rows": rows[:MOST_ROWS]}}

    return profile(connectors=connectors(10), components=many(400, table))


def rough_tables():
    """300 tables of 500 rows around a curve, so far off that each may be the wrong one, by their wide tolerance."""
    chance = random.Random(9)

    def table(i):
        rows = [
            {"at": f"{t / 2:.1f} °C", "nominal": f"{10000 * 2 ** (-t / 40) * chance.uniform(0.9, 1.1):.1f} Ω",
             "tolerance": "20 %"}
            for t in range(-100, 400)
        ]
        return {"kind": "ntc", "name": "Sensor", "between": list(two_pins(i)),
                "model": {"kind": "table", "rows": rows[:MOST_ROWS]}}

    return profile(connectors=connectors(10), components=many(300, table))


def cliques(size, count):
    plugs = connectors(count, size)
    components, tests = {}, {}
    for c in range(count):
        components[f"n{c}"] = {
            "kind": "winding",
            "name": "Motor",
            "connection": "isolated",
            "purely_resistive": True,
            "terminals": {f"t{t}": f"X{c}.{t + 1}" for t in range(size)},
        }
        for a in range(size):
            for b in range(a):
                tests[f"c{c}_{a}_{b}"] = check(f"n{c}", f"X{c}.{a + 1}", f"X{c}.{b + 1}")
    return profile(connectors=plugs, components=components, tests=dict(list(tests.items())[:MOST_ITEMS]))


def clique_of_24():
    """All readings between 24 terminals, three times."""
    return cliques(24, 3)


def cliques_of_8():
    return cliques(8, 35)


def nearly_clique(size=32):
    """All readings between 32 terminals but those within threes: 3^11 largest sets with all readings."""
    document = cliques(size, 1)
    document["tests"] = {
        f"c{a}_{b}": check("n0", f"X0.{a + 1}", f"X0.{b + 1}")
        for a in range(size) for b in range(a) if a // 3 != b // 3
    }
    return document


def clique_in_threes():
    """The same of 24 terminals, with readings at random: 3^8 sets."""
    document = nearly_clique(24)
    chance = random.Random(7)
    for test in document["tests"].values():
        test["expect"]["nominal"] = f"{chance.uniform(50, 150):.1f} Ω"
    return document


def pairs_of_model():
    """1000 parts whose model states the readings between 12 terminals."""
    def part(i):
        return {
            "kind": "winding",
            "name": "Motor",
            "connection": "isolated",
            "purely_resistive": True,
            "terminals": {f"t{t}": f"X{i}.{t + 1}" for t in range(12)},
            "model": {
                "kind": "fixed",
                "tolerance": "1 %",
                "pairs": [
                    {"from": f"t{a}", "to": f"t{b}", "resistance": f"{50 + (a * b * 7919 + i) % 53} Ω"}
                    for a in range(12) for b in range(a)
                ][:64],
            },
        }

    return profile(connectors=connectors(1000, 12), components=many(1000, part))


def one_plug():
    """1000 tests at one plug, of 1000 linear parts one after the other around it."""
    def ends(i):
        return f"X0.{i % 199 + 1}", f"X0.{(i % 199 + 1 + i // 199) % 200 + 1}"

    return profile(
        connectors=connectors(1),
        components=many(1000, lambda i: resistor(*ends(i), purely_resistive=True,
                                                 model={"kind": "fixed", "resistance": "1 kΩ", "tolerance": "1 %"})),
        tests=many(1000, lambda i: check(f"n{i}", *ends(i))),
        faults=many(1000, lambda i: fault(f"E{i}", [suspect(f"n{(i + j) % 1000}", [f"n{(i + j) % 1000}"])
                                                    for j in range(4)])),
    )


def one_part():
    """1000 tests of one part."""
    return profile(
        connectors=connectors(1),
        components={"n0": resistor("X0.1", "X0.2", purely_resistive=True,
                                   model={"kind": "fixed", "resistance": "1 kΩ", "tolerance": "1 %"})},
        tests=many(1000, lambda i: check("n0", "X0.1", "X0.2")),
        faults=many(1000, lambda i: fault(f"E{i}", [suspect("n0", [f"n{(i + j) % 1000}" for j in range(32)])])),
    )


MODES = ["open", "short", "drift_high", "drift_low", "leakage_to_earth", "intermittent", "stuck_open", "stuck_closed",
         "high_contact_resistance", "shorted_turns", "seized", "protector_open", "low_capacitance", "wrong_part",
         "wet_or_corroded"]


def many_suspects():
    """1000 faults with 20 suspects, each with 4 modes and 16 tests, all on one shared pair of contacts."""
    def one(i):
        suspects = [suspect(f"n{(i + j) % 1000}", [f"n{(i + j + k) % 1000}" for k in range(16)], MODES[:4])
                    for j in range(20)]
        return fault(f"E{i}", suspects)

    plugs = connectors(1, 2)
    for pin in plugs["X0"]["pins"].values():
        pin["shared"] = True
    return profile(
        connectors=plugs,
        components=many(1000, lambda i: resistor("X0.1", "X0.2")),
        tests=many(1000, lambda i: check(f"n{i}", "X0.1", "X0.2")),
        faults=many(1000, one),
    )


def harness_suspects():
    def one(i):
        return fault(f"E{i}", [{"kind": "harness", "connector": f"X{j % 10}", "modes": MODES,
                                "decided_by": [f"n{(i + j + k) % 1000}" for k in range(16)]} for j in range(20)])

    return many_suspects() | {"faults": many(1000, one)}


def same_code():
    """One code 1000 times, each for 100 of its own software versions."""
    return profile(
        faults=many(1000, lambda i: fault("E1", [{"kind": "board", "not_decidable": "no dead test"}],
                                          when={"software": [f"{i}.{j}" for j in range(100)]})))


def same_contacts_when():
    """1000 parts on the same two contacts, each for other software."""
    return profile(
        connectors=connectors(1, 2),
        components=many(1000, lambda i: resistor("X0.1", "X0.2", when={"software": [f"{i}.{j}" for j in range(100)]})),
        tests=many(1000, lambda i: check(f"n{i}", "X0.1", "X0.2")),
        faults=many(1000, lambda i: fault(f"E{i}", [suspect(f"n{i}", [f"n{i}"])])),
    )


def unknown_words():
    """References that lead nowhere, each as long as an id may be and near to 1000 others."""
    def name(i):
        return f"{i:0>4}" + "a" * 60

    return profile(
        connectors=connectors(10),
        components={name(i): resistor(*two_pins(i)) for i in range(1000)},
        tests={name(i): check(name(i)[:-1] + "b", *two_pins(i)) for i in range(1000)},
        faults=many(1000, lambda i: fault(f"E{i}", [suspect(name((i + j) % 1000)[:-2] + "cd",
                                                            [name((i + k) % 1000)[:-2] + "cd" for k in range(16)])
                                                    for j in range(4)])),
    )


def unknown_contacts():
    return profile(
        connectors=connectors(100),
        components=many(1000, lambda i: resistor(f"X{i}a.1", f"X{i % 100}.{200 + i}")),
        tests=many(1000, lambda i: check(f"n{i}", f"X{i}b.1", f"X{i % 100}.{300 + i}")),
    )


def unknown_keys():
    return profile(components=many(1000, lambda i: {"kind": "resistor", "name": "R"} | {f"kyes{j}": 1 for j in range(400)}))


def many_waivers():
    """1000 waivers, each of one of thousands of findings."""
    document = unknown_contacts()
    document["waivers"] = [
        {"rule": "contact-claimed-twice", "at": f"/components/n{i}", "why": "known"} for i in range(1000)
    ]
    document["components"] = many(1000, lambda i: resistor("X0.1", "X0.2"))
    return document


def many_sources():
    """1000 sources, each based on 1000 others."""
    return profile(sources=many(1000, lambda i: {
        "kind": "calculation", "method": "sum", "based_on": [f"n{(i + j) % 1000}" for j in range(1, 900)]
    }))


def deep_foreign():
    """Values of others, as deep as may be, many times."""
    value = "x"
    for _ in range(58):
        value = [value]
    return profile(**{f"x_{i}": value for i in range(100000)})


def foreign_objects():
    """An object of others with 500,000 members, and members of one name."""
    return profile(x_a={f"k{i}": i for i in range(500000)}, x_b=[{"a": 1}] * 200000)


def escaped_text():
    return profile(title="\n", x_a=["\u0001\u2028" * 300] * 5000)


def long_texts():
    """Texts as long as may be, all of them not quite right."""
    text = "é" * (MOST_TEXT // 2)
    return profile(
        connectors=connectors(10),
        components=many(1000, lambda i: resistor(*two_pins(i)) | {
            "name": text, "where": text, "orderable": text, "model": {"kind": "fixed", "resistance": text}}))


def long_quantities():
    text = "1" * MOST_TEXT
    return profile(
        components=many(1000, lambda i: {"kind": "resistor", "name": "R",
                                         "model": {"kind": "fixed", "resistance": text + " Ω", "tolerance": "9" * 2000 + " %"}}))


def spelled_quantities():
    """20,000 spellings to mend, all in one line."""
    return profile(
        connectors=connectors(10),
        components=many(500, lambda i: {
            "kind": "ntc", "name": "Sensor", "between": list(two_pins(i)),
            "model": {"kind": "table", "rows": [{"at": f"{t} degC", "nominal": f"{20000 - 100 * t} ohm", "tolerance": "1%"}
                                                for t in range(100)]}}))


def wrong_types():
    """As many findings as 16 MiB can hold."""
    return profile(components=many(1000, lambda i: {"kind": "resistor", "name": "R",
                                                    "model": {"kind": "table", "rows": [1] * 5000}}))


def wrong_rows():
    return profile(components=many(1000, lambda i: {"kind": "ntc", "name": "R", "model": {
        "kind": "table", "rows": [{"at": "5", "nominal": "7"}] * 400}}))


def twin_sensors():
    """1000 twins of one sensor."""
    return profile(
        connectors=connectors(10),
        components=many(1000, lambda i: {"kind": "ntc", "name": "Sensor", "between": list(two_pins(i))}),
        tests=many(1000, lambda i: check(f"n{i}", *two_pins(i),
                                         expect={"kind": "pair", "with": f"n{(i * 7 + 1) % 1000}", "largest_difference": "1 K"})),
        faults=many(300, lambda i: fault(f"E{i}", [suspect(f"n{i + j}", [f"n{i + j}"]) for j in range(32)])),
    )


def ladder():
    """A ladder of 1000 linear resistors between the contacts of one plug, and tests across it."""
    def ends(i):
        return (f"X0.{i % 199 + 1}", f"X0.{i % 199 + 2}") if i < 600 else (f"X0.{i % 190 + 1}", f"X0.{i % 190 + 8}")

    document = one_plug()
    document["components"] = many(1000, lambda i: resistor(*ends(i), purely_resistive=True,
                                                           model={"kind": "fixed", "resistance": f"{100 + i} Ω", "tolerance": "1 %"}))
    document["tests"] = many(1000, lambda i: check(f"n{i}", *ends(i)))
    return document


def across_plugs():
    """The same over five plugs, so that currents may leave the one that is withdrawn."""
    document = ladder()
    document["connectors"] = connectors(5)
    for i, part in enumerate(document["components"].values()):
        part["between"] = [f"X{i % 5}.{i % 199 + 1}", f"X{(i + 1) % 5}.{i % 197 + 1}"]
    document["tests"] = many(1000, lambda i: check(f"n{i}", f"X{i % 5}.{i % 199 + 1}", f"X{i % 5}.{(i * 3 + 1) % 199 + 1}"))
    return document


def many_states():
    """1000 switches with 16 states, and tests in each."""
    return profile(
        connectors=connectors(10),
        components=many(1000, lambda i: {"kind": "switch", "name": "Stat", "between": list(two_pins(i)),
                                         "states": {f"s{s}": "open" if s % 2 else "closed" for s in range(16)}}),
        tests=many(1000, lambda i: check(f"n{i % 10}", *two_pins(i % 10), condition=f"s{i % 16}",
                                         expect={"kind": "closed", "below": "1 Ω"})),
        faults=many(1000, lambda i: fault(f"E{i}", [suspect(f"n{i % 10}", [f"n{(i + j) % 1000}" for j in range(32)])])),
    )


def chained_classes():
    """66,000 chains of three pins, the ends of which contradict each other."""
    plugs = connectors(1000, 198)
    for name, plug in plugs.items():
        for p in range(1, 199, 3):
            plug["pins"][str(p)]["links"] = [f"{name}.{p + 1}"]
            plug["pins"][str(p + 1)] = {"circuit": "bus", "links": [f"{name}.{p + 2}"]}
            plug["pins"][str(p + 2)]["circuit"] = "mains"
    return profile(connectors=plugs)


def doubled_names():
    """160,000 pins each joined with the next, in whose names all letters stand twice, eight apart: whatever folds a name
    into eight bytes makes them all one."""
    def name(i):
        return 2 * f"P{i:06}Q"

    return profile(connectors={name(c): {"label": f"X{c}", "ways": 200, "circuit": "selv", "pins": {
        name(p): {"links": [f"{name(c)}.{name(p + 1)}"]} if p < 199 else {} for p in range(200)}} for c in range(800)})


def changed_pins(word):
    """10,000 pins, each of which carries another signal in the newer document."""
    plugs = connectors(100, 100)
    for c, plug in plugs.items():
        for p, pin in plug["pins"].items():
            pin["signal"] = f"{word} {c} {p}"
    return profile(connectors=plugs)


def changed_parts(word):
    """1000 parts under other names, of other tests."""
    return profile(
        connectors=connectors(10),
        components={f"{word}{i}": resistor(*two_pins(i), orderable=f"{word} {i}") for i in range(1000)},
        tests=many(1000, lambda i: check(f"{word}{i}", *two_pins(i))),
    )


def changed_rows(word):
    """60,000 rows, the last ones of which moved."""
    def table(i):
        last = i + (3000 if word == "newer" else 0)
        return {"kind": "ntc", "name": "Sensor", "between": list(two_pins(i)), "model": {"kind": "table", "rows": [
            {"at": f"{t} °C", "nominal": f"{90000 - 100 * t - (last if t == 199 else 0)} Ω"} for t in range(200)]}}

    return profile(connectors=connectors(10), components=many(300, table))


def changed_suspects(word):
    """64,000 suspects that are known by the same, each undecided for another reason."""
    return profile(faults=many(1000, lambda i: fault(f"E{i}", [
        {"kind": "cause", "cause": "water", "not_decidable": f"{word} {i} {j}"} for j in range(64)])))


def changed_foreign(word):
    """100,000 members of others come, and as many go, all in one line."""
    return profile(**{f"x_{word}_{i}": 1 for i in range(100000)})


def many_causes():
    """64,000 suspects under 1000 codes, of which no test decides any."""
    return profile(faults=many(1000, lambda i: fault(f"E{i}", [
        {"kind": "cause", "cause": f"water {i} {j}", "not_decidable": "no dead test"} for j in range(64)])))


def misspelled_tables():
    """The rows that agree in nothing, a few of them to be mended: is any of all those errors new?"""
    document = random_tables()
    for part in document["components"].values():
        for row in part["model"]["rows"][:3]:
            row["at"] = row["at"].replace("°C", "degC")
    return document


MISSPELLED = [spelled_quantities, misspelled_tables]

CHANGES = [changed_pins, changed_parts, changed_rows, changed_suspects, changed_foreign]


def write_tables(program, folder):
    """The tables of a profile that has 100,000 faults, each with a suspect."""
    document = folder / "one.profile.json"
    document.write_text(json.dumps(profile(faults=many(1, lambda i: fault("E", [{"kind": "board"}])))), encoding="utf-8")
    tables = folder / "tables"
    subprocess.run([program, "convert", "--to", "csv", "--output", tables, document], capture_output=True, check=True)
    document.unlink()
    for name in ("faults", "suspects"):
        head, row = (tables / f"{name}.csv").read_text(encoding="utf-8").splitlines()
        rows = [row.replace("n0", f"n{i}") for i in range(100000)]
        (tables / f"{name}.csv").write_text("\n".join([head, *rows, ""]), encoding="utf-8")
    return tables


def one_board(number):
    """A profile of many of one board, which agree in all but what one code means."""
    return profile(
        id=f"board-{number}",
        connectors={f"X{c}": {"label": f"X{c}", "ways": 8, "circuit": "selv",
                              "pins": {str(p): {"signal": f"signal {c} {p}"} for p in range(1, 9)}} for c in range(8)},
        faults=many(40, lambda i: fault(f"E{i}", [{"kind": "board", "not_decidable": "no dead test"}],
                                        meaning=f"out of range {number if i == 0 else i}")))


def of_one_board():
    return {f"board-{number}.profile.json": one_board(number) for number in range(2500)}


def in_own_words():
    """1500 profiles of one board with 200 ways, each of which words every signal in its own way."""
    return {f"board-{number}.profile.json": profile(id=f"board-{number}", connectors={"X1": {
        "label": "X1", "ways": MOST_PINS, "circuit": "selv",
        "pins": {str(pin): {"signal": f"signal {pin} as {number} says"} for pin in range(1, MOST_PINS + 1)}}})
        for number in range(1500)}


def long_house_schema():
    """A schema of the house that allows 100,000 objects, and a profile with as many, and 1000 others."""
    return {
        "corpus.json": {"format": "ohmlore/1.0", "kind": "corpus", "title": "Larch", "licence": "CC0-1.0",
                        "house_schema": "house.schema.json"},
        "house.schema.json": {"properties": {"x_a": {"items": {"enum": [{"a": i} for i in range(100000)]}}}},
        "example.profile.json": profile(x_a=[{"a": i} for i in range(-1000, 100000)]),
    }


CORPORA = [of_one_board, in_own_words, long_house_schema]

DOCUMENTS = [
    value for name, value in list(globals().items())
    if callable(value) and getattr(value, "__module__", "") == __name__ and value.__code__.co_argcount == len(value.__defaults__ or ())
    and value is not profile and value is not misspelled_tables and value not in CORPORA
]


LINT, DIFF, FIX = ["lint", "--format", "json"], ["diff", "--format", "json"], ["lint", "--fix", "--dry-run"]
READ_TABLES = ["convert", "--from", "csv", "--to", "json"]


def ends(program, name, words, paths, more=()):
    """Runs the program on documents, says what it took, and whether it came to its end."""
    begin = time.monotonic()
    run = subprocess.run([program, *words, *paths, *more], capture_output=True,
                         preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (HANGS, HANGS + 1)))
    good = run.returncode in (0, 1)
    said = "DOES NOT END" if run.returncode in (-signal.SIGXCPU, -signal.SIGKILL) else f"exit {run.returncode}, " + (
        f"{len(json.loads(run.stdout)['findings'])} findings" if good and words == LINT else
        f"{len(run.stdout) / 2**20:.1f} MiB said" if good else run.stderr.decode()[:200])
    size = sum(file.stat().st_size for path in paths for file in ([path] if path.is_file() else path.iterdir())) / 2**20
    print(f"{name:20} {size:5.1f} MiB {time.monotonic() - begin:7.2f} s  {said}", flush=True)
    for path in paths:
        path.unlink() if path.is_file() else shutil.rmtree(path)
    return good


def main():
    program, names = sys.argv[1], sys.argv[2:]
    failed = False
    one_in = int(names.pop()) if names and names[0].isdigit() else 1
    with tempfile.TemporaryDirectory() as folder:
        def write(name, document):
            path = pathlib.Path(folder) / f"{name}.profile.json"
            path.write_text(json.dumps(document, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
            return path

        for make in DOCUMENTS[::one_in]:
            if not names or make.__name__ in names:
                failed |= not ends(program, make.__name__, LINT, [write(make.__name__, make())])
        for make in MISSPELLED:
            if not names or make.__name__ in names:
                failed |= not ends(program, make.__name__, FIX, [write(make.__name__, make())])
        for make in CHANGES:
            if not names or make.__name__ in names:
                paths = [write(f"{make.__name__}-{word}", make(word)) for word in ("older", "newer")]
                failed |= not ends(program, make.__name__, DIFF, paths)
        if not names or "all_codes" in names:
            path, codes = write("all_codes", many_causes()), [f"E{i}" for i in range(1000)]
            failed |= not ends(program, "all_codes", ["plan", "--format", "json"], [path], codes)
        if not names or "tables" in names:
            failed |= not ends(program, "tables", READ_TABLES, [write_tables(program, pathlib.Path(folder))])
        for make in CORPORA:
            if not names or make.__name__ in names:
                (pathlib.Path(folder) / "corpus").mkdir()
                for name, document in make().items():
                    (pathlib.Path(folder) / "corpus" / name).write_text(json.dumps(document), encoding="utf-8")
                failed |= not ends(program, make.__name__, LINT, [pathlib.Path(folder) / "corpus"])
    return failed


if __name__ == "__main__":
    sys.exit(main())
