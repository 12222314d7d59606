#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// The expected path: what the test states, else what the component's model gives.
enum class Path : std::uint8_t { unknown, open, not_short, closed, from_zero, itself };

Path path_of(const Subject& subject, const Test& test, const Resolved_component& component) {
  if (test.expect.kind) {
    switch (*test.expect.kind) {
    case Expectation_kind::open: return Path::open;
    case Expectation_kind::not_short: return Path::not_short;
    case Expectation_kind::closed: return Path::closed;
    case Expectation_kind::band: {
      const auto& band = expected(subject, test);
      return band && band->low <= 0 && test.expect.min && test.expect.max ? Path::from_zero : Path::unknown;
    }
    case Expectation_kind::pair:
      return test.expect.with && *test.expect.with == component.id ? Path::itself : Path::unknown;
    default: return Path::unknown;
    }
  }
  if (test.expect) return Path::unknown;
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind) return Path::unknown;
  if (*model->kind == Model_kind::open) return Path::open;
  return *model->kind == Model_kind::closed ? Path::closed : Path::unknown;
}

// Why a part that has failed like this gives the reading that is called healthy; empty where it need not.
std::string_view reason(Path path, Mode mode) {
  const bool no_path = mode == Mode::open || mode == Mode::stuck_open;
  const bool full_path = mode == Mode::short_ || mode == Mode::stuck_closed;
  switch (path) {
  case Path::open: return no_path ? "an open part reads open, which this test calls healthy" : "";
  case Path::not_short: return no_path ? "an open part is not short, which is all that this test asks" : "";
  case Path::closed: return full_path ? "a shorted part reads closed, which this test calls healthy" : "";
  case Path::from_zero: return full_path ? "a short reads 0 Ω, which lies in this band" : "";
  case Path::itself: return "compared with itself it never differs, however it has failed";
  case Path::unknown: break;
  }
  return "";
}

// What is stuck to one contact is off the other: open there may prove the arm moved.
bool may_be_changeover(const Resolved_component& component) {
  const auto contacts = component.get(&Component_type::contacts);
  return contacts ? **contacts == Contacts::changeover
                  : may_have(component, "contacts", component.own->contacts);
}

bool may_have_more_contacts(const Document& document, const Resolved_component& component) {
  const auto& terminals = component.placed->terminals;
  return component.contacts.size() > 2 || terminals.size() > 2 ||
         unread(document, *component.placed, "terminals", terminals);
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    // A response shows the part in a second state; what is done before may show it too.
    if (!test.component || stated(subject.document, test, "response", test.response)) return;
    const bool prepared = stated(subject.document, test, "before", test.before);
    if (unread(subject.document, test, "expect", test.expect)) return;
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || may_be_changeover(*component)) return;
    // Mirror contacts and changeovers: a contact stuck elsewhere holds this one in the other state.
    const bool more_contacts = may_have_more_contacts(subject.document, *component);
    const std::string_view unless = prepared ? ", unless the steps before it show the part in another state"
                                    : more_contacts
                                        ? ", unless it is another contact of the part that fails so"
                                        : "";
    const Path path = path_of(subject, test, *component);
    for (const Value<Mode>& mode : test.excludes) {
      const std::string_view why = mode ? reason(path, *mode) : "";
      if (!why.empty())
        sink.report_as(unless.empty() ? Severity::error : Severity::warning, mode.node,
                       fmt::format("this test cannot exclude {}: {}; {}{}", word_of(*mode), why,
                                   path == Path::itself ? "name its twin in `with`" : "leave it out",
                                   unless));
    }
  });
}

}

extern const Rule excludes_beyond_test = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A test claims to exclude a failure that gives the very reading it calls healthy.",
    .check = check,
};

}
