#include "lint/fahrenheit.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// Below both of a contact that rests in its normal state. Common practice, no source.
constexpr double warmest_room = zero_celsius + 45;

// Whether the contact leaves its normal state as it gets warmer; empty where nothing says so.
std::optional<bool> trips_when_warmer(const Resolved_component& component, double trip, double reset) {
  const auto contacts = component.get(&Component_type::contacts);
  const auto states = component.get(&Component_type::states);
  if (!contacts || **contacts == Contacts::changeover) return std::nullopt;
  const bool above_rooms = trip > warmest_room && reset > warmest_room;
  if (!states) {
    const bool rests = !may_have(component, "states", component.own->states) && above_rooms;
    return rests ? std::optional(true) : std::nullopt;
  }
  // "cold" of a frost stat may be the room that it rests in: only the other state tells which is meant.
  const auto* cold = states->find("cold");
  if (cold == nullptr || !cold->value) return std::nullopt;
  if (!above_rooms) {
    const auto* warmed = states->find("hot");
    if (warmed == nullptr) warmed = states->find("warm");
    if (warmed == nullptr || !warmed->value || *cold->value == *warmed->value) return std::nullopt;
  }
  const Contact_state normal = **contacts == Contacts::nc ? Contact_state::closed : Contact_state::open;
  return *cold->value == normal;
}

using Temperature = In_document<Value<Quantity>>;

Text written(const Temperature& temperature) { return temperature.document->string(temperature->node); }

// One is in °C, the other in °F, and their numbers lie nearer together than the two do.
bool is_unit_mistaken(const Temperature& trips, const Temperature& resets) {
  const double trip = (*trips)->si, reset = (*resets)->si;
  const bool trips_in_fahrenheit = is_in_fahrenheit(written(trips));
  if (trips_in_fahrenheit == is_in_fahrenheit(written(resets))) return false;
  const double celsius = (trips_in_fahrenheit ? reset : trip) - zero_celsius;
  const double fahrenheit = 1.8 * ((trips_in_fahrenheit ? trip : reset) - zero_celsius) + 32;
  return std::fabs(celsius - fahrenheit) < std::fabs(trip - reset);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto trips = component.get(&Component_type::trips_at);
    const auto resets = component.get(&Component_type::resets_at);
    if (!component.is(Component_kind::switch_) || !trips || !resets) continue;
    const double trip = (*trips)->si, reset = (*resets)->si;
    const auto report = [&](std::string message) {
      report_contradiction(sink, component, {resets.document, resets->node, "where it changes back"},
                           {trips.document, trips->node, "where it changes"}, std::move(message));
    };
    if (trip == reset) {
      report(fmt::format("{} changes and changes back at {}: without a difference between "
                         "the two it would chatter; state both as printed",
                         component.id, celsius(trip)));
      continue;
    }
    if (is_unit_mistaken(trips, resets)) {
      report(fmt::format(
          "{} changes at {} and changes back at {}, which lie {} apart: with one unit they would lie "
          "nearer together; look which is meant",
          component.id, quoted(written(trips)), quoted(written(resets)), kelvin(std::fabs(trip - reset))));
      continue;
    }
    const auto warmer = trips_when_warmer(component, trip, reset);
    if (!warmer || *warmer == (reset < trip)) continue;
    report(fmt::format("{} changes at {} as it gets {}, so that it changes back {} that, not at {}; "
                       "exchange the two, or mend its `contacts` or `states`",
                       component.id, celsius(trip), *warmer ? "warmer" : "colder",
                       *warmer ? "below" : "above", celsius(reset)));
  }
}

}

extern const Rule reset_beyond_trip = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary =
        "A thermostat changes back on the wrong side of where it changes, at the same temperature, or by "
        "another unit.",
    .check = check,
};

}
