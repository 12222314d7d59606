// ohmlore fit: a part from readings of good specimens.
#include <filesystem>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "job.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/fit.h"

namespace {

struct Fit_options {
  std::string measurements, kind, model;
  std::string meter, thermometer, leads;
  std::string content, confidence;
  std::string id, name, instrument, date;
  std::string format = "text", svg, part;
};

// From 50 % to 99.9 %, and else said what it is to be.
bool read_share(const char* option, const char* what, const std::string& text, double& into) {
  if (text.empty()) return true;
  const auto share = ohmlore::parse_quantity(text, ohmlore::Dimension::ratio);
  if (share.value && share.value->si >= 0.5 && share.value->si <= 0.999) {
    into = share.value->si;
    return true;
  }
  complain(fmt::format("{}: \"{}\" is no {} from 50 % to 99.9 %; write \"95 %\"", option, text, what));
  return false;
}

bool read_thermometer(const std::string& text, double& into) {
  if (text.empty()) return true;
  std::string problem;
  const std::string written = text.starts_with("±") ? text.substr(2) : text;
  const auto width = read_quantity(ohmlore::completed_temperature(written),
                                   ohmlore::Dimension::temperature_difference, "--thermometer", problem);
  if (width && width->si >= 0 && width->si <= 50) {
    into = width->si;
    return true;
  }
  complain(problem.empty()
               ? fmt::format("--thermometer: \"{}\" is no accuracy of a thermometer; write \"0.5 K\"", text)
               : problem);
  return false;
}

std::optional<std::string> measurements_of(const std::string& path, std::string& why) {
  if (path == "-") return all_of_stdin(ohmlore::most_bytes);
  return ohmlore::read_file(path, why);
}

bool save(const std::string& path, const std::string& bytes) {
  std::string why;
  if (path.empty() || path == "-" || ohmlore::write_file(path, bytes, why)) return true;
  complain(fmt::format("{}: cannot be written: {}", path, why));
  return false;
}

// What would be lost to what is written: the readings, the part, or another document. Empty where nothing is.
std::string lost_by(const Fit_options& options) {
  using ohmlore::is_place_of_document, ohmlore::real_path;
  const auto same = [](const std::string& one, const std::string& other) {
    return !one.empty() && !other.empty() && real_path(one) == real_path(other);
  };
  const bool from_file = options.measurements != "-";
  for (const auto& [option, file] : {std::pair("--part", &options.part), std::pair("--svg", &options.svg)})
    if (from_file && same(*file, options.measurements))
      return fmt::format("{}: {} holds the readings; name another file", option, *file);
  if (same(options.part, options.svg))
    return fmt::format("--part and --svg: both cannot go to {}", options.svg);
  if ((options.part == "-" || options.svg == "-") && options.format != "text")
    return fmt::format("--format {}: stdout is taken by what goes to -; name a file for that",
                       options.format);
  if (!options.svg.empty() && is_place_of_document(options.svg))
    return fmt::format(
        "--svg: no picture is written to {}: the name is that of a document; name another, such as curve.svg",
        options.svg);
  if (!options.part.empty() && is_place_of_document(options.part) &&
      !real_path(options.part).native().ends_with(ohmlore::end_of_part))
    return fmt::format(
        "--part: no part is written to {}: the name is that of another document; write ID.part.json",
        options.part);
  return {};
}

// Named after the table, as a part's file is named after its id.
std::string usual_id(const std::string& path) {
  const std::string stem = std::filesystem::path(path).stem().string();
  return ohmlore::is_id(stem) ? stem : "measured-part";
}

int fit(const Fit_options& options) {
  using namespace ohmlore;
  Fit_request request;
  request.kind = enumerator_of<Component_kind>(options.kind).value();
  request.model = enumerator_of<Model_kind>(options.model);
  Fit_means& means = request.means;
  if (!read_option("--meter", options.meter, parse_meter, means.meter) ||
      !read_option("--leads", options.leads, parse_leads, means.leads) ||
      !read_thermometer(options.thermometer, means.thermometer) ||
      !read_share("--content", "share of parts", options.content, means.content) ||
      !read_share("--confidence", "confidence", options.confidence, means.confidence))
    return 2;
  if (!options.id.empty() && !is_id(options.id))
    return complain(fmt::format("--id: \"{}\" is no id; write letters, digits, - and _, as in ntc-10k-b3977",
                                options.id));
  if (!options.date.empty() && !is_date(options.date))
    return complain(fmt::format("--date: \"{}\" is no date; write 2026-03-14", options.date));
  request.id = options.id.empty() ? usual_id(options.measurements) : options.id;
  request.name = options.name;
  request.instrument = options.instrument;
  request.date = options.date;

  if (const std::string lost = lost_by(options); !lost.empty()) return complain(lost);
  std::string why;
  const auto bytes = measurements_of(options.measurements, why);
  if (!bytes) return complain(fmt::format("{}: cannot be read: {}", options.measurements, why));
  const auto table = read_measurements(
      options.measurements == "-" ? std::string(ohmlore::name_of_standard_input) : options.measurements,
      *bytes);
  complain(table.findings);
  if (!table.measurements) return 2;
  const Fit_result result = fit_part(*table.measurements, request);
  complain(result.findings);
  if (!result.problem.empty()) complain(result.problem);
  if (!result.fit) return 2;

  print(options.format == "json"                          ? json_report(*result.fit)
        : options.format == "part" || options.part == "-" ? result.fit->part
        : options.svg == "-"                              ? fit_svg(*result.fit)
                                                          : text_report(*result.fit));
  if (!save(options.part, result.fit->part)) return 2;
  if (!options.svg.empty() && !save(options.svg, fit_svg(*result.fit))) return 2;
  return result.fit->doubtful ? 1 : 0;
}

}

