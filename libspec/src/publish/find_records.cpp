// The report of a search. Nothing reads it back: the structs are here only to be described.
#include "model/types.h"
#include "ohmlore/find.h"
#include "publish/common_records.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

struct Find_match_record : Record_base {
  Value<Text> word;
  Value<Find_field> field;
  Value<Likeness> likeness;
  Value<Text> text;
  List<Value<Text>> codes;
};
struct Find_code_record : Record_base {
  Value<Text> id, shown, meaning;
};
struct Find_profile_record : Record_base {
  Value<Text> file, id, title, maker;
  List<Value<Text>> models;
  Value<Text> board;
  List<Find_code_record> codes;
  List<Find_match_record> matches;
};
struct Find_report : Record_base {
  Value<Text> format;
  Judge_program program;
  List<Value<Text>> cautions, words, missing;
  Value<std::int64_t> searched, found;
  List<Find_profile_record> profiles;
  List<Value<Text>> troubles;
};

#define OHMLORE_FIND_RECORD(type, name)                                                                      \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_FIND_RECORD(Find_match_record, find_match_record)
OHMLORE_FIND_RECORD(Find_code_record, find_code_record)
OHMLORE_FIND_RECORD(Find_profile_record, find_profile_record)

constexpr Field match_fields[] = {
    {OHMLORE_MEMBER(Find_match_record, word), .doc = "The word, as it is compared.", .example = R"("ov4410")",
     .required = true},
    {OHMLORE_MEMBER(Find_match_record, field), .doc = "What it was found in.", .example = R"("board")",
     .required = true},
    {OHMLORE_MEMBER(Find_match_record, likeness), .doc = "How like it is.", .example = R"("same")",
     .required = true},
    {OHMLORE_MEMBER(Find_match_record, text), .doc = "The whole text that it stands in.",
     .example = R"("OV-4410")", .required = true},
    {OHMLORE_MEMBER(Find_match_record, codes),
     .doc = "The ids of the codes in which it stands as well as anywhere.", .example = R"(["S1"])",
     .required = true, .limits = any_number},
};
constexpr Field code_fields[] = {
    {OHMLORE_MEMBER(Find_code_record, id), .doc = "Its id in the profile.", .example = R"("S1")",
     .required = true},
    {OHMLORE_MEMBER(Find_code_record, shown), .doc = "As the appliance shows it.", .example = R"("S1")",
     .required = true},
    {OHMLORE_MEMBER(Find_code_record, meaning), .doc = "What it means.", .example = R"("limit chain open")"},
};
constexpr Field profile_fields[] = {
    {OHMLORE_MEMBER(Find_profile_record, file), .doc = "Its file.",
     .example = R"("profiles/orrinvale/orrinvale-ov4410.profile.json")", .required = true},
    {OHMLORE_MEMBER(Find_profile_record, id), .doc = "Its id; empty where it could not be read.",
     .example = R"("orrinvale-ov4410")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Find_profile_record, title), .doc = "Its title.",
     .example = R"("Larch combination boilers")"},
    {OHMLORE_MEMBER(Find_profile_record, maker), .doc = "The maker of the appliance.",
     .example = R"("Orrinvale")"},
    {OHMLORE_MEMBER(Find_profile_record, models), .doc = "Its models.", .example = R"(["Larch 24 C"])",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Find_profile_record, board), .doc = "The part number of its board.",
     .example = R"("OV-4410")"},
    {OHMLORE_MEMBER(Find_profile_record, codes),
     .doc = "The codes that words were found in, without those that hold less than another.",
     .example = R"([{ "id": "S1", "shown": "S1", "meaning": "limit chain open" }])", .required = true,
     .limits = any_number},
    {OHMLORE_MEMBER(Find_profile_record, matches), .doc = "Where each word that it holds was found best.",
     .example =
         R"([{ "word": "ov4410", "field": "board", "likeness": "same", "text": "OV-4410", "codes": [] }])",
     .required = true, .limits = any_number},
};
constexpr Field find_fields[] = {
    {OHMLORE_MEMBER(Find_report, format), .doc = "The format of the report and its version.",
     .example = R"("ohmlore-find/1.0")", .required = true, .constant = "ohmlore-find/1.0"},
    {OHMLORE_MEMBER(Find_report, program), .doc = "What wrote it.",
     .example = R"({ "name": "ohmlore", "version": "1.0.0" })", .required = true},
    {OHMLORE_MEMBER(Find_report, cautions), .doc = "What applies to all work on an appliance: to be shown.",
     .example = R"(["Dead test only: never measure resistance on an energised circuit."])", .required = true,
     .limits = {1, 100}},
    {OHMLORE_MEMBER(Find_report, words),
     .doc = "What was looked for: small letters and digits, what stands between them left out.",
     .example = R"(["ov4410", "s1"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Find_report, missing), .doc = "The words that none of the profiles holds.",
     .example = R"(["larhc"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Find_report, searched), .doc = "How many profiles were searched.", .example = "16",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Find_report, found), .doc = "How many were found; `profiles` may hold fewer.",
     .example = "1", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Find_report, profiles), .doc = "The profiles, the likeliest first.", .example = "[]",
     .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Find_report, troubles), .doc = "Why some of the work could not be done.",
     .example = R"(["profiles/x.profile.json: cannot be read: permission denied"])", .required = true,
     .limits = any_number},
};

constinit const Record find_match_record = {"find_match", "Match", "Where a profile holds a word.",
                                            match_fields};
constinit const Record find_code_record = {"find_code", "Code that was found",
                                           "A code that a word was found in.", code_fields};
constinit const Record find_profile_record = {"find_profile", "Profile that was found",
                                              "One profile that holds the words.", profile_fields};

}

constinit const Record find_record = {"find", "Search", "What one run of `ohmlore find` found.", find_fields};

}
