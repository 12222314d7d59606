// Fault codes: what each means, and what can cause it.
#include "model/types.h"

namespace ohmlore {

static constexpr Field display_fields[] = {
    {OHMLORE_MEMBER(Display, kind), .doc = "How the code is shown.", .example = R"("text")",
     .required = true},
    {OHMLORE_MEMBER(Display, text), .doc = "The code as displayed.", .example = R"("H3")",
     .kinds = kinds(Display_kind::text, Display_kind::subcode),
     .required_by = kinds(Display_kind::text, Display_kind::subcode)},
    {OHMLORE_MEMBER(Display, subcode), .doc = "The second code.", .example = R"("12")",
     .kinds = kinds(Display_kind::subcode), .required_by = kinds(Display_kind::subcode)},
    {OHMLORE_MEMBER(Display, pattern), .doc = "The pattern of flashes, as an engineer would count it.",
     .example = R"("3 short, 1 long")", .kinds = kinds(Display_kind::blink),
     .required_by = kinds(Display_kind::blink)},
    {OHMLORE_MEMBER(Display, lamp), .doc = "Which lamp.", .example = R"("red")",
     .kinds = kinds(Display_kind::blink)},
};
constinit const Record display_record = {"display", "Display", "The code as the appliance shows it.",
                                         display_fields, &Display_kind_words};

static constexpr Field applies_when_fields[] = {
    {OHMLORE_MEMBER(Applies_when, models), .doc = "Models, out of the appliance's; all where absent.",
     .example = R"(["Larch 30 C"])", .limits = {1, 100}},
    {OHMLORE_MEMBER(Applies_when, software), .doc = "Software versions; all where absent.",
     .example = R"(["2.1"])", .limits = {1, 100}},
};
constinit const Record applies_when_record = {
    "applies_when", "Applies when",
    "The models and software versions that a component belongs to, or for which a code has this meaning.",
    applies_when_fields};

static constexpr Field raised_fields[] = {
    {OHMLORE_MEMBER(Raised, component),
     .doc = "The sensor that raises it; the only suspected component where absent.",
     .example = R"("flow_sensor")", .form = Form::id, .target = Target::component},
    {OHMLORE_MEMBER(Raised, below), .doc = "Raised below this resistance or temperature.",
     .example = R"("350 Ω")", .dimensions = Dimension::resistance | Dimension::temperature},
    {OHMLORE_MEMBER(Raised, above), .doc = "Raised above this resistance or temperature.",
     .example = R"("190 kΩ")", .dimensions = Dimension::resistance | Dimension::temperature},
    {OHMLORE_MEMBER(Raised, after), .doc = "How long that must last.", .example = R"("5 s")",
     .dimensions = Dimension::time},
};
constinit const Record raised_record = {"raised", "Raised", "The reading that raises a code.", raised_fields};

using enum Suspect_kind;
static constexpr Field suspect_fields[] = {
    {OHMLORE_MEMBER(Suspect, kind), .doc = "What is suspected.", .example = R"("component")",
     .required = true},
    {OHMLORE_MEMBER(Suspect, component), .doc = "The component.", .example = R"("flow_sensor")",
     .kinds = kinds(Suspect_kind::component), .required_by = kinds(Suspect_kind::component), .form = Form::id,
     .target = Target::component},
    {OHMLORE_MEMBER(Suspect, connector), .doc = "The connector of the harness.", .example = R"("X4")",
     .kinds = kinds(harness), .required_by = kinds(harness), .form = Form::id, .target = Target::connector},
    {OHMLORE_MEMBER(Suspect, cause), .doc = "The cause, in words.",
     .example = R"("air in the heating circuit")", .kinds = kinds(cause), .required_by = kinds(cause)},
    {OHMLORE_MEMBER(Suspect, modes), .doc = "How it may have failed.", .example = R"(["open", "short"])",
     .kinds = kinds(Suspect_kind::component, harness), .required_by = kinds(Suspect_kind::component),
     .limits = {1, 32}},
    {OHMLORE_MEMBER(Suspect, decided_by), .doc = "The test or tests that decide about it.",
     .example = R"(["flow_sensor_resistance"])", .kinds = kinds(Suspect_kind::component, harness),
     .form = Form::id, .target = Target::test, .limits = {1, 32}},
    {OHMLORE_MEMBER(Suspect, not_decidable), .doc = "Why no dead test decides about it.",
     .example = R"("hydraulic")", .required_by = kinds(cause)},
    {OHMLORE_MEMBER(Suspect, note), .doc = "What else to know.", .example = R"("often after draining")"},
};
constinit const Record suspect_record = {"suspect", "Suspect",
                                         "One thing that can cause a code; the likeliest first.",
                                         suspect_fields, &Suspect_kind_words};

static constexpr Field fault_fields[] = {
    {OHMLORE_MEMBER(Fault, display), .doc = "The code as displayed.",
     .example = R"({ "kind": "text", "text": "H3" })", .required = true},
    {OHMLORE_MEMBER(Fault, meaning), .doc = "What it means: its description.",
     .example = R"("flow sensor out of range")", .required = true},
    {OHMLORE_MEMBER(Fault, reset), .doc = "How it clears.", .example = R"("automatic")"},
    {OHMLORE_MEMBER(Fault, when),
     .doc = "Where the same display means different things: the models and software of this meaning.",
     .example = R"({ "models": ["Larch 30 C"] })"},
    {OHMLORE_MEMBER(Fault, raised), .doc = "The reading that raises it.",
     .example = R"({ "below": "350 Ω", "above": "190 kΩ" })"},
    {OHMLORE_MEMBER(Fault, suspects), .doc = "What can cause it, the likeliest first.",
     .example = R"([{ "kind": "board", "not_decidable": "no dead test shows it" }])", .required = true,
     .limits = {1, 64}},
    {OHMLORE_MEMBER(Fault, note), .doc = "What else to know.",
     .example = R"("may show for a minute after mains returns")"},
    {OHMLORE_MEMBER(Fault, source), .doc = "Where its meaning is described.",
     .example = R"({ "from": "notes", "page": "48" })"},
};
constinit const Record fault_record = {"fault", "Fault", "One fault code.", fault_fields};

}
