#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

using enum Component_kind;

struct Unfit {
  bool surely = false; // else a wrong kind is likelier than an odd part
  std::string_view why;
};

template <class... Kinds>
bool any_of(Component_kind kind, Kinds... kinds) {
  return ((kind == kinds) || ...);
}

// V²/P is the resistance of what neither induces nor rectifies nor changes much as it heats.
std::string_view no_rating(const Resolved_component& component) {
  const auto drive = component.get(&Component_type::drive);
  const auto element = component.get(&Component_type::element);
  switch (component.kind()) {
  case winding:
  case transformer: return "its current is limited by induction, not by V²/P";
  case coil: return drive && **drive != Drive::dc ? "V²/P is the resistance of a plain dc coil only" : "";
  case heater:
  case igniter:
    return element && **element != Heater_element::wire && **element != Heater_element::unknown
               ? "V²/P holds cold for a wire element only"
               : "";
  case resistor:
  case electronic: return "";
  default: return "nothing follows from a rated power here";
  }
}

// A PTC that falls is for ptc-falls.
std::optional<Unfit> unfit(const Resolved_component& component, const Resistance_model& model) {
  const Component_kind kind = component.kind();
  switch (*model.kind) {
  case Model_kind::beta:
  case Model_kind::steinhart_hart:
    if (any_of(kind, ntc, ptc)) return std::nullopt;
    return Unfit{kind == rtd, "it is that of a thermistor, whose resistance falls with temperature"};
  case Model_kind::iec_60751:
    if (kind == rtd) return std::nullopt;
    return Unfit{kind == ntc, "it is that of platinum, whose resistance rises with temperature"};
  case Model_kind::copper:
    if (!any_of(kind, ntc, ptc, photocell, capacitor, electronic, potentiometer, switch_, coding))
      return std::nullopt;
    return Unfit{kind == ntc, "it is that of a metal, whose resistance rises evenly with temperature"};
  case Model_kind::fixed:
    if (!any_of(kind, ntc, ptc, rtd) || model.at) return std::nullopt;
    return Unfit{false, "it says the same at every temperature; give the one at which it holds in `at`"};
  case Model_kind::power: {
    const std::string_view why = no_rating(component);
    return why.empty() ? std::nullopt : std::optional(Unfit{false, why});
  }
  case Model_kind::open:
  case Model_kind::closed:
    if (!any_of(kind, ntc, ptc, rtd, resistor, potentiometer)) return std::nullopt;
    return Unfit{false, "a part of that kind has a resistance of its own; state it"};
  default: return std::nullopt;
  }
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!component.known_kind) return;
    if (const auto found = unfit(component, model))
      sink.report_as(found->surely ? Severity::error : Severity::warning, model.kind.node,
                     fmt::format("{} is of kind `{}`, and its model is `{}`: {}", component.id,
                                 word_of(component.kind()), word_of(*model.kind), found->why));
  });
}

}

extern const Rule model_unfit_for_kind = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A resistance model does not fit the kind of its component.",
    .check = check,
};

}
