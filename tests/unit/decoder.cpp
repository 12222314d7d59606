// Every structural rule: where it fires, what it says, what is just allowed.
#include "ohmlore/document.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "../support/files.h"

namespace ohmlore {
namespace {

using Texts = std::vector<std::string>;

// "rule pointer line:column message"
Texts findings(std::string_view text) {
  Texts all;
  for (const Finding& f : read_json("t", text).findings)
    all.push_back(fmt::format("{} {} {}:{} {}{}", f.rule, f.pointer.empty() ? "root" : f.pointer,
                              f.region.first.line, f.region.first.column,
                              f.severity == Severity::error ? "" : fmt::format("({}) ", word_of(f.severity)),
                              f.message));
  return all;
}

Texts rules(std::string_view text) {
  Texts all;
  for (const Finding& f : read_json("t", text).findings) all.emplace_back(f.rule);
  return all;
}

// The smallest documents, with members in a line of their own: what is given begins at column 1 of line 2.
std::string part(std::string_view members, std::string_view format = "ohmlore/1.0") {
  return fmt::format(R"({{"format": "{}", "kind": "part", "id": "p", "revision": 1,
{}
}})",
                     format, members);
}
std::string component(std::string_view members) {
  return part(fmt::format("\"component\": {{ \"name\": \"n\",\n{}\n}}", members)); // line 3
}
std::string profile(std::string_view members) {
  return fmt::format(
      R"({{"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1, "appliance": )"
      R"({{"maker": "Orrinvale", "models": ["Alder"], "type": "heat_pump", "fuel": "oil", )"
      R"("controller": {{"part": "c"}}}}, "safety": {{"supplies": [{{"kind": "mains", )"
      R"("isolate_at": "switch"}}]}},
{}
}})",
      members);
}
std::string corpus(std::string_view members) {
  return fmt::format(R"({{"format": "ohmlore/1.0", "kind": "corpus", "title": "t", "licence": "CC0-1.0",
{}
}})",
                     members);
}
std::string connector(std::string_view members) {
  return profile(
      fmt::format("\"connectors\": {{ \"X4\": {{ \"label\": \"X4\",\n{}\n}} }}", members)); // line 3
}
std::string test(std::string_view members) {
  return profile(fmt::format("\"tests\": {{ \"t1\": {{\n{}\n}} }}", members)); // line 3
}

TEST(Clean, the_smallest_documents_and_a_full_one) {
  EXPECT_EQ(findings(part(R"("component": {"kind": "ntc", "name": "n"})")), Texts{});
  EXPECT_EQ(findings(component(R"("kind": "ntc")")), Texts{});
  EXPECT_EQ(findings(profile(R"("title": "t")")), Texts{});
  EXPECT_EQ(findings(corpus(R"("x_a": 1)")), Texts{});
  EXPECT_EQ(findings(test::larch_profile()), Texts{});
}

// What rules that go by absence ask.
TEST(Complete, is_a_document_of_which_nothing_was_left_out) {
  const std::string text = component(R"("kind": "ntc")");
  EXPECT_TRUE(read_json("t", text).document.complete());
  EXPECT_TRUE(read_json("t", "\xEF\xBB\xBF" + text).document.complete());
  EXPECT_FALSE(read_json("t", component(R"("kind": "ntc", "where": 7)")).document.complete());
}

// ---- missing and unknown keys

TEST(Key_missing, of_the_root_at_its_brace) {
  EXPECT_EQ(
      findings(part(R"("title": "t")")),
      Texts{
          "key-missing root 1:1 a part needs `component` (what the part is; a component that names the part "
          "takes over what it does not say itself), for example \"component\": { \"kind\": \"ntc\", "
          "\"name\": "
          "\"10 kΩ sensor\" }"});
}

TEST(Key_missing, of_a_member_at_its_key) {
  EXPECT_EQ(
      findings(profile(R"("source": { "page": "3" })")),
      Texts{"key-missing /source 2:1 `source` needs `from` (the source), for example \"from\": \"notes\""});
}

TEST(Key_missing, of_an_entry_and_an_item_by_what_they_are) {
  EXPECT_EQ(
      findings(profile(
          R"("circuits": { "c1": { "between": ["X1.1", "X1.2"], "arrangement": "series", "elements": [{ "kind": "resistor" }] } })")),
      Texts{"key-missing /circuits/c1/elements/0 2:90 an element of kind `resistor` needs `resistance` (its "
            "resistance), for example \"resistance\": \"1 kΩ\""});
  EXPECT_EQ(findings(part(
                R"("component": {"kind": "ntc", "name": "n"}, "sources": { "s": { "kind": "standard" } })")),
            Texts{"key-missing /sources/s 2:57 a source of kind `standard` needs `title` (title, or name, of "
                  "the document or "
                  "standard), for example \"title\": \"Larch service notes\""});
}

TEST(Key_missing, kind_alone_is_one_finding) {
  EXPECT_EQ(
      findings(component(R"("note": "a")")),
      Texts{
          "key-missing /component 2:1 `component` needs `kind` (what it is), for example \"kind\": \"ntc\""});
  EXPECT_EQ(
      findings(component(R"("model": { "resistance": "10 kΩ", "b_value": "3977 K" }, "kind": "ntc")")),
      Texts{
          "key-missing /component/model 3:1 `model` needs `kind` (which model it is), for example \"kind\": "
          "\"beta\""});
}

TEST(Key_missing, what_the_kind_does_not_need_is_not_missing) {
  EXPECT_EQ(findings(component(R"("kind": "resistor", "model": { "kind": "fixed", "resistance": "1 Ω" })")),
            Texts{});
  EXPECT_EQ(
      findings(component(R"("kind": "resistor", "model": { "kind": "open" })")),
      Texts{"key-missing /component/model 3:21 `model` of kind `open` needs `above` (least resistance of a "
            "healthy open path), for example \"above\": \"1 MΩ\""});
}

TEST(Key_missing, with_a_rule_of_its_own) {
  EXPECT_EQ(
      findings(
          R"({"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1, "appliance": {"maker": "Orrinvale",
"models": ["Alder"], "type": "heat_pump", "fuel": "oil", "controller": {"part": "c"}},
"safety": {}})"),
      Texts{
          "supplies-missing /safety 3:1 `safety` needs `supplies` (every supply of the appliance, each "
          "with its "
          "isolation point), for example \"supplies\": [{ \"kind\": \"mains\", \"isolate_at\": \"fused spur "
          "beside the appliance\" }]"});
}

