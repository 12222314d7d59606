// A profile as one line. What is expected follows from the words of ohmlore/exchange.h and spec/v1/format.md;
// the numbers in SI are 0 °C = 273.15 K and the prefix k = 1000.
#include <gtest/gtest.h>

#include <string>

#include "ohmlore/exchange.h"
#include "ohmlore/resolve.h"

namespace ohmlore {
namespace {

const std::string sensor =
    R"({ "format": "ohmlore/1.0", "kind": "part", "id": "ntc", "revision": 1, "title": "Sensor",
  "sources": { "sheet": { "kind": "standard", "title": "Sheet" } }, "source": { "from": "sheet" },
  "component": { "kind": "ntc", "name": "Sensor", "x_bin": [1.50, true, null, { "a": {}, "b": 1 }], "x_shelf": "B",
    "temperature_range": "-20 °C to 110 °C", "service_limit": "+3 K -2 K",
    "model": { "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "b_value": "3977 K",
      "b_between": "25 °C to 85 °C" } } })";

std::string profile(const std::string& sources, const std::string& components) {
  return R"({ "x_a": [], "format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1,
  "appliance": { "maker": "Orrinvale", "models": ["Larch"], "type": "hybrid", "fuel": "oil",
    "controller": { "part": "ntc", "issues": [] } },
  "safety": { "supplies": [{ "kind": "mains", "isolate_at": "spur" }], "hazards": [] },
  )" + sources +
         R"("components": { )" + components + " } }";
}

// From the components on.
std::string line_of(const std::string& json, const std::string& part = sensor) {
  Parts parts;
  Read_result read = read_json("ntc", part);
  EXPECT_TRUE(read.findings.empty());
  parts.add(std::move(read.document));
  const std::string line = jsonl_of(read_json("p", json), {nullptr, &parts, nullptr});
  const std::string begin =
      R"({"format":"ohmlore/1.0","kind":"profile","id":"p","revision":1,)"
      R"("appliance":{"maker":"Orrinvale","models":["Larch"],"type":"hybrid","fuel":"oil",)"
      R"("controller":{"part":"ntc","issues":[]}},)"
      R"("safety":{"supplies":[{"kind":"mains","isolate_at":"spur"}],"hazards":[]},"components":{)";
  EXPECT_TRUE(line.starts_with(begin)) << line;
  return line.substr(std::min(begin.size(), line.size()));
}

const std::string model_of_part =
    R"("model":{"kind":"beta","resistance":"10 kΩ","resistance_si":10000,"resistance_unit":"Ω",)"
    R"("at":"25 °C","at_si":298.15,"at_unit":"K","b_value":"3977 K","b_value_si":3977,"b_value_unit":"K",)"
    R"("b_between":"25 °C to 85 °C","b_between_low":298.15,"b_between_high":358.15,"b_between_unit":"K",)"
    R"("source":{"from":"ntc/sheet"}},)";

}

TEST(Jsonl, has_the_part_beneath_what_a_component_says_itself) {
  EXPECT_EQ(line_of(profile("", R"("s": { "kind": "ntc", "name": "Flow", "part": "ntc", "x_shelf": "A",
                                    "service_limit": "3 K" })")),
            R"("s":{"kind":"ntc","name":"Flow","part":"ntc","service_limit":"3 K","service_limit_minus":3,)"
            R"("service_limit_plus":3,"service_limit_unit":"K",)" +
                model_of_part +
                R"("temperature_range":"-20 °C to 110 °C","temperature_range_low":253.15,)"
                R"("temperature_range_high":383.15,"temperature_range_unit":"K",)"
                R"("x_bin":[1.50,true,null,{"a":{},"b":1}],"x_shelf":"A"}},)"
                R"("sources":{"ntc/sheet":{"kind":"standard","title":"Sheet"}},"x_a":[]})"
                "\n");
}

TEST(Jsonl, has_sources_of_both) {
  EXPECT_EQ(
      line_of(profile(
          R"("sources": { "own": { "kind": "standard", "title": "Own" } },)",
          R"("w": { "kind": "heater", "name": "Wire" }, "t": { "kind": "ntc", "name": "Return", "source": { "from": "own", "page": "7" },
                                      "part": "ntc", "temperature_range": "0 °C to 90 °C" })")),
      R"("w":{"kind":"heater","name":"Wire"},"t":{"kind":"ntc","name":"Return","part":"ntc","temperature_range":"0 °C to 90 °C",)"
      R"("temperature_range_low":273.15,"temperature_range_high":363.15,"temperature_range_unit":"K",)"
      R"("source":{"from":"own","page":"7"},)" +
          model_of_part +
          R"("service_limit":"+3 K -2 K","service_limit_minus":2,"service_limit_plus":3,)"
          R"("service_limit_unit":"K","x_bin":[1.50,true,null,{"a":{},"b":1}],"x_shelf":"B"}},)"
          R"("sources":{"own":{"kind":"standard","title":"Own"},)"
          R"("ntc/sheet":{"kind":"standard","title":"Sheet"}},"x_a":[]})"
          "\n");
}

TEST(Jsonl, has_the_nearest_source_of_a_part) {
  std::string json = sensor;
  json.insert(json.find("\"x_bin\""), R"("source": { "from": "sheet", "page": "2" }, )");
  const std::string line =
      line_of(profile("", R"("s": { "kind": "ntc", "name": "Flow", "part": "ntc" })"), json);
  EXPECT_NE(line.find(R"("b_between_unit":"K","source":{"from":"ntc/sheet","page":"2"}},)"),
            std::string::npos)
      << line;
}

TEST(Jsonl, has_no_sources_where_none_are_stated) {
  std::string json = sensor;
  const std::size_t begin = json.find("\"sources\"");
  json.erase(begin, json.find("\"component\"") - begin);
  const std::string line =
      line_of(profile("", R"("s": { "kind": "ntc", "name": "Flow", "part": "ntc" })"), json);
  EXPECT_TRUE(line.ends_with(R"("x_shelf":"B"}},"sources":{},"x_a":[]})"
                             "\n"))
      << line;
  EXPECT_EQ(
      line_of(profile(R"("sources": { "own": { "kind": "standard", "title": "Own" } },)",
                      R"("w": { "kind": "heater", "name": "Wire" })")),
      R"("w":{"kind":"heater","name":"Wire"}},"sources":{"own":{"kind":"standard","title":"Own"}},"x_a":[]})"
      "\n");
}

TEST(Jsonl, has_nothing_of_a_part_that_is_not_there) {
  const std::string heater =
      R"("u": { "kind": "heater", "name": "Element", "part": "none", "rated_power": "2 kW" })";
  const std::string line = R"("u":{"kind":"heater","name":"Element","part":"none","rated_power":"2 kW",)"
                           R"("rated_power_si":2000,"rated_power_unit":"W"}},"x_a":[]})"
                           "\n";
  EXPECT_EQ(line_of(profile("", heater)), line);
  EXPECT_TRUE(jsonl_of(read_json("p", profile("", heater)), {}).ends_with(line));
}

TEST(Jsonl, is_of_profiles_without_error) {
  EXPECT_EQ(jsonl_of(read_json("ntc", sensor), {}), "");
  EXPECT_EQ(jsonl_of(read_json("p", profile("", R"("s": { "kind": "ntc" })")), {}), "");
}

}
