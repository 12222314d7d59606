// A connector's pin-out as a picture.
#pragma once

#include <string>
#include <vector>

#include "sheet/catalogue.h"
#include "sheet/html.h"

namespace ohmlore::sheet {

/// A test whose probes are to be marked.
struct Probe_track {
  std::string label; ///< "#3", unlike any code or contact
  std::vector<Contact> probes;
  std::string positive; ///< the contact for the red lead, or empty
};

/// Appends an <svg>, or several where a connector is too long for one: strips of its columns, from left to
/// right. Each way is a group of class `way` with its name in `data-pin`, its place in `data-row` and
/// `data-column`; beneath, a line a test joins the contacts that its probes touch. A test stands in each
/// strip that has one. Returns how wide the widest picture is, in CSS pixels where there is room.
double add_pinout(Element parent, std::string_view id, const Layout& layout,
                  const std::vector<Probe_track>& tracks, const Catalogue& words);
/// How many pictures show a connector.
int strips_of(const Layout& layout);

/// "GY/WH", "other" in its words; empty where none is stated.
std::string wire_code(const Wire& wire);
/// "grey with white stripe": codes in words.
std::string wire_words(const Wire& wire, const Catalogue& words);

}
