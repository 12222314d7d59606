// The steps of a lint run: check, judge, waivers, unused waivers, policy, order.
#include "ohmlore/lint.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <new>
#include <random>
#include <stdexcept>
#include <string>

namespace ohmlore {
namespace {

Read_result profile(std::string_view id, std::string_view members) {
  return read_json(fmt::format("{}.profile.json", id), fmt::format(R"({{
  "format": "ohmlore/1.0", "kind": "profile", "id": "{}", "revision": 1,
  "appliance": {{ "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
                  "controller": {{ "part": "OV-4410" }} }},
  "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "fused spur" }}] }},
  "sources": {{ "notes": {{ "kind": "maker_document", "title": "Larch service notes" }} }},
  "source": {{ "from": "notes" }} {} {} }})",
                                                                   id, members.empty() ? "" : ",", members));
}

Read_result corpus(std::string_view policy) {
  return read_json("corpus.json", fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "corpus", "title": "t",
    "licence": "CC0-1.0", "policy": {} }})",
                                              policy));
}

// Two sensors, the second with a pin that X4 does not have (an error) and a nominal of 10 Ω (a warning).
std::string faulty(std::string_view waivers) {
  return fmt::format(
      R"("connectors": {{ "X4": {{ "label": "X4", "ways": 2, "circuit": "selv", "pins": {{ "1": {{}}, "2": {{}} }} }} }},
  "components": {{
    "flow": {{ "kind": "ntc", "name": "Flow sensor", "between": ["X4.1", "X4.2"] }},
    "flow_sensor": {{ "kind": "ntc", "name": "Flow sensor, second", "between": ["X4.1", "X4.9"],
      "model": {{ "kind": "beta", "resistance": "10 Ω", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K",
                 "b_between": "25 °C to 85 °C", "b_tolerance": "1 %" }} }} }},
  "waivers": [{}])",
      waivers);
}

std::string waiver(std::string_view rule, std::string_view at, std::string_view until = "") {
  return fmt::format(R"({{ "rule": "{}", "at": "{}", "why": "as printed"{} }})", rule, at,
                     until.empty() ? "" : fmt::format(R"(, "until": "{}")", until));
}

struct Lint_all {
  std::vector<Linted> linted;
  std::vector<Fact> facts;
  void add(const Read_result& read, const Surroundings& surroundings = {}) {
    linted.push_back(lint_document(read, surroundings));
    facts.insert(facts.end(), linted.back().facts.begin(), linted.back().facts.end());
  }
  std::vector<Finding> settled(const Corpus* policy = nullptr, std::string today = "2026-01-01") {
    return settle(linted, judge_facts(facts), policy, {std::move(today)});
  }
};

// "rule severity pointer", of the rules that these tests speak of; others may be added to the program.
std::string told(const std::vector<Finding>& findings) {
  std::string out;
  for (const Finding& f : findings)
    for (const std::string_view rule : {"pin-undeclared", "prefix-suspicious", "id-used-twice", "key-missing",
                                        "unit-missing", "supplies-missing", "waiver-unused", "waiver-expired",
                                        "waiver-rule-unknown", "sample-too-small", "source-not-accepted"})
      if (f.rule == rule) out += fmt::format("{} {} {}\n", f.rule, word_of(f.severity), f.pointer);
  return out;
}

std::string told_of(std::string_view waivers, std::string today = "2026-01-01") {
  Lint_all run;
  run.add(profile("p", faulty(waivers)));
  return told(run.settled(nullptr, std::move(today)));
}

constexpr std::string_view pin = "pin-undeclared error /components/flow_sensor/between/1\n";
constexpr std::string_view prefix = "prefix-suspicious warning /components/flow_sensor/model/resistance\n";
std::string both() { return fmt::format("{}{}", pin, prefix); }

// ---- the registry

TEST(Registry, is_sorted_and_finds_every_rule) {
  const auto rules = all_rules();
  EXPECT_TRUE(std::is_sorted(rules.begin(), rules.end(),
                             [](const Rule_entry& a, const Rule_entry& b) { return a.slug < b.slug; }));
  for (const Rule_entry& entry : rules) EXPECT_EQ(find_rule(entry.slug), &entry);
  EXPECT_EQ(find_rule("no-such-rule"), nullptr);
  EXPECT_EQ(find_rule(""), nullptr);
  EXPECT_EQ(find_rule("zzz"), nullptr);
}

