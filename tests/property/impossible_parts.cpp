// Rules that call a part impossible, against a search for the part: bands at random, and whether any part
// keeps them all, found out without the formula of the rule. Numbers are written with so many digits that
// their rounding does not decide.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "ohmlore/lint.h"
#include "support/cases.h"
#include "support/chance.h"

namespace ohmlore {
namespace {

bool finds(const std::string& component, std::initializer_list<std::string_view> rules) {
  const Read_result read =
      read_json("random.part.json",
                fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "random", "revision": 1,
        "sources": {{ "s": {{ "kind": "calculation", "method": "random" }} }}, "source": {{ "from": "s" }},
        "component": {{ {} }} }})",
                            component));
  const Linted linted = lint_document(read, {});
  return std::any_of(linted.findings.begin(), linted.findings.end(), [&](const Finding& finding) {
    return finding.severity == Severity::error &&
           std::find(rules.begin(), rules.end(), finding.rule) != rules.end();
  });
}

struct Band {
  double celsius, low, high;
};

// Whether ln R, growing over x = 1/T with a slope from 1000 to 8000 K, can pass through all bands: what it
// can be at each row is what it can be there coming from the row before, and so on from the hottest.
bool a_thermistor_exists(std::vector<Band> bands) {
  std::sort(bands.begin(), bands.end(), [](const Band& a, const Band& b) { return a.celsius > b.celsius; });
  double low = -1e9, high = 1e9, before = 0;
  for (const Band& band : bands) {
    const double x = 1 / (band.celsius + 273.15);
    if (low > -1e9) {
      low += 1000 * (x - before);
      high += 8000 * (x - before);
    }
    low = std::max(low, std::log(band.low));
    high = std::min(high, std::log(band.high));
    if (low > high) return false;
    before = x;
  }
  return true;
}

std::string thermistor(const std::vector<Band>& bands) {
  std::string rows;
  for (const Band& band : bands)
    rows += fmt::format(R"({}{{ "at": "{:.6f} °C", "min": "{:.9f} Ω", "max": "{:.9f} Ω" }})",
                        rows.empty() ? "" : ", ", band.celsius, band.low, band.high);
  return fmt::format(R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "table", "rows": [{}] }})",
                     rows);
}

// Two rows are enough to show that no thermistor exists, and where it exists nothing is said.
TEST(Impossible, thermistor) {
  test::Chance random(20200229);
  int none = 0;
  constexpr int cases = test::cases(3000);
  for (int i = 0; i < cases; ++i) {
    std::vector<Band> bands;
    const int count = 2 + random.whole(0, 6);
    const double b = random.between(500, 9000), spread = random.between(0.01, 0.5);
    for (int row = 0; row < count; ++row) {
      const double t = -40 + 15 * row + random.between(0, 10);
      const double r =
          10000 * std::exp(b * (1 / (t + 273.15) - 1 / 298.15) + random.between(-spread, spread));
      bands.push_back({t, r * (1 - random.between(0.001, spread)), r * (1 + random.between(0.001, spread))});
    }
    const bool exists = a_thermistor_exists(bands);
    none += !exists;
    ASSERT_EQ(finds(thermistor(bands), {"ntc-rises", "ntc-b-impossible"}), !exists) << thermistor(bands);
  }
  EXPECT_GT(none, cases / 10);
  EXPECT_LT(none, cases * 9 / 10);
}

// As people write them: three digits, whole degrees; a thermistor whose B wanders between the limits. No
// error.
TEST(Impossible, real_thermistors_are_not) {
  test::Chance random(20200229);
  for (int i = 0; i < 2000; ++i) {
    double t = -40 + random.between(0, 30), logarithm = random.between(8, 13);
    std::string rows;
    long before = -1000;
    for (int row = 0; row < 12; ++row) {
      const long at = std::lround(t);
      const double ohm = std::exp(logarithm);
      const double digit = std::pow(10, std::floor(std::log10(ohm)) - 2);
      if (at != before)
        rows += fmt::format(R"({}{{ "at": "{} °C", "nominal": "{}" }})", rows.empty() ? "" : ", ", at,
                            digit >= 1 ? fmt::format("{:.{}f} kΩ", std::round(ohm / digit) * digit / 1000,
                                                     static_cast<int>(std::max(0.0, 3 - std::log10(digit))))
                                       : fmt::format("{:.2f} Ω", ohm));
      before = at;
      const double next = t + random.between(0.6, 15);
      logarithm -= random.between(1010, 7990) * (1 / (t + 273.15) - 1 / (next + 273.15));
      t = next;
    }
    const std::string part =
        fmt::format(R"("kind": "ntc", "name": "Sensor", "model": {{ "kind": "table", "rows": [{}] }})", rows);
    ASSERT_FALSE(finds(part, {"ntc-rises", "ntc-b-impossible", "row-temperature-twice"})) << part;
  }
}

