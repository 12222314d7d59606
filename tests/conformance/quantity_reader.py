"""Quantities, read as spec/v1/quantities.md describes them and not as the library does: its grammar as regular
expressions, its units as a table, its values as fractions. Only what Python brings along."""
import re
from fractions import Fraction

SPACE = "[ \u00a0\u2009\u202f]"
MINUS = "[-\u2212]"
NUMBER = r"(?P<digits{0}>[0-9]+(?:\.[0-9]+)?)(?:[eE](?P<exponent{0}>(?:[+]|[-\u2212])?[0-9]+))?"
CODE = "(?P<code{0}>[0-9]+[RkKMG][0-9]*|R[0-9]+)"
FORMS = {"ac": "ac AC a.c. ~", "dc": "dc DC d.c. ⎓"}
MOST_DIGITS = 17
POWERS = {"p": -12, "n": -9, "µ": -6, "m": -3, "": 0, "k": 3, "M": 6, "G": 9}
MICROS = "µ\u03bcu"

# Characters that are refused by name. An en dash is left out: between the ends of a range it is right.
LOOK_ALIKES = set("АВСЕНКМОРасекморѕ" "ΑΒΚΜΟΡκοω" "ᴀ" "⁰ᵒ" "\ufe6a\u066a" "\u00ad\u200b\u2060\ufeff"
                  "\u2010\u2011\u2012\u2013\u2014\u2015\ufe58\ufe63" "\ufe62"
                  "０１２３４５６７８９％＋－．／ＡＣＦＧＫＭＯＲＶＷｃｄｈｋｍｎｏｐｓｕ")
ACCEPTED_LOOK_ALIKES = set("\u2126\u03bc\u00ba\u02da\u2212\u212a")


class Refused(Exception):
    """Its argument is the rule that names why."""


class Unit:
    def __init__(self, canonical, factor, offset=0, prefixed=False):
        self.canonical, self.prefixed = canonical, prefixed
        self.factor, self.offset = Fraction(factor), Fraction(offset)


def power_of_ten(n):
    return Fraction(10) ** n


def prefixes(spelling, canonical, allowed, kilo_capital=False):
    """The spellings of a unit with the prefixes that it may have."""
    for prefix in ("", *allowed):
        unit = Unit(prefix + canonical, power_of_ten(POWERS[prefix]), prefixed=prefix != "")
        for written in MICROS if prefix == "µ" else [prefix]:
            yield written + spelling, unit
        if prefix == "k" and kilo_capital:
            yield "K" + spelling, unit


CELSIUS = ["°C", "℃", "ºC", "˚C", "degC"]
FAHRENHEIT = ["°F", "℉", "ºF", "˚F", "degF"]
KELVIN = ["K", "\u212a"]


def units():
    table = {}

    def add(dimension, pairs):
        table.setdefault(dimension, {}).update(pairs)

    for ohm in "Ω \u2126 ohm Ohm OHM ohms Ohms OHMS".split():
        add("resistance", prefixes(ohm, "Ω", "µmkMG", kilo_capital=True))
    add("resistance", [("R", Unit("Ω", 1))])
    add("resistance", [(word, Unit("kΩ", 1000, prefixed=True)) for word in ("kilohm", "kilohms")])
    for word in ("megohm", "Megohm", "megohms", "Megohms"):
        add("resistance", [(word, Unit("MΩ", 10**6, prefixed=True))])
    for dimension, unit, allowed in (("voltage", "V", "µmk"), ("current", "A", "nµmk"), ("power", "W", "µmkM"),
                                     ("capacitance", "F", "pnµm"), ("time", "s", "µm")):
        add(dimension, prefixes(unit, unit, allowed))
    add("time", [("min", Unit("min", 60)), ("h", Unit("h", 3600)), ("d", Unit("d", 86400))])
    add("ratio", [("%", Unit("%", Fraction(1, 100)))])
    for unit in CELSIUS:
        add("temperature", [(unit, Unit("°C", 1, Fraction("273.15")))])
        add("temperature_difference", [(unit, Unit("K", 1))])
    for unit in FAHRENHEIT:
        add("temperature", [(unit, Unit("°F", Fraction(5, 9), Fraction("459.67") * Fraction(5, 9)))])
        add("temperature_difference", [(unit, Unit("°F", Fraction(5, 9)))])
    for unit in KELVIN:
        add("temperature", [(unit, Unit("K", 1))])
        add("temperature_difference", prefixes(unit, "K", "m"))
        add("thermal_constant", [(unit, Unit("K", 1))])
    for n in range(1, 7):
        raised = "⁰¹²³⁴⁵⁶"[n]
        unit = Unit(f"K^-{n}", 1)
        for kelvin in CELSIUS + KELVIN:
            written = [f"{kelvin}^-{n}", f"1/{kelvin}^{n}", f"/{kelvin}^{n}", f"{kelvin}⁻{raised}",
                       f"1/{kelvin}{raised}", f"/{kelvin}{raised}"]
            add("per_kelvin" if n == 1 else f"per_kelvin_{n}",
                [(w, unit) for w in written + ([f"1/{kelvin}", f"/{kelvin}"] if n == 1 else [])])
    return table