TEST(Key_unknown, misspelt_is_one_finding_even_where_it_is_needed) {
  EXPECT_EQ(findings(part(R"("componnet": {"kind": "ntc", "name": "n"})")),
            Texts{"key-unknown /componnet 2:1 a part has no key \"componnet\"; did you mean \"component\"?"});
  EXPECT_EQ(findings(component(R"("knid": "ntc")")),
            Texts{"key-unknown /component/knid 3:1 `component` has no key \"knid\"; did you mean \"kind\"?"});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "ratedVoltage": "24 V")")),
            Texts{"key-unknown /component/ratedVoltage 3:16 `component` of kind `ntc` has no key "
                  "\"ratedVoltage\"; did "
                  "you mean \"rated_voltage\"?"});
}

TEST(Key_unknown, a_key_that_is_there_already_is_not_suggested) {
  EXPECT_EQ(findings(component(R"("kind": "ntc", "namee": "m")")),
            Texts{"key-unknown /component/namee 3:16 `component` of kind `ntc` has no key \"namee\"; a key "
                  "of your own "
                  "begins with x_"});
}

TEST(Key_unknown, the_fix_renames) {
  const std::string text = part(R"("componnet": {"kind": "ntc", "name": "n"})");
  const auto found = read_json("t", text).findings;
  ASSERT_EQ(found[0].fixes.size(), 1u);
  const Fix& fix = found[0].fixes[0];
  EXPECT_EQ(fix.safety, Fix_safety::unsafe);
  std::string mended = text;
  mended.replace(fix.edits[0].begin, fix.edits[0].end - fix.edits[0].begin, fix.edits[0].text);
  EXPECT_EQ(findings(mended), Texts{});
}

TEST(Key_unknown, of_another_kind) {
  EXPECT_EQ(findings(component(R"("kind": "ntc", "metal": "copper")")),
            Texts{"key-unknown /component/metal 3:16 `component` of kind `ntc` has no key \"metal\"; kind "
                  "`rtd`, `coil` "
                  "or `winding` has it"});
  EXPECT_EQ(findings(component(R"("kind": "coil", "metal": "copper")")), Texts{});
}

TEST(Key_unknown, without_a_kind_only_common_fields_are_spoken_of) {
  EXPECT_EQ(
      findings(component(R"("kind": "thermistor", "metal": 1, "anything": 2, "note": 3)")),
      (Texts{"word-unknown /component/kind 3:9 `kind` cannot be \"thermistor\"; it is one of `ntc`, `ptc`, "
             "`rtd`, "
             "`resistor`, `coil`, `winding`, `heater`, `switch`, `fuse`, `electrode`, `potentiometer`, "
             "`capacitor`, `transformer`, `igniter`, `photocell`, `thermocouple`, `coding`, `anode` or "
             "`electronic`; by what they stand for, `ntc` (thermistor, the usual temperature sensor or "
             "probe, whose resistance falls with "
             "temperature) or "
             "`ptc` (thermistor or silicon sensor whose resistance rises with temperature) may be meant",
             "type-wrong /component/note 3:58 `note` must be text, here it is a number (3); write \"3\""}));
}

TEST(Key_unknown, keys_that_begin_with_x_are_free) {
  EXPECT_EQ(findings(part(
                R"("component": {"kind": "ntc", "name": "n", "x_": null, "x_a": [1, {"": 2}]}, "x_b": 3)")),
            Texts{});
  EXPECT_EQ(rules(part(R"("component": {"kind": "ntc", "name": "n"}, "x-b": 3)")), Texts{"key-unknown"});
  EXPECT_EQ(rules(part(R"("component": {"kind": "ntc", "name": "n"}, "X_b": 3)")), Texts{"key-unknown"});
}

TEST(Key_unknown, schema_is_a_key_of_the_root_alone) {
  EXPECT_EQ(
      findings(part(R"("component": {"kind": "ntc", "name": "n"}, "$schema": "https://example.org/s")")),
      Texts{});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "$schema": "https://example.org/s")")),
            Texts{"key-unknown /component/$schema 3:16 `component` of kind `ntc` has no key \"$schema\"; the "
                  "part around it has it; a key of your own begins with x_"});
}

TEST(Key_unknown, a_key_of_another_name_is_one_mistake) {
  EXPECT_EQ(findings(test(R"("component": "c", "between": ["X1.1", "X1.2"], "side": "harness")")),
            Texts{"key-unknown /tests/t1/between 3:19 a test has no key \"between\"; by what they stand for, "
                  "`probes` "
                  "(the two contacts to measure between: the leads go to them) may be meant; a key of your "
                  "own begins "
                  "with x_"});
  EXPECT_EQ(rules(test(R"("component": "c", "leg": ["X1.1", "X1.2"], "side": "harness")")),
            (Texts{"key-missing", "key-unknown"}))
      << "nothing says which was meant";
}

TEST(Key_unknown, a_key_one_step_too_far_in_or_out_is_told_where_it_belongs) {
  const auto said = [](std::string_view text) { return findings(text).at(0); };
  EXPECT_NE(said(component(R"("kind": "winding", "model": {"kind": "copper", "at": "20 °C",
      "pairs": [{"from": "a", "to": "b", "resistance": "9 Ω", "tolerance": "5 %"}]})"))
                .find("no key \"tolerance\"; the resistance model around it has it; "),
            std::string::npos);
  EXPECT_NE(said(test(R"("component": "c", "probes": ["X1.1", "X1.2"], "side": "harness", "nominal": "9 Ω")"))
                .find("no key \"nominal\"; `expect` has it; "),
            std::string::npos);
  EXPECT_NE(said(profile(R"("hazards": [])")).find("no key \"hazards\"; `safety` has it; "),
            std::string::npos);
  EXPECT_EQ(
      said(component(
               R"("kind": "coil", "model": {"kind": "fixed", "resistance": "9 Ω"}, "b_value": "3977 K")"))
          .find("has it"),
      std::string::npos)
      << "a model of this kind has none";
  EXPECT_NE(
      said(component(R"("kind": "ntc", "b_value": "3977 K")")).find("no key \"b_value\"; `model` has it; "),
      std::string::npos);
  EXPECT_EQ(
      said(component(R"("kind": "ntc", "table": [{"at": "25 °C", "nominal": "10 kΩ"}])")).find("has it"),
      std::string::npos)
      << "the table of a source is a text";
  EXPECT_NE(said(profile(R"("faults": {"f1": {"display": {"kind": "text", "text": "F1"}, "meaning": "m",
      "component": "c", "suspects": [{"kind": "component", "modes": ["open"]}]}})"))
                .find("no key \"component\"; `raised` or `suspects` has it; "),
            std::string::npos);
}

