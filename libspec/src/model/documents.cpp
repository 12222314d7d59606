// The three kinds of document.
#include "model/types.h"

namespace ohmlore {

static constexpr std::string_view schema_doc = "Where an editor finds the schema; not read by the tools.";
static constexpr std::string_view format_doc = "The format and its version.";
static constexpr std::string_view sources_doc = "Where the numbers come from, by id.";
static constexpr std::string_view source_doc = "The source of every number that names no nearer one.";
static constexpr std::string_view revision_doc = "Grows with each change of meaning.";
static constexpr std::string_view waivers_doc = "Findings that were looked at and accepted.";
static constexpr std::string_view sources_example =
    R"({ "notes": { "kind": "maker_document", "title": "Larch service notes" } })";
static constexpr std::string_view waivers_example =
    R"([{ "rule": "tolerance-below-model", "at": "/components/tank_sensor", "why": "as printed by the maker" }])";
static constexpr Limits any_revision = {1, 1000000};

static constexpr Field profile_fields[] = {
    {.key = "$schema",
     .member = member<&Profile::schema>(),
     .doc = schema_doc,
     .example = R"("https://example.org/ohmlore/v1/profile.schema.json")"},
    {OHMLORE_MEMBER(Profile, format), .doc = format_doc, .example = R"("ohmlore/1.0")", .required = true,
     .constant = format_tag},
    {OHMLORE_MEMBER(Profile, kind), .doc = "The kind of document.", .example = R"("profile")",
     .required = true, .constant = "profile"},
    {OHMLORE_MEMBER(Profile, id), .doc = "Identity of the profile in a corpus, and stem of its file name.",
     .example = R"("orrinvale-ov4410")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Profile, revision), .doc = revision_doc, .example = "3", .required = true,
     .limits = any_revision},
    {OHMLORE_MEMBER(Profile, title), .doc = "A title for people.",
     .example = R"("Larch combination boilers, board OV-4410")"},
    {OHMLORE_MEMBER(Profile, appliance), .doc = "The appliances that carry the control board.",
     .example =
         R"({ "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas", "controller": { "part": "OV-4410" } })",
     .required = true},
    {OHMLORE_MEMBER(Profile, safety), .doc = "What must be isolated, and what stays dangerous.",
     .example = R"({ "supplies": [{ "kind": "mains", "isolate_at": "fused spur beside the appliance" }] })",
     .required = true, .absent_rule = "supplies-missing"},
    {OHMLORE_MEMBER(Profile, sources), .doc = sources_doc, .example = sources_example},
    {OHMLORE_MEMBER(Profile, source), .doc = source_doc, .example = R"({ "from": "notes" })"},
    {OHMLORE_MEMBER(Profile, connectors), .doc = "Connectors, by the id that contacts use.",
     .example =
         R"({ "X4": { "label": "X4", "ways": 8, "circuit": "selv", "pins": { "1": { "signal": "flow sensor" } } } })"},
    {OHMLORE_MEMBER(Profile, components), .doc = "Components, by id.",
     .example =
         R"({ "flow_sensor": { "kind": "ntc", "name": "Flow temperature sensor", "between": ["X4.1", "X4.2"], "part": "ntc-10k-b3977-1pct" } })"},
    {OHMLORE_MEMBER(Profile, circuits), .doc = "Circuits with joints that no contact shows, by id.",
     .example =
         R"({ "limit_chain": { "between": ["X2.1", "X2.4"], "arrangement": "series", "elements": [{ "kind": "component", "component": "limit_stat" }] } })"},
    {OHMLORE_MEMBER(Profile, tests), .doc = "Tests, by id.",
     .example =
         R"({ "flow_sensor_resistance": { "component": "flow_sensor", "unplug": "X4", "probes": ["X4.1", "X4.2"], "side": "at_board_plug" } })"},
    {OHMLORE_MEMBER(Profile, faults), .doc = "Fault codes, by id.",
     .example =
         R"({ "H3": { "display": { "kind": "text", "text": "H3" }, "meaning": "flow sensor out of range", "suspects": [{ "kind": "board" }] } })"},
    {OHMLORE_MEMBER(Profile, waivers), .doc = waivers_doc, .example = waivers_example},
};
constinit const Record profile_record = {
    "profile", "Profile",
    "One control board, the appliances that carry it, and how to test what plugs into it.", profile_fields};

static constexpr Field part_fields[] = {
    {.key = "$schema",
     .member = member<&Part::schema>(),
     .doc = schema_doc,
     .example = R"("https://example.org/ohmlore/v1/part.schema.json")"},
    {OHMLORE_MEMBER(Part, format), .doc = format_doc, .example = R"("ohmlore/1.0")", .required = true,
     .constant = format_tag},
    {OHMLORE_MEMBER(Part, kind), .doc = "The kind of document.", .example = R"("part")", .required = true,
     .constant = "part"},
    {OHMLORE_MEMBER(Part, id), .doc = "Identity of the part in a corpus, and stem of its file name.",
     .example = R"("ntc-10k-b3977-1pct")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Part, revision), .doc = revision_doc, .example = "1", .required = true,
     .limits = any_revision},
    {OHMLORE_MEMBER(Part, title), .doc = "A title for people.",
     .example = R"("10 kΩ sensor, B25/85 3977 K, 1 %")"},
    {OHMLORE_MEMBER(Part, sources), .doc = sources_doc, .example = sources_example},
    {OHMLORE_MEMBER(Part, source), .doc = source_doc, .example = R"({ "from": "notes" })"},
    {OHMLORE_MEMBER(Part, component),
     .doc = "What the part is; a component that names the part takes over what it does not say itself.",
     .example = R"({ "kind": "ntc", "name": "10 kΩ sensor" })", .required = true},
    {OHMLORE_MEMBER(Part, waivers), .doc = waivers_doc, .example = waivers_example},
};
constinit const Record part_record = {"part", "Part", "A component type that many appliances share.",
                                      part_fields};

static constexpr Field policy_fields[] = {
    {OHMLORE_MEMBER(Policy, ruleset),
     .doc =
         "The set of rules that may fail the gate; findings of rules that came later are shown, and do not "
         "fail. All rules where absent.",
     .example = R"("1.0")", .form = Form::version},
    {OHMLORE_MEMBER(Policy, severities),
     .doc = "Severity of a rule, by its name; an error can not be lowered, unless it is the house that asks "
            "(`house_schema`, `required_sources`).",
     .example = R"({ "source-unused": "off" })", .key_target = Target::rule},
    {OHMLORE_MEMBER(Policy, fail_on), .doc = "The least severity that fails the gate; error where absent.",
     .example = R"("warning")"},
    {OHMLORE_MEMBER(Policy, required_sources),
     .doc =
         "The kinds of source that numbers and pin-outs must have, one of them each; no demand where absent.",
     .example = R"(["maker_document", "measurement"])", .limits = {1, 16}},
    {OHMLORE_MEMBER(Policy, service_limit),
     .doc = "Service limit of a temperature sensor that states none; 3 K where absent (common practice).",
     .example = R"("3 K")", .dimensions = Dimension::temperature_difference},
};
constinit const Record policy_record = {"policy", "Policy", "How strictly the corpus is linted.",
                                        policy_fields};

static constexpr Field redirects_fields[] = {
    {OHMLORE_MEMBER(Redirected_ids, profiles),
     .doc =
         "By an id that a profile had, the id that it has now; of profiles that were merged, that of the one "
         "left.",
     .example = R"({ "ov4410": "orrinvale-ov4410" })", .form = Form::id},
    {OHMLORE_MEMBER(Redirected_ids, parts), .doc = "The same of parts.",
     .example = R"({ "ntc-10k": "ntc-10k-b3977-1pct" })", .form = Form::id, .target = Target::part},
};
constinit const Record redirects_record = {
    "redirects", "Redirects",
    "Ids of documents that were renamed or merged: what still has the old id finds the new document.",
    redirects_fields};

static constexpr Field meter_fields[] = {
    {OHMLORE_MEMBER(Meter, accuracy),
     .doc = "Accuracy, as a share of the reading; 0.8 % where absent (common practice).",
     .example = R"("0.8 %")", .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Meter, counts),
     .doc = "Further counts of the last digit; 3 where absent (common practice).", .example = "3",
     .limits = {0, 1000}},
    {OHMLORE_MEMBER(Meter, display_counts),
     .doc = "Counts of the display; 6000 where absent (common practice).", .example = "6000",
     .limits = {100, 10000000}},
    {OHMLORE_MEMBER(Meter, leads), .doc = "Resistance of the leads; 0.3 Ω where absent (common practice).",
     .example = R"("0.3 Ω")", .dimensions = Dimension::resistance},
};
constinit const Record meter_record = {
    "meter", "Meter", "The meter that readings are expected to be taken with.", meter_fields};

static constexpr Field corpus_fields[] = {
    {.key = "$schema",
     .member = member<&Corpus::schema>(),
     .doc = schema_doc,
     .example = R"("https://example.org/ohmlore/v1/corpus.schema.json")"},
    {OHMLORE_MEMBER(Corpus, format), .doc = format_doc, .example = R"("ohmlore/1.0")", .required = true,
     .constant = format_tag},
    {OHMLORE_MEMBER(Corpus, kind), .doc = "The kind of document.", .example = R"("corpus")", .required = true,
     .constant = "corpus"},
    {OHMLORE_MEMBER(Corpus, title), .doc = "A title for people.", .example = R"("Demonstration corpus")",
     .required = true},
    {OHMLORE_MEMBER(Corpus, licence), .doc = "Licence of the data (SPDX).", .example = R"("CC0-1.0")",
     .required = true},
    {OHMLORE_MEMBER(Corpus, policy), .doc = "How strictly the corpus is linted.",
     .example = R"({ "fail_on": "warning" })"},
    {OHMLORE_MEMBER(Corpus, meter), .doc = "The meter that readings are expected to be taken with.",
     .example = R"({ "accuracy": "0.8 %", "counts": 3, "display_counts": 6000, "leads": "0.3 Ω" })"},
    {OHMLORE_MEMBER(Corpus, house_schema),
     .doc = "A JSON Schema (draft-07) of the house, which profiles must also pass.",
     .example = R"("house.schema.json")", .form = Form::path},
    {OHMLORE_MEMBER(Corpus, part_paths),
     .doc = "Folders of part documents, relative to the root; `parts` where absent.",
     .example = R"(["parts"])", .form = Form::path, .limits = {1, 32}},
    {OHMLORE_MEMBER(Corpus, redirects), .doc = "Ids that documents had before.",
     .example = R"({ "parts": { "ntc-10k": "ntc-10k-b3977-1pct" } })"},
};
constinit const Record corpus_record = {"corpus", "Corpus", "The root of a folder of profiles and parts.",
                                        corpus_fields};

const Record& document_record(Document_kind kind) {
  switch (kind) {
  case Document_kind::profile: return profile_record;
  case Document_kind::part: return part_record;
  case Document_kind::corpus: return corpus_record;
  }
  return profile_record;
}

}
