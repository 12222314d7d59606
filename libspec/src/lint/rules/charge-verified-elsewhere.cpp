#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// No voltage stands between the two, whatever is charged.
bool are_one(const Resolved& resolved, const Contact& a, const Contact& b) {
  return are_joined(resolved, a, b) || (is_earthed(resolved, a) && is_earthed(resolved, b));
}

// Of contacts that are one, the first; empty where one of them cannot be read or is not declared.
std::vector<Contact> distinct(const Resolved& resolved, const List<Value<Contact>>& where) {
  std::vector<Contact> all;
  for (const Value<Contact>& contact : where) {
    if (!contact || resolved.pin(*contact) == nullptr) return {};
    if (std::none_of(all.begin(), all.end(),
                     [&](const Contact& known) { return are_one(resolved, known, *contact); }))
      all.push_back(*contact);
  }
  return all;
}

void check_hazard(const Subject& subject, Sink& sink, const Hazard& hazard) {
  const std::vector<Contact> where = distinct(subject.resolved, hazard.where);
  if (where.empty()) return;
  const bool noted = stated(subject.document, hazard, "note", hazard.note);
  if (hazard.where.size() == 1) {
    if (noted) return; // it may say against what
    sink.report(hazard.where.node,
                fmt::format("a voltage stands between two contacts, and only {} is named; name the other one "
                            "too, earth where it is measured against that",
                            text_of(where.front())));
    return;
  }
  if (where.size() == 1) {
    const Contact &one = *hazard.where[0], &other = *hazard.where[1];
    // A note may say against what each of them is measured.
    sink.report_as(noted ? Severity::warning : Severity::error, hazard.where.node,
                   fmt::format("{}, so that a detector shows 0 V whatever is charged; name the two contacts "
                               "between which the charge stands",
                               one == other
                                   ? fmt::format("{} is named twice", text_of(one))
                                   : fmt::format("{} and {} are joined", text_of(one), text_of(other))));
    return;
  }
  const auto* component = hazard.component ? subject.resolved.component(*hazard.component) : nullptr;
  if (component == nullptr) return;
  const Reach reach(subject.resolved, *component);
  const std::vector<Contact> reached = reach.contacts();
  if (reached.size() < 2) return;
  const auto at_component = std::count_if(where.begin(), where.end(), [&](const Contact& contact) {
    return std::any_of(reached.begin(), reached.end(),
                       [&](const Contact& own) { return are_one(subject.resolved, own, contact); });
  });
  if (at_component > 1 || !subject.document.complete()) return; // it may lie where could not be read
  sink.report(hazard.where.node,
              fmt::format("{} lies on {}, and its charge is verified at {}, where it need not show; name two "
                          "contacts that it lies on, or the component that is charged",
                          component->id, listed(reached), listed(where)));
  sink.relate(component->node, "the component");
}

void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Hazard& hazard : profile->safety.hazards)
    if (hazard.kind && *hazard.kind == Hazard_kind::stored_charge) check_hazard(subject, sink, hazard);
}

}

extern const Rule charge_verified_elsewhere = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A stored charge is verified at contacts between which it does not stand.",
    .check = check,
};

}
