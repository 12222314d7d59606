// What a contributor begins with. Texts to be replaced stand in angle brackets: a rule finds those that were
// left. Numbers may be right as they stand: the page that is asked for beside them says that somebody looked.
#include "ohmlore/publish.h"
#include "ohmlore/text.h"

namespace ohmlore {
namespace {

constexpr std::string_view profile_skeleton = R"json({
  "format": "<format>",
  "kind": "profile",
  "id": "<id>",
  "revision": 1,
  "appliance": {
    "maker": "<maker>",
    "models": ["<model, as on the rating plate>"],
    "type": "combination_boiler",
    "fuel": "natural_gas",
    "controller": { "part": "<part number of the control board>" }
  },
  "safety": {
    "supplies": [
      { "kind": "mains", "isolate_at": "<where it is isolated and locked off>" }
    ]
  },
  "sources": {
    "notes": { "kind": "maker_document", "title": "<title of the document>", "edition": "<edition>" }
  },
  "source": { "from": "notes" },
  "connectors": {
    "X1": {
      "label": "X1",
      "where": "<where on the board>",
      "ways": 2,
      "circuit": "selv",
      "pins": {
        "1": { "signal": "flow sensor", "wire": { "base": "BK" } },
        "2": { "signal": "flow sensor", "wire": { "base": "BK" } }
      }
    }
  },
  "components": {
    "flow_sensor": {
      "kind": "ntc",
      "name": "Flow temperature sensor",
      "where": "<where to find it>",
      "between": ["X1.1", "X1.2"],
      "model": {
        "kind": "beta",
        "resistance": "10.0 kΩ",
        "at": "25 °C",
        "tolerance": "2 %",
        "b_value": "3977 K",
        "b_between": "25 °C to 85 °C",
        "b_tolerance": "1 %"
      },
      "service_limit": "3 K",
      "source": { "from": "notes", "page": "<page that states these numbers>" }
    }
  },
  "tests": {
    "flow_sensor_resistance": {
      "component": "flow_sensor",
      "unplug": "X1",
      "probes": ["X1.1", "X1.2"],
      "side": "at_board_plug",
      "response": { "kind": "falls_when_warmed", "how": "warm the sensor in the hand" },
      "excludes": ["open", "short", "drift_high", "drift_low"]
    }
  },
  "faults": {
    "F1": {
      "display": { "kind": "text", "text": "F1" },
      "meaning": "flow sensor out of range",
      "suspects": [
        {
          "kind": "component",
          "component": "flow_sensor",
          "modes": ["open", "short"],
          "decided_by": ["flow_sensor_resistance"]
        },
        { "kind": "harness", "connector": "X1", "modes": ["open"] }
      ],
      "source": { "from": "notes", "page": "<page that lists this code>" }
    }
  }
}
)json";

constexpr std::string_view part_skeleton = R"json({
  "format": "<format>",
  "kind": "part",
  "id": "<id>",
  "revision": 1,
  "title": "<what it is>",
  "sources": {
    "notes": { "kind": "maker_document", "title": "<title of the document>", "edition": "<edition>" }
  },
  "source": { "from": "notes" },
  "component": {
    "kind": "ntc",
    "name": "Temperature sensor",
    "model": {
      "kind": "beta",
      "resistance": "10.0 kΩ",
      "at": "25 °C",
      "tolerance": "2 %",
      "b_value": "3977 K",
      "b_between": "25 °C to 85 °C",
      "b_tolerance": "1 %"
    },
    "service_limit": "3 K",
    "source": { "from": "notes", "page": "<page that states these numbers>" }
  }
}
)json";

constexpr std::string_view corpus_skeleton = R"json({
  "format": "<format>",
  "kind": "corpus",
  "title": "<what the corpus holds>",
  "licence": "<licence of the data, as SPDX names it>",
  "policy": { "fail_on": "error", "service_limit": "3 K" },
  "meter": { "accuracy": "0.8 %", "counts": 3, "display_counts": 6000, "leads": "0.3 Ω" }
}
)json";

std::string_view skeleton_of(Document_kind kind) {
  switch (kind) {
  case Document_kind::profile: return profile_skeleton;
  case Document_kind::part: return part_skeleton;
  case Document_kind::corpus: return corpus_skeleton;
  }
  return profile_skeleton;
}

}

std::string skeleton(Document_kind kind, std::string_view id) {
  std::string text(skeleton_of(kind));
  const auto fill_in = [&](std::string_view placeholder, std::string_view word) {
    if (const std::size_t at = text.find(placeholder); at != text.npos)
      text.replace(at, placeholder.size(), word);
  };
  fill_in("<format>", format_tag);
  if (is_id(id)) fill_in("<id>", id);
  return text;
}

}
