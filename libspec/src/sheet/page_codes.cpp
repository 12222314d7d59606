#include "sheet/page.h"
#include "sheet/steps.h"

namespace ohmlore::sheet {
namespace {

void add_suspect(Element line, const Page& page, const Suspect& suspect) {
  const Catalogue& words = page.words;
  switch (suspect.kind ? *suspect.kind : Suspect_kind::cause) {
  case Suspect_kind::component:
    if (suspect.component) quote(add(line, "span"), page.name_of(*suspect.component));
    break;
  case Suspect_kind::harness:
    say(line, suspect.connector ? words.say(Phrase::wires_of, *suspect.connector)
                                : words.say(Phrase::wires_of, ""));
    break;
  case Suspect_kind::board: say(line, words.say(Phrase::board_suspect)); break;
  case Suspect_kind::supply: say(line, words.say(Phrase::supply_suspect)); break;
  case Suspect_kind::cause:
    if (suspect.cause) quote(add(line, "span"), *suspect.cause);
    break;
  }
  const std::string modes = joined(
      suspect.modes, [&](const Value<Mode>& mode) { return mode ? words.word(*mode) : std::string_view(); });
  if (!modes.empty()) say(line, fmt::format(" ({})", modes));
  if (suspect.note) say(line, "; "), quote(add(line, "span", "muted"), *suspect.note);
}

void add_step(Element list, const Page& page, const Step& step) {
  const Catalogue& words = page.words;
  Element item = add(list, "li", step.test == nullptr ? "undecided" : ""), line = add(item, "div");
  if (step.test != nullptr) {
    const Numbered_test* test = page.numbered(step.test);
    add_test_mark(line, *test);
    say(line, " ");
  }
  bool first = true;
  for (const Suspect* suspect : step.suspects) {
    if (!first) say(line, "; ");
    first = false;
    add_suspect(line, page, *suspect);
    if (step.test != nullptr) continue;
    say(line, ": ");
    if (suspect->not_decidable)
      say_around(line, words, Phrase::not_decidable, *suspect->not_decidable);
    else
      say(line, words.say(Phrase::no_test_named));
  }
  if (step.after_abnormal) {
    say(line, "; ");
    add(line, "span", "muted", words.say(Phrase::after_abnormal));
  }
}

std::string raised_when(const Page& page, const Raised& raised) {
  const Catalogue& words = page.words;
  const Document& document = *page.resolved.document;
  const auto quantity = [&](const Value<Quantity>& value, Dimension dimension) {
    return written(document, value.node, Quantity_grammar::quantity, dimension);
  };
  const Dimensions read = Dimension::resistance | Dimension::temperature;
  std::string when;
  if (raised.below)
    when = words.say(Phrase::raised_below,
                     written(document, raised.below.node, Quantity_grammar::quantity, read));
  if (raised.above) {
    const std::string above = words.say(
        Phrase::raised_above, written(document, raised.above.node, Quantity_grammar::quantity, read));
    when = when.empty() ? above : words.say(Phrase::either, when, above);
  }
  if (raised.after)
    when += fmt::format("{}{}", when.empty() ? "" : " ",
                        words.say(Phrase::raised_after, quantity(raised.after, Dimension::time)));
  return when;
}

void add_code(Element parent, const Page& page, const Keyed<Fault>::Entry& entry) {
  const Catalogue& words = page.words;
  const Fault& fault = entry.value;
  Element article = add(parent, "article", "code");
  set(article, "id", fmt::format("code-{}", entry.id));
  Element heading = add(article, "h3");
  add(heading, "span", "shown", shown_code(entry));
  say(heading, " ");
  if (fault.meaning) quote(add(heading, "span"), *fault.meaning);
  const std::string when = joined(
      std::initializer_list<std::string>{
          joined(fault.when.models, [](const Value<Text>& text) { return *text; }),
          fault.when.software.empty()
              ? std::string()
              : words.say(Phrase::software,
                          joined(fault.when.software, [](const Value<Text>& text) { return *text; }))},
      [](const std::string& text) { return text; });
  if (!when.empty()) add(article, "p", "meta", words.say(Phrase::applies_to, when));
  if (fault.raised.component || fault.raised.below || fault.raised.above || fault.raised.after) {
    Element line = add(article, "p", "meta", words.say(Phrase::raised, ""));
    if (fault.raised.component)
      quote(add(line, "span"), page.name_of(*fault.raised.component)), say(line, " ");
    say(line, raised_when(page, fault.raised));
  }
  if (fault.reset) add(article, "p", "meta", words.say(Phrase::reset, words.word(*fault.reset)));
  if (fault.note) quote(add(article, "p", "meta"), *fault.note);
  const Steps steps = steps_of(page.resolved, entry);
  if (steps.list.empty()) {
    add(article, "p", "meta", words.say(Phrase::no_suspects));
    return;
  }
  if (!steps.planned) add(article, "p", "meta", words.say(Phrase::not_planned));
  Element list = add(article, "ol", "steps");
  for (const Step& step : steps.list) add_step(list, page, step);
}

}

std::string shown_code(const Keyed<Fault>::Entry& fault) {
  const Display& display = fault.value.display;
  std::string text(display.text ? *display.text : display.pattern ? *display.pattern : fault.id);
  if (display.subcode) text += fmt::format(" {}", *display.subcode);
  if (display.lamp) text += fmt::format(" ({})", *display.lamp);
  return text;
}

void add_codes(Element parent, const Page& page) {
  Element section = add_section(parent, "codes", page.words.say(Phrase::codes));
  if (page.profile.faults.empty()) {
    add(section, "p", {}, page.words.say(Phrase::no_codes));
    return;
  }
  add(section, "p", "intro", page.words.say(Phrase::codes_intro));
  Element codes = add(section, "div", "codes");
  for (const auto& fault : page.profile.faults) add_code(codes, page, fault);
}

}
