// Sheets: connectors as they lie, readings as the library computes them elsewhere, words in every language,
// texts that try to break out, colours that can be told apart, and bytes that can be told apart.
#include "ohmlore/sheet.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <functional>
#include <map>

#include <pugixml.hpp>
#include <regex>
#include <set>

#include <unistd.h>

#include "../support/files.h"
#include "../support/hostile.h"
#include "judge/limits.h"
#include "ohmlore/cautions.h"
#include "ohmlore/text.h"
#include "sheet/catalogue.h"
#include "sheet/page.h"
#include "sheet/steps.h"
#include "sheet/style.h"
#include "text/sha256.h"

namespace ohmlore {
namespace {

using sheet::Catalogue;

Read_result read(const std::string& text) {
  Read_result read = read_json("test.profile.json", text);
  for (const Finding& finding : read.findings)
    if (finding.severity == Severity::error) ADD_FAILURE() << finding.message;
  return read;
}

// A page as a tree: HTML of this writer is XML, but for its void elements and the text in <style>.
pugi::xml_document tree_of(std::string html) {
  static const std::regex void_element("<(meta|input)((?: [^<>]*[^/])?)>");
  html = std::regex_replace(html, void_element, "<$1$2/>");
  pugi::xml_document document;
  const auto parsed =
      document.load_buffer(html.data(), html.size(), pugi::parse_full & ~pugi::parse_comments);
  EXPECT_TRUE(parsed) << parsed.description() << " at "
                      << html.substr(static_cast<std::size_t>(parsed.offset), 80);
  return document;
}

void each_element(pugi::xml_node node, const std::function<void(pugi::xml_node)>& f) {
  for (const pugi::xml_node child : node.children()) {
    if (child.type() == pugi::node_element) f(child);
    each_element(child, f);
  }
}

std::string text_in(pugi::xml_node node) {
  std::string text;
  for (const pugi::xml_node child : node.children())
    text += child.type() == pugi::node_pcdata ? child.value() : text_in(child);
  return text;
}

// ---- connectors

struct Laid_out {
  Read_result read;
  Layout layout;
};
Laid_out lay_out(const std::string& members) {
  Laid_out out;
  std::string text = test::larch_profile();
  const std::size_t at = text.find("\"connectors\": {") + 15;
  text.insert(at, fmt::format(R"("NEW": {{"label": "NEW", "circuit": "selv", {}}},)", members));
  out.read = read(text);
  out.layout = layout_of(out.read.document.profile()->connectors.find("NEW")->value);
  return out;
}
// "1@0,0 2@0,1": names with row and column; unused ways in parentheses, blanked ones in brackets.
std::string places(const Layout& layout) {
  std::string out;
  for (const Way& way : layout.ways)
    out += fmt::format("{}{}@{},{}", out.empty() ? "" : " ",
                       way.pin != nullptr ? way.name
                       : way.blanked      ? fmt::format("[{}]", way.name)
                                          : fmt::format("({})", way.name),
                       way.row, way.column);
  return out;
}

// What format.md says of `numbering`: along_rows 1, 2, 3 … along the first row, then along the next;
// across_rows 1 in the first row, 2 in the second, and so on.
TEST(Layout, LaysWaysOutAsTheyAreNumbered) {
  EXPECT_EQ(places(lay_out(R"("ways": 3, "pins": {"1": {}, "3": {}})").layout), "1@0,0 (2)@0,1 3@0,2");
  EXPECT_EQ(places(lay_out(R"("ways": 5, "rows": 2, "numbering": "along_rows", "pins": {"1": {}})").layout),
            "1@0,0 (2)@0,1 (3)@0,2 (4)@1,0 (5)@1,1");
  EXPECT_EQ(places(lay_out(R"("ways": 5, "rows": 2, "numbering": "across_rows", "pins": {"2": {}})").layout),
            "(1)@0,0 2@1,0 (3)@0,1 (4)@1,1 (5)@0,2");
  // A strip that is numbered on from the one beside it.
  EXPECT_EQ(places(lay_out(R"("ways": 3, "pins": {"7": {}, "5": {}})").layout), "5@0,0 (6)@0,1 7@0,2");
}

TEST(Layout, NeverGuessesWhereAWayLies) {
  const Laid_out rows = lay_out(R"("ways": 4, "rows": 2, "pins": {"1": {}})");
  EXPECT_TRUE(rows.layout.rows_unknown);
  EXPECT_EQ(rows.layout.rows, 1);
  const Laid_out names = lay_out(R"("ways": 4, "pins": {"L": {}, "N": {}, "PE": {}})");
  EXPECT_TRUE(names.layout.named);
  EXPECT_EQ(places(names.layout), "L@0,0 N@0,1 PE@0,2 ()@0,3");
  // More pins than ways: makers leave the earth out of the count.
  EXPECT_EQ(
      places(
          lay_out(R"("ways": 2, "pins": {"1": {}, "2": {}, "PE": {"circuit": "protective_earth"}})").layout),
      "1@0,0 2@0,1 PE@0,2");
}

TEST(Layout, DrawsTheKeyingThatItSurelyUnderstands) {
  const Laid_out blanked =
      lay_out(R"("ways": 6, "keying": "ways 2, 4 and 6 blanked", "pins": {"1": {}, "2": {}})");
  EXPECT_EQ(places(blanked.layout),
            "1@0,0 2@0,1 (3)@0,2 [4]@0,3 (5)@0,4 [6]@0,5"); // 2 has a pin: the words are wrong
  EXPECT_TRUE(blanked.layout.keys.empty());
  const Laid_out all =
      lay_out(R"("ways": 3, "keying": "rib at way 1, unused ways blanked", "pins": {"2": {}})");
  EXPECT_EQ(places(all.layout), "[1]@0,0 2@0,1 [3]@0,2");
  const auto marks = [](const char* keying) {
    std::string out;
    const Laid_out laid = lay_out(fmt::format(R"("ways": 6, "keying": "{}", "pins": {{"1": {{}}}})", keying));
    for (const Key_mark& key : laid.layout.keys)
      out += fmt::format("{}{} ", key.way + 1, key.other ? fmt::format("-{}", *key.other + 1) : "");
    return out;
  };
  EXPECT_EQ(marks("ridge beside way 3"), "3 ");
  EXPECT_EQ(marks("rib between ways 3 and 5"), "3-5 ");
  EXPECT_EQ(marks("nose on way 2, latch at way 6"), "2 6 ");
  for (const char* other :
       {"square shroud", "way 4 longer", "latch over ways 1 to 8", "ridge beside way 9", "polarised"})
    EXPECT_EQ(marks(other), "") << other;
}

// ---- the page of a profile of every kind of record

struct Made {
  Read_result profile;
  Resolved resolved;
  std::string html(Language language = Language::english) const { return sheet_html(resolved, language); }
};
Made make(const std::string& text) {
  Made made{read(text), {}};
  made.resolved = resolve(made.profile.document, {});
  return made;
}

TEST(Sheet, DrawsEachWayOnceInItsPlace) {
  const Made made = make(test::larch_profile());
  const pugi::xml_document page = tree_of(made.html());
  for (const auto& [id, key, connector] : made.profile.document.profile()->connectors) {
    std::map<std::string, std::pair<int, int>> drawn;
    each_element(page, [&, name = std::string(id)](pugi::xml_node article) {
      if (fmt::format("connector-{}", name) != article.attribute("id").value()) return;
      each_element(article, [&](pugi::xml_node group) {
        if (std::string_view(group.attribute("class").value()).starts_with("way")) {
          EXPECT_TRUE(drawn
                          .emplace(group.attribute("data-pin").value(),
                                   std::pair(group.attribute("data-row").as_int(),
                                             group.attribute("data-column").as_int()))
                          .second);
        }
      });
    });
    const Layout layout = layout_of(connector);
    ASSERT_EQ(drawn.size(), layout.ways.size()) << id;
    for (const Way& way : layout.ways)
      EXPECT_EQ(drawn[way.name], std::pair(way.row + 1, way.column + 1)) << id << "." << way.name;
  }
}

TEST(Sheet, ShowsAllCautionsBeforeAnythingToDo) {
  const Made made = make(test::larch_profile());
  for (const Language_name& language : languages()) {
    const std::string html = made.html(language.language);
    std::size_t at = 0;
    for (const Caution& caution : cautions()) {
      const std::string_view text = sheet::catalogue(language.language).word("caution", caution.id);
      at = html.find(text, at);
      ASSERT_NE(at, std::string::npos) << language.tag << " " << caution.id;
    }
    for (const char* later : {"id=\"codes\"", "id=\"connectors\"", "id=\"readings\""})
      EXPECT_LT(at, html.find(later)) << language.tag;
  }
  const std::string text = text_in(tree_of(made.html()));
  const Profile& profile = *made.profile.document.profile();
  for (const Supply& supply : profile.safety.supplies)
    EXPECT_NE(text.find(*supply.isolate_at), std::string::npos) << *supply.isolate_at;
  for (const Hazard& hazard : profile.safety.hazards)
    if (hazard.note) {
      EXPECT_NE(text.find(*hazard.note), std::string::npos) << *hazard.note;
    }
}

TEST(Sheet, NamesWhatItComesFrom) {
  const Made made = make(test::larch_profile());
  const std::string html = made.html();
  const Profile& profile = *made.profile.document.profile();
  EXPECT_NE(html.find(fmt::format("{}, revision {}", *profile.id, *profile.revision)), std::string::npos);
  EXPECT_NE(html.find(sha256(made.profile.document.text())), std::string::npos);
  for (const auto& source : profile.sources)
    EXPECT_NE(html.find(fmt::format("<dt>{}</dt>", source.id)), std::string::npos) << source.id;
  for (const auto& fault : profile.faults)
    EXPECT_NE(html.find(fmt::format("id=\"code-{}\"", fault.id)), std::string::npos) << fault.id;
  EXPECT_EQ(html.find("<script"), std::string::npos);
  for (const char* outside : {"src=", "http://www.w3.org/1999", "https://", "url(", "@import"})
    EXPECT_EQ(html.find(outside), std::string::npos) << outside;
}

TEST(Sheet, HasOneCardWithItsBoxForEachTest) {
  const Made made = make(test::larch_profile());
  const pugi::xml_document page = tree_of(made.html());
  std::set<std::string> cards, links, targets;
  each_element(page, [&](pugi::xml_node node) {
    const std::string id = node.attribute("id").value(), to = node.attribute("href").value();
    if (!id.empty()) {
      EXPECT_TRUE(targets.insert(id).second) << id;
    }
    if (!to.empty()) links.insert(to);
    if (std::string_view(node.attribute("class").value()) != "test-card") return;
    cards.insert(id);
    int boxes = 0;
    each_element(node,
                 [&](pugi::xml_node inner) { boxes += std::string_view(inner.name()) == "input" ? 1 : 0; });
    EXPECT_GE(boxes, 1) << id;
  });
  for (const auto& test : made.profile.document.profile()->tests)
    EXPECT_TRUE(cards.count(fmt::format("test-{}", test.id))) << test.id;
  for (const std::string& link : links) EXPECT_TRUE(targets.count(link.substr(1))) << link;
}

// ---- readings

// A beta model by its formula, IEC 60539-1: R = 10 kΩ · exp(3977 K (1/T - 1/298.15 K)); the limit of 3 K is
// the same curve 3 K away. Computed here, not with the library.
TEST(Readings, AreThoseOfTheFormula) {
  const Made made = make(R"({"format": "ohmlore/1.0", "kind": "profile", "id": "p", "revision": 1,
    "appliance": {"maker": "M", "models": ["A"], "type": "heat_pump", "fuel": "electricity", "controller": {"part": "B"}},
    "safety": {"supplies": [{"kind": "mains", "isolate_at": "s"}]},
    "sources": {"s": {"kind": "standard", "title": "t"}}, "source": {"from": "s"},
    "connectors": {"X1": {"label": "X1", "ways": 2, "circuit": "selv", "pins": {"1": {}, "2": {}}}},
    "components": {"n": {"kind": "ntc", "name": "N", "between": ["X1.1", "X1.2"], "service_limit": "3 K",
      "model": {"kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K",
                "b_between": "25 °C to 85 °C"}}},
    "tests": {"t": {"component": "n", "unplug": "X1", "probes": ["X1.1", "X1.2"], "side": "at_board_plug",
                    "excludes": ["open"]}},
    "faults": {}})");
  const auto readings = sheet_readings(made.resolved, *made.resolved.test("t"));
  ASSERT_EQ(readings.size(), std::size(sheet_celsius));
  const auto r = [](double celsius) { return 10e3 * std::exp(3977 * (1 / (celsius + 273.15) - 1 / 298.15)); };
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const double t = sheet_celsius[i];
    EXPECT_NEAR(*readings[i].nominal / r(t), 1, 1e-9) << t;
    EXPECT_NEAR(readings[i].healthy->low / r(t + 3), 1, 1e-9) << t;
    EXPECT_NEAR(readings[i].healthy->high / r(t - 3), 1, 1e-9) << t;
  }
  const std::string html = made.html();
  EXPECT_NE(html.find("12.55\u00A0kΩ"), std::string::npos); // r(20) = 12548 Ω
  EXPECT_NE(html.find("10.94 to 14.45\u00A0kΩ"), std::string::npos) << r(23) << " " << r(17);
}

