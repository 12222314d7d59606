// The baseline: what a finding is known by, what is new, what is stale.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "ohmlore/baseline.h"
#include "ohmlore/corpus.h"
#include "support/files.h"

namespace ohmlore {
namespace {

using Texts = std::vector<std::string>;

Finding finding(std::string pointer, std::string value, std::string_view rule = "pin-undeclared") {
  Finding one;
  one.rule = rule;
  one.file = "a.profile.json";
  one.document = "profile a";
  one.pointer = std::move(pointer);
  one.value = std::move(value);
  return one;
}

Baseline_entry entry(const Finding& known, std::size_t count = 1) {
  return {key_of(known), count, "x", "old", "", 0};
}

Baseline baseline(const std::vector<Baseline_entry>& entries) {
  Baseline_read read = read_baseline("baseline.json", baseline_text(entries));
  EXPECT_EQ(read.problems, Texts());
  return std::move(read.baseline);
}

const Looked_at all_of_a = {{{"profile a", {true, true}}}, true, {}};

// "rule /pointer" of what is said of the baseline.
Texts said(const std::vector<Baseline_entry>& entries, std::vector<Finding>& findings,
           const Looked_at& looked_at = all_of_a, const Lint_options& options = {}) {
  std::vector<Finding> suppressed;
  Texts out;
  for (const Finding& one : apply_baseline(baseline(entries), findings, suppressed, looked_at, options))
    out.push_back(fmt::format("{} {}", one.rule, one.pointer));
  return out;
}

// ---- keys

TEST(Key, is_the_document_the_rule_the_place_and_the_value_never_the_line) {
  Finding a = finding("/id", "x"), b = a;
  b.region = {5, 6, {3, 1}, {3, 2}};
  b.message = "said in other words";
  b.file = "moved/a.profile.json";
  EXPECT_EQ(key_of(a), key_of(b));
  for (std::string* part : {&b.document, &b.pointer, &b.value}) {
    Finding other = b;
    *part += "2";
    EXPECT_NE(key_of(a), key_of(b));
    b = other;
  }
}

TEST(Key, has_long_and_unseen_texts_as_their_hash) {
  EXPECT_EQ(text_in_keys(std::string(200, 'x')), std::string(200, 'x'));
  // FIPS 180-4 by coreutils: printf 'x%.0s' $(seq 201) | sha256sum
  EXPECT_EQ(text_in_keys(std::string(201, 'x')),
            "sha256:84a0678c90937f5dcf9994d5866668da6b995109c8ad845410559b48a4ecafed");
  EXPECT_TRUE(text_in_keys("a\nb").starts_with("sha256:"));
  EXPECT_TRUE(text_in_keys("\xB0").starts_with("sha256:"));
  EXPECT_TRUE(text_in_keys("\uFFFE").starts_with("sha256:")) << "which no reader would take back";
  const std::string hash = text_in_keys("a\nb");
  EXPECT_EQ(text_in_keys(hash), hash);
}

Finding read_finding(const std::string& json, std::string_view rule) {
  for (Finding& one : lint_text("a.profile.json", json))
    if (one.rule == rule) return std::move(one);
  ADD_FAILURE() << rule << " was not found";
  return {};
}

TEST(Key, takes_the_value_from_the_document) {
  EXPECT_EQ(read_finding(R"({"format":"ohmlore/1.0","kind":"profile","id":"a","revision": 0})",
                         "number-out-of-limits")
                .value,
            "0");
  const std::string text =
      R"({"format":"ohmlore/1.0","kind":"profile","id":"a","revision":1, "sources": [1,  "\u0032"]})";
  const Finding list = read_finding(text, "type-wrong");
  EXPECT_EQ(list.value, R"([1,"2"])");
  EXPECT_EQ(list.document, "profile a");
  const auto tolerance = [](std::string_view written) {
    return read_finding(fmt::format(R"({{"format":"ohmlore/1.0","kind":"part","id":"a","revision":1,
  "component":{{"kind":"ntc","name":"s","model":{{"kind":"table","rows":[{}]}}}}}})",
                                    written),
                        "band-too-wide")
        .value;
  };
  EXPECT_EQ(tolerance(R"({ "nominal": "10kohm", "tolerance": "60%", "at": "25°C" })"),
            R"({"at":"25 °C","nominal":"10 kΩ","tolerance":"60 %"})")
      << "however it is spelt";
  const auto misspelt = [](const std::string& components) {
    return read_finding(R"({"format":"ohmlore/1.0","kind":"profile","id":"a","compoments": )" + components +
                            "}",
                        "key-unknown")
        .value;
  };
  EXPECT_EQ(misspelt(R"({ "s": { "kind" : "ntc" }, "t": [[], {}] })"), R"({"s":{"kind":"ntc"},"t":[[],{}]})")
      << "nobody looks into it, so all of it counts";
  EXPECT_EQ(misspelt(R"({ "\u0073": "gr\u00f6\u00dfer\/\u0022" })"), R"({"s":"größer/\""})")
      << "as `normalise` writes it: without escapes that JSON does not need";
  EXPECT_EQ(read_finding(text, "key-missing").value, "appliance") << "where a key is missing, that key";
  const Finding broken =
      read_finding(R"({"format":"ohmlore/1.0","kind":"profile","id":"a", )", "json-syntax");
  EXPECT_EQ(broken.document, "profile a") << "known by its id although it does not parse";
  EXPECT_EQ(read_finding("", "json-syntax").document, "file a.profile.json");
}

