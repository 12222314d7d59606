// The meter that readings of a corpus are taken with.
#pragma once

#include "ohmlore/physics.h"
#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// ±(accuracy of the reading + counts of the last digit), and what the leads add. Where the corpus states
/// nothing: a handheld meter of the better kind, and leads in the middle of what is read, 0.1 to 0.5 Ω
/// (common practice, no source).
struct Handheld {
  double accuracy = 0.008;
  double counts = 3;
  double display_counts = 6000;
  double leads = 0.3; ///< ohm
};

Handheld reference_meter(const Corpus* corpus);

/// Leads of more ohm are broken, or none: held together they read 0.1 to 0.5 Ω (common practice, no source).
/// The limit leaves room above.
inline constexpr double most_of_leads = 2;

/// Where the highest range ends, in ohm. Ranges are decades of the display, the lowest from 100 Ω, the
/// highest from 10 MΩ up: 6000 counts give 600.0 Ω to 60.00 MΩ (common practice, no source).
double highest_range(const Handheld& meter);

/// The last digit in ohm at a reading.
double last_digit(const Handheld& meter, double ohm);

/// Whether all of a band lies within what the counts alone may be off in the lowest range: there it cannot be
/// told from zero.
inline bool below_lowest_range(const Handheld& meter, Interval band) {
  return band.high < meter.counts * last_digit(meter, 0);
}

/// How far a reading may be off, in ohm.
inline double meter_error(const Handheld& meter, double ohm) {
  return meter.accuracy * ohm + meter.counts * last_digit(meter, ohm);
}

/// Whether a reading in the middle of a band (from 0 Ω up) can be told to lie in it: half of the band is at
/// least as wide as what the meter may be off there, but for what rounding to doubles takes from it.
inline bool tells(const Handheld& meter, Interval band) {
  constexpr double rounding = 1e-12;
  return band.width() / 2 >= (1 - rounding) * meter_error(meter, band.middle());
}

}