TEST(Key_unknown, a_word_of_many_sentences_names_no_key) {
  EXPECT_EQ(rules(profile(R"("circuits": {"c1": {"between": ["X1.1", "X1.2"], "from": "X1.1"}})")),
            (Texts{"key-missing", "key-missing", "key-unknown"}))
      << "`elements`, in order from the first contact, are not meant, and are missing";
  const std::string where =
      findings(test(R"("component": "c", "probes": ["X1.1", "X1.2"], "side": "harness", "where": "x")"))
          .at(0);
  EXPECT_EQ(where.find("may be meant"), std::string::npos) << where;
}

// ---- duplicates

TEST(Key_duplicate, every_later_one_points_at_the_first) {
  const std::string text =
      component("\"kind\": \"ntc\",\n\"note\": \"a\",\n\"note\": \"b\",\n\"note\": \"c\"");
  EXPECT_EQ(
      findings(text),
      (Texts{
          "key-duplicate /component/note 5:1 the key `note` stands here again; of two such members a program "
          "keeps one, and not every program the same",
          "key-duplicate /component/note 6:1 the key `note` stands here again; of two such members a program "
          "keeps one, and not every program the same"}));
  for (const Finding& finding : read_json("t", text).findings) {
    ASSERT_EQ(finding.related.size(), 1u);
    EXPECT_EQ(finding.related[0].message, "first here");
    EXPECT_EQ(finding.related[0].region.first.line, 4u);
  }
}

TEST(Key_duplicate, however_it_is_spelled) {
  EXPECT_EQ(rules(component(R"("kind": "ntc", "note": "a", "\u006eote": "b")")), Texts{"key-duplicate"});
  EXPECT_EQ(rules(component(R"("\u006bind": "ntc", "note": "a", "Note": "b")")), Texts{"key-unknown"});
}

TEST(Key_duplicate, of_two_that_differ_none_counts) {
  const auto differ = read_json("t", component(R"("kind": "ntc", "note": "a", "note": "b")"));
  EXPECT_FALSE(differ.document.part()->component.note);
  const auto same = read_json("t", component(R"("kind": "ntc", "note": "a", "note": "a")"));
  EXPECT_EQ(*same.document.part()->component.note, "a");
}

TEST(Key_duplicate, of_two_kinds_that_differ_nothing_is_asked) {
  const std::string model = R"("kind": "ntc", "name": "n", "model": { "kind": "beta", "kind": ")";
  const std::string rows = R"(", "rows": [{ "at": "25 °C", "nominal": "10 kΩ" }] })";
  EXPECT_EQ(rules(part("\"component\": {" + model + "table" + rows + "}")), Texts{"key-duplicate"});
  const auto same = rules(part("\"component\": {" + model + "beta" + rows + "}"));
  EXPECT_NE(std::find(same.begin(), same.end(), "key-missing"), same.end());
  EXPECT_EQ(rules(part(R"("kind": "profile", "component": {"kind": "ntc", "name": "n"})")),
            Texts{"key-duplicate"});
}

TEST(Key_duplicate, of_entries_that_differ_only_the_ids_count) {
  const auto read = read_json(
      "t",
      part(
          R"("component": {"kind": "ntc", "name": "n"}, "sources": { "s": {"kind": "standard", "title": "a"}, "t": {"kind": "standard", "title": "a"}, "s": {"kind": "standard", "title": "b"} })"));
  const auto& sources = *read.document.sources();
  ASSERT_EQ(sources.size(), 3u);
  EXPECT_FALSE(sources.items[0].value);
  EXPECT_FALSE(sources.items[0].value.title);
  EXPECT_EQ(*sources.items[1].value.title, "a");
  EXPECT_FALSE(sources.items[2].value);
  EXPECT_EQ(sources.items[2].id, "s");
}

TEST(Key_duplicate, of_ids_free_keys_and_unknown_keys) {
  EXPECT_EQ(
      rules(part(
          R"("component": {"kind": "ntc", "name": "n"}, "sources": { "s": {"kind": "standard", "title": "a"}, "s": {"kind": "standard", "title": "b"} })")),
      Texts{"key-duplicate"});
  EXPECT_EQ(rules(component(R"("kind": "ntc", "x_a": 1, "x_b": 2, "x_a": 3)")), Texts{"key-duplicate"});
  EXPECT_EQ(rules(component(R"("kind": "ntc", "foo_bar": 1, "foo_bar": 2)")),
            (Texts{"key-unknown", "key-duplicate"}));
}

TEST(Key_duplicate, among_many_ids) {
  std::string sources;
  for (int i = 0; i < 100; ++i)
    sources += fmt::format("\"s{}\": {{\"kind\": \"standard\", \"title\": \"a\"}},\n", i == 77 ? 13 : i);
  sources.resize(sources.size() - 2);
  const auto found =
      read_json("t",
                part("\"component\": {\"kind\": \"ntc\", \"name\": \"n\"}, \"sources\": {\n" + sources + "}"))
          .findings;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].pointer, "/sources/s13");
  EXPECT_EQ(found[0].region.first.line, 3u + 77u);
  EXPECT_EQ(found[0].related[0].region.first.line, 3u + 13u);
}

// ---- types

TEST(Type_wrong, of_every_shape) {
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": 5)")),
      Texts{"type-wrong /component/note 3:24 `note` must be text, here it is a number (5); write \"5\""});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": true)")),
      Texts{
          "type-wrong /component/note 3:24 `note` must be text, here it is true or false (true); for example "
          "\"replaced as a pair\""});
  EXPECT_EQ(
      findings(component(R"("kind": 7)")),
      Texts{"type-wrong /component/kind 3:9 `kind` must be text, here it is a number (7); write \"7\""});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "linearised": "true")")),
            Texts{"type-wrong /component/linearised 3:30 `linearised` must be true or false, here it is text "
                  "(\"true\"); "
                  "write true without quotation marks"});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "linearised": 1)")),
            Texts{"type-wrong /component/linearised 3:30 `linearised` must be true or false, here it is a "
                  "number (1); "
                  "for example true"});
  EXPECT_EQ(
      findings(component(R"("kind": "rtd", "wires": "2")")),
      Texts{
          "type-wrong /component/wires 3:25 `wires` must be a whole number, here it is text (\"2\"); write 2 "
          "without quotation marks"});
  EXPECT_EQ(
      findings(component(R"("kind": "rtd", "wires": "02")")), // 02 is no number of JSON
      Texts{"type-wrong /component/wires 3:25 `wires` must be a whole number, here it is text (\"02\"); "
            "for example 2"});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "service_limit": {})")),
      Texts{
          "type-wrong /component/service_limit 3:33 `service_limit` must be text with a unit, here it is an "
          "object; for example \"3 K\""});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "source": "notes")")),
      Texts{"type-wrong /component/source 3:26 `source` must be an object, here it is text (\"notes\"); for "
            "example { \"from\": \"notes\", \"page\": \"31\" }"});
  EXPECT_EQ(findings(profile(R"("waivers": {})")),
            Texts{"type-wrong /waivers 2:12 `waivers` must be a list, here it is an object"});
  EXPECT_EQ(findings(profile(R"("tests": [])")),
            Texts{"type-wrong /tests 2:10 `tests` must be an object keyed by id, here it is a list"});
  EXPECT_EQ(findings(test(R"("component": "c", "probes": ["X1.1", 2], "side": "harness")")),
            Texts{"type-wrong /tests/t1/probes/1 3:38 an item of `probes` must be text: a connector and its "
                  "pin, here it "
                  "is a number (2); write \"2\""});
}

