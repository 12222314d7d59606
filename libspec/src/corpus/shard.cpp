#include "corpus/shard.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>

#include <fmt/format.h>

#include "corpus/archive.h"
#include "corpus/files.h"
#include "corpus/fingerprint.h"
#include "corpus/kept.h"
#include "text/cut.h"
#include "text/sha256.h"
#include "text/stable_hash.h"

namespace ohmlore {
namespace {

constexpr std::string_view kind_of_file = "ohmlore shard";
constexpr std::string_view end_of_file = "end ";

// What all shards of one run say alike.
struct Of_run {
  std::string fingerprint;
  std::uint64_t shards = 0, documents = 0;
  std::string names; ///< SHA-256 of the names of all documents
  std::string sizes; ///< SHA-256 of how many bytes each has: that a document changed in between mostly shows
  std::string root;  ///< that was given for all; empty where each document has its own
  struct Corpus_text {
    std::string folder, path, text;
    std::string surroundings; ///< see hash_of_surroundings
    bool operator==(const Corpus_text&) const = default;
  };
  std::vector<Corpus_text> corpora;
  std::vector<std::string> troubles, folders;
  bool operator==(const Of_run&) const = default;
};

struct Header {
  std::string kind{kind_of_file};
  std::uint64_t number = 0;
  Of_run run;
};

template <class Each>
void members(Each& each, Of_run::Corpus_text& it) {
  each(it.folder, it.path, it.text, it.surroundings);
}
template <class Each>
void members(Each& each, Of_run& it) {
  each(it.fingerprint, it.shards, it.documents, it.names, it.sizes, it.root, it.corpora, it.troubles,
       it.folders);
}
template <class Each>
void members(Each& each, Header& it) {
  each(it.kind, it.number, it.run);
}

std::optional<Header> header_of(std::string_view line) {
  Header header;
  const bool read = unarchived(line, header, [] {});
  if (!read || header.number < 1 || header.number > header.run.shards) return std::nullopt;
  return header;
}

// What stands before the document itself: "ORDER ROOT READ TOUCHED "; 0 is no root.
std::optional<std::array<std::uint64_t, 4>> numbers_before(std::string_view& line) {
  std::array<std::uint64_t, 4> numbers{};
  for (std::uint64_t& number : numbers) {
    const auto [end, error] = std::from_chars(line.data(), line.data() + line.size(), number);
    if (error != std::errc() || end == line.data() + line.size() || *end != ' ') return std::nullopt;
    line.remove_prefix(static_cast<std::size_t>(end - line.data()) + 1);
  }
  return numbers;
}

// The text without its checksum, where that is right.
std::optional<std::string_view> whole(std::string_view text) {
  const std::size_t end = text.rfind(end_of_file);
  if (end == std::string_view::npos ||
      text.substr(end) != fmt::format("{}{}\n", end_of_file, sha256(text.substr(0, end))))
    return std::nullopt;
  return text.substr(0, end);
}

std::unique_ptr<Root> root_of(const Of_run::Corpus_text& corpus) {
  auto root = std::make_unique<Root>();
  root->folder = corpus.folder;
  if (corpus.text.empty()) return root; // it had errors, and was no root to speak of
  root->read = read_json(corpus.path, corpus.text);
  root->corpus = root->read.document.corpus();
  return root;
}

bool add_documents(std::string_view lines, std::span<const std::unique_ptr<Root>> roots, Joined& into) {
  while (!lines.empty()) {
    std::string_view line = cut(lines, '\n');
    const auto numbers = numbers_before(line);
    auto linted = numbers ? linted_of(line) : std::nullopt;
    if (!linted || (*numbers)[1] > roots.size()) return false;
    Gathered& document = into.documents.emplace_back();
    document.order = (*numbers)[0];
    document.root = (*numbers)[1] == 0 ? nullptr : roots[(*numbers)[1] - 1].get();
    document.read = (*numbers)[2] == 1;
    document.touched = (*numbers)[3] == 1;
    document.linted = std::move(*linted);
  }
  return true;
}

// Which of them are missing, or nothing.
std::string missing(const std::map<std::uint64_t, std::string_view>& by_number, std::uint64_t shards) {
  std::string names;
  for (std::uint64_t number = 1; number <= shards && names.size() < 100; ++number)
    if (!by_number.contains(number))
      names += fmt::format("{}{}/{}", names.empty() ? "" : ", ", number, shards);
  return names;
}

}

std::string shard_problem(const Shard& shard) {
  if (shard.number >= 1 && shard.number <= shard.of) return {};
  return fmt::format("there is no shard {}/{}: its number is from 1 to how many there are", shard.number,
                     shard.of);
}

bool is_of_shard(const Gathered& document, const Shard& shard) {
  std::error_code error;
  std::filesystem::path path = document.linted.file;
  if (document.root != nullptr)
    if (auto inside = std::filesystem::proximate(path, document.root->folder, error); !error) path = inside;
  return stable_hash(path.generic_string()) % shard.of == shard.number - 1;
}

std::string shard_text(const Shard& shard, const Gathering& gathering,
                       const std::vector<std::string>& troubles) {
  Header header;
  header.number = shard.number;
  header.run.fingerprint = fingerprint();
  header.run.shards = shard.of;
  header.run.documents = gathering.all;
  header.run.names = gathering.names;
  header.run.sizes = gathering.sizes;
  header.run.root = gathering.root;
  header.run.troubles = troubles;
  header.run.folders = gathering.folders;
  std::map<const Root*, std::size_t> number_of = {{nullptr, 0}};
  for (const Root* root : gathering.roots) {
    number_of.emplace(root, number_of.size());
    header.run.corpora.push_back({root->folder.string(), root->read.document.name(),
                                  root->corpus ? std::string(root->read.document.text()) : std::string(),
                                  hash_of_surroundings(*root)});
  }
  std::string text = archived(header) + '\n';
  for (const Gathered& document : gathering.documents)
    text += fmt::format("{} {} {:d} {:d} {}\n", document.order, number_of.at(document.root), document.read,
                        document.touched, kept_text(document.linted));
  return text + fmt::format("{}{}\n", end_of_file, sha256(text));
}

namespace {
// Shards as they come, in any order.
struct Joining {
  Joined all;
  std::optional<Header> first;
  std::string_view first_name;
  std::map<std::uint64_t, std::string_view> by_number;
};
}

// Why a shard cannot be joined with those before it, or nothing.
static std::string add_shard(Joining& joining, const Shard_file& shard) {
  std::string_view text = shard.text;
  if (!text.starts_with(fmt::format("[\"{}\"", kind_of_file)))
    return "is no report of a shard; write one with `ohmlore lint --shard N/OF --report shard=FILE`";
  const auto checked = whole(text);
  if (!checked)
    return "is torn or was changed: its checksum is not that of what it holds; run this shard again";
  text = *checked;
  constexpr std::string_view unknown = "is not what this program writes; run this shard again";
  const auto header = header_of(cut(text, '\n'));
  if (!header) return std::string(unknown);
  if (header->run.fingerprint != fingerprint())
    return "was written by another version of this program; run its shard again with this one";
  auto& first = joining.first;
  if (!first) {
    first = header;
    joining.first_name = shard.name;
    for (const Of_run::Corpus_text& corpus : header->run.corpora)
      joining.all.roots.push_back(root_of(corpus));
  }
  if (header->run.shards != first->run.shards)
    return fmt::format("is one of {} shards, and {} is one of {}", header->run.shards, joining.first_name,
                       first->run.shards);
  if (header->run != first->run)
    return fmt::format("is of another run than {}: the documents, the corpus or the request are not the "
                       "same; run all shards on the same files",
                       joining.first_name);
  const auto [same_number, fresh] = joining.by_number.emplace(header->number, shard.name);
  if (!fresh)
    return same_number->second == shard.name
               ? "was given twice; leave one out"
               : fmt::format("is shard {}/{}, as {} is; leave one out", header->number, header->run.shards,
                             same_number->second);
  return add_documents(text, joining.all.roots, joining.all) ? std::string() : std::string(unknown);
}

// Whether these are all documents of the run, each once; puts them in order.
static bool are_all_documents(Joined& all, const Of_run& run) {
  std::sort(all.documents.begin(), all.documents.end(),
            [](const Gathered& a, const Gathered& b) { return a.order < b.order; });
  std::string names;
  bool in_order = all.documents.size() == run.documents;
  for (std::size_t i = 0; i < all.documents.size(); ++i) {
    in_order = in_order && all.documents[i].order == i;
    (names += all.documents[i].linted.file) += '\n';
  }
  return in_order && sha256(names) == run.names;
}

Joined joined(std::span<const Shard_file> shards, std::vector<std::string>& problems) {
  Joining joining;
  if (shards.empty()) problems.emplace_back("no shard is given");
  for (const Shard_file& shard : shards)
    if (const std::string problem = add_shard(joining, shard); !problem.empty())
      problems.push_back(fmt::format("{}: {}", shard.name, problem));
  if (!problems.empty() || !joining.first) return {};
  const Of_run& run = joining.first->run;
  if (const std::string names = missing(joining.by_number, run.shards); !names.empty()) {
    problems.push_back(
        fmt::format("{} of {} shards are here; missing: {}", joining.by_number.size(), run.shards, names));
    return {};
  }
  Joined& all = joining.all;
  if (!are_all_documents(all, run)) {
    problems.emplace_back("the shards do not hold the documents that they name; run all of them again");
    return {};
  }
  all.troubles = run.troubles;
  all.folders = run.folders;
  if (!run.root.empty()) all.root = run.root;
  return std::move(all);
}

}
