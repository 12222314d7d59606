// Test sheets: what a profile says about one board, to print and to carry; and a site of them for a corpus.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/interval.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

enum class Language : std::uint8_t { english, german };
struct Language_name {
  Language language;
  std::string_view tag, name; ///< BCP 47, and what it calls itself
};
std::span<const Language_name> languages();

// ---- connectors as they lie

/// One way of a connector's housing, by where it is: row and column from 0 on, from the top left.
struct Way {
  std::string name;         ///< its pin, or its number where the profile has no pin; may be empty
  const Pin* pin = nullptr; ///< null where it is not used
  int row = 0, column = 0;
  bool blanked = false; ///< as `keying` says: nothing can be plugged in there
};

/// What keeps another plug out, where `keying` says it in words that can be drawn: a mark at one way
/// ("ridge beside way 3"), or between two.
struct Key_mark {
  std::size_t way = 0; ///< among `Layout::ways`
  std::optional<std::size_t> other;
};

struct Layout {
  std::vector<Way> ways; ///< in the order of their numbers
  int rows = 1, columns = 1;
  bool rows_unknown = false; ///< several rows, but not how they are numbered: laid out as one
  bool named = false;        ///< pins have names, not numbers: in the order of the profile
  std::vector<Key_mark> keys;
};
Layout layout_of(const Connector& connector);

// ---- what a healthy part reads

inline constexpr double sheet_celsius[] = {0, 5, 10, 15, 20, 25, 30, 60};

struct Sheet_reading {
  double kelvin = 0;
  std::optional<double> nominal;   ///< ohm; empty where the model states limits alone
  std::optional<Interval> healthy; ///< ohm; by the limits of service (spec/v1/judging.md), else as it is made
};
/// The readings over temperature of one test; empty where they hang on no temperature or nothing is known.
std::vector<Sheet_reading> sheet_readings(const Resolved& resolved, const Test& test);

// ---- pages

/// A page (HTML, UTF-8, nothing outside of it needed). The document must be a profile read without errors;
/// of another document the page is empty.
/// The cautions come first of what a person could act on. Texts of the profile stay in their own language.
/// `errors` is how many a linter finds in it: the page warns of them.
std::string sheet_html(const Resolved& resolved, Language language = Language::english,
                       std::size_t errors = 0);

/// What came of it.
struct Sheet_run {
  std::string html;                  ///< of one profile that was to be printed
  std::vector<Finding> findings;     ///< errors, of profiles that cannot be used too
  std::vector<std::string> warnings; ///< why a file among the parts is not read, where that stops nothing
  std::vector<std::string> troubles; ///< why a sheet is missing; one sentence each
  std::size_t pages = 0;             ///< written files
};

struct Sheet_request {
  std::string path;                ///< a profile, or a folder of profiles
  std::string output;              ///< a file for one sheet (empty: it is printed), a folder for a site
  std::optional<std::string> root; ///< absent: the nearest folder at or above that holds corpus.json
  Language language = Language::english;
};
/// One profile gives a sheet; a folder gives a site: a sheet for each profile, ID.html, and an index.html
/// that searches makers, models, boards and codes, and is a plain index without scripts.
Sheet_run write_sheets(const Sheet_request& request);

}
