#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// No modes: all of them.
bool modes_overlap(const List<Value<Mode>>& a, const List<Value<Mode>>& b) {
  if (a.empty() || b.empty()) return true;
  return std::any_of(a.begin(), a.end(), [&](const Value<Mode>& one) {
    return one &&
           std::any_of(b.begin(), b.end(), [&](const Value<Mode>& other) { return other && *one == *other; });
  });
}

bool is_named(const Suspect& suspect) {
  switch (*suspect.kind) {
  case Suspect_kind::component: return bool(suspect.component);
  case Suspect_kind::harness: return bool(suspect.connector);
  case Suspect_kind::cause: return bool(suspect.cause);
  default: return true;
  }
}

std::string name_of(const Suspect& suspect) {
  if (suspect.component) return std::string(*suspect.component);
  if (suspect.connector) return fmt::format("the harness of {}", *suspect.connector);
  if (suspect.cause) return fmt::format("\"{}\"", printable(*suspect.cause));
  return fmt::format("the {}", word_of(*suspect.kind));
}

bool same(const Suspect& a, const Suspect& b) {
  return *a.kind == *b.kind && *a.component == *b.component && *a.connector == *b.connector &&
         *a.cause == *b.cause && *a.note == *b.note && modes_overlap(a.modes, b.modes);
}

void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text id, const Fault& fault) {
    const auto& suspects = fault.suspects;
    for (std::size_t i = 0; i < suspects.size(); ++i) {
      if (!suspects[i] || !suspects[i].kind || !is_named(suspects[i])) continue;
      for (std::size_t j = 0; j < i; ++j) {
        if (!suspects[j] || !suspects[j].kind || !same(suspects[j], suspects[i])) continue;
        sink.report(suspects[i].node, fmt::format("code {} suspects {} twice; put both into one suspect", id,
                                                  name_of(suspects[i])));
        sink.relate(suspects[j].node, "first here");
        break;
      }
    }
  });
}

}

extern const Rule suspect_repeated = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A fault suspects one thing twice in the same way.",
    .check = check,
    .goes_by_absence = true,
};

}
