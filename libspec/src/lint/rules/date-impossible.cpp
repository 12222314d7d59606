#include "lint/rule.h"
#include "text/calendar.h"

namespace ohmlore::rules {
namespace {

void check_date(Sink& sink, const Value<Text>& date) {
  if (!date) return; // of what is there the reader has seen the form
  if (std::string problem = calendar_problem(*date); !problem.empty())
    sink.report(date.node, std::move(problem));
}

void check(const Subject& subject, Sink& sink) {
  if (const Keyed<Source>* sources = subject.document.sources())
    for (const auto& source : *sources) check_date(sink, source.value.date);
  if (const List<Waiver>* waivers = subject.document.waivers())
    for (const Waiver& waiver : *waivers) check_date(sink, waiver.until);
}

}

extern const Rule date_impossible = {
    .family = Family::source,
    .severity = Severity::error,
    .summary = "A date has a day that its month does not have.",
    .check = check,
};

}