TEST(Registry, a_rule_that_collects_judges) {
  for (const Rule_entry& entry : all_rules()) {
    EXPECT_EQ(entry.rule->collect != nullptr, entry.rule->judge != nullptr) << entry.slug;
    EXPECT_NE(entry.rule->severity, Severity::off) << entry.slug;
    EXPECT_FALSE(entry.rule->summary.empty()) << entry.slug;
  }
}

// ---- documents

TEST(Lint, finds_and_sorts_by_place) { EXPECT_EQ(told_of(""), both()); }

TEST(Lint, sorts_findings_at_one_place_by_rule) {
  Lint_all run;
  run.add(profile("p", ""));
  ASSERT_EQ(run.linted.size(), 1u);
  std::vector<Finding>& findings = run.linted[0].findings;
  findings.clear();
  for (const std::string_view rule : {"word-unknown", "id-used-twice", "band-x", "id-used-twice"})
    for (const std::uint32_t begin : {20u, 10u}) {
      Finding finding;
      finding.rule = find_rule(rule) ? rule : "pin-undeclared";
      finding.region.begin = begin;
      finding.message = std::to_string(findings.size());
      findings.push_back(finding);
    }
  std::string order;
  for (const Finding& f : run.settled())
    order += fmt::format("{} {} {}\n", f.region.begin, f.rule, f.message);
  EXPECT_EQ(order, "10 id-used-twice 3\n10 id-used-twice 7\n10 pin-undeclared 5\n10 word-unknown 1\n"
                   "20 id-used-twice 2\n20 id-used-twice 6\n20 pin-undeclared 4\n20 word-unknown 0\n")
      << "and keeps the order of what stands at one place under one rule";
}

TEST(Lint, of_half_a_document_is_what_the_reader_says) {
  const Read_result read =
      read_json("half.json", R"({ "format": "ohmlore/1.0", "kind": "profile", "id": "x", )");
  const Linted linted = lint_document(read, {});
  ASSERT_EQ(linted.findings.size(), 1u);
  EXPECT_EQ(linted.findings[0].rule, "json-syntax");
  EXPECT_TRUE(linted.facts.empty()) << "nothing of it may be compared with others";
}

TEST(Lint, survives_what_is_no_document) {
  for (const std::string_view text :
       {"", "null", "[]", "{}", "7", R"("x")", R"({"kind":"profile"})",
        R"({"format":"ohmlore/1.0","kind":"part","component":[]})",
        R"({"format":"ohmlore/1.0","kind":"profile","waivers":[7,{}],"tests":{"t":null}})"}) {
    Lint_all run;
    run.add(read_json("x.json", text));
    EXPECT_FALSE(run.settled().empty()) << text;
  }
}

// ---- waivers

TEST(Waiver, covers_its_place) {
  EXPECT_EQ(told_of(waiver("pin-undeclared", "/components/flow_sensor/between/1")), prefix);
}

TEST(Waiver, covers_what_stands_in_its_place) {
  for (const std::string_view at :
       {"/components/flow_sensor/between", "/components/flow_sensor", "/components"})
    EXPECT_EQ(told_of(waiver("pin-undeclared", at)), prefix) << at;
}

TEST(Waiver, covers_nothing_beside_or_above) {
  for (const std::string_view at : {"/components/flow", "/components/flow_sensor/between/0",
                                    "/components/flow_sensor/model", "/connectors"})
    EXPECT_EQ(told_of(waiver("pin-undeclared", at)), both() + "waiver-unused warning /waivers/0\n") << at;
}

TEST(Waiver, covers_one_rule) {
  EXPECT_EQ(told_of(waiver("prefix-suspicious", "/components/flow_sensor")), pin);
}

TEST(Waiver, several_cover_each_their_own) {
  EXPECT_EQ(
      told_of(waiver("prefix-suspicious", "/components") + ", " + waiver("pin-undeclared", "/components")),
      "");
}