UNITS = units()
ORDER = list(UNITS)
ORDER.sort(key=lambda d: ["temperature", "temperature_difference", "thermal_constant"].index(d)
           if d in ("temperature", "temperature_difference", "thermal_constant") else -1)


def any_of(words):
    return "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))


EVERY_UNIT = any_of({spelling for spellings in UNITS.values() for spelling in spellings})
UNIT = f"(?P<unit{{0}}>{EVERY_UNIT})(?:{SPACE}*(?P<form{{0}}>{any_of((FORMS['ac'] + ' ' + FORMS['dc']).split())}))?"
JOINT = f"(?:{SPACE}*)"  # of number and unit
MAGNITUDE = f"(?:{CODE}|{NUMBER}{JOINT}{UNIT})"
BARE = NUMBER  # without its unit
SIGN = f"(?P<sign{{0}}>[+]|{MINUS})"


class Pattern:
    """Each %s of the text is replaced by a part of the grammar, with groups of its own number; `_` is spaces. A code is
    tried where a resistance may stand, and a number with a unit after it."""

    def __init__(self, text, *parts):
        self.forms = []
        for code, joint in ((CODE, JOINT_BESIDE_CODES), (NO_CODE, JOINT)):
            form = text.replace("_", f"{SPACE}*")
            for number, part in enumerate(parts):
                form = form.replace("%s", part.replace(CODE, code).replace(JOINT, joint).replace("{0}", str(number)), 1)
            self.forms.append(re.compile(f"{SPACE}*{form}{SPACE}*\\Z"))

    def match(self, text, dimensions):
        return self.forms["resistance" not in dimensions].match(text)


VALUE = f"{SIGN}?{MAGNITUDE}"
NO_CODE = "(?P<code{0}>(?!))"
# Beside codes, a K directly behind a number is kilo and never kelvin.
JOINT_BESIDE_CODES = f"(?:{SPACE}+|(?!K(?![oOΩ\u2126])))"
NO_CODE_AHEAD = f"(?![0-9]+[RkKMG][0-9]*{SPACE}*\\Z)"  # a code is preferred to a number with a unit
SIGNED_NUMBER = f"{SIGN}?{BARE}"
TO = f"(?:{SPACE}+to{SPACE}+|{SPACE}*(?:[.][.][.]|[.][.]|…|–){SPACE}*)"
QUANTITY = Pattern("%s", VALUE)
QUANTITY_WITHOUT_UNIT = Pattern("%s", SIGNED_NUMBER)
BOTH_SIDES = Pattern(f"(?:(?:±|[+]/{MINUS}|[+]{MINUS})_)?%s", MAGNITUDE)
TWO_SIDES = Pattern("%s_(?:/_)?%s", f"{SIGN}{SPACE}*{MAGNITUDE}", f"{SIGN}{SPACE}*{MAGNITUDE}")
TWO_SIDES_ONE_UNIT = Pattern("%s_/_%s", f"{SIGN}{SPACE}*{BARE}", f"{SIGN}{SPACE}*{NO_CODE_AHEAD}{NUMBER}{JOINT}{UNIT}")
TOLERANCE_WITHOUT_UNIT = [
    Pattern(f"(?:(?:±|[+]/{MINUS}|[+]{MINUS})_)?%s", BARE),
    Pattern("%s_(?:/_)?%s", f"{SIGN}{SPACE}*{BARE}", f"{SIGN}{SPACE}*(?:{MAGNITUDE}|{NUMBER.replace('{0}', '9')})"),
]
RANGE = Pattern(f"%s{TO}%s", VALUE, VALUE)
RANGE_ONE_UNIT = Pattern(f"%s{TO}%s", SIGNED_NUMBER, VALUE)
RANGE_WITHOUT_UNIT = [Pattern("%s", SIGNED_NUMBER), Pattern(f"%s{TO}%s", SIGNED_NUMBER, SIGNED_NUMBER)]


