// Sources and waivers: records that every kind of document may hold.
#include "model/types.h"

namespace ohmlore {

static constexpr Field source_reference_fields[] = {
    {OHMLORE_MEMBER(Source_reference, from), .doc = "The source.", .example = R"("notes")", .required = true,
     .form = Form::id, .target = Target::source},
    {OHMLORE_MEMBER(Source_reference, page), .doc = "Page or pages.", .example = R"("31")"},
    {OHMLORE_MEMBER(Source_reference, table), .doc = "Table or figure.", .example = R"("table 4")"},
    {OHMLORE_MEMBER(Source_reference, note), .doc = "What to know about the citation.",
     .example = R"("read off a curve")"},
};
constinit const Record source_reference_record = {
    "source_reference", "Source reference",
    "Where the numbers of the enclosing record, and of all records in it, come from.",
    source_reference_fields};

static constexpr auto document = kinds(Source_kind::maker_document);
static constexpr auto measurement = kinds(Source_kind::measurement);
static constexpr auto standard = kinds(Source_kind::standard);
static constexpr auto calculation = kinds(Source_kind::calculation);

static constexpr Field source_fields[] = {
    {OHMLORE_MEMBER(Source, kind), .doc = "What kind of source it is.", .example = R"("maker_document")",
     .required = true},
    {OHMLORE_MEMBER(Source, title), .doc = "Title, or name, of the document or standard.",
     .example = R"("Larch service notes")", .kinds = document | standard, .required_by = document | standard},
    {OHMLORE_MEMBER(Source, number), .doc = "Number of the document or standard.",
     .example = R"("IEC 60751:2022")", .kinds = document | standard},
    {OHMLORE_MEMBER(Source, edition), .doc = "Edition or issue.", .example = R"("4")",
     .kinds = document | standard},
    {OHMLORE_MEMBER(Source, instrument), .doc = "The meter, and its accuracy.",
     .example = R"("handheld meter, 0.8 % + 3 counts")", .kinds = measurement, .required_by = measurement},
    {OHMLORE_MEMBER(Source, samples), .doc = "How many specimens were measured.", .example = "6",
     .kinds = measurement, .limits = {1, 1000000}},
    {OHMLORE_MEMBER(Source, conditions), .doc = "How it was measured: place, temperatures, leads.",
     .example = R"("water bath, thermometer ±0.2 K")", .kinds = measurement},
    {OHMLORE_MEMBER(Source, method), .doc = "How it was computed.",
     .example = R"("V²/P of the rating plate")", .kinds = calculation, .required_by = calculation},
    {OHMLORE_MEMBER(Source, based_on), .doc = "The sources that the calculation starts from.",
     .example = R"(["notes"])", .kinds = calculation, .form = Form::id, .target = Target::source},
    {OHMLORE_MEMBER(Source, date), .doc = "Date of the document or measurement.", .example = R"("2021-03")",
     .form = Form::date},
    {OHMLORE_MEMBER(Source, note), .doc = "What else to know.", .example = R"("second printing")"},
};
constinit const Record source_record = {"source", "Source", "Where numbers come from; cited, never copied.",
                                        source_fields, &Source_kind_words};

static constexpr Field waiver_fields[] = {
    {OHMLORE_MEMBER(Waiver, rule), .doc = "The rule whose finding is accepted here.",
     .example = R"("tolerance-below-model")", .required = true, .form = Form::id, .target = Target::rule},
    {OHMLORE_MEMBER(Waiver, at), .doc = "JSON Pointer of the place, or of a record around it.",
     .example = R"("/components/tank_sensor/model")", .required = true, .form = Form::pointer},
    {OHMLORE_MEMBER(Waiver, why), .doc = "The reason, for the next reader.",
     .example = R"("the maker prints this band, page 31")", .required = true},
    {OHMLORE_MEMBER(Waiver, until), .doc = "Last day on which the waiver holds.",
     .example = R"("2027-06-30")", .form = Form::date},
};
constinit const Record waiver_record = {
    "waiver", "Waiver", "One finding that was looked at and accepted, with the reason.", waiver_fields};

}
