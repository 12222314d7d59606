#include "units/canonical.h"
#include "units/explain.h"
#include "units/plain.h"

#include <fmt/format.h>

#include <algorithm>

namespace ohmlore {
namespace {

using units::Value;

struct Unusual {
  std::string_view where;
  std::string detail;
};

std::optional<Unusual> unusual_in(const Value& value) {
  if (value.code) {
    const auto* begin = value.whole.empty() ? value.unit_text.data() : value.whole.data();
    const auto size = value.whole.size() + value.unit_text.size() + value.fraction.size();
    return Unusual{{begin, size}, "an IEC 60062 code instead of a number and a unit"};
  }
  if (!value.sign.empty() && !value.number.negative) return Unusual{value.sign, "a plus is not written here"};
  if (value.borrows_unit)
    return Unusual{value.whole, "each value has its own unit; here it is written once for both"};
  const auto unit = units::canonical_unit(value);
  if (value.unit_text != unit)
    return Unusual{value.unit_text,
                   fmt::format("the unit {} is spelled {}", unit, units::in_quotes(value.unit_text))};
  if (value.gap != " ") {
    // Where no space is written, the unit is what to look at.
    const auto where = value.gap.empty() ? value.unit_text : value.gap;
    return Unusual{where, "one ordinary space belongs between the number and the unit"};
  }
  const auto form = value.quantity.form == Supply_form::ac ? " ac" : " dc";
  if (!value.form_text.empty() && value.form_text != form)
    return Unusual{value.form_text, fmt::format("{} is spelled {}", units::in_quotes(form),
                                                units::in_quotes(value.form_text))};
  return std::nullopt;
}

std::optional<Unusual> unusual_in(std::string_view text, const units::Reading& reading,
                                  Quantity_grammar grammar) {
  const auto& [first, second, count] = reading;
  if (grammar == Quantity_grammar::tolerance) {
    // Where a value begins: a code may start with its letter.
    const auto start = [&](const Value& value) {
      return static_cast<std::size_t>((value.whole.empty() ? value.unit_text : value.whole).data() -
                                      text.data());
    };
    const auto before = text.substr(0, start(first));
    if (count == 1 && before.find_first_not_of(' ') != std::string_view::npos)
      return Unusual{before, "a tolerance of two equal sides is written without a sign"};
    if (count == 2 && start(second) < start(first)) return Unusual{text, "the plus side comes first"};
    if (count == 2 && units::canonical(reading, grammar) == units::canonical({first, {}, 1}, grammar))
      return Unusual{text, "two equal sides are written once, without a sign"};
  }
  if (auto unusual = unusual_in(first)) return unusual;
  return count == 2 ? unusual_in(second) : std::nullopt;
}

}

std::optional<Unit_problem> spelling_problem(std::string_view text, Quantity_grammar grammar,
                                             Dimensions allowed) {
  if (units::read_plainly(text, grammar, allowed)) return std::nullopt;
  const auto outcome = units::read(text, grammar, allowed);
  if (outcome.failure) return std::nullopt;
  auto canonical = units::canonical(outcome.reading, grammar);
  if (canonical == text) return std::nullopt;

  Unit_problem problem;
  problem.suggestion = std::move(canonical);
  std::size_t at = 0;
  if (const auto* found = units::find_accepted_look_alike(text, at)) {
    problem.kind = Unit_problem::Kind::look_alike_accepted;
    problem.detail = fmt::format("{} stands for {}", found->name, found->meant);
    problem.begin = static_cast<std::uint32_t>(at);
    problem.end = static_cast<std::uint32_t>(at + found->character.size());
    return problem;
  }
  problem.kind = Unit_problem::Kind::not_canonical;
  auto unusual = unusual_in(text, outcome.reading, grammar);
  if (!unusual)
    unusual =
        Unusual{text, fmt::format("the canonical spelling is {}", units::in_quotes(problem.suggestion))};
  problem.begin = static_cast<std::uint32_t>(unusual->where.data() - text.data());
  problem.end = problem.begin + static_cast<std::uint32_t>(unusual->where.size());
  problem.detail = std::move(unusual->detail);
  return problem;
}

}
