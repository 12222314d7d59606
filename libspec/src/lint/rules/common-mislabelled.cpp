#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

bool has_one_common(Connection connection) {
  switch (connection) {
  case Connection::start_run:
  case Connection::two_direction:
  case Connection::unipolar:
  case Connection::star: return true;
  default: return false;
  }
}

void check(const Subject& subject, Sink& sink) {
  each_connected(subject, [&](const Readings& all, Connection connection, const Resolved_component&) {
    if (!has_one_common(connection)) return;
    const Readings readings = finite(all);
    for (const Around_common& three : around_common(readings)) {
      const Text likely = likely_common(three);
      if (likely.empty()) continue;
      const Reading& largest = likely == three.one_end ? *three.other : *three.one;
      sink.report(largest.node,
                  fmt::format("{} reads {}, more than {} with {}: the largest reading is between the two "
                              "ends that are not common, so {} is likely the common; exchange {} and {}",
                              ends_of(largest), ohm(largest.ohm), ends_of(*three.whole),
                              ohm(three.whole->ohm), likely, three.common, likely));
      sink.relate(three.whole->node, ends_of(*three.whole));
      break;
    }
  });
}

}

extern const Rule common_mislabelled = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "The readings of windings say that another terminal is the common.",
    .check = check,
    .goes_by_order = true,
};

}