TEST(Waiver, a_second_one_for_the_same_finding_waives_nothing) {
  EXPECT_EQ(told_of(waiver("pin-undeclared", "/components") + ", " +
                    waiver("pin-undeclared", "/components/flow_sensor")),
            fmt::format("{}waiver-unused warning /waivers/1\n", prefix));
}

TEST(Waiver, cannot_silence_the_reader) {
  Lint_all run;
  run.add(profile("p", R"("safety": { "supplies": [] }, "components": {
      "a": { "kind": "coding", "model": { "kind": "fixed", "resistance": "470" } } },
      "waivers": [)" + waiver("key-missing", "/components") +
                           ", " + waiver("unit-missing", "/components") + ", " +
                           waiver("supplies-missing", "/safety") + "]"));
  const std::string all = told(run.settled());
  for (const std::string_view rule :
       {"key-missing error /components/a\n", "unit-missing error /components/a/model/resistance\n",
        "waiver-unused warning /waivers/0\n", "waiver-unused warning /waivers/1\n",
        "waiver-unused warning /waivers/2\n"})
    EXPECT_NE(all.find(rule), std::string::npos) << rule << "is not in\n" << all;
}

TEST(Waiver, of_an_unknown_rule_is_reported_once) {
  EXPECT_EQ(told_of(waiver("no-such-rule", "/components")),
            both() + "waiver-rule-unknown error /waivers/0/rule\n");
}

TEST(Waiver, without_its_members_is_no_waiver) {
  Lint_all run;
  run.add(profile(
      "p", R"("waivers": [{ "rule": "pin-undeclared", "why": "x" }, { "at": "/id", "why": "x" }, 5])"));
  EXPECT_TRUE(run.linted[0].waivers.empty());
}

// ---- their last day

TEST(Waiver, holds_on_its_last_day) {
  const std::string until = waiver("pin-undeclared", "/components", "2026-06-30");
  EXPECT_EQ(told_of(until, "2026-06-29"), prefix);
  EXPECT_EQ(told_of(until, "2026-06-30"), prefix);
  EXPECT_EQ(told_of(until, "2026-07-01"), both() + "waiver-expired warning /waivers/0\n");
}

TEST(Waiver, holds_to_the_end_of_its_month) {
  const std::string until = waiver("pin-undeclared", "/components", "2026-02");
  EXPECT_EQ(told_of(until, "2026-02-28"), prefix);
  EXPECT_EQ(told_of(until, "2026-03-01"), both() + "waiver-expired warning /waivers/0\n");
}

TEST(Waiver, does_not_expire_without_a_day_to_compare) {
  EXPECT_EQ(told_of(waiver("pin-undeclared", "/components", "2001-01-01"), ""), prefix);
}

TEST(Waiver, that_is_expired_and_unused_is_unused) {
  EXPECT_EQ(told_of(waiver("pin-undeclared", "/connectors", "2001-01-01")),
            both() + "waiver-unused warning /waivers/0\n");
}

TEST(Waiver, what_it_silences_is_kept_with_its_reason) {
  Lint_all run;
  run.add(profile("p", faulty(waiver("pin-undeclared", "/components"))));
  std::vector<Finding> waived;
  settle(run.linted, {}, nullptr, {"2026-01-01"}, &waived);
  ASSERT_EQ(told(waived), std::string(pin));
  ASSERT_TRUE(waived[0].suppressed);
  EXPECT_EQ(waived[0].suppressed->by, Suppressed_by::waiver);
  EXPECT_EQ(waived[0].suppressed->why, "as printed");
  EXPECT_EQ(waived[0].document, "profile p");
}

TEST(Waiver, of_a_document_that_is_not_trusted_silences_nothing) {
  for (const std::string_view at : {"/components", "/connectors"}) { // in use, and not
    Lint_all run;
    run.add(profile("p", faulty(waiver("pin-undeclared", at))));
    std::vector<Finding> waived;
    Lint_options options;
    options.no_waivers = true;
    EXPECT_EQ(told(settle(run.linted, {}, nullptr, options, &waived)), both());
    EXPECT_TRUE(waived.empty());
  }
}

// ---- a rule that breaks

