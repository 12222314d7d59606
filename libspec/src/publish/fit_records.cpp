// The report of a fit. Nothing reads it back: the structs are here only to be described.
#include "model/types.h"
#include "ohmlore/fit.h"
#include "publish/common_records.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

struct Fit_number : Record_base {
  Value<Text> name;
  Value<Text> value;
  Value<Text> uncertainty;
};
struct Fit_model_trial : Record_base {
  Value<Model_kind> model;
  Value<bool> chosen;
  Value<Text> chi_square;
  Value<std::int64_t> freedom;
  Value<Quantity> worst;
  Value<Quantity> worst_at;
  Value<Text> why;
};
struct Fit_interval : Record_base {
  Value<Quantity> stated;
  Value<Quantity> on_b;
  Value<Tolerance_class> tolerance_class;
  Value<std::int64_t> specimens;
  Value<Quantity> content;
  Value<Quantity> confidence;
  Value<Text> factor;
  Value<Quantity> spread;
  Value<Quantity> measurement;
  Value<Quantity> at;
};
struct Fitted_specimen : Record_base {
  Value<Text> name;
  Value<std::int64_t> readings;
  Value<Quantity> off;
  Value<Text> studentised;
  Value<bool> outlier;
};
struct Fitted_reading : Record_base {
  Value<std::int64_t> row;
  Value<Text> specimen;
  Value<Quantity> at;
  Value<Quantity> shown;
  Value<Quantity> fitted;
  Value<Quantity> off;
  Value<Quantity> off_kelvin;
  Value<Text> studentised;
  Value<bool> outlier;
};
struct Fit_report : Record_base {
  Value<Text> format;
  Judge_program program;
  List<Value<Text>> cautions;
  Value<Text> file;
  Value<Component_kind> kind;
  Value<Model_kind> model;
  Value<bool> doubtful;
  Judge_meter meter;
  Judge_leads leads;
  Value<Quantity> thermometer;
  Value<Quantity> reference;
  Judge_range measured;
  List<Fit_number> parameters;
  List<Fit_model_trial> trials;
  Fit_interval tolerance;
  Value<Quantity> false_alarms;
  List<Fitted_specimen> specimens;
  List<Fitted_reading> readings;
  List<Value<Text>> remarks;
  Value<Text> part;
};

#define OHMLORE_FIT_RECORD(type, name)                                                                       \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_FIT_RECORD(Fit_number, fit_parameter_record)
OHMLORE_FIT_RECORD(Fit_model_trial, fit_trial_record)
OHMLORE_FIT_RECORD(Fit_interval, fit_tolerance_record)
OHMLORE_FIT_RECORD(Fitted_specimen, fit_specimen_record)
OHMLORE_FIT_RECORD(Fitted_reading, fit_reading_record)

