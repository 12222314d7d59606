// The steps after all documents: waivers, unused waivers, policy, order.
#include <algorithm>
#include <cstdint>
#include <functional>
#include <map>

#include <fmt/format.h>

#include "lint/policy.h"
#include "lint/until.h"

namespace ohmlore {

Severity severity_under(const Corpus& corpus, const Finding& finding) {
  if (finding.severity == Severity::error && !rule_of(finding.rule).is_of_the_house) return finding.severity;
  const auto* entry = corpus.policy.severities.find(finding.rule);
  return entry != nullptr && entry->value ? *entry->value : finding.severity;
}

void drop_switched_off(std::vector<Finding>& findings, std::size_t from, const Corpus& corpus) {
  std::map<std::pair<std::string_view, std::uint32_t>, std::uint32_t> dropped; // of each group
  const auto is_off = [&](const Finding& finding) {
    if (severity_under(corpus, finding) != Severity::off) return false;
    if (finding.group.size > 0) ++dropped[{finding.rule, finding.group.number}];
    return true;
  };
  findings.erase(std::remove_if(findings.begin() + static_cast<std::ptrdiff_t>(from), findings.end(), is_off),
                 findings.end());
  for (Finding& finding : findings)
    if (finding.group.size > 0)
      if (const auto found = dropped.find({finding.rule, finding.group.number}); found != dropped.end())
        finding.group.size -= found->second;
}

// A waiver covers its place and all that stands in it.
static bool covers(const Kept_waiver& waiver, const Finding& finding) {
  if (finding.rule != waiver.rule || !can_be_waived(rule_of(finding.rule))) return false;
  const std::string_view at = waiver.at;
  return finding.pointer == at || (finding.pointer.size() > at.size() && finding.pointer.starts_with(at) &&
                                   finding.pointer[at.size()] == '/');
}

static void apply_waivers(Linted& file, bool whole_corpus, const Lint_options& options,
                          std::vector<Finding>& waived) {
  std::vector<Finding> about_waivers;
  for (const Kept_waiver& waiver : file.waivers) {
    const bool expired = has_ended(waiver.until, options.today);
    const auto covered = [&](const Finding& finding) { return covers(waiver, finding); };
    const auto count = std::count_if(file.findings.begin(), file.findings.end(), covered);
    if (count > 0 && !expired) {
      const auto first =
          std::stable_partition(file.findings.begin(), file.findings.end(), std::not_fn(covered));
      for (auto finding = first; finding != file.findings.end(); ++finding) {
        finding->suppressed = {Suppressed_by::waiver, waiver.why};
        waived.push_back(std::move(*finding));
      }
      file.findings.erase(first, file.findings.end());
      continue;
    }
    Finding finding = waiver.unused;
    if (count > 0) {
      finding.rule = "waiver-expired";
      finding.message = fmt::format(
          "this waiver of {} ended on {}; look at the finding again, then give a new date or mend it",
          waiver.rule, waiver.until);
    } else if (const Rule_entry* entry = find_rule(waiver.rule);
               finding.message.empty() || options.part_of_run ||
               (entry->rule->judge != nullptr && !whole_corpus)) {
      continue;
    }
    about_waivers.push_back(std::move(finding));
  }
  std::move(about_waivers.begin(), about_waivers.end(), std::back_inserter(file.findings));
}

static void apply_policy(std::vector<Finding>& findings, const Corpus* corpus) {
  for (Finding& finding : findings) finding.as_found = finding.severity;
  if (corpus == nullptr) return;
  drop_switched_off(findings, 0, *corpus);
  for (Finding& finding : findings) finding.severity = severity_under(*corpus, finding);
}

std::vector<Finding> settle(std::vector<Linted> linted, std::vector<Finding> judged, const Corpus* corpus,
                            const Lint_options& options, std::vector<Finding>* waived) {
  // Rules over a corpus say nothing of a waiver while only some of its documents were looked at.
  const bool whole_corpus =
      std::any_of(linted.begin(), linted.end(), [](const Linted& file) { return file.is_corpus; });
  // Nor do they miss anything in one of parts alone, or while a document hides what it says.
  const bool has_profile = std::any_of(
      linted.begin(), linted.end(), [](const Linted& file) { return file.document.starts_with("profile "); });
  const bool all_whole =
      std::all_of(linted.begin(), linted.end(), [](const Linted& file) { return file.whole; });
  std::map<std::string_view, Linted*> by_file;
  for (Linted& file : linted) by_file.emplace(file.file, &file);
  for (Finding& finding : judged) {
    if (!(whole_corpus && has_profile && all_whole) && rule_of(finding.rule).judges_lone_facts) continue;
    if (const auto found = by_file.find(finding.file); found != by_file.end())
      found->second->findings.push_back(std::move(finding));
  }
  judged = {};
  std::vector<Finding> all; // of a large corpus as much as all its documents: no room for it is held twice
  std::size_t size = 0;
  for (const Linted& file : linted) size += file.findings.size() + file.waivers.size();
  all.reserve(size);
  const auto finish = [&](const Linted& file, std::vector<Finding>& findings, std::vector<Finding>& into) {
    apply_policy(findings, corpus);
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
      return std::tie(a.region.begin, a.rule) < std::tie(b.region.begin, b.rule);
    });
    for (Finding& finding : findings)
      finding.document = file.document.empty() ? "file " + file.file : file.document;
    std::move(findings.begin(), findings.end(), std::back_inserter(into));
    findings = {};
  };
  for (Linted& file : linted) {
    std::vector<Finding> silenced;
    if (!options.no_waivers) apply_waivers(file, whole_corpus, options, silenced);
    finish(file, file.findings, all);
    if (waived != nullptr) finish(file, silenced, *waived);
  }
  return all;
}

void tell_once(std::vector<Finding>& findings, std::vector<Finding>* untold) {
  std::map<std::tuple<std::string, std::string_view, std::uint32_t>, std::uint32_t> left; // of each group
  for (const Finding& finding : findings)
    if (finding.group.size > 0) ++left[{finding.file, finding.rule, finding.group.number}];
  std::erase_if(findings, [&](Finding& finding) {
    Finding_group& group = finding.group;
    if (group.size == 0 || left[{finding.file, finding.rule, group.number}] < group.size) return false;
    if (group.as_one.empty()) {
      if (untold != nullptr) untold->push_back(std::move(finding));
      return true;
    }
    finding.message = std::move(group.as_one);
    return false;
  });
}

}