TEST(Rule_that_throws, is_a_trouble_and_the_others_run) {
  static constexpr Rule breaks = {.summary = "It breaks.", .check = [](const Subject&, Sink&) {
                                    throw std::runtime_error("no such row");
                                  }};
  const Rule_entry rules[] = {{"breaks", &breaks, ""}, *find_rule("pin-undeclared")};
  const Linted linted = lint_document(profile("p", faulty("")), {}, rules);
  ASSERT_EQ(linted.troubles.size(), 1u);
  EXPECT_NE(linted.troubles[0].find(": the rule breaks could not do its work: no such row"),
            std::string::npos)
      << linted.troubles[0];
  EXPECT_EQ(told(linted.findings), std::string(pin));
  EXPECT_FALSE(linted.all_rules_ran);
}

// Where memory ends, the run does: half of one is none, and no rule is to blame.
TEST(Rule_that_throws, is_not_blamed_for_want_of_memory) {
  static constexpr Rule grows = {.summary = "It grows.",
                                 .check = [](const Subject&, Sink&) { throw std::bad_alloc(); }};
  const Rule_entry rules[] = {{"grows", &grows, ""}};
  EXPECT_THROW(lint_document(profile("p", faulty("")), {}, rules), std::bad_alloc);
}

// ---- what cannot be known of a waiver

TEST(Unused_waiver, is_not_told_beside_errors_of_the_reader) {
  Lint_all run;
  run.add(profile("p", R"("components": { "a": { "kind": "ntc", "name": "A", "between": ["X4.1", 7] } },
      "waivers": [)" + waiver("prefix-suspicious", "/components/a") +
                           "]"));
  EXPECT_EQ(told(run.settled()).find("waiver-unused"), std::string::npos);
}

TEST(Unused_waiver, is_not_told_of_a_part_that_was_not_found) {
  const std::string members = R"("components": { "a": { "kind": "ntc", "name": "A", "part": "ntc-10k" } },
      "waivers": [)" + waiver("prefix-suspicious", "/components/a") +
                              "]";
  Lint_all without;
  without.add(profile("p", members));
  EXPECT_EQ(told(without.settled()), "");
  Parts parts;
  parts.add(read_json("ntc-10k.part.json",
                      R"({ "format": "ohmlore/1.0", "kind": "part", "id": "ntc-10k", "revision": 1,
      "component": { "kind": "ntc", "name": "10 kΩ sensor" } })")
                .document);
  Lint_all with;
  with.add(profile("p", members), {nullptr, &parts});
  EXPECT_EQ(told(with.settled()), "waiver-unused warning /waivers/0\n");
}

TEST(Unused_waiver, of_a_corpus_wide_rule_is_told_of_a_whole_corpus) {
  const Read_result read = profile("p", fmt::format(R"("waivers": [{}])", waiver("id-used-twice", "/id")));
  Lint_all some;
  some.add(read);
  EXPECT_EQ(told(some.settled()), "");
  Lint_all whole;
  whole.add(read);
  whole.add(corpus("{}"));
  EXPECT_EQ(told(whole.settled()), "waiver-unused warning /waivers/0\n");
}

// ---- corpus-wide rules

TEST(Judge, findings_are_waived_in_their_file) {
  // Of two documents with one id the second is reported.
  Read_result first = profile("same", ""),
              second = profile("same", R"("waivers": [)" + waiver("id-used-twice", "/id") + "]");
  Lint_all run;
  run.add(first);
  second = read_json("z.profile.json", second.document.text());
  run.add(second);
  EXPECT_EQ(told(run.settled()), "");

  Lint_all elsewhere; // the waiver stands in the file that is not reported
  elsewhere.add(read_json("a.profile.json", second.document.text()));
  elsewhere.add(read_json("z.profile.json", first.document.text()));
  EXPECT_EQ(told(elsewhere.settled()), "id-used-twice error /id\n");
}

