// spec/v1/conformance read by the library: the verdicts, findings and values that its manifest states, and no
// others.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>

#include "ohmlore/canonical_json.h"
#include "ohmlore/document.h"
#include "ohmlore/lint.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

const fs::path folder = fs::path(OHMLORE_SOURCE_DIR) / "spec/v1/conformance";

std::string contents(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

rapidjson::Document json(const fs::path& path) {
  rapidjson::Document document;
  const std::string text = contents(path);
  // Whole precision: the values are compared bit for bit.
  document.Parse<rapidjson::kParseFullPrecisionFlag>(text.data(), text.size());
  EXPECT_FALSE(document.HasParseError()) << path;
  return document;
}

std::string text(const rapidjson::Value& value) { return {value.GetString(), value.GetStringLength()}; }

// The findings that a reader owes, as the README of the folder says: what needs no knowledge of the trade.
bool is_a_readers(const Finding& finding) {
  if (finding.rule == "supplies-missing" || finding.rule == "stored-charge-unverified") return true;
  if (finding.rule == "prefix-suspicious") return false;
  const Rule& rule = *find_rule(finding.rule)->rule;
  // Some rules about the shape ask what a reader need not know, as which countries there are.
  return rule.family == Family::json || rule.family == Family::unit ||
         (rule.family == Family::shape && rule.check == nullptr);
}

std::string line(std::string_view rule, std::string_view severity, std::string_view at) {
  return fmt::format("{} {} {}", rule, severity, at);
}

// Sorted lines. A place that the manifest leaves open is not compared.
std::vector<std::string> stated(const rapidjson::Value& entry) {
  std::vector<std::string> lines;
  if (entry.HasMember("findings"))
    for (const auto& finding : entry["findings"].GetArray())
      lines.push_back(line(text(finding["rule"]),
                           finding.HasMember("severity") ? text(finding["severity"]) : "error",
                           finding.HasMember("at") ? text(finding["at"]) : "anywhere"));
  std::sort(lines.begin(), lines.end());
  return lines;
}

std::set<std::string> rules_without_place(const rapidjson::Value& entry) {
  std::set<std::string> rules;
  if (entry.HasMember("findings"))
    for (const auto& finding : entry["findings"].GetArray())
      if (!finding.HasMember("at")) rules.insert(text(finding["rule"]));
  return rules;
}

std::set<std::string> stated_places(const rapidjson::Value& entry) {
  std::set<std::string> places;
  if (entry.HasMember("findings"))
    for (const auto& finding : entry["findings"].GetArray())
      if (finding.HasMember("at")) places.insert(text(finding["at"]));
  return places;
}

constexpr std::array<std::string_view, 16> dimension_names{"resistance",
                                                           "voltage",
                                                           "current",
                                                           "power",
                                                           "capacitance",
                                                           "temperature",
                                                           "temperature_difference",
                                                           "thermal_constant",
                                                           "per_kelvin",
                                                           "per_kelvin_2",
                                                           "per_kelvin_3",
                                                           "per_kelvin_4",
                                                           "per_kelvin_5",
                                                           "per_kelvin_6",
                                                           "time",
                                                           "ratio"};

Dimensions dimensions(const rapidjson::Value& names) {
  Dimensions all;
  for (const auto& name : names.GetArray()) {
    const auto at = std::find(dimension_names.begin(), dimension_names.end(), text(name));
    EXPECT_NE(at, dimension_names.end()) << text(name);
    all = all | static_cast<Dimension>(at - dimension_names.begin());
  }
  return all;
}

std::string_view rule_of(Unit_problem::Kind kind) {
  using Kind = Unit_problem::Kind;
  switch (kind) {
  case Kind::unit_missing: return "unit-missing";
  case Kind::wrong_dimension: return "unit-of-other-dimension";
  case Kind::decimal_comma: return "decimal-comma";
  case Kind::look_alike: return "look-alike-refused";
  case Kind::too_many_digits: return "digits-too-many";
  case Kind::out_of_reach: return "quantity-out-of-reach";
  default: return "quantity-unreadable";
  }
}

Quantity_grammar grammar_of(std::string_view name) {
  return name == "tolerance" ? Quantity_grammar::tolerance
         : name == "range"   ? Quantity_grammar::range
                             : Quantity_grammar::quantity;
}

// Compares each value that is stated with what the library makes of the text.
void expect_values(const std::string& written, Quantity_grammar grammar, Dimensions allowed,
                   const rapidjson::Value& expected) {
  auto expect = [&](const char* name, double value) {
    if (!expected.HasMember(name)) return;
    EXPECT_EQ(value, expected[name].GetDouble()) << written << ", " << name;
  };
  EXPECT_EQ(canonical_spelling(written, grammar, allowed), text(expected["canonical"])) << written;
  switch (grammar) {
  case Quantity_grammar::quantity: {
    const auto parsed = parse_quantity(written, allowed);
    ASSERT_TRUE(parsed.value) << written << ": " << parsed.problem->detail;
    expect("si", parsed.value->si);
    expect("half_digit", parsed.value->half_digit);
    EXPECT_FALSE(std::signbit(parsed.value->si) && parsed.value->si == 0) << written << " is negative zero";
    break;
  }
  case Quantity_grammar::tolerance: {
    const auto parsed = parse_tolerance(written, allowed);
    ASSERT_TRUE(parsed.value) << written << ": " << parsed.problem->detail;
    expect("minus", parsed.value->minus);
    expect("plus", parsed.value->plus);
    break;
  }
  case Quantity_grammar::range: {
    const auto parsed = parse_range(written, allowed);
    ASSERT_TRUE(parsed.value) << written << ": " << parsed.problem->detail;
    expect("low", parsed.value->low.si);
    expect("high", parsed.value->high.si);
    break;
  }
  }
}

}

