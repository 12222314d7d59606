// ohmlore curve: resistance over temperature, and what a reading would mean.
#include <cstdio>
#include <map>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "job.h"
#include "ohmlore/cautions.h"
#include "ohmlore/curve.h"
#include "ohmlore/judge.h"
#include "ohmlore/open_component.h"

namespace {

using ohmlore::Temperature_unit;

struct Curve_options {
  std::string component;
  std::string from, to, step, at, reading;
  std::string unit, format;
  std::string terminals;
  std::optional<std::string> root;
};

Temperature_unit unit_of(const Curve_options& options) {
  static const std::map<std::string, Temperature_unit> units = {
      {"C", Temperature_unit::celsius}, {"F", Temperature_unit::fahrenheit}, {"K", Temperature_unit::kelvin}};
  if (!options.unit.empty()) return units.at(options.unit);
  // As the first temperature that was given.
  for (const std::string* given : {&options.from, &options.to, &options.at})
    if (!given->empty()) { // ℃ and ℉ are one character
      const std::string spelt =
          ohmlore::canonical_spelling(ohmlore::completed_temperature(*given),
                                      ohmlore::Quantity_grammar::range, ohmlore::Dimension::temperature);
      return units.at(spelt.substr(spelt.size() - 1));
    }
  return Temperature_unit::celsius;
}

void answer_at(const ohmlore::Curve& curve, ohmlore::Interval kelvin) {
  const auto shown = [&](double t) { return ohmlore::temperature_text(t, curve.unit); };
  const std::string at = kelvin.width() > 0
                             ? fmt::format("from {} to {}", shown(kelvin.low), shown(kelvin.high))
                             : "at " + shown(kelvin.low);
  const auto band = ohmlore::curve_band(curve, kelvin);
  if (!band) {
    fmt::print("{}: the model says nothing here; it speaks of {} to {}\n", at, shown(curve.kelvin.low),
               shown(curve.kelvin.high));
    return;
  }
  const auto nominal =
      kelvin.width() > 0 ? std::nullopt : ohmlore::nominal_resistance(curve.model, kelvin.low);
  fmt::print("{}: {}{}\n", at, ohmlore::band_text(*band),
             nominal
                 ? fmt::format(", nominal {}", ohmlore::describe(*nominal, ohmlore::Dimension::resistance))
                 : std::string());
  if (!curve.kelvin.contains(kelvin))
    fmt::print("that is {}\n", ohmlore::beyond_text(curve.kelvin, curve.unit));
}

// False where no part within tolerance reads so.
bool answer_reading(const ohmlore::Curve& curve, const std::string& text, const ohmlore::Quantity& reading) {
  const auto ohm = ohmlore::written_interval(reading);
  const std::string shown = ohmlore::canonical_spelling(
      completed_resistance(text), ohmlore::Quantity_grammar::quantity, ohmlore::Dimension::resistance);
  const auto meant = ohmlore::temperature_meant(curve, ohm);
  if (!meant) {
    const auto band = ohmlore::curve_band(curve, curve.kelvin);
    const bool lies_in = band && band->overlaps(ohm);
    fmt::print("{}: a reading says nothing of the temperature here; it {} ({})\n", shown,
               lies_in ? "is what the model allows" : "is not what the model allows",
               band ? ohmlore::band_text(*band) : std::string("no band"));
    return lies_in;
  }
  const auto in_unit = [&](double t) { return ohmlore::temperature_text(t, curve.unit, 1); };
  if (!meant->kelvin || !meant->kelvin->overlaps(curve.kelvin)) {
    const auto cold = ohmlore::curve_band(curve, {curve.kelvin.low, curve.kelvin.low}),
               hot = ohmlore::curve_band(curve, {curve.kelvin.high, curve.kelvin.high});
    std::string allows;
    if (cold && hot)
      allows = fmt::format(": it reads {} at {} and {} at {}", ohmlore::band_text(*cold),
                           in_unit(curve.kelvin.low), ohmlore::band_text(*hot), in_unit(curve.kelvin.high));
    // Elsewhere it may: a curve that is carried on far enough reads anything.
    const bool elsewhere = meant->kelvin.has_value();
    fmt::print("{}: no part within tolerance reads so {}{}{}\n", shown,
               elsewhere ? fmt::format("from {} to {}", in_unit(curve.kelvin.low), in_unit(curve.kelvin.high))
                         : std::string("at any temperature that the model speaks of"),
               allows, elsewhere ? "; --from and --to carry the curve on, with doubt" : "");
    return false;
  }
  const ohmlore::Interval found = *meant->kelvin;
  fmt::print("{}: would mean {} to {}{} (the meter's accuracy and the leads are not in this)\n", shown,
             in_unit(found.low), in_unit(found.high),
             meant->nominal ? fmt::format(", nominal {}", in_unit(*meant->nominal)) : std::string());
  if (!curve.kelvin.contains(found))
    fmt::print("that reaches beyond {} to {}: take it with doubt\n", in_unit(curve.kelvin.low),
               in_unit(curve.kelvin.high));
  return true;
}

int curve(const Curve_options& options) {
  ohmlore::Curve_request request;
  ohmlore::Quantity reading;
  std::optional<ohmlore::Range> at;
  std::string problem;
  const auto temperature = [&](const std::string& text, const char* option, std::optional<double>& to) {
    if (text.empty() || !problem.empty()) return;
    const auto read =
        read_quantity(ohmlore::completed_temperature(text), ohmlore::Dimension::temperature, option, problem);
    if (read) to = read->si;
  };
  temperature(options.from, "--from", request.from);
  temperature(options.to, "--to", request.to);
  if (!options.step.empty() && problem.empty())
    if (const auto read = read_quantity(ohmlore::completed_temperature(options.step),
                                        ohmlore::Dimension::temperature_difference, "--step", problem)) {
      request.step = read->si;
      if (!(read->si > 0)) problem = fmt::format("--step: {} is no step; it must be above 0", options.step);
    }
  if (!options.at.empty() && problem.empty()) {
    const auto parsed =
        ohmlore::parse_range(ohmlore::completed_temperature(options.at), ohmlore::Dimension::temperature);
    if (parsed.value)
      at = *parsed.value;
    else
      problem = quantity_problem(*parsed.problem, "--at");
    if (at && !(at->low.si > 0)) problem = fmt::format("--at: {} is not above absolute zero", options.at);
  }
  std::string unread;
  const auto typed = ohmlore::parse_reading(options.reading, unread);
  if (typed && typed->over_range && problem.empty()) {
    problem = "--reading: OL means no temperature, only more than the range ends at; switch the meter to a "
              "higher one, and where it reads OL there too, the path is open";
  } else if (!options.reading.empty() && problem.empty()) {
    const auto read = read_quantity(completed_resistance(options.reading), ohmlore::Dimension::resistance,
                                    "--reading", problem);
    if (read) reading = *read;
    if (problem.empty() && reading.si < 0)
      problem = "--reading: a resistance is not negative; exchange the leads, or measure again: a voltage "
                "may be present";
  }
  if (!problem.empty()) return complain(problem);
  request.unit = unit_of(options);
  request.terminals = options.terminals;

  const bool from_input = options.component == "-" || options.component.starts_with("-:");
  const auto opened = ohmlore::open_component(options.component, options.root,
                                              from_input ? all_of_stdin(ohmlore::most_bytes) : std::string());
  complain(opened.findings);
  warn(opened.warnings);
  for (const std::string& trouble : opened.troubles) complain(trouble);
  if (opened.component == nullptr) return 2;
  const ohmlore::Curve_result result = ohmlore::curve_of(*opened.component, request);
  if (!result.curve) return complain(fmt::format("{}: {}", options.component, result.problem));
  ohmlore::Curve drawn = *result.curve;
  if (!opened.caution.empty()) drawn.remarks.push_back(opened.caution);
  const int done = opened.findings.empty() ? 0 : 1;

  if (at || !options.reading.empty()) {
    print(ohmlore::cautions_text());
    fmt::print("\n{}\n", ohmlore::printable(drawn.title));
    for (const std::string& remark : drawn.remarks) print(ohmlore::printable(remark) + '\n');
    for (const ohmlore::Curve_note& note : drawn.notes)
      print(ohmlore::printable(ohmlore::note_text(note)) + '\n');
    fmt::print("\n");
    if (at) answer_at(drawn, ohmlore::kelvin_interval(*at));
    if (!options.reading.empty()) return answer_reading(drawn, options.reading, reading) ? done : 1;
    return done;
  }
  print(options.format == "svg"   ? ohmlore::curve_svg(drawn)
        : options.format == "csv" ? ohmlore::curve_csv(drawn)
                                  : ohmlore::curve_text(drawn));
  return done;
}

}

