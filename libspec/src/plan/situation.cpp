#include "plan/situation.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "judge/asked.h"
#include "judge/modes.h"
#include "lint/contacts.h"
#include "lint/meter.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "model/names.h"
#include "plan/likelier.h"

namespace ohmlore {
namespace {

using namespace rules;

double& of(Showing_shares& shares, Showing shown) { return shares[static_cast<std::size_t>(shown)]; }

// How a reading that is not healthy looks.
Showing_shares abnormal(const Cell& cell, std::optional<Mode> mode, const std::optional<Interval>& band,
                        double highest_range) {
  using enum Showing;
  const double near_zero_ends = near_zero_at_most(band);
  Showing_shares shares = {};
  switch (cell.shows) {
  case Shows::open: of(shares, over_range) = 1; break;
  case Shows::near_zero:
    of(shares, lower) = cell.ohm.low > near_zero_ends ? 1 : cell.ohm.high > near_zero_ends ? 0.2 : 0;
    of(shares, near_zero) = 1 - of(shares, lower);
    break;
  case Shows::higher:
    if (mode) {
      const Opening opening = opening_of(*mode, cell, highest_range);
      of(shares, over_range) = opening == Opening::whole ? 0.5 : opening == Opening::with_another ? 0.05 : 0;
    }
    of(shares, higher) = 1 - of(shares, over_range);
    break;
  case Shows::lower:
    of(shares, lower) = cell.ohm.low <= near_zero_ends ? 0.8 : 1;
    if (mode == Mode::drift_low && band && drift_low_from(*band) >= near_zero_ends) of(shares, lower) = 1;
    of(shares, near_zero) = 1 - of(shares, lower);
    break;
  case Shows::unsteady:
    of(shares, unsteady) = 0.6;
    of(shares, over_range) = of(shares, higher) = 0.2;
    break;
  case Shows::healthy: of(shares, unsteady) = 1; break; // it does not answer as it should
  case Shows::anything:
    // Nothing shorted reads more than a healthy one; behind diodes a meter of low test voltage reads OL of
    // either.
    if (mode == Mode::short_) {
      of(shares, near_zero) = of(shares, lower) = 0.4;
      of(shares, over_range) = 0.2;
      break;
    }
    // Also that it jumps, or does not answer: a leak beside a sensor takes a part of its answer to warmth,
    // and wet contacts drift by themselves while they are read.
    for (const Showing shown : {over_range, near_zero, higher, lower, unsteady}) of(shares, shown) = 0.2;
    break;
  }
  return shares;
}

Text id_of(const Suspect& suspect) {
  return suspect.component   ? *suspect.component
         : suspect.connector ? *suspect.connector
         : suspect.cause     ? *suspect.cause
                             : Text();
}

// False of a component that appliances of this model do not have.
bool is_fitted(const Resolved_component* component, const std::optional<std::string>& model) {
  if (component == nullptr || component->placed == nullptr || !model) return true;
  const auto& models = component->placed->when.models;
  return models.empty() || names(models, *model);
}

// What the meter shows in one cell of a test that calls `band` healthy. `declared`: a healthy reading is said
// to exclude the mode.
Showing_shares shares_of(const Cell& cell, std::optional<Mode> mode, const std::optional<Interval>& band,
                         bool declared, double highest_range) {
  using enum Showing;
  Showing_shares shares = {};
  if (cell.outcome == Outcome::passes) {
    of(shares, Showing::healthy) = 1;
    return shares;
  }
  // Where the test sees it for certain and says so, no healthy reading hides it; else one in two does.
  const double seen = cell.outcome == Outcome::fails && declared ? 1 : 0.5;
  shares = abnormal(cell, mode, band, highest_range);
  for (double& share : shares) share *= seen;
  of(shares, Showing::healthy) = 1 - seen;
  // What the test calls healthy is no other reading.
  const auto fold = [&](Showing shown) {
    of(shares, Showing::healthy) += of(shares, shown);
    of(shares, shown) = 0;
  };
  if (band && band->high >= highest_range && cell.shows != Shows::open) {
    fold(over_range);
    fold(higher);
  }
  if (band && band->low <= 0 && cell.shows != Shows::near_zero) {
    fold(near_zero);
    fold(lower);
  }
  return shares;
}

// The end of a test opposite to this one; null where it has no such end.
const Contact* other_end(const Test& test, const Value<Contact>& end) {
  if (test.probes.size() != 2 || !test.probes[0] || !test.probes[1] || !end) return nullptr;
  const Contact &first = *test.probes[0], &second = *test.probes[1];
  return first == *end ? &second : second == *end ? &first : nullptr;
}

// Whether a short between the ends of a test leaves too little for one of two others, which read from a third
// contact to each of them, wherever in its band the part lies: between three contacts resistance is that of a
// star (Kennelly 1899).
bool shows_beside(const Named_test& test, const Named_test& one, const Named_test& other) {
  const List<Value<Contact>>& ends = test.test->probes;
  if (ends.size() != 2 || !test.healthy || !one.healthy || !other.healthy) return false;
  const Contact *third = other_end(*one.test, ends[0]), *same = other_end(*other.test, ends[1]);
  if (third == nullptr || same == nullptr || !(*third == *same)) return false;
  const double whole = test.healthy->middle(), a = one.healthy->middle(), b = other.healthy->middle();
  const double leg_of_one = (a + whole - b) / 2, leg_of_other = (b + whole - a) / 2;
  const double left = (a + b - whole) / 2 + leg_of_one * leg_of_other / whole;
  const auto is_too_little = [&](const Interval& healthy) { // also of a part at the upper end of its band
    return left * healthy.high / healthy.middle() < healthy.low;
  };
  return is_too_little(*one.healthy) || is_too_little(*other.healthy);
}

// The tests that show the mode in one path of several, so that only all of them together exclude it. It lies
// in the path of a test also where that does not say that it excludes it: a break always, a short where those
// that say so do not show it.
std::vector<std::size_t> one_path_each(const Suspected_mode& row, const std::vector<Named_test>& tests) {
  std::vector<std::size_t> paths, undeclared;
  if (!row.mode) return paths;
  for (std::size_t t = 0; t < tests.size(); ++t) {
    const Cell& cell = row.cells[t];
    if (!names(row.suspect->decided_by, tests[t].id)) continue;
    const bool declared = names(tests[t].test->excludes, *row.mode);
    if (cell.outcome == Outcome::fails && declared) return {};
    if (cell.outcome != Outcome::either) continue;
    const auto& healthy = tests[t].healthy;
    const bool goes_round = row.mode == Mode::open && cell.shows == Shows::higher && healthy &&
                            cell.ohm.low > healthy->high; // of a ring, or it is a star
    if (cell.shows == Shows::open || goes_round || (cell.shows == Shows::near_zero && declared))
      paths.push_back(t);
    else if (cell.shows == Shows::near_zero)
      undeclared.push_back(t);
  }
  const auto shows_in_two = [&](std::size_t t) {
    return std::any_of(paths.begin(), paths.end(), [&](std::size_t one) {
      return std::any_of(paths.begin(), paths.end(),
                         [&](std::size_t other) { return shows_beside(tests[t], tests[one], tests[other]); });
    });
  };
  std::erase_if(undeclared, shows_in_two);
  paths.insert(paths.end(), undeclared.begin(), undeclared.end());
  return paths;
}

// Of a part whose elements work together: an end that is not earth, and on which none of these tests lies. A
// break may be behind it, or a short. Of coils that work one by one, a code names the tests of the one that
// it means.
bool has_end_unread(const Resolved& resolved, const Suspected_mode& row,
                    const std::vector<std::size_t>& paths, const std::vector<Named_test>& tests) {
  const Value<Text>& id = row.suspect->component;
  const Resolved_component* component = id ? resolved.component(*id) : nullptr;
  if ((row.mode != Mode::open && row.mode != Mode::short_) || component == nullptr) return false;
  const auto connection = component->get(&Component_type::connection);
  if (connection ? **connection == Connection::two_direction : !component->is(Component_kind::heater))
    return false;
  const bool lies_beside_all =
      !connection || **connection == Connection::star || **connection == Connection::delta;
  if (row.mode == Mode::short_ && lies_beside_all) return false; // each reading loses by it
  const auto is_read = [&](const Value<Contact>& end) {
    return std::any_of(paths.begin(), paths.end(),
                       [&](std::size_t t) { return other_end(*tests[t].test, end) != nullptr; });
  };
  return std::any_of(component->contacts.begin(), component->contacts.end(),
                     [&](const auto& end) { return !is_earthed(resolved, end) && !is_read(end); });
}

// One hypothesis of a row; `path`: it is in this one of the tests that share the mode. What another code
// suspects too is the same only where all tests show it alike: else it lies in other wires of that harness.
void add(Situation& situation, const Suspected_mode& row, std::size_t culprit, double weight,
         std::optional<std::size_t> path, double highest_range) {
  Hypothesis hypothesis{culprit, weight, {}};
  for (std::size_t t = 0; t < situation.tests.size(); ++t) {
    Cell cell = row.cells[t];
    if (path == t) cell.outcome = Outcome::fails;
    const bool declared =
        row.mode && !row.suspect->not_decidable && names(situation.tests[t].test->excludes, *row.mode);
    hypothesis.shows.push_back(
        shares_of(cell, row.mode, situation.tests[t].healthy, declared, highest_range));
    // Wiper to the far end, or end to end, a short lets a sweep stand still or turn back.
    if (row.mode == Mode::short_ && row.cells[t].outcome == Outcome::either &&
        is_swept(*situation.tests[t].test)) {
      Showing_shares& shares = hypothesis.shows.back();
      of(shares, Showing::near_zero) /= 2;
      of(shares, Showing::unsteady) += of(shares, Showing::near_zero);
    }
    // What is open from the start does not rise, whatever its bleeder reads.
    if (row.mode == Mode::open && cell.outcome != Outcome::passes &&
        watches_it_rise(*situation.tests[t].test)) {
      Showing_shares& shares = hypothesis.shows.back();
      shares = {};
      of(shares, Showing::healthy) = declared ? 0 : 0.5;
      of(shares, Showing::unsteady) = of(shares, Showing::over_range) =
          (1 - of(shares, Showing::healthy)) / 2;
    }
  }
  for (std::size_t h = 0; h < situation.failures.size(); ++h) {
    Hypothesis& known = situation.order.hypotheses[h];
    if (known.culprit != culprit || situation.failures[h].mode != row.mode || known.shows != hypothesis.shows)
      continue;
    known.weight += weight;
    return;
  }
  situation.order.hypotheses.push_back(std::move(hypothesis));
  situation.failures.push_back({row.mode,
                                static_cast<std::size_t>(row.suspect - situation.storage.data()),
                                {row.cells.begin(), row.cells.end()}});
}

void add_rows(const Resolved& resolved, Situation& situation, const std::vector<Suspected_mode>& rows,
              const std::vector<std::size_t>& culprits, const std::vector<double>& weights,
              double highest_range) {
  for (const Suspected_mode& row : rows) {
    const auto suspect = static_cast<std::size_t>(row.suspect - situation.storage.data());
    const std::size_t culprit = culprits[suspect];
    const double weight =
        weights[suspect] / static_cast<double>(std::max<std::size_t>(row.suspect->modes.size(), 1));
    const std::vector<std::size_t> paths = one_path_each(row, situation.tests);
    const bool elsewhere = paths.empty() || has_end_unread(resolved, row, paths, situation.tests);
    const double each = weight / static_cast<double>(paths.size() + (elsewhere ? 1 : 0));
    if (elsewhere) add(situation, row, culprit, each, {}, highest_range);
    for (const std::size_t path : paths) add(situation, row, culprit, each, path, highest_range);
  }
}

// Likeliest first; of equals the one that is named first.
void sort_culprits(Situation& situation) {
  std::vector<double> weights;
  for (const Culprit& culprit : situation.culprits) weights.push_back(culprit.weight);
  const std::vector<std::size_t> order = likeliest_first(weights);
  std::vector<std::size_t> place(order.size());
  std::vector<Culprit> sorted;
  for (std::size_t i = 0; i < order.size(); ++i) {
    sorted.push_back(std::move(situation.culprits[order[i]]));
    place[order[i]] = i;
  }
  situation.culprits = std::move(sorted);
  for (Hypothesis& one : situation.order.hypotheses) one.culprit = place[one.culprit];
  for (std::size_t& culprit : situation.culprit_of) culprit = place[culprit];
}

}

// Of those suspects that this model has. Likeliest first: the n-th of a list has 1/n of the weight of the
// first. One place more stands for what the list does not name; returns the weight of those.
static double weigh_suspects(const Resolved& resolved, const std::vector<Planned_fault>& faults,
                             const std::optional<std::string>& model, Situation& situation,
                             std::vector<Text>& code_of) {
  double nobody = 0;
  for (const Planned_fault& planned : faults) {
    std::vector<double> shares;
    double sum = 0;
    for (const Suspect& suspect : planned.fault->suspects) {
      if (!suspect || !suspect.kind) continue;
      const Resolved_component* component =
          suspect.component ? resolved.component(*suspect.component) : nullptr;
      if (!is_fitted(component, model)) continue;
      situation.storage.push_back(suspect);
      code_of.push_back(planned.id);
      shares.push_back(1 / static_cast<double>(shares.size() + 1));
      sum += shares.back();
    }
    const double last = 1 / static_cast<double>(shares.size() + 1);
    sum += last;
    for (const double share : shares) situation.weight_of.push_back(share / sum);
    nobody += last / sum;
  }
  return nobody;
}

static void gather_culprits(Situation& situation, const std::vector<Text>& code_of) {
  std::map<std::pair<Suspect_kind, Text>, std::size_t> known;
  for (std::size_t i = 0; i < situation.storage.size(); ++i) {
    const Suspect& suspect = situation.storage[i];
    const auto [place, is_new] = known.try_emplace({*suspect.kind, id_of(suspect)}, known.size());
    if (is_new) situation.culprits.push_back({*suspect.kind, id_of(suspect), {}, {}, 0});
    situation.culprit_of.push_back(place->second);
    Culprit& culprit = situation.culprits[situation.culprit_of.back()];
    culprit.entries.push_back(&suspect);
    culprit.weight += situation.weight_of[i];
    if (std::find(culprit.codes.begin(), culprit.codes.end(), code_of[i]) == culprit.codes.end())
      culprit.codes.push_back(code_of[i]);
  }
}

// Each with those of its suspects that this model has.
static std::vector<Fault> faults_of(Situation& situation, const std::vector<Text>& code_of) {
  std::vector<Fault> faults;
  for (std::size_t i = 0; i < code_of.size(); ++i) {
    if (i == 0 || code_of[i] != code_of[i - 1]) {
      faults.emplace_back().node = 1;
      faults.back().suspects = {&situation.storage[i], 0, 1};
    }
    ++faults.back().suspects.count;
  }
  return faults;
}

// What its tests show of each suspect. A test of a part that this model does not have is none.
static void add_tests(const Resolved& resolved, const std::optional<std::string>& model,
                      const std::vector<Text>& code_of, Situation& situation) {
  const Separation matrix = separation(resolved, faults_of(situation, code_of));
  std::vector<std::size_t> kept;
  for (std::size_t t = 0; t < matrix.tests.size(); ++t)
    if (is_fitted(resolved.component_of(*matrix.tests[t].test), model)) kept.push_back(t);
  std::vector<Suspected_mode> rows(matrix.rows.begin(), matrix.rows.end());
  std::vector<Cell> cells;
  cells.reserve(rows.size() * kept.size()); // and so nothing moves
  for (Suspected_mode& row : rows) {
    const Cell* const first = cells.data() + cells.size();
    for (const std::size_t t : kept) cells.push_back(row.cells[t]);
    row.cells = {first, kept.size()};
  }
  for (const std::size_t t : kept) situation.tests.push_back(matrix.tests[t]);
  add_rows(resolved, situation, rows, situation.culprit_of, situation.weight_of,
           highest_range(reference_meter(resolved.surroundings.corpus)));
}

// What no list names, and every test passes.
static void add_nobody(Situation& situation, double weight) {
  situation.culprits.push_back(
      {Suspect_kind::cause, "something that the profile does not name", {}, {}, weight});
  Showing_shares passes = {};
  of(passes, Showing::healthy) = 1;
  situation.order.hypotheses.push_back(
      {situation.nobody(), weight, std::vector<Showing_shares>(situation.tests.size(), passes)});
  situation.failures.push_back({{}, situation.storage.size(), {}});
}

std::vector<std::size_t> likeliest_first(const std::vector<double>& weights) {
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return is_likelier(weights[a], weights[b]); });
  return order;
}

Situation situation_of(const Resolved& resolved, const std::vector<Planned_fault>& faults,
                       const std::optional<std::string>& model) {
  Situation situation;
  std::vector<Text> code_of; // of each suspect
  const double nobody = weigh_suspects(resolved, faults, model, situation, code_of);
  gather_culprits(situation, code_of);
  add_tests(resolved, model, code_of, situation);
  sort_culprits(situation);
  add_nobody(situation, nobody);
  situation.order.culprits = situation.culprits.size();
  add_work(situation);
  return situation;
}

}
