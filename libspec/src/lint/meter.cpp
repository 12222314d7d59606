#include "lint/meter.h"

#include <cmath>

namespace ohmlore::rules {

Handheld reference_meter(const Corpus* corpus) {
  Handheld meter;
  if (corpus == nullptr || !corpus->meter) return meter;
  const Meter& stated = corpus->meter;
  if (stated.accuracy && stated.accuracy->si >= 0) meter.accuracy = stated.accuracy->si;
  if (stated.counts) meter.counts = static_cast<double>(*stated.counts);
  if (stated.display_counts && *stated.display_counts > 0)
    meter.display_counts = static_cast<double>(*stated.display_counts);
  if (stated.leads && stated.leads->si >= 0) meter.leads = stated.leads->si;
  return meter;
}

// The display, read in the decade that ends in [least, 10 * least) ohm.
static double range_from(double display_counts, double least) {
  if (!(display_counts > 0) || !std::isfinite(display_counts)) return least; // no meter: no range ends there
  double end = display_counts;
  while (end < least) end *= 10;
  while (end >= 10 * least) end /= 10;
  return end;
}

static double lowest_range(const Handheld& meter) { return range_from(meter.display_counts, 100); }

double highest_range(const Handheld& meter) { return range_from(meter.display_counts, 10e6); }

double last_digit(const Handheld& meter, double ohm) {
  double range = lowest_range(meter);
  while (range < ohm) range *= 10;
  return range / meter.display_counts;
}

}
