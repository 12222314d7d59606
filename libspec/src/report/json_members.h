// Members of the JSON reports of jobs. Quantities are written as in the documents, with more digits than the
// texts show.
#pragma once

#include <cmath>
#include <type_traits>
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
template <class E>
requires std::is_enum_v<E>
void word(Json_writer& out, std::string_view name, E value) { member(out, name, word_of(value)); }
inline void truth(Json_writer& out, std::string_view name, bool value) {
  key(out, name);
  out.Bool(value);
}
inline void count(Json_writer& out, std::string_view name, double value) {
  number(out, name, static_cast<std::uint64_t>(value));
}
inline void texts(Json_writer& out, std::string_view name, const std::vector<std::string>& list) {
  key(out, name);
  out.StartArray();
  for (const std::string& one : list) string(out, one);
  out.EndArray();
}
template <class List, class F>
void list(Json_writer& out, std::string_view name, const List& items, F f) {
  key(out, name);
  out.StartArray();
  for (const auto& item : items) {
    out.StartObject();
    f(item);
    out.EndObject();
  }
  out.EndArray();
}
template <class F>
void object(Json_writer& out, std::string_view name, F f) {
  key(out, name);
  out.StartObject();
  f();
  out.EndObject();
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
