#include <algorithm>
#include <bit>
#include <charconv>
#include <cstring>
#include <deque>
#include <exception>
#include <functional>
#include <map>

#include <fmt/format.h>

#include "document/findings.h"
#include "lint/kept_texts.h"
#include "lint/until.h"
#include "lint/worked_out.h"
#include "ohmlore/lint.h"

namespace ohmlore {

std::string_view name_of(Family family) {
  static constexpr std::string_view names[] = {"json", "shape",  "unit",   "band",   "ntc",     "ptc",
                                               "rtd",  "copper", "heater", "coil",   "network", "meter",
                                               "pin",  "fault",  "safety", "source", "corpus"};
  return names[static_cast<std::size_t>(family)];
}

std::string_view name_of(Rule_status status) {
  static constexpr std::string_view names[] = {"preview", "stable", "deprecated"};
  return names[static_cast<std::size_t>(status)];
}

// Positions are for the end: few documents have many findings, and counting lines is dear.
Finding& Sink::report_as(Severity severity, Node_id node, std::string message) {
  const Node& n = document_.node(node);
  return findings_.emplace_back(
      unplaced_finding(document_, rule_, severity, node, n.begin, n.end, std::move(message)));
}

void Sink::relate(const Document& document, Node_id node, std::string message) {
  if (&document != &document_)
    findings_.back().related.push_back(related_at(document, node, std::move(message)));
  else
    findings_.back().related.push_back(
        {document.name(), {document.node(node).begin, document.node(node).end, {}, {}}, std::move(message)});
}

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
  return false;
}

void Fact_sink::add(Node_id node, std::string_view key, std::string_view value, std::string_view text) {
  const Node& n = document_.node(node);
  Fact& fact = facts_->emplace_back();
  fact.rule = rule_.slug;
  fact.key = kept(*texts_, key);
  fact.value = kept(*texts_, value);
  fact.text = kept(*texts_, text);
  fact.region.begin = n.begin;
  fact.region.end = n.end;
  fact.pointer = kept(*texts_, document_.pointer(node));
}

// What rules found and what they said, in one pass over the text.
static void place(std::string_view text, std::span<Finding> findings, std::span<Fact> facts) {
  std::vector<Place> places;
  add_places(findings, places);
  for (Fact& fact : facts) add_places(fact.region, places);
  ohmlore::place(text, std::move(places));
  show_lines(text, findings);
  for (Fact& fact : facts) {
    const Shown_line line = shown_line(text, fact.region);
    fact.source_line = line.text;
    fact.source_column = line.column;
  }
}