void add_curve(CLI::App& app, int& status) {
  auto options = std::make_shared<Curve_options>();
  CLI::App* command = app.add_subcommand(
      "curve",
      "Show resistance over temperature with its band: a table, CSV or a picture; what a reading means");
  command
      ->add_option("COMPONENT", options->component,
                   "a part's file, or PROFILE:COMPONENT; - for standard input, of a profile -- -:COMPONENT")
      ->type_name("")
      ->required();
  command->add_option("--from", options->from, "the lowest temperature, for example 0C, 32F or 273.15K")
      ->type_name("TEMPERATURE");
  command->add_option("--to", options->to, "the highest")->type_name("TEMPERATURE");
  command->add_option("--step", options->step, "from one row of the table to the next, for example 5K or 9F")
      ->type_name("DIFFERENCE");
  command
      ->add_option("--unit", options->unit,
                   "of the temperatures that are shown: C, F or K; without it, that of the\n"
                   "first temperature given, else C")
      ->type_name("UNIT")
      ->check(one_of({"C", "F", "K"}));
  CLI::Option* format =
      command->add_option("--format", options->format, "text (the default), csv (ohms, RFC 4180) or svg")
          ->type_name("FORMAT")
          ->check(one_of({"text", "csv", "svg"}));
  command
      ->add_option("--at", options->at,
                   "only the band at this temperature, or from one to another: 14C, \"10C to 18C\"")
      ->type_name("TEMPERATURE")
      ->excludes(format);
  command
      ->add_option("--reading", options->reading,
                   "only the temperatures that this reading would mean: 15.25k")
      ->type_name("RESISTANCE")
      ->excludes(format);
  command
      ->add_option("--terminals", options->terminals,
                   "of a part with several resistances, the two terminals: start,common")
      ->type_name("A,B");
  add_root(*command, options->root);
  command->footer(
      "The band is the manufacturing tolerance, not the service limit.\n"
      "Exit status: 0 done, 1 by a document with errors, or no part within tolerance gives the reading,\n"
      "2 the work could not be done.");
  command->callback([options, &status] { status = curve(*options); });
}
