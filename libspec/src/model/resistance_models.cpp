// Resistance models: how the resistance of a healthy part depends on temperature.
#include "model/types.h"

namespace ohmlore {

static constexpr Dimensions ohm_or_percent = Dimension::resistance | Dimension::ratio;

static constexpr Field table_row_fields[] = {
    {OHMLORE_MEMBER(Table_row, at), .doc = "Temperature of the part.", .example = R"("25 °C")",
     .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Table_row, nominal), .doc = "Nominal resistance.", .example = R"("12.0 kΩ")",
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Table_row, tolerance), .doc = "Tolerance on the nominal.", .example = R"("2 %")",
     .dimensions = ohm_or_percent},
    {OHMLORE_MEMBER(Table_row, min), .doc = "Least resistance of a part within tolerance.",
     .example = R"("11.8 kΩ")", .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Table_row, max), .doc = "Greatest resistance of a part within tolerance.",
     .example = R"("12.2 kΩ")", .dimensions = Dimension::resistance},
};
constinit const Record table_row_record = {
    "table_row", "Table row",
    "One temperature of a table: a nominal with or without tolerance, or a least and a greatest value.",
    table_row_fields};

static constexpr Field terminal_pair_fields[] = {
    {OHMLORE_MEMBER(Terminal_pair, from), .doc = "One terminal, by its name in `terminals`.",
     .example = R"("start")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Terminal_pair, to), .doc = "The other terminal.", .example = R"("common")",
     .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Terminal_pair, resistance), .doc = "Nominal resistance between the two.",
     .example = R"("318 Ω")", .required = true, .dimensions = Dimension::resistance},
};
constinit const Record terminal_pair_record = {
    "terminal_pair", "Terminal pair",
    "The resistance between two terminals of a component with more than two.", terminal_pair_fields};

