// Rules against published values: what the rules say of them was decided outside the project.
#include "ohmlore/lint.h"

#include "../support/csv.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace ohmlore {
namespace {

std::string reference_file(const std::string& name) { return OHMLORE_REFERENCE_DIR "/reference/" + name; }

#define READ_OR_SKIP(csv, name)                                                                              \
  const std::optional<test::Csv> csv = test::read_csv(reference_file(name));                                 \
  if (!csv) GTEST_SKIP() << "no reference values at " << reference_file(name)

std::vector<Finding> lint(const std::string& members) {
  const std::string text = fmt::format(R"({{
  "format": "ohmlore/1.0", "kind": "profile", "id": "example", "revision": 1,
  "appliance": {{
    "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
    "controller": {{ "part": "OV-4410" }}
  }},
  "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "fused spur" }}] }},
  "sources": {{ "notes": {{ "kind": "maker_document", "title": "Larch service notes" }} }},
  "source": {{ "from": "notes" }},
  {}
}})",
                                       members);
  return lint_document(read_json("example.profile.json", text), {}).findings;
}

std::vector<Finding> of_rule(const std::vector<Finding>& findings, std::string_view rule) {
  std::vector<Finding> found;
  std::copy_if(findings.begin(), findings.end(), std::back_inserter(found),
               [&](const Finding& finding) { return finding.rule == rule; });
  return found;
}

// Which of some texts the linter takes for colour codes.
std::map<std::string, bool> accepted_colours(const std::vector<std::string>& texts) {
  constexpr std::size_t ways = 200;
  std::string connectors;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (i % ways == 0)
      connectors += fmt::format(R"({}"X{}": {{ "label": "X", "ways": 200, "circuit": "selv", "pins": {{)",
                                i == 0 ? "" : "}}, ", i / ways);
    connectors += fmt::format(R"({}"{}": {{ "wire": {{ "base": "{}" }} }})", i % ways == 0 ? "" : ", ",
                              i % ways + 1, texts[i]);
  }
  const auto found = of_rule(lint("\"connectors\": {" + connectors + "}}}"), "colour-code-unknown");
  std::map<std::string, bool> accepted;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const std::string at = fmt::format("/connectors/X{}/pins/{}/wire/base", i / ways, i % ways + 1);
    accepted[texts[i]] =
        std::none_of(found.begin(), found.end(), [&](const Finding& f) { return f.pointer == at; });
  }
  return accepted;
}

// ISO 3166-1, as the tz database lists it: code, tab, name.
TEST(Countries, two_letters_are_a_code_where_the_standard_assigns_them) {
  std::ifstream list("/usr/share/zoneinfo/iso3166.tab");
  if (!list) GTEST_SKIP() << "no list of countries in /usr/share/zoneinfo";
  std::set<std::string> listed;
  for (std::string line; std::getline(list, line);)
    if (!line.starts_with('#')) listed.insert(line.substr(0, 2));
  ASSERT_EQ(listed.size(), 249u);
  listed.insert("XK"); // Kosovo, by a code for users
  std::vector<std::string> texts;
  for (char a = 'A'; a <= 'Z'; ++a)
    for (char b = 'A'; b <= 'Z'; ++b) texts.push_back({a, b});
  const std::string text = fmt::format(R"({{
  "format": "ohmlore/1.0", "kind": "profile", "id": "example", "revision": 1,
  "appliance": {{ "maker": "Orrinvale", "models": ["Larch 24 C"], "markets": ["{}"] }}
}})",
                                       fmt::join(texts, "\", \""));
  const auto found =
      of_rule(lint_document(read_json("example.profile.json", text), {}).findings, "country-code-unknown");
  std::set<std::string> refused;
  for (const Finding& finding : found) refused.insert(finding.pointer);
  for (std::size_t i = 0; i < texts.size(); ++i)
    EXPECT_EQ(refused.count(fmt::format("/appliance/markets/{}", i)), listed.count(texts[i]) ? 0u : 1u)
        << texts[i];
}

