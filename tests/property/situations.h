// Fault situations: a profile whose one fault has up to 8 suspects, and what a meter reads in each of its
// tests.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace ohmlore::test {

/// What lies between the leads of a test: parts in series, and the wires of a plug where it is read there.
struct Between_leads {
  std::vector<std::string> parts;
  std::string plug; ///< empty: on the part itself
};
struct Truth {
  std::string culprit; ///< a part, or a plug
  bool open = true;    ///< else shorted
};
struct Drafted_situation {
  std::string profile;
  std::map<std::string, Between_leads> tests;
  std::map<std::string, double> ohm; ///< of healthy parts
  std::vector<Truth> truths;         ///< what the fault suspects, one entry a failure

  /// By the sum of resistances; empty is an open path.
  std::optional<double> reading(const std::string& test, const Truth& truth) const {
    const Between_leads& between = tests.at(test);
    if (between.plug == truth.culprit) return truth.open ? std::nullopt : std::optional(0.0);
    double sum = 0;
    for (const std::string& part : between.parts) {
      if (part != truth.culprit)
        sum += ohm.at(part);
      else if (truth.open)
        return std::nullopt;
    }
    return sum;
  }
};

struct Situation_writer {
  std::mt19937& random;
  bool mixed; ///< tests of unlike effort
  std::string connectors = {}, components = {}, circuits = {}, tests = {};
  std::vector<std::string> suspects = {};
  std::vector<std::vector<Truth>> truths = {}; ///< by suspect
  Drafted_situation made = {};
  int parts = 0, plugs = 0;

  static void append(std::string& list, const std::string& one) { list += (list.empty() ? "" : ",\n") + one; }
  bool chance(unsigned in) { return random() % in == 0; }

  std::string part(const std::string& from, const std::string& to) {
    const std::string id = fmt::format("r{}", parts++);
    const double ohm = made.ohm[id] = static_cast<double>(50 + random() % 900);
    append(components,
           fmt::format(R"("{}": {{ "kind": "resistor", "name": "{}", {} "model": {{ "kind": "fixed",
      "resistance": "{} Ω", "tolerance": "5 %" }} }})",
                       id, id, from.empty() ? "" : fmt::format(R"("between": ["{}", "{}"],)", from, to),
                       ohm));
    return id;
  }
  std::string test(const std::string& component, const std::string& plug, const std::string& from,
                   const std::string& to, const char* side, const std::string& expect,
                   const std::vector<std::string>& between) {
    const std::string id = fmt::format("t_{}_{}_{}", component, from, side).substr(0, 60);
    std::string clean;
    for (const char c : id) clean += c == '.' ? '_' : c;
    const char* efforts[] = {"low", "low", "medium", "high"};
    append(tests, fmt::format(
                      R"("{}": {{ "component": "{}", "unplug": "{}", "probes": ["{}", "{}"], "side": "{}",
      {} "excludes": ["open", "short"], "effort": "{}" }})",
                      clean, component, plug, from, to, side, expect, mixed ? efforts[random() % 4] : "low"));
    made.tests[clean] = {between, std::string(side) == "at_board_plug" ? plug : std::string()};
    return clean;
  }
  void suspect(const char* kind, const char* key, const std::string& id, const std::string& decided_by) {
    static const char* const modes[] = {R"("open")", R"("short")", R"("open", "short")"};
    const std::size_t which = random() % 3;
    suspects.push_back(fmt::format(R"({{ "kind": "{}", "{}": "{}", "modes": [{}], "decided_by": [{}] }})",
                                   kind, key, id, modes[which], decided_by));
    truths.emplace_back();
    if (which != 1) truths.back().push_back({id, true});
    if (which != 0) truths.back().push_back({id, false});
  }
  std::string connector(int pins) {
    const std::string id = fmt::format("X{}", ++plugs);
    std::string list;
    for (int i = 1; i <= pins; ++i) append(list, fmt::format(R"("{}": {{}})", i));
    append(connectors,
           fmt::format(R"("{}": {{ "label": "{}", "ways": {}, "circuit": "selv", "pins": {{ {} }} }})", id,
                       id, pins, list));
    return id;
  }

  // Parts on one connector, each with a test, and perhaps its wires.
  void side_by_side(unsigned count) {
    const std::string plug = connector(static_cast<int>(2 * count));
    for (unsigned i = 0; i < count; ++i) {
      const std::string from = fmt::format("{}.{}", plug, 2 * i + 1),
                        to = fmt::format("{}.{}", plug, 2 * i + 2);
      const std::string id = part(from, to), at_plug = test(id, plug, from, to, "at_board_plug", "", {id});
      suspect("component", "component", id, fmt::format("\"{}\"", at_plug));
      if (count > 1 || chance(2)) continue;
      const std::string at_part = test(id, plug, from, to, "at_component", "", {id});
      suspect("harness", "connector", plug, fmt::format(R"("{}", "{}")", at_plug, at_part));
    }
  }
  // Parts in series: one test for all, one for each.
  void chain(unsigned count) {
    const std::string plug = connector(2), from = plug + ".1", to = plug + ".2";
    std::vector<std::string> ids;
    std::string elements;
    for (unsigned i = 0; i < count; ++i) {
      ids.push_back(part("", ""));
      append(elements, fmt::format(R"({{ "kind": "component", "component": "{}" }})", ids.back()));
    }
    append(circuits,
           fmt::format(R"("c{}": {{ "between": ["{}", "{}"], "arrangement": "series", "elements": [{}] }})",
                       plugs, from, to, elements));
    const std::string all =
        test(ids[0], plug, from, to, "at_board_plug",
             fmt::format(R"("expect": {{ "kind": "band", "min": "{} Ω", "max": "{} Ω" }},)", 40 * count,
                         1000 * count),
             ids);
    for (const std::string& id : ids) {
      const bool alone = !chance(4);
      const std::string own = alone ? test(id, plug, from, to, "at_component", "", {id}) : std::string();
      suspect("component", "component", id,
              alone ? fmt::format(R"("{}", "{}")", all, own) : fmt::format("\"{}\"", all));
    }
  }
};

