#include "corpus/cache.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "corpus/fingerprint.h"
#include "corpus/kept.h"
#include "ohmlore/corpus.h"
#include "text/sha256.h"

namespace ohmlore {
namespace {

// Told to people, and to know a file that may be written anew.
constexpr std::string_view first_line = "ohmlore cache: made by `ohmlore lint --cache`; it may be deleted\n";
// Each other line is "AGE KEY CHECKSUM PARTS DOCUMENT", its parts "ID=HASH,…" or "-". The checksum is over
// all behind it and the key.
constexpr int oldest = 8;
constexpr std::size_t length_of_hash = 64;

std::string_view next_word(std::string_view& line) {
  const std::size_t end = std::min(line.find(' '), line.size());
  const std::string_view word = line.substr(0, end);
  line.remove_prefix(std::min(end + 1, line.size()));
  return word;
}

std::string checksum(std::string_view key, std::string_view rest) {
  return sha256(fmt::format("{} {}", key, rest));
}

// Of texts that cannot run into each other.
std::string hash_of(std::initializer_list<std::string_view> texts) {
  std::string all;
  for (const std::string_view text : texts) all += fmt::format("{}:{}", text.size(), text);
  return sha256(all);
}

}

std::vector<std::string> parts_named(const Document& document) {
  std::vector<std::string> ids;
  if (const Profile* profile = document.profile())
    for (const auto& component : profile->components)
      if (component.value.part) ids.emplace_back(*component.value.part);
  std::sort(ids.begin(), ids.end());
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  return ids;
}

Cache::Cache(const std::string& file, Kept_facts facts, const std::vector<const Root*>& roots)
    : file_(file), what_(facts == Kept_facts::whole ? "whole" : "marks") {
  for (const Root* root : roots) {
    Root_hashes& hashes = roots_[root];
    const std::string_view house = root->house_schema ? root->house_schema->document.text() : "";
    hashes.corpus = hash_of({root->read.document.text(), house});
    for (const auto& [id, document] : root->parts)
      hashes.parts[&document] = hash_of({document.name(), document.text()});
  }
  std::string why;
  constexpr std::size_t any_size = std::string::npos - 1;
  text_ = read_file(file, why, any_size).value_or("");
  for (std::string_view rest = text_; !rest.empty();) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    std::string_view line = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    Entry entry;
    const std::string_view age = next_word(line), key = next_word(line);
    if (std::from_chars(age.data(), age.data() + age.size(), entry.age).ec != std::errc() || entry.age < 0 ||
        key.size() != length_of_hash)
      continue;
    ++entry.age;
    entry.line = line;
    entries_.emplace(key, entry);
  }
  const std::string_view begin = std::string_view(text_).substr(0, first_line.size());
  foreign_ = !first_line.starts_with(begin) && entries_.empty();
}

const Cache::Root_hashes& Cache::hashes_of(const Root* root) const {
  static const Root_hashes none;
  const auto found = roots_.find(root);
  return found == roots_.end() ? none : found->second;
}

std::string_view Cache::hash_of_part(const Root* root, std::string_view id) const {
  const Document* part = root != nullptr && root->corpus != nullptr ? root->parts.find(id) : nullptr;
  return part != nullptr ? std::string_view(hashes_of(root).parts.at(part)) : std::string_view();
}

std::string Cache::key_of(const Root* root, std::string_view name, std::string_view bytes) const {
  return hash_of({fingerprint(), what_, hashes_of(root).corpus, name, bytes});
}

std::optional<Remembered> Cache::find(const std::string& key, const Root* root) {
  const auto found = entries_.find(key);
  if (found == entries_.end()) return std::nullopt;
  std::string_view line = found->second.line;
  if (next_word(line) != checksum(key, line)) return std::nullopt;
  Remembered out;
  std::string_view parts = next_word(line);
  while (!parts.empty() && parts != "-") {
    const std::size_t end = std::min(parts.find(','), parts.size());
    const std::string_view part = parts.substr(0, end);
    parts.remove_prefix(std::min(end + 1, parts.size()));
    const std::size_t sign = std::min(part.find('='), part.size());
    const std::string_view id = part.substr(0, sign), hash = part.substr(std::min(sign + 1, part.size()));
    if (hash.empty() || hash != hash_of_part(root, id)) return std::nullopt;
    out.parts.emplace_back(id);
  }
  auto linted = linted_of(line);
  if (!linted) return std::nullopt;
  out.linted = std::move(*linted);
  const std::scoped_lock lock(mutex_);
  found->second.age = 0;
  return out;
}

void Cache::add(const std::string& key, const Root* root, const Document& document, const Linted& linted) {
  if (!linted.troubles.empty()) return;
  std::string parts;
  for (const std::string& id : parts_named(document)) {
    const std::string_view hash = hash_of_part(root, id);
    if (hash.empty()) return;
    parts += fmt::format("{}{}={}", parts.empty() ? "" : ",", id, hash);
  }
  const std::string rest = fmt::format("{} {}", parts.empty() ? "-" : parts, kept_text(linted));
  std::string line = fmt::format("0 {} {} {}\n", key, checksum(key, rest), rest);
  const std::scoped_lock lock(mutex_);
  fresh_.push_back(std::move(line));
}

void Cache::write(std::vector<std::string>& troubles) const {
  if (foreign_) {
    troubles.push_back(fmt::format("{}: not used as cache and not written: it holds something else", file_));
    return;
  }
  std::vector<std::string> lines = fresh_;
  for (const auto& [key, entry] : entries_)
    if (entry.age <= oldest) lines.push_back(fmt::format("{} {} {}\n", entry.age, key, entry.line));
  std::sort(lines.begin(), lines.end()); // the same bytes, whichever thread was first
  std::string text(first_line), why;
  for (const std::string& line : lines) text += line;
  if (!write_file(file_, text, why))
    troubles.push_back(fmt::format("{}: the cache cannot be written: {}", file_, why));
}

}
