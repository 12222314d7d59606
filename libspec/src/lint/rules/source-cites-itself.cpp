#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

using Sources = Keyed<Source>;

// The first way from `path` back to its beginning, over sources that stand behind it: each circle is then
// found once, from its first source in the document.
bool find_circle(const Sources& sources, std::vector<std::size_t>& path, std::vector<bool>& seen) {
  for (const Value<Text>& basis : sources.items[path.back()].value.based_on) {
    const Sources::Entry* entry = basis ? sources.find(*basis) : nullptr;
    if (entry == nullptr) continue;
    const auto next = static_cast<std::size_t>(entry - sources.begin());
    if (next == path.front()) return true;
    if (next < path.front() || seen[next]) continue;
    seen[next] = true;
    path.push_back(next);
    if (find_circle(sources, path, seen)) return true;
    path.pop_back();
  }
  return false;
}

void check(const Subject& subject, Sink& sink) {
  const Sources* sources = subject.document.sources();
  if (sources == nullptr) return;
  for (std::size_t first = 0; first < sources->size(); ++first) {
    std::vector<std::size_t> path = {first};
    std::vector<bool> seen(sources->size());
    if (!find_circle(*sources, path, seen)) continue;
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
};

}