TEST(Judge, does_not_depend_on_the_order_of_facts) {
  Lint_all run;
  std::vector<Read_result> reads;
  for (const char name : {'a', 'b', 'c', 'd', 'e'}) {
    const Read_result read =
        profile(name < 'd' ? "same" : "other", R"("connectors": { "X4": { "label": "X4", "ways": 2,
        "circuit": "selv", "pins": { "1": { "signal": "flow" }, "2": { "signal": ")" +
                                                   std::string(1, name) + R"(" } } } })");
    reads.push_back(read_json(std::string(1, name) + ".json", read.document.text()));
  }
  for (const Read_result& read : reads) run.add(read);
  const auto told_all = [](const std::vector<Finding>& findings) {
    std::string out;
    for (const Finding& f : findings)
      out += fmt::format("{} {} {} {} {}\n", f.file, f.rule, f.pointer, f.message, f.related.size());
    return out;
  };
  const std::string expected = told_all(judge_facts(run.facts));
  EXPECT_NE(expected.find("id-used-twice"), std::string::npos);
  std::mt19937 random(20260101);
  for (int i = 0; i < 50; ++i) {
    std::shuffle(run.facts.begin(), run.facts.end(), random);
    EXPECT_EQ(told_all(judge_facts(run.facts)), expected);
  }
}

TEST(Judge, outlives_the_documents) {
  Lint_all run;
  {
    const Read_result first = profile("same", "");
    run.add(read_json("a.json", first.document.text()));
    run.add(read_json("b.json", first.document.text()));
  }
  const auto findings = run.settled();
  ASSERT_EQ(told(findings), "id-used-twice error /id\n");
  EXPECT_EQ(findings[0].file, "b.json");
  EXPECT_EQ(findings[0].region.first.line, 2u);
  EXPECT_NE(findings[0].source_line.find(R"("id": "same")"), std::string::npos);
  ASSERT_EQ(findings[0].related.size(), 1u);
  EXPECT_EQ(findings[0].related[0].file, "a.json");
}

TEST(Settle, drops_what_is_said_of_files_that_were_not_linted) {
  // A shard settles its own files; facts of the others came with it.
  Lint_all run;
  const Read_result first = profile("same", "");
  run.add(read_json("a.json", first.document.text()));
  run.add(read_json("b.json", first.document.text()));
  run.linted.pop_back();
  EXPECT_EQ(told(run.settled()), "");
}

// ---- policy

std::string told_under(std::string_view severities) {
  const Read_result policy = corpus(fmt::format(R"({{ "severities": {} }})", severities));
  EXPECT_NE(policy.document.corpus(), nullptr);
  Lint_all run;
  run.add(profile("p", faulty(waiver("pin-undeclared", "/connectors"))));
  return told(run.settled(policy.document.corpus()));
}

TEST(Policy, lowers_raises_and_switches_off_warnings) {
  const std::string unused = "waiver-unused warning /waivers/0\n";
  EXPECT_EQ(told_under("{}"), both() + unused);
  EXPECT_EQ(
      told_under(R"({ "prefix-suspicious": "note" })"),
      fmt::format("{}prefix-suspicious note /components/flow_sensor/model/resistance\n{}", pin, unused));
  EXPECT_EQ(
      told_under(R"({ "prefix-suspicious": "error" })"),
      fmt::format("{}prefix-suspicious error /components/flow_sensor/model/resistance\n{}", pin, unused));
  EXPECT_EQ(told_under(R"({ "prefix-suspicious": "off" })"), fmt::format("{}{}", pin, unused));
  EXPECT_EQ(told_under(R"({ "waiver-unused": "off" })"), both()) << "policy comes after the waivers";
}

TEST(Policy, never_lowers_an_error) {
  for (const std::string_view severity : {"off", "note", "warning", "error"})
    EXPECT_EQ(told_under(fmt::format(R"({{ "pin-undeclared": "{}" }})", severity)),
              both() + "waiver-unused warning /waivers/0\n")
        << severity;
}

