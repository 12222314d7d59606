#include "corpus/kept.h"

#include "corpus/archive.h"
#include "lint/kept_texts.h"

namespace ohmlore {

// The members of each record in their order: written and read alike.
template <class Each>
static void members(Each& each, Position& it) {
  each(it.line, it.column);
}
template <class Each>
static void members(Each& each, Region& it) {
  each(it.begin, it.end, it.first, it.last);
}
template <class Each>
static void members(Each& each, Related& it) {
  each(it.file, it.region, it.message);
}
template <class Each>
static void members(Each& each, Edit& it) {
  each(it.begin, it.end, it.text, it.first, it.last);
}
template <class Each>
static void members(Each& each, Fix& it) {
  each(it.description);
  each.word(it.safety, Fix_safety::display_only, Fix_safety::safe);
  each(it.edits);
}
template <class Each>
static void members(Each& each, Finding_group& it) {
  each(it.number, it.size, it.as_one);
}
// Before the run is settled: nothing is suppressed yet, nothing fails, and the file is that of the document.
template <class Each>
static void members(Each& each, Finding& it) {
  each.rule(it.rule);
  each.word(it.severity, Severity::note, Severity::error); // nothing is switched off before the policy
  each(it.region, it.pointer, it.message, it.source_line, it.source_column, it.related, it.fixes, it.value,
       it.group);
}
template <class Each>
static void members(Each& each, Fact& it) {
  each.rule(it.rule, true);
  each(it.key, it.value, it.text, it.region, it.pointer, it.source_line, it.source_column);
}
template <class Each>
static void members(Each& each, Fact_mark& it) {
  each(it.key, it.said);
}
template <class Each>
static void members(Each& each, Kept_waiver& it) {
  each(it.rule, it.at, it.why, it.until, it.unused);
}
template <class Each>
static void members(Each& each, Linted& it) {
  each(it.file, it.document, it.findings, it.facts, it.marks, it.waivers, it.troubles, it.whole,
       it.all_rules_ran, it.is_corpus);
}

std::string kept_text(const Linted& linted) { return archived(linted); }

std::optional<Linted> linted_of(std::string_view text) {
  std::optional<Linted> linted(std::in_place);
  const auto finish = [&] {
    keep_texts(linted->file, linted->document, linted->facts);
    for (Finding& finding : linted->findings) finding.file = linted->file;
    for (Kept_waiver& waiver : linted->waivers) waiver.unused.file = linted->file;
  };
  if (!unarchived(text, *linted, finish)) return std::nullopt;
  return linted;
}

}
