#include "ohmlore/fix.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

namespace ohmlore {

const Fix* safe_fix(const Finding& finding) {
  const auto found = std::find_if(finding.fixes.begin(), finding.fixes.end(),
                                  [](const Fix& fix) { return fix.safety == Fix_safety::safe; });
  return found == finding.fixes.end() ? nullptr : &*found;
}

namespace {

// A document as the linter sees it.
struct Look {
  std::vector<Finding> findings;
  bool whole = false;
  bool all_read = false; ///< whole, and no finding of the reader left out
};

Look look_at(const std::string& name, std::string_view text, const Surroundings& surroundings,
             const Lint_options& options) {
  const Read_result read = read_json(name, text);
  const bool whole = read.document.whole();
  std::vector<Linted> linted;
  linted.push_back(lint_document(read, surroundings));
  return {settle(std::move(linted), {}, surroundings.corpus, options), whole,
          whole && read.findings.size() < most_findings};
}

struct Chosen {
  std::vector<Finding> mended;
  std::vector<Edit> edits;
};

// The first fixes in the text that do not overlap.
Chosen choose(const std::vector<Finding>& findings) {
  Chosen chosen;
  std::map<std::uint32_t, std::uint32_t> taken; // begin and end; an insertion takes the byte behind it
  const auto is_free = [&](const Edit& edit) {
    const auto next = taken.lower_bound(std::max(edit.end, edit.begin + 1));
    return next == taken.begin() || std::prev(next)->second <= edit.begin;
  };
  for (const Finding& finding : findings) {
    const Fix* fix = safe_fix(finding);
    if (fix == nullptr || !std::all_of(fix->edits.begin(), fix->edits.end(), is_free)) continue;
    for (const Edit& edit : fix->edits) taken[edit.begin] = std::max(edit.end, edit.begin + 1);
    chosen.mended.push_back(finding);
    chosen.edits.insert(chosen.edits.end(), fix->edits.begin(), fix->edits.end());
  }
  return chosen;
}

bool is_of_reader(const Finding& finding) { return !can_be_waived(rule_of(finding.rule)); }

// What the reader could not look into because of a finding: the value, and where it is the kind of a record
// that record.
std::string_view hidden_by(const Finding& finding) {
  std::string_view place = finding.pointer;
  if (place.ends_with("/kind")) place.remove_suffix(5);
  return place;
}

bool lies_in(std::string_view pointer, std::string_view place) {
  return pointer.starts_with(place) && (pointer.size() == place.size() || pointer[place.size()] == '/');
}

}

const Finding* error_made(std::span<const Finding> before, std::span<const Finding> mended,
                          std::span<const Finding> after) {
  std::set<std::pair<std::string_view, std::string_view>> known; // rule and place
  for (const Finding& finding : before) known.emplace(finding.rule, finding.pointer);
  const auto is_uncovered = [&](const Finding& error) {
    return std::any_of(mended.begin(), mended.end(), [&](const Finding& m) {
      return m.severity == Severity::error && is_of_reader(m) &&
             (!is_of_reader(error) || lies_in(error.pointer, hidden_by(m)));
    });
  };
  for (const Finding& finding : after)
    if (finding.severity == Severity::error && known.count({finding.rule, finding.pointer}) == 0 &&
        !is_uncovered(finding))
      return &finding;
  return nullptr;
}

Fixed fix_text(std::string name, std::string_view bytes, const Surroundings& surroundings,
               const Lint_options& options) {
  // That do not shorten the text: those that do come to an end. The reader names so many places at a time.
  const std::size_t most_rounds = 20 + bytes.size() / most_findings;
  Fixed fixed;
  fixed.text = bytes;
  const auto refused = [&](std::string why) {
    Fixed none;
    none.text = bytes;
    none.refusal = std::move(why);
    return none;
  };
  Look now = look_at(name, fixed.text, surroundings, options);
  for (std::size_t rounds = 0;;) {
    Chosen chosen = choose(now.findings);
    if (chosen.edits.empty()) return fixed;
    std::string text = apply_edits(fixed.text, chosen.edits);
    if (text.size() >= fixed.text.size() && ++rounds > most_rounds)
      return refused(fmt::format("its fixes come to no end, first that in line {}: {}",
                                 chosen.mended.front().region.first.line, chosen.mended.front().message));
    Look then = look_at(name, text, surroundings, options);
    if (now.whole && !then.whole) return refused("with its fixes made it could not be read any more");
    const Finding* error = now.all_read ? error_made(now.findings, chosen.mended, then.findings) : nullptr;
    if (error != nullptr)
      return refused(fmt::format("its fixes would make an error in line {}: {} [{}]",
                                 error->region.first.line, error->message, error->rule));
    fixed.fixes += chosen.mended.size();
    fixed.edits = combined(std::move(fixed.edits), std::move(chosen.edits));
    fixed.text = std::move(text);
    now = std::move(then);
  }
}

}
