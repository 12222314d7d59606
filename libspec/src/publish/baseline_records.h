// The baseline, described like the records of the format, so that the one reader reads it.
#pragma once

#include "model/types.h"
#include "publish/reported.h"

namespace ohmlore {

inline constexpr std::string_view baseline_format = "ohmlore-baseline/1.0";

struct Described_baseline_entry : Record_base {
  Value<Text> document, rule, at, value;
  Value<Reported> severity;
  Value<std::int64_t> count;
  Value<Text> owner, why, until;
};
struct Described_baseline : Record_base {
  Value<Text> format;
  List<Described_baseline_entry> entries;
};

}
