// write_quantities COUNT: texts that are quantities or nearly so, one JSON object a line, with what the
// library makes of them, for a reader that is no C++.
#include <charconv>
#include <cstdio>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "ohmlore/quantity.h"
#include "support/mutants.h"

namespace {

using namespace ohmlore;
using Pieces = std::vector<std::string_view>;

struct Taker {
  std::string_view grammar;
  Dimensions allowed;
  Pieces dimensions; // their names in the pages
  Pieces units;      // that it takes
};

const std::vector<Taker> takers{
    {"quantity",
     Dimension::resistance,
     {"resistance"},
     {"Ω", "kΩ", "MΩ", "mΩ", "\u2126", "k\u2126", "ohm", "kohm", "Kohms", "R", "kilohm", "megohms", "µΩ",
      "uohm"}},
    {"quantity", Dimension::voltage, {"voltage"}, {"V", "mV", "kV", "V dc", "VAC", "V~", "V d.c.", "V⎓"}},
    {"quantity",
     Dimension::resistance | Dimension::temperature,
     {"resistance", "temperature"},
     {"Ω", "kΩ", "K", "°C", "\u212a", "R"}},
    {"quantity",
     Dimension::temperature,
     {"temperature"},
     {"°C", "℃", "ºC", "˚C", "degC", "K", "\u212a", "°F", "℉", "degF"}},
    {"quantity", Dimension::time, {"time"}, {"s", "ms", "µs", "min", "h", "d"}},
    {"quantity", Dimension::capacitance, {"capacitance"}, {"F", "µF", "uF", "\u03bcF", "nF", "pF"}},
    {"quantity", Dimension::per_kelvin, {"per_kelvin"}, {"K^-1", "/K", "1/K", "K⁻¹", "/°C", "1/K¹"}},
    {"quantity", Dimension::per_kelvin_2, {"per_kelvin_2"}, {"K^-2", "/K²", "1/K^2", "K⁻²", "/degC^2"}},
    {"tolerance",
     Dimension::resistance | Dimension::temperature_difference | Dimension::ratio,
     {"resistance", "temperature_difference", "ratio"},
     {"%", "Ω", "kΩ", "K", "mK", "°C", "°F"}},
    {"tolerance", Dimension::ratio, {"ratio"}, {"%"}},
    {"range", Dimension::temperature, {"temperature"}, {"°C", "K", "°F", "degC"}},
    {"range", Dimension::resistance, {"resistance"}, {"Ω", "kΩ", "R", "ohm"}},
    {"range", Dimension::voltage, {"voltage"}, {"V", "V ac", "V dc", "kV~"}},
};

const Pieces spaces{"", "", "", " ", " ", " ", " ", "  ", "\u00a0", "\u2009", "\u202f"};
const Pieces signs{"", "", "", "", "", "-", "\u2212", "+"};
const Pieces codes{"4k7", "R47", "47K", "1M", "4R7", "0R", "10k", "2G2", "R", "4k7k"};
const Pieces joints{" to ", " to ", "..", "...", "…", "–", " – ", " .. ", "to", " - "};
const Pieces exponents{"e-3", "E-07", "e+2", "e\u22125", "e12", "e-40"};
const Pieces slips{" ", ".", "x", ",", "\u200b", "e3", "К"};

class Author {
public:
  explicit Author(std::uint64_t seed) : dice_(seed) {}

  std::string text(const Taker& taker) {
    const std::string_view unit = dice_.one_of(taker.units);
    std::string out;
    if (one_in(20)) out += dice_.one_of(spaces);
    if (taker.grammar == "tolerance" && !one_in(3)) {
      const bool minus_first = one_in(3);
      out += minus_first ? "-" : "+";
      out += magnitude(taker, one_in(3) ? "" : unit);
      out += Pieces{" ", "/", " / ", ""}[dice_.below(4)];
      out += minus_first != one_in(12) ? "+" : "\u2212";
      out += magnitude(taker, one_in(8) ? dice_.one_of(taker.units) : unit);
    } else if (taker.grammar == "tolerance") {
      out += Pieces{"", "±", "+/-", "+-", "± ", "+"}[dice_.below(6)];
      out += magnitude(taker, unit);
    } else {
      out += dice_.one_of(signs);
      out += magnitude(taker, taker.grammar == "range" && one_in(3) ? "" : unit);
      if (taker.grammar == "range" && !one_in(5)) {
        out += dice_.one_of(joints);
        out += dice_.one_of(signs);
        out += magnitude(taker, one_in(10) ? dice_.one_of(taker.units) : unit);
      }
    }
    if (one_in(30)) out += dice_.one_of(slips);
    return out;
  }

private:
  bool one_in(std::size_t n) { return dice_.below(n) == 0; }

