// Tests: two contacts, what to read there, and what that excludes.
#include "model/types.h"

namespace ohmlore {

using enum Expectation_kind;
static constexpr Field expectation_fields[] = {
    {OHMLORE_MEMBER(Expectation, kind), .doc = "What kind of reading it is.", .example = R"("band")",
     .required = true},
    {OHMLORE_MEMBER(Expectation, nominal), .doc = "Nominal resistance.", .example = R"("522 Ω")",
     .kinds = kinds(band), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, tolerance), .doc = "Tolerance on the nominal.", .example = R"("10 %")",
     .kinds = kinds(band), .dimensions = Dimension::resistance | Dimension::ratio},
    {OHMLORE_MEMBER(Expectation, min),
     .doc = "Least healthy reading; with leads exchanged see `reverse_min`.", .example = R"("470 Ω")",
     .kinds = kinds(band, smooth_sweep, both_directions), .required_by = kinds(smooth_sweep, both_directions),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, max), .doc = "Greatest healthy reading.", .example = R"("574 Ω")",
     .kinds = kinds(band, smooth_sweep, both_directions), .required_by = kinds(smooth_sweep),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, reverse_min), .doc = "Least healthy reading with the leads exchanged.",
     .example = R"("1 MΩ")", .kinds = kinds(both_directions), .required_by = kinds(both_directions),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, reverse_max),
     .doc = "Greatest healthy reading with the leads exchanged; absent: it may read open.",
     .example = R"("4 MΩ")", .kinds = kinds(both_directions), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, at),
     .doc = "Temperature of the part, or the range over which the band holds; any where absent.",
     .example = R"("20 °C")", .kinds = kinds(band, both_directions, smooth_sweep),
     .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Expectation, above), .doc = "Least healthy resistance.", .example = R"("2 MΩ")",
     .kinds = kinds(open, rises_to_open), .required_by = kinds(open, rises_to_open),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, above), .doc = "Least healthy resistance: what reads less is a short.",
     .example = R"("100 Ω")", .kinds = kinds(not_short), .required_by = kinds(not_short),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, below), .doc = "Greatest healthy resistance, leads subtracted.",
     .example = R"("1 Ω")", .kinds = kinds(closed), .required_by = kinds(closed),
     .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Expectation, with), .doc = "The twin at the same temperature.",
     .example = R"("return_sensor")", .kinds = kinds(pair), .required_by = kinds(pair), .form = Form::id,
     .target = Target::component},
    {OHMLORE_MEMBER(Expectation, largest_difference), .doc = "Largest healthy difference between the two.",
     .example = R"("2 K")", .kinds = kinds(pair), .required_by = kinds(pair),
     .dimensions = Dimension::resistance | Dimension::temperature_difference | Dimension::ratio},
};
constinit const Record expectation_record = {"expectation", "Expectation",
                                             "What a healthy part reads in this test.", expectation_fields,
                                             &Expectation_kind_words};

static constexpr Field response_fields[] = {
    {OHMLORE_MEMBER(Response, kind), .doc = "How the reading answers.", .example = R"("falls_when_warmed")",
     .required = true},
    {OHMLORE_MEMBER(Response, how),
     .doc = "How to bring it about: by hand or with warm water, never with a flame.",
     .example = R"("warm the sensor in the hand")"},
};
constinit const Record response_record = {"response", "Response",
                                          "How the reading of a healthy part answers.", response_fields};

static constexpr Field test_fields[] = {
    {OHMLORE_MEMBER(Test, component), .doc = "The component, or part, that is tested.",
     .example = R"("flow_sensor")", .required = true, .form = Form::id, .target = Target::component},
    {OHMLORE_MEMBER(Test, unplug), .doc = "The connector to withdraw, or disconnect, first.",
     .example = R"("X4")", .form = Form::id, .target = Target::connector},
    {OHMLORE_MEMBER(Test, disconnect_also), .doc = "What else must be disconnected.",
     .example = R"(["the plug on the fan"])"},
    {OHMLORE_MEMBER(Test, before), .doc = "What must be done before, in order.",
     .example = R"(["let the motor cool to room temperature"])"},
    {OHMLORE_MEMBER(Test, probes), .doc = "The two contacts to measure between: the leads go to them.",
     .example = R"(["X4.1", "X4.2"])", .required = true, .target = Target::contact, .limits = {2, 2}},
    {OHMLORE_MEMBER(Test, positive),
     .doc = "The contact that the positive lead goes to, where polarity matters.", .example = R"("X4.1")",
     .target = Target::contact},
    {OHMLORE_MEMBER(Test, side), .doc = "Where the leads are put.", .example = R"("at_board_plug")",
     .required = true},
    {OHMLORE_MEMBER(Test, condition),
     .doc = "The condition that the component must be in, one of its `states`.", .example = R"("cold")",
     .form = Form::id, .target = Target::state},
    {OHMLORE_MEMBER(Test, expect),
     .doc = "What a healthy part reads; absent: what the component's model gives.",
     .example = R"({ "kind": "band", "nominal": "522 Ω", "tolerance": "10 %", "at": "20 °C" })"},
    {OHMLORE_MEMBER(Test, response), .doc = "How the reading must answer.",
     .example = R"({ "kind": "falls_when_warmed", "how": "warm the sensor in the hand" })"},
    {OHMLORE_MEMBER(Test, excludes),
     .doc = "The failure modes that a healthy reading excludes, and no others.",
     .example = R"(["open", "short"])", .limits = {1, 32}},
    {OHMLORE_MEMBER(Test, effort), .doc = "How much must be opened.", .example = R"("low")"},
    {OHMLORE_MEMBER(Test, note), .doc = "What else to know.", .example = R"("do not spread the contacts")"},
    {OHMLORE_MEMBER(Test, source), .doc = "Where the expectation comes from.",
     .example = R"({ "from": "bench" })"},
};
constinit const Record test_record = {"test", "Test", "One measurement on the dead appliance.", test_fields};

}