// All texts of the facts in one piece, so that neither the document nor room for more is kept.
void keep_texts(std::string_view file, std::span<Fact> facts) {
  std::size_t size = file.size();
  const auto each_text = [](Fact& fact, auto f) {
    for (std::string_view* text : {&fact.key, &fact.value, &fact.text, &fact.pointer, &fact.source_line})
      f(*text);
  };
  for (Fact& fact : facts) each_text(fact, [&](std::string_view& text) { size += text.size(); });
  std::shared_ptr<char[]> texts(new char[size]);
  char* at = std::copy(file.begin(), file.end(), texts.get());
  for (Fact& fact : facts) {
    fact.file = {texts.get(), file.size()};
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

const Rule_entry* find_rule(std::string_view slug) {
  const auto rules = all_rules();
  const auto found =
      std::lower_bound(rules.begin(), rules.end(), slug,
                       [](const Rule_entry& entry, std::string_view s) { return entry.slug < s; });
  return found != rules.end() && found->slug == slug ? &*found : nullptr;
}

const Rule& rule_of(std::string_view slug) {
  static constexpr Rule of_any_reader = {.summary = "A reader refuses what stands here."};
  const Rule_entry* entry = find_rule(slug);
  return entry != nullptr ? *entry->rule : of_any_reader;
}

std::string name_of(Ruleset ruleset) { return fmt::format("{}.{}", ruleset.major, ruleset.minor); }

std::string life_of(const Rule& rule) {
  if (rule.status == Rule_status::deprecated)
    return fmt::format("{}, replaced by {}", name_of(rule.status), rule.replaced_by);
  const bool since_later = rule.status == Rule_status::stable && rule.since != Ruleset{};
  return fmt::format("{}{}", name_of(rule.status), since_later ? " since " + name_of(rule.since) : "");
}

std::optional<Ruleset> ruleset_of(std::string_view text) {
  if (!is_version(text)) return std::nullopt;
  const std::size_t point = text.find('.');
  const auto number = [](std::string_view digits) {
    unsigned value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
  };
  return Ruleset{number(text.substr(0, point)), number(text.substr(point + 1))};
}

static std::optional<Ruleset> pinned(const Corpus& corpus) {
  return corpus.policy.ruleset ? ruleset_of(*corpus.policy.ruleset) : std::nullopt;
}

bool may_fail(const Rule& rule, const Corpus* corpus) {
  if (rule.status == Rule_status::preview) return false;
  const auto most = corpus != nullptr ? pinned(*corpus) : std::nullopt;
  return !most || rule.since <= *most;
}

bool fails(const Finding& finding, Severity fail_on, const Corpus* corpus) {
  return finding.severity >= fail_on && may_fail(rule_of(finding.rule), corpus);
}

std::string ruleset_problem(const Corpus& corpus, Ruleset known) {
  const auto asked = pinned(corpus);
  if (asked && *asked < Ruleset{})
    return fmt::format(
        "`ruleset` of the policy is {}, and the first set of rules is {}: no rule could fail; name "
        "a set that there is",
        name_of(*asked), name_of(Ruleset{}));
  if (!asked || *asked <= known) return {};
  return fmt::format(
      "`ruleset` of the policy is {}, and this program knows the rules up to {}; upgrade the program",
      name_of(*asked), name_of(known));
}

bool can_be_waived(const Rule& rule) { return rule.check != nullptr || rule.judge != nullptr; }

// Why a waiver waives nothing, or nothing where that cannot be said.
static std::string why_unused(const Document& document, const Waiver& waiver, bool all_rules_ran) {
  const Rule_entry* entry = find_rule(*waiver.rule);
  if (entry == nullptr) return {}; // waiver-rule-unknown says so
  if (!can_be_waived(*entry->rule))
    return fmt::format("what {} finds cannot be waived: what is refused is not read; mend it", entry->slug);
  if (document.find(*waiver.at) == 0)
    return fmt::format(
        "there is no {} in this document; name the place of the finding, or a record around it",
        printable(*waiver.at));
  if (!all_rules_ran) return {};
  return fmt::format("nothing at {} is found by {} any more; remove this waiver", printable(*waiver.at),
                     entry->slug);
}

// Rules keep silent about what was not read, and about a part that was not found.
static bool all_could_run(const Read_result& read, const Resolved& resolved) {
  return std::none_of(read.findings.begin(), read.findings.end(),
                      [](const Finding& finding) { return finding.severity == Severity::error; }) &&
         std::all_of(resolved.components.begin(), resolved.components.end(),
                     [](const Resolved_component& c) { return !c.lacks_part(); });
}

static void keep_waivers(const Read_result& read, Linted& linted) {
  const List<Waiver>* waivers = read.document.waivers();
  if (waivers == nullptr) return;
  std::vector<Finding> unused;
  for (const Waiver& waiver : *waivers) {
    if (!waiver.rule || !waiver.at) continue;
    const Node& n = read.document.node(waiver.node);
    linted.waivers.push_back({std::string(*waiver.rule),
                              std::string(*waiver.at),
                              std::string(*waiver.why),
                              std::string(*waiver.until),
                              {}});
    unused.push_back(unplaced_finding(read.document, "waiver-unused", Severity::warning, waiver.node, n.begin,
                                      n.end, why_unused(read.document, waiver, linted.all_rules_ran)));
  }
  place(read.document.text(), unused);
  for (std::size_t i = 0; i < unused.size(); ++i) linted.waivers[i].unused = std::move(unused[i]);
}

// By the tree: what has a syntax error behind its id is known by that id all the same.
static std::string name_in_keys(const Document& document) {
  if (document.nodes().size() <= Document::root) return {};
  const Node_id kind = document.member(Document::root, "kind"), id = document.member(Document::root, "id");
  const auto is_text = [&](Node_id node) {
    return node != 0 && document.node(node).type == Node_type::string;
  };
  if (!is_text(kind) || !is_text(id) || !is_id(document.string(id))) return {};
  const Text word = document.string(kind);
  return word == "profile" || word == "part" ? fmt::format("{} {}", word, document.string(id)) : "";
}

namespace {
// A document while rules look at it.
struct In_hand {
  const Read_result& read;
  Linted linted;
  const Resolved resolved;
  const Subject subject;

  In_hand(const Read_result& document, const Surroundings& surroundings)
      : read(document),
        resolved(document.document.whole() ? resolve(document.document, surroundings) : Resolved{}),
        subject(document.document, resolved) {
    linted.file = document.document.name();
    linted.document = name_in_keys(document.document);
    linted.findings = document.findings;
    // Of what kind or version nobody knows, the reader looks at no more than that.
    const Document& d = document.document;
    const bool decoded = d.profile() != nullptr || d.part() != nullptr || d.corpus() != nullptr;
    linted.whole = d.whole() && decoded && document.findings.size() < most_findings;
  }
};
}

static void collect(const Rule_entry& entry, const Subject& subject, Fact_sink sink) {
  if (entry.rule->collect) entry.rule->collect(subject, sink);
}

static void run(const Rule_entry& entry, In_hand& hand, Arena& texts, Kept_facts kept) try {
  const Document& document = hand.read.document;
  if (entry.rule->check) {
    Sink sink(document, entry.slug, entry.rule->severity, hand.linted.findings);
    entry.rule->check(hand.subject, sink);
  }
  if (kept == Kept_facts::whole)
    collect(entry, hand.subject, Fact_sink(document, entry, texts, hand.linted.facts));
  else
    collect(entry, hand.subject, Fact_sink(document, entry, hand.linted.marks));
} catch (const std::exception& thrown) { // a defect of the rule: said, so that no gate is green by it
  hand.linted.troubles.push_back(
      fmt::format("{}: the rule {} could not do its work: {}", hand.linted.file, entry.slug, thrown.what()));
}

// An error keeps its severity: policy speaks of what is implausible, could be better, or is asked for by the
// house itself.
static Severity severity_under(const Corpus& corpus, const Finding& finding) {
  if (finding.severity == Severity::error && !rule_of(finding.rule).is_of_the_house) return finding.severity;
  const auto* entry = corpus.policy.severities.find(finding.rule);
  return entry != nullptr && entry->value ? *entry->value : finding.severity;
}

// What rules found and the policy switches off is not kept, unless a waiver may speak of it.
static void drop_switched_off(In_hand& hand) {
  const Corpus* corpus = hand.resolved.surroundings.corpus;
  const List<Waiver>* waivers = hand.read.document.waivers();
  if (corpus == nullptr || !corpus->policy.severities || (waivers != nullptr && !waivers->empty())) return;
  auto& findings = hand.linted.findings;
  const auto of_rules = findings.begin() + static_cast<std::ptrdiff_t>(hand.read.findings.size());
  findings.erase(std::remove_if(of_rules, findings.end(),
                                [&](const Finding& finding) {
                                  return severity_under(*corpus, finding) == Severity::off;
                                }),
                 findings.end());
}

static void finish(In_hand& hand, bool with_all_rules) {
  const Document& document = hand.read.document;
  Linted& linted = hand.linted;
  drop_switched_off(hand);
  place(document.text(), std::span(linted.findings).subspan(hand.read.findings.size()), linted.facts);
  keep_texts(linted.file, linted.facts);
  linted.is_corpus = document.corpus() != nullptr;
  linted.all_rules_ran =
      with_all_rules && linted.whole && linted.troubles.empty() && all_could_run(hand.read, hand.resolved);
  keep_waivers(hand.read, linted);
}

// Rules of one family mostly ask the same of a document: one after the other they find it in the caches.
static std::vector<const Rule_entry*> by_family(std::span<const Rule_entry> rules) {
  std::vector<const Rule_entry*> order;
  order.reserve(rules.size());
  for (const Rule_entry& entry : rules) order.push_back(&entry);
  std::stable_sort(order.begin(), order.end(), [](const Rule_entry* a, const Rule_entry* b) {
    return a->rule->family < b->rule->family;
  });
  return order;
}

std::vector<Linted> lint_documents(std::span<const Read_result> read, const Surroundings& surroundings,
                                   std::span<const Rule_entry> rules, Kept_facts kept) {
  std::deque<In_hand> hands; // a subject is not moved
  for (const Read_result& document : read) hands.emplace_back(document, surroundings);
  Arena texts;
  for (const Rule_entry* entry : by_family(rules))
    for (In_hand& hand : hands)
      if (hand.read.document.whole()) run(*entry, hand, texts, kept);
  std::vector<Linted> linted;
  linted.reserve(hands.size());
  for (In_hand& hand : hands) {
    if (hand.read.document.whole()) finish(hand, rules.size() == all_rules().size());
    linted.push_back(std::move(hand.linted));
  }
  return linted;
}

Linted lint_document(const Read_result& read, const Surroundings& surroundings,
                     std::span<const Rule_entry> rules) {
  return std::move(lint_documents({&read, 1}, surroundings, rules).front());
}

std::vector<Fact> facts_of(const Read_result& read, const Surroundings& surroundings) {
  std::vector<Fact> facts;
  const Document& document = read.document;
  if (!document.whole()) return facts;
  const Resolved resolved = resolve(document, surroundings);
  const Subject subject(document, resolved);
  Arena texts;
  for (const Rule_entry& entry : all_rules())
    collect(entry, subject, Fact_sink(document, entry, texts, facts));
  place(document.text(), {}, facts);
  keep_texts(document.name(), facts);
  return facts;
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
  constexpr std::uint64_t parts = 16;
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
    const auto all = [](const Fact& f) { return std::tie(f.rule, f.key, f.value, f.file, f.region.begin); };
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

// A waiver covers its place and all that stands in it.
static bool covers(const Kept_waiver& waiver, const Finding& finding) {
  if (finding.rule != waiver.rule || !can_be_waived(rule_of(finding.rule))) return false;
  const std::string_view at = waiver.at;
  return finding.pointer == at || (finding.pointer.size() > at.size() && finding.pointer.starts_with(at) &&
                                   finding.pointer[at.size()] == '/');
}

static void apply_waivers(Linted& file, bool whole_corpus, const Lint_options& options,
                          std::vector<Finding>& waived) {
  std::vector<Finding> about_waivers;
  for (const Kept_waiver& waiver : file.waivers) {
    const bool expired = has_ended(waiver.until, options.today);
    const auto covered = [&](const Finding& finding) { return covers(waiver, finding); };
    const auto count = std::count_if(file.findings.begin(), file.findings.end(), covered);
    if (count > 0 && !expired) {
      const auto first =
          std::stable_partition(file.findings.begin(), file.findings.end(), std::not_fn(covered));
      for (auto finding = first; finding != file.findings.end(); ++finding) {
        finding->suppressed = {Suppressed_by::waiver, waiver.why};
        waived.push_back(std::move(*finding));
      }
      file.findings.erase(first, file.findings.end());
      continue;
    }
    Finding finding = waiver.unused;
    if (count > 0) {
      finding.rule = "waiver-expired";
      finding.message = fmt::format(
          "this waiver of {} ended on {}; look at the finding again, then give a new date or mend it",
          waiver.rule, waiver.until);
    } else if (const Rule_entry* entry = find_rule(waiver.rule);
               finding.message.empty() || options.part_of_run ||
               (entry->rule->judge != nullptr && !whole_corpus)) {
      continue;
    }
    about_waivers.push_back(std::move(finding));
  }
  std::move(about_waivers.begin(), about_waivers.end(), std::back_inserter(file.findings));
}

static void apply_policy(std::vector<Finding>& findings, const Corpus* corpus) {
  if (corpus == nullptr) return;
  for (Finding& finding : findings) finding.severity = severity_under(*corpus, finding);
  std::erase_if(findings, [](const Finding& finding) { return finding.severity == Severity::off; });
}

std::vector<Finding> settle(std::vector<Linted> linted, std::vector<Finding> judged, const Corpus* corpus,
                            const Lint_options& options, std::vector<Finding>* waived) {
  // Rules over a corpus say nothing of a waiver while only some of its documents were looked at.
  const bool whole_corpus =
      std::any_of(linted.begin(), linted.end(), [](const Linted& file) { return file.is_corpus; });
  // Nor do they miss anything in one of parts alone, or while a document hides what it says.
  const bool has_profile = std::any_of(
      linted.begin(), linted.end(), [](const Linted& file) { return file.document.starts_with("profile "); });
  const bool all_whole =
      std::all_of(linted.begin(), linted.end(), [](const Linted& file) { return file.whole; });
  std::map<std::string_view, Linted*> by_file;
  for (Linted& file : linted) by_file.emplace(file.file, &file);
  for (Finding& finding : judged) {
    if (!(whole_corpus && has_profile && all_whole) && rule_of(finding.rule).judges_lone_facts) continue;
    if (const auto found = by_file.find(finding.file); found != by_file.end())
      found->second->findings.push_back(std::move(finding));
  }
  std::vector<Finding> all;
  const auto finish = [&](const Linted& file, std::vector<Finding>& findings, std::vector<Finding>& into) {
    apply_policy(findings, corpus);
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
      return std::tie(a.region.begin, a.rule) < std::tie(b.region.begin, b.rule);
    });
    for (Finding& finding : findings)
      finding.document = file.document.empty() ? "file " + file.file : file.document;
    std::move(findings.begin(), findings.end(), std::back_inserter(into));
  };
  for (Linted& file : linted) {
    std::vector<Finding> silenced;
    if (!options.no_waivers) apply_waivers(file, whole_corpus, options, silenced);
    finish(file, file.findings, all);
    if (waived != nullptr) finish(file, silenced, *waived);
  }
  return all;
}

std::vector<Finding> lint_text(std::string name, std::string_view bytes, const Lint_options& options,
                               std::vector<Finding>* waived, std::vector<std::string>* troubles) {
  const Read_result read = read_json(std::move(name), bytes);
  std::vector<Linted> linted;
  linted.push_back(lint_document(read, {}));
  if (troubles != nullptr) *troubles = linted.front().troubles;
  std::vector<Finding> judged = judge_facts(std::move(linted.front().facts));
  std::vector<Finding> findings = settle(std::move(linted), std::move(judged), nullptr, options, waived);
  for (Finding& finding : findings) finding.fails = fails(finding, Severity::error, nullptr);
  return findings;
}

}