class Value:
    """One value: written digits, unit, dimension; `exact` is its SI value."""

    def __init__(self, match, number, dimension, unit_of=None):
        group = lambda name, n=number: match.groupdict().get(f"{name}{n}")
        source = number if unit_of is None else unit_of
        self.sign = "-" if (group("sign") or "+") in "-\u2212" else ""
        self.dimension, self.form = dimension, None
        exponent = 0
        if group("code"):
            letter = re.search("[RkKMG]", group("code"))[0]
            before, after = group("code").split(letter)
            self.digits = (before or "0") + (f".{after}" if after else "")
            prefix = {"R": "", "K": "k"}.get(letter, letter)
            self.unit = Unit(prefix + "Ω", power_of_ten(POWERS[prefix]), prefixed=prefix != "")
            if dimension != "resistance":
                raise KeyError(dimension)
        else:
            self.digits = group("digits")
            self.unit = UNITS[dimension][group("unit", source)]
            self.form = next((name for name, words in FORMS.items() if (group("form",
                                                                              source) or "?") in words.split()), None)
            if self.form and dimension not in ("voltage", "current"):
                raise KeyError(dimension)
            if group("exponent"):
                if not dimension.startswith("per_kelvin"):
                    raise KeyError(dimension)
                exponent = int(group("exponent").replace("\u2212", "-"))
        self.exponent = exponent if group("exponent") else None
        decimals = len(self.digits.partition(".")[2])
        scale = power_of_ten(exponent) * self.unit.factor
        number = Fraction(self.digits) * (-1 if self.sign else 1)
        self.exact = number * scale + self.unit.offset
        self.half_digit = power_of_ten(-decimals) * scale / 2
        if number == 0:
            self.sign = ""

    def checked(self):
        if len(self.digits.replace(".", "").lstrip("0")) > MOST_DIGITS:
            raise Refused("digits-too-many")
        if self.dimension == "temperature" and self.exact < 0:
            raise Refused("quantity-out-of-reach")
        if self.exact != 0 and not power_of_ten(-30) <= abs(self.exact) <= power_of_ten(30):
            raise Refused("quantity-out-of-reach")
        return self

    def canonical(self, sign=None):
        exponent = "" if self.exponent is None else f"e{self.exponent}"
        form = f" {self.form}" if self.form else ""
        return f"{self.sign if sign is None else sign}{self.digits}{exponent} {self.unit.canonical}{form}"


def in_any(match, number, dimensions, unit_of=None):
    for dimension in dimensions:
        try:
            return Value(match, number, dimension, unit_of)
        except KeyError:
            continue
    return None


def quantity(text, dimensions):
    if match := QUANTITY.match(text, dimensions):
        if value := in_any(match, 0, dimensions):
            value.checked()
            return value.canonical(), {"si": float(value.exact), "half_digit": float(value.half_digit)}
    return None


