// The order of tests beside the best there is: generated fault situations, each solved by dynamic programming
// over all that can have been read, which knows nothing of how the order is chosen. Beside both, the order in
// which the profile lists the tests.
#include "ohmlore/plan.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <map>
#include <random>
#include <set>
#include <string>

#include "judge/asked.h"
#include "judge/limits.h"
#include "lint/contacts.h"
#include "model/names.h"
#include "property/situations.h"
#include "support/cases.h"
#include "support/files.h"

namespace ohmlore {
namespace {

constexpr int situations = test::cases(1000);

// ---- three ways through it

double cost(const Order_problem& problem, const Order_state& state, std::size_t test, bool count) {
  return count ? 1 : minutes_of(problem, state, test);
}
bool is_over(const Order_problem& problem, const Order_state& state) {
  for (std::size_t t = 0; t < problem.tests.size(); ++t)
    if (is_worth_it(problem, state, t)) return false;
  return true;
}

template <class Left>
double on_average(const Order_problem& problem, const Order_state& state, std::size_t test, bool count,
                  Left left) {
  double sum = cost(problem, state, test, count);
  for (std::size_t i = 0; i < showing_count; ++i) {
    const auto shown = static_cast<Showing>(i);
    const double probable = probability_of(problem, state, test, shown);
    if (probable > 1e-12) sum += probable * left(after(problem, state, test, {shown}));
  }
  return sum;
}

double as_planned(const Order_problem& problem, const Order_state& state, bool count) {
  const auto test = next_test(problem, state);
  if (!test) return 0;
  return on_average(problem, state, *test, count,
                    [&](const Order_state& next) { return as_planned(problem, next, count); });
}

double as_listed(const Order_problem& problem, const Order_state& state, bool count) {
  if (is_over(problem, state)) return 0;
  std::size_t test = 0;
  while (state.taken[test]) ++test;
  return on_average(problem, state, test, count,
                    [&](const Order_state& next) { return as_listed(problem, next, count); });
}

// What has been read, and what has been taken apart: all that the rest hangs on.
using Key = std::pair<std::vector<bool>, std::vector<int>>;
double at_best(const Order_problem& problem, const Order_state& state, bool count,
               std::map<Key, double>& known) {
  Key key{state.taken, {}};
  for (const double weight : state.weights) key.second.push_back(static_cast<int>(std::lround(weight * 1e8)));
  for (const bool done : state.done) key.first.push_back(done && !count);
  key.first.push_back(state.abnormal);
  if (const auto found = known.find(key); found != known.end()) return found->second;
  double least = is_over(problem, state) ? 0 : std::numeric_limits<double>::infinity();
  for (std::size_t t = 0; t < problem.tests.size() && least > 0; ++t)
    if (!state.taken[t])
      least = std::min(least, on_average(problem, state, t, count, [&](const Order_state& next) {
                         return at_best(problem, next, count, known);
                       }));
  return known[key] = least;
}

struct Means {
  double planned = 0, listed = 0, best = 0, worst = 1; ///< worst: planned to best, of one situation
  std::size_t suspects = 0, tests = 0;
  int empty = 0;
};

Means measured(bool mixed, bool count) {
  std::mt19937 random(20261129);
  Means means;
  for (int i = 0; i < situations; ++i) {
    const std::string text = test::situation(random, mixed).profile;
    const Read_result read = read_json("example.profile.json", text);
    if (read.document.profile() == nullptr || read.document.profile()->faults.size() != 1) {
      ADD_FAILURE() << text;
      return means;
    }
    const std::string fault = "F";
    const Plan_problem problem = plan_problem(resolve(read.document, {}), {&fault, 1});
    const Order_problem& order = problem.order;
    const Order_state begin = beginning(order);
    std::map<Key, double> known;
    const double planned = as_planned(order, begin, count), best = at_best(order, begin, count, known);
    // Where no test sees any suspect there is nothing to measure, for nobody.
    means.empty += best == 0;
    EXPECT_EQ(planned == 0, best == 0) << text;
    EXPECT_GE(planned, best - 1e-9) << text;
    means.planned += planned / situations;
    means.best += best / situations;
    means.listed += as_listed(order, begin, count) / situations;
    if (best > 0) means.worst = std::max(means.worst, planned / best);
    means.suspects += read.document.profile()->faults.items[0].value.suspects.size();
    means.tests += order.tests.size();
  }
  return means;
}

void print(const char* what, const Means& means) {
  fmt::print("{} over {} situations ({:.1f} suspects, {:.1f} tests): planned {:.3f}, best {:.3f} ({:+.2f} %, "
             "at worst "
             "{:+.1f} %), as listed {:.3f} ({:+.1f} %)\n",
             what, situations, static_cast<double>(means.suspects) / situations,
             static_cast<double>(means.tests) / situations, means.planned, means.best,
             100 * (means.planned / means.best - 1), 100 * (means.worst - 1), means.listed,
             100 * (means.listed / means.best - 1));
}

TEST(Plan, measurements_are_within_a_tenth_of_the_best_tree_and_fewer_than_as_listed) {
  const Means means = measured(false, true);
  print("mean measurements", means);
  EXPECT_LT(means.planned, 1.1 * means.best);
  EXPECT_LT(means.planned, means.listed);
  EXPECT_LT(means.empty * 50, situations);
}

TEST(Plan, work_is_within_a_tenth_of_the_best_tree_and_less_than_as_listed) {
  const Means means = measured(true, false);
  print("mean minutes", means);
  EXPECT_LT(means.planned, 1.1 * means.best);
  EXPECT_LT(means.planned, means.listed);
  EXPECT_LT(means.empty * 50, situations);
}

namespace fs = std::filesystem;
const fs::path source = OHMLORE_SOURCE_DIR;

Parts corpus_parts() {
  Parts parts;
  for (const auto& file : fs::directory_iterator(source / "corpus/parts"))
    parts.add(read_json(file.path().filename().string(), test::read_bytes(file.path())).document);
  return parts;
}

// ---- what a meter may show

// Of all that can be read one thing is, whatever failed: probabilities that add up to 1.
TEST(Plan, what_a_meter_may_show_adds_up_to_certainty) {
  const Parts parts = corpus_parts();
  std::size_t cells = 0;
  for (const char* folder : {"corpus/profiles", "tests/rules"})
    for (const auto& file : fs::recursive_directory_iterator(source / folder)) {
      if (file.path().extension() != ".json") continue;
      const Read_result read = read_json(file.path().filename().string(), test::read_bytes(file.path()));
      if (read.document.profile() == nullptr || !read.document.complete()) continue;
      const Resolved resolved = resolve(read.document, Surroundings{nullptr, &parts});
      for (const auto& fault : read.document.profile()->faults) {
        const std::string id(fault.id);
        for (const Hypothesis& one : plan_problem(resolved, {&id, 1}).order.hypotheses)
          for (const Showing_shares& shares : one.shows) {
            double sum = 0;
            for (const double share : shares) {
              EXPECT_GE(share, 0) << file.path() << " " << id;
              sum += share;
            }
            EXPECT_NEAR(sum, 1, 1e-12) << file.path() << " " << id;
            ++cells;
          }
      }
    }
  EXPECT_GT(cells, 1000u);
}

// ---- what a step may come to

// A plan tells no outcome that nothing suspected would give: their probabilities are above 0, of one step at
// most 1 together, and what is left out is less than 0.002 for each of the six (planner.cpp). Healthy comes
// first, then what is likelier, and what says the same is told once.
void expect_possible(const std::vector<Plan_outcome>& outcomes, const std::string& where) {
  double sum = 0;
  for (const Plan_outcome& one : outcomes) {
    EXPECT_GT(one.probability, 1e-9) << where << " " << one.words;
    sum += one.probability;
    const bool healthy = one.shown.at(0) == Showing::healthy;
    EXPECT_TRUE(!healthy || &one == outcomes.data()) << where << " healthy comes first";
    EXPECT_TRUE(healthy || one.not_seen.empty()) << where << " " << one.words << " hides nothing";
    EXPECT_TRUE(healthy || !one.points_to.empty()) << where << " " << one.words;
    expect_possible(one.outcomes, where);
    for (const Plan_outcome* other = &one + 1; other != outcomes.data() + outcomes.size(); ++other)
      EXPECT_TRUE(healthy || other->points_to != one.points_to || other->next != one.next)
          << where << " " << one.words << " and " << other->words << " say the same";
    if (&one != &outcomes.back() && !healthy) {
      EXPECT_GE(one.probability, (&one + 1)->probability - 1e-6)
          << where << " " << one.words << " is likelier";
    }
  }
  if (outcomes.empty()) return;
  EXPECT_LE(sum, 1 + 1e-9) << where;
  EXPECT_GE(sum, 1 - 6 * 0.002) << where;
}

TEST(Plan, the_outcomes_of_a_step_are_told_once_and_may_be_read) {
  const Parts parts = corpus_parts();
  std::size_t steps = 0;
  for (const auto& file : fs::recursive_directory_iterator(source / "corpus/profiles")) {
    if (!file.is_regular_file()) continue;
    const Read_result read = read_json(file.path().filename().string(), test::read_bytes(file.path()));
    const Resolved resolved = resolve(read.document, Surroundings{nullptr, &parts});
    for (const auto& fault : read.document.profile()->faults) {
      Plan_request request;
      request.codes = {std::string(fault.id)};
      std::set<std::size_t> cleared; // once each, by the test that does it
      std::set<std::string> told;    // how a test is done, once
      const Plan found = plan(resolved, request);
      for (const auto* some : {&found.steps, &found.more})
        for (const Plan_step& step : *some)
          EXPECT_TRUE(told.insert(step.test).second) << file.path() << " " << fault.id << " " << step.test;
      for (const Plan_step& step : found.steps) {
        for (const std::size_t suspect : step.outcomes.at(0).clears)
          EXPECT_TRUE(cleared.insert(suspect).second) << file.path() << " " << fault.id << " " << step.test;
        expect_possible(step.outcomes, fmt::format("{} {} {}", file.path().string(), fault.id, step.test));
        ++steps;
      }
    }
  }
  EXPECT_GT(steps, 100u);
}

// ---- with a true failure, and a meter

TEST(Plan, what_is_true_is_never_ruled_out_and_mostly_found) {
  std::mt19937 random(5);
  int rounds = 0, found = 0, alone = 0, readings = 0;
  for (int i = 0; i < situations / 2; ++i) {
    const test::Drafted_situation drafted = test::situation(random, i % 2 == 0);
    if (drafted.truths.empty()) continue;
    const test::Truth& truth = drafted.truths[random() % drafted.truths.size()];
    const Read_result read = read_json("example.profile.json", drafted.profile);
    const Resolved resolved = resolve(read.document, {});
    Plan_request request;
    request.codes = {"F"};
    Plan now = plan(resolved, request);
    while (!now.steps.empty()) {
      Judge_request reading;
      reading.test = now.steps[0].test;
      const auto ohm = drafted.reading(now.steps[0].test, truth);
      reading.reading = {ohm.value_or(0) + 0.3, 0, !ohm.has_value()}; // leads
      if (!ohm) reading.reading.ohm = 0;
      request.readings.push_back(reading);
      ASSERT_LE(request.readings.size(), drafted.tests.size());
      now = plan(resolved, request);
      ASSERT_TRUE(now.problems.empty()) << now.problems[0];
    }
    ++rounds;
    readings += static_cast<int>(request.readings.size());
    const auto suspect = std::find_if(now.suspects.begin(), now.suspects.end(),
                                      [&](const Plan_suspect& one) { return one.id == truth.culprit; });
    ASSERT_NE(suspect, now.suspects.end());
    const Mode mode = truth.open ? Mode::open : Mode::short_;
    const auto failure = std::find_if(suspect->modes.begin(), suspect->modes.end(),
                                      [&](const Plan_mode& one) { return one.mode == mode; });
    ASSERT_NE(failure, suspect->modes.end());
    EXPECT_NE(failure->standing, Standing::no_sign);
    EXPECT_NE(failure->standing, Standing::ruled_out) << truth.culprit << " " << word_of(mode) << "\n"
                                                      << text_report(now) << drafted.profile;
    found += failure->standing == Standing::found;
    alone += failure->standing == Standing::found && suspect->now > 0.9;
  }
  fmt::print("{} true failures: {} found, {} of them alone, {:.2f} readings each\n", rounds, found, alone,
             static_cast<double>(readings) / rounds);
  EXPECT_GT(found * 10, rounds * 8);
  EXPECT_GT(alone * 2, rounds);
}

// One job on an appliance of the corpus: what failed, and how warm it is. What the library knows of a test's
// path is not asked: a part shows between the contacts of its own test, and a wire at the withdrawn plug.
struct Corpus_job {
  const Resolved& resolved;
  std::mt19937& random;
  const Suspect* failed = nullptr; ///< null: nothing that is listed
  Mode mode = Mode::open;
  const Test* own = nullptr; ///< the test that is said to exclude it
  double kelvin = zero_celsius + 20;

