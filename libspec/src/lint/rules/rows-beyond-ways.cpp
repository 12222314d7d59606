#include "lint/rule.h"
#include "text/counted.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const auto& [id, key, connector] : profile->connectors) {
    if (!connector.ways || !connector.rows || *connector.rows <= *connector.ways) continue;
    sink.report(connector.rows.node, fmt::format("{} has {} rows but only {}; a row has at least one way", id,
                                                 *connector.rows, counted(*connector.ways, "way")));
    sink.relate(connector.ways.node, fmt::format("the ways of {}", id));
  }
}

extern const Rule rows_beyond_ways = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "A connector has more rows than ways.",
    .check = check,
};

}