// IEC 60757, as listed in the reference folder.
TEST(Colours, two_letters_are_a_code_where_the_standard_lists_them) {
  READ_OR_SKIP(csv, "iec60757_colours.csv");
  ASSERT_EQ(csv->rows.size(), 15u);
  std::map<std::string, bool> listed;
  for (std::size_t i = 0; i < csv->rows.size(); ++i) listed[csv->text(i, "code")] = true;
  std::vector<std::string> texts = {"GNYE"};
  for (char a = 'A'; a <= 'Z'; ++a)
    for (char b = 'A'; b <= 'Z'; ++b) texts.push_back({a, b});
  for (const auto& [text, accepted] : accepted_colours(texts)) EXPECT_EQ(accepted, listed[text]) << text;
}

// The same: "combinations are joined in table order (RDBU); GN and YE are combined only as GNYE".
TEST(Colours, combinations_stand_in_the_order_of_the_table) {
  READ_OR_SKIP(csv, "iec60757_colours.csv");
  std::vector<std::string> codes, texts;
  for (std::size_t i = 0; i < csv->rows.size(); ++i) codes.push_back(csv->text(i, "code"));
  codes.pop_back();
  for (const std::string& a : codes)
    for (const std::string& b : codes) texts.push_back(a + b);
  const auto accepted = accepted_colours(texts);
  for (std::size_t i = 0; i < codes.size(); ++i)
    for (std::size_t j = 0; j < codes.size(); ++j) {
      const std::string pair = codes[i] + codes[j];
      const bool earth = pair == "GNYE", split = pair == "YEGN";
      EXPECT_EQ(accepted.at(pair), earth || (!split && i < j)) << pair;
    }
  EXPECT_TRUE(accepted.at("RDBU"));
}

std::vector<Finding> lint_motor(std::string_view connection, std::string_view extra, double ab, double bc,
                                double ac, std::string_view of_model = "") {
  return lint(fmt::format(R"("connectors": {{
    "X9": {{ "label": "X9", "ways": 3, "circuit": "mains", "pins": {{ "1": {{}}, "2": {{}}, "3": {{}} }} }}
  }},
  "components": {{
    "motor": {{
      "kind": "winding", "name": "Motor", "connection": "{}", {}
      "terminals": {{ "a": "X9.1", "b": "X9.2", "c": "X9.3" }},
      "model": {{
        "kind": "copper", "at": "20 °C", "resistance": "{} Ω", {}
        "pairs": [
          {{ "from": "a", "to": "b", "resistance": "{} Ω" }},
          {{ "from": "b", "to": "c", "resistance": "{} Ω" }},
          {{ "from": "a", "to": "c", "resistance": "{} Ω" }}
        ]
      }}
    }}
  }})",
                          connection, extra, ab, of_model, ab, bc, ac));
}

// Published sets of start and run windings: a broken sum is a warning and never an error, since the sets obey
// the triangle (reference folder's README, Networks).
TEST(Windings, published_sets_are_warned_of_where_the_sum_does_not_hold) {
  READ_OR_SKIP(csv, "motor_windings_examples.csv");
  ASSERT_EQ(csv->rows.size(), 3u);
  for (std::size_t i = 0; i < csv->rows.size(); ++i) {
    SCOPED_TRACE(csv->text(i, "source"));
    const auto findings = lint_motor("start_run", "\"purely_resistive\": true,", csv->number(i, "CR"),
                                     csv->number(i, "CS"), csv->number(i, "SR"));
    EXPECT_EQ(of_rule(findings, "winding-sum-off").size(), csv->text(i, "rule_holds") == "no" ? 1u : 0u);
    for (const Finding& finding : findings) EXPECT_NE(finding.severity, Severity::error) << finding.message;
  }
}

