// Rules run over documents, one by one or several together.
#include <algorithm>
#include <deque>
#include <exception>
#include <new>

#include <fmt/format.h>

#include "document/decoder.h"
#include "document/findings.h"
#include "lint/kept_texts.h"
#include "lint/policy.h"
#include "lint/worked_out.h"

namespace ohmlore {

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

void tell_as_one(std::span<Finding> findings, std::size_t size, std::string message) {
  const std::size_t first = findings.size() - size;
  for (Finding& finding : findings.subspan(first))
    finding.group = {static_cast<std::uint32_t>(first), static_cast<std::uint32_t>(size), {}};
  findings[first].group.as_one = std::move(message);
}

void tell_the_worst(std::span<Finding> findings, std::size_t size) {
  const auto first = findings.end() - static_cast<std::ptrdiff_t>(size);
  const auto worst = std::max_element(
      first, findings.end(), [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
  std::rotate(first, worst, worst + 1);
  tell_as_one(findings, size, first->message);
}

void Sink::tell_as_one(std::size_t size, std::string message) {
  ohmlore::tell_as_one(findings_, size, std::move(message));
}

void Sink::tell_the_worst(std::size_t size) { ohmlore::tell_the_worst(findings_, size); }

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

// Why a waiver waives nothing, or nothing where that cannot be said.
static std::string why_unused(const Document& document, const Waiver& waiver, bool all_rules_ran) {
  const Rule_entry* entry = find_rule(*waiver.rule);
  if (entry == nullptr) return {}; // waiver-rule-unknown says so
  if (!can_be_waived(*entry->rule))
    return fmt::format("what {} finds cannot be waived{}", entry->slug,
                       entry->rule->severity == Severity::error
                           ? ": what is refused is not read; mend it"
                           : "; mend it, or lower it in the policy of the corpus");
  if (document.find(*waiver.at) == 0)
    return fmt::format(
        "there is no {} in this document; name the place of the finding, or a record around it",
        printable(*waiver.at));
  if (!all_rules_ran) return {};
  return fmt::format("nothing at {} is found by {} any more; remove this waiver", printable(*waiver.at),
                     entry->slug);
}

// Rules keep silent about what was not read or is of a newer version, and about a part that was not found.
static bool all_could_run(const Read_result& read, const Resolved& resolved) {
  return read.document.complete() &&
         std::none_of(read.findings.begin(), read.findings.end(),
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

static void run(const Rule_entry& entry, In_hand& hand, Arena& texts, Kept_facts kept) try {
  const Document& document = hand.read.document;
  if (entry.rule->check && (document.complete() || !entry.rule->goes_by_absence)) {
    Sink sink(document, entry.slug, entry.rule->severity, hand.linted.findings);
    entry.rule->check(hand.subject, sink);
    hand.linted.whole = hand.linted.whole && sink.all_told();
  }
  if (entry.rule->collect == nullptr) return;
  Fact_sink sink = kept == Kept_facts::whole ? Fact_sink(document, entry, texts, hand.linted.facts)
                                             : Fact_sink(document, entry, hand.linted.marks);
  entry.rule->collect(hand.subject, sink);
} catch (const std::bad_alloc&) { // no defect of the rule
  throw;
} catch (const std::exception& thrown) { // one of the rule: said, so that no gate is green by it
  hand.linted.troubles.push_back(
      fmt::format("{}: the rule {} could not do its work: {}", hand.linted.file, entry.slug, thrown.what()));
}

// What rules found and the policy switches off is not kept, unless a waiver may speak of it.
static void drop_switched_off(In_hand& hand) {
  const Corpus* corpus = hand.resolved.surroundings.corpus;
  const List<Waiver>* waivers = hand.read.document.waivers();
  if (corpus == nullptr || !corpus->policy.severities || (waivers != nullptr && !waivers->empty())) return;
  drop_switched_off(hand.linted.findings, hand.read.findings.size(), *corpus);
}

// What a baseline knows a finding by must not go by the order of members. Where one rule found something that
// does, others may have kept silent by it.
static void ask_by_ids(In_hand& hand, std::span<const Rule_entry* const> rules) {
  std::vector<Finding>& findings = hand.linted.findings;
  const auto goes_by_order = [](const Finding& finding) { return rule_of(finding.rule).goes_by_order; };
  if (std::none_of(findings.begin(), findings.end(), goes_by_order)) return;
  const Read_result read{by_ids(hand.read.document), {}};
  In_hand again(read, hand.resolved.surroundings);
  Arena texts;
  for (const Rule_entry* entry : rules)
    if (entry->rule->goes_by_order) run(*entry, again, texts, Kept_facts::marks);
  drop_switched_off(again);
  if (hand.linted.troubles.empty()) hand.linted.troubles = std::move(again.linted.troubles);
  hand.linted.whole = hand.linted.whole && again.linted.whole;
  std::erase_if(findings, goes_by_order);
  std::move(again.linted.findings.begin(), again.linted.findings.end(), std::back_inserter(findings));
}

static void finish(In_hand& hand, bool with_all_rules) {
  const Document& document = hand.read.document;
  Linted& linted = hand.linted;
  place(document.text(), std::span(linted.findings).subspan(hand.read.findings.size()), linted.facts);
  keep_texts(linted.file, linted.document, linted.facts);
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
  const std::vector<const Rule_entry*> order = by_family(rules);
  for (const Rule_entry* entry : order)
    for (In_hand& hand : hands)
      if (hand.read.document.whole()) run(*entry, hand, texts, kept);
  std::vector<Linted> linted;
  linted.reserve(hands.size());
  for (In_hand& hand : hands) {
    if (hand.read.document.whole()) {
      drop_switched_off(hand);
      ask_by_ids(hand, order);
      finish(hand, rules.size() == all_rules().size());
    }
    linted.push_back(std::move(hand.linted));
  }
  return linted;
}

Linted lint_document(const Read_result& read, const Surroundings& surroundings,
                     std::span<const Rule_entry> rules) {
  return std::move(lint_documents({&read, 1}, surroundings, rules).front());
}

std::vector<Fact> facts_of(const Read_result& read, const Surroundings& surroundings,
                           std::vector<Fact_mark>* marks) {
  std::vector<Fact> facts;
  const Document& document = read.document;
  if (!document.whole()) return facts;
  const Resolved resolved = resolve(document, surroundings);
  const Subject subject(document, resolved);
  Arena texts;
  for (const Rule_entry* entry : by_family(all_rules())) { // in which order marks are kept
    Fact_sink sink(document, *entry, texts, facts, marks);
    if (entry->rule->collect) entry->rule->collect(subject, sink);
  }
  place(document.text(), {}, facts);
  keep_texts(document.name(), name_in_keys(document), facts);
  return facts;
}

std::vector<Finding> lint_text(std::string name, std::string_view bytes, const Surroundings& surroundings,
                               const Lint_options& options, std::vector<Finding>* waived,
                               std::vector<std::string>* troubles) {
  const Corpus* corpus = surroundings.corpus;
  const Read_result read = read_json(std::move(name), bytes);
  std::vector<Linted> linted;
  linted.push_back(lint_document(read, surroundings));
  if (troubles != nullptr) *troubles = linted.front().troubles;
  std::vector<Finding> judged = judge_facts(std::move(linted.front().facts));
  std::vector<Finding> findings = settle(std::move(linted), std::move(judged), corpus, options, waived);
  tell_once(findings);
  for (Finding& finding : findings) finding.fails = fails(finding, failing_level(corpus), corpus);
  return findings;
}

}
