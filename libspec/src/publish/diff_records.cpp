// The report of differences. Nothing reads it back: the structs are here only to be described.
#include "model/types.h"
#include "ohmlore/diff.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

struct Diff_program : Record_base {
  Value<Text> name, version;
};
struct Diff_file : Record_base {
  Value<Text> file;
  Value<std::int64_t> revision;
};
struct Diff_place : Record_base {
  Value<Text> pointer;
  Value<std::int64_t> line, column;
};
struct Diff_change : Record_base {
  Value<Change_weight> weight;
  Value<Change_kind> kind;
  Diff_place older, newer;
  Value<Text> place, message;
};
struct Diff_document : Record_base {
  Value<Document_kind> kind;
  Value<Text> id;
  Diff_file older, newer;
  Value<bool> revision_must_grow;
  List<Diff_change> changes;
};
struct Diff : Record_base {
  Value<Text> format;
  Diff_program program;
  Value<std::int64_t> compared;
  List<Diff_document> documents;
  List<Value<Text>> troubles;
};

#define OHMLORE_DIFF_RECORD(type, name)                                                                      \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_DIFF_RECORD(Diff_program, diff_program_record)
OHMLORE_DIFF_RECORD(Diff_file, diff_file_record)
OHMLORE_DIFF_RECORD(Diff_place, diff_place_record)
OHMLORE_DIFF_RECORD(Diff_change, diff_change_record)
OHMLORE_DIFF_RECORD(Diff_document, diff_document_record)

constexpr std::int64_t many = 1'000'000'000;
constexpr Limits any_number = {0, many};
constexpr Limits position = {1, most_bytes + 2};

constexpr Field program_fields[] = {
    {OHMLORE_MEMBER(Diff_program, name), .doc = "Its name.", .example = R"("ohmlore")", .required = true},
    {OHMLORE_MEMBER(Diff_program, version), .doc = "Its version.", .example = R"("1.0.0")", .required = true},
};
constexpr Field file_fields[] = {
    {OHMLORE_MEMBER(Diff_file, file), .doc = "The file, as it was named.",
     .example = R"("profiles/orrinvale/orrinvale-ov4410.profile.json")", .required = true},
    {OHMLORE_MEMBER(Diff_file, revision), .doc = "The revision that it states; a corpus has none.",
     .example = "3", .limits = {1, many}},
};
constexpr Field place_fields[] = {
    {OHMLORE_MEMBER(Diff_place, pointer), .doc = "JSON Pointer of the value; empty for the document.",
     .example = R"("/components/tank_sensor/model/rows/0/max")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Diff_place, line), .doc = "Its line, from 1.", .example = "14", .required = true,
     .limits = position},
    {OHMLORE_MEMBER(Diff_place, column), .doc = "Its column, from 1, in code points.", .example = "23",
     .required = true, .limits = position},
};
#define OHMLORE_PLACE_EXAMPLE R"({ "pointer": "/tests/tank_sensor/probes", "line": 14, "column": 23 })"
constexpr Field change_fields[] = {
    {OHMLORE_MEMBER(Diff_change, weight), .doc = "How much it matters.", .example = R"("meaning")",
     .required = true},
    {OHMLORE_MEMBER(Diff_change, kind), .doc = "What happened.", .example = R"("changed")", .required = true},
    {OHMLORE_MEMBER(Diff_change, older), .doc = "Where it stands in the older document; absent if it is new.",
     .example = OHMLORE_PLACE_EXAMPLE},
    {OHMLORE_MEMBER(Diff_change, newer),
     .doc = "Where it stands in the newer document; absent if it is gone.", .example = OHMLORE_PLACE_EXAMPLE},
    {OHMLORE_MEMBER(Diff_change, place), .doc = "The place in words; empty for the document.",
     .example = R"("tank_sensor, between")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Diff_change, message), .doc = "What changed, with its numbers.",
     .example = R"("X4.3 becomes X4.4")", .required = true},
};
constexpr Field document_fields[] = {
    {OHMLORE_MEMBER(Diff_document, kind), .doc = "The kind of the document.", .example = R"("profile")",
     .required = true},
    {OHMLORE_MEMBER(Diff_document, id), .doc = "Its id; empty for a corpus.",
     .example = R"("orrinvale-ov4410")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Diff_document, older), .doc = "The older document; absent if it is new.",
     .example = R"({ "file": "old/orrinvale-ov4410.profile.json", "revision": 3 })"},
    {OHMLORE_MEMBER(Diff_document, newer), .doc = "The newer document; absent if it is gone.",
     .example = R"({ "file": "new/orrinvale-ov4410.profile.json", "revision": 3 })"},
    {OHMLORE_MEMBER(Diff_document, revision_must_grow),
     .doc = "The meaning changed, and the revision did not grow.", .example = "true", .required = true},
    {OHMLORE_MEMBER(Diff_document, changes), .doc = "What changed, in the order of the records.",
     .example = "[]", .required = true, .limits = any_number},
};
constexpr Field diff_fields[] = {
    {OHMLORE_MEMBER(Diff, format), .doc = "The format of the report and its version.",
     .example = R"("ohmlore-diff/1.0")", .required = true, .constant = "ohmlore-diff/1.0"},
    {OHMLORE_MEMBER(Diff, program), .doc = "What wrote it.",
     .example = R"({ "name": "ohmlore", "version": "1.0.0" })", .required = true},
    {OHMLORE_MEMBER(Diff, compared), .doc = "How many documents were compared with another.", .example = "12",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Diff, documents), .doc = "The documents that differ, by kind and id.", .example = "[]",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Diff, troubles), .doc = "Why some of the work could not be done.",
     .example = R"(["new/x.part.json: permission denied"])", .required = true, .limits = any_number},
};

constinit const Record diff_program_record = {"diff_program", "Diff program", "What wrote the report.",
                                              program_fields};
constinit const Record diff_file_record = {"diff_file", "Diff file", "One of two documents.", file_fields};
constinit const Record diff_place_record = {"diff_place", "Diff place", "Where a value stands.",
                                            place_fields};
constinit const Record diff_change_record = {"diff_change", "Change", "One change.", change_fields};
constinit const Record diff_document_record = {"diff_document", "Document that differs",
                                               "What changed in one document.", document_fields};

}

constinit const Record diff_record = {"diff", "Difference", "What one run of `ohmlore diff` found.",
                                      diff_fields};

}