// clang-format off
constexpr Field parameter_fields[] = {
    {OHMLORE_MEMBER(Fit_number, name), .doc = "Its key in the part document; of r0 and resistance at `reference`.", .example = R"("b_value")", .required = true},
    {OHMLORE_MEMBER(Fit_number, value), .doc = "Of the mean specimen.", .example = R"("3972.9 K")", .required = true},
    {OHMLORE_MEMBER(Fit_number, uncertainty), .doc = "Half of its 95 % interval.", .example = R"("9.5 K")", .required = true},
};
constexpr Field trial_fields[] = {
    {OHMLORE_MEMBER(Fit_model_trial, model), .doc = "The model.", .example = R"("beta")", .required = true},
    {OHMLORE_MEMBER(Fit_model_trial, chosen), .doc = "It is the part's.", .example = R"(true)", .required = true},
    {OHMLORE_MEMBER(Fit_model_trial, chi_square), .doc = "Sum of squared residuals over their variances, a number.", .example = R"("30.8")", .required = true},
    {OHMLORE_MEMBER(Fit_model_trial, freedom), .doc = "Degrees of freedom.", .example = R"(32)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_model_trial, worst), .doc = "The largest residual, as a share of the curve.", .example = R"("0.23 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_model_trial, worst_at), .doc = "Where it is.", .example = R"("25 °C")", .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Fit_model_trial, why), .doc = "Why it was chosen, or not.", .example = R"("a third coefficient fits no better than chance would")", .required = true, .form = Form::any},
};
constexpr Field tolerance_fields[] = {
    {OHMLORE_MEMBER(Fit_interval, stated), .doc = "On the resistance, rounded up.", .example = R"("1.9 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_interval, on_b), .doc = "On the B-value, rounded up.", .example = R"("1.1 %")", .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_interval, tolerance_class), .doc = "The narrowest class of IEC 60751 that all of it lies within.", .example = R"("B")"},
    {OHMLORE_MEMBER(Fit_interval, specimens), .doc = "How many specimens were measured.", .example = R"(8)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_interval, content), .doc = "Share of all parts that it holds.", .example = R"("95 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_interval, confidence), .doc = "How surely it does.", .example = R"("95 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_interval, factor), .doc = "How often the spread counts (ISO 16269-6), a number.", .example = R"("3.746")", .required = true},
    {OHMLORE_MEMBER(Fit_interval, spread), .doc = "Standard deviation of the specimens.", .example = R"("0.39 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_interval, measurement), .doc = "What the measurement may be off for all of them alike.", .example = R"("0.34 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_interval, at), .doc = "The temperature where spread and measurement are so.", .example = R"("25 °C")", .required = true, .dimensions = Dimension::temperature},
};
constexpr Field specimen_fields[] = {
    {OHMLORE_MEMBER(Fitted_specimen, name), .doc = "As the table names it; empty where it names none.", .example = R"("s1")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Fitted_specimen, readings), .doc = "How many readings it has.", .example = R"(6)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fitted_specimen, off), .doc = "How far it lies above the mean of all, at `reference`.", .example = R"("-0.2 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fitted_specimen, studentised), .doc = "The same over what the others spread, a number.", .example = R"("-0.5")"},
    {OHMLORE_MEMBER(Fitted_specimen, outlier), .doc = "It lies farther than chance allows.", .example = R"(false)", .required = true},
};
constexpr Field reading_fields[] = {
    {OHMLORE_MEMBER(Fitted_reading, row), .doc = "Its row in the table; the header is row 1.", .example = R"(4)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fitted_reading, specimen), .doc = "Its specimen.", .example = R"("s1")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Fitted_reading, at), .doc = "Its temperature.", .example = R"("25 °C")", .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Fitted_reading, shown), .doc = "As read, leads included.", .example = R"("10.02 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Fitted_reading, fitted), .doc = "What the specimen's curve gives, without the leads.", .example = R"("10 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Fitted_reading, off), .doc = "How far it lies above the curve, as a share of it.", .example = R"("0.2 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fitted_reading, off_kelvin), .doc = "The same as a temperature.", .example = R"("-0.05 K")", .dimensions = Dimension::temperature_difference},
    {OHMLORE_MEMBER(Fitted_reading, studentised), .doc = "The same over what the others leave open, a number; absent where nothing does.", .example = R"("1.9")"},
    {OHMLORE_MEMBER(Fitted_reading, outlier), .doc = "It lies farther than chance allows.", .example = R"(false)", .required = true},
};
constexpr Field fit_fields[] = {
    {OHMLORE_MEMBER(Fit_report, format), .doc = "The format of the report and its version.", .example = R"("ohmlore-fit/1.0")", .required = true, .constant = "ohmlore-fit/1.0"},
    {OHMLORE_MEMBER(Fit_report, program), .doc = "What wrote it.", .example = R"({ "name": "ohmlore", "version": "1.0.0" })", .required = true},
    {OHMLORE_MEMBER(Fit_report, cautions), .doc = "What applies to all work on the appliance, in this order: to be shown.", .example = R"(["Dead test only: never measure resistance on an energised circuit."])", .required = true, .limits = {1, 100}},
    {OHMLORE_MEMBER(Fit_report, file), .doc = "The table.", .example = R"("sensors.csv")", .required = true},
    {OHMLORE_MEMBER(Fit_report, kind), .doc = "What was measured.", .example = R"("ntc")", .required = true},
    {OHMLORE_MEMBER(Fit_report, model), .doc = "The model of the part.", .example = R"("beta")", .required = true},
    {OHMLORE_MEMBER(Fit_report, doubtful), .doc = "There is an outlier, no curve that fits, or perhaps one specimen under two names.", .example = R"(false)", .required = true},
    {OHMLORE_MEMBER(Fit_report, meter), .doc = "The meter.", .example = R"({ "of_reading": "0.8 %", "counts": 3, "display_counts": 6000 })", .required = true},
    {OHMLORE_MEMBER(Fit_report, leads), .doc = "The leads.", .example = R"({ "resistance": "0.3 Ω", "half_width": "0.2 Ω" })", .required = true},
    {OHMLORE_MEMBER(Fit_report, thermometer), .doc = "How far the temperatures may be off, either way.", .example = R"("0.05 K")", .required = true, .dimensions = Dimension::temperature_difference},
    {OHMLORE_MEMBER(Fit_report, reference), .doc = "The temperature at which the resistance is stated.", .example = R"("25 °C")", .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Fit_report, measured), .doc = "Over which temperatures was measured.", .example = R"({ "low": "0 °C", "high": "80 °C" })", .required = true},
    {OHMLORE_MEMBER(Fit_report, parameters), .doc = "The numbers of the model.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_report, trials), .doc = "The models that were tried.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_report, tolerance), .doc = "The tolerance; absent: none can be claimed.", .example = R"({ "stated": "1.9 %", "specimens": 8, "content": "95 %", "confidence": "95 %", "factor": "3.746", "spread": "0.39 %", "measurement": "0.34 %", "at": "25 °C" })"},
    {OHMLORE_MEMBER(Fit_report, false_alarms), .doc = "How often a table without a mistake has something named an outlier.", .example = R"("1 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Fit_report, specimens), .doc = "The specimens.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_report, readings), .doc = "The readings, as the table has them.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_report, remarks), .doc = "What limits the answer, and what to do.", .example = R"(["one specimen was measured: no tolerance is claimed"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Fit_report, part), .doc = "The part document, as its file's text.", .example = R"("{}")", .required = true, .form = Form::any},
};
// clang-format on

constinit const Record fit_parameter_record = {"fit_parameter", "Fitted parameter", "A number of the model.",
                                               parameter_fields};
constinit const Record fit_trial_record = {"fit_trial", "Tried model", "One model that was tried.",
                                           trial_fields};
constinit const Record fit_tolerance_record = {
    "fit_tolerance", "Fitted tolerance",
    "A two-sided statistical tolerance interval, widened by what the measurement may be off.",
    tolerance_fields};
constinit const Record fit_specimen_record = {"fit_specimen", "Fitted specimen",
                                              "One part that was measured.", specimen_fields};
constinit const Record fit_reading_record = {"fit_reading", "Fitted reading",
                                             "A reading beside the curve of its specimen.", reading_fields};

}

constinit const Record fit_record = {"fit", "Fit", "What one run of `ohmlore fit` found.", fit_fields};

}
