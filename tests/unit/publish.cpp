// Derived files under spec/: up to date, complete, and without a dead link.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include <gtest/gtest.h>

#include "ohmlore/lint.h"
#include "ohmlore/publish.h"
#include "ohmlore/report.h"
#include "ohmlore/schema_engine.h"

namespace ohmlore {
namespace {

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  EXPECT_TRUE(in) << path;
  return {std::istreambuf_iterator<char>(in), {}};
}

const std::string spec_folder = OHMLORE_SOURCE_DIR "/spec/";

std::string format_page() { return bytes_of(spec_folder + "v1/format.md"); }

TEST(Publish, committed_files_are_what_would_be_written) {
  const Spec_files spec = spec_files({format_page()});
  EXPECT_TRUE(spec.problems.empty());
  EXPECT_EQ(spec.files.size(), 14u);
  for (const Spec_file& file : spec.files)
    EXPECT_TRUE(bytes_of(spec_folder + file.path) == file.bytes)
        << file.path << " is out of date: run `ohmlore schema --write-spec` and commit the result";
}

TEST(Publish, files_are_sorted_and_end_in_one_line_feed) {
  std::string last;
  for (const Spec_file& file : spec_files({format_page()}).files) {
    EXPECT_LT(last, file.path);
    last = file.path;
    EXPECT_EQ(file.bytes.find('\r'), std::string::npos) << file.path;
    EXPECT_TRUE(file.bytes.ends_with("\n") && !file.bytes.ends_with("\n\n")) << file.path;
  }
}

TEST(Publish, every_record_and_enumeration_stands_in_the_page_once) {
  const std::string page = format_page();
  auto times = [&](const std::string& mark) {
    std::size_t count = 0;
    for (std::size_t at = page.find(mark); at != std::string::npos; at = page.find(mark, at + 1)) ++count;
    return count;
  };
  for (const Record* record : published_records())
    EXPECT_EQ(times("<!-- fields: " + std::string(record->name) + " -->"), 1u) << record->name;
  for (const Enumeration* words : enumerations_of(published_records()))
    EXPECT_EQ(times("<!-- words: " + std::string(words->name) + " -->"), 1u) << words->name;
}

TEST(Publish, links_inside_the_page_lead_somewhere) {
  const std::string page = format_page();
  std::set<std::string> anchors;
  for (std::size_t at = page.find("<a id=\""); at != std::string::npos; at = page.find("<a id=\"", at + 1)) {
    const std::size_t begin = at + 7;
    anchors.insert(page.substr(begin, page.find('"', begin) - begin));
  }
  for (std::size_t at = page.find("\n#"); at != std::string::npos; at = page.find("\n#", at + 1)) {
    std::string heading = page.substr(at + 1, page.find('\n', at + 1) - at - 1);
    heading.erase(0, heading.find_first_not_of("# "));
    for (char& c : heading)
      c = c == ' ' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    anchors.insert(heading);
  }
  std::size_t links = 0;
  for (std::size_t at = page.find("](#"); at != std::string::npos; at = page.find("](#", at + 1), ++links) {
    const std::size_t begin = at + 3;
    const std::string target = page.substr(begin, page.find(')', begin) - begin);
    EXPECT_TRUE(anchors.contains(target)) << "#" << target;
  }
  EXPECT_GT(links, 100u);
}

std::string page_of(const Spec_files& spec) {
  for (const Spec_file& file : spec.files)
    if (file.path == "v1/format.md") return file.bytes;
  ADD_FAILURE() << "no format.md is written";
  return {};
}

TEST(Publish, prose_outside_of_marks_is_kept) {
  const Spec_files spec =
      spec_files({"before\n<!-- words: metal -->\nold\n<!-- end -->\nbetween <!-- note -->\nafter\n"});
  EXPECT_TRUE(spec.problems.empty());
  const std::string page = page_of(spec);
  EXPECT_TRUE(page.starts_with("before\n<!-- words: metal -->\n")) << page;
  EXPECT_TRUE(page.ends_with("- `nickel`: Nickel.\n<!-- end -->\nbetween <!-- note -->\nafter\n")) << page;
  EXPECT_EQ(page.find("old"), std::string::npos);
  EXPECT_EQ(page_of(spec_files({page})), page) << "written twice it must not change";
}

TEST(Publish, marks_that_name_nothing_are_problems) {
  EXPECT_EQ(spec_files({"<!-- fields: pumpe -->\n<!-- end -->\n"}).problems.size(), 1u);
  EXPECT_EQ(spec_files({"<!-- words: pumpe -->\n<!-- end -->\n"}).problems.size(), 1u);
  const std::string unclosed = "<!-- fields: pin -->\nkept\n";
  const Spec_files spec = spec_files({unclosed});
  EXPECT_EQ(spec.problems.size(), 1u);
  EXPECT_EQ(page_of(spec), unclosed);
}

TEST(Publish, reports_have_the_form_that_their_schema_says) {
  if (!has_schema_engine()) GTEST_SKIP() << "built without a schema engine";
  Lint_request request;
  request.paths = {OHMLORE_SOURCE_DIR "/tests/end_to_end/broken.profile.json",
                   OHMLORE_SOURCE_DIR "/nowhere.profile.json"};
  Lint_run run = lint_paths(request);
  // What that run may not show: a finding about the whole document, related places and a fix that removes
  // text.
  const Read_result read =
      read_json("empty.profile.json", "\xEF\xBB\xBF{\"kind\": \"part\", \"kind\": \"part\"}");
  run.findings.insert(run.findings.end(), read.findings.begin(), read.findings.end());
  EXPECT_TRUE(std::any_of(run.findings.begin(), run.findings.end(),
                          [](const Finding& f) { return f.pointer.empty(); }));
  EXPECT_TRUE(std::any_of(run.findings.begin(), run.findings.end(),
                          [](const Finding& f) { return !f.related.empty(); }));
  EXPECT_TRUE(std::any_of(run.findings.begin(), run.findings.end(), [](const Finding& f) {
    return !f.fixes.empty() && !f.fixes[0].edits.empty() && f.fixes[0].edits[0].text.empty();
  }));
  EXPECT_FALSE(run.troubles.empty());
  run.suppressed = {run.findings.front(), run.findings.back()};
  run.suppressed[0].suppressed = {Suppressed_by::waiver, "as printed"};
  run.suppressed[1].suppressed = {Suppressed_by::baseline, ""};
  const Schema_verdict verdict = check_schema(compile_schema(report_schema()), json_report(run));
  EXPECT_EQ(verdict.problem, "");
  for (const Schema_refusal& refusal : verdict.refusals)
    ADD_FAILURE() << refusal.pointer << ": " << refusal.message;
}

// A number without bounds would be bounded by what each engine's number type holds.
TEST(Publish, a_skeleton_takes_no_id_that_is_none) {
  EXPECT_NE(skeleton(Document_kind::part, "larch").find(R"("id": "larch")"), std::string::npos);
  EXPECT_NE(skeleton(Document_kind::part, "x\", \"kind\": \"corpus").find(R"("id": "<id>")"),
            std::string::npos);
  EXPECT_EQ(skeleton(Document_kind::corpus, "larch").find("larch"), std::string::npos) << "it has no id";
}

const Record& record_of(std::string_view name) {
  const auto records = published_records();
  return **std::find_if(records.begin(), records.end(), [&](const Record* r) { return r->name == name; });
}

// One of a kind, with every field as its example has it.
std::string as_in_examples(const Record& record, unsigned kind, const std::set<std::string_view>& without) {
  std::string out = R"({ "kind": ")" + std::string(record.kinds->words[kind].text) + '"';
  for (const Field& field : record.fields)
    if (field.in(kind) && field.key != "kind" && without.count(field.key) == 0)
      ((((out += ", \"") += field.key) += "\": ") += field.example);
  return out + " }";
}

