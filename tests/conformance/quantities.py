"""Quantities: texts with what they mean, and documents that show which finding a text gives."""
from bases import home
from cases import Case, put, text_of

PART = "quantities"
R, V, I, P, C = "resistance", "voltage", "current", "power", "capacitance"
T, D, B, S, PC = "temperature", "temperature_difference", "thermal_constant", "time", "ratio"
K1, K2, K6 = "per_kelvin", "per_kelvin_2", "per_kelvin_6"

# text, dimensions, canonical spelling, SI, half of the last digit
ACCEPTED_QUANTITIES = [
    ("10 kΩ", R, "10 kΩ", 10000, 500),
    ("10kΩ", R, "10 kΩ", 10000, 500),
    ("  10 kΩ ", R, "10 kΩ", 10000, 500),
    ("10\u00a0kΩ", R, "10 kΩ", 10000, 500),
    ("10\u2009kΩ", R, "10 kΩ", 10000, 500),
    ("10\u202fkΩ", R, "10 kΩ", 10000, 500),
    ("10 k\u2126", R, "10 kΩ", 10000, 500),
    ("10 kohm", R, "10 kΩ", 10000, 500),
    ("10 Kohms", R, "10 kΩ", 10000, 500),
    ("10 kOHM", R, "10 kΩ", 10000, 500),
    ("10 kilohm", R, "10 kΩ", 10000, 500),
    ("2 Megohms", R, "2 MΩ", 2000000, 500000),
    ("2 megohm", R, "2 MΩ", 2000000, 500000),
    ("15.25 kΩ", R, "15.25 kΩ", 15250, 5),
    ("15.250 kΩ", R, "15.250 kΩ", 15250, 0.5),
    ("015 Ω", R, "015 Ω", 15, 0.5),
    ("470 R", R, "470 Ω", 470, 0.5),
    ("470R", R, "470 Ω", 470, 0.5),
    ("4k7", R, "4.7 kΩ", 4700, 50),
    ("4K7", R, "4.7 kΩ", 4700, 50),
    ("47K", R, "47 kΩ", 47000, 500),
    ("1M", R, "1 MΩ", 1000000, 500000),
    ("2G2", R, "2.2 GΩ", 2200000000, 50000000),
    ("R47", R, "0.47 Ω", 0.47, 0.005),
    ("0R1", R, "0.1 Ω", 0.1, 0.05),
    ("4R70", R, "4.70 Ω", 4.7, 0.005),
    ("0 Ω", R, "0 Ω", 0, 0.5),
    ("-0.0 Ω", R, "0.0 Ω", 0, 0.05),
    ("-5 Ω", R, "-5 Ω", -5, 0.5),
    ("+5 Ω", R, "5 Ω", 5, 0.5),
    ("\u22125 Ω", R, "-5 Ω", -5, 0.5),
    ("350 mΩ", R, "350 mΩ", 0.35, 0.0005),
    ("5 uohm", R, "5 µΩ", 5e-6, 5e-7),
    ("0.1 GΩ", R, "0.1 GΩ", 100000000, 50000000),
    ("12345678901234567 Ω", R, "12345678901234567 Ω", 1.2345678901234568e16, 0.5),
    ("000012345678901234567 Ω", R, "000012345678901234567 Ω", 1.2345678901234568e16, 0.5),
    ("24 V", V, "24 V", 24, 0.5),
    ("24VDC", V, "24 V dc", 24, 0.5),
    ("24 V d.c.", V, "24 V dc", 24, 0.5),
    ("24 Vd.c.", V, "24 V dc", 24, 0.5),
    ("24 V⎓", V, "24 V dc", 24, 0.5),
    ("230 V  AC", V, "230 V ac", 230, 0.5),
    ("230 V~", V, "230 V ac", 230, 0.5),
    ("230 V a.c.", V, "230 V ac", 230, 0.5),
    ("1.5 kV", V, "1.5 kV", 1500, 50),
    ("150 mA", I, "150 mA", 0.15, 0.0005),
    ("5 µA dc", I, "5 µA dc", 5e-6, 5e-7),
    ("3 nA", I, "3 nA", 3e-9, 5e-10),
    ("2.5 kW", P, "2.5 kW", 2500, 50),
    ("2.5 uF", C, "2.5 µF", 2.5e-6, 5e-8),
    ("2.5 \u03bcF", C, "2.5 µF", 2.5e-6, 5e-8),
    ("100 pF", C, "100 pF", 1e-10, 5e-13),
    ("20 °C", T, "20 °C", 293.15, 0.5),
    ("20°C", T, "20 °C", 293.15, 0.5),
    ("20 ℃", T, "20 °C", 293.15, 0.5),
    ("20 ºC", T, "20 °C", 293.15, 0.5),
    ("20 ˚C", T, "20 °C", 293.15, 0.5),
    ("20 degC", T, "20 °C", 293.15, 0.5),
    ("68 °F", T, "68 °F", 293.15, 0.2777777777777778),
    ("68 degF", T, "68 °F", 293.15, 0.2777777777777778),
    ("68 ℉", T, "68 °F", 293.15, 0.2777777777777778),
    ("293.15 K", T, "293.15 K", 293.15, 0.005),
    ("293.15 \u212a", T, "293.15 K", 293.15, 0.005),
    ("-273.15 °C", T, "-273.15 °C", 0, 0.005),
    ("0 K", T, "0 K", 0, 0.5),
    ("3 K", D, "3 K", 3, 0.5),
    ("3 °C", D, "3 K", 3, 0.5),
    ("500 mK", D, "500 mK", 0.5, 0.0005),
    ("9 °F", D, "9 °F", 5, 0.2777777777777778),
    ("-3 K", D, "-3 K", -3, 0.5),
    ("3977 K", B, "3977 K", 3977, 0.5),
    ("3977K", B, "3977 K", 3977, 0.5),
    ("1.129148e-3 K^-1", K1, "1.129148e-3 K^-1", 1.129148e-3, 5e-10),
    ("3.9083E-03/K", K1, "3.9083e-3 K^-1", 3.9083e-3, 5e-8),
    ("3.9e-3 1/°C", K1, "3.9e-3 K^-1", 3.9e-3, 5e-5),
    ("0.0039 1/K", K1, "0.0039 K^-1", 0.0039, 5e-5),
    ("-5.775e-7 K⁻²", K2, "-5.775e-7 K^-2", -5.775e-7, 5e-11),
    ("-5.775e-7 1/K²", K2, "-5.775e-7 K^-2", -5.775e-7, 5e-11),
    ("-5.775e-7/K^2", K2, "-5.775e-7 K^-2", -5.775e-7, 5e-11),
    ("1e-15 K^-6", K6, "1e-15 K^-6", 1e-15, 5e-16),
    ("5 s", S, "5 s", 5, 0.5),
    ("10 ms", S, "10 ms", 0.01, 0.0005),
    ("1.5min", S, "1.5 min", 90, 3),
    ("2 h", S, "2 h", 7200, 1800),
    ("1 d", S, "1 d", 86400, 43200),
    ("0.8 %", PC, "0.8 %", 0.008, 0.0005),
    ("0.8%", PC, "0.8 %", 0.008, 0.0005),
    ("47K", (R, D), "47 kΩ", 47000, 500),
    ("47 K", (R, D), "47 K", 47, 0.5),
    ("47\u212a", (R, D), "47 K", 47, 0.5),
    ("5 K", (T, D), "5 K", 5, 0.5),  # of the two, °C and K are a temperature first
]
# text, dimensions, canonical spelling, minus, plus
ACCEPTED_TOLERANCES = [
    ("5 %", PC, "5 %", 0.05, 0.05),
    ("±5%", PC, "5 %", 0.05, 0.05),
    ("+/-5 %", PC, "5 %", 0.05, 0.05),
    ("+-5 %", PC, "5 %", 0.05, 0.05),
    ("± 5 %", PC, "5 %", 0.05, 0.05),
    ("+10 % -5 %", PC, "+10 % -5 %", 0.05, 0.1),
    ("-5 % +10 %", PC, "+10 % -5 %", 0.05, 0.1),
    ("+10%/-5%", PC, "+10 % -5 %", 0.05, 0.1),
    ("+10/-5 %", PC, "+10 % -5 %", 0.05, 0.1),
    ("+5 % -5 %", PC, "5 %", 0.05, 0.05),
    ("+0 % -10 %", PC, "+0 % -10 %", 0.1, 0),
    ("2 Ω", (PC, R), "2 Ω", 2, 2),
    ("+1k -0.5 kΩ", (PC, R), "+1 kΩ -0.5 kΩ", 500, 1000),
    ("±1 °C", T, "1 K", 1, 1),
    ("±0.2 K", D, "0.2 K", 0.2, 0.2),
    ("1 %", (R, D, PC), "1 %", 0.01, 0.01),
]
# text, dimensions, canonical spelling, low, high
ACCEPTED_RANGES = [
    ("-20 °C to 110 °C", T, "-20 °C to 110 °C", 253.15, 383.15),
    ("-20..110 °C", T, "-20 °C to 110 °C", 253.15, 383.15),
    ("-20 ... 110 °C", T, "-20 °C to 110 °C", 253.15, 383.15),
    ("-20…110 °C", T, "-20 °C to 110 °C", 253.15, 383.15),
    ("25–85 °C", T, "25 °C to 85 °C", 298.15, 358.15),
    ("25 °C – 85 °C", T, "25 °C to 85 °C", 298.15, 358.15),
    ("25 °C", T, "25 °C", 298.15, 298.15),
    ("25 °C to 25 °C", T, "25 °C to 25 °C", 298.15, 298.15),
    ("85 °C to 25 °C", T, "85 °C to 25 °C", 358.15, 298.15),
    ("9k8 to 10.2 kΩ", R, "9.8 kΩ to 10.2 kΩ", 9800, 10200),
    ("200 V ac to 240 V ac", V, "200 V ac to 240 V ac", 200, 240),
    ("200 V to 240 V ac", V, "200 V ac to 240 V ac", 200, 240),
]
# text, grammar, dimensions, rule
REFUSED = [
    ("10", "quantity", R, "unit-missing"),
    ("-20", "quantity", T, "unit-missing"),
    ("5", "tolerance", PC, "unit-missing"),
    ("+10 -5 %", "tolerance", PC, "unit-missing"),
    ("+5/-4k7", "tolerance", (PC, R), "unit-missing"),
    ("1 to 10 kΩ", "range", R, "unit-missing"),
    ("1 to 4k7", "range", R, "unit-missing"),
    ("1 to 10", "range", R, "unit-missing"),
    ("24 V", "quantity", R, "unit-of-other-dimension"),
    ("47 K", "quantity", R, "unit-of-other-dimension"),
    ("10 kΩ", "quantity", T, "unit-of-other-dimension"),
    ("5 %", "quantity", R, "unit-of-other-dimension"),
    ("3 °C", "quantity", B, "unit-of-other-dimension"),
    ("3 K^-1", "quantity", K2, "unit-of-other-dimension"),
    ("5 V", "tolerance", (PC, R), "unit-of-other-dimension"),
    ("4,7 kΩ", "quantity", R, "decimal-comma"),
    ("1,000 Ω", "quantity", R, "decimal-comma"),
    ("0,250 Ω", "quantity", R, "decimal-comma"),
    ("2,5 %", "tolerance", PC, "decimal-comma"),
    ("20,5 °C to 30 °C", "range", T, "decimal-comma"),
    ("20,5 °C – 30 °C", "range", T, "decimal-comma"),
    ("10 КΩ", "quantity", R, "look-alike-refused"),  # Cyrillic
    ("10 kω", "quantity", R, "look-alike-refused"),  # Greek small letter
    ("１0 kΩ", "quantity", R, "look-alike-refused"),  # fullwidth digit
    ("–20 °C", "quantity", T, "look-alike-refused"),  # en dash
    ("20 ⁰C", "quantity", T, "look-alike-refused"),  # superscript zero
    ("20 °С", "quantity", T, "look-alike-refused"),  # Cyrillic
    ("5 ％", "tolerance", PC, "look-alike-refused"),  # fullwidth
    ("20 ᵒC", "quantity", T, "look-alike-refused"),  # modifier letter
    ("1.2Е-3 K^-1", "quantity", K1, "look-alike-refused"),  # Cyrillic
    *((f"1{character}0 Ω", "quantity", R, "look-alike-refused") for character in
      "АВСЕНКМОРасекморѕ" "ΑΒΚΜΟΡκοω" "ᴀ" "\u2010\u2011\u2012\u2013\u2014\u2015\ufe58\ufe63\ufe62\ufe6a\u066a"
      "０１２３４５６７８９％＋－．／ＡＣＦＧＫＭＯＲＶＷｃｄｈｋｍｎｏｐｓｕ" "\u00ad\u200b\u2060\ufeff"),
    ("10\u200b kΩ", "quantity", R, "look-alike-refused"),  # not drawn
    ("123456789012345678 Ω", "quantity", R, "digits-too-many"),
    ("1.00000000000000000 Ω", "quantity", R, "digits-too-many"),
    ("-300 °C", "quantity", T, "quantity-out-of-reach"),
    ("-1 K", "quantity", T, "quantity-out-of-reach"),
    ("-460 °F", "quantity", T, "quantity-out-of-reach"),
    ("1e40 K^-1", "quantity", K1, "quantity-out-of-reach"),
    ("1e-40 K^-1", "quantity", K1, "quantity-out-of-reach"),
    ("about 10 kΩ", "quantity", R, "quantity-unreadable"),
    ("10 kΩ nominal", "quantity", R, "quantity-unreadable"),
    ("10 kilo", "quantity", R, "quantity-unreadable"),
    ("15.25k", "quantity", R, "quantity-unreadable"),
    ("4K7K", "quantity", R, "quantity-unreadable"),
    ("4k7Ω", "quantity", R, "quantity-unreadable"),
    ("4k7 J", "quantity", R, "quantity-unreadable"),
    ("4k 7", "quantity", R, "quantity-unreadable"),
    ("1.5e3 Ω", "quantity", R, "quantity-unreadable"),
    ("10 000 Ω", "quantity", R, "quantity-unreadable"),
    (".5 Ω", "quantity", R, "quantity-unreadable"),
    ("5. Ω", "quantity", R, "quantity-unreadable"),
    ("--5 Ω", "quantity", R, "quantity-unreadable"),
    ("- 5 Ω", "quantity", R, "quantity-unreadable"),
    ("10 KW", "quantity", P, "quantity-unreadable"),
    ("10 kk Ω", "quantity", R, "quantity-unreadable"),
    ("Ω", "quantity", R, "quantity-unreadable"),
    (" ", "quantity", R, "quantity-unreadable"),
    ("10 kΩ to 12 kΩ", "quantity", R, "quantity-unreadable"),
    ("±10 Ω", "quantity", R, "quantity-unreadable"),
    ("20 C", "quantity", T, "quantity-unreadable"),
    ("20 °c", "quantity", T, "quantity-unreadable"),
    ("20 mK", "quantity", T, "quantity-unreadable"),
    ("0.5K", "quantity", (R, D), "quantity-unreadable"),
    ("47k", "quantity", T, "quantity-unreadable"),
    ("5 Min", "quantity", S, "quantity-unreadable"),
    ("230 V ac dc", "quantity", V, "quantity-unreadable"),
    ("+10 %", "tolerance", PC, "quantity-unreadable"),
    ("-5 %", "tolerance", PC, "quantity-unreadable"),
    ("+10 % +5 %", "tolerance", PC, "quantity-unreadable"),
    ("10 % 5 %", "tolerance", PC, "quantity-unreadable"),
    ("+10 % -5 Ω", "tolerance", (PC, R), "quantity-unreadable"),
    ("20-30 °C", "range", T, "quantity-unreadable"),
    ("20 °C - 30 °C", "range", T, "quantity-unreadable"),
    ("20 °C to", "range", T, "quantity-unreadable"),
    ("20 °Cto 30 °C", "range", T, "quantity-unreadable"),
    ("200 V ac to 240 V dc", "range", V, "quantity-unreadable"),
]