// ---- the order of tests

TEST(Steps, NameEachTestOnceAndEverySuspect) {
  const Made made = make(test::larch_profile());
  for (const auto& fault : made.profile.document.profile()->faults) {
    std::set<const void*> tests, suspects;
    for (const sheet::Step& step : sheet::steps_of(made.resolved, fault.value)) {
      if (step.test != nullptr) {
        EXPECT_TRUE(tests.insert(step.test).second) << fault.id;
      }
      EXPECT_FALSE(step.suspects.empty());
      suspects.insert(step.suspects.begin(), step.suspects.end());
    }
    EXPECT_EQ(suspects.size(), fault.value.suspects.size()) << fault.id;
  }
}

// ---- words

std::size_t places_in(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = text.find("{}"); at != std::string_view::npos; at = text.find("{}", at + 2)) ++count;
  return count;
}

TEST(Catalogue, SaysEveryPhraseInEveryLanguage) {
  const Catalogue& english = sheet::catalogue(Language::english);
  for (const Language_name& language : languages()) {
    const Catalogue& words = sheet::catalogue(language.language);
    EXPECT_EQ(words.tag, language.tag);
    for (std::size_t i = 0; i < phrase_count; ++i) {
      EXPECT_FALSE(words.phrases[i].empty()) << language.tag << ": " << english.phrases[i];
      EXPECT_EQ(places_in(words.phrases[i]), places_in(english.phrases[i])) << english.phrases[i];
    }
    for (std::size_t i = 0; i < words.words.size(); ++i)
      EXPECT_FALSE(words.words[i].empty()) << language.tag << ": " << sheet::word_keys()[i].word;
  }
}

