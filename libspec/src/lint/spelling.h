// What the rules on accepted but unusual spellings share.
#pragma once

#include "lint/rule.h"
#include "lint/worked_out.h"
#include "text/small_letters.h"

namespace ohmlore::rules {

/// "3K" where ohms and kelvin may stand: read as 3 kΩ, and meant as 3 K perhaps.
inline bool may_be_kelvin(const Document& document, const Quantity_use& use) {
  const Text text = document.string(use.node);
  return use.allowed.has(Dimension::resistance) && use.allowed.has(Dimension::temperature_difference) &&
         text.size() > 1 && text.ends_with('K') && is_digit(text[text.size() - 2]);
}

/// A finding, with the canonical spelling as a safe fix, for each quantity whose spelling has a problem of
/// `kind`. The fix changes no value: reading the canonical spelling gives the same bits.
inline void report_spellings(const Subject& subject, Sink& sink, Unit_problem::Kind kind) {
  const Document& document = subject.document;
  for (const auto& [use, problem] : spellings_of(subject)) {
    if (problem.kind != kind || may_be_kelvin(document, *use)) continue; // of which prefix-suspicious tells
    const Node& node = document.node(use->node);
    const std::string wanted = fmt::format("\"{}\"", problem.suggestion);
    Finding& finding = sink.report(use->node, fmt::format("{}; write {}", problem.detail, wanted));
    if (!node.escaped && problem.begin < problem.end) {
      finding.region.begin = node.begin + 1 + problem.begin;
      finding.region.end = node.begin + 1 + problem.end;
    }
    finding.fixes.push_back(
        {fmt::format("write {}", wanted), Fix_safety::safe, {{node.begin, node.end, wanted}}});
  }
}

}