void add_fit(CLI::App& app, int& status) {
  auto options = std::make_shared<Fit_options>();
  CLI::App* command = app.add_subcommand(
      "fit", "Make a part, with its tolerance, from readings of good specimens at known temperatures");
  const auto text = [&](const char* name, std::string& into, const char* type, const char* help) {
    return command->add_option(name, into, help)->type_name(type);
  };
  text("MEASUREMENTS", options->measurements, "",
       "a table (CSV) of specimen,temperature,resistance with their units; - for standard input")
      ->required();
  text("--kind", options->kind, "KIND", "ntc, rtd, coil, winding, transformer, heater, resistor or coding")
      ->required()
      ->check(one_of({"ntc", "rtd", "coil", "winding", "transformer", "heater", "resistor", "coding"}));
  text("--model", options->model, "MODEL",
       "of an ntc: beta or steinhart_hart; without it, beta where it does")
      ->check(one_of({"beta", "steinhart_hart"}));
  text("--meter", options->meter, "ACCURACY",
       "\"0.8 % + 3\" (the default), for another display \"0.8 % + 3 of 2000\"");
  text("--thermometer", options->thermometer, "K", "what the temperatures may be off: \"1 K\" (the default)");
  text("--leads", options->leads, "R",
       "what the leads read, tips together: \"0.2 Ω\"; 0 where they were nulled;\nwithout it, 0.3 Ω ± 0.2 Ω");
  text("--content", options->content, "SHARE",
       "of all parts that the tolerance is to hold: \"95 %\" (the default)");
  text("--confidence", options->confidence, "SHARE", "with which it does: \"95 %\" (the default)");
  text("--id", options->id, "ID", "of the part; without it, the name of the table's file");
  text("--name", options->name, "NAME", "of the part, for people");
  text("--instrument", options->instrument, "TEXT", "meter and thermometer by name, for the part's source");
  text("--date", options->date, "DATE", "of the measurements: 2026-03-14");
  text("--format", options->format, "FORMAT",
       "text for people (the default), json for programs, part: the document alone")
      ->check(one_of({"text", "json", "part"}));
  text("--part", options->part, "FILE",
       "also write the part document here: ID.part.json; - is stdout, in the place of the text");
  text("--svg", options->svg, "FILE", "also draw the points, the curve and its band here; - as with --part");
  command->footer(
      "Exit status: 0 done, 1 done, but there is an outlier, no curve that fits, or perhaps one specimen\n"
      "under two names, 2 the work could not be done.");
  command->callback([options, &status] { status = fit(*options); });
}
