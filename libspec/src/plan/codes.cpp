#include "plan/codes.h"

#include <algorithm>

#include <fmt/format.h>

#include "lint/facts.h"
#include "lint/rule.h"
#include "model/names.h"

namespace ohmlore {
namespace {

using namespace rules;

bool applies(const Applies_when& when, const std::optional<std::string>& model,
             const std::optional<std::string>& software) {
  if (model && !when.models.empty() && !names(when.models, *model)) return false;
  return !software || when.software.empty() || names(when.software, *software);
}

// Letters and digits alone: "A4.1", "a4 1" and "A4-1" are one.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : folded(text))
    if (c != ' ' && c != '.' && c != '-' && c != '_' && c != '/' && c != ',' && c != ':') out += c;
  return out;
}

bool is_shown_as(const Display& display, std::string_view code) {
  const std::string wanted = plain(code);
  if (wanted == plain(displayed(display))) return true;
  if (display.text && wanted == plain(*display.text)) return true;
  return display.pattern && wanted == plain(*display.pattern);
}

std::string texts(const List<Value<Text>>& list) {
  std::string out;
  for (const Value<Text>& one : list)
    if (one) out += fmt::format("{}{}", out.empty() ? "" : ", ", printable(*one));
  return out;
}

// "models Alder 25; software 2.1, 2.2"; empty where it always applies.
std::string applies_words(const Applies_when& when) {
  std::string out;
  if (!when.models.empty()) out = fmt::format("models {}", texts(when.models));
  if (!when.software.empty())
    out += fmt::format("{}software {}", out.empty() ? "" : "; ", texts(when.software));
  return out;
}

}

std::string displayed(const Display& display) {
  std::string out;
  for (const Value<Text>* part : {&display.text, &display.subcode, &display.lamp, &display.pattern})
    if (*part) out += fmt::format("{}{}", out.empty() ? "" : " ", **part);
  return out;
}

Found_codes find_codes(const Profile& profile, const std::vector<std::string>& codes,
                       const std::optional<std::string>& model, const std::optional<std::string>& software) {
  Found_codes found;
  if (codes.empty()) found.problems.push_back("no code is named to plan for");
  if (model && !names(profile.appliance.models, *model))
    found.problems.push_back(fmt::format("profile {} has no model {}; it has {}", *profile.id, quoted(*model),
                                         texts(profile.appliance.models)));
  if (software && !profile.appliance.controller.software.empty() &&
      !names(profile.appliance.controller.software, *software))
    found.problems.push_back(fmt::format("profile {} has no software {}; it has {}", *profile.id,
                                         quoted(*software), texts(profile.appliance.controller.software)));
  if (!found.problems.empty()) return found;
  for (const std::string& code : codes) {
    std::vector<const Keyed<Fault>::Entry*> meant, elsewhere;
    for (const auto& entry : profile.faults)
      if (entry.value && (entry.id == code || is_shown_as(entry.value.display, code)))
        (applies(entry.value.when, model, software) ? meant : elsewhere).push_back(&entry);
    if (meant.empty()) {
      std::string why = fmt::format("profile {} has no code {}", *profile.id, quoted(code));
      std::vector<std::string> shown;
      std::vector<std::string_view> known = ids_of(profile.faults);
      for (const auto& entry : profile.faults) shown.push_back(displayed(entry.value.display));
      known.insert(known.end(), shown.begin(), shown.end());
      if (!elsewhere.empty())
        why = fmt::format("code {} is none of this appliance: it belongs to {}", quoted(code),
                          applies_words(elsewhere[0]->value.when));
      else if (!nearest_word(code, known).empty())
        why += hint(code, known);
      else
        why += fmt::format("; it has {}", listed(shown));
      found.problems.push_back(std::move(why));
      continue;
    }
    if (meant.size() > 1) {
      std::string words;
      bool narrows = true;
      for (const auto* entry : meant) {
        const std::string when = applies_words(entry->value.when);
        narrows = narrows && !when.empty();
        words += fmt::format("{}{} ({}{}{})", words.empty() ? "" : "; ",
                             entry->value.meaning ? printable(*entry->value.meaning) : "", entry->id,
                             when.empty() ? "" : ", ", when);
      }
      found.remarks.push_back(
          fmt::format("{} means more than one thing here, and this plan is for all of them: {}. "
                      "Say which by its name in brackets{}",
                      quoted(code), words, narrows ? ", or with --model and --software" : ""));
    }
    for (const auto* entry : meant)
      if (std::none_of(found.faults.begin(), found.faults.end(),
                       [&](const Planned_fault& one) { return one.id == entry->id; }))
        found.faults.push_back({entry->id, &entry->value});
  }
  return found;
}

}