TEST(Catalogue, HasEveryWordOfTheEnumerationsThatASheetShows) {
  const Enumeration* shown[] = {&Appliance_type_words, &Fuel_words,          &Supply_kind_words,
                                &Hazard_kind_words,    &Circuit_class_words, &Mounting_words,
                                &Side_words,           &Response_kind_words, &Mode_words,
                                &Fault_reset_words,    &Source_kind_words};
  std::set<std::string> has;
  for (const sheet::Word_key& key : sheet::word_keys())
    EXPECT_TRUE(has.insert(fmt::format("{} {}", key.list, key.word)).second) << key.word;
  for (const Enumeration* enumeration : shown)
    for (const Word& word : enumeration->words)
      EXPECT_TRUE(has.count(fmt::format("{} {}", enumeration->name, word.text)))
          << enumeration->name << " " << word.text;
  for (const Caution& caution : cautions())
    EXPECT_TRUE(has.count(fmt::format("caution {}", caution.id))) << caution.id;
}

std::string without(const std::string& text, std::string_view part, std::string_view instead) {
  std::string out;
  std::size_t from = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, from)) {
    out.append(text, from, at - from).append(instead);
    from = at + part.size();
  }
  return out.append(text, from);
}

// A language in which every phrase and word is written without letters: what letters are left on the page
// were not taken from the catalogue.
TEST(Catalogue, HoldsAllThatASheetSays) {
  std::vector<std::string> kept;
  kept.reserve(2000);
  const Catalogue& english = sheet::catalogue(Language::english);
  const auto mute = [&](std::string_view text) -> std::string_view {
    std::string out = "‹";
    for (std::size_t i = places_in(text); i > 0; --i) out += "{}·";
    out += "›";
    return kept.emplace_back(std::move(out));
  };
  Catalogue none;
  none.tag = "en";
  for (std::size_t i = 0; i < english.phrases.size(); ++i) none.phrases[i] = mute(english.phrases[i]);
  std::vector<std::string_view> words;
  for (const std::string_view word : english.words) words.push_back(mute(word));
  none.words = words;

  // What a profile says is taken out of its document, longest first; units, codes of wires and numbers stay.
  const Made made = make(test::larch_profile());
  const Document& document = made.profile.document;
  std::set<std::string, std::function<bool(const std::string&, const std::string&)>> said(
      [](const std::string& a, const std::string& b) {
        return a.size() != b.size() ? a.size() > b.size() : a < b;
      });
  for (Node_id id = Document::root; id < document.nodes().size(); ++id)
    if (document.node(id).type == Node_type::string || document.node(id).key)
      said.insert(printable(document.string(id)));
  const std::regex known("#?[0-9.]+|k?Ω|MΩ|°C|\\bK\\b|V dc|\\bmin\\b|\\bs\\b");
  const std::regex named("ohmlore|test\\.profile\\.json|\\b[0-9a-f]{64}\\b"); // the file, and its hash
  const auto check = [&](std::string text, const std::string& where) {
    text = without(text, "\u00A0", " ");
    const std::string all = text;
    text = std::regex_replace(text, named, "");
    for (const std::string& one : said)
      text = one.size() > 1 ? without(text, one, {})
                            : std::regex_replace(text, std::regex(fmt::format("\\b{}\\b", one)), "");
    text = std::regex_replace(text, known, "");
    for (std::size_t i = 0; i < text.size();) {
      const char32_t c = next_code_point(text, i);
      const bool letter =
          (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= 0xC0 && c < 0x250 && c != 0xD7);
      ASSERT_FALSE(letter) << where << ": " << all << " leaves " << text;
    }
  };
  const pugi::xml_document page = tree_of(sheet::html_in(made.resolved, none, 3));
  each_element(page, [&](pugi::xml_node node) {
    if (std::string_view(node.name()) == "style") return;
    for (const char* spoken : {"aria-label", "title", "alt", "placeholder", "data-at"})
      if (node.attribute(spoken)) check(node.attribute(spoken).value(), spoken);
    for (const pugi::xml_node child : node.children())
      if (child.type() == pugi::node_pcdata) check(child.value(), node.name());
  });
}

