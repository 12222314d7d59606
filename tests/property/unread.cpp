// A value that cannot be read is a finding of the reader, and makes no rule speak that was silent before:
// what is not known need not be missing. Every value in turn becomes one of another type, and every text one
// that says nothing, where the reader does not take it; and every key of a record is misspelt, and stands
// twice.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "ohmlore/description.h"
#include "ohmlore/lint.h"
#include "support/files.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

const fs::path corpus_folder = fs::path(OHMLORE_SOURCE_DIR) / "corpus";
const fs::path cases_folder = fs::path(OHMLORE_SOURCE_DIR) / "tests/rules";

std::vector<fs::path> documents_below(const fs::path& folder, const std::string& ending) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.path().string().ends_with(ending)) found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

// What lies around the profiles of the corpus.
struct Around_profiles {
  Parts parts;
  Read_result root = read_json("corpus.json", test::read_bytes(corpus_folder / "corpus.json"));

  Around_profiles() {
    for (const fs::path& path : documents_below(corpus_folder, ".part.json"))
      parts.add(read_json(path.string(), test::read_bytes(path)).document);
  }
  Surroundings surroundings() const { return {root.document.corpus(), &parts}; }
};

// Those of which everything could be read.
struct Bad_case {
  fs::path path;
  std::string text;
  Read_result read;
};
std::vector<Bad_case> bad_cases() {
  std::vector<Bad_case> found;
  for (const fs::path& path : documents_below(cases_folder, ".json")) {
    if (path.string().find("/bad-") == std::string::npos) continue;
    const std::string text = test::read_bytes(path);
    Read_result read = read_json(path.string(), text);
    if (read.document.complete()) found.push_back({path, text, std::move(read)});
  }
  return found;
}

using Told = std::set<std::pair<std::string, std::string>>; // rule and place

// Rules that find errors too: where something could not be read, they doubt and warn.
bool finds_errors(std::string_view rule) {
  static const std::set<std::string_view> rules = {"charge-verified-elsewhere",
                                                   "excludes-beyond-test",
                                                   "expectation-outside-model",
                                                   "expectation-outside-network",
                                                   "expectations-contradict",
                                                   "metal-contradicts",
                                                   "model-unfit-for-kind",
                                                   "part-unknown",
                                                   "pin-beyond-ways",
                                                   "positive-off-probes",
                                                   "readings-unrealizable",
                                                   "rtd-outside-class",
                                                   "triangle-broken"};
  return rules.contains(rule);
}

// Of rules, not of the reader; of those that find errors too, from a severity on.
Told told(const Read_result& read, const Surroundings& surroundings, Severity least) {
  Told out;
  for (const Finding& finding : lint_document(read, surroundings).findings) {
    const Family family = rule_of(finding.rule).family;
    if ((finding.severity >= least || !finds_errors(finding.rule)) && family != Family::json &&
        family != Family::shape && family != Family::unit)
      out.emplace(finding.rule, finding.pointer);
  }
  return out;
}

// All that is found, from a severity on.
Told told_from(const Read_result& read, const Surroundings& surroundings, Severity least) {
  Told out;
  for (const Finding& finding : lint_document(read, surroundings).findings)
    if (finding.severity >= least) out.emplace(finding.rule, finding.pointer);
  return out;
}

// Breaks one value and one key after the other, of so many one; calls `f(read, node)` for what could not be
// read.
template <class F>
void each_broken(const fs::path& path, const std::string& text, const Document& document,
                 std::size_t one_case_in, F f) {
  std::size_t at = 0;
  const auto nodes = document.nodes();
  for (Node_id id = Document::root + 1; id < nodes.size(); ++id) {
    if (at++ % one_case_in != 0) continue;
    const auto replaced = [&](const std::string& written) {
      std::string other = text;
      return other.replace(nodes[id].begin, nodes[id].end - nodes[id].begin, written);
    };
    const std::string written = text.substr(nodes[id].begin, nodes[id].end - nodes[id].begin);
    const std::vector<std::string> others =
        nodes[id].key ? std::vector{replaced("\"q" + written.substr(1)),
                                    std::string(text).insert(nodes[id + 1].end, ", " + written + ": \"?\"")}
                      : std::vector{replaced("7"), replaced("\"?\"")};
    for (const std::string& other : others) {
      const Read_result read = read_json(path.string(), other);
      if (!read.document.complete()) f(read, id); // else it is read as something else
    }
  }
}

// Returns how many could not be read.
std::size_t break_each(const fs::path& path, const Surroundings& surroundings, Severity least) {
  std::size_t broken = 0;
  const std::string text = test::read_bytes(path);
  const Read_result good = read_json(path.string(), text);
  const Told before = told(good, surroundings, least);
  each_broken(path, text, good.document, OHMLORE_ONE_CASE_IN, [&](const Read_result& read, Node_id id) {
    ++broken;
    for (const auto& [rule, place] : told(read, surroundings, least))
      EXPECT_TRUE(before.contains({rule, place}))
          << path << ": without " << good.document.pointer(id) << " " << rule << " at " << place;
  });
  return broken;
}

}