// Three faults are alike in all, and the first may be told from them by its reset.
TEST(Policy, leaves_told_once_what_it_switches_off_in_part) {
  const Read_result policy = corpus(R"({ "severities": { "display-code-twice": "off" } })");
  std::string faults;
  for (const std::string_view id : {"A", "B", "C", "D"})
    faults += fmt::format(R"({}"{}": {{ "display": {{ "kind": "text", "text": "E1" }}, "meaning": "no flame",
      "reset": "{}" }})",
                          faults.empty() ? "" : ", ", id, id == "A" ? "automatic" : "manual");
  const std::string waived = fmt::format(R"(, "waivers": [{}])", waiver("pin-undeclared", "/faults"));
  for (const std::string& waivers : {std::string(), waived}) { // without any, it is dropped at once
    Lint_all run;
    run.add(profile("p", fmt::format(R"("faults": {{ {} }} {})", faults, waivers)),
            {policy.document.corpus(), nullptr, nullptr});
    std::vector<Finding> findings = run.settled(policy.document.corpus());
    tell_once(findings);
    std::vector<std::string> told;
    for (const Finding& finding : findings)
      if (finding.rule == "display-code-twice") told.push_back(finding.pointer);
    EXPECT_EQ(told, (std::vector<std::string>{"/faults/C/display", "/faults/D/display"}));
  }
}

TEST(Policy, of_a_rule_that_is_switched_off_still_uses_its_waivers) {
  const Read_result policy = corpus(R"({ "severities": { "prefix-suspicious": "off" } })");
  Lint_all run;
  run.add(profile("p", faulty(waiver("prefix-suspicious", "/components"))));
  EXPECT_EQ(told(run.settled(policy.document.corpus())), pin);
}

TEST(Policy, lowers_what_only_the_house_asks_for) {
  const auto told_with = [](std::string_view severity) {
    const Read_result policy = corpus(fmt::format(
        R"({{ "required_sources": ["measurement"], "severities": {{ "source-not-accepted": "{}" }} }})",
        severity));
    Lint_all run;
    run.add(profile("p", R"("components": { "r": { "kind": "resistor", "name": "Ballast",
      "model": { "kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %" } } })"),
            {policy.document.corpus(), nullptr, nullptr});
    run.add(policy, {policy.document.corpus(), nullptr, nullptr});
    return told(run.settled(policy.document.corpus()));
  };
  EXPECT_EQ(told_with("error"), "source-not-accepted error /components/r/model\n");
  EXPECT_EQ(told_with("warning"), "source-not-accepted warning /components/r/model\n");
  EXPECT_EQ(told_with("off"), "");
}

// ---- the life of rules; rules that never were

bool fails_under(const Rule& rule, std::string_view policy) {
  const Read_result read = corpus(policy);
  EXPECT_NE(read.document.corpus(), nullptr);
  return may_fail(rule, read.document.corpus());
}

// Settled alone, nothing fails: whoever looked at `fails` let everything pass.
TEST(Policy, is_that_of_what_surrounds_a_text) {
  const std::string text(profile("a", faulty("")).document.text());
  const Read_result loose = corpus("{}"), strict = corpus(R"({ "fail_on": "warning" })"),
                    quiet =
                        corpus(R"({ "fail_on": "warning", "severities": { "prefix-suspicious": "off" } })");
  EXPECT_EQ(failing_level(nullptr), Severity::error);
  EXPECT_EQ(failing_level(loose.document.corpus()), Severity::error);
  EXPECT_EQ(failing_level(strict.document.corpus()), Severity::warning);
  const auto failing = [&](const Corpus* policy) {
    std::vector<Finding> findings = lint_text("a.profile.json", text, {policy, nullptr, nullptr});
    std::erase_if(findings, [](const Finding& finding) { return !finding.fails; });
    return told(findings);
  };
  EXPECT_EQ(failing(nullptr), pin);
  EXPECT_EQ(failing(loose.document.corpus()), pin);
  EXPECT_EQ(failing(strict.document.corpus()), both());
  EXPECT_EQ(failing(quiet.document.corpus()), pin);
}

