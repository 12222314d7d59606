#include "job/chart.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "ohmlore/text.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

constexpr double left = 78, right = 24;
constexpr double text_size = 13, line_height = 18;

// Text and what tells values apart have a contrast of at least 4.5 to their ground, edges of at least 3
// (WCAG 2.1, 1.4.3 and 1.4.11); a test computes it. Values differ in shape too, never in colour alone.
constexpr std::string_view style = R"css(
.chart .paper{fill:#ffffff}.chart .ink{fill:#1b2127}.chart .muted{fill:#48525c}.chart .grid{stroke:#d9dee3}.chart .frame{stroke:#5d6873;fill:none}
.chart .band{fill:#cfe4ea;stroke:#2c7286;stroke-width:1}.chart .line{stroke:#0d4457;stroke-width:2;fill:none}
.chart .stated{stroke:#9a3b00;stroke-width:1.6;fill:none}.chart .measured{stroke:#5b2a86;stroke-width:1.6;fill:none}
.chart .box{fill:#fff6e0;stroke:#8a5a00}.chart .warn{fill:#3d2b00}
@media screen and (prefers-color-scheme:dark){
.chart .paper{fill:#12181d}.chart .ink{fill:#e9eef2}.chart .muted{fill:#b4bfc9}.chart .grid{stroke:#2b353e}.chart .frame{stroke:#8d99a5}
.chart .band{fill:#1d4a59;stroke:#6fb8cd}.chart .line{stroke:#b5e6f4}.chart .stated{stroke:#ffb780}.chart .measured{stroke:#d9b3ff}
.chart .box{fill:#33290f;stroke:#d9a441}.chart .warn{fill:#ffe9b8}}
)css";

// A sans-serif letter is about so wide on average, of its size, a bold one wider; no font is measured.
constexpr double letter = 0.56, bold_letter = 0.65;
double text_width(std::string_view text, double of_letter = letter) {
  double ems = 0;
  for (std::size_t i = 0; i < text.size();)
    ems += next_code_point(text, i) < first_square_letter ? of_letter : 1;
  return ems * text_size;
}

// The bytes of as many letters as fit, of one at least.
std::size_t bytes_within(std::string_view text, double room, double of_letter) {
  std::size_t bytes = 0;
  for (std::size_t next = 0; next < text.size(); bytes = next) {
    next_code_point(text, next);
    if (bytes > 0 && text_width(text.substr(0, next), of_letter) > room) break;
  }
  return bytes;
}

// Lines break at spaces, but never between a number and its unit or its sign; a word wider than a line is
// broken.
std::vector<std::string> wrapped(std::string_view text, double room, double of_letter = letter) {
  static constexpr std::string_view units[] = {"%", "°C", "°F", "K", "mΩ", "Ω", "kΩ", "MΩ"};
  const auto stays_together = [&](std::size_t space) {
    if (text.substr(0, space).ends_with("±")) return true;
    return std::any_of(std::begin(units), std::end(units), [&](std::string_view unit) {
      const std::string_view rest = text.substr(std::min(space + 1, text.size()));
      return rest.starts_with(unit) && (rest.size() == unit.size() || !is_letter_or_digit(rest[unit.size()]));
    });
  };
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    std::size_t end = std::min(text.find(' '), text.size());
    while (end < text.size() && stays_together(end)) end = std::min(text.find(' ', end + 1), text.size());
    std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!lines.back().empty() &&
        text_width(lines.back(), of_letter) + text_width(word, of_letter) + text_size * of_letter > room)
      lines.emplace_back();
    if (!lines.back().empty()) lines.back() += ' ';
    for (std::size_t fits; (fits = bytes_within(word, room, of_letter)) < word.size();) {
      lines.back() += word.substr(0, fits);
      lines.emplace_back();
      word.remove_prefix(fits);
    }
    lines.back() += word;
  }
  return lines;
}

// Hebrew, Arabic and others (UAX #9, DerivedBidiClass).
bool is_from_the_right(char32_t c) {
  return (c >= 0x0590 && c < 0x0900) || (c >= 0xFB1D && c < 0xFE00) || (c >= 0xFE70 && c < 0xFEFF) ||
         (c >= 0x10800 && c < 0x11000) || (c >= 0x1E800 && c < 0x1F000);
}

// A number behind a letter from the right would go to the left of it, and its unit stay where it was: a mark
// from the left (U+200E) keeps the two together.
std::string with_numbers_in_order(std::string_view text) {
  std::string out;
  bool behind_right = false;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t begin = i;
    const char32_t c = next_code_point(text, i);
    if (c >= '0' && c <= '9' && behind_right) out += "\u200E";
    if (c < 0x80 && is_letter_or_digit(static_cast<char>(c))) behind_right = false;
    if (is_from_the_right(c)) behind_right = true;
    out += text.substr(begin, i - begin);
  }
  return out;
}

struct Scale {
  const Chart_axis& axis;
  double from, to; // where the ends of the axis lie
  double share(double value) const {
    if (axis.logarithmic)
      return std::log(value / axis.range.low) / std::log(axis.range.high / axis.range.low);
    return (value - axis.range.low) / axis.range.width();
  }
  // What lies beyond an end is drawn at that end.
  double operator()(double value) const {
    return from + (to - from) * share(std::clamp(value, axis.range.low, axis.range.high));
  }
};

struct Drawing {
  double width;
  std::string out = {};
  double plot_width = width - left - right;

  template <class... Words>
  void put(fmt::format_string<Words...> form, Words&&... words) {
    out += fmt::format(form, std::forward<Words>(words)...);
    out += '\n';
  }
  void text(double x, double y, std::string_view kind, std::string_view anchor, std::string_view words) {
    put(R"(<text class="{}" x="{:.1f}" y="{:.1f}" text-anchor="{}">{}</text>)", kind, x, y, anchor,
        xml_text(words));
  }
  void segment(std::string_view kind, double x1, double y1, double x2, double y2) {
    put(R"(<line class="{}" x1="{:.1f}" y1="{:.1f}" x2="{:.1f}" y2="{:.1f}"/>)", kind, x1, y1, x2, y2);
  }
  void ring(std::string_view kind, double x, double y) {
    put(R"(<circle class="{}" cx="{:.1f}" cy="{:.1f}" r="4"/>)", kind, x, y);
  }
  void cross(std::string_view kind, double x, double y) {
    put(R"(<path class="{}" d="M{:.1f} {:.1f}l8 8m0 -8l-8 8"/>)", kind, x - 4, y - 4);
  }

  // Bars for what is known no better, a symbol in the middle: a ring for what is stated, a cross for what was
  // measured.
  void mark(const Chart_mark& mark, const Scale& x, const Scale& y, bool stated) {
    const std::string_view kind = stated ? "stated" : "measured";
    const double px = x(mark.has_middle ? mark.middle.x : mark.x.middle()),
                 py = y(mark.has_middle ? mark.middle.y : mark.y.middle());
    const double low = y(mark.y.low), high = y(mark.y.high);
    if (std::fabs(low - high) > 1) {
      segment(kind, px, low, px, high);
      for (const double end : {low, high}) segment(kind, px - 4, end, px + 4, end);
    }
    if (x(mark.x.high) - x(mark.x.low) > 1) segment(kind, x(mark.x.low), py, x(mark.x.high), py);
    if (!mark.has_middle) return;
    if (stated)
      ring(kind, px, py);
    else
      cross(kind, px, py);
  }

  void panel(const Chart_panel& panel, const Scale& x, double top, bool last) {
    const double bottom = top + panel.height;
    const Scale y{panel.y, bottom, top};
    const std::vector<double> across = round_ticks(x.axis, static_cast<int>(plot_width / 68));
    for (const double tick : across) segment("grid", x(tick), top, x(tick), bottom);
    double lowest_label = bottom + 100;
    for (const double tick : round_ticks(panel.y, static_cast<int>(panel.height / 36))) {
      segment("grid", left, y(tick), left + plot_width, y(tick));
      if (lowest_label - y(tick) < text_size + 2) continue; // would overlap
      lowest_label = y(tick);
      text(left - 8, y(tick) + 4.5, "ink", "end", panel.y.label(tick));
    }
    for (const auto& band : panel.bands) {
      std::string path;
      for (const Chart_stretch& at : band)
        path += fmt::format("{}{:.2f} {:.2f}", path.empty() ? "M" : "L", x(at.x), y(at.y.high));
      for (auto at = band.rbegin(); at != band.rend(); ++at)
        path += fmt::format("L{:.2f} {:.2f}", x(at->x), y(at->y.low));
      put(R"(<path class="band" d="{}Z"/>)", path);
    }
    for (const auto& line : panel.lines) {
      std::string path;
      for (const Chart_point& at : line)
        path += fmt::format("{}{:.2f} {:.2f}", path.empty() ? "M" : "L", x(at.x), y(at.y));
      put(R"(<path class="line" d="{}"/>)", path);
    }
    for (const Chart_mark& one : panel.stated) mark(one, x, y, true);
    for (const Chart_mark& one : panel.measured) mark(one, x, y, false);
    put(R"(<rect class="frame" x="{:.1f}" y="{:.1f}" width="{:.1f}" height="{:.1f}"/>)", left, top,
        plot_width, panel.height);
    text(left, top - 9, "muted", "start", panel.y.title);
    if (!last) return;
    double free_from = 0;
    for (const double tick : across) {
      const std::string label = x.axis.label(tick);
      if (x(tick) - text_width(label) / 2 < free_from) continue;
      free_from = x(tick) + text_width(label) / 2 + 6;
      text(x(tick), bottom + 19, "ink", "middle", label);
    }
    text(left + plot_width / 2, bottom + 39, "muted", "middle", x.axis.title);
  }

  // One row; it has room for four short names.
  void legend(const Chart_legend& legend, double y) {
    double room = 0;
    for (const std::string* words : {&legend.line, &legend.band, &legend.stated, &legend.measured})
      if (!words->empty()) room += 52 + text_width(*words);
    double x = std::min(left, std::max(width - room, 8.0));
    const auto name = [&](const std::string& words) {
      text(x + 30, y + 4.5, "ink", "start", words);
      x += 30 + text_width(words) + 22;
    };
    if (!legend.line.empty()) {
      segment("line", x, y, x + 24, y);
      name(legend.line);
    }
    if (!legend.band.empty()) {
      put(R"(<rect class="band" x="{:.1f}" y="{:.1f}" width="24" height="11"/>)", x, y - 5.5);
      name(legend.band);
    }
    if (!legend.stated.empty()) {
      ring("stated", x + 12, y);
      name(legend.stated);
    }
    if (!legend.measured.empty()) {
      cross("measured", x + 12, y);
      name(legend.measured);
    }
  }

  double paragraphs(const std::vector<std::string>& words, std::string_view kind, double y) {
    for (const std::string& paragraph : words)
      for (const std::string& line : wrapped(paragraph, width - 48)) {
        text(24, y, kind, "start", line);
        y += line_height;
      }
    return y;
  }
};

}

std::string_view chart_style() { return style; }

std::vector<double> round_ticks(const Chart_axis& axis, int most) {
  std::vector<double> ticks;
  const auto [low, high] = axis.range;
  const double slack = 1e-9;
  if (axis.logarithmic) {
    if (!(low > 0 && low <= high && std::isfinite(high))) return ticks;
    const double decades = std::log10(high / low);
    for (int power = static_cast<int>(std::floor(std::log10(low))); std::pow(10, power) <= high; ++power)
      for (const double one : {1.0, 2.0, 5.0}) {
        if (one != 1 && decades * 3 > most + 1) continue;
        const double tick = one * std::pow(10, power);
        if (tick >= low * (1 - slack) && tick <= high * (1 + slack)) ticks.push_back(tick);
      }
    return ticks;
  }
  const double rough = (high - low) / std::max(most, 2);
  double step = std::pow(10, std::floor(std::log10(rough))), finer = step / 2;
  for (const double factor : {2.0, 2.5, 2.0}) {
    if (step >= rough * (1 - slack)) break;
    finer = step;
    step *= factor;
  }
  const auto multiples = [&, from = low, to = high](double of) {
    ticks.clear();
    for (double n = std::ceil(from / of - slack); n * of <= to + slack * of; ++n)
      ticks.push_back(n == 0 ? 0 : n * of);
  };
  multiples(step);
  if (ticks.size() < 3) multiples(finer); // one line or two show no scale
  return ticks;
}

std::string xml_text(std::string_view text) {
  std::string out;
  for (const char c : with_numbers_in_order(printable(text))) {
    switch (c) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += "&gt;"; break;
    case '"': out += "&quot;"; break;
    default: out += c;
    }
  }
  return out;
}

std::string chart_svg(const Chart& chart, std::string_view id) {
  const double width = chart.width;
  Drawing drawing{width};
  double y = chart.shows_title ? 30 : 10;
  if (chart.shows_title)
    for (const std::string& line : wrapped(chart.title, (width - 48) * text_size / 17, bold_letter)) {
      drawing.put(R"(<text class="ink" x="24" y="{:.1f}" font-size="17" font-weight="600">{}</text>)", y,
                  xml_text(line));
      y += 22;
    }
  drawing.legend(chart.legend, y + 4);
  y += 24;
  const Scale x{chart.x, left, left + drawing.plot_width};
  for (const Chart_panel& panel : chart.panels) {
    const bool last = &panel == &chart.panels.back();
    drawing.panel(panel, x, y + 26, last);
    y += 26 + panel.height + (last ? 66 : 12);
  }
  y = drawing.paragraphs(chart.notes, "muted", y);
  if (!chart.cautions.empty()) {
    const double top = y - 4;
    Drawing inside{width};
    const double end = inside.paragraphs(chart.cautions, "warn", top + 20);
    drawing.put(R"(<rect class="box" x="12" y="{:.1f}" width="{:.1f}" height="{:.1f}" rx="4"/>)", top,
                width - 24, end - top - 6);
    drawing.out += inside.out;
    y = end + 8;
  }
  return fmt::format(
      R"(<svg xmlns="http://www.w3.org/2000/svg" class="chart" viewBox="0 0 {0} {1:.0f}" width="{0}" height="{1:.0f}" role="img" aria-labelledby="{2}-title {2}-description" font-family="system-ui, 'DejaVu Sans', sans-serif" font-size="{3}">
<title id="{2}-title">{4}</title>
<desc id="{2}-description">{5}</desc>
<style>{6}</style>
<rect class="paper" width="{0}" height="{1:.0f}"/>
{7}</svg>
)",
      width, y, id, text_size, xml_text(chart.title), xml_text(chart.description), style, drawing.out);
}

}