TEST(Unread, values_of_the_corpus_make_no_rule_speak) {
  const Around_profiles around;
  std::size_t broken = 0;
  for (const fs::path& path : documents_below(corpus_folder, ".json"))
    broken += break_each(path, around.surroundings(), Severity::note);
  EXPECT_GT(broken, 100u);
}

// Nor is what stands in a part missing where the part was not found.
TEST(Unread, parts_of_the_corpus_make_no_rule_warn) {
  const Around_profiles around;
  const auto warned = [](const Read_result& read, const Surroundings& surroundings) {
    return told_from(read, surroundings, Severity::warning);
  };
  std::size_t lacking = 0;
  for (const fs::path& path : documents_below(corpus_folder, ".profile.json")) {
    const Read_result read = read_json(path.string(), test::read_bytes(path));
    const Told before = warned(read, around.surroundings());
    for (const auto& [rule, place] : warned(read, {}))
      EXPECT_TRUE(before.contains({rule, place})) << path << ": " << rule << " at " << place;
    const auto resolved = resolve(read.document, {});
    for (const Resolved_component& component : resolved.components) lacking += component.lacks_part();
  }
  EXPECT_GT(lacking, 10u);
}

// They are near misses: often one value alone makes them good.
TEST(Unread, values_of_the_good_cases_make_no_error_and_no_rule_of_warnings_speak) {
  std::size_t broken = 0;
  for (const fs::path& path : documents_below(cases_folder, ".json"))
    if (path.string().find("/good-") != std::string::npos) broken += break_each(path, {}, Severity::error);
  EXPECT_GT(broken, 100u);
}

// What makes a rule doubt may be what could not be read: a warning is no error without it.
TEST(Unread, values_of_the_bad_cases_make_no_warning_an_error) {
  std::size_t broken = 0;
  for (const Bad_case& bad : bad_cases()) {
    const Told errors = told_from(bad.read, {}, Severity::error);
    Told doubts;
    for (const auto& [rule, place] : told_from(bad.read, {}, Severity::warning))
      if (!errors.contains({rule, place})) doubts.emplace(rule, place);
    if (doubts.empty()) continue;
    each_broken(bad.path, bad.text, bad.read.document, 1, [&](const Read_result& read, Node_id id) {
      ++broken;
      for (const auto& [rule, place] : told_from(read, {}, Severity::error))
        EXPECT_FALSE(doubts.contains({rule, place}))
            << bad.path << ": without " << bad.read.document.pointer(id) << " " << rule << " at " << place
            << " is an error";
    });
  }
  EXPECT_GT(broken, 100u);
}

// A key that nobody knows may be what makes an error none, misspelt: beside one, a document has no error that
// it does not have beside any such key.
TEST(Unread, what_a_misspelt_key_may_say_is_no_error) {
  // In records whose pointer ends so; one more name follows a slash.
  const std::pair<std::string_view, std::string_view> all[] = {
      {"/components/", R"("pulse": true)"},
      {"/components/", R"("indicator": true)"},
      {"/components/", R"("series_resistance": "100 Ω")"},
      {"/components/", R"("metal": "platinum")"},
      {"/components/", R"("linearised": true)"},
      {"/components/", R"("purely_resistive": false)"},
      {"/model", R"("metal": "platinum")"},
      {"/pins/", R"("circuit": "protective_earth")"},
      {"/faults/", R"("reset": "automatic")"},
      {"/tests/", R"("note": "of another year")"},
      {"/tests/", R"("before": ["turn the knob"])"},
      {"/tests/", R"("disconnect_also": ["the fan"])"},
      {"/tests/", R"("condition": "hot")"},
  };
  std::size_t excused = 0;
  for (const Bad_case& bad : bad_cases()) {
    const fs::path& path = bad.path;
    const std::string& text = bad.text;
    const Read_result& read = bad.read;
    const Told before = told_from(read, {}, Severity::error);
    const auto nodes = read.document.nodes();
    for (Node_id id = Document::root + 1; !before.empty() && id < nodes.size(); ++id) {
      if (nodes[id].type != Node_type::object || nodes[id].key) continue;
      const std::string pointer = read.document.pointer(id);
      const std::string folder = pointer.substr(0, pointer.rfind('/') + 1);
      const auto beside = [&](std::string_view member) {
        std::string with = text;
        with.insert(nodes[id].begin + 1, fmt::format("{}{}", member, nodes[id].next == id + 1 ? "" : ", "));
        return told_from(read_json(path.string(), with), {}, Severity::error);
      };
      std::optional<Told> misspelt;
      for (const auto& [where, member] : all) {
        const std::string_view key = member.substr(1, member.find('"', 1) - 1);
        if (!(where.ends_with('/') ? folder : pointer).ends_with(where) || read.document.member(id, key) != 0)
          continue;
        const Told with = beside(member);
        if (std::includes(with.begin(), with.end(), before.begin(), before.end())) continue;
        ++excused;
        if (!misspelt) misspelt = beside(R"("qqq": 1)");
        for (const auto& [rule, place] : *misspelt)
          EXPECT_TRUE(with.contains({rule, place}) || rule == "key-unknown")
              << path << ": " << rule << " at " << place << ", though a key of " << pointer << " may be "
              << member;
      }
    }
  }
  EXPECT_GT(excused, 20u);
}

