// SARIF 2.1.0: https://docs.oasis-open.org/sarif/sarif/v2.1.0/; clauses are named beside what follows from
// them.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "ohmlore/exchange.h"
#include "ohmlore/file_names.h"
#include "ohmlore/fix.h"
#include "ohmlore/report.h"
#include "report/json_members.h"
#include "text/sha256.h"

namespace ohmlore {
namespace {

constexpr std::string_view root_name = "%SRCROOT%";

using Results = std::vector<const Finding*>;

Results results_of(const Lint_run& run) {
  Results results;
  for (const auto* findings : {&run.findings, &run.suppressed})
    for (const Finding& finding : *findings) results.push_back(&finding);
  return results;
}

std::string_view summary_of(std::string_view slug) {
  for (const Import_problem& problem : import_problems())
    if (problem.slug == slug) return problem.summary;
  return rule_of(slug).summary;
}

// The text under a heading of a page, as one paragraph.
std::string under(std::string_view page, std::string_view heading) {
  const std::size_t at = page.find(heading);
  if (at == std::string_view::npos) return {};
  std::string_view rest = page.substr(at + heading.size());
  rest = rest.substr(0, rest.find("\n## "));
  std::string out;
  for (const char c : rest) {
    if (c != '\n')
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  while (out.ends_with(' ')) out.pop_back();
  return out;
}

class Writer {
public:
  Writer(Json_writer& out, const Lint_run& run, const Report_context& context)
      : out_(out), run_(run), context_(context) {}

  void log() {
    const Results results = results_of(run_);
    const std::size_t runs = sarif_runs(run_);
    member(out_, "$schema",
           "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json");
    member(out_, "version", "2.1.0");
    key(out_, "runs");
    out_.StartArray();
    for (std::size_t i = 0; i < runs; ++i) {
      const std::size_t first = i * most_sarif_results;
      const std::size_t last = std::min(results.size(), first + most_sarif_results);
      one_run({results.begin() + static_cast<std::ptrdiff_t>(first),
               results.begin() + static_cast<std::ptrdiff_t>(last)},
              i + 1, runs, results.size());
    }
    out_.EndArray();
  }

private:
  void text(std::string_view name, std::string_view said) {
    object(out_, name, [&] { member(out_, "text", said); });
  }
  // In a message, braces are for placeholders (3.11.5) and doubled where they are none, and brackets are for
  // links (3.11.6), which no document is to make.
  void message(std::string_view name, std::string_view said) {
    std::string plain;
    for (const char c : said) {
      if (std::string_view("[]\\").find(c) != std::string_view::npos) plain += '\\';
      plain.append(c == '{' || c == '}' ? 2 : 1, c);
    }
    text(name, plain);
  }

  void one_run(const Results& results, std::size_t number_of_run, std::size_t runs, std::size_t all) {
    std::map<std::string_view, std::size_t> rules; // those that found something, with their index
    for (const Finding* finding : results) rules.emplace(finding->rule, 0);
    std::size_t index = 0;
    for (auto& [slug, at] : rules) at = index++;

    out_.StartObject();
    object(out_, "tool", [&] {
      object(out_, "driver", [&] {
        member(out_, "name", "ohmlore");
        member(out_, "semanticVersion", program_version);
        list(out_, "rules", rules, [&](const auto& rule) { describe(rule.first); });
      });
    });
    // 3.17: services tell the runs of one tool apart by it, and follow each from log to log: it says nothing
    // that changes with the number of results.
    object(out_, "automationDetails", [&] { member(out_, "id", fmt::format("ohmlore/{}/", number_of_run)); });
    list(out_, "invocations", std::vector{0}, [&](int) {
      truth(out_, "executionSuccessful", run_.troubles.empty());
      key(out_, "toolExecutionNotifications");
      out_.StartArray();
      for (const std::string& trouble : run_.troubles) notification("error", trouble);
      if (runs > 1)
        notification("note", fmt::format("this is run {} of {}: of {} results, at most {} stand in one run",
                                         number_of_run, runs, all, most_sarif_results));
      out_.EndArray();
    });
    object(out_, "originalUriBaseIds", [&] {
      object(out_, root_name, [&] { message("description", "The folder that ohmlore was run in."); });
    });
    member(out_, "columnKind", "unicodeCodePoints"); // 3.14.17
    key(out_, "results");
    out_.StartArray();
    for (const Finding* finding : results) result(*finding, rules[finding->rule]);
    out_.EndArray();
    out_.EndObject();
  }

  void notification(std::string_view level, std::string_view said) {
    out_.StartObject();
    member(out_, "level", level);
    message("message", said);
    out_.EndObject();
  }

  void describe(std::string_view slug) {
    const Rule& rule = rule_of(slug);
    member(out_, "id", slug);
    text("shortDescription", summary_of(slug));
    if (const Rule_entry* entry = find_rule(slug)) {
      text("fullDescription", under(entry->page, "\n## Checks\n"));
      object(out_, "help", [&] {
        member(out_, "text", entry->page);
        member(out_, "markdown", entry->page);
      });
    }
    object(out_, "defaultConfiguration", [&] { member(out_, "level", word_of(rule.severity)); });
    object(out_, "properties", [&] {
      member(out_, "family", name_of(rule.family));
      member(out_, "status", name_of(rule.status));
      if (rule.status != Rule_status::preview) member(out_, "since", name_of(rule.since));
      if (!rule.replaced_by.empty()) member(out_, "replacedBy", rule.replaced_by);
      texts(out_, "tags", {std::string(name_of(rule.family))});
    });
  }

  // A document that came from standard input has no address.
  void artifact(std::string_view file) {
    object(out_, "artifactLocation", [&] {
      if (file == name_of_standard_input) return message("description", file);
      const std::string uri = uri_of(file, context_.folder);
      member(out_, "uri", uri);
      if (!uri.starts_with("file:")) member(out_, "uriBaseId", root_name);
    });
  }

  void lines(const Position& first, const Position& last) {
    number(out_, "startLine", first.line);
    number(out_, "startColumn", first.column);
    number(out_, "endLine", last.line);
    number(out_, "endColumn", last.column); // 3.30.8: one past the last, as ours
  }

  void place(std::string_view file, const Region& region) {
    object(out_, "physicalLocation", [&] {
      artifact(file);
      object(out_, "region", [&] {
        lines(region.first, region.last);
        number(out_, "byteOffset", region.begin);
        number(out_, "byteLength", region.end - region.begin);
      });
    });
  }

  void result(const Finding& finding, std::size_t rule) {
    out_.StartObject();
    member(out_, "ruleId", finding.rule);
    number(out_, "ruleIndex", rule);
    member(out_, "level", word_of(finding.severity));
    message("message", finding.message);
    list(out_, "locations", std::vector{&finding}, [&](const Finding*) {
      place(finding.file, finding.region);
      list(out_, "logicalLocations", std::vector{&finding}, [&](const Finding*) {
        member(out_, "fullyQualifiedName", finding.pointer); // 3.33.5: of JSON, a JSON Pointer
      });
    });
    if (!finding.related.empty()) {
      std::size_t id = 0;
      list(out_, "relatedLocations", finding.related, [&](const Related& related) {
        number(out_, "id", ++id);
        place(related.file, related.region);
        message("message", related.message);
      });
    }
    // 3.27.17: the same from run to run. Of equal findings each has its own.
    const Finding_key known_by = key_of(finding);
    const std::size_t before = seen_[known_by]++;
    std::string print =
        sha256(fmt::format("{}\n{}\n{}\n{}", known_by.document, known_by.rule, known_by.at, known_by.value));
    if (before > 0) print += fmt::format(":{}", before + 1);
    object(out_, "partialFingerprints", [&] { member(out_, "ohmlore/v1", print); });
    if (finding.suppressed)
      list(out_, "suppressions", std::vector{*finding.suppressed},
           [&](const Finding_suppression& suppression) {
             member(out_, "kind", suppression.by == Suppressed_by::waiver ? "inSource" : "external");
             if (!suppression.why.empty()) member(out_, "justification", suppression.why);
           });
    else
      texts(out_, "suppressions", {}); // 3.27.23: they were looked for
    if (const Fix* fix = safe_fix(finding)) mend(finding, *fix);
    object(out_, "properties", [&] { truth(out_, "fails", finding.fails); });
    out_.EndObject();
  }

  void mend(const Finding& finding, const Fix& fix) {
    list(out_, "fixes", std::vector{&fix}, [&](const Fix*) {
      message("description", fix.description);
      list(out_, "artifactChanges", std::vector{&fix}, [&](const Fix*) {
        artifact(finding.file);
        list(out_, "replacements", fix.edits, [&](const Edit& edit) {
          object(out_, "deletedRegion", [&] { lines(edit.first, edit.last); });
          object(out_, "insertedContent", [&] { member(out_, "text", edit.text); });
        });
      });
    });
  }

  Json_writer& out_;
  const Lint_run& run_;
  const Report_context& context_;
  std::map<Finding_key, std::size_t> seen_;
};

}

std::size_t sarif_runs(const Lint_run& run) {
  const std::size_t results = run.findings.size() + run.suppressed.size();
  return std::max<std::size_t>(1, (results + most_sarif_results - 1) / most_sarif_results);
}

std::string sarif_report(const Lint_run& run, const Report_context& context) {
  return written_object([&](Json_writer& out) { Writer(out, run, context).log(); });
}

}
