#include "lint/meter.h"
#include "lint/rule.h"
#include "lint/usual.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// What conducts so well that a band beyond the meter is a slip of the prefix, and prefix-suspicious says so.
bool is_conductor(const Subject& subject, const Test& test, double highest) {
  const Resolved_component* component = subject.resolved.component_of(test);
  if (component == nullptr || !component->known_kind) return false;
  const Usual* usual = usual_at(*component, test.expect.at ? kelvin_interval(*test.expect.at) : room);
  return usual != nullptr && usual->range.high <= highest;
}

void check(const Subject& subject, Sink& sink) {
  const Handheld meter = reference_meter(subject.resolved.surroundings.corpus);
  const double highest = highest_range(meter), least = meter.counts * last_digit(meter, 0);
  const auto too_high = [&](Node_id node, double limit) {
    sink.report(node, fmt::format("the highest range of the meter ends at {} ({:g} counts), so that {} reads "
                                  "OL like anything above; state a limit that it can show",
                                  ohm(highest), meter.display_counts, ohm(limit)));
  };
  const auto too_low = [&](Node_id node, const std::string& band) {
    sink.report(
        node,
        fmt::format("{} lies within the ±{} that the meter may be off near zero ({:g} counts of {}): a "
                    "short reads the same; state another test, or waive this and name the four-wire meter",
                    band, ohm(least), meter.counts, ohm(last_digit(meter, 0))));
  };

  each_test(subject, [&](Text, const Test& test) {
    const Expectation& e = test.expect;
    const auto judge = [&](const Value<Quantity>& limit) {
      if (limit && written_interval(*limit).low > highest) too_high(limit.node, limit->si);
    };
    judge(e.above);
    if (!is_conductor(subject, test, highest)) {
      judge(e.nominal);
      judge(e.min);
      judge(e.reverse_min);
      if (!e.min || !(written_interval(*e.min).low > highest)) judge(e.max);
    }
    if (const auto& band = expected(subject, test);
        band && band->low >= 0 && below_lowest_range(meter, *band))
      too_low(e.node, ohm(*band));
    if (e.below && written_interval(*e.below).high < least)
      too_low(e.below.node, "at most " + ohm(e.below->si));

    const auto relied = relied_on(subject, test);
    if (!relied) return;
    const Resistance_model& model = **relied;
    constexpr double room = zero_celsius + 20;
    const auto band = model_interval(model, {room, room});
    if (model.above && written_interval(*model.above).low > highest)
      too_high(test.node, model.above->si);
    else if (model.below && written_interval(*model.below).high < least)
      too_low(test.node, "at most " + ohm(model.below->si));
    else if (band && band->low > highest)
      too_high(test.node, band->low);
    else if (band && below_lowest_range(meter, *band))
      too_low(test.node, ohm(*band));
    else
      return;
    sink.relate(*relied->document, model.node, "the model that it goes by");
  });
}

}

extern const Rule beyond_handheld = {
    .family = Family::meter,
    .severity = Severity::warning,
    .summary = "A test needs a reading that lies outside of the ranges of the meter.",
    .check = check,
};

}