  double uniform(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  }

  bool shows(const Test& test, bool on_part) const {
    if (failed == nullptr || test.probes.size() != 2) return false;
    if (failed->component)
      return &test == own || (*test.side != Side::harness && rules::same_ends(own->probes, test.probes));
    if (on_part || *test.side == Side::at_component) return false;
    const Contact& wire = *own->probes[own->probes[0]->connector == *failed->connector ? 0 : 1];
    return *test.probes[0] == wire || *test.probes[1] == wire;
  }

  // Empty where nothing says what a healthy one reads.
  std::optional<Reading> reading(const Test& test, bool on_part, bool reversed) {
    std::string problem;
    const auto expected = expected_of(resolved, test, reversed, problem);
    const auto healthy = expected ? expected->service_at(kelvin) : std::nullopt;
    if (!healthy) return std::nullopt;
    double ohm =
        std::isinf(healthy->high) ? healthy->high : healthy->middle() + uniform(-0.2, 0.2) * healthy->width();
    if (shows(test, on_part)) {
      if (mode == Mode::open || (mode == Mode::intermittent && uniform(0, 1) < 0.5))
        ohm = std::numeric_limits<double>::infinity();
      else if (mode == Mode::short_)
        ohm = std::min(ohm, uniform(0, 0.2));
    }
    if (std::isinf(ohm)) return Reading{0, 0, true};
    return Reading{ohm * uniform(0.995, 1.005) + uniform(0.15, 0.45), 0, false}; // meter and leads
  }

