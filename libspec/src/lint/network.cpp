#include "lint/network.h"

#include <algorithm>

#include "lint/readings.h"

namespace ohmlore::rules {

static std::string terminal_name(const Resolved_component& component, const Contact& contact) {
  for (const auto& terminal : component.placed->terminals)
    if (terminal.value && *terminal.value == contact) return std::string(terminal.id);
  return text_of(contact);
}

static std::vector<Reading> stated_pairs(const Resistance_model& model) {
  std::vector<Reading> readings;
  for (const Terminal_pair& pair : model.pairs) {
    if (!pair.from || !pair.to || !pair.resistance || *pair.from == *pair.to) continue;
    const double half = pair.resistance->half_digit;
    const Interval ohm = toleranced_interval(*pair.resistance, model.tolerance);
    readings.push_back({std::string(*pair.from), std::string(*pair.to),
                        model.tolerance ? ohm + Interval{-half, half} : ohm, pair.node, nullptr});
  }
  return readings;
}

std::vector<std::vector<Reading>> reading_groups(const Subject& subject,
                                                 const Resolved_component& component) {
  std::vector<std::vector<Reading>> groups;
  if (component.own->model.pairs) groups.push_back(stated_pairs(component.own->model));
  if (component.placed == nullptr) return groups;
  const std::size_t of_tests = groups.size();
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component || *test.component != component.id || !test.side || *test.side == Side::harness ||
        test.probes.size() != 2 || !test.probes[0] || !test.probes[1] || *test.probes[0] == *test.probes[1] ||
        !fully_read(subject.document, test))
      return;
    const auto readings = healthy_readings(test.expect);
    if (!readings) return;
    const Reading reading{terminal_name(component, *test.probes[0]),
                          terminal_name(component, *test.probes[1]), *readings, test.expect.node, &test};
    for (std::size_t i = of_tests; i < groups.size(); ++i) {
      const Test& first = *groups[i].front().test;
      if (*first.condition != *test.condition || !same_temperature(first, test)) continue;
      groups[i].push_back(reading);
      return;
    }
    groups.push_back({reading});
  });
  return groups;
}

const Reading* reading_between(const std::vector<Reading>& readings, std::string_view from,
                               std::string_view to) {
  const auto found = std::find_if(readings.begin(), readings.end(), [&](const Reading& reading) {
    return (reading.from == from && reading.to == to) || (reading.from == to && reading.to == from);
  });
  return found == readings.end() ? nullptr : &*found;
}

std::vector<std::string> terminals_of(const std::vector<Reading>& readings) {
  std::vector<std::string> terminals;
  for (const Reading& reading : readings)
    for (const std::string& end : {reading.from, reading.to})
      if (std::find(terminals.begin(), terminals.end(), end) == terminals.end()) terminals.push_back(end);
  return terminals;
}

}
