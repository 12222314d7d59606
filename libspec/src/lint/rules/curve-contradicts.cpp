#include <array>
#include <bit>
#include <charconv>
#include <map>

#include "lint/facts.h"
#include "lint/stated_model.h"

namespace ohmlore::rules {
namespace {

// Where the curves of two models are compared, in °C.
constexpr std::array<double, 6> grid = {0, 20, 25, 50, 80, 100};

// A number as a fact keeps it, bit for bit.
std::string exactly(double value) { return fmt::format("{:x}", std::bit_cast<std::uint64_t>(value)); }
double value_of(std::string_view written) {
  std::uint64_t bits = 0;
  std::from_chars(written.data(), written.data() + written.size(), bits, 16);
  return std::bit_cast<double>(bits);
}

void collect(const Subject& subject, Fact_sink& sink) {
  const Profile* profile = subject.profile();
  const Part* part = subject.document.part();
  if (part == nullptr && (profile == nullptr || !profile->appliance.maker)) return;
  // A part names no maker: parts are compared with each other.
  const std::string maker = profile != nullptr ? folded(*profile->appliance.maker) : std::string();
  for (const Resolved_component& component : subject.resolved.components) {
    const auto orderable = component.get(&Component_type::orderable);
    const auto model = component.get(&Component_type::model);
    if (!orderable || !model || !component.known_kind) continue;
    // What comes as one of several under its number.
    if (part != nullptr && stated(subject.document, *component.own, "assembly", component.own->assembly))
      continue;
    const std::string key = packed({maker, folded(orderable->value)});
    // One curve, as far as the words say; the band of a part without tolerance is that of its digits.
    const auto metal = component.get(&Component_type::metal);
    if (!sink.wants(key,
                    {word_of(component.kind()), model.document->written(model->node),
                     metal ? word_of(**metal) : std::string_view(), part != nullptr ? "part" : "profile"}))
      continue;
    const Adapted_model of_metal = with_metal(*model, component);
    std::string curve;
    for (const double celsius : grid)
      for (const Taken taken : {Taken::generously, Taken::literally}) {
        const auto band = stated_band(*of_metal, celsius + zero_celsius, taken);
        (curve += exactly(band ? band->low : 1)) += item_end;
        (curve += exactly(band ? band->high : 0)) += item_end;
      }
    sink.add(component.node, key,
             packed({word_of(component.kind()), curve,
                     part != nullptr ? "" : " in another profile of the same maker"}),
             fmt::format("{} ({})", component.id, quoted(orderable->value)));
  }
}

// What a model states at one temperature of the grid: for the proof and for the message. Nothing where
// low > high.
struct Stated {
  Interval widest, band;
  bool parts_from(const Stated& other) const {
    return widest.low <= widest.high && other.widest.low <= other.widest.high &&
           !widest.overlaps(other.widest);
  }
};

struct Curve {
  const Fact* fact;
  std::string_view kind;
  std::array<Stated, grid.size()> points;
  std::string_view whose;
};

Curve curve_of(const Fact& fact) {
  const auto fields = unpacked(fact.value, field_end, 3);
  Curve curve{&fact, fields[0], {}, fields[2]};
  const auto numbers = unpacked(fields[1], item_end, 4 * grid.size());
  for (std::size_t i = 0; i < grid.size(); ++i)
    curve.points[i] = {{value_of(numbers[4 * i]), value_of(numbers[4 * i + 1])},
                       {value_of(numbers[4 * i + 2]), value_of(numbers[4 * i + 3])}};
  return curve;
}

// The place in the grid where two curves have nothing in common; grid.size() where there is none.
std::size_t parting(const Curve& a, const Curve& b) {
  std::size_t i = 0;
  while (i < grid.size() && !a.points[i].parts_from(b.points[i])) ++i;
  return i;
}

// The curves of `own` that agree with none of their kind in `other`, though there is one.
std::vector<const Curve*> unmatched(std::span<const Curve> own, std::span<const Curve> other) {
  std::vector<const Curve*> found;
  for (const Curve& mine : own) {
    bool any = false, agrees = false;
    for (const Curve& theirs : other) {
      if (theirs.kind != mine.kind) continue;
      any = true;
      agrees = agrees || parting(mine, theirs) == grid.size();
    }
    if (any && !agrees) found.push_back(&mine);
  }
  return found;
}

Finding contradiction_of(const Curve& mine, const Curve& theirs, Severity severity) {
  const std::size_t at = parting(mine, theirs);
  const auto [here_read, there_read] = apart(mine.points[at].band, theirs.points[at].band);
  return contradiction(
      *mine.fact, *theirs.fact, "the other", severity,
      fmt::format("{} gives {} at {} °C, but {}{} gives {}: one spare number cannot be two curves; mend a "
                  "number or a model{}",
                  mine.fact->text, here_read, grid[at], theirs.fact->text, theirs.whose, there_read,
                  theirs.whose.empty() ? "; where it names an assembly, state `assembly`" : ""),
      here_read, there_read);
}

// An assembly may hold two parts under one number: only what has no counterpart on either side contradicts.
// Of a document one contradiction is told for all. Documents are taken in the order of their curves, as facts
// come: which of two is told, and so what a baseline knows, does not go by ids that a redirect may replace.
void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  std::map<std::pair<std::string_view, std::string_view>, std::size_t> number_of; // by document and file
  std::vector<std::vector<Curve>> by_document;
  for (const Fact& fact : facts) {
    const auto [known, fresh] = number_of.emplace(std::pair(fact.document, fact.file), by_document.size());
    if (fresh) by_document.emplace_back();
    by_document[known->second].push_back(curve_of(fact));
  }
  // Thousands of documents may hold one part, with few curves between them: each set is looked at once.
  std::map<std::vector<std::string_view>, std::size_t> sets;
  std::vector<std::size_t> set_of; // curves, by document
  for (const std::vector<Curve>& curves : by_document) {
    std::vector<std::string_view> values;
    for (const Curve& curve : curves) values.push_back(curve.fact->value);
    set_of.push_back(sets.emplace(std::move(values), sets.size()).first->second);
  }
  for (std::size_t here = 1; here < by_document.size(); ++here) {
    std::vector<Finding> group;
    std::vector<bool> agrees(sets.size());
    for (std::size_t there = 0; there < here && group.size() < most_contradictions; ++there) {
      if (agrees[set_of[there]]) continue;
      const std::size_t before = group.size();
      const auto others = unmatched(by_document[there], by_document[here]);
      for (const Curve* mine : unmatched(by_document[here], by_document[there]))
        for (const Curve* theirs : others)
          if (mine->kind == theirs->kind && group.size() < most_contradictions)
            group.push_back(contradiction_of(*mine, *theirs, severity));
      agrees[set_of[there]] = group.size() == before;
    }
    add_group(findings, std::move(group));
  }
}

}

extern const Rule curve_contradicts = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "One spare number of a maker has two different resistance models.",
    .collect = collect,
    .judge = judge,
};

}
