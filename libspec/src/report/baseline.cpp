#include "ohmlore/baseline.h"

#include <algorithm>

#include "publish/baseline_records.h"
#include "report/json_writer.h"

namespace ohmlore {

static void write(Json_writer& out, const Free_members& members) {
  for (const auto& [name, value] : members) {
    key(out, name);
    out.RawValue(value.data(), value.size(), rapidjson::kNullType);
  }
}

std::string baseline_text(std::vector<Baseline_entry> entries, const Free_members& free_members) {
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Baseline_entry& a, const Baseline_entry& b) { return a.key < b.key; });
  return written_object([&](Json_writer& out) {
    member(out, "format", baseline_format);
    list(out, "entries", entries, [&](const Baseline_entry& entry) {
      member(out, "document", entry.key.document);
      member(out, "rule", entry.key.rule);
      member(out, "at", entry.key.at);
      member(out, "value", entry.key.value);
      if (entry.severity != Severity::error) member(out, "severity", word_of(entry.severity));
      if (entry.count > 1) number(out, "count", entry.count);
      member(out, "owner", entry.owner);
      member(out, "why", entry.why);
      if (!entry.until.empty()) member(out, "until", entry.until);
      write(out, entry.free_members);
    });
    write(out, free_members);
  });
}

}
