#include "lint/e_series.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// From this tolerance on resistors are made in E24 and coarser; below in E24 and in E48 to E192 (IEC 60063).
constexpr double coarse = 0.05;

void judge(const Value<Quantity>& resistance, const Value<Tolerance>& tolerance, Sink& sink) {
  if (!resistance || !(resistance->si > 0)) return;
  const double nominal = resistance->si;
  if (is_preferred(E_series::e24, nominal)) return;
  const double fine = nearest_preferred(E_series::e192, nominal);
  const double plain = nearest_preferred(E_series::e24, nominal);
  if (!is_preferred(E_series::e192, nominal)) {
    // A reading or a sum, perhaps: 4.70 kΩ + 1.00 kΩ.
    const bool closer = std::fabs(fine - nominal) < std::fabs(plain - nominal);
    const std::string written = ohm(nominal, digits_apart(nominal, closer ? fine : plain));
    sink.report(resistance.node,
                fmt::format("{} is no preferred value of IEC 60063; the nearest {}; state the nominal as the "
                            "part is marked",
                            written,
                            closer ? fmt::format("are {} (E24) and {} (E192)", ohm(plain), ohm(fine))
                                   : fmt::format("is {} (E24)", ohm(plain))));
  } else if (tolerance && tolerance->relative() && tolerance->plus >= coarse && tolerance->minus >= coarse) {
    sink.report(resistance.node,
                fmt::format("{} is a preferred value of E48 to E192, made to 2 % and closer, and stands here "
                            "with {}; at that tolerance the nearest is {} (E24)",
                            ohm(nominal), percent(tolerance->plus), ohm(plain)));
  }
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (*model.kind == Model_kind::fixed &&
        (component.is(Component_kind::resistor) || component.is(Component_kind::coding)))
      judge(model.resistance, model.tolerance, sink);
  });
  if (const Profile* profile = subject.profile())
    for (const auto& circuit : profile->circuits)
      for (const Element& element : circuit.value.elements)
        if (element.kind && *element.kind == Element_kind::resistor)
          judge(element.resistance, element.tolerance, sink);
}

}

extern const Rule off_e_series = {
    .family = Family::band,
    .severity = Severity::note,
    .summary = "A fixed resistor has a nominal that is no preferred value.",
    .check = check,
};

}
