// Fixes over everything at hand: the cases of all rules, the corpus, mutants, and good documents that were
// disfigured in ways that lose nothing. Fixing makes no error, is done after one time, and undoes what the
// disfigurement did.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "ohmlore/fix.h"
#include "support/cases.h"
#include "support/files.h"
#include "support/mutants.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

// Sanitizers cost much time, and every further case costs the same.
constexpr int mutants = test::cases(3000), disfigured = test::cases(3000);

const Lint_options options{"2026-01-01"};

// Documents by name; a recipe gives what it describes.
std::map<std::string, std::string> rule_cases() {
  std::map<std::string, std::string> cases;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(OHMLORE_SOURCE_DIR) / "tests/rules")) {
    if (entry.path().extension() == ".json") cases[entry.path()] = test::read_bytes(entry.path());
    if (entry.path().extension() == ".recipe")
      cases[entry.path()] = test::cooked(test::read_bytes(entry.path()));
  }
  return cases;
}

// The reader's errors hide what they stand on; without one a document must not get any error that it had not.
void expect_no_worse(const std::string& before, const Fixed& fixed) {
  const auto errors = [](const std::string& text) {
    std::vector<std::string> found;
    for (const Finding& finding : lint_text("x", text, {}, options))
      if (finding.severity == Severity::error)
        found.push_back(finding.pointer + ' ' + std::string(finding.rule));
    std::sort(found.begin(), found.end());
    return found;
  };
  const std::vector<Finding> read = read_json("x", before).findings;
  const bool hidden = std::any_of(read.begin(), read.end(), [](const Finding& finding) {
    return finding.severity == Severity::error && safe_fix(finding) != nullptr;
  });
  if (hidden) return;
  const std::vector<std::string> old_ones = errors(before), new_ones = errors(fixed.text);
  EXPECT_TRUE(std::includes(old_ones.begin(), old_ones.end(), new_ones.begin(), new_ones.end()))
      << fixed.text;
}

// What holds for the fixes of any text. Returns how many were made.
std::size_t check(const std::string& text) {
  const Fixed fixed = fix_text("x", text, {}, options);
  EXPECT_EQ(fixed.refusal, "") << text;
  EXPECT_EQ(apply_edits(text, fixed.edits), fixed.text);
  EXPECT_EQ(fixed.edits.empty(), fixed.fixes == 0);
  if (fixed.fixes == 0) return 0;
  EXPECT_TRUE(fix_text("x", fixed.text, {}, options).edits.empty()) << fixed.text;
  for (const Finding& finding : lint_text("x", fixed.text, {}, options))
    EXPECT_EQ(safe_fix(finding), nullptr) << finding.message;
  expect_no_worse(text, fixed);
  return fixed.fixes;
}

bool replace(std::string& text, std::string_view what, std::string_view with) {
  const std::size_t at = text.find(what);
  if (at != std::string::npos) text.replace(at, what.size(), with);
  return at != std::string::npos;
}

// A quantity written another way, with the same value and digits.
std::string respelled(std::string text, test::Dice& dice) {
  static constexpr std::string_view ways[][2] = {
      {" kΩ", "k\u2126"}, {" kΩ", " kohm"},  {" kΩ", " KΩ"},           {" kΩ", " \u043A\u03A9"},
      {" Ω", " Ohm"},     {" Ω", "R"},       {" Ω", " ohms"},          {" MΩ", " Mohm"},
      {" °C", "\u2103"},  {" °C", " degC"},  {" °C", " \u00BA\u0043"}, {" %", "%"},
      {" K", "K"},        {" V ac", "V AC"}, {" V dc", "\u00A0V dc"},  {"-", "\u2212"},
  };
  const auto& way = ways[dice.below(std::size(ways))];
  replace(text, way[0], way[1]);
  return text;
}

