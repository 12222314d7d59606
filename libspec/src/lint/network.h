// Readings between terminals and contacts, as one network.
#pragma once

#include <string>
#include <vector>

#include "lint/rule.h"
#include "ohmlore/networks.h"

namespace ohmlore::rules {

/// One stated resistance between two terminals, rounding of what is written allowed for.
struct Reading {
  Text from, to; ///< names of terminals, or contacts where the terminal has no name
  Interval ohm;
  Node_id node = 0;
  const Test* test = nullptr; ///< null where the model's `pairs` state it
  Text component;
  /// What conducts there is declared to be linear, all of it, and the circumstances are stated: laws of
  /// networks hold for certain, together with other such readings taken alike.
  bool certain = false;
  bool joins(Text a, Text b) const { return (from == a && to == b) || (from == b && to == a); }
};

/// Readings that can be compared: as far as is stated, of one state and one temperature.
struct Readings {
  std::vector<Reading> all;
  bool of_plug = false;       ///< between the contacts of withdrawn plugs, of several components
  bool brought_to_20 = false; ///< of copper at several temperatures, each brought to 20 °C

  /// The readings between two terminals, or null.
  const Reading* between(Text from, Text to) const;
  /// Every terminal that a reading names, once.
  std::vector<Text> terminals() const;
};

/// The readings of a component: first those of its own model's pairs, then those of its tests, one group for
/// each condition and temperature. Windings whose k is known are compared over temperatures.
const std::vector<Readings>& readings_of(const Subject& subject, const Resolved_component& component);

/// The readings at withdrawn plugs, of two or more components: one group for each preparation and
/// temperature. Contacts that the board links are one where no plug is withdrawn. Parts that show polarity,
/// charge, or have a condition are left out.
const std::vector<Readings>& readings_at_plugs(const Subject& subject);

/// Both are certain, and nothing stated distinguishes how they are taken.
bool taken_alike(const Reading& a, const Reading& b);

/// The readings with terminals numbered in the order of `Readings::terminals`. Without leads: as low as the
/// part alone may be where a test's band was stated with the leads.
std::vector<Between> numbered(const Readings& readings, bool without_leads = false);

/// "start to run"
std::string ends_of(const Reading& reading);

}