def dimensions(value):
    return list(value) if isinstance(value, tuple) else [value]


def vectors():
    """What quantities.json holds."""
    def accepted(grammar, rows, first, second):
        for text, allowed, canonical, one, two in rows:
            yield {"text": text, "grammar": grammar, "dimensions": dimensions(allowed), "canonical": canonical,
                   first: one, second: two}

    return {
        "accepted": [
            *accepted("quantity", ACCEPTED_QUANTITIES, "si", "half_digit"),
            *accepted("tolerance", ACCEPTED_TOLERANCES, "minus", "plus"),
            *accepted("range", ACCEPTED_RANGES, "low", "high"),
        ],
        "refused": [{"text": text, "grammar": grammar, "dimensions": dimensions(allowed), "rule": rule}
                    for text, grammar, allowed, rule in REFUSED],
    }


ACCEPTED_LOOK_ALIKES = set("\u2126\u03bc\u00ba\u02da\u2212\u212a")


def note_of(text, canonical):
    if text == canonical:
        return None
    return "look-alike-accepted" if set(text) & ACCEPTED_LOOK_ALIKES else "spelling-not-canonical"


def everything():
    resistor, at = home("model", "fixed")
    place = f"{at}/resistance"
    for name, text, canonical, si, shows in (
            ("unit", "10kohm", "10 kΩ", 10000, "another spelling of the unit"),
            ("code", "4k7", "4.7 kΩ", 4700, "a code of IEC 60062"),
            ("code-digits", "4R70", "4.70 Ω", 4.7, "a code, whose digits are kept"),
            ("kilo-capital", "4.70 KΩ", "4.70 kΩ", 4700, "K for kilo"),
            ("ohm-sign", "10 k\u2126", "10 kΩ", 10000, "the OHM SIGN U+2126"),
            ("spaces", " 10  kΩ", "10 kΩ", 10000, "spaces around and inside"),
            ("digits", "015.250 kΩ", "015.250 kΩ", 15250, "digits that are kept"),
            ("canonical", "10.0 kΩ", "10.0 kΩ", 10000, "the canonical spelling")):
        note = note_of(text, canonical)
        yield Case(PART, f"spelling-{name}", "part", shows, put(resistor, place, text),
                   [(note, place, "note")] if note else [], [(place, {"canonical": canonical, "si": si})])
    name = "spelling-escaped"
    content = text_of(put(put(resistor, place, "10 kOMEGA"), "/id", name)).replace("kOMEGA", "k\\u03a9") + "\n"
    yield Case(PART, name, "part", "a quantity written with an escape: an escape is no other spelling",
               content.encode(),
               [], [(place, {"canonical": "10 kΩ", "si": 10000})])

    beta, at = home("model", "beta")
    for key, text, canonical, value in (
            ("at", "68 °F", "68 °F", {"si": 293.15}), ("b_between", "25..85 °C", "25 °C to 85 °C",
                                                       {"low": 298.15, "high": 358.15}),
            ("tolerance", "±1%", "1 %", {"minus": 0.01, "plus": 0.01}),
            ("b_tolerance", "+2/-1 %", "+2 % -1 %", {"minus": 0.01, "plus": 0.02})):
        note = note_of(text, canonical)
        yield Case(PART, f"beta-{key}", "part", f"`{key}` is \"{text}\"", put(beta, f"{at}/{key}", text),
                   [(note, f"{at}/{key}", "note")] if note else [], [(f"{at}/{key}",
                                                                      {"canonical": canonical, **value})])

    for name, text, rule in (
            ("unit-missing", "10", "unit-missing"), ("voltage", "24 V", "unit-of-other-dimension"),
            ("kelvin", "47 K", "unit-of-other-dimension"), ("comma", "4,7 kΩ", "decimal-comma"),
            ("thousands", "1,000 Ω", "decimal-comma"), ("cyrillic", "10 КΩ", "look-alike-refused"),
            ("fullwidth", "１0 kΩ", "look-alike-refused"), ("zero-width", "10\u200b kΩ", "look-alike-refused"),
            ("digits", "123456789012345678 Ω", "digits-too-many"), ("words", "about 10 kΩ", "quantity-unreadable"),
            ("code-unit", "4k7Ω", "quantity-unreadable"), ("exponent", "1.5e3 Ω", "quantity-unreadable"),
            ("grouped", "10 000 Ω", "quantity-unreadable"), ("range", "9 kΩ to 10 kΩ", "quantity-unreadable"),
            ("tolerance", "10 kΩ ±5 %", "quantity-unreadable"), ("blank", " ", "quantity-unreadable")):
        yield Case(PART, f"refused-{name}", "part", f"a resistance written \"{text}\"", put(resistor, place, text),
                   [(rule, place)])
    yield Case(PART, "refused-number", "part", "a resistance that is a number: a unit is missing, and not text alone",
               put(resistor, place, 470), [("unit-missing", place)])
    for name, key, text, rule in (
            ("absolute-zero", "at", "-300 °C", "quantity-out-of-reach"), ("farad", "at", "20 F",
                                                                          "unit-of-other-dimension"),
            ("dash", "at", "–20 °C", "look-alike-refused"), ("hyphen", "b_between", "25-85 °C", "quantity-unreadable"),
            ("one-end", "b_between", "25 °C to", "quantity-unreadable"), ("b-celsius", "b_value", "3977 °C",
                                                                          "unit-of-other-dimension"),
            ("one-side", "tolerance", "+5 %", "quantity-unreadable"), ("same-signs", "tolerance", "+5 % +2 %",
                                                                       "quantity-unreadable"),
            ("side-unit", "tolerance", "+5 -2 %", "unit-missing"), ("kelvin-tolerance", "tolerance", "1 K",
                                                                    "unit-of-other-dimension")):
        yield Case(PART, f"refused-{name}", "part", f"`{key}` is \"{text}\"", put(beta, f"{at}/{key}", text),
                   [(rule, f"{at}/{key}")])
