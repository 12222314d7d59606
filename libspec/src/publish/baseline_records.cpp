// The baseline of a corpus.
#include "publish/baseline_records.h"
#include "publish/records.h"

namespace ohmlore {

extern const Record baseline_entry_record;
constexpr const Record* description(std::type_identity<Described_baseline_entry>) {
  return &baseline_entry_record;
}

namespace {

constexpr Limits some = {1, 1'000'000};
constexpr Limits many = {0, 1'000'000};

// clang-format off
constexpr Field entry_fields[] = {
    {OHMLORE_MEMBER(Described_baseline_entry, document), .doc = "Where it is: `profile ID`, `part ID`, or `file PATH` (from the folder of `corpus.json`; where there is none, from that of the baseline) for what has no id that can be read.", .example = R"("profile orrinvale-ov4410")", .required = true},
    {OHMLORE_MEMBER(Described_baseline_entry, rule), .doc = "The rule, by its name.", .example = R"("band-too-wide")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Described_baseline_entry, at), .doc = "JSON Pointer of the finding; empty for the document.", .example = R"("/components/tank_sensor/model/tolerance")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Described_baseline_entry, value), .doc = "What stands there: of a quantity its canonical spelling, of another string its text, else as written but for escapes, members of a record in the order of their keys; empty for a record or list that holds others, unless it is refused as a whole; where a key is missing, that key; of a rule that compares over a corpus, or tests of one connector, what it compared. Where something else contradicts it, `against` and that one follow: a test or fault by its id, a row by its temperature, readings of a network by their tests or terminals, another document by what it says. A text beyond 200 bytes, or with characters that are not seen, is `sha256:` and its SHA-256.", .example = R"("60 %")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Described_baseline_entry, severity), .doc = "The worst that is known, as the rule says before a policy: what it finds worse there is new. Without it, an error.", .example = R"("warning")"},
    {OHMLORE_MEMBER(Described_baseline_entry, count), .doc = "How many findings this is; without it, one. One more is new.", .example = "2", .limits = some},
    {OHMLORE_MEMBER(Described_baseline_entry, owner), .doc = "Who is to mend it.", .example = R"("sensors group")", .required = true},
    {OHMLORE_MEMBER(Described_baseline_entry, why), .doc = "Why it may stay for now.", .example = R"("copied from the old sheets; to be measured")", .required = true},
    {OHMLORE_MEMBER(Described_baseline_entry, until), .doc = "Last day on which it may; a month holds to its end.", .example = R"("2027-06-30")", .form = Form::date},
};
constexpr Field baseline_fields[] = {
    {OHMLORE_MEMBER(Described_baseline, format), .doc = "The format of the baseline and its version.", .example = R"("ohmlore-baseline/1.0")", .required = true, .constant = baseline_format},
    {OHMLORE_MEMBER(Described_baseline, entries), .doc = "What is known.", .example = "[]", .required = true, .limits = many},
};
// clang-format on

}

constinit const Record baseline_entry_record = {"baseline_entry", "Baseline entry",
                                                "Findings of one key that are known.", entry_fields};
constinit const Record baseline_record = {
    "baseline", "Baseline", "Findings that a corpus had before: they do not count, new ones do.",
    baseline_fields};

}
