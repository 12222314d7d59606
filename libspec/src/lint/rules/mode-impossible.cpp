#include "lint/contacts.h"
#include "lint/modes.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check_modes(const Resolved_component& component, const List<Value<Mode>>& modes, bool excluded,
                        Sink& sink) {
  for (const Value<Mode>& mode : modes) {
    if (!mode) continue;
    const Likelihood found = likelihood(component, *mode);
    if (found == Likelihood::possible || (excluded && found == Likelihood::unlikely)) continue;
    const bool sure = found == Likelihood::impossible && !excluded;
    sink.report_as(sure ? Severity::error : Severity::warning, mode.node,
                   fmt::format("{} is of kind {}, which {} fail as {}; {}", component.id,
                               word_of(component.kind()),
                               found == Likelihood::impossible ? "cannot" : "can hardly", word_of(*mode),
                               excluded ? "leave it out of `excludes`"
                                        : "name the mode that is meant, or another component"));
    sink.relate(component.node, "the component");
  }
}

static void check_harness(const Suspect& suspect, Sink& sink) {
  for (const Value<Mode>& mode : suspect.modes) {
    const Likelihood found = mode ? likelihood_in_harness(*mode) : Likelihood::possible;
    if (found == Likelihood::possible) continue;
    sink.report_as(
        found == Likelihood::impossible ? Severity::error : Severity::warning, mode.node,
        fmt::format("a harness, which is wires and the contacts of a plug, {} fail as {}; name the mode that "
                    "is meant, or suspect a component",
                    found == Likelihood::impossible ? "cannot" : "can hardly", word_of(*mode)));
  }
}

// What turns can seize.
static void check_hazards(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Hazard& hazard : profile->safety.hazards) {
    if (!hazard.kind || *hazard.kind != Hazard_kind::generates_when_turned || !hazard.component) continue;
    const Resolved_component* component = subject.resolved.component(*hazard.component);
    if (component == nullptr || !component->known_kind ||
        likelihood(component->kind(), Mode::seized) != Likelihood::impossible)
      continue;
    sink.report_as(Severity::warning, hazard.component.node,
                   fmt::format("{} is of kind {}, in which nothing turns; name the fan, pump or motor that "
                               "generates the voltage",
                               component->id, word_of(component->kind())));
    sink.relate(component->node, "the component");
  }
}

static void check(const Subject& subject, Sink& sink) {
  check_hazards(subject, sink);
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    if (suspect.component != nullptr) check_modes(*suspect.component, suspect.own->modes, false, sink);
    if (suspect.own->kind && *suspect.own->kind == Suspect_kind::harness) check_harness(*suspect.own, sink);
  });
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component) return;
    const Resolved_component* component = subject.resolved.component_of(test);
    // In a circuit the reading speaks of the other elements too.
    if (component != nullptr && circuits_of(subject.resolved, *component).empty())
      check_modes(*component, test.excludes, true, sink);
  });
}

extern const Rule mode_impossible = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A component or harness is said to fail, or to generate, in a way that its kind cannot.",
    .check = check,
};

}
