#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool same_display(const Display& a, const Display& b) {
  return same_name(*a.text, *b.text) && *a.kind == *b.kind && *a.subcode == *b.subcode &&
         *a.pattern == *b.pattern && *a.lamp == *b.lamp;
}

std::string shown(const Display& display) {
  std::string text = display.pattern ? std::string(*display.pattern) : std::string(*display.text);
  if (display.subcode) text += fmt::format(" / {}", *display.subcode);
  if (display.lamp) text += fmt::format(" ({})", *display.lamp);
  return text;
}

// Absent: all there are.
bool overlap(const List<Value<Text>>& a, const List<Value<Text>>& b) {
  if (!a || !b) return true;
  Id_index of_a;
  of_a.reserve(a.size());
  for (const Value<Text>& one : a)
    if (one) of_a.add(*one, 0);
  return std::any_of(b.begin(), b.end(),
                     [&](const Value<Text>& other) { return other && of_a.find(*other) != Id_index::npos; });
}

// What could not be read must not widen a meaning to all models.
bool fully_read(const Document& document, const Fault& fault) {
  const Display& display = fault.display;
  if (document.complete()) return true;
  for (const auto& [key, read] :
       {std::pair("text", bool(display.text)), std::pair("subcode", bool(display.subcode)),
        std::pair("pattern", bool(display.pattern)), std::pair("lamp", bool(display.lamp))})
    if (stated(document, display.node, key) != read) return false;
  if (unread(document, fault, "reset", fault.reset)) return false;
  if (!fault.when) return !stated(document, fault, "when", fault.when);
  return stated(document, fault.when, "models", fault.when.models) == bool(fault.when.models) &&
         stated(document, fault.when, "software", fault.when.software) == bool(fault.when.software);
}

void check(const Subject& subject, Sink& sink) {
  std::vector<std::pair<Text, const Fault*>> faults;
  each_fault(subject, [&](Text id, const Fault& fault) {
    if (!fault.display || !fault.display.kind || (!fault.display.text && !fault.display.pattern) ||
        !fully_read(subject.document, fault))
      return;
    std::vector<Contradiction> against;
    for (std::size_t i = 0; i < faults.size(); ++i) {
      const Fault* earlier = faults[i].second;
      if (!same_display(earlier->display, fault.display) ||
          !overlap(earlier->when.models, fault.when.models) ||
          !overlap(earlier->when.software, fault.when.software))
        continue;
      // One code in two states of the appliance, locking out or not, is honest: the display says no more.
      // Where one of the two states none, it may be another.
      const bool told_apart =
          bool(earlier->reset) != bool(fault.reset) || (fault.reset && *earlier->reset != *fault.reset);
      against.push_back(
          {told_apart ? Severity::warning : Severity::error, faults[i].first, earlier->display.node, i});
    }
    report_contradictions(
        sink, fault.display.node, std::move(against), "{} is shown like this too", [&](std::size_t i) {
          return fmt::format(
              "{} and {} both stand for the display \"{}\"; correct one, or say in `when` for which models "
              "or software each holds",
              faults[i].first, id, printable(shown(fault.display)));
        });
    faults.emplace_back(id, &fault);
  });
}

}

extern const Rule display_code_twice = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "Two faults are displayed alike on the same models and software.",
    .check = check,
    .goes_by_order = true,
};

}