// Parts are known there, as they are to a run over files.
TEST(Lint, a_text_is_read_beside_its_parts) {
  Parts parts;
  parts.add(read_json("ntc-10k.part.json", R"({ "format": "ohmlore/1.0", "kind": "part", "id": "ntc-10k",
    "revision": 1, "title": "t", "sources": { "s": { "kind": "calculation", "note": "n" } },
    "source": { "from": "s" }, "component": { "kind": "ntc", "name": "Sensor" } })")
                .document);
  ASSERT_EQ(parts.size(), 1u);
  const std::string text(
      profile("a", R"("components": { "flow": { "kind": "ntc", "name": "Flow", "part": "ntc-10k" } })")
          .document.text());
  const auto unknown = [&](const Surroundings& around) {
    const auto findings = lint_text("a.profile.json", text, around);
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& finding) { return finding.rule == "part-unknown"; });
  };
  EXPECT_TRUE(unknown({}));
  EXPECT_FALSE(unknown({nullptr, &parts, nullptr}));
}

TEST(Ruleset, that_a_corpus_pins_is_not_failed_by_rules_that_came_later) {
  const Rule first{.summary = "of the first set"};
  const Rule later{.summary = "of a later set", .since = {1, 1}};
  const Rule much_later{.summary = "of a set with two digits", .since = {1, 10}};
  const std::string_view none = "{}", pins_1_0 = R"({ "ruleset": "1.0" })",
                         pins_1_1 = R"({ "ruleset": "1.1" })", pins_1_9 = R"({ "ruleset": "1.9" })",
                         pins_2_0 = R"({ "ruleset": "2.0" })";
  EXPECT_TRUE(fails_under(first, none));
  EXPECT_TRUE(fails_under(first, pins_1_0));
  EXPECT_TRUE(fails_under(first, pins_1_1));
  EXPECT_TRUE(fails_under(later, none));
  EXPECT_FALSE(fails_under(later, pins_1_0));
  EXPECT_TRUE(fails_under(later, pins_1_1));
  EXPECT_TRUE(fails_under(later, pins_2_0));
  EXPECT_FALSE(fails_under(much_later, pins_1_9)) << "numbers, not text";
  EXPECT_TRUE(may_fail(later, nullptr)) << "without a corpus nothing is pinned";
}

TEST(Ruleset, never_lets_a_preview_rule_fail) {
  const Rule preview{.summary = "tried out", .status = Rule_status::preview};
  EXPECT_FALSE(may_fail(preview, nullptr));
  EXPECT_FALSE(fails_under(preview, R"({ "ruleset": "1.0" })"));
  const Rule deprecated{
      .summary = "outdated", .status = Rule_status::deprecated, .replaced_by = "pin-undeclared"};
  EXPECT_TRUE(may_fail(deprecated, nullptr)) << "it works on";
}

TEST(Ruleset, that_the_program_does_not_know_yet_is_a_problem) {
  const Read_result read = corpus(R"({ "ruleset": "1.1" })");
  EXPECT_EQ(
      ruleset_problem(*read.document.corpus(), {1, 0}),
      "`ruleset` of the policy is 1.1, and this program knows the rules up to 1.0; upgrade the program");
  EXPECT_EQ(ruleset_problem(*read.document.corpus(), {1, 1}), "");
  EXPECT_EQ(ruleset_problem(*read.document.corpus(), {2, 0}), "");
  EXPECT_EQ(ruleset_problem(*corpus("{}").document.corpus(), {1, 0}), "");
}

TEST(Ruleset, is_two_numbers) {
  EXPECT_EQ(ruleset_of("1.0"), (Ruleset{1, 0}));
  EXPECT_EQ(ruleset_of("12.345"), (Ruleset{12, 345}));
  for (const std::string_view text :
       {"", "1", "1.", ".1", "1.0.0", "01.0", "1.00", "v1.0", "1.0 ", "-1.0", "10000.0"})
    EXPECT_EQ(ruleset_of(text), std::nullopt) << text;
  EXPECT_EQ(name_of(Ruleset{1, 10}), "1.10");
}

TEST(Rule_life, is_said) {
  EXPECT_EQ(life_of(Rule{.summary = ""}), "stable");
  EXPECT_EQ(life_of(Rule{.summary = "", .since = {1, 2}}), "stable since 1.2");
  EXPECT_EQ(life_of(Rule{.summary = "", .status = Rule_status::preview}), "preview");
  EXPECT_EQ(life_of(Rule{.summary = "", .status = Rule_status::deprecated, .replaced_by = "pin-undeclared"}),
            "deprecated, replaced by pin-undeclared");
}

}
}