// Disfigures a good document; the edits never overlap. With `json` it stays JSON.
std::string disfigure(const std::string& good, test::Dice& dice, bool json) {
  const Read_result read = read_json("x", good);
  const Document& document = read.document;
  std::map<Node_id, std::string> written;
  for (const Quantity_use& use : document.quantities()) {
    if (dice.below(8) != 0) continue;
    const std::string text = respelled(std::string(document.string(use.node)), dice);
    // Some ways do not fit the grammar of the place, or say something else there.
    const auto same = canonical_spelling(text, use.grammar, use.allowed);
    const bool accepted = same == document.string(use.node);
    bool refused_safely = false;
    if (!accepted && same.empty()) {
      const auto problem =
          use.grammar == Quantity_grammar::quantity ? parse_quantity(text, use.allowed).problem
          : use.grammar == Quantity_grammar::range  ? parse_range(text, use.allowed).problem
                                                    : parse_tolerance(text, use.allowed).problem;
      refused_safely = problem && problem->kind == Unit_problem::Kind::look_alike &&
                       problem->suggestion == document.string(use.node);
    }
    if (accepted || refused_safely) written[use.node] = '"' + text + '"';
  }
  const auto upper = [](Text word) {
    std::string out(word);
    for (char& c : out) c = c == '_' ? '-' : c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    return out;
  };
  for (Node_id node = Document::root; node < document.nodes().size(); ++node) {
    const Node& n = document.node(node);
    if (n.key || document.key_of(node) == 0 || dice.below(6) != 0) continue;
    const Text key = document.string(document.key_of(node));
    if (n.type == Node_type::string && (key == "kind" || key == "fuel" || key == "circuit" || key == "side"))
      written[node] = '"' + upper(document.string(node)) + '"';
    if (n.type == Node_type::string && (key == "base" || key == "stripe") &&
        document.string(node) != "other") {
      std::string code(document.string(node));
      for (char& c : code) c = static_cast<char>(c | 0x20);
      written[node] = '"' + code + '"';
    }
    if (key == "revision" && n.type == Node_type::number) {
      written[node] = document.written(node);
      written[node] += dice.below(2) == 0 ? ".0" : "";
      if (written[node] == document.written(node)) written[node] = '"' + written[node] + '"';
    }
  }
  std::vector<Edit> edits;
  for (const auto& [node, text] : written)
    edits.push_back({document.node(node).begin, document.node(node).end, text});
  if (!json && dice.below(4) == 0)
    for (Node_id node = Document::root; node < document.nodes().size(); ++node) {
      const Node& n = document.node(node);
      const bool container = n.type == Node_type::object || n.type == Node_type::array;
      if (container && n.count > 0 && dice.below(50) == 0) edits.push_back({n.end - 1, n.end - 1, ","});
    }
  std::string bad = apply_edits(good, edits);
  if (!json && dice.below(4) == 0) bad.insert(0, "\xEF\xBB\xBF");
  return bad;
}

}

TEST(Fixes, of_the_cases_of_all_rules_make_no_error) {
  std::size_t made = 0, documents = 0;
  for (const auto& [name, text] : rule_cases()) {
    SCOPED_TRACE(name);
    made += check(text);
    ++documents;
  }
  EXPECT_GT(documents, 300u);
  EXPECT_GT(made, 50u);
}

TEST(Fixes, of_mutants_make_no_error) {
  std::vector<std::string> documents = test::documents_of_examples();
  for (std::string& json : test::documents_of_corpus()) documents.push_back(std::move(json));
  test::Dice dice(2208);
  for (std::string& json : documents) json = disfigure(json, dice, true);
  test::Mutator mutator(documents, 4410);
  std::size_t made = 0;
  for (int i = 0; i < mutants; ++i) {
    const test::Mutant mutant = mutator.next();
    SCOPED_TRACE(mutant.what);
    made += check(mutant.json);
  }
  EXPECT_GT(made, static_cast<std::size_t>(mutants));
}

TEST(Fixes, undo_what_lost_nothing) {
  std::vector<std::string> good;
  for (std::string& json : test::documents_of_corpus())
    if (fix_text("x", json, {}, options).fixes == 0) good.push_back(std::move(json));
  ASSERT_GT(good.size(), 50u);
  test::Dice dice(2207);
  std::size_t made = 0;
  for (int i = 0; i < disfigured; ++i) {
    const std::string& document = dice.one_of(good);
    const std::string bad = disfigure(document, dice, false);
    made += check(bad);
    ASSERT_EQ(fix_text("x", bad, {}, options).text, document) << bad;
  }
  EXPECT_GT(made, static_cast<std::size_t>(disfigured));
}
