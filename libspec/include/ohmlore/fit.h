// Where a band comes from: a part fitted to readings of known-good specimens at known temperatures. How it is
// done, with its sources: spec/v1/fitting.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/finding.h"
#include "ohmlore/judge.h"

namespace ohmlore {

/// Where something stands in the table, to be named in messages.
struct Fit_place {
  std::uint32_t row = 0; ///< as a spreadsheet counts: the header is row 1
  Region resistance, temperature;
  std::string line; ///< as written
};

/// One row of the table.
struct Fit_reading {
  std::size_t specimen = 0; ///< index of Measurements::specimens
  double kelvin = 0;
  double ohm = 0; ///< as read, leads included
  double kelvin_half_digit = 0, ohm_half_digit = 0;
  Fit_place place;
};

struct Measurements {
  std::string file;
  std::vector<std::string>
      specimens; ///< their names, in the order in which they come; one "" where none are named
  std::vector<Fit_reading> readings;
};

struct Measurements_result {
  std::optional<Measurements> measurements; ///< empty where there is an error
  std::vector<Finding> findings;
};
inline constexpr std::size_t most_fit_readings = 10000, most_fit_specimens = 100;
/// Reads a table (RFC 4180; comma, semicolon or tab) with the columns `temperature` and `resistance`, and
/// where several parts were measured `specimen`; `note` is for people. Each cell has its unit, or the
/// column's name has it: "temperature (°C)".
Measurements_result read_measurements(std::string name, std::string_view bytes);

/// How the measurements were taken, and what is asked of the statistics.
struct Fit_means {
  Meter_accuracy meter;
  Leads leads;
  double thermometer = 1;   ///< half-width in kelvin, rectangular
  double content = 0.95;    ///< share of all parts that the tolerance holds: above 0, below 1
  double confidence = 0.95; ///< likewise
  /// How often a table without a mistake has something named an outlier: likewise.
  double false_alarms = 0.01;
};

struct Fit_request {
  Component_kind kind = Component_kind::ntc;
  std::optional<Model_kind> model; ///< beta or steinhart_hart, of an ntc; absent: as the readings need it
  Fit_means means;
  std::string id, name, instrument, date; ///< of the part and its source; may be empty
};

/// A number of the model, of the mean of the specimens.
struct Fit_parameter {
  std::string_view name;  ///< its key in the document
  double value = 0;       ///< SI
  double uncertainty = 0; ///< expanded: the true one lies within ± this in at least 95 of 100 cases
  Dimension dimension = Dimension::resistance;
};

/// A reading beside the curve of its specimen.
struct Fit_residual {
  double fitted = 0; ///< ohm
  double share = 0;  ///< ln(read / fitted): 0.01 is 1 % above the curve
  double kelvin = 0; ///< the same as a temperature; 0 where the resistance does not depend on it
  std::optional<double> studentised; ///< externally; empty where the curve goes through it whatever it is
  bool outlier = false;
};

struct Fit_specimen {
  double share = 0; ///< ln of its resistance over the mean specimen's, at the reference temperature
  std::size_t readings = 0;
  std::optional<double> studentised; ///< among the specimens
  bool outlier = false;
};

/// One model that was tried.
struct Fit_trial {
  Model_kind model = Model_kind::beta;
  bool chosen = false;
  double chi_square = 0;
  std::size_t freedom = 0;
  double worst_share = 0, worst_kelvin = 0; ///< largest residual, and at which temperature
  std::string why;
};

/// The tolerance as a two-sided statistical tolerance interval, at the temperature where it is widest.
struct Fit_tolerance {
  std::size_t specimens = 0;
  double factor = 0; ///< k: see tolerance_factor
  double spread = 0; ///< s of the specimens' ln R there
  double measurement =
      0; ///< how far meter, leads, thermometer and rounding may be off for all of them alike, as a share
  double kelvin = 0;
  double share = 0;              ///< what is stated on the resistance, rounded up
  std::optional<double> b_share; ///< what is stated on B
  std::optional<Tolerance_class>
      tolerance_class; ///< the narrowest class of IEC 60751 that all of it lies within
};

/// What fit_part gives. A report takes it as it is: with a residual for each reading, and the document of the
/// part.
struct Fit {
  Fit_request request;
  Measurements measurements;
  Model_kind model = Model_kind::beta;
  double reference = 0; ///< kelvin, at which the resistance is stated
  Interval kelvin;      ///< over which was measured
  double nominal = 0;   ///< ohm at the reference, as stated in the document
  std::vector<Fit_parameter> parameters;
  std::vector<Fit_residual> residuals; ///< in the order of the readings
  std::vector<Fit_specimen> specimens;
  std::vector<Fit_trial> trials;
  double chi_square = 0; ///< of the residuals over what meter and thermometer explain
  std::size_t freedom = 0;
  bool curve_fits = true;                 ///< where not, no tolerance is claimed
  bool own_slopes = false;                ///< each specimen showed a B of its own
  std::optional<Fit_tolerance> tolerance; ///< empty: none can be claimed
  std::vector<std::string> remarks;       ///< what limits the answer, and what to do
  bool doubtful = false; ///< an outlier, no model that fits, or perhaps one specimen under two names
  std::string part;      ///< the part document, canonical
};

struct Fit_result {
  std::optional<Fit> fit;
  std::vector<Finding> findings; ///< why there is none, in the table
  std::string problem;           ///< or in words
};
/// Of measurements as read_measurements gives them: all readings above 0 Ω, their temperatures above 0 K.
Fit_result fit_part(const Measurements& measurements, const Fit_request& request);

/// The factor k of the interval mean ± k · s that holds at least `content` of a normal population with this
/// `confidence` (both above 0 and below 1), from n values (at least 2): the exact one of ISO 16269-6, which
/// Howe (1969) approximates.
double tolerance_factor(std::size_t n, double content, double confidence);

/// For people, and as one JSON object (spec/v1/fit.schema.json). Both begin with the cautions.
std::string text_report(const Fit& fit);
std::string json_report(const Fit& fit);
/// Points, curve and band, with all cautions: see curve_svg.
std::string fit_svg(const Fit& fit);

}
