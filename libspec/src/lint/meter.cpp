#include "lint/meter.h"

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

double last_digit(const Handheld& meter, double ohm) {
  double digit = 0.1;
  while (digit * meter.display_counts < ohm) digit *= 10;
  return digit;
}

}