TEST(Type_wrong, of_items_and_entries) {
  EXPECT_EQ(
      findings(profile(R"("sources": { "s": "notes" })")),
      Texts{"type-wrong /sources/s 2:19 `s` in `sources` must be an object, here it is text (\"notes\"); for "
            "example \"sources\": { \"notes\": { \"kind\": \"maker_document\", \"title\": \"Larch service "
            "notes\" } }"});
  EXPECT_EQ(
      findings(component(R"("kind": "switch", "states": { "cold": 1 })")),
      Texts{
          "type-wrong /component/states/cold 3:39 `cold` in `states` must be text, here it is a number (1); "
          "write \"1\""});
  EXPECT_EQ(
      findings(test(R"("component": "c", "probes": ["X1.1", "X1.2"], "side": "harness", "before": [["a"]])")),
      Texts{"type-wrong /tests/t1/before/0 3:77 an item of `before` must be text, here it is a list; for "
            "example \"before\": [\"let the motor cool to room temperature\"]"});
}

TEST(Type_wrong, null_is_never_a_value) {
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": null)")),
      Texts{"type-wrong /component/note 3:24 `note` is null; leave it out where there is nothing to say"});
  EXPECT_EQ(findings(component(R"("kind": null)")),
            Texts{"type-wrong /component/kind 3:9 `kind` is null; it is needed, for example \"ntc\""});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "model": null)")),
      Texts{"type-wrong /component/model 3:25 `model` is null; leave it out where there is nothing to say"});
}

TEST(Unit_missing, a_number_where_a_quantity_belongs) {
  EXPECT_EQ(findings(component(R"("kind": "resistor", "model": { "kind": "fixed", "resistance": 470 })")),
            Texts{"unit-missing /component/model/resistance 3:63 `resistance` is 470 without a unit; write "
                  "it as text "
                  "with its unit, for example \"10 kΩ\""});
}

TEST(Type_wrong, of_the_document) {
  EXPECT_EQ(findings("[]"), Texts{"type-wrong root 1:1 a document is one JSON object, here it is a list"});
  EXPECT_EQ(findings(" 5"), Texts{"type-wrong root 1:2 a document is one JSON object, here it is a number"});
}

// ---- texts

TEST(Text_empty, everywhere_but_needed_or_not) {
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": "")")),
      Texts{"text-empty /component/note 3:24 `note` is empty; leave it out where there is nothing to say"});
  EXPECT_EQ(
      findings(part(R"("component": {"kind": "ntc", "name": ""})")),
      Texts{"text-empty /component/name 2:38 `name` is empty; it is needed, for example \"Flow temperature "
            "sensor\""});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "service_limit": "")")),
      Texts{"text-empty /component/service_limit 3:33 `service_limit` is empty; leave it out where there is "
            "nothing to say"});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "note": " ")")), Texts{});
}

TEST(Text_forbidden_character, is_shown_where_it_stands) {
  EXPECT_EQ(
      findings(component("\"kind\": \"ntc\", \"note\": \"a\x7F\"")),
      Texts{"text-forbidden-character /component/note 3:26 the control character U+007F stands in this text; "
            "remove it"});
  EXPECT_EQ(
      findings(component("\"kind\": \"ntc\", \"note\": \"Ω\xC2\x85\"")),
      Texts{"text-forbidden-character /component/note 3:26 the control character U+0085 stands in this text; "
            "remove it"});
  EXPECT_EQ(findings(component("\"kind\": \"ntc\", \"note\": \"a\xEF\xBF\xBE\"")),
            Texts{"text-forbidden-character /component/note 3:26 the non-character U+FFFE stands in this "
                  "text; remove "
                  "it"});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": "a\tb")")),
      Texts{
          "text-forbidden-character /component/note 3:24 a tab (U+0009) stands in this text; write a space"});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": "a\nb")")),
      Texts{
          "text-forbidden-character /component/note 3:24 a line break (U+000A) stands in this text; write a "
          "space"});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "note": "a\udc00")")),
            Texts{"text-forbidden-character /component/note 3:26 `\\udc00` is half of a surrogate pair; both "
                  "halves are "
                  "needed for one character"});
  EXPECT_EQ(findings(component(R"("kind": "ntc", "service_limit": "3\u0000K")")),
            Texts{"text-forbidden-character /component/service_limit 3:33 the control character U+0000 "
                  "stands in this "
                  "text; remove it"});
}

TEST(Text_forbidden_character, its_neighbours_are_allowed) {
  EXPECT_EQ(
      findings(component("\"kind\": \"ntc\", \"note\": \" ~\xC2\xA0\xEF\xBF\xBD\xED\x9F\xBF\xEE\x80\x80😀\"")),
      Texts{});
  EXPECT_EQ(
      findings(component(R"("kind": "ntc", "note": "\u0020\u007e\u00a0\ufffd\ud7ff\ue000\ud83d\ude00")")),
      Texts{});
}

TEST(Text_forbidden_character, bytes_that_are_not_utf8_are_one_finding) {
  EXPECT_EQ(findings(component("\"kind\": \"ntc\", \"note\": \"20 \xB0\x43\"")),
            Texts{"utf8-malformed root 3:28 byte 0xB0 is not UTF-8 here (in Windows-1252 it is `°`); save "
                  "the file as UTF-8"});
  EXPECT_EQ(rules(component("\"kind\": \"ntc\", \"note\": \"\\u0041\xB0\"")), Texts{"utf8-malformed"});
}

// ---- forms

