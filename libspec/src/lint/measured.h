// What a test says of the resistance of its component, beside what the component's model says.
#pragma once

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "ohmlore/bands.h"
#include "ohmlore/lint.h"

namespace ohmlore::rules {

/// A model as it is stated, or a changed copy of it; the stated one is kept alive by its document. A model is
/// large, and few are changed.
class Adapted_model {
public:
  Adapted_model(const Resistance_model& stated) : model_(&stated) {}
  Resistance_model& change() {
    if (changed_ == nullptr) model_ = (changed_ = std::make_shared<Resistance_model>(*model_)).get();
    return *changed_;
  }
  const Resistance_model& operator*() const { return *model_; }
  const Resistance_model* operator->() const { return model_; }

private:
  const Resistance_model* model_;
  std::shared_ptr<Resistance_model> changed_;
};

/// A band that is expected across a component.
struct Band_across {
  const Resolved_component* component = nullptr;
  const Expectation* expect = nullptr;
  std::optional<Interval> kelvin; ///< as written; empty where none is stated
  /// Nothing else lies between the two contacts, in the profile or on a board that stays plugged in, nothing
  /// is done there before, and the part conducts like a resistor: what the part has must be read there.
  bool alone = false;
  bool with_board = false;  ///< alone, but that no plug is withdrawn: a board may lie in parallel
  bool on_the_part = false; ///< measured on its own terminals, without the harness
  bool noted = false;       ///< the test has a note, which may say that it is of another part than the model
};
/// Empty where the test states no band, or where the component alone need not explain it: other contacts than
/// its two, or two of its terminals; a condition, the wires alone, a circuit or a part in parallel.
const std::optional<Band_across>& band_across(const Subject& subject, const Test& test);

/// Whether two tests that `band_across` takes are of one component between the same two contacts.
bool across_the_same(const Test& a, const Test& b);

/// Tests that are asked together: each with those that are `alike`.
template <class Asked, bool alike(const Test&, const Test&) = across_the_same>
class Together {
public:
  void add(Asked asked) {
    for (std::vector<Asked>& group : groups_)
      if (alike(*group.front().test, *asked.test)) return group.push_back(std::move(asked));
    groups_.emplace_back().push_back(std::move(asked));
  }
  auto begin() const { return groups_.begin(); }
  auto end() const { return groups_.end(); }

private:
  std::vector<std::vector<Asked>> groups_;
};

/// A band across a component beside what its model says of the same two contacts.
struct Measured : Band_across {
  /// With the metal of the component; where it states pairs of terminals, with the resistance of this pair.
  Adapted_model model;
  const Document* model_document = nullptr;
  Node_id said = 0; ///< the model, or the pair, in its document
};
/// Empty also where the component has no model, or none that speaks of these contacts.
const std::optional<Measured>& measured(const Subject& subject, const Test& test);

/// What leads and their contact may add to a reading, in ohm: twice what test leads have at most. A band may
/// have been stated with or without it.
inline constexpr double most_leads = 1;

/// More than the wires of a harness have, in ohm. Common practice, no source.
inline constexpr double most_of_wires = 10;

/// Whether what is expected may be that of two wires on one end of a resistance thermometer, with nothing
/// between them.
bool may_read_wires_alone(const Resolved_component& component, const Test& test);

/// What a part may have, in ohm, that reads within a band: what lies in series, leads and harness, can only
/// add to a reading, and of the harness nobody knows how much.
inline Interval passing(const Band_across& measured, Interval band) {
  const double least = (band - Interval{most_leads, most_leads}).low;
  return {measured.on_the_part && least > 0 ? least : 0, band.high};
}

/// What a warning adds where a band was read with the board.
inline constexpr std::string_view or_withdraw = ", or name the plug to withdraw: the board is read as well";

/// Whether no healthy part can read within a band, given all that one may have at that temperature.
inline bool surely_missed(const Band_across& measured, Interval band, Interval healthy) {
  return measured.alone && !measured.noted && !passing(measured, band).overlaps(healthy);
}

/// The temperatures at which to ask the model: the stated ones; 20 °C where the model is the same at all;
/// empty where none is stated, or where the model speaks of others only.
std::optional<Interval> temperature_for(const Measured& measured);

/// The temperatures at which to ask a model generously what a test expects at `kelvin`. A table holds at its
/// own exactly, as far as they were not rounded from °F; between them, and a formula, also half a digit
/// beside the written one.
Interval temperatures_asked(const Resistance_model& model, const Expectation& expect, Interval kelvin);

/// Between these is any winding that is read: no appliance that is dead has it colder or hotter. Common
/// practice, no source.
inline constexpr Interval temperatures_of_windings = {zero_celsius - 40, zero_celsius + 150};

/// A coil without rectifier, electronics or series part, so that dc sees the copper alone.
bool is_plain_coil(const Resolved_component& component);
/// The same, or one with a diode across it, which takes none of the current that it is fed.
bool is_plain_as_fed(const Resolved_component& component);
/// A part with nothing but metal between its ends, as far as is declared.
bool is_metal_alone(const Resolved_component& component);

/// Declared linear and without polarity, with no protector that may be open.
bool is_declared_resistive(const Resolved_component& component);

/// Whether a part conducts like a resistor: declared so, or of a kind that does.
bool conducts_like_a_resistor(const Resolved_component& component);

/// The model of its component, by which a test without an expectation goes; empty where it states one, or the
/// component has none.
std::optional<In_document<Resistance_model>> relied_on(const Subject& subject, const Test& test);

/// A model with the metal of its component, where it states none.
Adapted_model with_metal(const Resistance_model& model, const Resolved_component& component);
/// False for a copper model of a metal whose k is not known, at other temperatures than its own.
bool speaks_of(const Resistance_model& model, Interval kelvin);

/// k of the metal of a copper model, as far as it is known; empty for other metals than copper and aluminium.
std::optional<Interval> metal_k(const Resistance_model& model);

}