  std::string magnitude(const Taker& taker, std::string_view unit) {
    if (taker.allowed.has(Dimension::resistance) && one_in(6)) return std::string(dice_.one_of(codes));
    std::string out = fmt::format("{}", dice_.below(one_in(20)  ? 1'000'000'000'000'000'000
                                                    : one_in(3) ? 100000
                                                                : 300));
    if (one_in(3)) out += fmt::format(".{:0{}}", dice_.below(1000), 3 + dice_.below(4));
    if (one_in(30)) out.insert(0, "00");
    if (taker.dimensions.front().starts_with("per_kelvin") ? !one_in(4) : one_in(60))
      out += dice_.one_of(exponents);
    out += dice_.one_of(spaces);
    out += unit;
    return out;
  }

  test::Dice dice_;
};

// A row, with the values that the pages define.
class Row {
public:
  Row() : writer_(buffer_) { writer_.StartObject(); }
  void add(std::string_view key, std::string_view text) {
    name(key);
    writer_.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
  }
  void add(std::string_view key, double value) {
    name(key);
    const std::string digits = fmt::format("{:.17g}", value);
    writer_.RawValue(digits.data(), digits.size(), rapidjson::kNumberType);
  }
  void add(std::string_view key, const Pieces& texts) {
    name(key);
    writer_.StartArray();
    for (const std::string_view text : texts)
      writer_.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
    writer_.EndArray();
  }
  void print() {
    writer_.EndObject();
    std::puts(buffer_.GetString());
  }

private:
  void name(std::string_view key) { writer_.Key(key.data(), static_cast<rapidjson::SizeType>(key.size())); }
  rapidjson::StringBuffer buffer_;
  rapidjson::Writer<rapidjson::StringBuffer> writer_;
};

void print(const Taker& taker, const std::string& text) {
  Row row;
  row.add("text", text);
  row.add("grammar", taker.grammar);
  row.add("dimensions", taker.dimensions);
  Quantity_grammar grammar = Quantity_grammar::quantity;
  bool accepted = false;
  if (taker.grammar == "tolerance") {
    grammar = Quantity_grammar::tolerance;
    if (const auto parsed = parse_tolerance(text, taker.allowed); parsed.value) {
      accepted = true;
      row.add("minus", parsed.value->minus);
      row.add("plus", parsed.value->plus);
    }
  } else if (taker.grammar == "range") {
    grammar = Quantity_grammar::range;
    if (const auto parsed = parse_range(text, taker.allowed); parsed.value) {
      accepted = true;
      row.add("low", parsed.value->low.si);
      row.add("high", parsed.value->high.si);
    }
  } else if (const auto parsed = parse_quantity(text, taker.allowed); parsed.value) {
    accepted = true;
    row.add("si", parsed.value->si);
    row.add("half_digit", parsed.value->half_digit);
  }
  if (accepted) row.add("canonical", canonical_spelling(text, grammar, taker.allowed));
  row.print();
}

}

int main(int argc, char** argv) {
  int count = 0;
  const std::string_view digits = argc == 2 ? argv[1] : "";
  std::from_chars(digits.data(), digits.data() + digits.size(), count);
  if (count <= 0) {
    std::fputs("usage: write_quantities COUNT\n", stderr);
    return 2;
  }
  Author author(2207);
  for (int i = 0; i < count; ++i) {
    const Taker& taker = takers[static_cast<std::size_t>(i) % takers.size()];
    print(taker, author.text(taker));
  }
}
