// A resistance model as a document gives it.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string_view>

#include "ohmlore/bands.h"
#include "ohmlore/document.h"

namespace ohmlore::test {

/// A model read from JSON, so that its numbers are those that a document gives.
class Model {
public:
  explicit Model(std::string_view members)
      : read_(read_json("test.part.json",
                        fmt::format(R"({{"format": "ohmlore/1.0", "kind": "part", "id": "p", "revision": 1,
                                        "sources": {{"s": {{"kind": "standard", "title": "t"}}}},
                                        "source": {{"from": "s"}},
                                        "component": {{"kind": "resistor", "name": "n", "model": {{{}}}}}}})",
                                    members))) {
    EXPECT_TRUE(read_.findings.empty()) << members << ": " << read_.findings.front().message;
  }
  const Resistance_model& operator*() const { return *read_.document.part()->component.model; }
  std::optional<Interval> at(const char* celsius, Taken taken = Taken::literally) const {
    return at(celsius, celsius, taken);
  }
  std::optional<Interval> at(const char* low, const char* high, Taken taken = Taken::literally) const {
    return model_interval(**this, {kelvin(low), kelvin(high)}, taken);
  }
  std::optional<double> nominal(const char* celsius) const {
    return nominal_resistance(**this, kelvin(celsius));
  }

  static double kelvin(const char* celsius) {
    return parse_quantity(fmt::format("{} °C", celsius), Dimension::temperature).value.value().si;
  }

private:
  Read_result read_;
};

}
