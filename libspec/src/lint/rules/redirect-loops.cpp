#include <algorithm>

#include "lint/redirects.h"

namespace ohmlore::rules {
namespace {

void check(const Subject& subject, Sink& sink) {
  each_redirected_kind(subject, [&](std::string_view kind, const Keyed<Value<Text>>& written) {
    Id_index by_id;
    by_id.reserve(written.size());
    for (std::size_t i = 0; i < written.size(); ++i) by_id.add(written.items[i].id, i);
    std::vector<std::size_t> seen_from(written.size(), Id_index::npos); // where a walk that came by began
    for (std::size_t start = 0; start < written.size(); ++start) {
      std::size_t at = start;
      while (at != Id_index::npos && seen_from[at] == Id_index::npos) {
        seen_from[at] = start;
        at = written.items[at].value ? by_id.find(*written.items[at].value) : Id_index::npos;
      }
      if (at == Id_index::npos || seen_from[at] != start)
        continue; // it ends, or leads where another walk was
      std::vector<std::string_view> loop = {written.items[at].id};
      for (std::size_t i = by_id.find(*written.items[at].value); i != at;
           i = by_id.find(*written.items[i].value))
        loop.push_back(written.items[i].id);
      std::rotate(loop.begin(), std::min_element(loop.begin(), loop.end()), loop.end());
      const auto& first = *written.find(loop.front());
      loop.push_back(loop.front());
      sink.report(
          first.value.node,
          fmt::format("these redirects of {}s lead in a circle: {}; say which id the document has now", kind,
                      fmt::join(loop, " to ")));
    }
  });
}

}

extern const Rule redirect_loops = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "Redirects of ids lead back to where they start.",
    .check = check,
};

}
