// The report of findings. Nothing reads it back: the structs are here only to be described.
#include "model/types.h"
#include "publish/records.h"
#include "publish/reported.h"

namespace ohmlore {
namespace {

// clang-format off
#define OHMLORE_FIX_SAFETIES(word) \
  word(display_only, "To be read; nothing applies it.") \
  word(unsafe, "To be looked at first; no tool applies it.") \
  word(safe, "Certain, and changes no meaning; `ohmlore lint --fix` applies it.")

#define OHMLORE_SUPPRESSED_BY(word) \
  word(waiver, "A waiver in the document.") \
  word(baseline, "The baseline of the run.")
// clang-format on

#define OHMLORE_WORD(name, doc) {#name, doc},
enum class Safety_of_fix : std::uint8_t { OHMLORE_FIX_SAFETIES(OHMLORE_ENUMERATOR) };
enum class Silenced_by : std::uint8_t { OHMLORE_SUPPRESSED_BY(OHMLORE_ENUMERATOR) };
constexpr Word silenced_by_list[] = {OHMLORE_SUPPRESSED_BY(OHMLORE_WORD)};
constexpr Enumeration silenced_by_words = {"suppressed_by", silenced_by_list};
constexpr const Enumeration* enumeration(std::type_identity<Silenced_by>) { return &silenced_by_words; }
constexpr Word safety_of_fix_list[] = {OHMLORE_FIX_SAFETIES(OHMLORE_WORD)};
constexpr Enumeration safety_of_fix_words = {"fix_safety", safety_of_fix_list};
constexpr const Enumeration* enumeration(std::type_identity<Safety_of_fix>) { return &safety_of_fix_words; }

struct Report_program : Record_base {
  Value<Text> name, version;
};
struct Report_totals : Record_base {
  Value<std::int64_t> error, warning, note;
};
struct Report_position : Record_base {
  Value<std::int64_t> line, column;
};
struct Report_region : Record_base {
  Value<std::int64_t> begin, end;
  Report_position first, last;
};
struct Report_related : Record_base {
  Value<Text> file;
  Report_region region;
  Value<Text> message;
};
struct Report_edit : Record_base {
  Value<std::int64_t> begin, end;
  Value<Text> text;
};
struct Report_fix : Record_base {
  Value<Text> description;
  Value<Safety_of_fix> safety;
  List<Report_edit> edits;
};
struct Report_suppression : Record_base {
  Value<Silenced_by> by;
  Value<Text> why;
};
struct Report_finding : Record_base {
  Value<Text> rule, family;
  Value<Reported> severity;
  Value<bool> fails;
  Value<Text> file;
  Report_region region;
  Value<Text> document, pointer, value, message;
  List<Report_related> related;
  List<Report_fix> fixes;
  Report_suppression suppression;
};
struct Report : Record_base {
  Value<Text> format;
  Report_program program;
  Value<std::int64_t> files_read, files_unchanged;
  Report_totals totals;
  List<Report_finding> findings, suppressed;
  List<Value<Text>> troubles;
};

#define OHMLORE_REPORT_RECORD(type, name)                                                                    \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_REPORT_RECORD(Report_program, report_program_record)
OHMLORE_REPORT_RECORD(Report_totals, report_totals_record)
OHMLORE_REPORT_RECORD(Report_position, report_position_record)
OHMLORE_REPORT_RECORD(Report_region, report_region_record)
OHMLORE_REPORT_RECORD(Report_related, report_related_record)
OHMLORE_REPORT_RECORD(Report_edit, report_edit_record)
OHMLORE_REPORT_RECORD(Report_fix, report_fix_record)
OHMLORE_REPORT_RECORD(Report_suppression, report_suppression_record)
OHMLORE_REPORT_RECORD(Report_finding, report_finding_record)

constexpr std::int64_t many = 1'000'000'000;
constexpr Limits offset_limits = {0,
                                  most_bytes + 1}; // one byte more is read, to see that a file is too large
constexpr Limits position_limits = {1, most_bytes + 2};
constexpr Limits many_items = {0, many};
constexpr Limits any_number = {0, many};

constexpr Field program_fields[] = {
    {OHMLORE_MEMBER(Report_program, name), .doc = "Its name.", .example = R"("ohmlore")", .required = true},
    {OHMLORE_MEMBER(Report_program, version), .doc = "Its version.", .example = R"("1.0.0")",
     .required = true},
};
constexpr Field totals_fields[] = {
    {OHMLORE_MEMBER(Report_totals, error), .doc = "Number of errors.", .example = "1", .required = true,
     .limits = any_number},
    {OHMLORE_MEMBER(Report_totals, warning), .doc = "Number of warnings.", .example = "0", .required = true,
     .limits = any_number},
    {OHMLORE_MEMBER(Report_totals, note), .doc = "Number of notes.", .example = "2", .required = true,
     .limits = any_number},
};
constexpr Field position_fields[] = {
    {OHMLORE_MEMBER(Report_position, line), .doc = "Line, from 1.", .example = "14", .required = true,
     .limits = position_limits},
    {OHMLORE_MEMBER(Report_position, column), .doc = "Column, from 1, in code points.", .example = "23",
     .required = true, .limits = position_limits},
};
constexpr Field region_fields[] = {
    {OHMLORE_MEMBER(Report_region, begin), .doc = "Offset of the first byte.", .example = "310",
     .required = true, .limits = offset_limits},
    {OHMLORE_MEMBER(Report_region, end), .doc = "Offset of the byte after the last.", .example = "319",
     .required = true, .limits = offset_limits},
    {OHMLORE_MEMBER(Report_region, first), .doc = "Position of the first byte.",
     .example = R"({ "line": 14, "column": 23 })", .required = true},
    {OHMLORE_MEMBER(Report_region, last), .doc = "Position of the byte after the last.",
     .example = R"({ "line": 14, "column": 32 })", .required = true},
};
#define OHMLORE_REGION_EXAMPLE                                                                               \
  R"({ "begin": 310, "end": 319, "first": { "line": 14, "column": 23 }, "last": { "line": 14, "column": 32 } })"
constexpr Field related_fields[] = {
    {OHMLORE_MEMBER(Report_related, file), .doc = "The file, as it was named.",
     .example = R"("parts/ntc-10k.part.json")", .required = true},
    {OHMLORE_MEMBER(Report_related, region), .doc = "The place in it.", .example = OHMLORE_REGION_EXAMPLE,
     .required = true},
    {OHMLORE_MEMBER(Report_related, message), .doc = "What is to be seen there.",
     .example = R"("first here")", .required = true},
};
constexpr Field edit_fields[] = {
    {OHMLORE_MEMBER(Report_edit, begin), .doc = "Offset of the first byte that is replaced.",
     .example = "310", .required = true, .limits = offset_limits},
    {OHMLORE_MEMBER(Report_edit, end), .doc = "Offset of the byte after the last.", .example = "319",
     .required = true, .limits = offset_limits},
    {OHMLORE_MEMBER(Report_edit, text), .doc = "What stands there instead; nothing where it is empty.",
     .example = R"("\"9.8 kΩ\"")", .required = true, .form = Form::any},
};
constexpr Field fix_fields[] = {
    {OHMLORE_MEMBER(Report_fix, description), .doc = "What the fix does.",
     .example = R"("rename to `label`")", .required = true},
    {OHMLORE_MEMBER(Report_fix, safety), .doc = "How far it may be trusted.", .example = R"("unsafe")",
     .required = true},
    {OHMLORE_MEMBER(Report_fix, edits), .doc = "The edits, in the file of the finding.",
     .example = R"([{ "begin": 310, "end": 319, "text": "\"label\"" }])", .required = true,
     .limits = many_items},
};
constexpr Field suppression_fields[] = {
    {OHMLORE_MEMBER(Report_suppression, by), .doc = "What suppresses it.", .example = R"("waiver")",
     .required = true},
    {OHMLORE_MEMBER(Report_suppression, why), .doc = "Why, in the words of the waiver or the entry.",
     .example = R"("the maker prints it so, page 31")", .required = true, .form = Form::any},
};
constexpr Field finding_fields[] = {
    {OHMLORE_MEMBER(Report_finding, rule), .doc = "The rule, by its name.", .example = R"("band-inverted")",
     .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Report_finding, family), .doc = "The family of the rule.", .example = R"("band")",
     .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Report_finding, severity), .doc = "How bad it is.", .example = R"("error")",
     .required = true},
    {OHMLORE_MEMBER(Report_finding, fails),
     .doc = "Whether it is at or above the failing level, and not of a preview rule.", .example = "true",
     .required = true},
    {OHMLORE_MEMBER(Report_finding, file), .doc = "The file, as it was named.",
     .example = R"("profiles/orrinvale/orrinvale-ov4410.profile.json")", .required = true},
    {OHMLORE_MEMBER(Report_finding, region), .doc = "The place in it.", .example = OHMLORE_REGION_EXAMPLE,
     .required = true},
    {OHMLORE_MEMBER(Report_finding, document), .doc = "The document, as a baseline names it.",
     .example = R"("profile orrinvale-ov4410")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Report_finding, pointer),
     .doc = "JSON Pointer of the value, or of the record in which a key is missing; empty for the document.",
     .example = R"("/components/tank_sensor/model/rows/0/max")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Report_finding, value), .doc = "What stands there, as a baseline has it.",
     .example = R"("9.8 kΩ")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Report_finding, message), .doc = "What is wrong, and what to do.",
     .example = R"("max 9.8 kΩ is below min 10.5 kΩ")", .required = true},
    {OHMLORE_MEMBER(Report_finding, related), .doc = "Other places that explain it.", .example = "[]",
     .required = true, .limits = many_items},
    {OHMLORE_MEMBER(Report_finding, fixes), .doc = "What would mend it.", .example = "[]", .required = true,
     .limits = many_items},
    {OHMLORE_MEMBER(Report_finding, suppression), .doc = "Why it does not count; of suppressed findings.",
     .example = R"({ "by": "waiver", "why": "the maker prints it so, page 31" })"},
};
constexpr Field report_fields[] = {
    {OHMLORE_MEMBER(Report, format), .doc = "The format of the report and its version.",
     .example = R"("ohmlore-report/1.0")", .required = true, .constant = "ohmlore-report/1.0"},
    {OHMLORE_MEMBER(Report, program), .doc = "What wrote it.",
     .example = R"({ "name": "ohmlore", "version": "1.0.0" })", .required = true},
    {OHMLORE_MEMBER(Report, files_read), .doc = "How many files were read.", .example = "12",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Report, files_unchanged),
     .doc = "How many more were read only for what changed files have to do with them.", .example = "0",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Report, totals), .doc = "How many findings count, of each severity.",
     .example = R"({ "error": 1, "warning": 0, "note": 2 })", .required = true},
    {OHMLORE_MEMBER(Report, findings), .doc = "The findings, by file and place.", .example = "[]",
     .required = true, .limits = many_items},
    {OHMLORE_MEMBER(Report, suppressed),
     .doc = "Findings that a waiver silences or the baseline knows, in the same order.", .example = "[]",
     .required = true, .limits = many_items},
    {OHMLORE_MEMBER(Report, troubles), .doc = "Why some of the work could not be done.",
     .example = R"(["parts/x.part.json: permission denied"])", .required = true, .limits = many_items},
};

constinit const Record report_program_record = {"report_program", "Report program", "What wrote the report.",
                                                program_fields};
constinit const Record report_totals_record = {"report_totals", "Report totals",
                                               "Findings counted by severity.", totals_fields};
constinit const Record report_position_record = {"report_position", "Report position",
                                                 "A place in a text; a tab is one column.", position_fields};
constinit const Record report_region_record = {"report_region", "Report region",
                                               "A stretch of a file, its end not included.", region_fields};
constinit const Record report_related_record = {"report_related", "Related place",
                                                "Another place that explains a finding.", related_fields};
constinit const Record report_edit_record = {"report_edit", "Edit", "One replacement of bytes.", edit_fields};
constinit const Record report_fix_record = {"report_fix", "Fix", "A set of edits that mends a finding.",
                                            fix_fields};
constinit const Record report_suppression_record = {"report_suppression", "Suppression",
                                                    "Why a finding does not count.", suppression_fields};
constinit const Record report_finding_record = {"report_finding", "Finding", "One finding.", finding_fields};

}

constinit const Record report_record = {"report", "Report", "What one run of `ohmlore lint` found.",
                                        report_fields};

}
