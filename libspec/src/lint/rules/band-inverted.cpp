#include "lint/rule.h"

namespace ohmlore::rules {

// One wrong number leaves the nominal outside of what can be read from the other two; only the exchange of
// both limits puts it between them.
static bool surely_exchanged(const Stated_band& band) {
  return band.nominal && band.max->si < band.nominal->si && band.nominal->si < band.min->si;
}

static void check(const Subject& subject, Sink& sink) {
  each_stated_band(subject, [&](const Stated_band& band) {
    if (!band.min || !band.max || band.min->si <= band.max->si) return;
    const Document& document = subject.document;
    const auto [greatest, least] = apart(band.max->si, band.min->si, Dimension::resistance);
    Finding& finding =
        sink.report(band.max.node, fmt::format("max {} is below min {}: no reading lies between them; "
                                               "exchange the two, or mend the wrong one",
                                               greatest, least));
    const Node min = document.node(band.min.node), max = document.node(band.max.node);
    finding.fixes.push_back({"exchange min and max",
                             surely_exchanged(band) ? Fix_safety::safe : Fix_safety::display_only,
                             {{min.begin, min.end, std::string(document.written(band.max.node))},
                              {max.begin, max.end, std::string(document.written(band.min.node))}}});
    sink.relate(band.min.node, "min");
  });
}

extern const Rule band_inverted = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "The upper limit of a band lies below its lower limit.",
    .check = check,
};

}
