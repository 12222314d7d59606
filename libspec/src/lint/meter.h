// The meter that readings of a corpus are taken with.
#pragma once

#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// ±(accuracy of the reading + counts of the last digit), and what the leads add. Where the corpus states
/// nothing: a handheld meter of the better kind, and leads at the upper end of what is read, 0.1 to 0.5 Ω
/// (common practice, no source).
struct Handheld {
  double accuracy = 0.008;
  double counts = 3;
  double display_counts = 6000;
  double leads = 0.5; ///< ohm
};

Handheld reference_meter(const Corpus* corpus);

/// The last digit in ohm at a reading. Ranges are decades, the lowest with a last digit of 0.1 Ω.
double last_digit(const Handheld& meter, double ohm);

/// How far a reading may be off, in ohm.
inline double meter_error(const Handheld& meter, double ohm) {
  return meter.accuracy * ohm + meter.counts * last_digit(meter, ohm);
}

}