TEST(Id_malformed, says_why) {
  const auto with_id = [](std::string_view id) {
    return fmt::format(
        R"({{"format": "ohmlore/1.0", "kind": "part", "id": "{}", "revision": 1, "component": {{"kind": "ntc", "name": "n"}}}})",
        id);
  };
  EXPECT_EQ(findings(with_id("flow sensor")), Texts{"id-malformed /id 1:49 \"flow sensor\" is not an id: an "
                                                    "id has no spaces; `_` or `-` may stand between "
                                                    "words"});
  EXPECT_EQ(findings(with_id("_a")),
            Texts{"id-malformed /id 1:49 \"_a\" is not an id: an id begins with a letter or digit"});
  EXPECT_EQ(findings(with_id("wärme")), Texts{"id-malformed /id 1:49 \"wärme\" is not an id: an id has no "
                                              "`ä`, only the letters A to Z and a to z, "
                                              "digits, `_` and `-`"});
  EXPECT_EQ(findings(with_id(std::string(65, 'a'))),
            Texts{"id-malformed /id 1:49 \"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa… is not an id: an id has "
                  "at most 64 "
                  "characters, this one has 65"});
  EXPECT_EQ(findings(with_id(std::string(64, 'a'))), Texts{});
  EXPECT_EQ(findings(with_id("a-_9")), Texts{});
}

TEST(Id_malformed, of_an_entry_at_its_key) {
  EXPECT_EQ(findings(profile(R"("sources": { "my notes": { "kind": "standard", "title": "t" } })")),
            Texts{"id-malformed /sources/my notes 2:14 \"my notes\" is not an id: an id has no spaces; `_` "
                  "or `-` may "
                  "stand between words"});
  EXPECT_EQ(findings(profile(R"("sources": { "": { "kind": "standard", "title": "t" } })")),
            Texts{"id-malformed /sources/ 2:14 \"\" is not an id: an id has at least one letter or digit"});
}

TEST(Contact_malformed, is_connector_and_pin) {
  const auto with = [](std::string_view contact) {
    return test(fmt::format(R"("component": "c", "probes": ["{}", "X1.2"], "side": "harness")", contact));
  };
  for (const auto contact : {"X4", "X4.", ".1", "X4 .1", "X4.1.2", "X4:1", "flow-sensor", ""})
    EXPECT_EQ(findings(with(contact)),
              Texts{fmt::format(
                  "contact-malformed /tests/t1/probes/0 3:30 \"{}\" is not a contact; write connector and "
                  "pin with a point between, for example \"X4.1\"",
                  contact)});
  for (const auto contact : {"X4.1", "1.1", "main-board.A_1"}) EXPECT_EQ(findings(with(contact)), Texts{});
}

TEST(Text_malformed, dates_countries_pointers_and_paths) {
  const auto source = [](std::string_view date) {
    return profile(
        fmt::format(R"("sources": {{ "s": {{ "kind": "standard", "title": "t", "date": "{}" }} }})", date));
  };
  EXPECT_EQ(
      findings(source("2021/03")),
      Texts{"text-malformed /sources/s/date 2:63 \"2021/03\" is not a date; write YYYY-MM or YYYY-MM-DD, for "
            "example \"2021-03\""});
  EXPECT_EQ(rules(source("2021-13")), Texts{"text-malformed"});
  EXPECT_EQ(rules(source("2021-12")), Texts{});
  EXPECT_EQ(rules(source("2021-12-31")), Texts{});

  const auto market = [](std::string_view country) {
    return fmt::format(
        R"({{"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1, "appliance": )"
        R"({{"maker": "Orrinvale", "models": ["Alder"], "type": "heat_pump", "fuel": "oil", )"
        R"("controller": {{"part": "c"}}, "markets": ["{}"]}}, "safety": {{"supplies": [{{"kind": "mains", )"
        R"("isolate_at": "switch"}}]}}}})",
        country);
  };
  EXPECT_EQ(
      findings(market("Ireland")),
      Texts{"text-malformed /appliance/markets/0 1:206 \"Ireland\" is not a country code; write two capital "
            "letters (ISO 3166-1), for example \"IE\""});
  for (const auto country : {"ie", "I", "IRL", "I1"})
    EXPECT_EQ(rules(market(country)), Texts{"text-malformed"}) << country;
  EXPECT_EQ(rules(market("IE")), Texts{});

  const auto waiver = [](std::string_view at) {
    return profile(fmt::format(R"("waivers": [{{ "rule": "a-b", "at": "{}", "why": "w" }}])", at));
  };
  EXPECT_EQ(findings(waiver("components.pump")),
            Texts{"text-malformed /waivers/0/at 2:36 \"components.pump\" is not a JSON Pointer; it begins "
                  "with `/`, for "
                  "example \"/components/pump\""});
  EXPECT_EQ(rules(waiver("/")), Texts{});

  const auto house = [](std::string_view path) {
    return corpus(fmt::format(R"("house_schema": "{}")", path));
  };
  EXPECT_EQ(
      findings(house("/etc/house.json")),
      Texts{"text-malformed /house_schema 2:17 \"/etc/house.json\" is not a path inside the corpus; write it "
            "relative to the root, with `/`, for example \"parts\""});
  for (const auto path : {"../a", "a/../b", "a//b", "a\\\\b", "a b", "./a", ".a", "a/.b"})
    EXPECT_EQ(rules(house(path)), Texts{"text-malformed"}) << path;
  for (const auto path : {"a", "a/b.json", "_a-b/c.d"}) EXPECT_EQ(rules(house(path)), Texts{}) << path;
}

// ---- words

// Which kinds a component of a kind that nobody knows is said to be perhaps.
std::vector<std::string> kinds_for(std::string_view written) {
  const std::string said = findings(component(fmt::format(R"("kind": "{}", "name": "n")", written))).at(0);
  std::vector<std::string> kinds;
  for (const Word& word : Component_kind_words.words)
    if (said.find(fmt::format("`{}` (", word.text)) != std::string::npos) kinds.emplace_back(word.text);
  return kinds;
}