TEST(Key, tells_the_missing_keys_of_one_record_apart) {
  for (const std::string text : {"{}", R"({"format":"ohmlore/1.0","kind":"profile","id":"a"})"}) {
    std::vector<Finding_key> keys;
    for (const Finding& one : lint_text("a.profile.json", text))
      if (one.rule == "key-missing") keys.push_back(key_of(one));
    ASSERT_GE(keys.size(), 2u);
    std::sort(keys.begin(), keys.end());
    EXPECT_EQ(std::adjacent_find(keys.begin(), keys.end()), keys.end()) << text;
  }
}

TEST(Key, tells_the_pairs_of_one_connector_or_transformer_apart) {
  const auto keys_of = [](const std::string& slug, const std::string& file) {
    const Read_result read =
        read_json("a.profile.json", test::read_bytes(OHMLORE_SOURCE_DIR "/tests/rules/" + slug + "/" + file));
    std::set<Finding_key> keys;
    for (const Finding& one : lint_document(read, {}).findings)
      if (one.rule == slug) keys.insert(key_of(one));
    return keys.size();
  };
  EXPECT_EQ(keys_of("neighbours-alike", "bad-three.json"), 2u) << "that one is known hides no other";
  EXPECT_EQ(keys_of("circuit-class-contradicts", "bad-winding.json"), 2u);
}

// ---- what is new

TEST(Baseline, knows_nothing_of_what_hides_the_rest) {
  const Finding broken = finding("/a", "1"), cut = finding("/b", "", "count-out-of-limits");
  const Looked_at not_whole = {{{"profile a", {false, false}}}, true, {}};
  std::vector<Finding> findings = {broken};
  EXPECT_EQ(said({entry(broken)}, findings, not_whole), Texts());
  EXPECT_EQ(findings.size(), 1u) << "of a document that was not read to its end";
  findings = {cut};
  EXPECT_EQ(said({entry(cut)}, findings), Texts{"baseline-stale /entries/0"});
  EXPECT_EQ(findings.size(), 1u) << "of a list that was cut off";
  findings = {finding("/b", "[]", "count-out-of-limits")};
  EXPECT_EQ(said({entry(findings[0])}, findings), Texts());
  EXPECT_EQ(findings.size(), 0u) << "nothing lies behind what is empty";
  findings = {finding("/b", "{}", "count-out-of-limits")};
  EXPECT_EQ(said({entry(findings[0])}, findings), Texts());

  const Renewed_baseline of_broken = renewed({}, std::vector{broken}, {}, not_whole, {}, {});
  EXPECT_EQ(of_broken.entries.size(), 0u);
  EXPECT_EQ(of_broken.not_whole, std::set<std::string>{"profile a"});
  EXPECT_EQ(renewed({}, std::vector{cut, broken}, {}, all_of_a, {}, {}).entries.size(), 1u);
}

TEST(Baseline, knows_as_many_as_it_counts) {
  const Finding known = finding("/a", "1");
  std::vector<Finding> findings = {known, known, known};
  EXPECT_EQ(said({entry(known, 2)}, findings), Texts());
  EXPECT_EQ(findings.size(), 1u) << "the third is new";
  findings = {known, finding("/a", "2"), finding("/b", "1"), finding("/a", "1", "band-empty")};
  EXPECT_EQ(said({entry(known)}, findings), Texts());
  EXPECT_EQ(findings.size(), 3u);
}

