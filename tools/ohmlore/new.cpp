// ohmlore new: a skeleton to fill in.
#include <cstdio>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/text.h"

namespace {

constexpr std::string_view profile_skeleton = R"json({{
  "format": "ohmlore/1.0",
  "kind": "profile",
  "id": "{id}",
  "revision": 1,
  "appliance": {{
    "maker": "name the maker",
    "models": ["name the model, as on the rating plate"],
    "type": "combination_boiler",
    "fuel": "natural_gas",
    "controller": {{ "part": "part number of the control board" }}
  }},
  "safety": {{
    "supplies": [
      {{ "kind": "mains", "isolate_at": "say where it is isolated and locked off" }}
    ]
  }},
  "sources": {{
    "notes": {{ "kind": "maker_document", "title": "title of the document", "edition": "1", "date": "2024-01" }}
  }},
  "source": {{ "from": "notes" }},
  "connectors": {{
    "X1": {{
      "label": "X1",
      "where": "say where on the board",
      "ways": 2,
      "circuit": "selv",
      "pins": {{
        "1": {{ "signal": "flow sensor", "wire": {{ "base": "BK" }} }},
        "2": {{ "signal": "flow sensor", "wire": {{ "base": "BK" }} }}
      }}
    }}
  }},
  "components": {{
    "flow_sensor": {{
      "kind": "ntc",
      "name": "Flow temperature sensor",
      "where": "say where to find it",
      "between": ["X1.1", "X1.2"],
      "model": {{
        "kind": "beta",
        "resistance": "10.0 kΩ",
        "at": "25 °C",
        "tolerance": "2 %",
        "b_value": "3977 K",
        "b_between": "25 °C to 85 °C",
        "b_tolerance": "1 %"
      }},
      "service_limit": "3 K"
    }}
  }},
  "tests": {{
    "flow_sensor_resistance": {{
      "component": "flow_sensor",
      "unplug": "X1",
      "probes": ["X1.1", "X1.2"],
      "side": "at_board_plug",
      "response": {{ "kind": "falls_when_warmed", "how": "warm the sensor in the hand" }},
      "excludes": ["open", "short", "drift_high", "drift_low"]
    }}
  }},
  "faults": {{
    "F1": {{
      "display": {{ "kind": "text", "text": "F1" }},
      "meaning": "flow sensor out of range",
      "suspects": [
        {{
          "kind": "component",
          "component": "flow_sensor",
          "modes": ["open", "short"],
          "decided_by": ["flow_sensor_resistance"]
        }},
        {{ "kind": "harness", "connector": "X1", "modes": ["open"] }}
      ]
    }}
  }}
}}
)json";

constexpr std::string_view part_skeleton = R"json({{
  "format": "ohmlore/1.0",
  "kind": "part",
  "id": "{id}",
  "revision": 1,
  "title": "say what it is",
  "sources": {{
    "notes": {{ "kind": "maker_document", "title": "title of the document", "edition": "1", "date": "2024-01" }}
  }},
  "source": {{ "from": "notes" }},
  "component": {{
    "kind": "ntc",
    "name": "Temperature sensor",
    "model": {{
      "kind": "beta",
      "resistance": "10.0 kΩ",
      "at": "25 °C",
      "tolerance": "2 %",
      "b_value": "3977 K",
      "b_between": "25 °C to 85 °C",
      "b_tolerance": "1 %"
    }},
    "service_limit": "3 K"
  }}
}}
)json";

struct Options {
  std::string kind;
  std::string id;
};

int write_skeleton(const Options& options) {
  const bool profile = options.kind == "profile";
  const std::string id = options.id.empty() ? "new-" + options.kind : options.id;
  if (!ohmlore::is_id(id)) {
    fmt::print(
        stderr,
        "ohmlore: `{}` is not an id: letters, digits, `_` and `-`, beginning with a letter or digit, at "
        "most 64\n",
        ohmlore::printable(id));
    return 2;
  }
  const std::string text =
      fmt::format(fmt::runtime(profile ? profile_skeleton : part_skeleton), fmt::arg("id", id));
  fmt::print("{}", text);
  fmt::print(stderr, "Save it as {0}.{1}.json, fill it in, then run: ohmlore lint {0}.{1}.json\n", id,
             options.kind);
  return 0;
}

}

void add_new(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("new", "Print a skeleton of a profile or part, to be filled in");
  command->add_option("KIND", options->kind, "profile (one control board) or part (a component type)")
      ->type_name("")
      ->required()
      ->check(one_of({"profile", "part"}));
  command
      ->add_option("ID", options->id,
                   "identity of the document and stem of its file name, for example orrinvale-ov4410")
      ->type_name("");
  command->footer("Example: ohmlore new profile orrinvale-ov4410 > orrinvale-ov4410.profile.json");
  command->callback([options, &status] { status = write_skeleton(*options); });
}