// What people call the things: common practice, no source.
TEST(Word_unknown, a_kind_is_found_by_what_people_call_the_thing) {
  for (const auto word : {"pt1000", "Pt100", "pt1000_sensor", "platinum"})
    EXPECT_EQ(kinds_for(word), Texts{"rtd"}) << word;
  for (const auto word : {"motor", "stepper_motor", "compressor", "actuator"})
    EXPECT_EQ(kinds_for(word), Texts{"winding"}) << word;
  for (const auto word : {"pump", "fan"})
    EXPECT_EQ(kinds_for(word), (Texts{"winding", "electronic"})) << word;
  for (const auto word : {"solenoid", "solenoid valve", "relay", "relay coil"})
    EXPECT_EQ(kinds_for(word), Texts{"coil"}) << word;
  for (const auto word : {"contact", "thermostat", "reed", "limiter"})
    EXPECT_EQ(kinds_for(word), Texts{"switch"}) << word;
  EXPECT_EQ(kinds_for("diverter_valve"), (Texts{"coil", "winding"}));
  EXPECT_EQ(kinds_for("thermistor"), (Texts{"ntc", "ptc"}));
  EXPECT_EQ(kinds_for("temperature_sensor"), (Texts{"ntc", "ptc", "rtd"}));
  EXPECT_EQ(kinds_for("pressure_sensor"), Texts{"electronic"});
  EXPECT_EQ(kinds_for("flame sensor"), (Texts{"electrode", "photocell"}));
  EXPECT_EQ(kinds_for("probe"), (Texts{"ntc", "rtd", "electrode"}));
  EXPECT_EQ(kinds_for("link"), (Texts{"fuse", "coding"}));
  for (const auto word : {"board", "battery", "varistor", "in", "_", "sens"})
    EXPECT_EQ(kinds_for(word), Texts{}) << word;
}

TEST(Word_unknown, a_word_that_is_part_of_several_names_them_all) {
  std::string text = profile("\"x_\": 1");
  text.replace(text.find("heat_pump"), 9, "oil boiler");
  const std::string said = findings(text).at(0);
  for (const auto kind : {"combination_boiler", "system_boiler", "heat_only_boiler"})
    EXPECT_NE(said.find(fmt::format("`{}` (", kind)), std::string::npos) << said;
}

TEST(Word_unknown, what_may_be_dangerous_is_named_too) {
  const auto meant_by = [](std::string_view word) {
    return findings(
               profile(fmt::format(
                   R"("connectors": {{"X1": {{"label": "X1", "ways": 1, "circuit": "{}", "pins": {{"1": {{}}}}}}}})",
                   word)))
        .at(0);
  };
  for (const auto circuit : {"mains", "live_referenced"})
    EXPECT_NE(meant_by("live").find(fmt::format("`{}` (", circuit)), std::string::npos) << meant_by("live");
  EXPECT_EQ(meant_by("isolated").find("may be meant"), std::string::npos) << "not `live_referenced`";
}

TEST(Word_unknown, suggests_what_was_meant) {
  EXPECT_EQ(findings(component(R"("kind": "NTC")")),
            Texts{"word-unknown /component/kind 3:9 `kind` cannot be \"NTC\"; did you mean \"ntc\"?"});
  EXPECT_EQ(findings(component(R"("kind": "switch", "contacts": "normally open")")),
            Texts{"word-unknown /component/contacts 3:31 `contacts` cannot be \"normally open\"; it is one "
                  "of `no`, `nc` "
                  "or `changeover`; by what they stand for, `no` (normally open) may be meant"});
  EXPECT_EQ(findings(test(R"("component": "c", "probes": ["X1.1", "X1.2"], "side": "at board plug")")),
            Texts{"word-unknown /tests/t1/side 3:55 `side` cannot be \"at board plug\"; did you mean "
                  "\"at_board_plug\"?"});
  EXPECT_EQ(
      findings(component(
          R"("kind": "rtd", "model": { "kind": "iec_60751", "r0": "100 Ω", "tolerance_class": "aa" })")),
      Texts{"word-unknown /component/model/tolerance_class 3:82 `tolerance_class` cannot be \"aa\"; did you "
            "mean "
            "\"AA\"?"});
}

TEST(Word_unknown, of_a_document) {
  const auto with = [](std::string_view kind) {
    return fmt::format(R"({{"format": "ohmlore/1.0", "kind": {}, "more": 1}})", kind);
  };
  EXPECT_EQ(findings(with(R"("profil")")),
            Texts{"word-unknown /kind 1:35 `kind` cannot be \"profil\"; did you mean \"profile\"?"});
  EXPECT_EQ(
      findings(with(R"("boiler")")),
      Texts{
          "word-unknown /kind 1:35 `kind` cannot be \"boiler\"; it is one of `profile`, `part` or `corpus`"});
  EXPECT_EQ(findings(with("1")), Texts{"type-wrong /kind 1:35 `kind` must be text, here it is a number"});
  EXPECT_EQ(
      findings("{}"),
      (Texts{"key-missing root 1:1 a document needs `kind`; it is one of `profile`, `part` or `corpus`",
             "key-missing root 1:1 a document needs `format`, for example \"format\": \"ohmlore/1.0\""}));
  EXPECT_EQ(findings(R"({"format": 1})"),
            (Texts{"key-missing root 1:1 a document needs `kind`; it is one of `profile`, `part` or `corpus`",
                   "type-wrong /format 1:12 `format` must be text, here it is a number"}));
}

// ---- counts and integers

TEST(Count_out_of_limits, of_lists) {
  const auto probes = [](std::string_view list) {
    return test(fmt::format(R"("component": "c", "probes": {}, "side": "harness")", list));
  };
  EXPECT_EQ(findings(probes(R"([])")),
            Texts{"count-out-of-limits /tests/t1/probes 3:29 `probes` is empty; it must have exactly 2 items "
                  "(the two contacts to measure between: the leads go to them)"});
  EXPECT_EQ(
      findings(probes(R"(["X1.1"])")),
      Texts{"count-out-of-limits /tests/t1/probes 3:29 `probes` has 1 item; it must have exactly 2 items "
            "(the two contacts to measure between: the leads go to them)"});
  EXPECT_EQ(findings(probes(R"(["X1.1", "X1.2"])")), Texts{});
  EXPECT_EQ(
      findings(probes(R"(["X1.1", "X1.2", "X1.3"])")),
      Texts{"count-out-of-limits /tests/t1/probes 3:29 `probes` has 3 items; it must have exactly 2 items "
            "(the two contacts to measure between: the leads go to them)"});
}

TEST(Count_out_of_limits, at_both_ends) {
  const auto suspects = [](int n) {
    std::string list;
    for (int i = 0; i < n; ++i) list += i == 0 ? R"({"kind": "board"})" : R"(, {"kind": "board"})";
    return profile(fmt::format(
        R"("faults": {{ "E1": {{ "display": {{ "kind": "text", "text": "E1" }}, "meaning": "m", "suspects": [{}] }} }})",
        list));
  };
  EXPECT_EQ(rules(suspects(0)), Texts{"count-out-of-limits"});
  EXPECT_EQ(rules(suspects(1)), Texts{});
  EXPECT_EQ(rules(suspects(64)), Texts{});
  EXPECT_EQ(findings(suspects(65)),
            Texts{"count-out-of-limits /faults/E1/suspects 2:94 `suspects` has 65 items; it must have "
                  "at most 64 items"});
}

