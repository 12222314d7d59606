#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check_list(const List<Value<Text>>& used, const List<Value<Text>>& known, Severity severity,
                       std::string_view what, std::string_view where, Sink& sink) {
  const auto is_known = [&](const Value<Text>& word) {
    return std::any_of(known.begin(), known.end(), [&](const auto& one) { return *one == *word; });
  };
  if (used.empty() || known.empty() ||
      !std::all_of(known.begin(), known.end(), [](const auto& one) { return bool(one); }))
    return; // none, or not all could be read
  for (const Value<Text>& word : used) {
    if (!word || is_known(word)) continue;
    std::vector<std::string_view> words;
    for (const Value<Text>& one : known) words.push_back(*one);
    const std::string near = hint(*word, words);
    sink.report_as(
        severity, word.node,
        fmt::format("the appliance has no {} {}, only {}{}", what, printable(*word), printable(listed(words)),
                    near.empty() ? fmt::format("; correct it, or add it to `{}`", where) : printable(near)));
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
