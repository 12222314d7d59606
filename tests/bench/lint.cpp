// What the rules cost: the demonstration corpus and generated healthy profiles, parsed by RapidJSON into a
// DOM, read with all structural checks, linted with the rules on structure alone and with all rules, and
// checked by each rule. The times mean nothing by themselves: the repetitions are interleaved, and their
// medians are compared. Exit status 1 where all rules cost more than twice as much as those on structure
// alone.
//
//   bench_lint                 the stages and their ratios
//   bench_lint --rules         the share of each rule, too
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <map>

#include "ohmlore/corpus.h"
#include "ohmlore/lint.h"
#include "property/healthy_profile.h"
#include "support/files.h"

namespace ohmlore {
namespace {

constexpr int generated = 300;
constexpr double most = 2;

struct Corpus_text {
  std::vector<test::Named_text> documents;
  Parts parts;
  Read_result root;
};

Corpus_text corpus_text() {
  namespace fs = std::filesystem;
  Corpus_text corpus;
  const fs::path folder = fs::path(OHMLORE_SOURCE_DIR) / "corpus";
  std::vector<fs::path> paths;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file() && entry.path().extension() == ".json") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  for (const fs::path& path : paths) corpus.documents.push_back({path.string(), test::read_bytes(path)});
  for (const test::Named_text& part : test::healthy_parts()) corpus.documents.push_back(part);
  for (const test::Named_text& document : corpus.documents) {
    Read_result read = read_json(document.name, document.text);
    if (read.document.part() != nullptr) corpus.parts.add(std::move(read.document));
    if (document.name.ends_with("/corpus.json")) corpus.root = std::move(read);
  }
  for (int number = 1; number <= generated; ++number)
    corpus.documents.push_back(test::healthy_profile(number));
  return corpus;
}

const Corpus_text& corpus() {
  static const Corpus_text all = corpus_text();
  return all;
}
Surroundings surroundings() { return {corpus().root.document.corpus(), &corpus().parts}; }

void parse(benchmark::State& state) {
  for (auto _ : state)
    for (const test::Named_text& document : corpus().documents) {
      rapidjson::Document dom;
      dom.Parse(document.text.data(), document.text.size());
      benchmark::DoNotOptimize(dom.HasParseError());
    }
}

void read(benchmark::State& state) {
  for (auto _ : state)
    for (const test::Named_text& document : corpus().documents)
      benchmark::DoNotOptimize(read_json(document.name, document.text).findings.size());
}

// As the program does it: every document read and checked, the corpus-wide rules, waivers and policy.
void lint(benchmark::State& state, std::span<const Rule_entry> rules) {
  for (auto _ : state) {
    std::vector<Linted> linted;
    std::vector<Read_result> in_hand;
    for (const test::Named_text& document : corpus().documents) {
      in_hand.push_back(read_json(document.name, document.text));
      if (in_hand.size() < batch && &document != &corpus().documents.back()) continue;
      for (Linted& one : lint_documents(in_hand, surroundings(), rules, Kept_facts::marks))
        linted.push_back(std::move(one));
      in_hand.clear();
    }
    std::vector<Fact> facts;
    for (const std::size_t i : contested(linted)) {
      const test::Named_text& again = corpus().documents[i];
      for (Fact& fact : facts_of(read_json(again.name, again.text), surroundings()))
        facts.push_back(std::move(fact));
    }
    const auto findings =
        settle(std::move(linted), judge_facts(std::move(facts)), surroundings().corpus, {"2026-01-01"});
    benchmark::DoNotOptimize(findings.size());
  }
}

// The rules on what a document looks like, whatever it says of appliances.
std::vector<Rule_entry> rules_of_structure() {
  std::vector<Rule_entry> rules;
  for (const Rule_entry& entry : all_rules())
    if (entry.rule->family == Family::json || entry.rule->family == Family::shape ||
        entry.rule->family == Family::unit)
      rules.push_back(entry);
  return rules;
}

struct Bound {
  Read_result read;
  Resolved resolved;
};

const std::vector<Bound>& bound() {
  static const std::vector<Bound> all = [] {
    std::vector<Bound> documents;
    documents.reserve(corpus().documents.size());
    for (const test::Named_text& document : corpus().documents) {
      documents.push_back({read_json(document.name, document.text), {}});
      documents.back().resolved = resolve(documents.back().read.document, surroundings());
    }
    return documents;
  }();
  return all;
}

// The cost of each rule within one run over each document, as lint does it: what rules share is found by the
// first of them. Seconds a pass over the corpus, by the best of several passes over each document.
std::vector<std::pair<double, std::string_view>> cost_of_rules() {
  using Clock = std::chrono::steady_clock;
  constexpr int passes = 25;
  std::vector<Clock::duration> spent(all_rules().size());
  for (const Bound& document : bound()) {
    std::vector<Clock::duration> best(all_rules().size(), Clock::duration::max());
    for (int pass = 0; pass < passes; ++pass) {
      const Subject subject(document.read.document, document.resolved);
      std::vector<Finding> findings;
      std::vector<Fact_mark> marks;
      auto before = Clock::now();
      for (std::size_t i = 0; i < all_rules().size(); ++i) {
        const Rule_entry& entry = all_rules()[i];
        if (entry.rule->check) {
          Sink sink(subject.document, entry.slug, entry.rule->severity, findings);
          entry.rule->check(subject, sink);
        }
        if (entry.rule->collect) {
          Fact_sink sink(subject.document, entry, marks);
          entry.rule->collect(subject, sink);
        }
        const auto after = Clock::now();
        best[i] = std::min(best[i], after - before);
        before = after;
      }
    }
    for (std::size_t i = 0; i < best.size(); ++i) spent[i] += best[i];
  }
  std::vector<std::pair<double, std::string_view>> costs;
  for (std::size_t i = 0; i < spent.size(); ++i)
    costs.emplace_back(std::chrono::duration<double>(spent[i]).count(), all_rules()[i].slug);
  std::sort(costs.rbegin(), costs.rend());
  return costs;
}

// The same of `work` with each document.
template <class F>
double best_of_each(F work) {
  using Clock = std::chrono::steady_clock;
  Clock::duration sum{};
  for (std::size_t i = 0; i < corpus().documents.size(); ++i) {
    Clock::duration best = Clock::duration::max();
    for (int pass = 0; pass < 25; ++pass) {
      const auto before = Clock::now();
      work(i);
      best = std::min(best, Clock::now() - before);
    }
    sum += best;
  }
  return std::chrono::duration<double>(sum).count();
}

// Keeps the medians, and prints nothing else.
class Medians : public benchmark::BenchmarkReporter {
public:
  std::map<std::string, double> of; // seconds of processor time
  bool ReportContext(const Context&) override { return true; }
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs)
      if (run.aggregate_name == "median")
        of[run.run_name.function_name] =
            run.GetAdjustedCPUTime() / benchmark::GetTimeUnitMultiplier(run.time_unit);
  }
};

}
}

