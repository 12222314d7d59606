#include "sheet/page.h"

#include <algorithm>
#include <cmath>

#include "ohmlore/version.h"
#include "sheet/style.h"
#include "text/sha256.h"
#include "text/xml_text.h"
#include "units/outward.h"

namespace ohmlore {
namespace sheet {
namespace {

Text where_probed(const Resolved& resolved, const Test& test) {
  if (test.unplug && resolved.connector(*test.unplug) != nullptr) return *test.unplug;
  for (const Value<Contact>& probe : test.probes)
    if (probe && resolved.connector(probe->connector) != nullptr) return probe->connector;
  return {};
}

void add_fact(Element list, const std::string& name, std::string_view value, bool of_profile = true) {
  if (value.empty()) return;
  add(list, "dt", {}, name);
  Element fact = add(list, "dd");
  if (of_profile)
    quote(fact, value);
  else
    say(fact, value);
}

std::string listed(const List<Value<Text>>& texts) {
  return joined(texts, [](const Value<Text>& text) { return *text; });
}

// Where a file lay is nobody else's business.
std::string_view file_name(std::string_view path) { return path.substr(path.find_last_of('/') + 1); }

Element add_masthead(Element body, const Page& page) {
  const Catalogue& words = page.words;
  const Appliance& appliance = page.profile.appliance;
  Element head = add(body, "header", "masthead");
  add_kind(head, words.say(Phrase::sheet_kind));
  quote(add(head, "h1"), page.profile.title ? *page.profile.title : *page.profile.id);
  Element facts = add(head, "dl", "facts");
  add_fact(facts, words.say(Phrase::maker), appliance.maker ? *appliance.maker : Text());
  add_fact(facts, words.say(Phrase::models), listed(appliance.models));
  std::string type;
  if (appliance.type) type = words.word(*appliance.type);
  if (appliance.fuel) type += fmt::format("{}{}", type.empty() ? "" : ", ", words.word(*appliance.fuel));
  add_fact(facts, words.say(Phrase::appliance), type, false);
  std::string board(appliance.controller.part ? *appliance.controller.part : Text());
  const auto add_to_board = [&](Phrase phrase, const List<Value<Text>>& texts) {
    if (!texts.empty())
      board += fmt::format("{}{}", board.empty() ? "" : ", ", words.say(phrase, listed(texts)));
  };
  add_to_board(Phrase::issues, appliance.controller.issues);
  add_to_board(Phrase::software, appliance.controller.software);
  add_fact(facts, words.say(Phrase::board), board);
  add_fact(facts, words.say(Phrase::markets), listed(appliance.markets));
  add_fact(facts, words.say(Phrase::profile),
           words.say(Phrase::profile_revision, *page.profile.id, *page.profile.revision), false);
  add_fact(facts, words.say(Phrase::note), appliance.note ? *appliance.note : Text());
  if (appliance.note) set(facts.last_child().previous_sibling(), "class", "long");
  return head;
}

// Links to the sections after the cautions, which are there already.
void add_contents(Element main, const Page& page) {
  Element nav = main.insert_child_after(pugi::node_element, main.first_child());
  must_be_made(nav.set_name("nav"));
  set(nav, "aria-label", page.words.say(Phrase::contents));
  Element list = add(nav, "ul");
  for (Element section = nav.next_sibling(); section; section = section.next_sibling())
    set(add(add(list, "li"), "a", {}, section.child("h2").child_value()), "href",
        fmt::format("#{}", section.attribute("id").value()));
}

}

Page page_of(const Resolved& resolved, const Catalogue& words) {
  Page page{resolved, *resolved.document->profile(), words, {}};
  const auto number = [&](Text connector) {
    for (const auto& test : page.profile.tests)
      if (where_probed(resolved, test.value) == connector)
        page.tests.push_back({&test, fmt::format("#{}", page.tests.size() + 1), connector});
  };
  for (const auto& connector : page.profile.connectors) number(connector.id);
  number({});
  return page;
}

const Numbered_test* Page::numbered(const Keyed<Test>::Entry* test) const {
  for (const Numbered_test& one : tests)
    if (one.test == test) return &one;
  return nullptr;
}

Text Page::name_of(Text id) const {
  const Resolved_component* component = resolved.component(id);
  if (component == nullptr) return id;
  const auto name = component->get(&Component_type::name);
  return name ? **name : id;
}

Element add_section(Element parent, std::string_view id, const std::string& heading) {
  Element section = add(parent, "section");
  set(section, "id", id);
  const std::string name = fmt::format("{}-heading", id);
  set(section, "aria-labelledby", name);
  set(add(section, "h2", {}, heading), "id", name);
  return section;
}

void say_around(Element element, const Catalogue& words, Phrase phrase, std::string_view text) {
  const std::string_view frame = words.phrases[static_cast<std::size_t>(phrase)];
  const std::size_t place = frame.find("{}");
  if (place > 0) say(element, frame.substr(0, place));
  quote(add(element, "span"), text);
  if (place + 2 < frame.size()) say(element, frame.substr(place + 2));
}

Element add_test_mark(Element parent, const Numbered_test& test) {
  Element mark = add(parent, "a", "t", test.label);
  set(mark, "href", fmt::format("#test-{}", test.test->id));
  return mark;
}

std::string written(const Document& document, Node_id node, Quantity_grammar grammar, Dimensions allowed) {
  const Text text = document.string(node);
  std::string canonical = canonical_spelling(text, grammar, allowed);
  return canonical.empty() ? std::string(text) : canonical;
}

std::string ohm_text(double ohm) { return describe(ohm, Dimension::resistance); }

std::string range_text(Interval ohm, const Catalogue& words) {
  const bool open = std::isinf(ohm.high);
  if (open && ohm.low <= 0) return words.say(Phrase::any_reading);
  const Interval shown = outward(ohm);
  std::string low = limit_text(shown.low);
  const std::string high = limit_text(shown.high);
  if (open) return words.say(Phrase::at_least, low);
  if (ohm.low <= 0) return words.say(Phrase::at_most, high);
  if (low == high) return low;
  const std::size_t unit = low.find(' '), other = high.find(' ');
  if (unit != std::string::npos && other != std::string::npos && low.substr(unit) == high.substr(other))
    low.resize(unit);
  return words.say(Phrase::from_to, low, high);
}

void add_kind(Element head, const std::string& kind) {
  Element bands = add(head, "div", "bands");
  set(bands, "aria-hidden", "true");
  for (int i = 0; i < 5; ++i) add(bands, "i");
  add(head, "p", "kind", kind);
}

Element start_page(pugi::xml_document& document, const Catalogue& words, const std::string& title,
                   const std::string& foot) {
  Element html = add(document, "html");
  set(html, "lang", words.tag);
  Element head = add(html, "head");
  set(add(head, "meta"), "charset", "utf-8");
  Element viewport = add(head, "meta");
  set(viewport, "name", "viewport");
  set(viewport, "content", "width=device-width, initial-scale=1");
  add(head, "title", {}, title);
  // As it is: what stands in a style sheet is no text to be made visible.
  add_text(add(head, "style"), style_sheet(foot, words.say(Phrase::page_of)).c_str());
  return add(html, "body");
}

void add_job(Element parent, const Page& page) {
  const Catalogue& words = page.words;
  Element section = add_section(parent, "job", words.say(Phrase::job));
  Element fields = add(section, "div", "job");
  for (const Phrase name :
       {Phrase::job_serial, Phrase::job_code, Phrase::job_date, Phrase::job_who, Phrase::job_meter,
        Phrase::job_calibrated, Phrase::job_leads, Phrase::job_thermometer, Phrase::job_running,
        Phrase::job_detector, Phrase::job_action}) {
    Element field = add(fields, "label", "blank", words.say(name));
    set(add(field, "input"), "type", "text");
  }
  add(add(section, "p"), "strong", {}, words.say(Phrase::job_service));
}

void add_sources(Element parent, const Page& page) {
  const Catalogue& words = page.words;
  const Document& document = *page.resolved.document;
  Element section = add_section(parent, "sources", words.say(Phrase::sources));
  Element list = add(section, "dl", "sources");
  for (const auto& [id, key, source] : page.profile.sources) {
    add(list, "dt", {}, id);
    Element about = add(list, "dd");
    std::string text;
    if (source.kind) text = words.word(*source.kind);
    const auto more = [&](std::string_view part) {
      text += fmt::format("{}{}", text.empty() ? "" : "; ", part);
    };
    for (const Value<Text>* said :
         {&source.title, &source.instrument, &source.conditions, &source.method, &source.note})
      if (*said) more(**said);
    if (source.number) more(words.say(Phrase::source_number, *source.number));
    if (source.edition) more(words.say(Phrase::source_edition, *source.edition));
    if (source.samples) more(words.say(Phrase::source_samples, *source.samples));
    if (source.date) more(*source.date);
    say(about, text);
  }
  std::vector<std::string> parts;
  for (const Resolved_component& component : page.resolved.components)
    if (component.part != nullptr) {
      const Part& part = *component.part->part();
      parts.push_back(words.say(Phrase::profile_revision, *part.id, *part.revision));
    }
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  if (!parts.empty()) {
    add(list, "dt", {}, words.say(Phrase::parts_used));
    Element used = add(list, "dd");
    for (const std::string& part : parts)
      say(used, fmt::format("{}{}", &part == &parts.front() ? "" : "; ", part));
  }
  add(list, "dt", {}, words.say(Phrase::file_hash));
  add(add(list, "dd"), "code", {}, sha256(document.text()));
}

}

std::string sheet_html(const Resolved& resolved, Language language, std::size_t errors) {
  if (resolved.document->profile() == nullptr) return {};
  return sheet::html_in(resolved, sheet::catalogue(language), errors);
}

std::string sheet::html_in(const Resolved& resolved, const Catalogue& words, std::size_t errors) {
  const Page page = page_of(resolved, words);
  pugi::xml_document document;
  const Profile& profile = page.profile;
  const std::string distrust = errors > 0 ? words.say(Phrase::has_errors, errors) : std::string();
  std::string foot_text = words.say(Phrase::profile_revision, *profile.id, *profile.revision) + " · ";
  if (!distrust.empty()) foot_text += distrust + " · ";
  Element body =
      start_page(document, words, words.say(Phrase::page_title, profile.title ? *profile.title : *profile.id),
                 foot_text + words.say(Phrase::shortest_caution));
  Element head = add_masthead(body, page);
  if (!distrust.empty()) add(add(head, "p", "cautions"), "strong", {}, distrust);
  Element main = add(body, "main");
  add_cautions(main, page);
  add_codes(main, page);
  add_connectors(main, page);
  add_readings(main, page);
  add_curves(main, page);
  add_job(main, page);
  add_sources(main, page);
  add_contents(main, page);
  Element foot = add(body, "footer", "colophon");
  add(foot, "p", {}, words.say(Phrase::shortest_caution));
  add(foot, "p", {}, words.say(Phrase::made_by, program_version, file_name(resolved.document->name())));
  return html_of(document);
}

}