// A warning was forgiven. That something elsewhere made it an error, nobody has seen yet.
TEST(Baseline, knows_nothing_that_is_worse_than_what_was_found) {
  const Finding error = finding("/a", "1");
  Finding warning = error;
  warning.as_found = Severity::warning;
  Finding raised = warning; // by the policy
  raised.severity = Severity::error;
  const auto left = [](const Baseline_entry& known, std::vector<Finding> findings) {
    EXPECT_EQ(said({known}, findings), Texts()) << "and what is worse is there still";
    return findings.size();
  };
  Baseline_entry of_warning = entry(warning);
  of_warning.severity = Severity::warning;
  EXPECT_EQ(left(of_warning, {warning}), 0u);
  EXPECT_EQ(left(of_warning, {raised}), 0u) << "a policy proves nothing";
  EXPECT_EQ(left(of_warning, {error}), 1u);
  EXPECT_EQ(left(of_warning, {error, warning}), 1u);
  EXPECT_EQ(left(entry(error), {warning}), 0u);
}

TEST(Baseline, renewed_takes_what_is_worse_for_new) {
  const Finding error = finding("/a", "1");
  Finding warning = error;
  warning.as_found = Severity::warning;
  const Baseline_entry fresh = {{}, 1, "y", "new", "", 0};
  const auto first = renewed({}, std::vector{warning}, {}, all_of_a, {}, fresh);
  ASSERT_EQ(first.entries.size(), 1u);
  EXPECT_EQ(first.entries[0].severity, Severity::warning);
  const auto second = renewed(first.entries, std::vector{error}, {}, all_of_a, {}, fresh);
  EXPECT_EQ(second.added, 1u);
  EXPECT_EQ(second.removed, 1u);
  ASSERT_EQ(second.entries.size(), 1u);
  EXPECT_EQ(second.entries[0].severity, Severity::error);
  EXPECT_EQ(second.entries[0].count, 1u);
  const auto both = renewed(first.entries, std::vector{error, warning}, {}, all_of_a, {}, fresh);
  ASSERT_EQ(both.entries.size(), 1u) << "a key has one entry";
  EXPECT_EQ(both.entries[0].severity, Severity::error);
  EXPECT_EQ(both.entries[0].count, 2u);
}

// An error was mended down to a warning: that it comes back is new, and of entries without a severity none
// was.
TEST(Baseline, renewed_knows_nothing_worse_than_what_is_left) {
  Finding warning = finding("/a", "1");
  warning.as_found = Severity::warning;
  const Renewed_baseline mended =
      renewed(std::vector{entry(warning)}, std::vector{warning}, {}, all_of_a, {}, {});
  EXPECT_EQ(mended.kept, 1u);
  ASSERT_EQ(mended.entries.size(), 1u);
  EXPECT_EQ(mended.entries[0].severity, Severity::warning);
  const Renewed_baseline unseen = renewed(std::vector{entry(warning)}, {}, {}, {}, {}, {});
  ASSERT_EQ(unseen.entries.size(), 1u);
  EXPECT_EQ(unseen.entries[0].severity, Severity::error) << "nobody looked";
}

TEST(Baseline, says_by_what_a_finding_is_suppressed) {
  std::vector<Finding> findings = {finding("/a", "1")}, suppressed;
  apply_baseline(baseline({entry(findings[0])}), findings, suppressed, all_of_a, {});
  ASSERT_EQ(suppressed.size(), 1u);
  EXPECT_EQ(suppressed[0].suppressed->by, Suppressed_by::baseline);
  EXPECT_EQ(suppressed[0].suppressed->why, "old (x)");
}

TEST(Baseline, expired_entries_suppress_nothing) {
  Baseline_entry expired = entry(finding("/a", "1"));
  expired.until = "2026-06-30";
  std::vector<Finding> findings = {finding("/a", "1")};
  EXPECT_EQ(said({expired}, findings, all_of_a, {"2026-06-30"}), Texts());
  EXPECT_TRUE(findings.empty());
  findings = {finding("/a", "1")};
  EXPECT_EQ(said({expired}, findings, all_of_a, {"2026-07-01"}), Texts{"baseline-expired /entries/0"});
  EXPECT_EQ(findings.size(), 1u);
}