def tolerance(text, dimensions):
    dimensions = ["temperature_difference" if d == "temperature" else d for d in dimensions]
    if match := BOTH_SIDES.match(text, dimensions):
        if value := in_any(match, 0, dimensions):
            value.checked()
            return value.canonical(""), {"minus": float(value.exact), "plus": float(value.exact)}
    for form, unit_of in ((TWO_SIDES, None), (TWO_SIDES_ONE_UNIT, 1)):
        if not (match := form.match(text, dimensions)):
            continue
        if (match["sign0"] == "+") == (match["sign1"] == "+"):
            continue
        for dimension in dimensions:
            first, second = in_any(match, 0, [dimension], unit_of), in_any(match, 1, [dimension])
            if first and second:
                plus, minus = (first, second) if match["sign0"] == "+" else (second, first)
                plus.checked(), minus.checked()
                same = plus.canonical("") == minus.canonical("")
                canonical = plus.canonical("") if same else f"{plus.canonical('+')} {minus.canonical('-')}"
                return canonical, {"minus": float(abs(minus.exact)), "plus": float(abs(plus.exact))}
    return None


def range_(text, dimensions):
    if single := quantity(text, dimensions):
        return single[0], {"low": single[1]["si"], "high": single[1]["si"]}
    for form, unit_of in ((RANGE, None), (RANGE_ONE_UNIT, 1)):
        if not (match := form.match(text, dimensions)):
            continue
        for dimension in dimensions:
            low, high = in_any(match, 0, [dimension], unit_of), in_any(match, 1, [dimension])
            if not low or not high or (unit_of and (high.unit.prefixed or match["code1"])):
                continue
            if low.form and high.form and low.form != high.form:
                continue
            low.form = high.form = low.form or high.form
            low.checked(), high.checked()
            return f"{low.canonical()} to {high.canonical()}", {"low": float(low.exact), "high": float(high.exact)}
    return None


GRAMMARS = {"quantity": quantity, "tolerance": tolerance, "range": range_}
WITHOUT_UNIT = {"quantity": [QUANTITY_WITHOUT_UNIT], "tolerance": TOLERANCE_WITHOUT_UNIT,
                "range": [*RANGE_WITHOUT_UNIT, RANGE_ONE_UNIT]}


def read(text, grammar, dimensions):
    """(canonical spelling, values in SI). Raises Refused with the rule."""
    dimensions = sorted(dimensions, key=ORDER.index)
    parse = GRAMMARS[grammar]
    if found := parse(text, dimensions):
        return found
    if re.search("[0-9],[0-9]", text):
        raise Refused("decimal-comma")
    if set(text) & LOOK_ALIKES and not (grammar == "range" and set(text) & LOOK_ALIKES == {"–"}):
        raise Refused("look-alike-refused")
    if any(form.match(text, dimensions) for form in WITHOUT_UNIT[grammar]):
        raise Refused("unit-missing")
    codes_are_read = "resistance" in dimensions or not CODE_ALONE.search(text)
    others = [d for d in ORDER if d != "resistance" or codes_are_read]
    if parsed(text, grammar, others) and not any(parsed(t, grammar, dimensions) for t in without_prefix(text)):
        raise Refused("unit-of-other-dimension")
    raise Refused("quantity-unreadable")


CODE_ALONE = re.compile("[0-9][RkKMG]([0-9]|$)|R[0-9]")  # read only where a resistance may stand


def parsed(text, grammar, dimensions):
    try:
        return GRAMMARS[grammar](text, dimensions) is not None
    except Refused:
        return True


def without_prefix(text):
    """Where the unit fits and its prefix alone does not, nothing measures another dimension."""
    for match in re.finditer(f"[{MICROS}pnmkMGK]", text):
        yield text[:match.start()] + text[match.end():]


def spelling_note(text, canonical):
    """The rule of the note about an accepted text; None for the canonical spelling."""
    if text == canonical:
        return None
    return "look-alike-accepted" if set(text) & ACCEPTED_LOOK_ALIKES else "spelling-not-canonical"