TEST(Count_out_of_limits, of_maps_and_the_common_limit) {
  const auto states = [](int n) {
    std::string map;
    for (int i = 0; i < n; ++i) map += fmt::format("{}\"s{}\": \"open\"", i == 0 ? "" : ", ", i);
    return component(fmt::format(R"("kind": "switch", "states": {{ {} }})", map));
  };
  EXPECT_EQ(
      findings(states(0)),
      Texts{"count-out-of-limits /component/states 3:29 `states` is empty; it must have at least 1 entry"});
  EXPECT_EQ(rules(states(1)), Texts{});
  EXPECT_EQ(rules(states(16)), Texts{});
  EXPECT_EQ(findings(states(17)),
            Texts{"count-out-of-limits /component/states 3:29 `states` has 17 entries; it must have at most "
                  "16 entries"});

  const auto sources = [](int n) {
    std::string map;
    for (int i = 0; i < n; ++i)
      map += fmt::format("{}\"s{}\": {{ \"kind\": \"standard\", \"title\": \"t\" }}", i == 0 ? "" : ", ", i);
    return profile(fmt::format(R"("sources": {{ {} }})", map));
  };
  EXPECT_EQ(rules(sources(0)), Texts{}) << "a map may be empty unless its field says otherwise";
  EXPECT_EQ(rules(sources(1000)), Texts{});
  EXPECT_EQ(rules(sources(1001)), Texts{"count-out-of-limits"});
}

TEST(Count_out_of_limits, what_is_too_many_is_not_read) {
  std::string list = "1";
  for (int i = 0; i < 5000; ++i) list += ",1";
  const auto found = rules(
      test(R"("component": "c", "side": "harness", "probes": ["X1.1", "X1.2"], "before": [)" + list + "]"));
  EXPECT_EQ(found.size(), 1001u) << "one for the list, one for each of the first thousand";
}

TEST(Number_out_of_limits, at_both_ends) {
  const auto ways = [](std::string_view n) {
    return connector(fmt::format(R"("circuit": "selv", "pins": {{ "1": {{}} }}, "ways": {})", n));
  };
  EXPECT_EQ(
      findings(ways("0")),
      Texts{"number-out-of-limits /connectors/X4/ways 3:49 `ways` is 0; it must lie between 1 and 200"});
  EXPECT_EQ(rules(ways("-1")), Texts{"number-out-of-limits"});
  EXPECT_EQ(rules(ways("1")), Texts{});
  EXPECT_EQ(rules(ways("200")), Texts{});
  EXPECT_EQ(
      findings(ways("201")),
      Texts{"number-out-of-limits /connectors/X4/ways 3:49 `ways` is 201; it must lie between 1 and 200"});
  EXPECT_EQ(findings(ways("99999999999999999999")),
            Texts{"number-out-of-limits /connectors/X4/ways 3:49 `ways` is 99999999999999999999; it must lie "
                  "between 1 "
                  "and 200"});
}

TEST(Type_wrong, whole_numbers_have_neither_point_nor_exponent) {
  const auto ways = [](std::string_view n) {
    return connector(fmt::format(R"("circuit": "selv", "pins": {{ "1": {{}} }}, "ways": {})", n));
  };
  EXPECT_EQ(
      findings(ways("8.0")),
      Texts{"type-wrong /connectors/X4/ways 3:49 `ways` must be a whole number, here it is 8.0; write 8"});
  EXPECT_EQ(findings(ways("8.5")), Texts{"type-wrong /connectors/X4/ways 3:49 `ways` must be a whole number, "
                                         "here it is 8.5; for example 8"});
  EXPECT_EQ(findings(ways("8e0")), Texts{"type-wrong /connectors/X4/ways 3:49 `ways` must be a whole number, "
                                         "here it is 8e0; for example 8"});
  EXPECT_EQ(rules(ways("8")), Texts{});
}

TEST(Number_out_of_limits, zero_where_it_is_allowed) {
  EXPECT_EQ(rules(corpus(R"("meter": { "counts": 0 })")), Texts{});
  EXPECT_EQ(rules(corpus(R"("meter": { "counts": -0 })")), Texts{});
  EXPECT_EQ(rules(corpus(R"("meter": { "counts": 1000 })")), Texts{});
  EXPECT_EQ(rules(corpus(R"("meter": { "counts": 1001 })")), Texts{"number-out-of-limits"});
}

// ---- quantities: the grammar is proved elsewhere; here only that the finding stands where the fault is

TEST(Quantity, the_finding_points_into_the_text) {
  const std::string text =
      component(R"("kind": "resistor", "model": { "kind": "fixed", "resistance": "470 V" })");
  const auto found = read_json("t", text).findings;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].rule, "unit-of-other-dimension");
  EXPECT_EQ(found[0].pointer, "/component/model/resistance");
  EXPECT_EQ(text.substr(found[0].region.begin, found[0].region.end - found[0].region.begin), "V");
  EXPECT_TRUE(found[0].message.starts_with("`resistance`: ")) << found[0].message;
}

TEST(Quantity, in_an_escaped_text_the_finding_is_the_whole_of_it) {
  const std::string text =
      component(R"("kind": "resistor", "model": { "kind": "fixed", "resistance": "470 \u0056" })");
  const auto found = read_json("t", text).findings;
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(text.substr(found[0].region.begin, found[0].region.end - found[0].region.begin),
            R"("470 \u0056")");
}

TEST(Quantity, every_one_that_was_read_is_remembered) {
  const auto read = read_json(
      "t",
      component(
          R"("kind": "resistor", "model": { "kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %", "at": "20 °C" })"));
  ASSERT_EQ(read.findings.size(), 0u);
  std::vector<std::string> uses;
  for (const Quantity_use& use : read.document.quantities())
    uses.emplace_back(read.document.string(use.node));
  EXPECT_EQ(uses, (std::vector<std::string>{"470 Ω", "5 %", "20 °C"}));
  EXPECT_DOUBLE_EQ(read.document.part()->component.model->resistance->si, 470);
}

// ---- versions