TEST(Baseline, an_entry_is_not_expired_for_what_a_waiver_silences) {
  Baseline_entry expired = entry(finding("/a", "1"));
  expired.until = "2026-06-30";
  std::vector<Finding> findings, waived = {finding("/a", "1")};
  EXPECT_TRUE(apply_baseline(baseline({expired}), findings, waived, all_of_a, {"2026-07-01"}).empty());
}

// ---- what is stale

TEST(Baseline, an_entry_that_knows_too_much_is_stale) {
  std::vector<Finding> findings = {finding("/a", "1")};
  EXPECT_EQ(said({entry(findings[0], 2), entry(finding("/b", "1"))}, findings),
            (Texts{"baseline-stale /entries/0", "baseline-stale /entries/1"}));
}

TEST(Baseline, nothing_is_stale_that_could_not_be_found) {
  std::vector<Finding> none;
  const std::vector<Baseline_entry> of_rule = {entry(finding("/a", "1"))};
  const std::vector<Baseline_entry> of_reader = {entry(finding("/a", "1", "key-missing"))};
  const std::vector<Baseline_entry> of_corpus = {entry(finding("/id", "a", "id-used-twice"))};
  const std::vector<Baseline_entry> of_waiver = {entry(finding("/waivers/0", "", "waiver-unused"))};
  const auto is_stale = [&](const auto& entries, const Looked_at& looked_at, Lint_options options = {}) {
    return !said(entries, none, looked_at, options).empty();
  };
  const Looked_at some = {{{"profile a", {true, true}}}, false, {}},
                  other = {{{"profile b", {true, true}}}, false, {}},
                  other_of_all = {{{"profile b", {true, true}}}, true, {}},
                  refused = {{{"profile a", {true, false}}}, true, {}},
                  cut = {{{"profile a", {false, false}}}, true, {}},
                  refused_beside = {{{"profile a", {true, true}}, {"profile b", {true, false}}}, true, {}},
                  switched_off = {{{"profile a", {true, true}}}, true, {"pin-undeclared"}};
  EXPECT_TRUE(is_stale(of_rule, some));
  EXPECT_FALSE(is_stale(of_rule, other));
  EXPECT_TRUE(is_stale(of_rule, other_of_all));
  EXPECT_FALSE(is_stale(of_rule, refused));
  EXPECT_FALSE(is_stale(of_rule, switched_off));
  EXPECT_TRUE(is_stale(of_reader, switched_off));
  EXPECT_TRUE(is_stale(of_reader, refused));
  EXPECT_FALSE(is_stale(of_reader, cut));
  EXPECT_FALSE(is_stale(of_corpus, some));
  EXPECT_TRUE(is_stale(of_corpus, all_of_a));
  EXPECT_FALSE(is_stale(of_corpus, refused_beside));
  EXPECT_TRUE(is_stale(of_waiver, some));
  Lint_options no_waivers;
  no_waivers.no_waivers = true;
  EXPECT_FALSE(is_stale(of_waiver, some, no_waivers));
  EXPECT_TRUE(is_stale(of_rule, some, no_waivers));
  EXPECT_FALSE(is_stale(of_waiver, refused)) << "its rules did not run";
  EXPECT_TRUE(is_stale(std::vector{entry(finding("/a", "1", "count-out-of-limits"))}, other));
  EXPECT_TRUE(is_stale(std::vector{entry(finding("/a", "1", "no-such-rule"))}, other));
}

TEST(Baseline, what_a_waiver_silences_is_known_and_not_stale) {
  std::vector<Finding> findings, waived = {finding("/a", "1")};
  EXPECT_TRUE(apply_baseline(baseline({entry(waived[0])}), findings, waived, all_of_a, {}).empty());
}

TEST(Baseline, a_waived_finding_takes_no_count_from_an_equal_one) {
  std::vector<Finding> findings = {finding("/a", "1")}, waived = {finding("/a", "1")};
  apply_baseline(baseline({entry(waived[0])}), findings, waived, all_of_a, {});
  EXPECT_TRUE(findings.empty());
}

