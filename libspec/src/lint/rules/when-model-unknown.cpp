#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check_list(const List<Value<Text>>& used, const List<Value<Text>>& known, Severity severity,
                       std::string_view what, std::string_view where, Sink& sink) {
  if (known.empty() || used.empty()) return;
  std::vector<std::string_view> words;
  for (const Value<Text>& word : known) {
    if (!word) return; // not all could be read
    words.push_back(*word);
  }
  for (const Value<Text>& word : used) {
    if (!word || std::find(words.begin(), words.end(), *word) != words.end()) continue;
    sink.report_as(severity, word.node,
                   fmt::format("the appliance has no {} {}, only {}{}; correct it, or add it to `{}`", what,
                               printable(*word), printable(listed(words)), printable(hint(*word, words)),
                               where));
    sink.relate(known.node, fmt::format("the {}s listed", what));
  }
}

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  const auto check_when = [&](const Applies_when& when) {
    check_list(when.models, profile->appliance.models, Severity::error, "model", "appliance.models", sink);
    // Versions are written in many ways: "2.1", "V2.1", "2.1 and later".
    check_list(when.software, profile->appliance.controller.software, Severity::warning, "software version",
               "appliance.controller.software", sink);
  };
  for (const auto& component : profile->components) check_when(component.value.when);
  each_fault(subject, [&](Text, const Fault& fault) { check_when(fault.when); });
}

extern const Rule when_model_unknown = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary =
        "A fault or component belongs to a model or software version that the appliance does not list.",
    .check = check,
};

}