TEST(Format, the_version_that_is_read) {
  const auto as = [](std::string_view tag) {
    return part(R"("component": {"kind": "ntc", "name": "n"})", tag);
  };
  EXPECT_EQ(findings(as("ohmlore/1.0")), Texts{});
  EXPECT_EQ(findings(as("ohmlore/1.1")), Texts{"format-newer /format 1:12 (note) written for ohmlore/1.1; "
                                               "this program knows ohmlore/1.0 and keeps what "
                                               "it does not know"});
  EXPECT_EQ(rules(as("ohmlore/1.99")), Texts{"format-newer"});
  EXPECT_EQ(
      findings(as("ohmlore/2.0")),
      Texts{
          "format-unsupported /format 1:12 \"ohmlore/2.0\" is not a format that this program reads; it reads "
          "\"ohmlore/1.0\"; a newer version of it may read this document"});
  for (const auto tag :
       {"ohmlore", "ohmlore/1", "ohmlore/1.", "ohmlore/1.01", "ohmlore/1.100", "ohmlore/1.0 ", "ohmlore/0.9",
        "Ohmlore/1.0", "1.0", "", "ohmlore/1.-1", "ohmlore/1.+1"})
    EXPECT_EQ(rules(as(tag)), Texts{"format-unsupported"}) << tag;
}

TEST(Format, nothing_more_is_said_of_another_major) {
  EXPECT_EQ(rules(R"({"format": "ohmlore/2.0", "kind": "boiler", "what": 1})"), Texts{"format-unsupported"});
}

TEST(Format, of_a_newer_minor_unknown_keys_are_notes) {
  const auto newer = [](std::string_view members) { return part(members, "ohmlore/1.1"); };
  EXPECT_EQ(findings(newer(R"("component": {"kind": "ntc", "name": "n", "colour": "red"})")),
            (Texts{"format-newer /format 1:12 (note) written for ohmlore/1.1; this program knows ohmlore/1.0 "
                   "and keeps what "
                   "it does not know",
                   "key-unknown /component/colour 2:43 (note) `component` of kind `ntc` has no key "
                   "\"colour\"; it is kept as "
                   "it is"}));
  EXPECT_EQ(read_json("t", newer(R"("component": {"kind": "ntc", "name": "n"})")).document.minor(), 1u);
}

TEST(Format, of_a_newer_minor_a_misspelt_key_does_not_stand_for_a_missing_one) {
  EXPECT_EQ(rules(part(R"("componnet": {"kind": "ntc", "name": "n"})", "ohmlore/1.1")),
            (Texts{"key-missing", "format-newer", "key-unknown"}));
}

// ---- many mistakes at once

// thirty_mistakes.expected: "line:column: message [rule]" of each, in the order of the file.
TEST(Thirty_mistakes, are_thirty_findings_of_one_run) {
  const std::filesystem::path folder = std::filesystem::path(OHMLORE_SOURCE_DIR) / "tests/unit";
  const auto read = read_json("t", test::read_bytes(folder / "thirty_mistakes.profile.json"));
  std::string found;
  for (const Finding& f : read.findings)
    found += fmt::format("{}:{}: {} [{}]\n", f.region.first.line, f.region.first.column, f.message, f.rule);
  EXPECT_EQ(read.findings.size(), 30u);
  EXPECT_EQ(found, test::read_bytes(folder / "thirty_mistakes.expected"));
}

// ---- what is decoded

TEST(Decoded, a_member_with_a_finding_is_absent_and_its_neighbours_are_there) {
  const auto read = read_json(
      "t", component(R"("kind": "rtd", "wires": 9, "note": "", "orderable": "OV-1", "linearised": true)"));
  const Component_type& c = read.document.part()->component;
  EXPECT_EQ(*c.kind, Component_kind::rtd);
  EXPECT_FALSE(c.wires);
  EXPECT_FALSE(c.note);
  EXPECT_FALSE(c.linearised) << "a key of another kind";
  EXPECT_EQ(*c.orderable, "OV-1");
}

TEST(Decoded, kinds_of_documents) {
  EXPECT_NE(read_json("t", profile(R"("title": "t")")).document.profile(), nullptr);
  EXPECT_NE(read_json("t", corpus(R"("x_a": 1)")).document.corpus(), nullptr);
  const auto p = read_json("t", component(R"("kind": "ntc")"));
  EXPECT_NE(p.document.part(), nullptr);
  EXPECT_EQ(p.document.profile(), nullptr);
  EXPECT_EQ(p.document.corpus(), nullptr);
}

TEST(Decoded, references_in_document_order) {
  const auto read = read_json(
      "t", test(R"("component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "harness")"));
  std::vector<std::string> uses;
  for (const Reference_use& use : read.document.references())
    uses.push_back(fmt::format("{} {}", static_cast<int>(use.target), read.document.string(use.node)));
  const auto is = [](Target target, std::string_view text) {
    return fmt::format("{} {}", static_cast<int>(target), text);
  };
  EXPECT_EQ(uses, (std::vector<std::string>{is(Target::component, "flow"), is(Target::connector, "X4"),
                                            is(Target::contact, "X4.1"), is(Target::contact, "X4.2")}));
}

// ---- very many findings

std::string unknown_keys(std::size_t count) {
  std::string keys;
  for (std::size_t i = 0; i < count; ++i) keys += fmt::format("\"zz{}\": 1,\n", i);
  return keys;
}

TEST(Many_findings, are_kept_up_to_a_limit) {
  EXPECT_EQ(findings(part(unknown_keys(most_findings - 1) + R"("component": {"kind": "ntc"})")).size(),
            most_findings);
  const auto all = findings(part(unknown_keys(most_findings + 300) + R"("component": {"kind": "ntc"})"));
  ASSERT_EQ(all.size(), most_findings + 1);
  std::size_t counted = 0;
  for (const std::string& one : all)
    counted += one.ends_with("(300 more findings in this document are left out)");
  EXPECT_EQ(counted, 1u) << "299 keys, and the name that the component lacks, which comes first";
}

TEST(Many_findings, hide_no_error_behind_notes) {
  const auto newer =
      part(unknown_keys(most_findings + 300) + R"("component": {"kind": "ntc", "name": 7})", "ohmlore/1.9");
  const auto late = part(R"("component": {"kind": "ntc", "name": "n"}, "revision": 2,)" +
                             unknown_keys(most_findings + 300) + R"("zz5": 2)",
                         "ohmlore/1.9");
  for (const std::string& text : {newer, late}) {
    const auto read = read_json("t", text);
    EXPECT_LE(read.findings.size(), most_findings + 1);
    EXPECT_TRUE(std::any_of(read.findings.begin(), read.findings.end(),
                            [](const Finding& f) { return f.severity == Severity::error; }));
  }
}

TEST(Descriptions, have_no_more_fields_than_the_reader_counts) {
  for (const Record* record : {&profile_record, &part_record, &corpus_record, &component_record,
                               &component_type_record, &model_record, &test_record, &source_record})
    EXPECT_LE(record->fields.size(), 64u) << record->name;
}

}
}