TEST(Baseline, says_why_an_entry_is_stale) {
  const auto why = [](const Baseline_entry& known, std::vector<Finding> findings,
                      const Looked_at& looked_at = all_of_a) {
    std::vector<Finding> suppressed;
    const std::vector<Finding> about = apply_baseline(baseline({known}), findings, suppressed, looked_at, {});
    EXPECT_EQ(about.size(), 1u);
    return about.empty() ? "" : about[0].message;
  };
  const Finding one = finding("/a", "1");
  EXPECT_EQ(why(entry(one, 2), {one}),
            "of 2 findings of pin-undeclared in profile a at /a, 1 is left; set `count` to 1");
  EXPECT_EQ(why(entry(one, 3), {one, one}),
            "of 3 findings of pin-undeclared in profile a at /a, 2 are left; set `count` to 2");
  EXPECT_EQ(why(entry(finding("", "")), {}), "pin-undeclared does not find this in profile a any more; "
                                             "remove this entry, so that it cannot come back unseen");
  EXPECT_TRUE(
      why(entry(one), {}).starts_with("pin-undeclared does not find \"1\" in profile a at /a any more"));
  EXPECT_EQ(why(entry(finding("/a", "1", "no-such-rule")), {}),
            "there is no rule no-such-rule; remove this entry");
  EXPECT_TRUE(why(entry(finding("/a", "1", "count-out-of-limits")), {})
                  .starts_with("what count-out-of-limits finds is not forgiven"));
  EXPECT_EQ(why(entry(one), {}, {{{"profile b", {true, true}}}, true, {}}),
            "there is no profile a in this corpus any more; remove this entry");
}

// ---- writing it anew

TEST(Baseline, renewed_keeps_what_is_found_or_unseen_and_adds_the_rest) {
  Baseline_entry kept = entry(finding("/kept", "1"), 3), gone = entry(finding("/gone", "1")),
                 unseen = entry(finding("/a", "1"));
  unseen.key.document = "profile b";
  const std::vector<Baseline_entry> entries = {kept, gone, unseen};
  const std::vector<Finding> findings = {finding("/kept", "1"), finding("/new", "1"), finding("/new", "1")};
  const Looked_at looked_at = {{{"profile a", {true, true}}}, false, {}};
  const Renewed_baseline renewed =
      ohmlore::renewed(entries, findings, {}, looked_at, {}, {{}, 1, "y", "new", "2027-01", 0});
  EXPECT_EQ(renewed.added, 2u);
  EXPECT_EQ(renewed.kept, 2u);
  EXPECT_EQ(renewed.removed, 3u);
  ASSERT_EQ(renewed.entries.size(), 3u);
  EXPECT_EQ(renewed.entries[0].key.at, "/kept");
  EXPECT_EQ(renewed.entries[0].count, 1u);
  EXPECT_EQ(renewed.entries[0].owner, "x");
  EXPECT_EQ(renewed.entries[1].key.document, "profile b");
  EXPECT_EQ(renewed.entries[2].key.at, "/new");
  EXPECT_EQ(renewed.entries[2].count, 2u);
  EXPECT_EQ(renewed.entries[2].owner, "y");
  EXPECT_EQ(renewed.entries[2].until, "2027-01");
}

// format.md, "Baseline": two entries of one document, rule, place and value are refused.
TEST(Baseline, renewed_has_one_entry_for_what_is_known_and_its_new_equals) {
  const Finding one = finding("/a", "1");
  const Renewed_baseline renewed = ohmlore::renewed(std::vector{entry(one)}, std::vector{one, one, one}, {},
                                                    all_of_a, {}, {{}, 1, "y", "new", "", 0});
  EXPECT_EQ(renewed.kept, 1u);
  EXPECT_EQ(renewed.added, 2u);
  ASSERT_EQ(renewed.entries.size(), 1u);
  EXPECT_EQ(renewed.entries[0].count, 3u);
  EXPECT_EQ(renewed.entries[0].owner, "x");
}

TEST(Baseline, renewed_makes_one_entry_of_two_whose_documents_are_one_now) {
  Baseline_entry before = entry(finding("/a", "1"));
  before.key.document = "profile old";
  const Finding one = finding("/a", "1");
  Looked_at looked_at = all_of_a;
  looked_at.redirects = {{"profile old", "profile a"}};
  const Renewed_baseline renewed =
      ohmlore::renewed(std::vector{entry(one), before}, std::vector{one, one}, {}, looked_at, {}, {});
  ASSERT_EQ(renewed.entries.size(), 1u);
  EXPECT_EQ(renewed.entries[0].count, 2u);
  EXPECT_EQ(renewed.kept, 2u);
}