TEST(Conformance, documents_give_the_verdicts_and_findings_of_the_manifest) {
  const rapidjson::Document manifest = json(folder / "manifest.json");
  std::size_t refused = 0, accepted = 0;
  for (const auto& entry : manifest["cases"].GetArray()) {
    const std::string file = text(entry["file"]);
    SCOPED_TRACE(file);
    ASSERT_TRUE(fs::exists(folder / file));
    const std::set<std::string> anywhere = rules_without_place(entry), places = stated_places(entry);
    std::vector<std::string> found;
    bool is_refused = false;
    for (const Finding& finding : lint_text(file, contents(folder / file))) {
      if (is_a_readers(finding)) {
        is_refused |= finding.severity == Severity::error;
        const std::string rule(finding.rule);
        found.push_back(
            line(rule, word_of(finding.severity), anywhere.count(rule) ? "anywhere" : finding.pointer));
      } else {
        // Nothing else is wrong with any document: a refused one shows one fault. What a rule says of the
        // same value is no other fault; beyond what a schema can tell, a rule may tell it.
        EXPECT_TRUE(finding.severity != Severity::error || places.count(finding.pointer) != 0 ||
                    file.starts_with("beyond/"))
            << finding.rule << ' ' << finding.message;
      }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    EXPECT_EQ(found, stated(entry));
    EXPECT_EQ(!is_refused, entry["accepted"].GetBool());
    ++(is_refused ? refused : accepted);
  }
  EXPECT_GE(refused, 150u);
  EXPECT_GE(accepted, 50u);
}

TEST(Conformance, documents_have_the_canonical_form_of_the_manifest) {
  const rapidjson::Document manifest = json(folder / "manifest.json");
  int compared = 0;
  for (const auto& entry : manifest["cases"].GetArray()) {
    const std::string file = text(entry["file"]);
    SCOPED_TRACE(file);
    ASSERT_EQ(entry.HasMember("canonical"), entry["accepted"].GetBool());
    if (!entry.HasMember("canonical")) continue;
    const Read_result read = read_json(file, contents(folder / file));
    EXPECT_EQ(canonical_json(read.document), contents(folder / text(entry["canonical"])));
    ++compared;
  }
  EXPECT_GT(compared, 100);
}

TEST(Conformance, quantities_in_documents_have_the_values_of_the_manifest) {
  const rapidjson::Document manifest = json(folder / "manifest.json");
  int compared = 0;
  for (const auto& entry : manifest["cases"].GetArray()) {
    if (!entry.HasMember("values")) continue;
    const std::string file = text(entry["file"]);
    SCOPED_TRACE(file);
    const Read_result read = read_json(file, contents(folder / file));
    for (const auto& value : entry["values"].GetArray()) {
      const Node_id node = read.document.find(text(value["at"]));
      const auto uses = read.document.quantities();
      const auto use =
          std::find_if(uses.begin(), uses.end(), [&](const Quantity_use& q) { return q.node == node; });
      ASSERT_NE(use, uses.end()) << "no quantity was read at " << text(value["at"]);
      expect_values(std::string(read.document.string(node)), use->grammar, use->allowed, value);
      ++compared;
    }
  }
  EXPECT_GE(compared, 10);
}

TEST(Conformance, texts_of_quantities_are_read_and_refused_as_stated) {
  const rapidjson::Document table = json(folder / "quantities.json");
  for (const auto& row : table["accepted"].GetArray())
    expect_values(text(row["text"]), grammar_of(text(row["grammar"])), dimensions(row["dimensions"]), row);
  for (const auto& row : table["refused"].GetArray()) {
    const std::string written = text(row["text"]);
    const Dimensions allowed = dimensions(row["dimensions"]);
    std::optional<Unit_problem> problem;
    switch (grammar_of(text(row["grammar"]))) {
    case Quantity_grammar::quantity: problem = parse_quantity(written, allowed).problem; break;
    case Quantity_grammar::tolerance: problem = parse_tolerance(written, allowed).problem; break;
    case Quantity_grammar::range: problem = parse_range(written, allowed).problem; break;
    }
    ASSERT_TRUE(problem) << written << " is accepted";
    EXPECT_EQ(text(row["rule"]), rule_of(problem->kind)) << written << ": " << problem->detail;
  }
  EXPECT_GE(table["accepted"].Size(), 100u);
  EXPECT_GE(table["refused"].Size(), 50u);
}