int main(int argc, char** argv) {
  using namespace ohmlore;
  const bool rules = std::find(argv, argv + argc, std::string_view("--rules")) != argv + argc;
  std::vector<char*> arguments = {argv[0]};
  for (const char* extra : {"--benchmark_repetitions=7", "--benchmark_enable_random_interleaving=true",
                            "--benchmark_min_time=0.02"})
    arguments.push_back(const_cast<char*>(extra));
  int count = static_cast<int>(arguments.size());
  benchmark::Initialize(&count, arguments.data());
  benchmark::RegisterBenchmark("parse", parse);
  benchmark::RegisterBenchmark("read", read);
  benchmark::RegisterBenchmark("structure", lint, rules_of_structure());
  benchmark::RegisterBenchmark("lint", lint, all_rules());
  Medians median;
  benchmark::RunSpecifiedBenchmarks(&median);

  std::size_t bytes = 0;
  for (const test::Named_text& document : corpus().documents) bytes += document.text.size();
  const double parsed = median.of["parse"], was_read = median.of["read"], structure = median.of["structure"],
               linted = median.of["lint"];
  fmt::print("{} documents of {:.1f} kB on average\n", corpus().documents.size(),
             static_cast<double>(bytes) / 1000 / static_cast<double>(corpus().documents.size()));
  fmt::print("read / RapidJSON DOM           {:.2f}\n"
             "lint / RapidJSON DOM           {:.2f}\n"
             "lint / read                    {:.2f}\n"
             "lint / lint of structure only  {:.2f} (at most {})\n",
             was_read / parsed, linted / parsed, linted / was_read, linted / structure, most);
  if (rules) {
    const double reading = best_of_each([](std::size_t i) {
      const test::Named_text& document = corpus().documents[i];
      benchmark::DoNotOptimize(read_json(document.name, document.text).findings.size());
    });
    const double resolving = best_of_each([](std::size_t i) {
      benchmark::DoNotOptimize(resolve(bound()[i].read.document, surroundings()).components.data());
    });
    const double linting = best_of_each([](std::size_t i) {
      benchmark::DoNotOptimize(lint_document(bound()[i].read, surroundings()).findings.size());
    });
    const double together = best_of_each([](std::size_t i) {
      if (i > 0) return;
      std::vector<Linted> linted;
      std::vector<Fact> facts;
      for (const Bound& document : bound()) {
        linted.push_back(lint_document(document.read, surroundings()));
        facts.insert(facts.end(), linted.back().facts.begin(), linted.back().facts.end());
      }
      benchmark::DoNotOptimize(
          settle(std::move(linted), judge_facts(std::move(facts)), surroundings().corpus, {"2026-01-01"})
              .size());
    });
    fmt::print("of reading:\n{:6.2f} % resolving\n{:6.2f} % linting each\n{:6.2f} % linting all together\n",
               100 * resolving / reading, 100 * linting / reading, 100 * together / reading);
    double all = 0;
    for (const auto& [seconds, name] : cost_of_rules()) {
      fmt::print("{:6.2f} % {}\n", 100 * seconds / reading, name);
      all += seconds;
    }
    fmt::print("{:6.2f} % all rules\n", 100 * all / reading);
  }
  return linted > most * structure ? 1 : 0;
}
