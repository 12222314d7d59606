// Members of the JSON reports of jobs. Quantities are written as in the documents, with more digits than the
// texts show.
#pragma once

#include <cmath>
#include <vector>

#include "ohmlore/cautions.h"
#include "ohmlore/judge.h"
#include "report/json_writer.h"
#include "units/outward.h"

namespace ohmlore {

inline constexpr int json_digits = 6;
inline void quantity(Json_writer& out, std::string_view name, double value, Dimension dimension) {
  member(out, name, describe(value, dimension, json_digits));
}
inline void ohms(Json_writer& out, std::string_view name, double value) {
  quantity(out, name, value, Dimension::resistance);
}
/// Rounded outward, so that no reading that is within looks outside; without `high` where that is infinite.
inline void low_and_high(Json_writer& out, Interval ohm) {
  const Interval shown = outward(ohm, json_digits);
  ohms(out, "low", shown.low);
  if (!std::isinf(shown.high)) ohms(out, "high", shown.high);
}
inline void share(Json_writer& out, std::string_view name, double value) {
  quantity(out, name, std::round(value * 1e6) / 1e6, Dimension::ratio);
}
inline void kelvins(Json_writer& out, std::string_view name, double value) {
  quantity(out, name, value, Dimension::temperature_difference);
}
inline void temperature(Json_writer& out, std::string_view name, double value) {
  quantity(out, name, value, Dimension::temperature);
}
inline void count(Json_writer& out, std::string_view name, double value) {
  number(out, name, static_cast<std::uint64_t>(value));
}
/// All cautions, where there is no profile to add to them.
inline void all_cautions(Json_writer& out) {
  std::vector<std::string> all;
  for (const Caution& caution : cautions()) all.emplace_back(caution.text);
  texts(out, "cautions", all);
}
inline void meter_and_leads(Json_writer& out, const Meter_accuracy& meter, const Leads& leads) {
  object(out, "meter", [&] {
    share(out, "of_reading", meter.of_reading);
    count(out, "counts", meter.counts);
    count(out, "display_counts", meter.display_counts);
  });
  object(out, "leads", [&] {
    ohms(out, "resistance", leads.ohm);
    ohms(out, "half_width", leads.half_width);
  });
}

}
