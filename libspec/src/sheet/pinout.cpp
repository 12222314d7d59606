#include "sheet/pinout.h"

#include <algorithm>
#include <utility>

#include "job/chart.h"
#include "lint/colours.h"
#include "ohmlore/text.h"

namespace ohmlore::sheet {
namespace {

// Lengths in the picture's units, which are CSS pixels where there is room.
constexpr double narrowest_cell = 48, beside_cavity = 14, row_height = 70, margin_left = 34, margin_top = 16,
                 track_height = 24;
constexpr double bubble = 8.5, widest_bubble = 80; // half of their widths
constexpr double longest_strip = 768;              // as much as is read well across a page of A4 or Letter

double top_of(int row) { return margin_top + row * row_height; }

constexpr double number_size = 14, label_size = 12;

// How wide bold letters are about; no font is measured.
double text_width(std::string_view text, double size) {
  double ems = 0;
  for (std::size_t i = 0; i < text.size();) {
    const char32_t c = next_code_point(text, i);
    const bool wide = c == 'M' || c == 'W' || c == 'm' || c == 'w' || c >= first_square_letter;
    ems += wide ? 1 : c > 0x7F ? 0.8 : c >= 'A' && c <= 'Z' ? 0.7 : 0.65;
  }
  return ems * size;
}

// Names are set no narrower than three quarters of their width.
double cell_of(const Layout& layout) {
  double longest = 0;
  for (const Way& way : layout.ways) longest = std::max(longest, text_width(way.name, number_size));
  return std::max(narrowest_cell, 0.75 * longest + 4 + beside_cavity);
}

// The columns that one picture shows; a long connector goes on in the next.
struct Strip {
  const Layout& layout;
  int from, to;
  double cell;