// A part that was not found may say what makes an error none: alone, a profile has no error that it does not
// have beside any such part.
TEST(Unread, what_a_part_that_was_not_found_may_say_is_no_error) {
  const auto errors = [](const Read_result& read, const Surroundings& surroundings) {
    return told_from(read, surroundings, Severity::error);
  };
  const std::string_view all[] = {
      R"("pulse": true)",
      R"("indicator": true)",
      R"("contacts": "changeover")",
      R"("series_resistance": "100 Ω")",
      R"("drive": "rectified")",
      R"("suppression": "bridge")",
      R"("metal": "platinum")",
      R"("protector": { "trips_at": "140 °C", "position": "common", "reset": "automatic" })",
      R"("connection": "star")",
      R"("linearised": true)",
      R"("wires": 4)",
      R"("element": "ptc")",
      R"("purely_resistive": false)",
  };
  std::size_t excused = 0;
  for (const Bad_case& bad : bad_cases()) {
    const fs::path& path = bad.path;
    const std::string& text = bad.text;
    const Read_result& read = bad.read;
    const Told before = errors(read, {});
    const auto resolved = resolve(read.document, {});
    for (const Resolved_component& component : resolved.components) {
      if (before.empty() || component.placed == nullptr || component.placed->part) continue;
      std::string naming = text;
      naming.insert(read.document.node(component.node).begin + 1, R"("part": "lost", )");
      const Read_result alone = read_json(path.string(), naming);
      const Told of_it = errors(alone, {});
      for (const std::string_view member : all) {
        Read_result part = read_json("lost.part.json",
                                     fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "lost",
  "revision": 1, "component": {{ "kind": "{}", "name": "lost", {} }} }})",
                                                 word_of(component.kind()), member));
        if (!part.findings.empty()) continue; // of another kind
        Parts parts;
        parts.add(std::move(part.document));
        const Told beside = errors(alone, {nullptr, &parts});
        excused += beside.size() < before.size();
        for (const auto& [rule, place] : of_it)
          EXPECT_TRUE(beside.contains({rule, place}))
              << path << ": " << rule << " at " << place << ", though the part of " << component.id
              << " may say " << member;
      }
    }
  }
  EXPECT_GT(excused, 20u);
}

// What a component states holds, also where it could not be read: what its part says of that counts for
// nothing.
TEST(Unread, what_a_part_says_of_what_its_component_states_is_no_error) {
  std::size_t broken = 0;
  for (const Bad_case& bad : bad_cases()) {
    const fs::path& path = bad.path;
    const std::string& text = bad.text;
    const Read_result& read = bad.read;
    const auto resolved = resolve(read.document, {});
    for (const Resolved_component& component : resolved.components) {
      if (component.placed == nullptr || component.placed->part || !component.known_kind) continue;
      const auto errors = [&](const std::string& written, std::string_view said) {
        Parts parts;
        parts.add(read_json("lost.part.json",
                            fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "lost",
  "revision": 1, "component": {{ "kind": "{}", "name": "lost"{} }} }})",
                                        word_of(component.kind()), said))
                      .document);
        return told_from(read_json(path.string(), written), {nullptr, &parts}, Severity::error);
      };
      const auto nodes = read.document.nodes();
      for (Node_id key = component.node + 1; key < nodes[component.node].next; key = nodes[key + 1].next) {
        const Text member = read.document.string(key);
        if (member == "kind") continue;
        std::string misspelt = text, other_type = text;
        misspelt.insert(nodes[key].begin + 1, "q");
        other_type.replace(nodes[key + 1].begin, nodes[key + 1].end - nodes[key + 1].begin, "[7]");
        for (std::string* naming : {&misspelt, &other_type}) {
          naming->insert(nodes[component.node].begin + 1, R"("part": "lost", )");
          const Told without = errors(*naming, "");
          ++broken;
          for (const auto& [rule, place] :
               errors(*naming, fmt::format(R"(, "{}": {})", member, read.document.written(key + 1))))
            EXPECT_TRUE(without.contains({rule, place}))
                << path << ": " << rule << " at " << place << ", by what the part says of " << member;
        }
      }
    }
  }
  EXPECT_GT(broken, 100u);
}
