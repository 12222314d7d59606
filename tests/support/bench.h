// A board with a part of each kind that is judged, and the shortest way to a verdict on a reading.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "ohmlore/document.h"
#include "ohmlore/judge.h"

namespace ohmlore::test {

inline constexpr std::string_view bench_profile = R"({
  "format": "ohmlore/1.0", "kind": "profile", "id": "bench", "revision": 1,
  "appliance": { "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
                 "controller": { "part": "OV-4410" } },
  "safety": { "supplies": [{ "kind": "mains", "isolate_at": "fused spur" }],
              "hazards": [{ "kind": "stored_charge", "where": ["X6.1", "X6.2"], "wait": "5 min", "verify_below": "50 V dc" }] },
  "sources": { "s": { "kind": "common_practice", "note": "invented" } }, "source": { "from": "s" },
  "connectors": {
    "X4": { "label": "X4", "ways": 8, "circuit": "selv",
            "pins": { "1": {}, "2": {}, "3": {}, "4": {}, "5": {}, "6": {}, "7": {}, "8": {} } },
    "X5": { "label": "X5", "ways": 4, "circuit": "mains", "pins": { "1": {}, "2": {}, "3": {}, "4": { "circuit": "protective_earth" } } },
    "X6": { "label": "X6", "ways": 2, "circuit": "mains", "pins": { "1": {}, "2": {} } }
  },
  "components": {
    "flow": { "kind": "ntc", "name": "Flow sensor", "between": ["X4.1", "X4.2"], "service_limit": "3 K",
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" } },
    "return": { "kind": "ntc", "name": "Return sensor", "between": ["X4.3", "X4.2"],
      "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C" } },
    "tank": { "kind": "ntc", "name": "Tank sensor", "between": ["X4.7", "X4.8"],
      "model": { "kind": "beta", "resistance": "12 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3435 K", "b_between": "25 °C to 85 °C" } },
    "coil": { "kind": "coil", "name": "Valve coil", "between": ["X4.4", "X4.5"], "metal": "copper", "drive": "dc", "suppression": "none",
      "model": { "kind": "copper", "resistance": "43 Ω", "at": "20 °C", "tolerance": "5 %" } },
    "pump": { "kind": "winding", "name": "Pump", "terminals": { "start": "X5.1", "common": "X5.2", "run": "X5.3" },
      "connection": "start_run", "metal": "copper",
      "model": { "kind": "copper", "at": "20 °C", "tolerance": "10 %", "pairs": [
        { "from": "common", "to": "start", "resistance": "44 Ω" }, { "from": "common", "to": "run", "resistance": "16 Ω" },
        { "from": "start", "to": "run", "resistance": "60 Ω" }] } },
    "stat": { "kind": "switch", "name": "Limit", "between": ["X4.6", "X4.2"], "contacts": "nc", "states": { "cold": "closed", "hot": "open" } },
    "fan": { "kind": "electronic", "name": "Fan", "between": ["X6.1", "X6.2"] }
  },
  "tests": {
    "flow": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "response": { "kind": "falls_when_warmed" }, "excludes": ["open", "short", "drift_high", "drift_low"] },
    "return": { "component": "return", "unplug": "X4", "probes": ["X4.3", "X4.2"], "side": "at_board_plug", "excludes": ["open", "short"] },
    "twins": { "component": "flow", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug",
      "expect": { "kind": "pair", "with": "return", "largest_difference": "2 K" }, "excludes": ["drift_high", "drift_low"] },
    "tank": { "component": "tank", "unplug": "X4", "probes": ["X4.7", "X4.8"], "side": "at_board_plug", "excludes": ["open"] },
    "coil": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"], "side": "at_board_plug", "excludes": ["open", "short"] },
    "pump_cs": { "component": "pump", "unplug": "X5", "probes": ["X5.2", "X5.1"], "side": "at_board_plug", "excludes": ["open", "short"] },
    "pump_cr": { "component": "pump", "unplug": "X5", "probes": ["X5.2", "X5.3"], "side": "at_board_plug", "excludes": ["open", "short"] },
    "pump_sr": { "component": "pump", "unplug": "X5", "probes": ["X5.1", "X5.3"], "side": "at_board_plug", "excludes": ["open"] },
    "pump_earth": { "component": "pump", "unplug": "X5", "probes": ["X5.2", "X5.4"], "side": "at_board_plug",
      "expect": { "kind": "open", "above": "2 MΩ" }, "excludes": ["leakage_to_earth"] },
    "stat": { "component": "stat", "unplug": "X4", "probes": ["X4.6", "X4.2"], "side": "at_board_plug", "condition": "cold",
      "excludes": ["open", "stuck_open", "high_contact_resistance"] },
    "fan": { "component": "fan", "unplug": "X6", "probes": ["X6.1", "X6.2"], "positive": "X6.1", "side": "at_board_plug",
      "expect": { "kind": "not_short", "above": "20 Ω" }, "excludes": ["short"] },
    "band": { "component": "coil", "unplug": "X4", "probes": ["X4.4", "X4.5"], "side": "at_board_plug",
      "expect": { "kind": "band", "min": "40 Ω", "max": "46 Ω", "at": "20 °C" }, "excludes": ["open"] }
  }
})";

