#include "healthy_profile.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "draft.h"
#include "ohmlore/physics.h"

namespace ohmlore::test {
namespace {

using enum Dimension;

const std::string at_20 = degrees(20), at_25 = degrees(25);
constexpr double kelvin_of(double celsius) { return celsius + 273.15; }

std::string band(double nominal, int digits, double tolerance, const std::string& at) {
  return object({{"kind", in_quotes("band")},
                 {"nominal", ohms(nominal, digits)},
                 {"tolerance", percent(tolerance)},
                 {"at", at}});
}
std::string band_between(double min, double max, int digits, const std::string& at) {
  return object(
      {{"kind", in_quotes("band")}, {"min", ohms(min, digits)}, {"max", ohms(max, digits)}, {"at", at}});
}
std::string open_above(double ohm) { return object({{"kind", in_quotes("open")}, {"above", ohms(ohm, 2)}}); }
std::string closed_below(double ohm) {
  return object({{"kind", in_quotes("closed")}, {"below", ohms(ohm, 2)}});
}
std::string response(std::string_view kind) { return object({{"kind", in_quotes(kind)}}); }

// To earth, as makers ask for it: proves leakage where it reads less, excludes nothing.
void earth_test(Draft& draft, const std::string& id, const std::string& contact) {
  draft.test(id + "_to_earth", id, contact, draft.earth(),
             {{"expect", open_above(draft.chance.one_in(2) ? 1e6 : 2e6)}});
}

// ---- thermistors

// A thermistor as they are: its B rises with temperature, by up to some per cent from one end to the other.
struct Thermistor {
  double r25, b, bend;
  double ohm(double celsius) const {
    const double x = 1 / kelvin_of(celsius) - 1 / kelvin_of(25);
    return r25 * std::exp(b * (1 - bend * x) * x);
  }
  double b_25_to(double celsius) const {
    return std::log(ohm(celsius) / r25) / (1 / kelvin_of(celsius) - 1 / kelvin_of(25));
  }
};

// R25 in kΩ and B25/85 as heating uses them: component sheets, figures in the reference folder's README.
Thermistor any_thermistor(Chance& chance) {
  static const std::vector<double> r25 = {2, 3, 5, 10, 12, 20, 30, 50, 100};
  static const std::vector<double> b = {3435, 3528, 3740, 3977, 4050, 4190};
  return {chance.of(r25) * 1000, chance.of(b), chance.between(0, 60)};
}

std::vector<double> some_temperatures(Chance& chance) {
  std::vector<double> all = {-20, -10, 0, 10, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100};
  std::vector<double> some;
  for (const double t : all)
    if (t == 25 || chance.one_in(2)) some.push_back(t);
  return some;
}

template <class Curve>
std::string table_rows(Chance& chance, Curve curve, double tolerance, bool limits) {
  std::vector<std::string> rows;
  const int digits =
      chance.whole(tolerance < 5 || limits ? 3 : 2, 4); // two digits only where they are enough
  for (const double t : some_temperatures(chance)) {
    // A little wider away from 25 °C, as makers print it.
    const double here = tolerance + std::abs(t - 25) * 0.02;
    rows.push_back(limits ? object({{"at", degrees(t)},
                                    {"min", ohms(curve(t) * (1 - here / 100), digits)},
                                    {"max", ohms(curve(t) * (1 + here / 100), digits)}})
                          : object({{"at", degrees(t)},
                                    {"nominal", ohms(curve(t), digits)},
                                    {"tolerance", percent(std::round(here * 10) / 10)}}));
  }
  return list(rows);
}

std::string thermistor_model(Chance& chance, const Thermistor& part, double tolerance) {
  switch (chance.whole(1, 4)) {
  case 1: {
    const double second = chance.of(std::vector<double>{50, 75, 80, 85, 100});
    const double b = part.b_25_to(second);
    return object({{"kind", in_quotes("beta")},
                   {"resistance", ohms(part.r25, 3)},
                   {"at", at_25},
                   {"tolerance", percent(tolerance)},
                   // To the kelvin, or to the nearest ten.
                   {"b_value", fmt::format("\"{:.0f} K\"", chance.one_in(2) ? b : std::round(b / 10) * 10)},
                   {"b_between", degrees(25, second)},
                   {"b_tolerance", percent(chance.of(std::vector<double>{0.5, 0.75, 1, 2, 3}))}});
  }
  case 2:
    return object({{"kind", in_quotes("table")},
                   {"resistance", ohms(part.r25, 3)},
                   {"at", at_25},
                   {"b_value", fmt::format("\"{:.0f} K\"", part.b_25_to(100))},
                   {"b_between", degrees(25, 100)},
                   {"b_tolerance", percent(1)},
                   {"rows", table_rows(
                                chance, [&](double t) { return part.ohm(t); }, tolerance, false)}});
  default: {
    const bool limits = chance.one_in(3);
    return object({{"kind", in_quotes("table")},
                   {"rows", table_rows(
                                chance, [&](double t) { return part.ohm(t); }, tolerance, limits)}});
  }
  }
}

// Coefficients through three points of the curve, printed as data sheets print them.
std::string steinhart_hart_model(const Thermistor& part) {
  const double t[] = {kelvin_of(0), kelvin_of(25), kelvin_of(85)};
  const double r[] = {part.ohm(0), part.ohm(25), part.ohm(85)};
  const auto curve = steinhart_hart_through(std::span<const double, 3>(t), std::span<const double, 3>(r));
  return object({{"kind", in_quotes("steinhart_hart")},
                 {"a", fmt::format("\"{:.6e} K^-1\"", curve->a)},
                 {"b", fmt::format("\"{:.6e} K^-1\"", curve->b)},
                 {"c", fmt::format("\"{:.6e} K^-1\"", curve->c)},
                 {"tolerance", percent(2)}});
}

std::string open_and_short_limits(const Thermistor& part) {
  return object({{"below", ohms(part.ohm(135), 2)}, {"above", ohms(part.ohm(-45), 2)}, {"after", "\"5 s\""}});
}

void thermistors(Draft& draft) {
  Chance& chance = draft.chance;
  const Thermistor part = any_thermistor(chance);
  const double tolerance = chance.of(std::vector<double>{1, 2, 3, 5, 10, 20});
  const std::string model = thermistor_model(chance, part, tolerance);
  const auto pins = draft.contacts("selv", {"flow sensor", "0 V of the sensors", "return sensor"});
  draft.component("flow_sensor", {{"kind", in_quotes("ntc")},
                                  {"name", in_quotes("Flow sensor")},
                                  {"between", texts({pins[0], pins[1]})},
                                  {"service_limit", in_quotes("3 K")},
                                  {"temperature_range", degrees(-20, 110)},
                                  {"model", model}});
  // What the model gives; or a band at 25 °C, no tighter than a handheld meter reads; or, far from there, a
  // wider one.
  const double far = chance.of(std::vector<double>{0, 10, 20, 60, 80});
  const std::string expect = chance.one_in(3) ? ""
                             : chance.one_in(2)
                                 ? band(part.r25, 3, std::max(tolerance, 3.0), at_25)
                                 : band(part.ohm(far), chance.whole(2, 3), tolerance + 5, degrees(far));
  draft.test("flow_sensor_resistance", "flow_sensor", pins[0], pins[1],
             {{"expect", expect},
              {"response", response("falls_when_warmed")},
              {"excludes", texts({"open", "short", "drift_high", "drift_low"})}});
  draft.fault("flow_sensor", {"open", "short"}, {"flow_sensor_resistance"}, open_and_short_limits(part));
  if (chance.one_in(2)) return;
  // Its twin, on the common contact: a shared common that is deduced.
  draft.component("return_sensor", {{"kind", in_quotes("ntc")},
                                    {"name", in_quotes("Return sensor")},
                                    {"between", texts({pins[2], pins[1]})},
                                    {"temperature_range", degrees(-20, 110)},
                                    {"model", model}});
  draft.test("twins", "return_sensor", pins[2], pins[1],
             {{"expect", R"({ "kind": "pair", "with": "flow_sensor", "largest_difference": "2 K" })"},
              {"excludes", texts({"drift_high", "drift_low"})}});
  draft.fault("return_sensor", {"drift_high", "drift_low"}, {"twins"});
}

// A resistor across the sensor and one in series: almost straight, with a B near 0.
void linearised_sensor(Draft& draft) {
  Chance& chance = draft.chance;
  const Thermistor part = any_thermistor(chance);
  const double across = part.r25 * chance.between(0.1, 1), series = part.r25 * chance.between(0, 0.3);
  const auto curve = [&](double t) { return series + across * part.ohm(t) / (across + part.ohm(t)); };
  const auto pins = draft.contacts("selv", {"room sensor", "room sensor, 0 V"});
  draft.component(
      "room_sensor",
      {{"kind", in_quotes("ntc")},
       {"name", in_quotes("Room sensor")},
       {"linearised", "true"},
       {"between", texts(pins)},
       {"model", object({{"kind", in_quotes("table")}, {"rows", table_rows(chance, curve, 2, false)}})}});
  draft.test("room_sensor_resistance", "room_sensor", pins[0], pins[1],
             {{"expect", band(curve(20), 3, 5, at_20)}, {"excludes", texts({"open", "short"})}});
  draft.fault("room_sensor", {"open", "short"}, {"room_sensor_resistance"});
}

// The sensor is a part that many appliances share; only its place stands here.
void shared_sensor(Draft& draft) {
  const auto pins = draft.contacts("selv", {"tank sensor", "tank sensor, 0 V"});
  draft.component("tank_sensor", {{"kind", in_quotes("ntc")},
                                  {"name", in_quotes("Tank sensor")},
                                  {"part", in_quotes("ntc-10k-3977")},
                                  {"between", texts(pins)}});
  draft.test("tank_sensor_resistance", "tank_sensor", pins[0], pins[1],
             {{"response", response("steady_when_moved")},
              {"excludes", texts({"open", "short", "drift_high", "drift_low", "intermittent"})}});
  draft.fault("tank_sensor", {"open", "short", "intermittent"}, {"tank_sensor_resistance"},
              R"({ "below": "350 Ω", "above": "250 kΩ" })");
}

// Silicon: R25 (1 + a d + b d²), d = t - 25 K (common data sheet figures, from memory).
void silicon_sensor(Draft& draft) {
  const double r25 = draft.chance.one_in(2) ? 1000 : 2000;
  const auto curve = [&](double t) {
    return r25 * (1 + 7.88e-3 * (t - 25) + 1.937e-5 * (t - 25) * (t - 25));
  };
  const auto pins = draft.contacts("selv", {"collector sensor", "collector sensor, 0 V"});
  draft.component("collector_sensor",
                  {{"kind", in_quotes("ptc")},
                   {"name", in_quotes("Collector sensor")},
                   {"type", in_quotes("silicon")},
                   {"between", texts(pins)},
                   {"model", object({{"kind", in_quotes("table")},
                                     {"rows", table_rows(draft.chance, curve, 2, false)}})}});
  draft.test("collector_sensor_resistance", "collector_sensor", pins[0], pins[1],
             {{"expect", band(r25, 3, 5, at_25)},
              {"response", response("rises_when_warmed")},
              {"excludes", texts({"open", "short"})}});
  draft.fault("collector_sensor", {"open", "short"}, {"collector_sensor_resistance"});
}

// A specimen within its maker's tolerance, read by the writer of the profile, who gives the band that surely
// holds all of its kind: twice the tolerance and more around what was read.
void specimen(Draft& draft) {
  Chance& chance = draft.chance;
  const Thermistor kind = any_thermistor(chance);
  const double tolerance = chance.of(std::vector<double>{1, 2, 5}), b_tolerance = 1;
  const double b = kind.b_25_to(85);
  const Thermistor part = {kind.r25 * (1 + tolerance / 100 * chance.between(-1, 1)),
                           kind.b * (1 + b_tolerance / 100 * chance.between(-1, 1)), kind.bend};
  const double celsius = std::round(chance.between(5, 60));
  // What the tolerances of R25 and of B come to there, first order (IEC 60539-1).
  const double spread = tolerance + b_tolerance * b * std::abs(1 / kelvin_of(celsius) - 1 / kelvin_of(25));
  const auto pins = draft.contacts("selv", {"buffer sensor", "buffer sensor, 0 V"});
  draft.component("buffer_sensor", {{"kind", in_quotes("ntc")},
                                    {"name", in_quotes("Buffer sensor")},
                                    {"between", texts(pins)},
                                    {"model", object({{"kind", in_quotes("beta")},
                                                      {"resistance", ohms(kind.r25, 3)},
                                                      {"at", at_25},
                                                      {"tolerance", percent(tolerance)},
                                                      {"b_value", fmt::format("\"{:.0f} K\"", b)},
                                                      {"b_between", degrees(25, 85)},
                                                      {"b_tolerance", percent(b_tolerance)}})}});
  const double read = part.ohm(celsius), width = 2.5 * spread + 2;
  draft.test("buffer_sensor_resistance", "buffer_sensor", pins[0], pins[1],
             {{"expect", chance.one_in(2) ? band(read, chance.whole(2, 4), std::ceil(width), degrees(celsius))
                                          : band_between(read * (1 - width / 100), read * (1 + width / 100),
                                                         chance.whole(3, 4), degrees(celsius))},
              {"excludes", texts({"open", "short", "drift_high", "drift_low"})}});
  draft.fault("buffer_sensor", {"open", "short"}, {"buffer_sensor_resistance"});
  // Water that is too hot, told by the sensor's resistance inside of what it is made for.
  draft.fault("buffer_sensor", {"drift_low"}, {"buffer_sensor_resistance"},
              object({{"below", ohms(kind.ohm(chance.one_in(2) ? 95 : 105), 2)}}));
}

// Read by the writer of the profile while it cooled: a thermometer of some tenths of a kelvin, a meter of 1
// %.
void measured_table(Draft& draft) {
  Chance& chance = draft.chance;
  const Thermistor part = any_thermistor(chance);
  std::vector<std::string> rows;
  const double step = chance.between(4, 12), from = chance.between(8, 20);
  const int count = chance.whole(4, 14);
  for (int i = 0; i < count && from + i * step < 90; ++i) {
    const double t = from + i * step, off = chance.between(-0.3, 0.3), gain = chance.between(0.992, 1.008);
    rows.push_back(object({{"at", fmt::format("\"{:.1f} °C\"", t + off)},
                           {"nominal", ohms(part.ohm(t) * gain, 3)},
                           {"tolerance", percent(5)}}));
  }
  const auto pins = draft.contacts("selv", {"floor sensor", "floor sensor, 0 V"});
  draft.component("floor_sensor", {{"kind", in_quotes("ntc")},
                                   {"name", in_quotes("Floor sensor")},
                                   {"between", texts(pins)},
                                   {"model", object({{"kind", in_quotes("table")}, {"rows", list(rows)}})}});
  draft.test("floor_sensor_resistance", "floor_sensor", pins[0], pins[1],
             {{"response", response("falls_when_warmed")}, {"excludes", texts({"open", "short"})}});
  draft.fault("floor_sensor", {"open", "short"}, {"floor_sensor_resistance"});
}

// Metal by its table: platinum after IEC 60751, or a winding of copper, computed or read, rounded to two to
// five digits.
void metal_by_table(Draft& draft) {
  Chance& chance = draft.chance;
  const bool platinum = chance.one_in(2), read = chance.one_in(3);
  const double nominal = platinum ? chance.of(std::vector<double>{100, 500, 1000}) : chance.between(2, 400);
  const double k = chance.one_in(2) ? 234.5 : 235;
  const auto curve = [&](double t) {
    return platinum ? nominal * (1 + 3.9083e-3 * t - 5.775e-7 * t * t -
                                 (t < 0 ? 4.183e-12 * (t - 100) * t * t * t : 0))
                    : nominal * (k + t) / (k + 20);
  };
  const int digits = chance.whole(platinum ? 4 : 2, platinum ? 5 : 4);
  std::vector<std::string> rows;
  for (const double t : some_temperatures(chance)) {
    // Read with 0.3 K and 0.5 %.
    const double ohm =
        read ? curve(t + chance.between(-0.3, 0.3)) * (platinum ? 1 : chance.between(0.995, 1.005))
             : curve(t);
    rows.push_back(object(
        {{"at", degrees(t)}, {"nominal", ohms(ohm, digits)}, {"tolerance", platinum ? "" : percent(10)}}));
  }
  const auto pins = draft.contacts("selv", {"tabled part", "tabled part, 0 V"});
  draft.component("tabled_part",
                  {{"kind", in_quotes(platinum ? "rtd" : "winding")},
                   {"name", in_quotes("Part by its table")},
                   {platinum ? "metal" : "connection", in_quotes(platinum ? "platinum" : "single")},
                   {"between", texts(pins)},
                   {"model", object({{"kind", in_quotes("table")}, {"rows", list(rows)}})}});
  draft.test("tabled_part_resistance", "tabled_part", pins[0], pins[1],
             {{"expect", band(curve(25), std::max(digits, 3), 15, at_25)}, {"excludes", texts({"open"})}});
  draft.fault("tabled_part", {"open"}, {"tabled_part_resistance"});
}

// Motor protection: limits of DIN 44081 at its nominal temperature (reference folder), a wide band when cold
// that falls slightly before it rises.
void switching_ptc(Draft& draft) {
  Chance& chance = draft.chance;
  const double trip = chance.of(std::vector<double>{90, 110, 120, 130, 140});
  const double cold = chance.between(60, 100);
  const auto row = [&](double t, double min, double max) {
    return object({{"at", degrees(t)}, {"min", ohms(min, 2)}, {"max", ohms(max, 2)}});
  };
  const auto pins = draft.contacts("selv", {"motor protection", "motor protection, 0 V"});
  draft.component(
      "motor_protection",
      {{"kind", in_quotes("ptc")},
       {"name", in_quotes("Thermistor in the motor")},
       {"type", in_quotes("switching")},
       {"between", texts(pins)},
       {"model", object({{"kind", in_quotes("table")},
                         {"rows", list({row(-20, cold * 0.6, cold * 1.7), row(25, cold * 0.5, cold * 1.5),
                                        row(trip - 20, 30, 250), row(trip - 5, 60, 550),
                                        row(trip + 5, 1330, 6000), row(trip + 15, 4000, 60000)})}})}});
  draft.test(
      "motor_protection_resistance", "motor_protection", pins[0], pins[1],
      {{"expect", band_between(cold * 0.5, cold * 1.5, 2, at_25)}, {"excludes", texts({"open", "short"})}});
  draft.fault("motor_protection", {"open", "short"}, {"motor_protection_resistance"});
}

void resistance_thermometer(Draft& draft) {
  Chance& chance = draft.chance;
  const bool nickel = chance.one_in(3);
  const double r0 = chance.one_in(2) ? 1000 : nickel ? 100 : 500;
  const double at_25_ohm = nickel ? r0 * 1.1413 : r0 * (1 + 3.9083e-3 * 25 - 5.775e-7 * 625);
  const auto pins = draft.contacts("selv", {"outdoor sensor", "outdoor sensor, 0 V"});
  draft.component("outdoor_sensor",
                  {{"kind", in_quotes("rtd")},
                   {"name", in_quotes("Outdoor sensor")},
                   {"metal", in_quotes(nickel ? "nickel" : "platinum")},
                   {"wires", "2"},
                   {"between", texts(pins)},
                   {"model", nickel ? object({{"kind", in_quotes("polynomial")},
                                              {"r0", ohms(r0, 3)},
                                              {"tolerance", percent(1)},
                                              {"a1", in_quotes("5.485e-3 K^-1")},
                                              {"a2", in_quotes("6.65e-6 K^-2")},
                                              {"a4", in_quotes("2.805e-11 K^-4")}})
                                    : object({{"kind", in_quotes("iec_60751")},
                                              {"r0", ohms(r0, 3)},
                                              {"tolerance_class", in_quotes(chance.one_in(2) ? "B" : "A")},
                                              {"construction", in_quotes("film")}})}});
  draft.test(
      "outdoor_sensor_resistance", "outdoor_sensor", pins[0], pins[1],
      {{"expect", band(at_25_ohm, 4, 2, at_25)}, {"excludes", texts({"open", "short", "drift_high"})}});
  draft.fault("outdoor_sensor", {"open", "short"}, {"outdoor_sensor_resistance"});
}

// ---- coils

// The tolerance of the model, as percentage or as limits of two or three digits; or one band from cold to
// warm, at 0.39 % for each kelvin.
std::string coil_band(Chance& chance, double ohm, double tolerance) {
  const double low = ohm * (1 - tolerance / 100), high = ohm * (1 + tolerance / 100);
  switch (chance.whole(1, 3)) {
  case 1: return band(ohm, 3, tolerance, at_20);
  case 2: return band_between(low, high, chance.whole(2, 3), at_20);
  default: return band_between(low * 0.961, high * 1.039, chance.whole(2, 3), degrees(10, 30));
  }
}

void plain_coil(Draft& draft) {
  Chance& chance = draft.chance;
  const bool dc = chance.one_in(2);
  const double volt =
      dc ? chance.of(std::vector<double>{12, 24, 48}) : chance.of(std::vector<double>{24, 230});
  const double watt = chance.between(3, 12);
  // Direct current: V²/P, the rating being rounded; alternating: less, as the core limits it too.
  const double ohm = volt * volt / watt * (dc ? chance.between(0.96, 1.04) : chance.between(0.2, 0.5));
  const double tolerance = chance.of(std::vector<double>{5, 7, 10});
  const std::string side = volt > 100 ? "mains" : "selv";
  const auto pins = draft.contacts(side, {"gas valve", "gas valve"});
  const bool diode = dc && chance.one_in(3);
  draft.component("gas_valve", {{"kind", in_quotes("coil")},
                                {"name", in_quotes("Gas valve")},
                                {"drive", in_quotes(dc ? "dc" : "ac")},
                                {"suppression", in_quotes(diode              ? "diode"
                                                          : dc               ? "none"
                                                          : chance.one_in(2) ? "rc"
                                                                             : "none")},
                                {"metal", in_quotes("copper")},
                                {"rated_voltage", fmt::format("\"{:g} V {}\"", volt, dc ? "dc" : "ac")},
                                {"rated_power", dc ? about(watt, power, 2) : ""},
                                {"between", texts(pins)},
                                {"model", object({{"kind", in_quotes("copper")},
                                                  {"resistance", ohms(ohm, 3)},
                                                  {"at", at_20},
                                                  {"tolerance", percent(tolerance)}})}});
  draft.test("gas_valve_resistance", "gas_valve", pins[0], pins[1],
             {{"positive", diode ? in_quotes(pins[0]) : ""},
              {"expect", coil_band(chance, ohm, tolerance)},
              {"excludes", texts({"open", "short"})}});
  std::vector<std::string> tests = {"gas_valve_resistance"};
  if (volt > 100) {
    earth_test(draft, "gas_valve", pins[0]);
    tests.push_back("gas_valve_to_earth");
  }
  draft.fault("gas_valve", {"open", "short", "shorted_turns", "stuck_closed", "leakage_to_earth"}, tests);
}

// A bridge before the coil: what a meter shows depends on its test voltage, and may be nothing at all.
void rectified_coil(Draft& draft) {
  Chance& chance = draft.chance;
  const double ohm = chance.between(2000, 6000);
  const auto pins = draft.contacts("mains", {"second valve, live", "second valve, neutral"});
  draft.component("second_valve", {{"kind", in_quotes("coil")},
                                   {"name", in_quotes("Second gas valve")},
                                   {"drive", in_quotes("rectified")},
                                   {"suppression", in_quotes("bridge")},
                                   {"rated_voltage", in_quotes("230 V ac")},
                                   {"between", texts(pins)},
                                   {"note", in_quotes("may read open on a meter with a low test voltage")}});
  draft.test("second_valve_both_ways", "second_valve", pins[0], pins[1],
             {{"positive", in_quotes(pins[0])},
              {"expect", object({{"kind", in_quotes("both_directions")},
                                 {"min", ohms(ohm * 0.8, 2)},
                                 {"reverse_min", ohms(ohm * 0.8, 2)}})},
              {"excludes", texts({"short"})}});
  draft.fault("second_valve", {"short", "open"}, {"second_valve_both_ways"});
}

// A diode in series: one way round a reading, the other way none.
void polar_coil(Draft& draft) {
  const double ohm = draft.chance.between(200, 900);
  const auto pins = draft.contacts("selv", {"pilot valve", "pilot valve, 0 V"});
  draft.component("pilot_valve", {{"kind", in_quotes("coil")},
                                  {"name", in_quotes("Pilot valve")},
                                  {"drive", in_quotes("dc")},
                                  {"suppression", in_quotes("series_diode")},
                                  {"between", texts(pins)}});
  draft.test("pilot_valve_forward", "pilot_valve", pins[0], pins[1],
             {{"positive", in_quotes(pins[0])},
              {"expect", band(ohm, 3, 20, at_20)},
              {"excludes", texts({"open", "short"})}});
  draft.test("pilot_valve_backward", "pilot_valve", pins[0], pins[1],
             {{"positive", in_quotes(pins[1])}, {"expect", open_above(1e6)}, {"excludes", texts({"short"})}});
  draft.fault("pilot_valve", {"open", "short"}, {"pilot_valve_forward", "pilot_valve_backward"});
}

// Two valves side by side, as one reading on the plug.
void parallel_valves(Draft& draft) {
  const double ohm = draft.chance.between(60, 200);
  const auto pins = draft.contacts("selv", {"both valves", "both valves, 0 V"});
  for (const std::string id : {"valve_a", "valve_b"})
    draft.component(id, {{"kind", in_quotes("coil")},
                         {"name", in_quotes("Valve, " + id)},
                         {"between", draft.chance.one_in(2) ? texts(pins) : ""},
                         {"model", object({{"kind", in_quotes("copper")},
                                           {"resistance", ohms(ohm, 3)},
                                           {"at", at_20},
                                           {"tolerance", percent(7)}})}});
  draft.circuit("valves", {{"between", texts(pins)},
                           {"arrangement", in_quotes("parallel")},
                           {"elements", list({R"({ "kind": "component", "component": "valve_a" })",
                                              R"({ "kind": "component", "component": "valve_b" })"})}});
  draft.test("valves_together", "valve_a", pins[0], pins[1],
             {{"expect", band(ohm / 2, 3, 8, at_20)}, {"excludes", texts({"open", "short"})}});
  draft.fault("valve_b", {"open", "short"}, {"valves_together"});
}

// ---- motors

void start_run_motor(Draft& draft) {
  Chance& chance = draft.chance;
  const double run = chance.between(5, 400), start = run * chance.between(1.2, 3);
  const int digits = chance.whole(2, 3);
  const auto pins = draft.contacts("mains", {"pump, start", "pump, common", "pump, run"});
  const bool measured = chance.one_in(2);
  const auto pair = [&](std::string_view from, std::string_view to, double ohm) {
    return object({{"from", in_quotes(from)}, {"to", in_quotes(to)}, {"resistance", ohms(ohm, digits)}});
  };
  draft.component(
      "pump",
      {{"kind", in_quotes("winding")},
       {"name", in_quotes("Pump")},
       {"connection", in_quotes("start_run")},
       {"purely_resistive", chance.one_in(3) ? "true" : ""},
       {"protector", R"({ "trips_at": "140 °C", "position": "common", "reset": "automatic" })"},
       {"terminals",
        object({{"start", in_quotes(pins[0])}, {"common", in_quotes(pins[1])}, {"run", in_quotes(pins[2])}})},
       {"model", measured
                     ? object({{"kind", in_quotes("copper")},
                               {"resistance", ohms(run, digits)},
                               {"at", at_20},
                               {"tolerance", percent(10)},
                               {"pairs", list({pair("start", "common", start), pair("run", "common", run),
                                               pair("start", "run", start + run)})}})
                     : ""}});
  const double tolerance = chance.of(std::vector<double>{10, 15});
  draft.test(
      "pump_start", "pump", pins[0], pins[1],
      {{"expect", band(start, digits, tolerance, at_20)}, {"excludes", texts({"open", "protector_open"})}});
  draft.test(
      "pump_run", "pump", pins[1], pins[2],
      {{"expect", band(run, digits, tolerance, at_20)}, {"excludes", texts({"open", "protector_open"})}});
  draft.test("pump_start_to_run", "pump", pins[0], pins[2],
             {{"expect", band(start + run, digits, tolerance, at_20)},
              {"before", texts({"let the motor cool to room temperature"})},
              {"excludes", texts({"open"})}});
  earth_test(draft, "pump", pins[1]);
  draft.fault("pump", {"open", "protector_open", "seized"}, {"pump_start", "pump_run", "pump_start_to_run"});
  draft.fault("pump", {"leakage_to_earth"}, {"pump_to_earth"});
}

void three_phase_motor(Draft& draft) {
  Chance& chance = draft.chance;
  const bool star = chance.one_in(2);
  // Three specimens of one winding, read at the terminals: in star two in series, in delta one beside two.
  const double w = chance.between(5, 80);
  const double a = w * chance.between(0.98, 1.02), b = w * chance.between(0.98, 1.02),
               c = w * chance.between(0.98, 1.02);
  const auto across = [&](double one, double other, double third) {
    return star ? one + other : one * (other + third) / (one + other + third);
  };
  const auto pins = draft.contacts("mains", {"compressor, u", "compressor, v", "compressor, w"});
  const auto pair = [&](std::string_view from, std::string_view to, double ohm) {
    return object({{"from", in_quotes(from)}, {"to", in_quotes(to)}, {"resistance", ohms(ohm, 3)}});
  };
  draft.component(
      "compressor",
      {{"kind", in_quotes("winding")},
       {"name", in_quotes("Compressor")},
       {"connection", in_quotes(star ? "star" : "delta")},
       {"purely_resistive", "true"},
       {"terminals",
        object({{"u", in_quotes(pins[0])}, {"v", in_quotes(pins[1])}, {"w", in_quotes(pins[2])}})},
       {"model", object({{"kind", in_quotes("copper")},
                         {"resistance", ohms(across(a, b, c), 3)},
                         {"at", at_20},
                         {"tolerance", percent(7)},
                         {"pairs", list({pair("u", "v", across(a, b, c)), pair("v", "w", across(b, c, a)),
                                         pair("u", "w", across(a, c, b))})}})}});
  draft.test("compressor_u_v", "compressor", pins[0], pins[1],
             {{"expect", band(across(a, b, c), 3, 10, at_20)}, {"excludes", texts({"open"})}});
  draft.test("compressor_v_w", "compressor", pins[1], pins[2],
             {{"expect", band(across(b, c, a), 3, 10, at_20)}, {"excludes", texts({"open"})}});
  earth_test(draft, "compressor", pins[0]);
  draft.fault("compressor", {"open", "leakage_to_earth"},
              {"compressor_u_v", "compressor_v_w", "compressor_to_earth"});
}

void tapped_fan(Draft& draft) {
  Chance& chance = draft.chance;
  const double main = chance.between(40, 300), step = main * chance.between(0.1, 0.4);
  const auto pins = draft.contacts("mains", {"fan, neutral", "fan, high", "fan, low"});
  const auto pair = [&](std::string_view from, std::string_view to, double ohm) {
    return object({{"from", in_quotes(from)}, {"to", in_quotes(to)}, {"resistance", ohms(ohm, 3)}});
  };
  draft.component(
      "fan",
      {{"kind", in_quotes("winding")},
       {"name", in_quotes("Fan")},
       {"connection", in_quotes("tapped")},
       {"terminals",
        object({{"neutral", in_quotes(pins[0])}, {"high", in_quotes(pins[1])}, {"low", in_quotes(pins[2])}})},
       {"model", object({{"kind", in_quotes("copper")},
                         {"resistance", ohms(main, 3)},
                         {"at", at_20},
                         {"tolerance", percent(10)},
                         {"pairs", list({pair("neutral", "high", main), pair("neutral", "low", main + step),
                                         pair("high", "low", step)})}})}});
  draft.test("fan_high", "fan", pins[0], pins[1],
             {{"expect", band(main, 3, 12, at_20)}, {"excludes", texts({"open"})}});
  draft.hazard(R"({ "kind": "generates_when_turned", "component": "fan" })");
  draft.fault("fan", {"open", "seized", "shorted_turns"}, {"fan_high"});
}

void stepper(Draft& draft) {
  Chance& chance = draft.chance;
  const double phase = chance.between(20, 150);
  const bool unipolar = chance.one_in(2);
  if (unipolar) {
    const auto pins = draft.contacts("selv", {"stepper, common", "stepper, 1", "stepper, 2"});
    draft.component("stepper", {{"kind", in_quotes("winding")},
                                {"name", in_quotes("Stepper of the expansion valve")},
                                {"connection", in_quotes("unipolar")},
                                {"terminals", object({{"common", in_quotes(pins[0])},
                                                      {"phase_1", in_quotes(pins[1])},
                                                      {"phase_2", in_quotes(pins[2])}})}});
    draft.test("stepper_1", "stepper", pins[0], pins[1],
               {{"expect", band(phase, 3, 10, at_20)}, {"excludes", texts({"open"})}});
    draft.test("stepper_2", "stepper", pins[0], pins[2],
               {{"expect", band(phase, 3, 10, at_20)}, {"excludes", texts({"open"})}});
    draft.test("stepper_1_2", "stepper", pins[1], pins[2],
               {{"expect", band(2 * phase, 3, 10, at_20)}, {"excludes", texts({"open"})}});
    draft.fault("stepper", {"open"}, {"stepper_1", "stepper_2", "stepper_1_2"});
    return;
  }
  const auto pins = draft.contacts("selv", {"stepper, a1", "stepper, a2", "stepper, b1", "stepper, b2"});
  draft.component("stepper", {{"kind", in_quotes("winding")},
                              {"name", in_quotes("Stepper of the mixer")},
                              {"connection", in_quotes("bipolar")},
                              {"terminals", object({{"a1", in_quotes(pins[0])},
                                                    {"a2", in_quotes(pins[1])},
                                                    {"b1", in_quotes(pins[2])},
                                                    {"b2", in_quotes(pins[3])}})}});
  draft.test("stepper_a", "stepper", pins[0], pins[1],
             {{"expect", band(phase, 3, 10, at_20)}, {"excludes", texts({"open"})}});
  draft.test("stepper_a_to_b", "stepper", pins[0], pins[2],
             {{"expect", open_above(1e6)}, {"excludes", texts({"short"})}});
  draft.fault("stepper", {"open", "short"}, {"stepper_a", "stepper_a_to_b"});
}

// Two directions, a common that another part uses too, and ends that the harness joins.
void diverter(Draft& draft) {
  const double ohm = draft.chance.between(4000, 12000);
  const std::string neutral = draft.shared("mains", "neutral of the loads");
  const auto pins = draft.contacts("mains", {"diverter, open", "diverter, close"});
  draft.component("diverter", {{"kind", in_quotes("winding")},
                               {"name", in_quotes("Diverter motor")},
                               {"connection", in_quotes("two_direction")},
                               {"terminals", object({{"open", in_quotes(pins[0])},
                                                     {"close", in_quotes(pins[1])},
                                                     {"common", in_quotes(neutral)}})}});
  draft.test("diverter_open", "diverter", pins[0], neutral,
             {{"expect", band(ohm, 3, 10, at_20)}, {"excludes", texts({"open"})}});
  const std::string lamp = draft.contact("mains", "bypass valve");
  draft.component("bypass_valve", {{"kind", in_quotes("coil")},
                                   {"name", in_quotes("Bypass valve")},
                                   {"drive", in_quotes("ac")},
                                   {"between", texts({lamp, neutral})}});
  draft.test("bypass_valve_resistance", "bypass_valve", lamp, neutral,
             {{"expect", band(ohm / 3, 3, 10, at_20)}, {"excludes", texts({"open", "short"})}});
  draft.fault("diverter", {"open", "seized"}, {"diverter_open"});
  draft.fault("bypass_valve", {"open"}, {"bypass_valve_resistance"});
}

// ---- heaters

void heater(Draft& draft) {
  Chance& chance = draft.chance;
  const bool ceramic = chance.one_in(4);
  const double watt = chance.of(std::vector<double>{60, 800, 1000, 1500, 2000, 3000});
  const double ohm = 230 * 230 / watt;
  const auto pins = draft.contacts("mains", {"heater, live", "heater, neutral"});
  draft.component("heater", {{"kind", in_quotes("heater")},
                             {"name", in_quotes("Heater")},
                             {"element", in_quotes(ceramic ? "ptc" : "wire")},
                             {"rated_voltage", in_quotes("230 V ac")},
                             {"rated_power", about(watt, power, 2)},
                             {"between", texts(pins)},
                             {"model", ceramic ? ""
                                               : object({{"kind", in_quotes("power")},
                                                         {"voltage", in_quotes("230 V ac")},
                                                         {"power", about(watt, power, 2)},
                                                         {"tolerance", in_quotes("+10 % -5 %")}})}});
  // Cold, a ceramic element says little: a wide band.
  draft.test("heater_resistance", "heater", pins[0], pins[1],
             {{"expect", ceramic ? band_between(ohm * 0.3, ohm * 2.5, 2, at_20)
                                 : band_between(ohm * 0.93, ohm * 1.12, 3, at_20)},
              {"excludes", texts({"open", "short"})}});
  earth_test(draft, "heater", pins[0]);
  draft.hazard(R"({ "kind": "hot_surface", "component": "heater", "wait": "20 min" })");
  draft.fault("heater", {"open", "short", "leakage_to_earth"}, {"heater_resistance", "heater_to_earth"});
}

void igniter(Draft& draft) {
  Chance& chance = draft.chance;
  const bool carbide = chance.one_in(2);
  const auto pins = draft.contacts("mains", {"igniter", "igniter, neutral"});
  draft.component("igniter", {{"kind", in_quotes("igniter")},
                              {"name", in_quotes("Hot surface igniter")},
                              {"element", in_quotes(carbide ? "silicon_carbide" : "silicon_nitride")},
                              {"between", texts(pins)}});
  const double ohm = chance.between(40, 120);
  draft.test(
      "igniter_resistance", "igniter", pins[0], pins[1],
      {{"expect", band_between(ohm * 0.5, ohm * 1.5, 2, at_20)}, {"excludes", texts({"open", "short"})}});
  draft.fault("igniter", {"open", "short"}, {"igniter_resistance"});
}

// ---- contacts

// Limit, flow and pressure in series: the joints between are not brought out.
void safety_chain(Draft& draft) {
  const std::string side = draft.chance.one_in(2) ? "selv" : "mains";
  const auto pins = draft.contacts(side, {"safety chain", "safety chain, end"});
  draft.component("limit", {{"kind", in_quotes("switch")},
                            {"name", in_quotes("Limit thermostat")},
                            {"contacts", in_quotes("nc")},
                            {"manual_reset", "true"},
                            {"trips_at", in_quotes("105 °C")},
                            {"resets_at", in_quotes("85 °C")},
                            {"states", R"({ "cold": "closed", "hot": "open" })"}});
  draft.component("pressure_switch", {{"kind", in_quotes("switch")},
                                      {"name", in_quotes("Pressure switch")},
                                      {"contacts", in_quotes("no")},
                                      {"operates_at", in_quotes("0.8 bar, rising")},
                                      {"states", R"({ "pressurised": "closed", "drained": "open" })"}});
  const bool resistor = draft.chance.one_in(3);
  draft.circuit(
      "safety_chain",
      {{"between", texts(pins)},
       {"arrangement", in_quotes("series")},
       {"elements", list({R"({ "kind": "component", "component": "limit" })",
                          R"({ "kind": "component", "component": "pressure_switch" })",
                          resistor ? R"({ "kind": "resistor", "resistance": "1 kΩ", "tolerance": "5 %" })"
                                   : R"({ "kind": "component", "component": "fusible_link" })"})}});
  draft.component("fusible_link", {{"kind", in_quotes("fuse")},
                                   {"name", in_quotes("Fusible link")},
                                   {"construction", in_quotes("thermal_one_shot")},
                                   {"trips_at", in_quotes("142 °C")}});
  draft.test("safety_chain_closed", "limit", pins[0], pins[1],
             {{"condition", in_quotes("cold")},
              {"expect", resistor ? band(1000, 2, 6, "") : closed_below(draft.chance.between(1, 3))},
              {"excludes", texts({"open", "stuck_open", "high_contact_resistance"})}});
  draft.fault("limit", {"open", "stuck_open"}, {"safety_chain_closed"});
  draft.fault("pressure_switch", {"stuck_open"}, {"safety_chain_closed"});
}

// The same contact in two conditions, and a changeover whose two throws are never closed together.
void plain_switches(Draft& draft) {
  const auto flow = draft.contacts("selv", {"flow switch", "flow switch, 0 V"});
  const bool nc = draft.chance.one_in(3);
  draft.component("flow_switch", {{"kind", in_quotes("switch")},
                                  {"name", in_quotes("Flow switch")},
                                  {"contacts", in_quotes(nc ? "nc" : "no")},
                                  {"states", nc ? R"({ "flow": "open", "no_flow": "closed" })"
                                                : R"({ "flow": "closed", "no_flow": "open" })"},
                                  {"between", texts(flow)}});
  draft.test("flow_switch_open", "flow_switch", flow[0], flow[1],
             {{"condition", in_quotes(nc ? "flow" : "no_flow")},
              {"expect", open_above(1e6)},
              {"excludes", texts({"short", "stuck_closed"})}});
  draft.test("flow_switch_closed", "flow_switch", flow[0], flow[1],
             {{"condition", in_quotes(nc ? "no_flow" : "flow")},
              {"expect", closed_below(1)},
              {"excludes", texts({"open", "stuck_open", "high_contact_resistance"})}});
  draft.fault("flow_switch", {"stuck_open", "stuck_closed"}, {"flow_switch_open", "flow_switch_closed"});

  const auto air = draft.contacts("selv", {"air switch, common", "air switch, no", "air switch, nc"});
  draft.component(
      "air_switch",
      {{"kind", in_quotes("switch")},
       {"name", in_quotes("Air pressure switch")},
       {"contacts", in_quotes("changeover")},
       {"terminals",
        object({{"common", in_quotes(air[0])}, {"no", in_quotes(air[1])}, {"nc", in_quotes(air[2])}})}});
  draft.test("air_switch_no", "air_switch", air[0], air[1],
             {{"expect", open_above(1e6)}, {"excludes", texts({"stuck_closed"})}});
  draft.test("air_switch_nc", "air_switch", air[0], air[2],
             {{"expect", closed_below(1)}, {"excludes", texts({"stuck_open", "open"})}});
  draft.fault("air_switch", {"stuck_open", "stuck_closed"}, {"air_switch_no", "air_switch_nc"});
}

// The magnet's position decides what a pulse reed reads at rest.
void pulse_reed(Draft& draft) {
  const auto pins = draft.contacts("selv", {"flow meter", "flow meter, 0 V"});
  draft.component("flow_meter", {{"kind", in_quotes("switch")},
                                 {"name", in_quotes("Flow meter")},
                                 {"contacts", in_quotes("no")},
                                 {"pulse", "true"},
                                 {"series_resistance", draft.chance.one_in(2) ? in_quotes("100 Ω") : ""},
                                 {"between", texts(pins)}});
  draft.test("flow_meter_away", "flow_meter", pins[0], pins[1],
             {{"expect", open_above(1e6)},
              {"response", response("toggles_with_magnet")},
              {"excludes", texts({"open", "short", "stuck_closed", "stuck_open"})}});
  draft.test("flow_meter_near", "flow_meter", pins[0], pins[1],
             {{"expect", closed_below(120)},
              {"response", response("toggles_with_magnet")},
              {"excludes", texts({"open", "stuck_open"})}});
  draft.fault("flow_meter", {"stuck_open", "stuck_closed"}, {"flow_meter_away", "flow_meter_near"});
}

void fuse(Draft& draft) {
  const auto pins = draft.contacts("mains", {"fuse", "fuse, load side"});
  draft.component("fuse", {{"kind", in_quotes("fuse")},
                           {"name", in_quotes("Fuse")},
                           {"construction", in_quotes("wire")},
                           {"rating", in_quotes("2 A")},
                           {"between", texts(pins)},
                           {"model", R"({ "kind": "closed", "below": "1 Ω" })"}});
  draft.test("fuse_closed", "fuse", pins[0], pins[1], {{"excludes", texts({"open"})}});
  draft.fault("fuse", {"open"}, {"fuse_closed"});
}

// ---- the rest

// May show a path through the ignition transformer, or a suppressor in its lead.
void electrode(Draft& draft) {
  Chance& chance = draft.chance;
  const std::string lead = draft.contact("ignition_hv", "ignition lead");
  const bool suppressor = chance.one_in(2);
  draft.component("electrode", {{"kind", in_quotes("electrode")},
                                {"name", in_quotes("Electrode")},
                                {"purpose", in_quotes(suppressor ? "both" : "ignition")},
                                {"path", in_quotes(suppressor ? "suppressor" : "transformer")},
                                {"suppressor", suppressor ? in_quotes("1 kΩ") : ""},
                                {"between", texts({lead, draft.earth()})}});
  draft.test("electrode_path", "electrode", lead, draft.earth(),
             {{"expect", suppressor ? open_above(1e6) : band_between(2000, 9000, 1, at_20)},
              {"excludes", texts({"short"})}});
  draft.hazard(R"({ "kind": "ignition_voltage", "component": "electrode" })");
  draft.fault("electrode", {"short", "wet_or_corroded"}, {"electrode_path"});
}

void potentiometer(Draft& draft) {
  const double whole = draft.chance.of(std::vector<double>{1000, 5000, 10000});
  const auto pins = draft.contacts("selv", {"setting, upper end", "setting, wiper", "setting, lower end"});
  draft.component("setting", {{"kind", in_quotes("potentiometer")},
                              {"name", in_quotes("Setting knob")},
                              {"wiper_contact", in_quotes("50 Ω")},
                              {"terminals", object({{"upper", in_quotes(pins[0])},
                                                    {"wiper", in_quotes(pins[1])},
                                                    {"lower", in_quotes(pins[2])}})}});
  draft.test("setting_whole", "setting", pins[0], pins[2],
             {{"expect", band(whole, 2, 20, "")}, {"excludes", texts({"open", "short"})}});
  draft.test("setting_sweep", "setting", pins[0], pins[1],
             {{"expect", object({{"kind", in_quotes("smooth_sweep")},
                                 {"min", in_quotes("0 Ω")},
                                 {"max", ohms(whole * 1.25, 3)}})},
              {"response", response("smooth_sweep")},
              {"excludes", texts({"open", "intermittent"})}});
  draft.fault("setting", {"open", "intermittent"}, {"setting_whole", "setting_sweep"});
}

void run_capacitor(Draft& draft) {
  const auto pins = draft.contacts("mains", {"run capacitor", "run capacitor"});
  const bool bleeder = draft.chance.one_in(2);
  draft.component("run_capacitor", {{"kind", in_quotes("capacitor")},
                                    {"name", in_quotes("Run capacitor")},
                                    {"capacitance", in_quotes("2 µF")},
                                    {"bleeder", bleeder ? in_quotes("1 MΩ") : ""},
                                    {"between", texts(pins)}});
  draft.test("run_capacitor_charges", "run_capacitor", pins[0], pins[1],
             {{"expect", object({{"kind", in_quotes("rises_to_open")},
                                 {"above", in_quotes(bleeder ? "800 kΩ" : "2 MΩ")}})},
              {"response", response("rises_to_open")},
              {"excludes", texts({"short"})}});
  draft.hazard(fmt::format(
      R"({{ "kind": "stored_charge", "where": {}, "wait": "5 min", "verify_below": "10 V" }})", texts(pins)));
  draft.fault("run_capacitor", {"short", "low_capacitance"}, {"run_capacitor_charges"});
}

void transformer(Draft& draft) {
  Chance& chance = draft.chance;
  const auto primary = draft.contacts("mains", {"transformer, primary", "transformer, primary"});
  const auto secondary = draft.contacts("selv", {"transformer, secondary", "transformer, secondary"});
  draft.component("transformer", {{"kind", in_quotes("transformer")},
                                  {"name", in_quotes("Transformer")},
                                  {"terminals", object({{"primary_1", in_quotes(primary[0])},
                                                        {"primary_2", in_quotes(primary[1])},
                                                        {"secondary_1", in_quotes(secondary[0])},
                                                        {"secondary_2", in_quotes(secondary[1])}})}});
  draft.test("transformer_primary", "transformer", primary[0], primary[1],
             {{"expect", band(chance.between(20, 300), 2, 15, at_20)}, {"excludes", texts({"open"})}});
  draft.test("transformer_apart", "transformer", primary[0], secondary[0],
             {{"expect", open_above(2e6)}, {"excludes", texts({"short"})}});
  draft.fault("transformer", {"open", "short"}, {"transformer_primary", "transformer_apart"});
}

void light_and_flame(Draft& draft) {
  const auto eye = draft.contacts("selv", {"flame eye", "flame eye, 0 V"});
  draft.component("flame_eye", {{"kind", in_quotes("photocell")},
                                {"name", in_quotes("Flame eye")},
                                {"dark", in_quotes("1 MΩ")},
                                {"light", in_quotes("20 kΩ")},
                                {"between", texts(eye)}});
  draft.test("flame_eye_dark", "flame_eye", eye[0], eye[1],
             {{"condition", in_quotes("dark")}, {"expect", open_above(1e6)}, {"excludes", texts({"short"})}});
  draft.test("flame_eye_light", "flame_eye", eye[0], eye[1],
             {{"condition", in_quotes("light")},
              {"expect", band_between(500, 20000, 1, "")},
              {"excludes", texts({"open"})}});
  draft.fault("flame_eye", {"open", "short"}, {"flame_eye_dark", "flame_eye_light"});

  const auto pins = draft.contacts("selv", {"thermocouple", "thermocouple"});
  draft.component(
      "thermocouple",
      {{"kind", in_quotes("thermocouple")}, {"name", in_quotes("Thermocouple")}, {"between", texts(pins)}});
  draft.test("thermocouple_whole", "thermocouple", pins[0], pins[1],
             {{"expect", closed_below(2)}, {"excludes", texts({"open"})}});
  draft.fault("thermocouple", {"open"}, {"thermocouple_whole"});
}

// A resistor that tells the board which model it sits in: one test for each model.
void coding(Draft& draft) {
  const auto pins = draft.contacts("selv", {"coding", "coding, 0 V"});
  draft.component("coding", {{"kind", in_quotes("coding")},
                             {"name", in_quotes("Coding plug")},
                             {"code", in_quotes("24 kW")},
                             {"between", texts(pins)},
                             {"model", R"({ "kind": "fixed", "resistance": "1 kΩ", "tolerance": "5 %" })"}});
  draft.test("coding_resistance", "coding", pins[0], pins[1],
             {{"excludes", texts({"open", "short", "wrong_part"})}});
  draft.fault("coding", {"open", "wrong_part"}, {"coding_resistance"});
}

void electronics(Draft& draft) {
  const auto pins = draft.contacts("mains", {"electronic fan, live", "electronic fan, neutral"});
  draft.component("electronic_fan", {{"kind", in_quotes("electronic")},
                                     {"name", in_quotes("Fan with electronics")},
                                     {"contains", in_quotes("motor electronics with input filter")},
                                     {"between", texts(pins)}});
  draft.test("electronic_fan_not_short", "electronic_fan", pins[0], pins[1],
             {{"positive", in_quotes(pins[0])},
              {"expect", R"({ "kind": "not_short", "above": "100 Ω" })"},
              {"excludes", texts({"short"})}});
  draft.hazard(
      fmt::format(R"({{ "kind": "stored_charge", "where": {}, "wait": "10 min", "verify_below": "10 V" }})",
                  texts(pins)));
  draft.fault("electronic_fan", {"short", "seized"}, {"electronic_fan_not_short"});
}

void tank_anode(Draft& draft) {
  const std::string lead = draft.contact("selv", "anode");
  draft.component("anode", {{"kind", in_quotes("anode")},
                            {"name", in_quotes("Anode")},
                            {"protection", in_quotes("impressed_current")},
                            {"between", texts({lead, draft.contact("pelv", "tank shell")})}});
}

// An old harness with green-and-yellow where it must not be: said truthfully, looked at and waived.
void old_harness(Draft& draft) {
  const std::string at = draft.contact("mains", "switched live, green-and-yellow in this harness");
  draft.paint(at, R"({ "base": "GNYE" })");
  const std::size_t dot = at.find('.');
  draft.waive("earth-colour-misused",
              fmt::format("/connectors/{}/pins/{}", at.substr(0, dot), at.substr(dot + 1)),
              "harness of the first series, seen on three boilers");
}

// The same part read at the board and at its own plug, and the wires between for themselves.
void sensor_and_harness(Draft& draft) {
  Chance& chance = draft.chance;
  const Thermistor part = any_thermistor(chance);
  const auto pins = draft.contacts("selv", {"outlet sensor", "outlet sensor, 0 V"});
  const auto far = draft.far_plug("at the outlet sensor", "selv", {"outlet sensor", "outlet sensor, 0 V"});
  draft.component("outlet_sensor", {{"kind", in_quotes("ntc")},
                                    {"name", in_quotes("Outlet sensor")},
                                    {"between", texts(pins)},
                                    {"temperature_range", degrees(-20, 120)},
                                    {"model", steinhart_hart_model(part)}});
  draft.test("outlet_sensor_at_board", "outlet_sensor", pins[0], pins[1],
             {{"expect", band(part.r25, 3, 10, at_25)},
              {"response", response("steady_when_moved")},
              {"excludes", texts({"open", "short", "intermittent"})}});
  draft.test("outlet_sensor_at_part", "outlet_sensor", far[0], far[1],
             {{"side", in_quotes("at_component")},
              {"expect", band(part.r25, 2, 10, at_25)},
              {"excludes", texts({"open", "short", "drift_high"})}});
  draft.test("outlet_wire", "outlet_sensor", pins[0], far[0],
             {{"side", in_quotes("harness")}, {"expect", closed_below(1)}, {"excludes", texts({"open"})}});
  draft.test("outlet_wires_apart", "outlet_sensor", pins[0], pins[1],
             {{"side", in_quotes("harness")},
              {"disconnect_also", texts({"the plug at the sensor"})},
              {"expect", open_above(1e6)},
              {"excludes", texts({"short"})}});
  draft.fault("outlet_sensor", {"open", "short", "intermittent"},
              {"outlet_sensor_at_board", "outlet_sensor_at_part"});
}

// A sensor with a resistor on its plug, read as one.
void sensor_with_resistor(Draft& draft) {
  Chance& chance = draft.chance;
  const Thermistor part = any_thermistor(chance);
  const double resistor = part.r25 * chance.between(0.1, 0.5);
  const bool series = chance.one_in(2);
  const double together = series ? part.r25 + resistor : part.r25 * resistor / (part.r25 + resistor);
  const auto pins = draft.contacts("live_referenced", {"solar sensor", "solar sensor, low end"});
  draft.component("solar_sensor", {{"kind", in_quotes("ntc")},
                                   {"name", in_quotes("Solar sensor")},
                                   {"model", thermistor_model(chance, part, 3)}});
  draft.circuit("solar_input", {{"between", texts(pins)},
                                {"arrangement", in_quotes(series ? "series" : "parallel")},
                                {"elements", list({R"({ "kind": "component", "component": "solar_sensor" })",
                                                   object({{"kind", in_quotes("resistor")},
                                                           {"resistance", ohms(resistor, 2)},
                                                           {"tolerance", percent(5)}})})}});
  draft.test("solar_input_resistance", "solar_sensor", pins[0], pins[1],
             {{"expect", band(together, 3, 12, at_25)}, {"excludes", texts({series ? "open" : "short"})}});
  draft.fault("solar_sensor", {"open", "short"}, {"solar_input_resistance"});
}

// A holding current made by electronics: nothing but a short can be seen.
void economiser_valve(Draft& draft) {
  const auto pins = draft.contacts("selv", {"main valve", "main valve, 0 V"});
  draft.component("main_valve", {{"kind", in_quotes("coil")},
                                 {"name", in_quotes("Main valve")},
                                 {"drive", in_quotes("economiser")},
                                 {"suppression", in_quotes(draft.chance.one_in(2) ? "varistor" : "unknown")},
                                 {"between", texts(pins)}});
  draft.test("main_valve_not_short", "main_valve", pins[0], pins[1],
             {{"positive", in_quotes(pins[0])},
              {"expect", R"({ "kind": "not_short", "above": "20 Ω" })"},
              {"excludes", texts({"short"})}});
  draft.fault("main_valve", {"short", "stuck_closed"}, {"main_valve_not_short"});
}

// A coil of one class that moves contacts of another.
void relay(Draft& draft) {
  const double ohm = draft.chance.between(150, 1600);
  const auto coil = draft.contacts("selv", {"relay", "relay, 0 V"});
  const auto load = draft.contacts("mains", {"relay, common", "relay, normally open"});
  draft.component("relay", {{"kind", in_quotes("coil")},
                            {"name", in_quotes("Relay")},
                            {"drive", in_quotes("dc")},
                            {"suppression", in_quotes("diode")},
                            {"terminals", object({{"a1", in_quotes(coil[0])},
                                                  {"a2", in_quotes(coil[1])},
                                                  {"common", in_quotes(load[0])},
                                                  {"no", in_quotes(load[1])}})}});
  draft.test(
      "relay_coil", "relay", coil[0], coil[1],
      {{"positive", in_quotes(coil[1])}, {"expect", band(ohm, 3, 15, at_20)}, {"excludes", texts({"open"})}});
  draft.test("relay_contact", "relay", load[0], load[1],
             {{"expect", open_above(1e6)}, {"excludes", texts({"stuck_closed"})}});
  draft.fault("relay", {"open", "stuck_closed"}, {"relay_coil", "relay_contact"});
}

// Motor and run capacitor on the same contacts; the capacitor comes off for the reading.
void motor_with_capacitor(Draft& draft) {
  Chance& chance = draft.chance;
  const double main = chance.between(10, 60), start = main * chance.between(1, 2);
  const std::string common = draft.contact("mains", "blower, common");
  const std::string one = draft.shared("mains", "blower, main, and capacitor");
  const std::string two = draft.shared("mains", "blower, auxiliary, and capacitor");
  draft.component(
      "blower",
      {{"kind", in_quotes("winding")},
       {"name", in_quotes("Blower")},
       {"connection", in_quotes("start_run")},
       {"metal", in_quotes(chance.one_in(3) ? "aluminium" : "copper")},
       {"terminals",
        object({{"common", in_quotes(common)}, {"main", in_quotes(one)}, {"auxiliary", in_quotes(two)}})}});
  draft.component("blower_capacitor", {{"kind", in_quotes("capacitor")},
                                       {"name", in_quotes("Run capacitor of the blower")},
                                       {"capacitance", in_quotes("4 µF")},
                                       {"between", texts({one, two})}});
  draft.hazard(
      fmt::format(R"({{ "kind": "stored_charge", "where": {}, "wait": "1 min", "verify_below": "10 V" }})",
                  texts({one, two})));
  draft.test("blower_main", "blower", common, one,
             {{"expect", band(main, 3, 10, at_20)}, {"excludes", texts({"open"})}});
  draft.test("blower_auxiliary", "blower", common, two,
             {{"expect", band(start, 3, 10, at_20)}, {"excludes", texts({"open"})}});
  draft.test("blower_both", "blower", one, two,
             {{"expect", band(main + start, 3, 10, at_20)}, {"excludes", texts({"open"})}});
  draft.fault("blower", {"open", "shorted_turns"}, {"blower_main", "blower_auxiliary", "blower_both"});
  draft.fault("blower_capacitor", {"low_capacitance"}, {"blower_both"});
}

// Two contacts that the board joins.
void linked_contacts(Draft& draft) {
  const auto pins = draft.contacts("selv", {"24 V", "24 V"});
  draft.link(pins[0], pins[1]);
}

// Three readings of a potentiometer in its middle: the contact of the wiper is in both halves.
void potentiometer_in_halves(Draft& draft) {
  Chance& chance = draft.chance;
  const double whole = chance.of(std::vector<double>{1000, 5000, 10000}), contact = chance.between(20, 100);
  const double share = chance.between(0.4, 0.6);
  const auto pins = draft.contacts("selv", {"damper, upper end", "damper, wiper", "damper, lower end"});
  draft.component("damper", {{"kind", in_quotes("potentiometer")},
                             {"name", in_quotes("Damper position")},
                             {"wiper_contact", ohms(contact, 2)},
                             {"purely_resistive", chance.one_in(2) ? "true" : ""},
                             {"terminals", object({{"upper", in_quotes(pins[0])},
                                                   {"wiper", in_quotes(pins[1])},
                                                   {"lower", in_quotes(pins[2])}})}});
  const std::string middle = texts({"turn the shaft to its middle"});
  const auto half = [&](double part) { return band(whole * part + contact, 3, 10, at_20); };
  draft.test("damper_whole", "damper", pins[0], pins[2],
             {{"before", middle}, {"expect", band(whole, 3, 10, at_20)}, {"excludes", texts({"open"})}});
  draft.test("damper_upper", "damper", pins[0], pins[1], {{"before", middle}, {"expect", half(share)}});
  draft.test("damper_lower", "damper", pins[1], pins[2], {{"before", middle}, {"expect", half(1 - share)}});
  draft.fault("damper", {"open"}, {"damper_whole", "damper_upper", "damper_lower"});
}

// Three speeds and every reading among the taps, as a maker lists them.
void three_speeds(Draft& draft) {
  Chance& chance = draft.chance;
  const double high = chance.between(20, 300), medium = high * chance.between(1.1, 1.6),
               low = medium * chance.between(1.1, 1.6);
  const int digits = chance.whole(2, 3);
  const std::vector<std::string> names = {"common", "high", "medium", "low"};
  const double from_common[] = {0, high, medium, low};
  std::vector<std::string> pairs;
  for (std::size_t i = 0; i < 4; ++i)
    for (std::size_t j = i + 1; j < 4; ++j)
      pairs.push_back(object({{"from", in_quotes(names[i])},
                              {"to", in_quotes(names[j])},
                              {"resistance", ohms(from_common[j] - from_common[i], digits)}}));
  const auto pins =
      draft.contacts("mains", {"room fan, neutral", "room fan, high", "room fan, medium", "room fan, low"});
  draft.component("room_fan", {{"kind", in_quotes("winding")},
                               {"name", in_quotes("Room fan")},
                               {"connection", in_quotes("tapped")},
                               {"purely_resistive", chance.one_in(2) ? "true" : ""},
                               {"terminals", object({{"common", in_quotes(pins[0])},
                                                     {"high", in_quotes(pins[1])},
                                                     {"medium", in_quotes(pins[2])},
                                                     {"low", in_quotes(pins[3])}})},
                               {"model", object({{"kind", in_quotes("copper")},
                                                 {"resistance", ohms(high, digits)},
                                                 {"at", at_20},
                                                 {"tolerance", chance.one_in(2) ? percent(8) : ""},
                                                 {"pairs", list(pairs)}})}});
  draft.test("room_fan_low", "room_fan", pins[0], pins[3],
             {{"expect", band(low, 3, 12, at_20)}, {"excludes", texts({"open"})}});
  draft.hazard(R"({ "kind": "generates_when_turned", "component": "room_fan" })");
  draft.fault("room_fan", {"open"}, {"room_fan_low"});
}

// Two valves from one contact, each with a diode in series: from end to end they read open, and truly so. Or
// without diodes: then the one is read through the other, their sum, at another temperature perhaps.
void two_valves_from_one_contact(Draft& draft) {
  Chance& chance = draft.chance;
  const double one = chance.between(40, 300), other = chance.between(40, 300);
  const bool diodes = chance.one_in(2);
  const auto pins = draft.contacts("selv", {"zone valve 1", "zone valves, 24 V", "zone valve 2"});
  const auto valve = [&](const std::string& id, const std::string& end, double ohm) {
    draft.component(id, {{"kind", in_quotes("coil")},
                         {"name", in_quotes("Zone valve")},
                         {"drive", in_quotes("dc")},
                         {"suppression", in_quotes(diodes ? "series_diode" : "none")},
                         {"purely_resistive", diodes ? "" : "true"},
                         {"between", texts({end, pins[1]})},
                         {"model", diodes ? ""
                                          : object({{"kind", in_quotes("copper")},
                                                    {"resistance", ohms(ohm, 3)},
                                                    {"at", at_20},
                                                    {"tolerance", percent(7)}})}});
    draft.test(id + "_resistance", id, end, pins[1],
               {{"positive", diodes ? in_quotes(end) : ""},
                {"expect", diodes ? R"({ "kind": "not_short", "above": "20 Ω" })" : band(ohm, 3, 10, at_20)},
                {"excludes", texts({"short"})}});
    draft.fault(id, {"short"}, {id + "_resistance"});
  };
  valve("zone_valve_1", pins[0], one);
  valve("zone_valve_2", pins[2], other);
  draft.circuit("both_zone_valves",
                {{"between", texts({pins[0], pins[2]})},
                 {"arrangement", in_quotes("series")},
                 {"elements", list({R"({ "kind": "component", "component": "zone_valve_1" })",
                                    R"({ "kind": "component", "component": "zone_valve_2" })"})}});
  const bool warm = chance.one_in(3);
  draft.test(
      "zone_valves_end_to_end", "zone_valve_1", pins[0], pins[2],
      {{"expect", diodes ? open_above(1e6)
                         : band((one + other) * (warm ? 1.0786 : 1), 3, 10, warm ? degrees(40) : at_20)}});
}

}

Named_text healthy_profile(int number) {
  Chance chance(static_cast<unsigned>(number));
  Draft draft(chance, number);
  using Add = void (*)(Draft&);
  struct Choice {
    Add add;
    int one_in;
  };
  constexpr Choice choices[] = {
      {thermistors, 1},
      {linearised_sensor, 6},
      {shared_sensor, 3},
      {sensor_and_harness, 5},
      {sensor_with_resistor, 6},
      {silicon_sensor, 6},
      {switching_ptc, 6},
      {resistance_thermometer, 5},
      {specimen, 4},
      {measured_table, 8},
      {metal_by_table, 6},
      {plain_coil, 2},
      {rectified_coil, 4},
      {polar_coil, 8},
      {economiser_valve, 8},
      {parallel_valves, 6},
      {relay, 6},
      {start_run_motor, 3},
      {three_phase_motor, 5},
      {tapped_fan, 4},
      {motor_with_capacitor, 6},
      {stepper, 6},
      {diverter, 5},
      {heater, 3},
      {igniter, 5},
      {safety_chain, 2},
      {plain_switches, 3},
      {pulse_reed, 4},
      {fuse, 3},
      {electrode, 4},
      {potentiometer, 5},
      {run_capacitor, 5},
      {transformer, 5},
      {light_and_flame, 6},
      {coding, 6},
      {electronics, 4},
      {tank_anode, 8},
      {old_harness, 20},
      {linked_contacts, 10},
      {potentiometer_in_halves, 6},
      {three_speeds, 5},
      {two_valves_from_one_contact, 5},
  };
  for (const Choice& choice : choices)
    if (chance.one_in(choice.one_in)) choice.add(draft);
  draft.fault_without_test();
  return {fmt::format("profiles/orrinvale/{}.profile.json", draft.id()), draft.text()};
}

std::string healthy_corpus() {
  return R"({ "format": "ohmlore/1.0", "kind": "corpus", "title": "Healthy profiles", "licence": "CC0-1.0" })";
}

std::vector<Named_text> healthy_parts() {
  return {{"parts/ntc-10k-3977.part.json", R"({
  "format": "ohmlore/1.0", "kind": "part", "id": "ntc-10k-3977", "revision": 1,
  "sources": { "sheet": { "kind": "maker_document", "title": "Sensor data sheet", "date": "2018-02" } },
  "source": { "from": "sheet" },
  "component": {
    "kind": "ntc", "name": "Sensor 10 kΩ", "service_limit": "3 K", "temperature_range": "-30 °C to 110 °C",
    "model": {
      "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %",
      "b_value": "3977 K", "b_between": "25 °C to 85 °C", "b_tolerance": "0.75 %"
    }
  }
}
)"}};
}

}