  std::optional<Judge_request> measured(const std::string& id) {
    const Test& test = *resolved.test(id);
    Judge_request request;
    request.test = id;
    const auto plug = compares_twins(test) ? std::nullopt : reading(test, false, false);
    if (!plug) return std::nullopt;
    request.reading = *plug;
    request.temperature =
        Part_temperature{kelvin + uniform(-1.5, 1.5), 1, Temperature_place::on_part, std::nullopt};
    if (asks_both_directions(test)) request.reverse = reading(test, false, true);
    if (asks_for_response(test)) request.answered = !shows(test, false);
    if (*test.side == Side::at_board_plug && uniform(0, 1) < (asks_for_response(test) ? 0.9 : 0.4))
      request.at_part = reading(test, true, false);
    return request;
  }
};

// The test by which a plain failure shows: of a part in no circuit and of one resistance, or of a wire to it.
const Test* own_test(const Resolved& resolved, const Suspect& suspect, Mode mode) {
  if (mode != Mode::open && mode != Mode::intermittent && (mode != Mode::short_ || !suspect.component))
    return nullptr;
  for (const Value<Text>& id : suspect.decided_by) {
    const Test* test = resolved.test(*id);
    const Resolved_component* part = resolved.component_of(*test);
    const bool is_plain = rules::circuits_of(resolved, *part).empty() && !part->is(Component_kind::winding) &&
                          !part->is(Component_kind::potentiometer);
    const bool is_of_it = suspect.component ? *suspect.component == part->id
                                            : test->probes[0]->connector == *suspect.connector ||
                                                  test->probes[1]->connector == *suspect.connector;
    if (is_plain && is_of_it && names(test->excludes, mode)) return test;
  }
  return nullptr;
}

TEST(Plan, what_is_true_is_never_ruled_out_in_the_corpus) {
  std::mt19937 random(20261130);
  const Parts parts = corpus_parts();
  int jobs = 0, found = 0, accused = 0, healthy = 0, undecided = 0;
  std::set<fs::path> files; // sorted, so that the jobs are the same everywhere
  for (const auto& file : fs::recursive_directory_iterator(source / "corpus/profiles"))
    if (file.is_regular_file()) files.insert(file.path());
  for (const fs::path& file : files) {
    const Read_result read = read_json(file.filename().string(), test::read_bytes(file));
    const Resolved resolved = resolve(read.document, Surroundings{nullptr, &parts});
    for (const auto& fault : read.document.profile()->faults)
      for (int round = 0; round < test::cases(60); ++round) {
        Corpus_job job{resolved, random};
        job.kelvin = job.uniform(zero_celsius + 8, zero_celsius + 28);
        const Suspect& suspect = fault.value.suspects[random() % fault.value.suspects.size()];
        if (!suspect.modes.empty() && !suspect.not_decidable) {
          job.mode = *suspect.modes[random() % suspect.modes.size()];
          job.own = own_test(resolved, suspect, job.mode);
        }
        if (job.own != nullptr)
          job.failed = &suspect;
        else if (round > 0)
          continue; // one job with nothing that is listed is enough
        Plan_request request;
        request.codes = {std::string(fault.id)};
        Plan now = plan(resolved, request);
        while (!now.steps.empty() && request.readings.size() < 30) {
          const auto reading = job.measured(now.steps[0].test);
          if (!reading) break;
          request.readings.push_back(*reading);
          now = plan(resolved, request);
          ASSERT_TRUE(now.problems.empty()) << now.problems[0];
        }
        undecided += request.readings.size() == 30;
        if (job.failed == nullptr) {
          ++healthy;
          accused += std::any_of(now.suspects.begin(), now.suspects.end(),
                                 [](const Plan_suspect& one) { return one.standing == Standing::found; });
          continue;
        }
        ++jobs;
        for (const Plan_suspect& one : now.suspects)
          if (one.kind == *suspect.kind &&
              one.id == (suspect.component ? *suspect.component : *suspect.connector))
            for (const Plan_mode& mode : one.modes)
              if (mode.mode == job.mode) {
                found += mode.standing == Standing::found;
                EXPECT_TRUE(mode.standing != Standing::ruled_out && mode.standing != Standing::no_sign)
                    << file << " " << one.name << " " << word_of(job.mode) << "\n"
                    << text_report(now);
              }
      }
  }
  fmt::print(
      "{} true failures in the corpus: {} found; {} jobs with none: {} with an accusation; {} undecided\n",
      jobs, found, healthy, accused, undecided);
  EXPECT_GT(jobs, test::cases(2000));
  EXPECT_GT(found * 10, jobs * 9);
  EXPECT_EQ(accused, 0);
}

}
}
