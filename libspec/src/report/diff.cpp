// Differences shown: as text for people, as Markdown for a review, as JSON for programs.
#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "ohmlore/diff.h"
#include "report/json_writer.h"
#include "report/markdown_text.h"
#include "text/counted.h"

namespace ohmlore {
namespace {

std::string title_of(const Document_diff& diff) {
  return diff.id.empty() ? std::string(word_of(diff.kind))
                         : fmt::format("{} {}", word_of(diff.kind), diff.id);
}

std::string revisions_of(const Document_diff& diff) {
  if (diff.older_revision == 0 && diff.newer_revision == 0) return {};
  if (diff.older_revision == 0) return fmt::format("revision {}", diff.newer_revision);
  if (diff.newer_revision == 0) return fmt::format("revision {}", diff.older_revision);
  return diff.older_revision == diff.newer_revision
             ? fmt::format("revision {} in both", diff.newer_revision)
             : fmt::format("revision {} to {}", diff.older_revision, diff.newer_revision);
}

// What the changes ask of the revision.
std::string revision_verdict(const Document_diff& diff) {
  if (diff.older_revision == 0 || diff.newer_revision == 0) return {};
  if (diff.revision_must_grow())
    return diff.newer_revision < diff.older_revision
               ? fmt::format("the meaning changed and the revision fell from {} to {}: it has to grow",
                             diff.older_revision, diff.newer_revision)
               : fmt::format("the meaning changed and the revision is still {}: it has to grow",
                             diff.newer_revision);
  if (diff.newer_revision < diff.older_revision)
    return fmt::format("the revision fell from {} to {}: it only grows", diff.older_revision,
                       diff.newer_revision);
  if (diff.count(Change_weight::meaning) > 0) return "the meaning changed, and the revision grew";
  if (diff.count(Change_weight::explanation) > 0)
    return "the revision need not grow, unless a new wording means something else";
  return "the revision need not grow";
}

std::string_view heading(Change_weight weight) {
  switch (weight) {
  case Change_weight::meaning: return "meaning";
  case Change_weight::explanation: return "names, notes and sources";
  case Change_weight::spelling: return "spelling and order alone";
  }
  return {};
}

constexpr Change_weight by_weight[] = {Change_weight::meaning, Change_weight::explanation,
                                       Change_weight::spelling};

std::string sentence(const Change& change) {
  return change.place.empty() ? change.message : fmt::format("{}: {}", change.place, change.message);
}

std::string text_of(const Document_diff& diff) {
  std::string out = fmt::format("{}", title_of(diff));
  if (const std::string revisions = revisions_of(diff); !revisions.empty())
    out += fmt::format(", {}", revisions);
  out += '\n';
  for (const Change_weight weight : by_weight) {
    if (diff.count(weight) == 0) continue;
    fmt::format_to(std::back_inserter(out), "  {}\n", heading(weight));
    for (const Change& change : diff.changes) {
      if (change.weight != weight) continue;
      const bool gone = change.newer.node == 0;
      const Region& region = gone ? change.older.region : change.newer.region;
      fmt::format_to(std::back_inserter(out), "    {}:{}:{}: {}\n",
                     printable(gone ? diff.older_file : diff.newer_file), region.first.line,
                     region.first.column, printable(sentence(change)));
    }
  }
  if (const std::string verdict = revision_verdict(diff); !verdict.empty())
    fmt::format_to(std::back_inserter(out), "  {}\n", verdict);
  return out;
}

std::string markdown_of(const Document_diff& diff) {
  // No place below says of which corpus it is.
  const std::string& file = diff.newer_file.empty() ? diff.older_file : diff.newer_file;
  std::string out = fmt::format("### {}{}\n\n", markdown_text(title_of(diff)),
                                diff.id.empty() ? " " + markdown_text(printable(file)) : "");
  const std::string verdict = revision_verdict(diff);
  if (!verdict.empty())
    out += fmt::format("{}{}: {}{}\n\n", diff.revision_must_grow() ? "**" : "",
                       markdown_text(revisions_of(diff)), verdict, diff.revision_must_grow() ? "**" : "");
  const bool readable = diff.count(Change_weight::meaning) + diff.count(Change_weight::explanation) > 0;
  if (readable) out += "| place | what changed |\n| --- | --- |\n";
  for (const Change_weight weight : {Change_weight::meaning, Change_weight::explanation})
    for (const Change& change : diff.changes)
      if (change.weight == weight)
        out += fmt::format("| {} | {}{} |\n", markdown_text(change.place), markdown_text(change.message),
                           weight == Change_weight::explanation ? " (explanation)" : "");
  if (readable) out += '\n';
  if (const std::size_t n = diff.count(Change_weight::spelling); n > 0)
    out += fmt::format("{} in spelling or order alone.\n\n", counted(n, "difference"));
  return out;
}

void side(Json_writer& out, std::string_view name, const Change_side& side) {
  if (side.node == 0) return;
  object(out, name, [&] {
    member(out, "pointer", side.pointer);
    number(out, "line", side.region.first.line);
    number(out, "column", side.region.first.column);
  });
}

void document(Json_writer& out, const Document_diff& diff) {
  word(out, "kind", diff.kind);
  member(out, "id", diff.id);
  const auto version = [&](std::string_view name, const std::string& file, std::int64_t revision) {
    if (file.empty()) return;
    object(out, name, [&] {
      member(out, "file", file);
      if (revision > 0) number(out, "revision", static_cast<std::uint64_t>(revision));
    });
  };
  version("older", diff.older_file, diff.older_revision);
  version("newer", diff.newer_file, diff.newer_revision);
  truth(out, "revision_must_grow", diff.revision_must_grow());
  list(out, "changes", diff.changes, [&](const Change& change) {
    word(out, "weight", change.weight);
    word(out, "kind", change.kind);
    side(out, "older", change.older);
    side(out, "newer", change.newer);
    member(out, "place", change.place);
    member(out, "message", change.message);
  });
}

}

std::string text_report(const Diff_run& run) {
  std::string out;
  for (const Document_diff& diff : run.documents) out += text_of(diff);
  out +=
      fmt::format("{} compared: {}, {}, {} in spelling or order alone\n", counted(run.compared, "document"),
                  counted(run.count(Change_weight::meaning), "change") + " of meaning",
                  counted(run.count(Change_weight::explanation), "change") + " of names, notes and sources",
                  run.count(Change_weight::spelling));
  return out;
}

std::string markdown_report(const Diff_run& run) {
  std::string out;
  for (const Document_diff& diff : run.documents) out += markdown_of(diff);
  if (run.documents.empty() && (run.compared > 0 || run.troubles.empty()))
    out = fmt::format("{} compared, nothing differs.\n\n", counted(run.compared, "document"));
  if (!run.troubles.empty()) {
    out += "### What could not be done\n\n";
    for (const std::string& trouble : run.troubles) out += fmt::format("- {}\n", markdown_text(trouble));
    out += '\n';
  }
  out.pop_back();
  return out;
}

std::string json_report(const Diff_run& run) {
  return written_report("ohmlore-diff/1.0", [&](Json_writer& out) {
    number(out, "compared", run.compared);
    list(out, "documents", run.documents, [&](const Document_diff& diff) { document(out, diff); });
    texts(out, "troubles", run.troubles);
  });
}

}
