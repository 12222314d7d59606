#include "corpus/cache.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/fingerprint.h"
#include "corpus/kept.h"
#include "ohmlore/corpus.h"
#include "text/calendar.h"
#include "text/cut.h"
#include "text/sha256.h"

namespace ohmlore {
namespace {

// Told to people, and to know a file that may be written anew.
constexpr std::string_view first_line = "ohmlore cache: made by `ohmlore lint --cache`; it may be deleted\n";
constexpr std::string_view least_of_it = "ohmlore cache";
// Each other line is "DAY KEY CHECKSUM PARTS DOCUMENT": the day it was last asked for, from 1970; its parts
// "ID=HASH,…" or "-"; the checksum is over the key and all behind it.
// In the place of an id: what could not be read may name any part, so that all that are there matter.
constexpr std::string_view any_part = "*";
constexpr int days_kept = 30;
constexpr std::size_t length_of_hash = 64;

std::optional<int> number_of(std::string_view digits) {
  int number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
  return number;
}

// YYYY-MM-DD as days from 1970; 0 where it is none.
int day_of(std::string_view date) {
  constexpr std::size_t full = 10;
  if (date.size() != full || !is_date(date) || !calendar_day(date).ok()) return 0;
  return static_cast<int>(std::chrono::sys_days(calendar_day(date)).time_since_epoch().count());
}

std::string checksum(std::string_view key, std::string_view rest) {
  return sha256(fmt::format("{} {}", key, rest));
}

bool is_whole(std::string_view key, std::string_view line) {
  const std::string_view stated = cut(line, ' ');
  return stated == checksum(key, line);
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

Cache::Cache(const std::string& file, Kept_facts facts, const std::vector<const Root*>& roots,
             std::string_view today)
    : file_(file), facts_(facts), today_(day_of(today)) {
  for (const Root* root : roots) {
    Root_hashes& hashes = roots_[root];
    hashes.corpus = hash_of_corpus(*root);
    for (const auto& [id, document] : root->parts) {
      hashes.parts[&document] = hash_of({document.name(), document.text()});
      hashes.ids = hash_of({hashes.ids, id});
    }
  }
  std::string why;
  text_ = read_file(file, why, any_size).value_or("");
  bool one_is_whole = false;
  for (std::string_view rest = text_; !rest.empty();) {
    std::string_view line = cut(rest, '\n');
    const auto day = number_of(cut(line, ' '));
    const std::string_view key = cut(line, ' ');
    if (!day || key.size() != length_of_hash) continue;
    entries_.emplace(key, Entry{*day, line});
  }
  const std::string_view begin = std::string_view(text_).substr(0, first_line.size());
  const bool is_ours = text_.empty() || begin == first_line ||
                       (begin.starts_with(least_of_it) && first_line.starts_with(begin));
  for (const auto& [key, entry] : entries_) // where only its first line is damaged
    if (!is_ours && !one_is_whole) one_is_whole = is_whole(key, entry.line);
  foreign_ = !is_ours && !one_is_whole;
}

const Cache::Root_hashes& Cache::hashes_of(const Root* root) const {
  static const Root_hashes none;
  const auto found = roots_.find(root);
  return found == roots_.end() ? none : found->second;
}

std::optional<std::string> Cache::parts_of(const Root* root, const std::vector<std::string>& ids) const {
  std::string all;
  for (const std::string& id : ids) {
    const Document* part = root ? root->parts.find(id) : nullptr;
    if (part == nullptr && id != any_part) return std::nullopt;
    const Root_hashes& hashes = hashes_of(root);
    all += fmt::format("{}{}={}", all.empty() ? "" : ",", id,
                       id == any_part ? hashes.ids : hashes.parts.at(part));
  }
  return all.empty() ? "-" : all;
}

std::string Cache::key_of(const Root* root, std::string_view name, std::string_view bytes) const {
  const std::string_view facts = facts_ == Kept_facts::whole ? "whole" : "marks";
  return hash_of({fingerprint(), facts, hashes_of(root).corpus, name, bytes});
}

std::optional<Remembered> Cache::find(const std::string& key, const Root* root) {
  const auto found = entries_.find(key);
  if (foreign_ || found == entries_.end() || !is_whole(key, found->second.line)) return std::nullopt;
  std::string_view line = found->second.line;
  cut(line, ' ');
  const std::string_view parts = cut(line, ' ');
  Remembered out;
  for (std::string_view rest = parts == "-" ? "" : parts; !rest.empty();) {
    std::string_view part = cut(rest, ',');
    out.parts.emplace_back(cut(part, '='));
  }
  if (parts_of(root, out.parts) != parts) return std::nullopt;
  std::erase(out.parts, any_part);
  auto linted = linted_of(line);
  if (!linted) return std::nullopt;
  out.linted = std::move(*linted);
  const std::scoped_lock lock(mutex_);
  found->second.day = today_;
  return out;
}

void Cache::add(const std::string& key, const Root* root, const Document& document, const Linted& linted) {
  std::vector<std::string> ids = parts_named(document);
  if (!document.complete()) ids.emplace_back(any_part);
  const auto parts = parts_of(root, ids);
  if (!linted.troubles.empty() || !parts) return;
  const std::string rest = fmt::format("{} {}", *parts, kept_text(linted));
  std::string line = fmt::format("{} {} {} {}\n", today_, key, checksum(key, rest), rest);
  const std::scoped_lock lock(mutex_);
  fresh_.emplace(key, std::move(line));
}

void Cache::write(std::vector<std::string>& troubles) const {
  if (foreign_) {
    troubles.push_back(fmt::format("{}: not used as cache and not written: it holds something else", file_));
    return;
  }
  std::vector<std::string> lines;
  for (const auto& [key, line] : fresh_) lines.push_back(line);
  for (const auto& [key, entry] : entries_)
    if (!fresh_.contains(std::string(key)) && entry.day <= today_ && today_ - entry.day <= days_kept)
      lines.push_back(fmt::format("{} {} {}\n", entry.day, key, entry.line));
  std::sort(lines.begin(), lines.end()); // the same bytes, whichever thread was first
  std::string text(first_line), why;
  for (const std::string& line : lines) text += line;
  if (text != text_ && !write_file(file_, text, why))
    troubles.push_back(fmt::format("{}: the cache cannot be written: {}", file_, why));
}

}