// Every resistance at the cold end, tried in small steps, and every temperature.
bool a_winding_exists(double k, double low, double high, double cold, double hot) {
  constexpr int steps = 200;
  for (int i = 0; i <= steps; ++i) {
    const double r = low + (high - low) * i / steps;
    bool keeps = true;
    for (int j = 0; j <= steps && keeps; ++j) {
      const double there = r * (k + cold + (hot - cold) * j / steps) / (k + cold);
      keeps = low <= there && there <= high;
    }
    if (keeps) return true;
  }
  return false;
}

TEST(Impossible, winding) {
  test::Chance random(20200229);
  int none = 0;
  constexpr int cases = test::cases(1000);
  for (int i = 0; i < cases; ++i) {
    const double k = random.between(225, 245), cold = random.between(-30, 30),
                 hot = cold + random.between(1, 90);
    const double nominal = random.between(1, 900), share = random.between(0.005, 0.2);
    const bool exists = a_winding_exists(k, nominal * (1 - share), nominal * (1 + share), cold, hot);
    none += !exists;
    const std::string part = fmt::format(
        R"("kind": "winding", "name": "Winding", "connection": "single", "model": {{ "kind": "copper", "k": "{:.9f} K",
           "resistance": "{:.9f} Ω", "tolerance": "{:.9f} %", "at": "{:.9f} °C to {:.9f} °C" }})",
        k, nominal, 100 * share, cold, hot);
    ASSERT_EQ(finds(part, {"copper-band-impossible"}), !exists) << part;
  }
  EXPECT_GT(none, cases / 10);
  EXPECT_LT(none, cases * 9 / 10);
}

std::string digits(double ohm, int count) {
  const double digit = std::pow(10, std::floor(std::log10(ohm)) - (count - 1));
  const double rounded = std::round(ohm / digit) * digit;
  return digit >= 1000
             ? fmt::format("{:.0f} kΩ", rounded / 1000)
             : fmt::format("{:.{}f} Ω", rounded, static_cast<int>(std::max(0.0, -std::log10(digit) + 0.01)));
}

// Tests of one real sensor, written as people write them, beside the beta model that its maker would state: B
// drifts as far as the limits let it, the leads add up to an ohm, and nothing may be called impossible.
TEST(Impossible, tests_of_a_real_sensor_are_not) {
  test::Chance random(20200229);
  for (int i = 0; i < 2000; ++i) {
    const double s = random.whole(0, 2) == 0 ? -3 : random.whole(0, 1) == 0 ? 9 : random.between(-3, 9);
    const double b = random.between(2800, 4500), r = std::exp(random.between(7.5, 11.5));
    const auto logarithm = [&](double t) {
      // dy/dx = B + s (T - 300 K)
      const double x = 1 / (t + 273.15), x_25 = 1 / 298.15;
      return std::log(r) + (b - 300 * s) * (x - x_25) + s * std::log(x / x_25);
    };
    const auto b_between = [&](double low, double high) {
      return (logarithm(low) - logarithm(high)) / (1 / (low + 273.15) - 1 / (high + 273.15));
    };
    const double high = random.whole(0, 1) == 0 ? 85 : 50;
    std::string tests;
    for (int test = 0; test < 4; ++test) {
      const double t = std::round(-20 + 33 * test + random.between(0, 30));
      const double ohm = std::exp(logarithm(t)) + random.between(0, 1);
      const double below = ohm * (1 - random.between(0.001, 0.05)),
                   above = ohm * (1 + random.between(0.001, 0.05));
      tests += fmt::format(R"({}"t{}": {{ "component": "sensor", "unplug": "X1", "probes": ["X1.1", "X1.2"],
          "side": "at_component", "expect": {{ "kind": "band", "min": "{}", "max": "{}", "at": "{:.0f} °C" }} }})",
                           test == 0 ? "" : ", ", test, digits(below, 3), digits(above, 3), t);
    }
    const std::string text = fmt::format(
        R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "random", "revision": 1,
      "appliance": {{ "maker": "Orrinvale", "models": ["Larch"], "type": "combination_boiler", "fuel": "natural_gas",
        "controller": {{ "part": "OV-1" }} }},
      "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "fused spur" }}] }},
      "sources": {{ "s": {{ "kind": "calculation", "method": "random" }} }}, "source": {{ "from": "s" }},
      "connectors": {{ "X1": {{ "label": "X1", "ways": 2, "circuit": "selv", "pins": {{ "1": {{}}, "2": {{}} }} }} }},
      "components": {{ "sensor": {{ "kind": "ntc", "name": "Sensor", "between": ["X1.1", "X1.2"], "model": {{
        "kind": "beta", "resistance": "{}", "at": "25 °C", "tolerance": "1 %", "b_value": "{:.0f} K",
        "b_between": "25 °C to {:.0f} °C", "b_tolerance": "1 %" }} }} }},
      "tests": {{ {} }} }})",
        digits(r, 3), b_between(25, high), high, tests);
    for (const Finding& finding : lint_text("random.profile.json", text))
      ASSERT_NE(finding.severity, Severity::error) << finding.rule << ": " << finding.message << '\n' << text;
  }
}

}
}
