#include "corpus/gather.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>

#include <fmt/format.h>

#include "corpus/cache.h"
#include "corpus/changed.h"
#include "corpus/files.h"
#include "corpus/shard.h"
#include "ohmlore/file_names.h"
#include "text/sha256.h"

namespace ohmlore {
namespace fs = std::filesystem;
namespace {

std::optional<std::string> bytes_of(const std::string& name, const Lint_request& request,
                                    std::vector<std::string>& troubles) {
  if (name == name_of_standard_input) return request.standard_input;
  std::string why;
  auto bytes = read_document_file(name, why);
  if (!bytes) troubles.push_back(fmt::format("{}: cannot be read: {}", name, why));
  return bytes;
}

// Of a document, without a look into it: that two shards do not see the same is mostly told by it.
std::uintmax_t size_of(const std::string& file, const Lint_request& request) {
  std::error_code error;
  return file == "-" ? request.standard_input.size() : fs::file_size(file, error);
}

// What governs a document. A corpus.json below the root that was given for the run says nothing of it.
const Root* root_around(const std::string& file, const Root* root) {
  const bool is_other = root != nullptr && fs::path(file).filename() == corpus_file &&
                        real_path(file) != real_path(root->folder / corpus_file);
  return is_other ? nullptr : root;
}

Surroundings surroundings_of(const Root* root) { return root ? root->surroundings() : Surroundings{}; }

// What is asked of a document of which nothing is to be said by itself.
std::span<const Rule_entry> rules_over_a_corpus() {
  static const std::vector<Rule_entry> rules = [] {
    std::vector<Rule_entry> those;
    std::copy_if(all_rules().begin(), all_rules().end(), std::back_inserter(those),
                 [](const Rule_entry& entry) { return entry.rule->judge != nullptr; });
    return those;
  }();
  return rules;
}

// What is kept of a document of which nothing is to be said by itself.
void set_aside(Linted& linted) {
  linted.findings.clear();
  for (Kept_waiver& waiver : linted.waivers) waiver.unused.message.clear();
}

struct Means {
  const Lint_request& request;
  const Changed* changed = nullptr; ///< null: all is looked at
  Cache* cache = nullptr;
  Kept_facts facts = Kept_facts::marks;
};

// Several documents of one root that are linted together (see lint_documents).
class Batch {
public:
  explicit Batch(const Means& means) : means_(means) {}

  void add(Gathered& document) {
    Linted& linted = document.linted;
    const Root* root = root_around(linted.file, document.root);
    if (root_ != root) finish();
    root_ = root;
    const auto bytes = bytes_of(linted.file, means_.request, linted.troubles);
    if (!bytes) return;
    document.read = true;
    std::string key;
    if (means_.cache != nullptr) {
      key = means_.cache->key_of(root_, linted.file, *bytes);
      if (auto known = means_.cache->find(key, root_)) {
        document.touched = touched(document, known->parts);
        linted = std::move(known->linted);
        if (root != document.root) linted.is_corpus = false;
        if (!document.touched) set_aside(linted);
        return;
      }
    }
    Read_result read = read_json(linted.file, *bytes);
    document.touched = means_.changed == nullptr || touched(document, parts_named(read.document));
    // What is remembered is all of it, for a day on which it is touched.
    Several& several = document.touched || means_.cache != nullptr ? fully_ : aside_;
    several.documents.push_back(&document);
    several.read.push_back(std::move(read));
    several.keys.push_back(std::move(key));
    bytes_ += bytes->size();
    constexpr std::size_t bytes_at_once = 1 << 20; // a large document ends its batch
    if (fully_.documents.size() + aside_.documents.size() >= batch || bytes_ >= bytes_at_once) finish();
  }

  void finish() {
    lint(fully_, all_rules());
    lint(aside_, rules_over_a_corpus());
    bytes_ = 0;
  }

private:
  struct Several {
    std::vector<Gathered*> documents;
    std::vector<Read_result> read;
    std::vector<std::string> keys;
  };

  bool touched(const Gathered& document, const std::vector<std::string>& parts) const {
    return means_.changed == nullptr || touches(*means_.changed, document, parts);
  }

  void lint(Several& several, std::span<const Rule_entry> rules) {
    if (several.documents.empty()) return;
    auto linted = lint_documents(several.read, surroundings_of(root_), rules, means_.facts);
    for (std::size_t i = 0; i < linted.size(); ++i) {
      if (means_.cache != nullptr)
        means_.cache->add(several.keys[i], root_, several.read[i].document, linted[i]);
      Gathered& document = *several.documents[i];
      document.linted = std::move(linted[i]);
      if (root_ != document.root) document.linted.is_corpus = false;
      if (!document.touched) set_aside(document.linted);
    }
    several = {};
  }

