// What the rules cost: the demonstration corpus and generated healthy profiles, parsed by RapidJSON into a
// DOM, read with all structural checks, and, from their files, linted with the rules on structure alone and
// with all rules; and checked by each rule. The times mean nothing by themselves: the stages are compared
// within one run. Exit status 1 where all rules cost more than twice as much as those on structure alone.
//
// So that a busy machine does not decide: processor time is counted, in pieces of a few milliseconds that
// mostly run undisturbed; a pass does each piece by every stage in turn, and the best of all passes counts.
//
//   bench_lint                 the stages and their ratios
//   bench_lint --rules         the share of each rule, too
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <limits>
#include <numeric>

#include <unistd.h>

#include "ohmlore/corpus.h"
#include "ohmlore/lint.h"
#include "property/healthy_profile.h"
#include "support/files.h"

namespace ohmlore {
namespace {

constexpr int generated = 300;
constexpr double most = 2;

// Removed at the end.
struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / fmt::format("ohmlore-bench-{}", ::getpid());
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
};

struct Corpus_text {
  std::vector<test::Named_text> documents;
  std::vector<std::string> files; ///< of the same documents
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
  static const Folder written;
  for (const test::Named_text& document : corpus.documents) {
    corpus.files.push_back((written.path / fmt::format("{}.json", corpus.files.size())).string());
    std::ofstream(corpus.files.back(), std::ios::binary) << document.text;
  }
  return corpus;
}

const Corpus_text& corpus() {
  static const Corpus_text all = corpus_text();
  return all;
}
Surroundings surroundings() { return {corpus().root.document.corpus(), &corpus().parts}; }

using Texts = std::span<const test::Named_text>;

void parse(Texts texts) {
  for (const test::Named_text& document : texts) {
    rapidjson::Document dom;
    dom.Parse(document.text.data(), document.text.size());
    benchmark::DoNotOptimize(dom.HasParseError());
  }
}

std::vector<Read_result> read(Texts texts) {
  std::vector<Read_result> documents;
  for (const test::Named_text& document : texts) documents.push_back(read_json(document.name, document.text));
  return documents;
}

// As the program does it: a batch of documents read from their files and checked, ...
std::vector<Linted> lint(Texts texts, std::span<const Rule_entry> rules) {
  const auto first = static_cast<std::size_t>(texts.data() - corpus().documents.data());
  std::vector<Read_result> documents;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    std::string why;
    const auto bytes = read_file(corpus().files[first + i], why);
    documents.push_back(read_json(texts[i].name, bytes.value()));
  }
  return lint_documents(documents, surroundings(), rules, Kept_facts::marks);
}

// ... and after all of them the corpus-wide rules, waivers and policy.
void settle_all(std::vector<Linted> linted) {
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

template <class F>
double processor_seconds(F work) {
  const std::clock_t before = std::clock();
  work();
  return static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
}

struct Stages {
  double parsed = 0, was_read = 0, structure = 0, linted = 0; ///< processor seconds
};

Stages best_of_passes() {
  constexpr int passes = 15;
  const Texts all = corpus().documents;
  const std::vector<Rule_entry> of_structure = rules_of_structure();
  const std::span<const Rule_entry> rules[] = {of_structure, all_rules()};
  const std::size_t batches = (all.size() + batch - 1) / batch;
  // By stage and piece; what settles comes last.
  std::array<std::vector<double>, 4> best;
  best.fill(std::vector<double>(batches + 1, std::numeric_limits<double>::infinity()));
  const auto take = [&](std::size_t stage, std::size_t piece, auto work) {
    best[stage][piece] = std::min(best[stage][piece], processor_seconds(work));
  };
  best[0][batches] = best[1][batches] = 0;
  for (int pass = 0; pass < passes; ++pass) {
    std::vector<Linted> linted[2];
    for (std::size_t i = 0; i < batches; ++i) {
      const Texts some = all.subspan(i * batch, std::min(batch, all.size() - i * batch));
      take(0, i, [&] { parse(some); });
      take(1, i, [&] { benchmark::DoNotOptimize(read(some).size()); });
      for (const std::size_t k : {0u, 1u}) {
        std::vector<Linted> found;
        take(2 + k, i, [&] { found = lint(some, rules[k]); });
        std::move(found.begin(), found.end(), std::back_inserter(linted[k]));
      }
    }
    for (const std::size_t k : {0u, 1u}) take(2 + k, batches, [&] { settle_all(std::move(linted[k])); });
  }
  const auto sum = [&](std::size_t stage) {
    return std::accumulate(best[stage].begin(), best[stage].end(), 0.0);
  };
  return {sum(0), sum(1), sum(2), sum(3)};
}

}
}

int main(int argc, char** argv) {
  using namespace ohmlore;
  const bool rules = std::find(argv, argv + argc, std::string_view("--rules")) != argv + argc;
  const auto [parsed, was_read, structure, linted] = best_of_passes();

  std::size_t bytes = 0;
  for (const test::Named_text& document : corpus().documents) bytes += document.text.size();
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
