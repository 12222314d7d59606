// The canonical form over everything at hand: the corpus, generated profiles, the cases of all rules that can
// be read, and mutants that the reader accepts, each also with its members shuffled and its quantities
// respelt. It is reached at once, and means the same to the last bit.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "../support/files.h"
#include "../support/mutants.h"
#include "../support/same_meaning.h"
#include "healthy_profile.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/diff.h"
#include "ohmlore/edit.h"
#include "ohmlore/lint.h"
#include "support/cases.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

constexpr int profiles = test::cases(1000), mutants = test::cases(5000);

constexpr Prefixes styles[] = {Prefixes::as_written, Prefixes::si, Prefixes::engineering};
const Lint_options options{"2026-01-01"};

bool has_error(const Read_result& read) {
  return std::any_of(read.findings.begin(), read.findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::error; });
}

// What all rules find but for spelling, to which the question belongs whether "3K" is 3 kΩ; where a part of
// the message speaks of the order, the message is left out.
std::vector<std::string> found_in(std::string_view text) {
  std::vector<std::string> found;
  for (const Finding& finding : lint_text("x", text, {}, options))
    if (finding.rule != "spelling-not-canonical" && finding.rule != "look-alike-accepted" &&
        finding.rule != "byte-order-mark" && finding.rule != "waiver-unused" &&
        !(finding.rule == "prefix-suspicious" && finding.message.find(" is read as ") != std::string::npos))
      found.push_back(fmt::format("{} {}", finding.pointer, finding.rule));
  std::sort(found.begin(), found.end());
  return found;
}

std::string canonical(const Read_result& read, Prefixes style) {
  return canonical_json(read.document, style);
}

// False: the reader refuses the text, so that it has no canonical form.
bool check(const std::string& text) {
  const Read_result read = read_json("x", text);
  if (has_error(read)) return false;
  const std::vector<std::string> found = found_in(text);
  for (const Prefixes style : styles) {
    const std::string form = canonical(read, style);
    const Read_result again = read_json("x", form);
    EXPECT_FALSE(has_error(again)) << form;
    EXPECT_EQ(canonical(again, style), form) << "a second time";
    EXPECT_TRUE(test::Same_meaning(read.document, again.document).compare()) << form;
    EXPECT_EQ(test::order_of_ids(read.document), test::order_of_ids(again.document));
    if (style == Prefixes::as_written) {
      EXPECT_EQ(found, found_in(form)) << form;
    }
    const Document_diff diff = diff_documents(read.document, {}, again.document, {});
    EXPECT_EQ(diff.count(Change_weight::meaning), 0u) << form;
  }
  return true;
}

// The same document in another order and spelling: members of every object that is not keyed by ids are
// shuffled, quantities are respelt, and all space is taken out.
class Scrambler {
public:
  Scrambler(const Document& document, test::Dice& dice) : document_(document), dice_(dice) {}
  std::string text() { return value(Document::root, false); }

private:
  std::string value(Node_id node, bool ordered) {
    const Node& n = document_.node(node);
    std::vector<std::string> parts;
    if (n.type == Node_type::array) {
      for (Node_id item = node + 1; item < n.next; item = document_.node(item).next)
        parts.push_back(value(item, ordered));
      return fmt::format("[{}]", fmt::join(parts, ","));
    }
    if (n.type != Node_type::object) return std::string(document_.written(node));
    for (Node_id key = node + 1; key < n.next; key = document_.node(key + 1).next) {
      const Text name = document_.string(key);
      const std::string_view keyed[] = {"sources", "connectors", "components", "circuits",
                                        "tests",   "faults",     "pins",       "terminals",
                                        "states",  "severities", "profiles",   "parts"};
      const bool is_map = std::find(std::begin(keyed), std::end(keyed), name) != std::end(keyed);
      const bool free = ordered_below_ || name.starts_with("x_");
      const bool outer = ordered_below_;
      ordered_below_ = free;
      parts.push_back(fmt::format("{}:{}", document_.written(key), value(key + 1, is_map || free)));
      ordered_below_ = outer;
    }
    if (!ordered)
      for (std::size_t i = parts.size(); i > 1; --i) std::swap(parts[i - 1], parts[dice_.below(i)]);
    return fmt::format("{{{}}}", fmt::join(parts, ","));
  }
  const Document& document_;
  test::Dice& dice_;
  bool ordered_below_ = false;
};

// A canonical document scrambled comes back to the same bytes.
void check_scrambled(const std::string& text, test::Dice& dice) {
  const Read_result read = read_json("x", text);
  if (has_error(read)) return;
  const std::string form = canonical(read, Prefixes::as_written);
  const Read_result whole = read_json("x", form);
  const std::string scrambled = Scrambler(whole.document, dice).text();
  EXPECT_EQ(canonical(read_json("x", scrambled), Prefixes::as_written), form) << scrambled;
}

}

TEST(Normalise, corpus) {
  test::Dice dice(1);
  for (const std::string& json : test::documents_of_corpus()) {
    EXPECT_TRUE(check(json));
    check_scrambled(json, dice);
  }
}

TEST(Normalise, examples_of_the_format) {
  test::Dice dice(2);
  for (const std::string& json : test::documents_of_examples()) {
    EXPECT_TRUE(check(json)) << json;
    check_scrambled(json, dice);
  }
}

TEST(Normalise, generated_profiles) {
  test::Dice dice(3);
  for (int number = 1; number <= profiles && !HasFailure(); ++number) {
    const std::string text = test::healthy_profile(number).text;
    EXPECT_TRUE(check(text));
    check_scrambled(text, dice);
  }
}

TEST(Normalise, cases_of_all_rules) {
  int read = 0;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(OHMLORE_SOURCE_DIR) / "tests/rules")) {
    SCOPED_TRACE(entry.path());
    if (entry.path().extension() == ".json") read += check(test::read_bytes(entry.path())) ? 1 : 0;
    if (entry.path().extension() == ".recipe")
      read += check(test::cooked(test::read_bytes(entry.path()))) ? 1 : 0;
  }
  EXPECT_GT(read, 150);
}

TEST(Normalise, mutants_that_are_accepted) {
  std::vector<std::string> documents = test::documents_of_examples();
  for (std::string& json : test::documents_of_corpus()) documents.push_back(std::move(json));
  test::Mutator mutator(documents, 2207);
  int read = 0;
  for (int i = 0; i < mutants && !HasFailure(); ++i) read += check(mutator.next().json) ? 1 : 0;
  EXPECT_GT(read, mutants / 50);
}
