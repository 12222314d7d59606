// Resistance over temperature, for people: as a table, as CSV, as a picture; and asked backwards.
// What is shown is the manufacturing tolerance (is it this part?), never the service limit (does it still do
// its job?).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/bands.h"

namespace ohmlore {

/// In which unit temperatures are shown, and steps are round.
enum class Temperature_unit : std::uint8_t { celsius, fahrenheit, kelvin };
/// "25 °C", "77 °F", "298.15 K": at most `digits` digits (0 to 17) after the point.
std::string temperature_text(double kelvin, Temperature_unit unit, int digits = 2);

struct Curve_request {
  std::optional<double> from, to; ///< kelvin; absent: what the model, else the component, speaks of
  std::optional<double> step;     ///< kelvin, above 0; absent: a round one, for about 30 points at most
  Temperature_unit unit = Temperature_unit::celsius;
  std::string terminals; ///< "start,common": which resistance, where the model states several
};

/// The resistances in ohm that the model allows at one temperature. `ohm` is empty where it says nothing; its
/// upper end is infinite where a path is to be open. `nominal` is empty where there is none.
struct Curve_point {
  double kelvin = 0;
  std::optional<Interval> ohm;
  std::optional<double> nominal;
};

/// A value that the document states, or that was measured: at one temperature, or over a range.
struct Curve_mark {
  Interval kelvin;
  Interval ohm; ///< both ends equal where no tolerance is stated
  std::optional<double> nominal;
};

/// What must be known to read a curve: a sentence, by name, and what is filled in for each {} of it.
struct Curve_note {
  std::string_view id;
  std::vector<std::string> filled;
};
/// In English.
std::string note_text(const Curve_note& note);
/// "computed beyond -20 °C to 110 °C: take it with doubt"
std::string beyond_text(Interval stated, Temperature_unit unit);

/// A component's resistance over temperature. Views into the documents of the component: keep them alive.
struct Curve {
  std::string title;      ///< name of the component and what its model is
  Resistance_model model; ///< one resistance: of several that of the terminals asked for
  Between_rows between = Between_rows::monotone;
  Temperature_unit unit = Temperature_unit::celsius;
  Interval kelvin;
  std::vector<Curve_point> points; ///< at each step
  std::vector<Curve_mark> stated;
  std::vector<std::string> remarks; ///< of whoever made it: empty here; shown before the notes
  std::vector<Curve_note> notes;
};

/// The curve, or why there is none.
struct Curve_result {
  std::optional<Curve> curve;
  std::string problem; ///< empty exactly where there is a curve
};
/// Errors that lint finds are not looked for: see caution_of_errors, which belongs to the remarks.
Curve_result curve_of(const Resolved_component& component, const Curve_request& request = {});

/// What the model allows at a temperature or a range of them, in kelvin: also of open (above) and closed
/// (below) paths.
std::optional<Interval> curve_band(const Curve& curve, Interval kelvin);

/// What a reading would mean. Temperatures in kelvin, rounded outward.
struct Meant_temperature {
  std::optional<Interval> kelvin; ///< of all parts within tolerance; empty where none of them reads so
  std::optional<double> nominal;  ///< of a part at its nominal
  Interval within;                ///< the temperatures that were looked at
};
/// `ohm` is the reading as an interval, of one digit for example; the meter's accuracy is not added. Empty
/// where the model has no curve by which a reading could mean a temperature: fixed, power, open, closed.
std::optional<Meant_temperature> temperature_meant(const Curve& curve, Interval ohm);

/// "9.9 kΩ to 10.1 kΩ", "at least 1 MΩ", "at most 1 Ω": rounded outward as spec/v1/judging.md says.
std::string band_text(Interval ohm);

/// Lines of text, cautions first.
std::string curve_text(const Curve& curve);
/// RFC 4180, with a header; resistances in ohm, rounded outward to 7 digits. Each row carries the shortest
/// caution.
std::string curve_csv(const Curve& curve);
/// A picture (SVG 1.1, nothing outside of it needed; light or dark as its reader prefers), all cautions
/// beneath. `measured` are readings to be shown on it.
std::string curve_svg(const Curve& curve, const std::vector<Curve_mark>& measured = {});

}
