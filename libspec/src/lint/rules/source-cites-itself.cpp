#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

using Sources = Keyed<Source>;

using Bases = std::vector<std::vector<std::size_t>>; // by source, the sources that it is based on

// The first way from `path` back to its beginning, over sources that stand behind it: each circle is then
// found once, from its first source in the document.
bool find_circle(const Bases& bases, std::vector<std::size_t>& path, std::vector<bool>& seen) {
  for (const std::size_t next : bases[path.back()]) {
    if (next == path.front()) return true;
    if (next < path.front() || seen[next]) continue;
    seen[next] = true;
    path.push_back(next);
    if (find_circle(bases, path, seen)) return true;
    path.pop_back();
  }
  return false;
}

void check(const Subject& subject, Sink& sink) {
  const Sources* sources = subject.document.sources();
  if (sources == nullptr) return;
  Id_index by_id;
  by_id.reserve(sources->size());
  for (std::size_t i = 0; i < sources->size(); ++i) by_id.add(sources->items[i].id, i);
  Bases bases(sources->size());
  for (std::size_t i = 0; i < sources->size(); ++i)
    for (const Value<Text>& basis : sources->items[i].value.based_on)
      if (const std::size_t other = basis ? by_id.find(*basis) : Id_index::npos; other != Id_index::npos)
        bases[i].push_back(other);
  for (std::size_t first = 0; first < sources->size(); ++first) {
    std::vector<std::size_t> path = {first};
    std::vector<bool> seen(sources->size());
    if (!find_circle(bases, path, seen)) continue;
    std::string way(sources->items[first].id);
    for (const std::size_t step : std::span(path).subspan(1))
      way += fmt::format("{} based on {}", way.find(' ') == std::string::npos ? " is" : ", which is",
                         sources->items[step].id);
    way += fmt::format("{} based on {}", path.size() == 1 ? " is" : ", which is", sources->items[first].id);
    const Sources::Entry& entry = sources->items[first];
    sink.report(entry.value.based_on.node,
                fmt::format("{}; a calculation starts from something else than its own result", way));
  }
}

}

extern const Rule source_cites_itself = {
    .family = Family::source,
    .severity = Severity::error,
    .summary = "A calculation is based on itself, directly or through others.",
    .check = check,
    .goes_by_order = true,
};

}