  bool has(const Way& way) const { return way.column >= from && way.column < to; }
  bool has(const Contact& contact, std::string_view connector) const {
    const Way* way = way_of(contact, connector);
    return way != nullptr && has(*way);
  }
  double centre_of(const Way& way) const { return margin_left + (way.column - from + 0.5) * cell; }
  double housing_width() const { return (to - from) * cell; }
  const Way* way_of(const Contact& contact, std::string_view connector) const {
    if (contact.connector != connector) return nullptr;
    const auto way = std::find_if(layout.ways.begin(), layout.ways.end(),
                                  [&](const Way& one) { return one.name == contact.pin; });
    return way != layout.ways.end() ? &*way : nullptr;
  }
};

// How the colours of IEC 60757 look, near enough to tell them apart; the code stands beside each.
std::string_view paint_of(std::string_view code) {
  static constexpr std::pair<std::string_view, std::string_view> paints[] = {
      {"BK", "#1d1d1f"}, {"BN", "#7a4a25"}, {"RD", "#d0312b"}, {"OG", "#f08a1d"}, {"YE", "#f6d32d"},
      {"GN", "#2f9a49"}, {"BU", "#2f6fc4"}, {"VT", "#7d4ba5"}, {"GY", "#8d9399"}, {"WH", "#ffffff"},
      {"PK", "#f2a1c0"}, {"GD", "#c8a24a"}, {"TQ", "#35b8b5"}, {"SR", "#c9cdd1"}};
  for (const auto& [name, paint] : paints)
    if (name == code) return paint;
  return {};
}

// The paint of the wire and of its stripe; the first empty where none is known.
std::pair<std::string_view, std::string_view> paints_of(const Wire& wire) {
  if (!wire.base) return {};
  if (rules::is_green_and_yellow(wire)) return {paint_of("GN"), paint_of("YE")};
  return {paint_of(*wire.base), wire.stripe ? paint_of(*wire.stripe) : std::string_view()};
}

Element shape(Element parent, const char* name, std::string_view css_class,
              std::initializer_list<std::pair<const char*, double>> lengths) {
  Element element = add(parent, name, css_class);
  for (const auto& [attribute, value] : lengths) set(element, attribute, value);
  return element;
}
Element label(Element parent, std::string_view css_class, double x, double y, std::string_view text) {
  Element element = shape(parent, "text", css_class, {{"x", x}, {"y", y}});
  set(element, "text-anchor", "middle");
  say(element, text);
  return element;
}

// A longer name is set smaller, so that it stays within its way.
Element fitted(Element parent, std::string_view css_class, double x, double y, std::string_view text,
               double size, double room) {
  Element element = label(parent, css_class, x, y, text);
  if (text_width(text, size) > room) {
    set(element, "textLength", room);
    set(element, "lengthAdjust", "spacingAndGlyphs");
  }
  return element;
}

void draw_wire(Element group, const Way& way, double x, double y, double room) {
  const std::string code = way.pin != nullptr ? wire_code(way.pin->wire) : std::string();
  if (code.empty()) return;
  const auto [base, stripe] = paints_of(way.pin->wire);
  if (!base.empty()) {
    constexpr double wide = 26, high = 9;
    set(shape(group, "rect", "wire", {{"x", x - wide / 2}, {"y", y}, {"width", wide}, {"height", high}}),
        "fill", base);
    if (!stripe.empty())
      set(shape(group, "rect", "stripe",
                {{"x", x - wide / 2}, {"y", y + high / 3}, {"width", wide}, {"height", high / 3}}),
          "fill", stripe);
    shape(group, "rect", "wire-edge", {{"x", x - wide / 2}, {"y", y}, {"width", wide}, {"height", high}});
  }
  constexpr std::size_t longest = 9; // other colours are said in words, which the list beside has
  if (code_points(code) <= longest) fitted(group, "colour", x, y + 20, code, label_size, room);
}

void draw_way(Element picture, const Strip& strip, const Way& way, const Catalogue& words) {
  Element group = add(picture, "g", way.pin != nullptr ? "way" : way.blanked ? "way blanked" : "way unused");
  set(group, "data-pin", way.name);
  set(group, "data-row", static_cast<double>(way.row + 1));
  set(group, "data-column", static_cast<double>(way.column + 1));
  add(group, "title", {}, words.say(Phrase::pin_is, way.name, way.row + 1, way.column + 1));
  constexpr double high = 28;
  const double x = strip.centre_of(way), y = top_of(way.row) + 5, wide = strip.cell - beside_cavity;
  shape(group, "rect", "cavity",
        {{"x", x - wide / 2}, {"y", y}, {"width", wide}, {"height", high}, {"rx", 3}});
  if (way.blanked)
    shape(group, "line", "cross", {{"x1", x - wide / 2}, {"y1", y + high}, {"x2", x + wide / 2}, {"y2", y}});
  fitted(group, way.pin != nullptr ? "number" : "number free", x, y + 18, way.name, number_size, wide - 4);
  draw_wire(group, way, x, y + high + 5, strip.cell - 3);
}

// Closed, but torn where the connector goes on in another strip.
void draw_housing(Element picture, const Strip& strip) {
  const Layout& layout = strip.layout;
  const double top = margin_top, height = top_of(layout.rows) - top;
  const auto edge = [](double high, bool torn) {
    if (!torn) return fmt::format("v{:.1f}", high);
    constexpr int teeth = 5;
    std::string path;
    for (int i = 0; i < teeth; ++i)
      path +=
          fmt::format("l{0} {1:.1f}l{2} {1:.1f}", high > 0 ? 4 : -4, high / (2 * teeth), high > 0 ? -4 : 4);
    return path;
  };
  Element housing = add(picture, "path", layout.rows_unknown ? "housing unsure" : "housing");
  set(housing, "d",
      fmt::format("M{} {}h{}{}h-{}{}z", margin_left, top, strip.housing_width(),
                  edge(height, strip.to < layout.columns), strip.housing_width(),
                  edge(-height, strip.from > 0)));
}

void draw_key(Element picture, const Strip& strip, const Key_mark& key) {
  const Layout& layout = strip.layout;
  const Way& way = layout.ways[key.way];
  const Way* other = key.other ? &layout.ways[*key.other] : nullptr;
  if (!strip.has(way)) return;
  // A mark between two ways of one row lies where they meet, at the edge of the housing nearest to them.
  const double x =
      other != nullptr ? (strip.centre_of(way) + strip.centre_of(*other)) / 2 : strip.centre_of(way);
  const bool at_bottom = layout.rows > 1 && way.row == layout.rows - 1;
  const double y = at_bottom ? top_of(layout.rows) : margin_top;
  const double out = at_bottom ? 6 : -6;
  Element mark = add(picture, "path", "key");
  set(mark, "d", fmt::format("M{:.1f} {:.1f}v{:.1f}h12v{:.1f}z", x - 6, y, out, -out));
}

// Where the probes of a test touch: by column; two of one column stand side by side, and contacts of other
// connectors and strips beside the housing.
struct Touch {
  double x = 0, half = bubble;
  std::string name;
  bool positive = false;
};
std::vector<Touch> touches_of(const Probe_track& track, std::string_view connector, const Strip& strip) {
  std::vector<Touch> touches;
  double free_from = margin_left + strip.housing_width() + 6;
  for (const Contact& probe : track.probes) {
    const Way* way = strip.way_of(probe, connector);
    const bool here = way != nullptr && strip.has(*way);
    const std::string whole = text_of(probe);
    Touch& touch = touches.emplace_back();
    touch.positive = track.positive == whole;
    touch.name = here ? way->name : whole;
    touch.half = std::clamp(text_width(touch.name, label_size) / 2 + 2, bubble,
                            here ? strip.cell / 2 - 1 : widest_bubble);
    if (here) {
      touch.x = strip.centre_of(*way);
    } else {
      touch.x = free_from + touch.half;
      free_from += 2 * touch.half + 4;
    }
  }
  if (touches.size() == 2 && touches[0].x == touches[1].x) {
    touches[0].x -= touches[0].half + 0.5;
    touches[1].x += touches[1].half + 0.5;
  }
  return touches;
}

void draw_track(Element picture, const Probe_track& track, const std::vector<Touch>& touches, double y,
                const Catalogue& words) {
  Element group = add(picture, "g", "track");
  set(group, "data-test", track.label);
  std::string names;
  for (const Touch& touch : touches)
    names = names.empty() ? touch.name : words.say(Phrase::both, names, touch.name);
  add(group, "title", {}, words.say(Phrase::track_is, track.label, names));
  Element name = shape(group, "text", "test", {{"x", 2}, {"y", y + 4}});
  say(name, track.label);
  if (touches.empty()) return;
  const auto [first, last] = std::minmax_element(touches.begin(), touches.end(),
                                                 [](const Touch& a, const Touch& b) { return a.x < b.x; });
  shape(group, "line", "lead", {{"x1", first->x}, {"y1", y}, {"x2", last->x}, {"y2", y}});
  for (const Touch& touch : touches) {
    shape(group, "rect", touch.positive ? "probe positive" : "probe",
          {{"x", touch.x - touch.half},
           {"y", y - bubble},
           {"width", 2 * touch.half},
           {"height", 2 * bubble},
           {"rx", bubble}});
    fitted(group, touch.positive ? "probe-name positive" : "probe-name", touch.x, y + 4, touch.name,
           label_size, 2 * touch.half - 3);
    // On the side where no lead is.
    const double side = &touch == &*last && first != last ? touch.half + 5 : -touch.half - 5;
    if (touch.positive) label(group, "sign", touch.x + side, y + 4, "+");
  }
}

}

std::string wire_code(const Wire& wire) {
  if (wire.base && *wire.base == "other") return std::string(wire.other ? *wire.other : Text());
  if (!wire.base) return std::string(wire.other ? *wire.other : Text());
  return wire.stripe ? fmt::format("{}/{}", *wire.base, *wire.stripe) : std::string(*wire.base);
}

std::string wire_words(const Wire& wire, const Catalogue& words) {
  if (!wire.base || *wire.base == "other") return {};
  const std::string_view base = words.word("colour", *wire.base);
  return wire.stripe ? words.say(Phrase::wire_stripe, base, words.word("colour", *wire.stripe))
                     : std::string(base);
}

namespace {

// The picture, and how wide it is.
std::pair<Element, double> add_strip(Element parent, std::string_view id, const Strip& strip,
                                     const std::vector<Probe_track>& tracks, const Catalogue& words) {
  const Layout& layout = strip.layout;
  std::vector<std::pair<const Probe_track*, std::vector<Touch>>> drawn;
  double right = margin_left + strip.housing_width();
  for (const Probe_track& track : tracks) {
    const auto is_in = [&](const Strip& part) {
      return std::any_of(track.probes.begin(), track.probes.end(),
                         [&](const Contact& probe) { return part.has(probe, id); });
    };
    // A test all of whose contacts lie elsewhere is shown in the first strip.
    if (!is_in(strip) && !(strip.from == 0 && !is_in({layout, 0, layout.columns, strip.cell}))) continue;
    drawn.emplace_back(&track, touches_of(track, id, strip));
    for (const Touch& touch : drawn.back().second) right = std::max(right, touch.x + touch.half);
  }
  const double width = right + 12;
  const double bottom = top_of(layout.rows);
  const double height = bottom + 8 + track_height * static_cast<double>(drawn.size());

  Element picture = add(parent, "svg", "pinout");
  set(picture, "viewBox", fmt::format("0 0 {:.0f} {:.0f}", width, height));
  set(picture, "width", width);
  set(picture, "height", height);
  set(picture, "role", "img");
  draw_housing(picture, strip);
  for (const Key_mark& key : layout.keys) draw_key(picture, strip, key);
  for (const Way& way : layout.ways)
    if (strip.has(way)) draw_way(picture, strip, way, words);
  for (std::size_t i = 0; i < drawn.size(); ++i)
    draw_track(picture, *drawn[i].first, drawn[i].second,
               bottom + 8 + track_height * (static_cast<double>(i) + 0.5), words);
  return {picture, width};
}

}

double add_pinout(Element parent, std::string_view id, const Layout& layout,
                  const std::vector<Probe_track>& tracks, const Catalogue& words) {
  double widest = 0;
  const int strips = strips_of(layout);
  for (int i = 0; i < strips; ++i) {
    // As equal as can be.
    const Strip strip{layout, i * layout.columns / strips, (i + 1) * layout.columns / strips,
                      cell_of(layout)};
    const auto [picture, width] = add_strip(parent, id, strip, tracks, words);
    set(picture, "aria-label",
        strips > 1 ? words.say(Phrase::pinout_strip, id, i + 1, strips) : words.say(Phrase::pinout_of, id));
    widest = std::max(widest, width);
  }
  return widest;
}

int strips_of(const Layout& layout) {
  const int most = std::max(static_cast<int>(longest_strip / cell_of(layout)), 1); // columns
  return std::max((layout.columns + most - 1) / most, 1);
}

}
