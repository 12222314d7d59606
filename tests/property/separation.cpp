// Chains of resistors, in series and in parallel and within each other: what the matrix says of an open or
// shorted element beside what the chain then reads, by the sum of resistances and of conductances.
#include "ohmlore/separation.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

namespace ohmlore {
namespace {

struct Chain {
  bool series = true;
  std::vector<int> resistors; ///< by number
  std::vector<Chain> chains;
};

Chain random_chain(std::mt19937& random, std::vector<double>& ohm, int depth) {
  Chain chain;
  chain.series = random() % 2 == 0;
  const auto elements = 1 + random() % 3;
  for (unsigned long i = 0; i < elements; ++i) {
    if (depth > 0 && random() % 3 == 0) {
      chain.chains.push_back(random_chain(random, ohm, depth - 1));
    } else {
      chain.resistors.push_back(static_cast<int>(ohm.size()));
      ohm.push_back(std::uniform_real_distribution<double>(5, 1000)(random));
    }
  }
  return chain;
}

double reading(const Chain& chain, const std::vector<double>& ohm) {
  std::vector<double> parts;
  for (const int resistor : chain.resistors) parts.push_back(ohm[static_cast<std::size_t>(resistor)]);
  for (const Chain& inner : chain.chains) parts.push_back(reading(inner, ohm));
  double sum = 0, conductance = 0;
  for (const double part : parts) sum += part, conductance += 1 / part;
  return chain.series ? sum : 1 / conductance;
}

// The chain and those in it as circuits c0, c1 …; returns its number.
int write(const Chain& chain, std::string& circuits, int& count) {
  std::string elements;
  const auto comma = [&] { return elements.empty() ? "" : ", "; };
  for (const int resistor : chain.resistors)
    elements += fmt::format(R"({}{{ "kind": "component", "component": "r{}" }})", comma(), resistor);
  for (const Chain& inner : chain.chains) {
    const int number = write(inner, circuits, count);
    elements += fmt::format(R"({}{{ "kind": "circuit", "circuit": "c{}" }})", comma(), number);
  }
  circuits +=
      fmt::format(R"({}"c{}": {{ "arrangement": "{}", "elements": [{}] %BETWEEN% }})",
                  circuits.empty() ? "" : ", ", count, chain.series ? "series" : "parallel", elements);
  return count++;
}

TEST(Separation, agrees_with_what_chains_read) {
  std::mt19937 random(20260101);
  std::size_t sure[] = {0, 0}, cells[] = {0, 0}; // without and with models
  for (int round = 0; round < 2000; ++round) {
    const bool models = round % 2 == 1;
    std::vector<double> ohm;
    const Chain chain = random_chain(random, ohm, 3);
    if (ohm.size() > 30) continue;
    const double healthy = reading(chain, ohm), low = 0.95 * healthy, high = 1.05 * healthy;
    std::string circuits, components, suspects;
    int count = 0;
    write(chain, circuits, count);
    const std::string place = "%BETWEEN%", last = R"(, "between": ["X1.1", "X1.2"])";
    for (std::size_t at = circuits.find(place), left = static_cast<std::size_t>(count);
         at != std::string::npos; at = circuits.find(place))
      circuits.replace(at, place.size(), --left == 0 ? last : "");
    for (std::size_t i = 0; i < ohm.size(); ++i) {
      components +=
          fmt::format(R"({}"r{}": {{ "kind": "resistor", "name": "R{}" {} }})", i == 0 ? "" : ", ", i, i,
                      models ? fmt::format(R"(, "model": {{ "kind": "fixed", "resistance": "{:.6f} Ω",
                                              "tolerance": "0.1 %" }})",
                                           ohm[i])
                             : "");
      suspects += fmt::format(R"({}{{ "kind": "component", "component": "r{}", "modes": ["open", "short"],
                                     "decided_by": ["all"] }})",
                              i == 0 ? "" : ", ", i);
    }
    const Read_result read =
        read_json("example.profile.json", fmt::format(R"({{
      "format": "ohmlore/1.0", "kind": "profile", "id": "example", "revision": 1,
      "components": {{ {} }}, "circuits": {{ {} }},
      "tests": {{ "all": {{ "component": "r0", "probes": ["X1.1", "X1.2"], "side": "at_board_plug",
                            "expect": {{ "kind": "band", "min": "{} Ω", "max": "{} Ω" }} }} }},
      "faults": {{ "F": {{ "display": {{ "kind": "text", "text": "F" }}, "meaning": "m",
                           "suspects": [{}] }} }} }})",
                                                      components, circuits, low, high, suspects));
    ASSERT_NE(read.document.profile(), nullptr);
    const Separation found =
        separation(resolve(read.document, {}), read.document.profile()->faults.items[0].value);
    ASSERT_EQ(found.rows.size(), 2 * ohm.size()) << read.document.text();
    for (std::size_t i = 0; i < found.rows.size(); ++i) {
      std::vector<double> broken = ohm;
      broken[i / 2] = *found.rows[i].mode == Mode::open ? infinity : 0;
      const double truth = reading(chain, broken);
      const Cell& cell = found.rows[i].cells[0];
      SCOPED_TRACE(fmt::format("round {}, r{} {}: {} Ω, healthy {} Ω", round, i / 2, i % 2, truth, healthy));
      EXPECT_TRUE(cell.ohm.contains(truth)) << cell.ohm.low << " to " << cell.ohm.high;
      const bool passes = low <= truth && truth <= high;
      EXPECT_NE(cell.outcome, passes ? Outcome::fails : Outcome::passes);
      sure[models] += cell.outcome != Outcome::either;
      ++cells[models];
    }
  }
  // Not by saying "either" to all: where one element alone opens or shorts the whole, it must know, and with
  // the models of all elements nearly always (else the element hardly counts in the whole).
  EXPECT_GT(sure[0] * 3, cells[0]) << sure[0] << " of " << cells[0];
  EXPECT_GT(sure[1] * 10, cells[1] * 9) << sure[1] << " of " << cells[1];
}

}
}