using enum Model_kind;
static constexpr Field model_fields[] = {
    {OHMLORE_MEMBER(Resistance_model, kind), .doc = "Which model it is.", .example = R"("beta")",
     .required = true},
    {OHMLORE_MEMBER(Resistance_model, resistance),
     .doc = "Nominal resistance, at `at` where it depends on temperature.", .example = R"("10 kΩ")",
     .kinds = kinds(beta, table, copper, fixed), .required_by = kinds(beta),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Resistance_model, at), .doc = "Temperature at which the resistance holds.",
     .example = R"("25 °C")", .kinds = kinds(beta, table), .required_by = kinds(beta),
     .dimensions = Dimension::temperature, .single = true},
    {OHMLORE_MEMBER(Resistance_model, at),
     .doc =
         "Temperature at which the resistance holds, or the range over which its band holds for every part.",
     .example = R"("20 °C")", .kinds = kinds(copper, fixed, power), .required_by = kinds(copper),
     .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Resistance_model, tolerance), .doc = "Manufacturing tolerance on the resistance.",
     .example = R"("1 %")", .kinds = kinds(beta, steinhart_hart, polynomial, copper, fixed, power),
     .dimensions = ohm_or_percent},
    {OHMLORE_MEMBER(Resistance_model, b_value), .doc = "B-value, in kelvin (IEC 60539-1).",
     .example = R"("3977 K")", .kinds = kinds(beta, table), .required_by = kinds(beta),
     .dimensions = Dimension::thermal_constant},
    {OHMLORE_MEMBER(Resistance_model, b_between),
     .doc = "The two temperatures that the B-value was taken between; B25/50 is not B25/85.",
     .example = R"("25 °C to 85 °C")", .kinds = kinds(beta, table), .required_by = kinds(beta),
     .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Resistance_model, b_tolerance), .doc = "Tolerance on the B-value.", .example = R"("1 %")",
     .kinds = kinds(beta, table), .dimensions = Dimension::ratio | Dimension::thermal_constant},
    {OHMLORE_MEMBER(Resistance_model, rows), .doc = "The table, in rising order of temperature.",
     .example = R"([{ "at": "25 °C", "nominal": "12.0 kΩ", "tolerance": "2 %" }])", .kinds = kinds(table),
     .required_by = kinds(table), .limits = {1, 500}},
    {OHMLORE_MEMBER(Resistance_model, a),
     .doc = "First coefficient of 1/T = a + b ln R + c (ln R)³, R in ohm.",
     .example = R"("1.129148e-3 K^-1")", .kinds = kinds(steinhart_hart), .required_by = kinds(steinhart_hart),
     .dimensions = Dimension::per_kelvin},
    {OHMLORE_MEMBER(Resistance_model, b), .doc = "Second coefficient.", .example = R"("2.34125e-4 K^-1")",
     .kinds = kinds(steinhart_hart), .required_by = kinds(steinhart_hart),
     .dimensions = Dimension::per_kelvin},
    {OHMLORE_MEMBER(Resistance_model, c), .doc = "Third coefficient.", .example = R"("8.76741e-8 K^-1")",
     .kinds = kinds(steinhart_hart), .required_by = kinds(steinhart_hart),
     .dimensions = Dimension::per_kelvin},
    {OHMLORE_MEMBER(Resistance_model, r0), .doc = "Resistance at 0 °C.", .example = R"("100 Ω")",
     .kinds = kinds(iec_60751, polynomial), .required_by = kinds(iec_60751, polynomial),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Resistance_model, tolerance_class), .doc = "Tolerance class of IEC 60751.",
     .example = R"("B")", .kinds = kinds(iec_60751)},
    {OHMLORE_MEMBER(Resistance_model, construction),
     .doc = "Wire-wound or film: the classes hold over different ranges.", .example = R"("film")",
     .kinds = kinds(iec_60751)},
    {OHMLORE_MEMBER(Resistance_model, a1), .doc = "Coefficient of t.", .example = R"("5.485e-3 K^-1")",
     .kinds = kinds(polynomial), .required_by = kinds(polynomial), .dimensions = Dimension::per_kelvin},
    {OHMLORE_MEMBER(Resistance_model, a2), .doc = "Coefficient of t².", .example = R"("6.65e-6 K^-2")",
     .kinds = kinds(polynomial), .dimensions = Dimension::per_kelvin_2},
    {OHMLORE_MEMBER(Resistance_model, a3), .doc = "Coefficient of t³.", .example = R"("1.5e-9 K^-3")",
     .kinds = kinds(polynomial), .dimensions = Dimension::per_kelvin_3},
    {OHMLORE_MEMBER(Resistance_model, a4), .doc = "Coefficient of t⁴.", .example = R"("2.805e-11 K^-4")",
     .kinds = kinds(polynomial), .dimensions = Dimension::per_kelvin_4},
    {OHMLORE_MEMBER(Resistance_model, a5), .doc = "Coefficient of t⁵.", .example = R"("1e-14 K^-5")",
     .kinds = kinds(polynomial), .dimensions = Dimension::per_kelvin_5},
    {OHMLORE_MEMBER(Resistance_model, a6), .doc = "Coefficient of t⁶.", .example = R"("-2e-17 K^-6")",
     .kinds = kinds(polynomial), .dimensions = Dimension::per_kelvin_6},
    {OHMLORE_MEMBER(Resistance_model, pairs),
     .doc = "The resistances between named terminals, for a part with more than two.",
     .example = R"([{ "from": "start", "to": "common", "resistance": "318 Ω" }])",
     .kinds = kinds(copper, fixed), .limits = {1, 64}},
    {OHMLORE_MEMBER(Resistance_model, metal), .doc = "Metal of the winding; copper where absent.",
     .example = R"("copper")", .kinds = kinds(copper)},
    {OHMLORE_MEMBER(Resistance_model, k),
     .doc = "k of R2/R1 = (k + t2)/(k + t1), t in °C; where absent 234.5 K, of aluminium 225 K.",
     .example = R"("234.5 K")", .kinds = kinds(copper), .dimensions = Dimension::thermal_constant},
    {OHMLORE_MEMBER(Resistance_model, voltage), .doc = "Rated voltage.", .example = R"("230 V ac")",
     .kinds = kinds(power), .required_by = kinds(power), .dimensions = Dimension::voltage},
    {OHMLORE_MEMBER(Resistance_model, power), .doc = "Rated power.", .example = R"("2 kW")",
     .kinds = kinds(power), .required_by = kinds(power), .dimensions = Dimension::power},
    {OHMLORE_MEMBER(Resistance_model, above), .doc = "Least resistance of a healthy open path.",
     .example = R"("1 MΩ")", .kinds = kinds(open), .required_by = kinds(open),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Resistance_model, below),
     .doc = "Greatest resistance of a healthy closed path, leads subtracted.", .example = R"("1 Ω")",
     .kinds = kinds(closed), .required_by = kinds(closed), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Resistance_model, source), .doc = "Where the numbers of the model come from.",
     .example = R"({ "from": "notes", "page": "31" })"},
};
constinit const Record model_record = {"model", "Resistance model",
                                       "The resistance of a healthy part over temperature.", model_fields,
                                       &Model_kind_words};

}
