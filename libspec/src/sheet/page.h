// One sheet in the making: what its sections share.
#pragma once

#include <string>
#include <vector>

#include "sheet/catalogue.h"
#include "sheet/html.h"

namespace ohmlore::sheet {

/// A test and the number that it has on the sheet.
struct Numbered_test {
  const Keyed<Test>::Entry* test = nullptr;
  std::string label;   ///< "#3", unlike any code or contact
  Text connector = {}; ///< where its probes are put; empty where the profile has no such connector
};

struct Page {
  const Resolved& resolved;
  const Profile& profile;
  const Catalogue& words;
  std::vector<Numbered_test> tests; ///< numbered connector by connector, in the order of the profile

  const Numbered_test* numbered(const Keyed<Test>::Entry* test) const;
  /// The name of a component, else its id.
  Text name_of(Text component) const;
};
Page page_of(const Resolved& resolved, const Catalogue& words);

/// A section with its heading, which names it.
Element add_section(Element parent, std::string_view id, const std::string& heading);
/// What a phrase frames: `text` of the profile in the place of its only {}.
void say_around(Element element, const Catalogue& words, Phrase phrase, std::string_view text);
/// A link to a test, as a mark: "#3".
Element add_test_mark(Element parent, const Numbered_test& test);

/// The page in the words of a catalogue (see sheet_html).
std::string html_in(const Resolved& resolved, const Catalogue& words, std::size_t errors);

/// The element <body> of an empty page with this title, and a foot on each printed page.
Element start_page(pugi::xml_document& document, const Catalogue& words, const std::string& title,
                   const std::string& foot);
/// A strip across the head, the mark of all pages, and what kind of page this is.
void add_kind(Element head, const std::string& kind);

/// A code as the appliance shows it.
std::string shown_code(const Keyed<Fault>::Entry& fault);

// The sections, each appended to <main>.
void add_cautions(Element parent, const Page& page);
void add_job(Element parent, const Page& page);
void add_codes(Element parent, const Page& page);
void add_connectors(Element parent, const Page& page);
void add_test_card(Element parent, const Page& page, const Numbered_test& test);
void add_readings(Element parent, const Page& page);
void add_curves(Element parent, const Page& page);
void add_sources(Element parent, const Page& page);

// ---- values

/// A quantity, tolerance or range as the document writes it, in canonical spelling.
std::string written(const Document& document, Node_id node, Quantity_grammar grammar, Dimensions allowed);
std::string ohm_text(double ohm);
/// "9.9 to 10.1 kΩ", "at least 1 MΩ".
std::string range_text(Interval ohm, const Catalogue& words);
/// What joins words of a list: "a, b, c".
template <class Items, class Name>
std::string joined(const Items& items, Name name, std::string_view between = ", ") {
  std::string out;
  for (const auto& item : items) {
    const std::string text(name(item));
    if (text.empty()) continue;
    if (!out.empty()) out += between;
    out += text;
  }
  return out;
}

}
