// Tables of readings, made from a known truth.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "ohmlore/fit.h"

namespace ohmlore::test {

struct Row {
  std::string specimen;
  double celsius = 0, ohm = 0;
};

inline Measurements measurements_of(const std::vector<Row>& rows) {
  Measurements out;
  out.file = "table.csv";
  for (const Row& row : rows) {
    const auto place = std::find(out.specimens.begin(), out.specimens.end(), row.specimen);
    Fit_reading reading;
    reading.specimen = static_cast<std::size_t>(place - out.specimens.begin());
    if (place == out.specimens.end()) out.specimens.push_back(row.specimen);
    reading.kelvin = row.celsius + 273.15;
    reading.ohm = row.ohm;
    reading.place.row = static_cast<std::uint32_t>(out.readings.size() + 2);
    out.readings.push_back(reading);
  }
  return out;
}

inline Fit fitted(const std::vector<Row>& rows, Component_kind kind, const Fit_means& means,
                  std::optional<Model_kind> model = {}) {
  Fit_request request;
  request.kind = kind;
  request.means = means;
  request.model = model;
  request.id = "table";
  const Fit_result result = fit_part(measurements_of(rows), request);
  EXPECT_TRUE(result.fit) << result.problem
                          << (result.findings.empty() ? "" : result.findings.front().message);
  return result.fit.value_or(Fit());
}

inline constexpr double bath[] = {0, 15, 25, 40, 60, 80};
/// What `fine` means leave: readings that scatter by 0.02 % and 0.01 K.
inline double noisy(std::mt19937& dice, double ohm, double by = 2e-4) {
  return ohm * (1 + std::normal_distribution<>(0, by)(dice));
}

inline double beta_ohm(double celsius, double b, double r25 = 10000) {
  return r25 * std::exp(b * (1 / (celsius + 273.15) - 1 / 298.15));
}
inline std::vector<Row> ntc_table(int specimens, double spread, double b_spread) {
  std::mt19937 dice(17);
  std::normal_distribution<> normal;
  std::vector<Row> rows;
  for (int s = 0; s < specimens; ++s) {
    const double factor = std::exp(spread * normal(dice)), b = 3977 + b_spread * normal(dice);
    for (const double t : bath)
      rows.push_back({fmt::format("s{}", s + 1), t, noisy(dice, factor * beta_ohm(t, b))});
  }
  return rows;
}

/// A thermistor of the published coefficients 0.001129148, 0.000234125, 8.76741e-8 (see the reference data).
inline constexpr Steinhart_hart published_hart = {0.001129148, 0.000234125, 8.76741e-8};
inline std::vector<Row> hart_table() {
  std::mt19937 dice(11);
  std::vector<Row> rows;
  for (const double t : {-20.0, 0.0, 10.0, 25.0, 40.0, 60.0, 80.0, 100.0})
    rows.push_back({"a", t, noisy(dice, steinhart_hart_resistance(published_hart, t + 273.15).value())});
  return rows;
}

inline std::vector<Row> platinum_table(int specimens, double spread) {
  std::mt19937 dice(5);
  std::normal_distribution<> normal;
  std::vector<Row> rows;
  for (int s = 0; s < specimens; ++s) {
    const double factor = std::exp(spread * normal(dice));
    for (const double t : {0.0, 30.0, 60.0, 100.0})
      rows.push_back({fmt::format("p{}", s + 1), t,
                      noisy(dice, factor * 1000 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t), 2e-5)});
  }
  return rows;
}

inline std::vector<Row> metal_table(double ohm, int specimens) {
  std::mt19937 dice(7);
  std::normal_distribution<> normal;
  std::vector<Row> rows;
  for (int s = 0; s < specimens; ++s) {
    const double factor = std::exp(0.01 * normal(dice));
    for (const double t : {12.0, 20.0, 45.0})
      rows.push_back({fmt::format("c{}", s + 1), t, 0.3 + factor * ohm * (234.5 + t) / 254.5});
  }
  return rows;
}

inline std::vector<Row> same_table(double ohm, int specimens) {
  std::mt19937 dice(9);
  std::vector<Row> rows;
  for (int s = 0; s < specimens; ++s)
    rows.push_back({fmt::format("r{}", s + 1), 21, 0.3 + noisy(dice, ohm, 0.004)});
  return rows;
}

}