inline Drafted_situation situation(std::mt19937& random, bool mixed) {
  Situation_writer draft{random, mixed};
  const std::size_t wanted = 3 + random() % 6; // 3 to 8
  while (draft.suspects.size() < wanted) {
    const auto room = static_cast<unsigned>(wanted - draft.suspects.size());
    if (room >= 2 && random() % 2 == 0)
      draft.chain(2 + static_cast<unsigned>(random() % std::min(room - 1, 3u)));
    else
      draft.side_by_side(1 + static_cast<unsigned>(random() % std::min(room, 3u)));
    if (draft.suspects.size() + 1 < wanted && draft.chance(6)) {
      draft.suspects.push_back(R"({ "kind": "cause", "cause": "air", "not_decidable": "hydraulic" })");
      draft.truths.emplace_back();
    }
  }
  draft.suspects.resize(std::min<std::size_t>(draft.suspects.size(), 8));
  draft.truths.resize(draft.suspects.size());
  for (const auto& truths : draft.truths)
    draft.made.truths.insert(draft.made.truths.end(), truths.begin(), truths.end());
  std::shuffle(draft.suspects.begin(), draft.suspects.end(), random);
  std::string suspects;
  for (const std::string& one : draft.suspects) Situation_writer::append(suspects, one);
  draft.made.profile =
      fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "example", "revision": 1,
    "connectors": {{ {} }}, "components": {{ {} }}, {} "tests": {{ {} }},
    "faults": {{ "F": {{ "display": {{ "kind": "text", "text": "F" }}, "meaning": "m", "suspects": [{}] }} }} }})",
                  draft.connectors, draft.components,
                  draft.circuits.empty() ? "" : fmt::format(R"("circuits": {{ {} }},)", draft.circuits),
                  draft.tests, suspects);
  return draft.made;
}

}