/// The same board, something in it said otherwise.
inline std::string bench_with(std::string_view old, std::string_view by) {
  std::string profile(bench_profile);
  profile.replace(profile.find(old), old.size(), by);
  return profile;
}

/// The same board with a turbine's reed contact in the place of "stat", and a code that suspects it.
inline std::string reed_profile() {
  std::string profile(bench_profile);
  const auto put = [&](std::string_view old, std::string_view text) {
    profile.replace(profile.find(old), old.size(), text);
  };
  put(R"("contacts": "nc", "states": { "cold": "closed", "hot": "open" })",
      R"("contacts": "no", "pulse": true)");
  put(R"("condition": "cold",
      "excludes": ["open", "stuck_open", "high_contact_resistance"])",
      R"("expect": { "kind": "closed", "below": "2 Ω" },
      "response": { "kind": "toggles_with_magnet" }, "excludes": ["stuck_open", "stuck_closed"])");
  put(R"("tests": {)",
      R"("faults": { "E5": { "display": { "kind": "text", "text": "E5" }, "meaning": "no flow seen", "suspects": [
    { "kind": "component", "component": "stat", "modes": ["stuck_open", "stuck_closed"], "decided_by": ["stat"] }] } },
  "tests": {)");
  return profile;
}

/// Closed, it reads 330 Ω.
inline std::string reed_profile_with_resistor(std::string_view expect) {
  std::string profile = reed_profile();
  const std::string_view pulse = R"("pulse": true)", closed = R"({ "kind": "closed", "below": "2 Ω" })";
  profile.replace(profile.find(pulse), pulse.size(), R"("pulse": true, "series_resistance": "330 Ω")");
  profile.replace(profile.find(closed), closed.size(), expect);
  return profile;
}

/// The same board with a dial of 12 kΩ in the place of "stat", and a code that suspects it.
inline std::string dial_profile() {
  std::string profile(bench_profile);
  const auto put = [&](std::string_view old, std::string_view text) {
    profile.replace(profile.find(old), old.size(), text);
  };
  put(R"("kind": "switch", "name": "Limit")", R"("kind": "potentiometer", "name": "Dial")");
  put(R"(, "contacts": "nc", "states": { "cold": "closed", "hot": "open" })", "");
  put(R"("condition": "cold",)",
      R"("expect": { "kind": "smooth_sweep", "min": "0 Ω", "max": "12 kΩ" }, "response": { "kind": "smooth_sweep" },)");
  put(R"(["open", "stuck_open", "high_contact_resistance"])", R"(["open", "high_contact_resistance"])");
  put(R"("tests": {)",
      R"("faults": { "E7": { "display": { "kind": "text", "text": "E7" }, "meaning": "dial", "suspects": [
    { "kind": "component", "component": "stat", "modes": ["open", "high_contact_resistance"], "decided_by": ["stat"] }] } },
  "tests": {)");
  return profile;
}

/// Keeps the profile alive that its verdicts come from.
class Bench {
public:
  explicit Bench(std::string_view profile = bench_profile) : read_(read_json("bench.profile.json", profile)) {
    for (const Finding& finding : read_.findings)
      if (finding.severity == Severity::error) ADD_FAILURE() << finding.message;
    resolved_ = resolve(read_.document, {});
  }
  const Resolved& resolved() const { return resolved_; }
  Judge_means means;

  static Reading reading(std::string_view text) {
    std::string problem;
    const auto read = parse_reading(text, problem);
    EXPECT_TRUE(read) << text << ": " << problem;
    return read.value_or(Reading{});
  }
  static Judge_request request(std::string_view test, std::string_view shown,
                               std::string_view temperature = {}) {
    Judge_request request;
    request.test = std::string(test);
    request.reading = reading(shown);
    std::string problem;
    if (!temperature.empty()) {
      request.temperature = parse_part_temperature(temperature, problem);
      EXPECT_TRUE(request.temperature) << temperature << ": " << problem;
    }
    return request;
  }
  Verdict verdict(std::span<const Judge_request> requests) const { return judge(resolved_, requests, means); }
  Judgement of(const Judge_request& request) const {
    const Verdict found = verdict({&request, 1});
    for (const std::string& problem : found.problems) ADD_FAILURE() << problem;
    return found.judgements.empty() ? Judgement{} : found.judgements[0];
  }
  Judgement of(std::string_view test, std::string_view shown, std::string_view temperature = {}) const {
    return of(request(test, shown, temperature));
  }

private:
  Read_result read_;
  Resolved resolved_;
};

}
