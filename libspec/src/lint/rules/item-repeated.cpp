#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

template <class T>
void check_list(const Subject& subject, Sink& sink, const List<Value<T>>& list) {
  std::size_t repeated = 0;
  for (std::size_t i = 1; i < list.size(); ++i) {
    if (!list[i]) continue;
    const auto* const first = std::find_if(
        list.begin(), &list[i], [&](const Value<T>& other) { return other && *other == *list[i]; });
    if (first == &list[i]) continue;
    sink.report(list[i].node,
                fmt::format("{} stands in this list already; leave it out, or write what was meant instead",
                            quoted(subject.document.string(list[i].node))));
    sink.relate(first->node, "first here");
    ++repeated;
  }
  if (repeated > 1) sink.tell_the_worst(repeated);
}

void check(const Subject& subject, Sink& sink) {
  const auto check_all = [&](const auto&... lists) { (check_list(subject, sink, lists), ...); };
  if (const Keyed<Source>* sources = subject.document.sources())
    for (const auto& source : *sources) check_all(source.value.based_on);
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  const Appliance& appliance = profile->appliance;
  check_all(appliance.models, appliance.markets, appliance.controller.issues, appliance.controller.software);
  for (const auto& connector : profile->connectors)
    for (const auto& pin : connector.value.pins) check_all(pin.value.links);
  each_test(subject, [&](Text, const Test& test) { check_all(test.excludes); });
  each_suspect(subject, [&](const Bound_suspect& one) { check_all(one.own->modes, one.own->decided_by); });
}

}

extern const Rule item_repeated = {
    .family = Family::shape,
    .severity = Severity::warning,
    .summary = "A list says one thing twice.",
    .check = check,
};

}
