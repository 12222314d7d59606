#include "ohmlore/baseline.h"

#include <algorithm>

#include "document/decoder.h"
#include "document/findings.h"
#include "lint/rule.h"
#include "lint/until.h"
#include "publish/baseline_records.h"
#include "publish/records.h"
#include "text/calendar.h"

namespace ohmlore {
namespace {

using namespace rules;

std::string text(const Value<Text>& value) { return value ? std::string(*value) : std::string(); }

Free_members free_members_of(const Document& document, Node_id record) {
  Free_members members;
  for (Node_id key = record + 1; key < document.node(record).next; key = document.node(key + 1).next)
    if (document.string(key).starts_with("x_"))
      members.emplace_back(document.string(key), document.written(key + 1));
  return members;
}

Severity severity_of(Reported reported) {
  switch (reported) {
  case Reported::note: return Severity::note;
  case Reported::warning: return Severity::warning;
  case Reported::error: break;
  }
  return Severity::error;
}

Baseline_entry entry_of(const Document& document, const Described_baseline_entry& from) {
  Baseline_entry to;
  to.key = {text(from.document), text(from.rule), text(from.at), text(from.value)};
  if (from.severity) to.severity = severity_of(*from.severity);
  if (from.count) to.count = static_cast<std::size_t>(*from.count);
  to.owner = text(from.owner);
  to.why = text(from.why);
  to.until = text(from.until);
  to.node = from.node;
  to.free_members = free_members_of(document, from.node);
  return to;
}

// How often the key of each entry was found, no more than it counts and no worse.
class Found {
public:
  explicit Found(std::span<const Baseline_entry> entries)
      : entries_(entries), found_(entries.size()), worst_(entries.size()), worse_(entries.size()) {
    for (std::size_t i = 0; i < entries.size(); ++i) by_key_.emplace(entries[i].key, i);
  }
  /// The entry that a finding falls under, and how much of it falls under none: then it is new. Where a
  /// redirect made one key of two, the first that does not have all it counts.
  struct Taken {
    const Baseline_entry* entry = nullptr;
    std::size_t left = 0;
  };
  Taken take(const Finding& finding) {
    Taken taken{nullptr, finding.times};
    const auto [first, last] = by_key_.equal_range(key_of(finding));
    for (auto same = first; same != last && taken.left > 0; ++same) {
      const std::size_t i = same->second, more = std::min(taken.left, entries_[i].count - found_[i]);
      if (finding.as_found > entries_[i].severity) worse_[i] = true;
      if (more == 0 || finding.as_found > entries_[i].severity) continue;
      found_[i] += more;
      worst_[i] = std::max(worst_[i], finding.as_found);
      taken = {&entries_[i], taken.left - more};
    }
    return taken;
  }
  const std::vector<std::size_t>& counts() const { return found_; }
  Severity worst(std::size_t entry) const { return worst_[entry]; }
  /// What an entry does not know any more, since it is worse now, is still there.
  bool is_worse(std::size_t entry) const { return worse_[entry]; }

private:
  std::span<const Baseline_entry> entries_;
  std::vector<std::size_t> found_;
  std::vector<Severity> worst_;
  std::vector<bool> worse_;
  std::multimap<Finding_key, std::size_t> by_key_;
};

// Entries of documents that have another id now speak of those.
std::vector<Baseline_entry> followed(std::span<const Baseline_entry> entries, const Looked_at& looked_at) {
  std::vector<Baseline_entry> out(entries.begin(), entries.end());
  const Redirects ends =
      ends_of(looked_at.redirects, [&](std::string_view name) { return looked_at.documents.contains(name); });
  for (Baseline_entry& entry : out)
    if (const auto redirect = ends.find(entry.key.document); redirect != ends.end())
      entry.key.document = redirect->second;
  return out;
}

// The reader takes no more of such a list or object; behind one that is empty is nothing.
constexpr std::string_view count_rule = "count-out-of-limits";
bool cuts_off(std::string_view rule, std::string_view value) {
  return rule == count_rule && value != "[]" && value != "{}";
}

// What lies behind such a finding was not looked at: if it were known, all that is new there would be hidden.
bool hides_others(const Finding& finding, const Looked_at& looked_at) {
  const auto document = looked_at.documents.find(key_of(finding).document);
  return cuts_off(finding.rule, finding.value) ||
         (document != looked_at.documents.end() && !document->second.whole);
}

// Whether a finding of that key would have been made if it were there still.
bool would_be_found(const Finding_key& key, const Looked_at& looked_at, const Lint_options& options) {
  const Rule_entry* entry = find_rule(key.rule);
  if (entry == nullptr || cuts_off(key.rule, key.value)) return true; // never known
  if (looked_at.switched_off.contains(key.rule)) return false;
  const bool about_waivers = key.rule.starts_with("waiver-");
  if (about_waivers && options.no_waivers) return false;
  const auto document = looked_at.documents.find(key.document);
  if (document == looked_at.documents.end())
    return looked_at.everything || looked_at.gone.contains(key.document);
  if (!document->second.alone) return false;
  if (entry->rule->judge != nullptr)
    return looked_at.everything && std::all_of(looked_at.documents.begin(), looked_at.documents.end(),
                                               [](const auto& one) { return one.second.all_rules_ran; });
  const bool of_reader = !can_be_waived(*entry->rule) && !about_waivers;
  return of_reader ? document->second.whole : document->second.all_rules_ran;
}

std::string place_of(const Finding_key& key) {
  return fmt::format("{}{}", printable(key.document), key.at.empty() ? "" : " at " + printable(key.at));
}

std::string why_stale(const Baseline_entry& entry, std::size_t found, const Looked_at& looked_at) {
  if (found > 0)
    return fmt::format("of {} findings of {} in {}, {} {} left; set `count` to {}", entry.count,
                       entry.key.rule, place_of(entry.key), found, found == 1 ? "is" : "are", found);
  if (find_rule(entry.key.rule) == nullptr)
    return fmt::format("there is no rule {}; remove this entry", printable(entry.key.rule));
  if (cuts_off(entry.key.rule, entry.key.value))
    return fmt::format("what {} finds is not forgiven, since what lies behind it is not looked at; mend {}, "
                       "and remove this entry",
                       count_rule, place_of(entry.key));
  if (looked_at.documents.find(entry.key.document) == looked_at.documents.end())
    return fmt::format("there is no {} in this corpus any more; remove this entry",
                       printable(entry.key.document));
  return fmt::format("{} does not find {} in {} any more; remove this entry, so that it cannot come back "
                     "unseen",
                     entry.key.rule, entry.key.value.empty() ? "this" : quoted(entry.key.value),
                     place_of(entry.key));
}

std::string why_expired(const Baseline_entry& entry) {
  return fmt::format("what {} was to mend by {} is still there: {} in {}; mend it, or agree on another day",
                     quoted(entry.owner), entry.until, entry.key.rule, place_of(entry.key));
}

}

Baseline_read read_baseline(std::string name, std::string_view bytes) {
  Baseline_read result;
  Described_baseline described;
  Read_result read = read_described(std::move(name), bytes, baseline_record, &described);
  const std::string shown = printable(read.document.name());
  // Of another document, or of another version, no more can be said.
  if (read.document.whole() && described.format && *described.format != baseline_format) {
    result.problems.push_back(fmt::format("{}: {} is not a baseline that this program reads; it reads \"{}\"",
                                          shown, quoted(*described.format), baseline_format));
    return result;
  }
  for (const Finding& finding : read.findings)
    if (finding.severity == Severity::error)
      result.problems.push_back(fmt::format("{}:{}:{}: {}", shown, finding.region.first.line,
                                            finding.region.first.column, printable(finding.message)));
  if (!result.problems.empty()) return result;
  const auto begin_of = [&](Node_id node) {
    const Node& n = read.document.node(node);
    return read.document.region(n.begin, n.end).first;
  };
  const auto add_problem = [&](Node_id node, std::string_view message) {
    const Position place = begin_of(node);
    result.problems.push_back(fmt::format("{}:{}:{}: {}", shown, place.line, place.column, message));
  };
  std::map<Finding_key, Node_id> known;
  for (const Described_baseline_entry& entry : described.entries) {
    result.baseline.entries.push_back(entry_of(read.document, entry));
    if (const std::string problem = calendar_problem(text(entry.until)); !problem.empty())
      add_problem(entry.until.node, problem);
    const auto [first, fresh] = known.emplace(result.baseline.entries.back().key, entry.node);
    if (fresh) continue;
    add_problem(entry.node,
                fmt::format("the entry of line {} has the same document, rule, at and value; leave one, with "
                            "`count` for how many findings it is",
                            begin_of(first->second).line));
  }
  result.baseline.free_members = free_members_of(read.document, Document::root);
  result.baseline.document = std::move(read.document);
  return result;
}

std::vector<Finding> apply_baseline(const Baseline& baseline, std::vector<Finding>& findings,
                                    std::vector<Finding>& suppressed, const Looked_at& looked_at,
                                    const Lint_options& options) {
  const std::vector<Baseline_entry> entries = followed(baseline.entries, looked_at);
  Found found(entries);
  const std::size_t waived = suppressed.size();
  std::vector<Finding> fresh;
  for (Finding& finding : findings) {
    const auto [entry, left] =
        hides_others(finding, looked_at) ? Found::Taken{nullptr, 1} : found.take(finding);
    if (left > 0 || has_ended(entry->until, options.today)) {
      fresh.push_back(std::move(finding));
      continue;
    }
    finding.suppressed = {Suppressed_by::baseline, fmt::format("{} ({})", entry->why, entry->owner)};
    suppressed.push_back(std::move(finding));
  }
  findings = std::move(fresh);
  const std::vector<std::size_t> of_what_counts = found.counts();
  // What a waiver silences is known too, but takes nothing away from what counts.
  for (std::size_t i = 0; i < waived; ++i) found.take(suppressed[i]);

  std::vector<Finding> said;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Baseline_entry& entry = entries[i];
    const auto say = [&](std::string_view rule, std::string message) {
      const Node& n = baseline.document.node(entry.node);
      said.push_back(unplaced_finding(baseline.document, rule, find_rule(rule)->rule->severity, entry.node,
                                      n.begin, n.end, std::move(message)));
    };
    const std::size_t count = found.counts()[i];
    if (count < entry.count && !found.is_worse(i) && would_be_found(entry.key, looked_at, options))
      say("baseline-stale", why_stale(entry, count, looked_at));
    if (of_what_counts[i] > 0 && has_ended(entry.until, options.today))
      say("baseline-expired", why_expired(entry));
  }
  place(baseline.document.text(), said);
  return said;
}

