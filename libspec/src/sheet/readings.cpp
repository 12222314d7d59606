// What a healthy part reads over temperature.
#include <cmath>

#include "judge/limits.h"
#include "ohmlore/sheet.h"

namespace ohmlore {

std::vector<Sheet_reading> sheet_readings(const Resolved& resolved, const Test& test) {
  std::vector<Sheet_reading> readings;
  std::string problem;
  const auto expected = expected_of(resolved, test, false, problem);
  if (!expected || !expected->varies || !expected->model || expected->basis == Limit_basis::twin)
    return readings;
  const Interval reach = expected->kelvin_range();
  bool any = false;
  for (const double celsius : sheet_celsius) {
    Sheet_reading& reading = readings.emplace_back();
    reading.kelvin = zero_celsius + celsius;
    if (!reach.contains(reading.kelvin)) continue;
    reading.nominal = expected->stated ? std::nullopt : expected->stated_nominal_at(reading.kelvin);
    reading.healthy = expected->service_at(reading.kelvin);
    any = any || reading.healthy;
  }
  if (!any) readings.clear();
  return readings;
}

}
