// Facts of many documents: kept, and held against each other.
#include <algorithm>
#include <bit>
#include <cstring>
#include <functional>

#include "lint/kept_texts.h"
#include "lint/worked_out.h"
#include "ohmlore/lint.h"

namespace ohmlore {

// The same on every machine: marks are kept in files.
static std::uint64_t mixed(std::uint64_t hash, std::string_view text) {
  // Odd constant: multiplicative hashing (Knuth, volume 3, 6.4). The length keeps "ab" "c" from "a" "bc".
  const auto mix = [&](std::uint64_t more) {
    hash = (hash ^ more) * 0x9E3779B97F4A7C15u;
    hash ^= hash >> 32;
  };
  mix(text.size());
  for (; text.size() >= 8; text.remove_prefix(8)) {
    std::uint64_t eight;
    std::memcpy(&eight, text.data(), 8);
    if constexpr (std::endian::native == std::endian::big) eight = __builtin_bswap64(eight);
    mix(eight);
  }
  std::uint64_t rest = 0;
  for (const char c : text) rest = rest << 8 | static_cast<unsigned char>(c);
  mix(rest);
  return hash;
}

// The lowest bit of a key says that its rule judges lone facts.
constexpr std::uint64_t lone = 1;

bool Fact_sink::wants(std::string_view key, std::initializer_list<std::string_view> said) {
  if (marks_ == nullptr) return true;
  const std::uint64_t hash = mixed(mixed(0, rule_.slug), key);
  Fact_mark mark{rule_.rule->judges_lone_facts ? hash | lone : hash & ~lone, 1};
  for (const std::string_view words : said) mark.said = mixed(mark.said, words);
  marks_->push_back(mark);
  return facts_ != nullptr;
}

void Fact_sink::add(Node_id node, std::string_view key, std::string_view value, std::string_view text) {
  const Node& n = document_.node(node);
  Fact& fact = facts_->emplace_back();
  fact.rule = rule_.slug;
  fact.key = texts_->keep(key);
  fact.value = texts_->keep(value);
  fact.text = texts_->keep(text);
  fact.region.begin = n.begin;
  fact.region.end = n.end;
  fact.pointer = texts_->keep(document_.pointer(node));
}

// All texts of the facts in one piece, so that neither the document nor room for more is kept.
void keep_texts(std::string_view file, std::string_view document, std::span<Fact> facts) {
  std::size_t size = file.size() + document.size();
  const auto each_text = [](Fact& fact, auto f) {
    for (std::string_view* text : {&fact.key, &fact.value, &fact.text, &fact.pointer, &fact.source_line})
      f(*text);
  };
  for (Fact& fact : facts) each_text(fact, [&](std::string_view& text) { size += text.size(); });
  std::shared_ptr<char[]> texts(new char[size]);
  char* at = std::copy(file.begin(), file.end(), texts.get());
  at = std::copy(document.begin(), document.end(), at);
  for (Fact& fact : facts) {
    fact.file = {texts.get(), file.size()};
    fact.document = {texts.get() + file.size(), document.size()};
    each_text(fact, [&](std::string_view& text) {
      char* const begin = at;
      at = std::copy(text.begin(), text.end(), at);
      text = {begin, text.size()};
    });
  }
  for (Fact& fact : facts) fact.texts = texts;
}

Finding finding_of(const Fact& fact, Severity severity, std::string message) {
  Finding finding;
  finding.rule = fact.rule;
  finding.severity = severity;
  finding.file = fact.file;
  finding.region = fact.region;
  finding.pointer = fact.pointer;
  finding.message = std::move(message);
  finding.source_line = fact.source_line;
  finding.source_column = fact.source_column;
  finding.value = fact.value.empty() ? fact.key : fact.value;
  return finding;
}

Related related_of(const Fact& fact, std::string message) {
  return {std::string(fact.file), fact.region, std::move(message)};
}

// A fact that is not alone would seem so where the other documents of its key are left out: one of them comes
// along, that with the fewest facts of its own.
static void add_companions(std::span<const Linted> linted, std::vector<bool>& wanted) {
  std::vector<std::pair<std::uint64_t, std::size_t>> said; // key, and by which document
  for (std::size_t i = 0; i < linted.size(); ++i)
    for (const Fact_mark& mark : linted[i].marks)
      if (mark.key & lone) said.emplace_back(mark.key, i);
  std::sort(said.begin(), said.end());
  for (bool changed = true; changed;) {
    changed = false;
    for (auto first = said.begin(), last = first; first != said.end(); first = last) {
      last = std::find_if(first, said.end(), [&](const auto& one) { return one.first != first->first; });
      const auto chosen = std::count_if(first, last, [&](const auto& one) { return wanted[one.second]; });
      if (last - first < 2 || chosen != 1) continue;
      const auto weight = [&](const auto& one) {
        return wanted[one.second] ? std::string_view::npos : linted[one.second].marks.size();
      };
      const auto lightest =
          std::min_element(first, last, [&](const auto& a, const auto& b) { return weight(a) < weight(b); });
      wanted[lightest->second] = true;
      changed = true;
    }
  }
}

std::vector<std::size_t> contested(std::span<const Linted> linted) {
  std::vector<bool> wanted(linted.size());
  struct Said {
    Fact_mark mark;
    std::size_t by;
  };
  std::vector<Said> said;
  // Some of the keys after others: all of them at once would double what the marks of a large corpus take.
  std::size_t marks = 0;
  for (const Linted& one : linted) marks += one.marks.size();
  constexpr std::size_t enough = 1 << 16;
  const std::uint64_t parts = std::min<std::uint64_t>(marks / enough + 1, 16);
  for (std::uint64_t part = 0; part < parts; ++part) {
    said.clear();
    for (std::size_t i = 0; i < linted.size(); ++i)
      for (const Fact_mark& mark : linted[i].marks)
        if ((mark.key >> 32) % parts == part) said.push_back({mark, i});
    std::sort(said.begin(), said.end(), [](const Said& a, const Said& b) {
      return std::tie(a.mark.key, a.mark.said) < std::tie(b.mark.key, b.mark.said);
    });
    for (auto first = said.begin(), last = first; first != said.end(); first = last) {
      last = std::find_if(first, said.end(), [&](const Said& s) { return s.mark.key != first->mark.key; });
      const bool is_alone = last - first == 1, agree = first->mark.said == (last - 1)->mark.said;
      if ((first->mark.key & lone) ? is_alone : !agree)
        for (auto each = first; each != last; ++each) wanted[each->by] = true;
    }
  }
  add_companions(linted, wanted);
  std::vector<std::size_t> documents;
  for (std::size_t i = 0; i < linted.size(); ++i)
    if (wanted[i]) documents.push_back(i);
  return documents;
}

std::vector<Finding> judge_facts(std::vector<Fact> facts, const std::set<std::string, std::less<>>* files) {
  // By key, in any order that brings the same together; within a key as a rule expects it.
  std::vector<std::pair<std::size_t, const Fact*>> order;
  order.reserve(facts.size());
  for (const Fact& fact : facts) order.emplace_back(std::hash<std::string_view>()(fact.key), &fact);
  std::sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
    if (a.first != b.first) return a.first < b.first;
    const auto all = [](const Fact& f) {
      return std::tie(f.rule, f.key, f.value, f.document, f.file, f.pointer);
    };
    return all(*a.second) < all(*b.second);
  });
  std::vector<Finding> findings;
  std::vector<Fact> together;
  for (std::size_t first = 0, last; first < order.size(); first = last) {
    const Fact& fact = *order[first].second;
    last = first + 1;
    while (last < order.size() && order[last].first == order[first].first &&
           order[last].second->rule == fact.rule && order[last].second->key == fact.key)
      ++last;
    const Rule& rule = rule_of(fact.rule);
    if (rule.judge == nullptr) continue;
    if ((last - first < 2) != rule.judges_lone_facts) continue; // nothing to disagree with, as most
    together.clear();
    for (std::size_t i = first; i < last; ++i) together.push_back(*order[i].second);
    if (files != nullptr && !rule.judges_lone_facts &&
        std::none_of(together.begin(), together.end(),
                     [&](const Fact& f) { return files->contains(f.file); }))
      continue;
    rule.judge(together, rule.severity, findings);
  }
  // In an order that no hash decides.
  const auto place_of = [](const Finding& f) { return std::tie(f.file, f.region.begin, f.rule, f.message); };
  std::stable_sort(findings.begin(), findings.end(),
                   [&](const Finding& a, const Finding& b) { return place_of(a) < place_of(b); });
  return findings;
}

}