Renewed_baseline renewed(std::span<const Baseline_entry> known, std::span<const Finding> findings,
                         std::span<const Finding> suppressed, const Looked_at& looked_at,
                         const Lint_options& options, const Baseline_entry& fresh) {
  const std::vector<Baseline_entry> entries = followed(known, looked_at);
  Found found(entries);
  Renewed_baseline out;
  struct Other {
    std::size_t count = 0;
    Severity severity = Severity::note; // of the worst
  };
  std::map<Finding_key, Other> others;
  const auto add = [](auto& to, std::size_t count, Severity severity) {
    to.count += count;
    to.severity = std::max(to.severity, severity);
  };
  for (const Finding& finding : findings)
    if (hides_others(finding, looked_at))
      out.not_whole.insert(finding.document);
    else if (const std::size_t left = found.take(finding).left; left > 0)
      add(others[key_of(finding)], left, finding.as_found);
  for (const Finding& finding : suppressed) found.take(finding);
  std::map<Finding_key, std::size_t> kept; // what two ids that are one now both had is one entry
  for (std::size_t i = 0; i < entries.size(); ++i) {
    Baseline_entry entry = entries[i];
    if (would_be_found(entry.key, looked_at, options)) {
      entry.count = found.counts()[i];
      entry.severity = found.worst(i);
    }
    out.kept += entry.count;
    out.removed += entries[i].count - entry.count;
    if (entry.count == 0) continue;
    const auto [same, fresh_key] = kept.emplace(entry.key, out.entries.size());
    if (fresh_key)
      out.entries.push_back(std::move(entry));
    else
      add(out.entries[same->second], entry.count, entry.severity);
  }
  for (const auto& [key, other] : others) {
    out.added += other.count;
    if (const auto known_key = kept.find(key); known_key != kept.end()) { // a key has one entry
      add(out.entries[known_key->second], other.count, other.severity);
      continue;
    }
    Baseline_entry entry = fresh;
    entry.key = key;
    entry.count = other.count;
    entry.severity = other.severity;
    out.entries.push_back(std::move(entry));
  }
  return out;
}

}