  const Means& means_;
  const Root* root_ = nullptr;
  Several fully_, aside_; // by all rules, and by those over a corpus alone
  std::size_t bytes_ = 0; // of both
};

// Documents a thread takes at a time: enough that it seldom asks, few enough that all end together.
constexpr std::size_t at_once = 4 * batch;

// Each thread takes the next few documents until none is left; what one gives does not depend on who took it.
void lint_all(std::span<Gathered> documents, const Means& means) {
  const Lint_request& request = means.request;
  std::atomic<std::size_t> next = 0;
  std::mutex saying; // also guards what follows
  std::size_t done = 0;
  std::exception_ptr thrown;
  const auto work = [&] {
    try {
      Batch in_hand(means);
      for (std::size_t first; (first = next.fetch_add(at_once)) < documents.size();) {
        const auto some = documents.subspan(first, std::min(at_once, documents.size() - first));
        for (Gathered& document : some) in_hand.add(document);
        in_hand.finish();
        const std::scoped_lock lock(saying);
        done += some.size();
        if (request.progress) request.progress(done, documents.size());
      }
    } catch (...) { // want of memory: no half of a run is a run
      const std::scoped_lock lock(saying);
      thrown = std::current_exception();
      next = documents.size();
    }
  };
  const std::size_t parts = (documents.size() + at_once - 1) / at_once;
  std::vector<std::thread> others;
  try {
    for (std::size_t i = 1; i < std::min<std::size_t>(request.jobs, parts); ++i) others.emplace_back(work);
  } catch (const std::system_error&) { // fewer threads are to be had; what is found does not depend on it
  }
  work();
  for (std::thread& other : others) other.join();
  if (thrown) std::rethrow_exception(thrown);
}

}

Gathering gather(const Lint_request& request, Roots& roots, Kept_facts facts,
                 std::vector<std::string>& troubles) {
  Gathering run;
  if (request.shard)
    if (std::string problem = shard_problem(*request.shard); !problem.empty()) {
      troubles.push_back(std::move(problem));
      return run;
    }
  std::string names, sizes;
  for (const std::string& file : files_of(request.paths, troubles)) {
    Gathered document;
    document.order = run.all++;
    document.root = roots.of(file); // also where another shard lints it: then all shards say the same
    document.linted.file = file == "-" ? std::string(name_of_standard_input) : file;
    if (document.root != nullptr &&
        std::find(run.roots.begin(), run.roots.end(), document.root) == run.roots.end())
      run.roots.push_back(document.root);
    if (request.shard) {
      (names += document.linted.file) += '\n';
      fmt::format_to(std::back_inserter(sizes), "{}\n", size_of(file, request));
    }
    if (!request.shard || is_of_shard(document, *request.shard)) run.documents.push_back(std::move(document));
  }
  if (request.shard) {
    run.names = sha256(names);
    run.sizes = sha256(sizes);
  }
  // A few keep all that they say: it costs less than to read those again of which it is asked. What a cache
  // holds is for runs over many.
  if (run.documents.size() <= batch && !request.cache) facts = Kept_facts::whole;
  Means means{request, nullptr, nullptr, facts};
  std::optional<Changed> changed;
  if (request.changed) {
    means.changed = &changed.emplace(what_changed(request, run, troubles));
    run.gone = changed->gone;
  }
  std::optional<Cache> cache;
  if (request.cache) means.cache = &cache.emplace(*request.cache, facts, run.roots, request.options.today);
  lint_all(run.documents, means);
  if (cache) cache->write(run.troubles);
  return run;
}

std::vector<Fact> facts_again(const Linted& linted, const Root* root, const Lint_request& request,
                              std::vector<std::string>& troubles) {
  const auto bytes = bytes_of(linted.file, request, troubles);
  if (!bytes) return {};
  const Read_result read = read_json(linted.file, *bytes);
  const Surroundings around = surroundings_of(root_around(linted.file, root));
  std::vector<Fact_mark> marks;
  std::vector<Fact> facts = facts_of(read, around, &marks);
  if (marks != linted.marks)
    troubles.push_back(fmt::format("{}: it changed in the meantime; run this again", linted.file));
  return facts;
}

}