// ---- texts that try to break out

TEST(Sheet, LetsNoTextOfAProfileBreakOut) {
  const Read_result plain = read(test::larch_profile());
  std::set<std::string> usual;
  const auto names_in = [](const pugi::xml_document& page, std::set<std::string>& names) {
    each_element(page, [&](pugi::xml_node node) {
      names.insert(node.name());
      for (const pugi::xml_attribute at : node.attributes())
        names.insert(fmt::format("{}@{}", node.name(), at.name()));
    });
  };
  names_in(tree_of(make(test::larch_profile()).html()), usual);
#ifdef OHMLORE_SANITIZED
  constexpr unsigned seeds = 5;
#else
  constexpr unsigned seeds = 60;
#endif
  usual.insert({"text@textLength", "text@lengthAdjust"}); // of names that would not fit
  for (unsigned seed = 0; seed < seeds; ++seed) {
    const Made hostile = make(test::with_hostile_texts(plain.document, seed));
    std::set<std::string> names;
    const std::string html = hostile.html();
    EXPECT_EQ(html.find("<![CDATA["), std::string::npos);
    EXPECT_EQ(html.find("<!--"), std::string::npos);
    names_in(tree_of(html), names);
    for (const std::string& name : names) EXPECT_TRUE(usual.count(name)) << name << ", seed " << seed;
  }
  // Whole, and readable: as text, not as markup; what is not seen is made visible.
  std::string text = test::larch_profile();
  const std::string evil =
      "</style></script><script>alert(1)</script><img src=x onerror=alert(1)>&amp;\\\" ]]> \u202Eevil";
  const std::size_t at = text.find("\"title\": \"") + 10;
  text.insert(at, evil);
  const std::string html = make(text).html();
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("<img"), std::string::npos);
  EXPECT_NE(html.find("&lt;/style&gt;&lt;/script&gt;"), std::string::npos);
  EXPECT_NE(html.find("&amp;amp;"), std::string::npos);
  EXPECT_EQ(html.find("\u202E"), std::string::npos);
  EXPECT_NE(html.find("\\u{202E}evil"), std::string::npos);
}