std::string worse_than_notes(const std::string& name, const std::string& document) {
  std::string found;
  for (const Finding& finding : lint_text(name, document))
    if (finding.severity > Severity::note) (found += finding.message) += '\n';
  return found;
}

std::string part_with(const std::string& component) {
  return R"({"format": "ohmlore/1.0", "kind": "part", "id": "p", "revision": 1, "sources": {"notes": {"kind": )"
         R"("maker_document", "title": "T"}}, "source": {"from": "notes"}, "component": )" +
         component + "}";
}

std::string profile_with(const std::string& kind, const std::string& expect) {
  const std::string component = R"({"name": "N", "kind": ")" + kind + R"(", "between": ["X4.2", )";
  return R"({"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1, "appliance": {"maker": "M",
      "models": ["A"], "type": "room_heater", "fuel": "electricity", "controller": {"part": "P"}},
      "safety": {"supplies": [{"kind": "mains", "isolate_at": "spur"}]},
      "sources": {"notes": {"kind": "maker_document", "title": "T"}}, "source": {"from": "notes"},
      "connectors": {"X4": {"label": "X4", "ways": 3, "circuit": "selv", "pins": {"1": {}, "2": {}, "3": {}}}},
      "components": {"one": )" +
         component + R"("X4.1"]}, "return_sensor": )" + component + R"("X4.3"]}},
      "tests": {"t": {"component": "one", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_component",
      "expect": )" +
         expect + "}}}";
}

// What is wrong with it in parts of every kind; empty where it fits one.
template <class Wrong_in>
std::string wrong_in_all(const Enumeration& kinds, Wrong_in wrong_in) {
  std::string wrong;
  for (const auto& kind : kinds.words)
    if ((wrong = wrong_in(std::string(kind.text))).empty()) break;
  return wrong;
}

// Who takes over what the messages, the schemas and an editor offer has a record that holds together.
TEST(Publish, examples_of_one_record_do_not_contradict_each_other) {
  const Record &expectation = record_of("expectation"), &model = record_of("model"),
               &component = record_of("component_type");
  for (unsigned kind = 0; kind < component.kinds->words.size(); ++kind) {
    const std::string one = // no switch is purely resistive
        as_in_examples(component, kind, {"model", "source", "purely_resistive"});
    EXPECT_EQ(worse_than_notes("p.part.json", part_with(one)), "") << one;
  }
  for (unsigned kind = 0; kind < model.kinds->words.size(); ++kind) {
    const std::string one = as_in_examples(model, kind, {"source", "pairs"});
    EXPECT_EQ(wrong_in_all(*component.kinds,
                           [&](const std::string& of) {
                             return worse_than_notes("p.part.json",
                                                     part_with(R"({"name": "N", "kind": ")" + of +
                                                               R"(", "model": )" + one + "}"));
                           }),
              "")
        << one;
  }
  for (unsigned kind = 0; kind < expectation.kinds->words.size(); ++kind) {
    const std::string one = as_in_examples(expectation, kind, {});
    EXPECT_EQ(wrong_in_all(*component.kinds,
                           [&](const std::string& of) {
                             return worse_than_notes("p.profile.json", profile_with(of, one));
                           }),
              "")
        << one;
  }
}

TEST(Publish, every_integer_is_bounded) {
  std::size_t integers = 0;
  for (const Record* record : published_records())
    for (const Field& field : record->fields)
      if (field.member.type->shape == Shape::integer) {
        ++integers;
        EXPECT_GT(field.limits.most, field.limits.least) << record->name << "." << field.key;
      }
  EXPECT_GT(integers, 5u);
}

}
}
