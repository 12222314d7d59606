#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.placed == nullptr || !component.known_kind ||
        stated(*component.document, component.node, "terminals"))
      continue;
    const List<Terminal_pair>& pairs = component.own->model->pairs;
    if (pairs) {
      sink.report_as(
          Severity::warning, pairs.node,
          fmt::format("the pairs name terminals, but {} has no `terminals` that say which contacts these "
                      "are; add them",
                      component.id));
      continue;
    }
    if (!component.placed->between) continue;
    const auto connection = component.get(&Component_type::connection);
    const auto contacts = component.get(&Component_type::contacts);
    std::string why;
    if (connection && **connection != Connection::single)
      why = fmt::format("its connection is {}", word_of(**connection));
    else if (contacts && **contacts == Contacts::changeover)
      why = "its contact is a changeover";
    else
      continue;
    sink.report(
        component.placed->between.node,
        fmt::format("`between` names two contacts of {}, but {}; name all that are wired in `terminals`",
                    component.id, why));
  }
}

extern const Rule terminals_missing = {
    .family = Family::pin,
    .severity = Severity::note,
    .summary = "A component with more than two terminals names only two contacts, or none.",
    .check = check,
};

}
