#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

constexpr std::string_view between = " to ";

void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  for (const Quantity_use& use : document.quantities()) {
    if (use.grammar != Quantity_grammar::range) continue;
    const auto& [low, high, single] = use.value;
    if (low.si <= high.si) continue;
    // The two temperatures of a B-value are no range.
    if (const Node_id key = document.key_of(use.node); key != 0 && document.string(key) == "b_between")
      continue;
    const Text text = document.string(use.node);
    const std::size_t at = text.find(between);
    const std::string turned = at == Text::npos ? std::string()
                                                : fmt::format("{}{}{}", text.substr(at + between.size()),
                                                              between, text.substr(0, at));
    Finding& finding = sink.report(
        use.node,
        fmt::format("a range is written from its lower end to its upper one, and this goes down from "
                    "{} to {}; write it the other way round, or mend the wrong end",
                    describe(low.si, low.dimension), describe(high.si, high.dimension)));
    if (turned.empty()) continue;
    const Node& node = document.node(use.node);
    finding.fixes.push_back({fmt::format("write \"{}\"", turned),
                             Fix_safety::unsafe,
                             {{node.begin, node.end, fmt::format("\"{}\"", turned)}}});
  }
}

}

extern const Rule range_reversed = {
    .family = Family::unit,
    .severity = Severity::warning,
    .summary = "A range goes from its upper end to its lower one.",
    .check = check,
};

}