TEST(Baseline, renewed_keeps_what_a_waiver_silences_and_does_not_add_it) {
  const std::vector<Finding> waived = {finding("/known", "1"), finding("/other", "1")};
  const Renewed_baseline renewed =
      ohmlore::renewed(std::vector{entry(waived[0])}, {}, waived, all_of_a, {}, {});
  ASSERT_EQ(renewed.entries.size(), 1u) << "as a run with it calls it live";
  EXPECT_EQ(renewed.entries[0].key, key_of(waived[0]));
  EXPECT_EQ(renewed.kept, 1u);
}

TEST(Baseline, is_written_in_one_order_and_read_back) {
  std::vector<Baseline_entry> entries = {entry(finding("/b", "9 kΩ"), 2), entry(finding("/a", ""))};
  entries[0].severity = Severity::note;
  const std::string text = baseline_text(entries);
  EXPECT_EQ(text, baseline_text({entries[1], entries[0]}));
  const Baseline read = baseline(entries);
  ASSERT_EQ(read.entries.size(), 2u);
  EXPECT_EQ(read.entries[0].key.at, "/a");
  EXPECT_EQ(read.entries[1].key, entries[0].key);
  EXPECT_EQ(read.entries[1].count, 2u);
  EXPECT_EQ(baseline_text(read.entries), text);
}

TEST(Baseline, members_of_others_are_kept) {
  const Baseline_read read =
      read_baseline("b.json", R"({"format":"ohmlore-baseline/1.0","x_a":[1.50],"entries":[
    {"document":"profile a","rule":"band-empty","at":"/a","value":"1","x_b":{"c":null},"owner":"x_y","why":"x_z"}],"x_d":2})");
  EXPECT_EQ(read.problems, Texts());
  EXPECT_EQ(read.baseline.free_members, (Free_members{{"x_a", "[1.50]"}, {"x_d", "2"}}));
  ASSERT_EQ(read.baseline.entries.size(), 1u);
  EXPECT_EQ(read.baseline.entries[0].free_members, (Free_members{{"x_b", "{\"c\":null}"}}));
}

TEST(Baseline, that_cannot_be_read_says_where) {
  EXPECT_EQ(read_baseline("b.json", "\xEF\xBB\xBF" + baseline_text({})).problems, Texts()) << "no error";
  EXPECT_TRUE(read_baseline("b.json", R"({"format":"ohmlore/1.0",)").problems[0].starts_with("b.json:1:"));
  EXPECT_FALSE(read_baseline("b.json", R"({"entries":[]})").problems.empty());
  EXPECT_EQ(read_baseline("b.json", "{").problems.size(), 1u);
  EXPECT_EQ(read_baseline("b.json", R"({"format":"ohmlore-baseline/2.0","entries":[]})").problems.size(), 1u);
  const Texts other = read_baseline("b.json", R"({"format":"ohmlore/1.0","kind":"corpus"})").problems;
  ASSERT_EQ(other.size(), 1u) << "what it lacks to be a baseline is nobody's question";
  EXPECT_NE(other[0].find("is not a baseline"), std::string::npos) << other[0];
  const Texts problems =
      read_baseline("b.json", R"({"format":"ohmlore-baseline/1.0","entries":[{"rule":"a","lines":3}]})")
          .problems;
  ASSERT_FALSE(problems.empty());
  const Texts twice =
      read_baseline("b.json", baseline_text({entry(finding("/a", "1")), entry(finding("/a", "1"), 2)}))
          .problems;
  ASSERT_EQ(twice.size(), 1u);
  EXPECT_TRUE(twice[0].starts_with("b.json:12:5: the entry of line 4 has the same")) << twice[0];
  Baseline_entry dated = entry(finding("/a", "1"));
  dated.until = "2027-02-29"; // 2027 is no leap year (ISO 8601)
  EXPECT_EQ(read_baseline("b.json", baseline_text({dated})).problems,
            Texts{"b.json:11:16: the calendar has no 2027-02-29; mend the day, or leave it out: 2027-02"});
  dated.until = "2028-02-29";
  EXPECT_EQ(read_baseline("b.json", baseline_text({dated})).problems, Texts());
  for (const std::string& problem : problems) EXPECT_TRUE(problem.starts_with("b.json:1:")) << problem;
}

}
}
