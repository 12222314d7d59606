// One test: where the probes go, what is healthy, and boxes for what is read.
#include <cmath>

#include "judge/asked.h"
#include "judge/limits.h"
#include "model/spoken.h"
#include "sheet/page.h"

namespace ohmlore::sheet {
namespace {

// "closed: at most 1 Ω": the state that limits of this kind stand for, as far as the profile says it.
std::string stated_text(const Page& page, const Test& test, const Expected& expected, Interval limits) {
  const Catalogue& words = page.words;
  const std::string range = range_text(limits, words);
  const auto kind = test.expect.kind ? std::optional(*test.expect.kind) : std::nullopt;
  if (kind == Expectation_kind::not_short) return words.say(Phrase::not_short, range);
  if (kind == Expectation_kind::rises_to_open) return words.say(Phrase::rises_to_open, range);
  if (kind == Expectation_kind::smooth_sweep) return words.say(Phrase::smooth_sweep, range);
  if (kind == Expectation_kind::open) return words.say(Phrase::path_open, range);
  if (kind == Expectation_kind::closed) return words.say(Phrase::path_closed, range);
  if (expected.basis == Limit_basis::state)
    return words.say(std::isinf(limits.high) ? Phrase::path_open : Phrase::path_closed, range);
  return range;
}

// One temperature or "15 °C to 30 °C", with the digits of the profile.
std::string stated_at(const Page& page, const Expectation& expect) {
  const std::string at =
      written(*page.resolved.document, expect.at.node, Quantity_grammar::range, Dimension::temperature);
  const std::size_t to = at.find(" to ");
  return to == std::string::npos ? at : page.words.say(Phrase::from_to, at.substr(0, to), at.substr(to + 4));
}

// At 20 °C, for what varies; the table has the other temperatures.
std::string at_20_text(const Page& page, const Test& test) {
  for (const Sheet_reading& reading : sheet_readings(page.resolved, test))
    if (reading.kelvin == zero_celsius + 20 && reading.healthy) {
      const std::string healthy = range_text(*reading.healthy, page.words);
      return reading.nominal ? page.words.say(Phrase::at_20_band, ohm_text(*reading.nominal), healthy)
                             : page.words.say(Phrase::at_20, healthy);
    }
  return {};
}

void add_pair(Element line, const Page& page, const Expectation& expect) {
  const Catalogue& words = page.words;
  Text twin = expect.with ? *expect.with : Text();
  const auto* other = page.profile.tests.find(twin);
  const std::string name = other != nullptr ? page.numbered(other)->label : std::string(page.name_of(twin));
  say(line, expect.largest_difference
                ? words.say(Phrase::pair_within, name, described(*expect.largest_difference))
                : words.say(Phrase::pair_with, name));
}

// True where the reading hangs on the temperature.
bool add_healthy(Element card, const Page& page, const Test& test) {
  const Catalogue& words = page.words;
  Element line = add(card, "p", "expect");
  add(line, "span", "muted", words.say(Phrase::healthy));
  say(line, " ");
  Element value = add(line, "strong");
  std::string problem;
  const auto expected = expected_of(page.resolved, test, false, problem);
  if (!expected) {
    const Resolved_component* component = page.resolved.component_of(test);
    const bool lost = component != nullptr && component->lacks_part() && !test.expect;
    say(value, lost ? words.say(Phrase::part_not_found, *component->placed->part)
                    : words.say(Phrase::nothing_expected));
    return false;
  }
  if (expected->basis == Limit_basis::twin) {
    add_pair(value, page, test.expect);
    return false; // the twin stands for the thermometer
  }
  const std::string at_20 = at_20_text(page, test);
  if (!at_20.empty()) {
    say(value, at_20);
    say(line, "; ");
    set(add(line, "a", {}, words.say(Phrase::see_table)), "href", "#readings");
  } else if (const auto healthy =
                 expected->stated ? expected->stated : expected->service_at(zero_celsius + 20)) {
    std::string text = stated_text(page, test, *expected, *healthy);
    if (test.expect.at) text = words.say(Phrase::expect_at, text, stated_at(page, test.expect));
    say(value, text);
  } else if (!sheet_readings(page.resolved, test).empty()) {
    set(add(value, "a", {}, words.say(Phrase::in_table)), "href", "#readings");
  } else if (const auto& rows = expected->rows_reach; rows && expected->service_at(rows->low)) {
    say(value, words.say(Phrase::expect_at, range_text(*expected->service_at(rows->low), words),
                         describe(rows->low, Dimension::temperature)));
  } else {
    say(value, words.say(Phrase::nothing_expected));
  }
  if (asks_both_directions(test))
    if (const auto back = expected_of(page.resolved, test, true, problem); back && back->stated)
      say(line, "; "), say(line, words.say(Phrase::reversed, range_text(*back->stated, words)));
  if (!expected->remarks.empty()) add(card, "p", "muted", words.say(Phrase::more_in_between));
  return expected->varies;
}

// Where the part is, what to order for it, and what is noted of it.
void add_part(Element card, const Page& page, const Test& test) {
  const Resolved_component* component = page.resolved.component_of(test);
  if (component == nullptr) return;
  const bool placed = component->placed != nullptr && component->placed->where;
  const auto spare = component->get(&Component_type::orderable);
  if (placed || spare) {
    Element line = add(card, "p", "meta");
    if (placed) quote(add(line, "span"), *component->placed->where);
    if (placed && spare) say(line, "; ");
    if (spare) say_around(line, page.words, Phrase::spare_number, **spare);
  }
  const auto note = component->get(&Component_type::note);
  if (note && !(test.note && *test.note == **note)) quote(add(card, "p", "meta"), **note);
}

bool is_earth_test(const Page& page, const Test& test) {
  for (const Value<Contact>& probe : test.probes)
    if (probe && is_earthed(page.resolved, *probe)) return true;
  return false;
}

// What stays steady, or moves evenly, is seen and not read.
bool ends_in_another_reading(const Response& response) {
  return response.kind && *response.kind != Response_kind::steady_when_moved &&
         *response.kind != Response_kind::smooth_sweep;
}

void add_blank(Element blanks, const char* css_class, const std::string& label, const std::string& spoken) {
  Element blank = add(blanks, "label", css_class, label);
  Element input = add(blank, "input");
  set(input, "type", "text");
  set(input, "inputmode", "decimal");
  set(input, "aria-label", spoken);
}

}

void add_test_card(Element parent, const Page& page, const Numbered_test& numbered) {
  const Catalogue& words = page.words;
  const Test& test = numbered.test->value;
  Element card = add(parent, "article", "test-card");
  set(card, "id", fmt::format("test-{}", numbered.test->id));
  Element heading = add(card, "h4");
  add(heading, "span", "t", numbered.label);
  say(heading, " ");
  quote(add(heading, "span"), test.component ? page.name_of(*test.component) : numbered.test->id);
  say(heading, " ");
  add(heading, "code", {}, numbered.test->id);
  add_part(card, page, test);
  const auto quoted = [&](Phrase phrase, std::string_view text) {
    if (!text.empty()) say_around(add(card, "p"), words, phrase, text);
  };
  const auto name = [](const Value<Text>& text) { return text ? *text : Text(); };

  constexpr std::string_view between = "; "; // a step may have commas
  quoted(Phrase::before, joined(test.before, name, between));
  quoted(Phrase::disconnect_also, joined(test.disconnect_also, name, between));
  quoted(Phrase::condition, test.condition ? spoken(*test.condition) : std::string());
  Element where = add(card, "p");
  if (test.probes.size() == 2 && test.probes[0] && test.probes[1]) {
    add(where, "strong", {}, words.say(Phrase::probes, text_of(*test.probes[0]), text_of(*test.probes[1])));
    if (test.positive) say(where, ", "), say(where, words.say(Phrase::positive_on, text_of(*test.positive)));
  }
  if (test.side) say(where, fmt::format(", {}", words.word(*test.side)));
  const bool varies = add_healthy(card, page, test);
  if (test.response.kind) {
    const std::string response(words.word(*test.response.kind));
    Element line = add(card, "p");
    say(line, words.say(Phrase::then, response));
    if (test.response.how) say(line, ": "), quote(add(line, "span"), *test.response.how);
  }
  const std::string modes = joined(
      test.excludes, [&](const Value<Mode>& mode) { return mode ? words.word(*mode) : std::string_view(); });
  add(card, "p", "muted",
      modes.empty() ? words.say(Phrase::rules_out_nothing) : words.say(Phrase::rules_out, modes));
  if (test.expect.kind && *test.expect.kind == Expectation_kind::open && is_earth_test(page, test))
    add(card, "p", "muted", words.say(Phrase::no_gross_leakage));
  if (test.note) quote(add(card, "p", "muted"), *test.note);

  Element blanks = add(card, "div", "blanks");
  add_blank(blanks, "blank", words.say(Phrase::reading), words.say(Phrase::reading_of, numbered.label));
  if (asks_both_directions(test))
    add_blank(blanks, "blank", words.say(Phrase::reading_reversed),
              words.say(Phrase::reversed_of, numbered.label));
  if (compares_twins(test))
    add_blank(blanks, "blank", words.say(Phrase::reading_twin), words.say(Phrase::twin_of, numbered.label));
  if (varies)
    add_blank(blanks, "blank small", words.say(Phrase::part_temperature),
              words.say(Phrase::temperature_of, numbered.label));
  if (ends_in_another_reading(test.response))
    add_blank(blanks, "blank", words.say(Phrase::reading_after), words.say(Phrase::after_of, numbered.label));
}

}
