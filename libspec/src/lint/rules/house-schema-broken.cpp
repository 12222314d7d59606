#include <map>
#include <optional>
#include <utility>

#include "lint/rule.h"
#include "ohmlore/house_schema.h"

namespace ohmlore::rules {
namespace {

// What the schema writes there, where it is short.
std::string written_demand(const Document& schema, Node_id demand, std::string_view keyword) {
  constexpr std::size_t longest = 60;
  const Text written = demand != 0 ? schema.written(demand) : Text();
  if (written.empty() || written.size() > longest || written.find('\n') != Text::npos) return {};
  return fmt::format(" (`{}` is {})", keyword, printable(written));
}

// What it says of it in words: beside the demand, or nothing.
std::string described(const Document& schema, Node_id demand) {
  const Node_id words = schema.member(schema.node(demand).parent, "description");
  return words != 0 && schema.node(words).type == Node_type::string
             ? fmt::format(": {}", quoted(schema.string(words)))
             : std::string();
}

// One demand may be long, stand far down in a long schema, and refuse a thousand values.
struct Demand {
  std::string said; // as a baseline knows it
  std::optional<Related> place;
};

Demand demand_of(const Document& schema, Node_id demand, std::string_view keyword) {
  if (demand == 0) return {fmt::format("{}: ", keyword), std::nullopt};
  return {text_in_keys(fmt::format("{}: {}", keyword, schema.written(demand))),
          related_at(schema, demand, fmt::format("what the house asks for{}", described(schema, demand)))};
}

void check(const Subject& subject, Sink& sink) {
  const House_schema* house = subject.resolved.surroundings.house_schema;
  if (house == nullptr || subject.profile() == nullptr) return;
  const Document& profile = subject.document;
  const std::string name = printable(house->document.name());
  const Schema_verdict verdict = check_schema(house->schema, profile.text());
  if (verdict.cut || !verdict.problem.empty()) sink.not_all_is_told();
  if (!verdict.problem.empty())
    sink.report(Document::root, fmt::format("this profile cannot be checked against the house schema {}: {}; "
                                            "mend that first",
                                            name, verdict.problem));
  std::map<std::pair<Node_id, std::string_view>, Demand> demands;
  for (const Schema_refusal& refusal : verdict.refusals) {
    const Node_id value = profile.find(refusal.pointer);
    const Node_id at = demanded_at(*house, profile, refusal);
    const auto [known, fresh] = demands.try_emplace({at, refusal.keyword});
    Demand& demand = known->second;
    if (fresh) demand = demand_of(house->document, at, refusal.keyword);
    Finding& finding = sink.report(value != 0 ? value : Document::root,
                                   fmt::format("{}{}; see the house schema {}", refusal.message,
                                               written_demand(house->document, at, refusal.keyword), name));
    if (!refusal.missing.empty()) finding.value = refusal.missing; // as of the keys that the format asks for
    if (finding.value.empty()) finding.value = demand.said; // else two on one record are one to a baseline
    if (demand.place) finding.related.push_back(*demand.place);
  }
}

}

extern const Rule house_schema_broken = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "A profile does not keep to the schema of the house.",
    .check = check,
    .is_of_the_house = true,
};

}
