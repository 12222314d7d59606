// What a sheet says in each language, and in which colours.
#include "ohmlore/sheet.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <regex>
#include <set>

#include "../support/contrast.h"
#include "../support/sheet_page.h"
#include "job/curve_notes.h"
#include "lint/colours.h"
#include "ohmlore/cautions.h"
#include "ohmlore/curve.h"
#include "ohmlore/text.h"
#include "sheet/catalogue.h"
#include "sheet/page.h"
#include "sheet/style.h"

namespace ohmlore {
namespace {

using sheet::Catalogue;
using test::contrast, test::each_element, test::Made, test::make, test::tree_of;

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
    for (std::size_t i = 0; i < words.words.size(); ++i) {
      EXPECT_FALSE(words.words[i].empty()) << language.tag << ": " << sheet::word_keys()[i].word;
      EXPECT_EQ(places_in(words.words[i]), places_in(english.words[i])) << english.words[i];
    }
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
  for (const rules::Colour& colour : rules::colours)
    EXPECT_TRUE(has.count(fmt::format("colour {}", colour.code))) << colour.code;
  for (const Curve_sentence& sentence : curve_sentences)
    EXPECT_TRUE(has.count(fmt::format("curve_note {}", sentence.id))) << sentence.id;
}

// The safety rules of DIN VDE 0105-100 in their own words (from memory): freischalten, gegen
// Wiedereinschalten sichern, Spannungsfreiheit feststellen.
TEST(Catalogue, NamesTheGermanSafetyRulesAsTheTradeDoes) {
  const Catalogue& german = sheet::catalogue(Language::german);
  const std::string shortest = german.say(Phrase::shortest_caution);
  for (const std::string_view text : {std::string_view(shortest), german.word("caution", "isolate")})
    EXPECT_NE(text.find(" freischalten und gegen Wiedereinschalten sichern"), std::string_view::npos) << text;
  for (const std::string_view text : {std::string_view(shortest), german.word("caution", "prove-dead")})
    EXPECT_NE(text.find("die Spannungsfreiheit feststellen"), std::string_view::npos) << text;
  EXPECT_EQ(german.say(Phrase::isolated_locked), "freigeschaltet und gegen Wiedereinschalten gesichert");
  EXPECT_EQ(german.say(Phrase::proved_dead), "Spannungsfreiheit festgestellt");
}

TEST(Catalogue, SaysInItsLanguageWhatMustBeKnownToReadACurve) {
  const Made made = make(test::larch_profile());
  std::set<std::string> notes;
  for (const Resolved_component& component : made.resolved.components)
    if (const Curve_result drawn = curve_of(component); drawn.curve && component.is(Component_kind::ntc))
      for (const Curve_note& note : drawn.curve->notes)
        if (note.id != "as_made") notes.insert(std::string(note.id));
  ASSERT_FALSE(notes.empty());
  for (const Language_name& language : languages()) {
    const std::string html = made.html(language.language);
    for (const std::string& note : notes) {
      const std::string_view text = sheet::catalogue(language.language).word("curve_note", note);
      EXPECT_NE(html.find(text.substr(0, text.find('{'))), std::string::npos) << text;
    }
  }
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

// ---- colours

TEST(Style, HasTheContrastOfWcagAaInLightAndDark) {
  EXPECT_NEAR(contrast("#000000", "#ffffff"), 21, 1e-9); // the extreme, from the standard
  EXPECT_NEAR(contrast("#767676", "#ffffff"), 4.54,
              0.01); // the lightest grey that passes on white, widely published
  std::map<std::string_view, sheet::Paint> paints;
  for (const sheet::Paint& paint : sheet::paints()) paints[paint.name] = paint;
  std::set<std::string_view> paired;
  for (const sheet::Paint_pair& pair : sheet::paint_pairs()) {
    ASSERT_TRUE(paints.count(pair.front) && paints.count(pair.ground)) << pair.front << " " << pair.ground;
    EXPECT_GE(contrast(std::string(paints[pair.front].light), std::string(paints[pair.ground].light)),
              pair.least)
        << pair.front << " on " << pair.ground;
    EXPECT_GE(contrast(std::string(paints[pair.front].dark), std::string(paints[pair.ground].dark)),
              pair.least)
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

}
}
