#include "sheet/page.h"
#include "sheet/pinout.h"

namespace ohmlore::sheet {
namespace {

constexpr double widest_in_a_column = 425;   // pixels; a wider picture takes the whole page
constexpr std::size_t longest_unbroken = 16; // letters of a pin's name

bool is_dangerous(Circuit_class circuit) {
  return circuit == Circuit_class::mains || circuit == Circuit_class::live_referenced ||
         circuit == Circuit_class::ignition_hv;
}

void add_badge(Element line, const Catalogue& words, Circuit_class circuit) {
  add(line, "span", is_dangerous(circuit) ? "badge live" : "badge", words.word(circuit));
}

std::string housing_text(const Connector& connector, const Catalogue& words) {
  const std::int64_t ways = *connector.ways, rows = connector.rows ? *connector.rows : 1;
  if (ways == 1) return words.say(Phrase::one_way);
  return rows > 1 ? words.say(Phrase::ways_rows, ways, rows) : words.say(Phrase::ways_one_row, ways);
}

void add_head(Element article, const Page& page, const Keyed<Connector>::Entry& entry) {
  const Catalogue& words = page.words;
  const Connector& connector = entry.value;
  add(article, "h3", {}, words.say(Phrase::connector, entry.id));
  Element about = add(article, "p", "meta");
  if (connector.circuit) add_badge(about, words, *connector.circuit);
  if (connector.label && *connector.label != entry.id)
    say_around(about, words, Phrase::labelled, *connector.label), say(about, "; ");
  if (connector.mounted && *connector.mounted != Mounting::board)
    say(about, fmt::format("{}; ", words.word(*connector.mounted)));
  if (connector.where) quote(add(about, "span"), *connector.where), say(about, "; ");
  say(about, housing_text(connector, words));
  if (connector.keying) say_around(add(article, "p", "meta"), words, Phrase::keying, *connector.keying);
}

void add_wire(Element cell, const Wire& wire, const Catalogue& words) {
  const std::string code = wire_code(wire), said = wire_words(wire, words);
  if (code.empty()) return;
  if (said.empty()) {
    quote(cell, code);
    return;
  }
  add(cell, "strong", {}, code);
  say(cell, " ");
  add(cell, "span", "wire-words", said);
}

void add_pins(Element article, const Page& page, const Keyed<Connector>::Entry& entry, const Layout& layout) {
  const Catalogue& words = page.words;
  Element table = add(article, "table", "pins");
  set(table, "aria-label", words.say(Phrase::pinout_of, entry.id));
  Element head = add(add(table, "thead"), "tr");
  for (const Phrase column : {Phrase::pin, Phrase::signal, Phrase::wire})
    set(add(head, "th", {}, words.say(column)), "scope", "col");
  Element body = add(table, "tbody");
  std::string unused;
  for (const Way& way : layout.ways) {
    if (way.pin == nullptr) {
      if (!way.name.empty())
        unused += fmt::format("{}{}{}", unused.empty() ? "" : ", ", way.name,
                              way.blanked ? fmt::format(" ({})", words.say(Phrase::blanked)) : std::string());
      continue;
    }
    const Pin& pin = *way.pin;
    Element row = add(body, "tr");
    set(add(row, "th", way.name.size() > longest_unbroken ? "" : "nowrap", way.name), "scope", "row");
    Element signal = add(row, "td");
    if (pin.signal) quote(add(signal, "span"), *pin.signal), say(signal, " ");
    if (pin.circuit && !(entry.value.circuit && *pin.circuit == *entry.value.circuit))
      add_badge(signal, words, *pin.circuit);
    const std::string links = joined(
        pin.links, [](const Value<Contact>& contact) { return contact ? text_of(*contact) : std::string(); });
    const std::string more =
        joined(std::initializer_list<std::string>{pin.shared && *pin.shared ? words.say(Phrase::shared)
                                                                            : std::string(),
                                                  links.empty() ? links : words.say(Phrase::links_to, links)},
               [](const std::string& text) { return text; });
    if (!more.empty()) add(signal, "span", "muted", more);
    if (pin.note) say(signal, " "), quote(add(signal, "span", "muted"), *pin.note);
    add_wire(add(row, "td"), pin.wire, words);
  }
  if (!unused.empty()) add(article, "p", "meta", words.say(Phrase::ways_unused, unused));
}

void add_connector(Element parent, const Page& page, const Keyed<Connector>::Entry& entry) {
  const Catalogue& words = page.words;
  const Layout layout = layout_of(entry.value);
  Element article = add(parent, "article", "connector");
  set(article, "id", fmt::format("connector-{}", entry.id));
  Element head = add(article, "div", "head");
  add_head(head, page, entry);

  std::vector<Probe_track> tracks;
  for (const Numbered_test& test : page.tests) {
    if (test.connector != entry.id) continue;
    Probe_track& track = tracks.emplace_back();
    track.label = test.label;
    for (const Value<Contact>& probe : test.test->value.probes)
      if (probe) track.probes.push_back(*probe);
    if (test.test->value.positive) track.positive = text_of(*test.test->value.positive);
  }
  Element drawing = add(head, "div", "drawing");
  if (add_pinout(drawing, entry.id, layout, tracks, words) > widest_in_a_column) {
    set(article, "class", "connector wide");
    set(drawing, "tabindex", "0");
    set(drawing, "role", "group");
    set(drawing, "aria-label", words.say(Phrase::pinout_of, entry.id));
  }
  if (const int strips = strips_of(layout); strips > 1)
    add(head, "p", "meta", words.say(Phrase::strips_joined, strips));
  if (layout.rows_unknown)
    add(head, "p", "meta", words.say(Phrase::rows_not_said, entry.value.rows ? *entry.value.rows : 1));
  if (layout.named && layout.ways.size() > 1) add(head, "p", "meta", words.say(Phrase::order_not_said));
  add_pins(head, page, entry, layout);
  if (entry.value.note) quote(add(head, "p", "meta"), *entry.value.note);
  if (tracks.empty()) {
    add(head, "p", "meta", words.say(Phrase::no_tests_here));
    return;
  }
  Element tests = add(article, "div", "tests");
  for (const Numbered_test& test : page.tests)
    if (test.connector == entry.id) add_test_card(tests, page, test);
}

}

void add_connectors(Element parent, const Page& page) {
  const Catalogue& words = page.words;
  Element section = add_section(parent, "connectors", words.say(Phrase::connectors));
  if (page.profile.connectors.empty())
    add(section, "p", {}, words.say(Phrase::no_connectors));
  else
    add(section, "p", "intro", words.say(Phrase::connectors_intro));
  if (!page.tests.empty()) add(section, "p", "intro", words.say(Phrase::decimal_point));
  Element connectors = add(section, "div", "connectors");
  for (const auto& connector : page.profile.connectors) add_connector(connectors, page, connector);
  bool first = true;
  for (const Numbered_test& test : page.tests)
    if (test.connector.empty()) {
      if (first) add(section, "h3", {}, words.say(Phrase::other_tests));
      first = false;
      add_test_card(section, page, test);
    }
}

}
