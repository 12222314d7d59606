#include "sheet/page.h"

namespace ohmlore::sheet {
namespace {

std::string contacts_text(const List<Value<Contact>>& contacts) {
  return joined(contacts,
                [](const Value<Contact>& contact) { return contact ? text_of(*contact) : std::string(); });
}

// For the ear a box says too what it is about.
void add_tick(Element parent, std::string_view about, const std::string& what) {
  Element tick = add(parent, "label", "tick"), box = add(tick, "input");
  set(box, "type", "checkbox");
  set(box, "aria-label", fmt::format("{}: {}", about, what));
  say(tick, what);
}

void add_supplies(Element item, const Page& page) {
  const Catalogue& words = page.words;
  add(item, "p", "here-title", words.say(Phrase::supplies_here));
  Element list = add(item, "ul", "here");
  for (const Supply& supply : page.profile.safety.supplies) {
    Element entry = add(list, "li"), line = add(entry, "span");
    if (supply.kind) add(line, "strong", {}, words.word(*supply.kind));
    const auto more = [&] { say(line, "; "); };
    if (supply.isolate_at) more(), say_around(line, words, Phrase::isolate_at, *supply.isolate_at);
    if (supply.enters_at) more(), say(line, words.say(Phrase::enters_at, contacts_text(supply.enters_at)));
    if (supply.note) more(), quote(add(line, "span"), *supply.note);
    Element ticks = add(entry, "span", "ticks");
    std::string about(supply.kind ? words.word(*supply.kind) : std::string_view());
    if (!supply.enters_at.empty())
      about += fmt::format(" {}", contacts_text(supply.enters_at));
    else if (supply.isolate_at)
      about += fmt::format(", {}", *supply.isolate_at);
    add_tick(ticks, about, words.say(Phrase::isolated_locked));
    add_tick(ticks, about, words.say(Phrase::proved_dead));
  }
}

// Kinds of hazard, but stored charge apart from the others: it has its own caution.
void add_hazards(Element item, const Page& page, bool charge) {
  const Catalogue& words = page.words;
  const Document& document = *page.resolved.document;
  Element list;
  for (const Hazard& hazard : page.profile.safety.hazards) {
    if (!hazard.kind || (*hazard.kind == Hazard_kind::stored_charge) != charge) continue;
    if (!list) {
      add(item, "p", "here-title", words.say(charge ? Phrase::charge_here : Phrase::hazards_here));
      list = add(item, "ul", "here");
    }
    Element entry = add(list, "li"), line = add(entry, "span");
    const std::string where = contacts_text(hazard.where);
    const std::string_view about =
        charge && !where.empty() ? std::string_view(where) : words.word(*hazard.kind);
    add(line, "strong", {}, about);
    if (hazard.component) say(line, ", "), quote(add(line, "span"), page.name_of(*hazard.component));
    if (!charge && !where.empty()) say(line, ", "), say(line, where);
    const auto quantity = [&](const Value<Quantity>& value, Dimension dimension, Phrase phrase) {
      if (value)
        say(line, "; "),
            say(line,
                words.say(phrase, written(document, value.node, Quantity_grammar::quantity, dimension)));
    };
    quantity(hazard.wait, Dimension::time, Phrase::wait);
    quantity(hazard.verify_below, Dimension::voltage, Phrase::verify_below);
    if (hazard.note) say(line, "; "), quote(add(line, "span"), *hazard.note);
    if (charge) add_tick(entry, about, words.say(Phrase::verified));
  }
}

}

void add_cautions(Element parent, const Page& page) {
  Element section = add_section(parent, "cautions", page.words.say(Phrase::cautions));
  set(section, "class", "cautions");
  Element list = add(section, "ol");
  for (const Caution& caution : cautions()) {
    Element item = add(list, "li", {}, page.words.word("caution", caution.id));
    if (caution.id == "isolate") add_supplies(item, page);
    if (caution.id == "stored-charge") add_hazards(item, page, true);
  }
  add_hazards(section, page, false);
}

}