// ---- colours

// Relative luminance and contrast ratio, WCAG 2.1.
double luminance(std::string_view colour) {
  double sum = 0;
  const double weights[] = {0.2126, 0.7152, 0.0722};
  for (std::size_t i = 0; i < 3; ++i) {
    const double c = std::stoi(std::string(colour.substr(1 + 2 * i, 2)), nullptr, 16) / 255.0;
    sum += weights[i] * (c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}
double contrast(std::string_view one, std::string_view other) {
  const double a = luminance(one), b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

TEST(Style, HasTheContrastOfWcagAaInLightAndDark) {
  EXPECT_NEAR(contrast("#000000", "#ffffff"), 21, 1e-9); // the extreme, from the standard
  EXPECT_NEAR(contrast("#767676", "#ffffff"), 4.54,
              0.01); // the lightest grey that passes on white, widely published
  std::map<std::string_view, sheet::Paint> paints;
  for (const sheet::Paint& paint : sheet::paints()) paints[paint.name] = paint;
  std::set<std::string_view> paired;
  for (const sheet::Paint_pair& pair : sheet::paint_pairs()) {
    ASSERT_TRUE(paints.count(pair.front) && paints.count(pair.ground)) << pair.front << " " << pair.ground;
    EXPECT_GE(contrast(paints[pair.front].light, paints[pair.ground].light), pair.least)
        << pair.front << " on " << pair.ground;
    EXPECT_GE(contrast(paints[pair.front].dark, paints[pair.ground].dark), pair.least)
        << pair.front << " on " << pair.ground << ", dark";
    paired.insert({pair.front, pair.ground});
  }
  // Every colour of the rules is one of these; lines between rows are ornament.
  const std::string style = sheet::style_sheet("", "");
  const std::regex used("var\\(--([a-z-]+)\\)");
  for (std::sregex_iterator at(style.begin(), style.end(), used), end; at != end; ++at) {
    const std::string name = (*at)[1];
    EXPECT_TRUE(paints.count(name)) << name;
    EXPECT_TRUE(paired.count(name) || name == "hairline") << name;
  }
  // What stands in <style> is not unescaped by a browser.
  EXPECT_EQ(style.find_first_of("<>&"), std::string::npos);
}

// ---- files

// FIPS 180-4: the examples that NIST publishes with it ("abc", the empty message, the 448-bit message).
TEST(Sha256, GivesThePublishedDigests) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Site, HoldsASheetForEachProfileAndAnIndexOfThem) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / fmt::format("ohmlore-site-{}", getpid());
  const Sheet_run run = write_sheets({OHMLORE_SOURCE_DIR "/corpus", folder.string(), {}, Language::german});
  EXPECT_TRUE(run.troubles.empty() && run.findings.empty());
  const std::string index = test::read_bytes(folder / "index.html");
  const pugi::xml_document page = tree_of(std::regex_replace(index, std::regex("<script>[^]*</script>"), ""));
  std::size_t entries = 0;
  each_element(page, [&](pugi::xml_node node) {
    if (std::string_view(node.attribute("class").value()) == "entry") ++entries;
    const std::string to = node.attribute("href").value();
    if (to.empty()) return;
    const std::size_t hash = to.find('#');
    ASSERT_TRUE(std::filesystem::exists(folder / to.substr(0, hash))) << to;
    if (hash == std::string::npos) return;
    const std::string sheet = test::read_bytes(folder / to.substr(0, hash));
    EXPECT_NE(sheet.find(fmt::format("id=\"{}\"", to.substr(hash + 1))), std::string::npos) << to;
  });
  EXPECT_EQ(entries + 1, run.pages);
  EXPECT_GE(entries, 16u);
  const std::size_t script = index.find("<script>") + 8;
  EXPECT_EQ(index.substr(script, index.find("</script>") - script).find_first_of("<>&"), std::string::npos);
  std::filesystem::remove_all(folder);
}

}
}
