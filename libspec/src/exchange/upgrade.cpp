#include "ohmlore/upgrade.h"

#include <array>

#include <fmt/format.h>

#include "document/format_version.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/edit.h"

namespace ohmlore {
namespace {

// One entry a version after the first. The step of a version that only adds has no function.
constexpr std::array<Format_step, reader_minor> steps_of_this_version = {};
static_assert(steps_of_this_version.empty() || steps_of_this_version.back().to == format_tag,
              "a version of the format needs its step from the one before");

Node_id format_of(const Document& document) {
  if (!document.whole() || document.node(Document::root).type != Node_type::object) return 0;
  const Node_id format = document.member(Document::root, "format");
  return format != 0 && document.node(format).type == Node_type::string ? format : 0;
}

std::string_view tag_of(const Document& document) {
  const Node_id format = format_of(document);
  return format == 0 ? std::string_view() : document.string(format);
}

std::string changed(const Document& document, const Format_step& step) {
  Tree_edits edits(document);
  edits.replace(format_of(document), fmt::format("\"{}\"", step.to));
  if (step.change != nullptr) step.change(edits, document);
  return apply_edits(document.text(), edits.edits());
}

}

std::span<const Format_step> format_steps() { return steps_of_this_version; }

Upgraded upgrade_text(const std::string& name, std::string_view bytes, std::span<const Format_step> steps) {
  Read_result read = read_json(name, bytes);
  Upgraded out;
  out.from = tag_of(read.document);
  for (const Format_step& step : steps)
    if (tag_of(read.document) == step.from)
      read = read_json(fmt::format("{} (as {})", name, step.to), changed(read.document, step));

  // What is newer is not judged: what looks wrong may be new.
  const std::optional<Format_version> version = format_version(out.from);
  const Format_version own = own_format_version();
  if (version && *version > own) {
    const bool is_read = version->major == own.major;
    out.outcome = is_read ? Upgrade_outcome::newer_minor : Upgrade_outcome::newer_major;
    if (is_read) out.text = bytes;
    return out;
  }
  std::erase_if(read.findings, [](const Finding& finding) { return finding.severity != Severity::error; });
  if (!read.findings.empty()) {
    out.findings = std::move(read.findings);
  } else if (out.from != tag_of(read.document)) {
    out.outcome = Upgrade_outcome::upgraded;
    out.text = canonical_json(read.document);
  } else {
    out.outcome = Upgrade_outcome::current;
    out.text = bytes;
  }
  return out;
}

}
