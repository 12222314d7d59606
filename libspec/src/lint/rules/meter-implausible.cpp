#include "lint/meter.h"
#include "lint/rule.h"
#include "text/counted.h"

namespace ohmlore::rules {
namespace {

// What handheld multimeters state on ohms: 0.05 to 2 % and 1 to 10 counts, 2000 to 60000 counts
// (common practice, no source). The limits leave room on both sides.
constexpr Interval usual_accuracy = {0.0001, 0.05};
constexpr Interval usual_counts = {1, 50};
constexpr Interval usual_display = {1000, 1200000};

void check(const Subject& subject, Sink& sink) {
  const Corpus* corpus = subject.document.corpus();
  if (corpus == nullptr || !corpus->meter) return;
  const Meter& meter = corpus->meter;
  if (meter.accuracy && !usual_accuracy.contains(meter.accuracy->si))
    sink.report(
        meter.accuracy.node,
        fmt::format("an accuracy of {}, and handheld meters have {} to {} on ohms; state the share of the "
                    "reading that its data sheet gives",
                    percent(meter.accuracy->si), percent(usual_accuracy.low), percent(usual_accuracy.high)));
  if (meter.counts && !usual_counts.contains(static_cast<double>(*meter.counts)))
    sink.report(meter.counts.node,
                fmt::format("{} of the last digit, and handheld meters have {:g} to {:g}; state the \"+ n "
                            "counts\" of its data sheet",
                            counted(*meter.counts, "count"), usual_counts.low, usual_counts.high));
  if (meter.display_counts && !usual_display.contains(static_cast<double>(*meter.display_counts)))
    sink.report(
        meter.display_counts.node,
        fmt::format("a display of {} counts, and handheld meters have {:.0f} to {:.0f}; 6000 means that it "
                    "shows up to 5999",
                    *meter.display_counts, usual_display.low, usual_display.high));
  if (meter.leads && meter.leads->si > most_of_leads)
    sink.report(
        meter.leads.node,
        fmt::format("leads of {} are too much to measure with; held together good ones read 0.1 to 0.5 Ω, "
                    "and 0 Ω where the meter subtracts them",
                    ohm(meter.leads->si)));
}

}

extern const Rule meter_implausible = {
    .family = Family::meter,
    .severity = Severity::warning,
    .summary = "The meter of a corpus is none that anybody carries.",
    .check = check,
};

}
