#include <set>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const auto& [id, key, circuit] : profile->circuits) {
    std::set<Text> seen, reported;
    for (const Circuit* each : circuits_in(subject.resolved, circuit))
      for (const Element& element : each->elements) {
        if (!element.component || seen.insert(*element.component).second) continue;
        if (!reported.insert(*element.component).second) continue;
        Finding& finding =
            sink.report(each == &circuit ? element.component.node : circuit.elements.node,
                        fmt::format("circuit {} holds {} twice; a part lies in one place of a circuit", id,
                                    *element.component));
        finding.value = *element.component;
        if (each != &circuit) sink.relate(element.component.node, "the second time");
      }
  }
}

extern const Rule circuit_element_twice = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A circuit holds one component twice.",
    .check = check,
};

}
