#include "lint/colours.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static constexpr std::string_view other = "other";

static void check_code(const Subject& subject, const Value<Text>& colour, Sink& sink) {
  if (!colour || *colour == other || is_colour_code(*colour)) return;
  const std::string meant = meant_colour_code(*colour);
  std::vector<std::string_view> codes;
  for (const Colour& known : colours) codes.push_back(known.code);
  Finding& finding = sink.report(
      colour.node,
      meant.empty()
          ? fmt::format("{} is no colour code of IEC 60757 ({}); where none says it, write base `other` and "
                        "the words in `other`",
                        printable(subject.document.written(colour.node)), fmt::join(codes, ", "))
          : fmt::format("{} is no colour code of IEC 60757; write {}",
                        printable(subject.document.written(colour.node)), meant));
  if (meant.empty()) return;
  const Node& node = subject.document.node(colour.node);
  finding.fixes.push_back({fmt::format("write {}", meant),
                           Fix_safety::safe,
                           {{node.begin, node.end, fmt::format("\"{}\"", meant)}}});
}

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const auto& connector : profile->connectors)
    for (const auto& pin : connector.value.pins) {
      const Wire& wire = pin.value.wire;
      if (!wire) continue;
      check_code(subject, wire.base, sink);
      check_code(subject, wire.stripe, sink);
      for (const Value<Text>* colour : {&wire.base, &wire.stripe})
        if (*colour && **colour == other && !stated(subject.document, wire.node, other)) {
          sink.report(colour->node,
                      "the colour is `other`, but no words say which; add them, for example \"other\": "
                      "\"clear, tinned braid\"");
          break;
        }
    }
}

extern const Rule colour_code_unknown = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A wire colour is no code of IEC 60757.",
    .check = check,
};

}