// Resistance distance is a metric (D. J. Klein, M. Randić, J. Math. Chem. 12, 1993, 81-95): a delta of 30, 60
// and 90 Ω reads 25, 40 and 45 Ω (reference folder's README). 25 Ω and 40 Ω allow 65 Ω and no more.
TEST(Networks, a_delta_obeys_the_triangle_and_nothing_beyond_does) {
  const std::string resistive = "\"purely_resistive\": true,";
  EXPECT_TRUE(of_rule(lint_motor("delta", resistive, 25, 40, 45), "triangle-broken").empty());
  EXPECT_TRUE(of_rule(lint_motor("delta", resistive, 25, 40, 66), "triangle-broken").empty()); // rounded
  const auto broken = of_rule(lint_motor("delta", resistive, 25, 40, 67), "triangle-broken");
  ASSERT_EQ(broken.size(), 1u);
  EXPECT_EQ(broken.front().severity, Severity::warning); // as measured, perhaps
  const std::string one_percent = "\"tolerance\": \"1 %\",";
  EXPECT_TRUE(of_rule(lint_motor("delta", resistive, 25, 40, 66, one_percent), "triangle-broken").empty());
  const auto surely = of_rule(lint_motor("delta", resistive, 25, 40, 72, one_percent), "triangle-broken");
  ASSERT_EQ(surely.size(), 1u);
  EXPECT_EQ(surely.front().severity, Severity::error); // 72 Ω less 1 % and rounding is 70.8 Ω
  const auto undeclared = of_rule(lint_motor("delta", "", 25, 40, 67), "triangle-broken");
  ASSERT_EQ(undeclared.size(), 1u);
  EXPECT_EQ(undeclared.front().severity, Severity::warning);
}

// Which of the 900 three-digit values of a decade the linter takes for preferred ones.
std::vector<bool> accepted_decade(std::string_view tolerance, std::string_view unit, double scale) {
  std::string components;
  for (int value = 100; value < 1000; ++value)
    components += fmt::format(R"({}"r{}": {{ "kind": "resistor", "name": "R",
      "model": {{ "kind": "fixed", "resistance": "{} {}", "tolerance": "{}" }} }})",
                              value == 100 ? "" : ", ", value, value * scale, unit, tolerance);
  std::vector<bool> accepted(1000, true);
  for (const Finding& finding : of_rule(lint("\"components\": {" + components + "}"), "off-e-series")) {
    int value = 0;
    EXPECT_EQ(std::sscanf(finding.pointer.c_str(), "/components/r%d/model/resistance", &value), 1);
    if (value >= 100 && value < 1000) accepted[static_cast<std::size_t>(value)] = false;
  }
  return accepted;
}

// IEC 60063, as published in tables of the series; E192 holds 920, which no formula gives.
TEST(Reference, Preferred_values_are_those_of_the_published_series) {
  READ_OR_SKIP(csv, "e_series_iec60063.csv");
  std::vector<bool> coarse(1000, false), any(1000, false);
  for (std::size_t row = 0; row < csv->rows.size(); ++row) {
    const std::string& series = csv->text(row, "series");
    const auto value = static_cast<std::size_t>(csv->number(row, "value_x100"));
    ASSERT_LT(value, 1000u);
    any[value] = true;
    if (series == "E6" || series == "E12" || series == "E24") coarse[value] = true;
  }
  for (const auto& [unit, scale] : {std::pair{"Ω", 0.01}, {"Ω", 1.0}, {"kΩ", 0.1}, {"MΩ", 0.01}}) {
    const std::vector<bool> fine_found = accepted_decade("0.5 %", unit, scale);
    const std::vector<bool> coarse_found = accepted_decade("5 %", unit, scale);
    for (std::size_t value = 100; value < 1000; ++value) {
      EXPECT_EQ(fine_found[value], any[value]) << value << " at 0.5 %, " << unit;
      EXPECT_EQ(coarse_found[value], coarse[value]) << value << " at 5 %, " << unit;
    }
  }
}

}
}
