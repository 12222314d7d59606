// Searching profiles. Who types what is common practice, no source.
#include "ohmlore/find.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "ohmlore/corpus.h"
#include "support/files.h"

namespace ohmlore {
namespace {

const std::string corpus = OHMLORE_SOURCE_DIR "/corpus";

Find_run find(std::vector<std::string> words, std::vector<std::string> paths = {corpus}) {
  return find_paths({std::move(words), std::move(paths)});
}

std::vector<std::string> ids(const Find_run& run) {
  std::vector<std::string> all;
  for (const Found_profile& profile : run.found) all.push_back(profile.id);
  return all;
}

using Ids = std::vector<std::string>;

TEST(Find, what_is_no_profile_holds_no_word) {
  const Read_result read = read_json("x.json", "{}");
  const std::vector<std::string> words = {"flow"};
  EXPECT_TRUE(find_in(resolve(read.document, {}), words).matches.empty());
}

TEST(Find, words_are_letters_and_digits_each_once) {
  const std::string typed[] = {"OV-4410", "ov4410", "Larch 24", "-", "  ", "Kessel-Fühler"};
  EXPECT_EQ(find_words(typed), (Ids{"ov4410", "larch", "24", "kesselfühler"}));
}

TEST(Find, a_board_is_found_however_its_number_is_typed) {
  for (const char* typed : {"OV-4410", "ov4410", "Ov 4410", "OV/4410"})
    EXPECT_EQ(ids(find({typed})), Ids{"orrinvale-ov4410"}) << typed;
  const Find_match match = find({"ov4410"}).found.at(0).matches.at(0);
  EXPECT_EQ(match.field, Find_field::board);
  EXPECT_EQ(match.likeness, Likeness::same);
  EXPECT_EQ(match.text, "OV-4410");
}

// In a profile whose board has that number.
Found_profile find_board(std::string_view number, std::string_view typed) {
  std::string text = test::larch_profile();
  const std::string_view old = "\"OV-4410\"";
  text.replace(text.find(old), old.size(), fmt::format("\"{}\"", number));
  const Read_result read = read_json("larch.profile.json", text);
  const std::string words[] = {std::string(typed)};
  return find_in(resolve(read.document, {}), find_words(words));
}

// As CaseFolding.txt of Unicode pairs them.
TEST(Find, capital_letters_do_not_matter_in_any_language) {
  const std::pair<const char*, const char*> pairs[] = {{"GRÖSSENWÄRME", "Größenwärme"},
                                                       {"straße", "STRASSE"},
                                                       {"ŁÓDŹ", "łódź"},
                                                       {"ΚΑΥΣΗΣ", "καυσης"},
                                                       {"КОТЁЛ", "котёл"},
                                                       {"ҐРУНТ", "ґрунт"},
                                                       {"ȘA", "șa"},
                                                       {"ẀY", "ẁy"},
                                                       {"ƯỚ", "ướ"},
                                                       {"10\u00B5F", "10\u03BCF"},
                                                       {"10\u2126", "10\u03A9"}};
  for (const auto& [typed, there] : pairs) {
    const Found_profile found = find_board(there, typed);
    ASSERT_EQ(found.matches.size(), 1u) << typed;
    EXPECT_EQ(found.matches[0].field, Find_field::board) << typed;
    EXPECT_EQ(found.matches[0].likeness, Likeness::same) << typed;
  }
}

TEST(Find, a_number_is_found_whatever_stands_between_its_digits) {
  const std::string dashes = "0020\u2011118\u2013740/B", no_break_spaces = "0020\u00A0118\u00A0740\u00A0B";
  for (const std::string& there : {std::string("0020-118.740/B"), dashes})
    for (const std::string& typed : {there, dashes, no_break_spaces, std::string("0020118740b")}) {
      const Found_profile found = find_board(there, typed);
      EXPECT_EQ(found.matches.size(), typed == no_break_spaces ? 4u : 1u) << there << ", " << typed;
      for (const Find_match& match : found.matches) {
        EXPECT_EQ(match.field, Find_field::board) << there << ", " << typed;
        EXPECT_EQ(match.likeness, Likeness::same) << there << ", " << typed;
      }
    }
}

TEST(Find, all_words_are_looked_for) {
  const Find_run run = find({"larch", "S1"});
  EXPECT_EQ(ids(run), Ids{"orrinvale-ov4410"});
  ASSERT_EQ(run.found.at(0).matches.size(), 2u);
  EXPECT_EQ(run.found[0].matches[0].field, Find_field::model);
  EXPECT_EQ(run.found[0].matches[1].field, Find_field::code);
  ASSERT_EQ(run.found[0].codes.size(), 1u);
  EXPECT_EQ(run.found[0].codes[0].shown, "S1");
  EXPECT_EQ(run.found[0].codes[0].meaning, "limit chain open");
  EXPECT_TRUE(run.missing.empty());
}

TEST(Find, all_codes_that_a_word_fits_as_well_are_told) {
  const Find_run run = find({"quillmere", "E1"});
  ASSERT_FALSE(run.found.empty());
  for (const Found_profile& profile : run.found) {
    if (profile.matches.at(1).likeness != Likeness::same) continue;
    EXPECT_EQ(profile.codes.size(), profile.matches[1].codes.size());
    for (const Found_code& code : profile.codes) EXPECT_TRUE(code.id.starts_with("E1")) << code.id;
  }
  EXPECT_GT(run.found.at(0).codes.size(), 1u);
}

TEST(Find, a_word_that_no_profile_holds_is_said) {
  const Find_run run = find({"larch", "zzyzx"});
  EXPECT_EQ(ids(run), Ids{"orrinvale-ov4410"});
  EXPECT_EQ(run.missing, Ids{"zzyzx"});
  const Find_run nothing = find({"zzyzx"});
  EXPECT_TRUE(nothing.found.empty());
  EXPECT_EQ(nothing.profiles, 16u);
  EXPECT_EQ(text_report(nothing, 10),
            "no profile of 16 holds zzyzx; try a piece of it, or a model, board or code\n");
}

TEST(Find, a_misspelt_word_is_found_and_said_to_be_one) {
  const Find_run run = find({"orinvale", "larchh"});
  EXPECT_EQ(ids(run), Ids{"orrinvale-ov4410"});
  for (const Find_match& match : run.found.at(0).matches) EXPECT_EQ(match.likeness, Likeness::misspelt);
  EXPECT_NE(text_report(run, 10).find("orinvale: maker Orrinvale (spelt nearly so)"), std::string::npos);
}

TEST(Find, a_number_that_is_nearly_right_is_another_part) {
  EXPECT_TRUE(find({"ov4411"}).found.empty());
  EXPECT_TRUE(find({"OV-441O"}).found.empty()) << "a letter for a digit";
}

TEST(Find, a_word_that_any_profile_holds_is_not_taken_for_a_misspelt_one) {
  const auto profile = [](std::string file, std::string word, Likeness likeness) {
    Found_profile found;
    found.file = std::move(file);
    found.matches.push_back({std::move(word), Find_field::component, likeness, "text", {}});
    return found;
  };
  const std::string words[] = {"heater"};
  const auto held =
      ranked({profile("a", "heater", Likeness::misspelt), profile("b", "heater", Likeness::inside)}, words);
  ASSERT_EQ(held.size(), 1u);
  EXPECT_EQ(held[0].file, "b");
  EXPECT_EQ(ranked({profile("a", "heater", Likeness::misspelt)}, words).size(), 1u);
}

TEST(Find, what_tells_more_stands_first) {
  // Boards and models tell more than words of notes; the word itself more than its beginning.
  const Find_run run = find({"orrinvale"});
  EXPECT_EQ(run.found.size(), 4u);
  EXPECT_TRUE(std::is_sorted(run.found.begin(), run.found.end(),
                             [](const auto& a, const auto& b) { return a.score > b.score; }));
  EXPECT_EQ(find({"larc"}).found.at(0).matches.at(0).likeness, Likeness::beginning);
}

TEST(Find, words_that_stand_together_tell_more_than_words_that_lie_apart) {
  // "no" begins a code of a profile that knows no hot water: no_heat.
  const Find_run run = find({"no", "hot", "water"});
  ASSERT_FALSE(run.found.empty());
  EXPECT_EQ(run.found[0].id, "orrinvale-ov4410");
  EXPECT_EQ(run.found[0].matches.at(1).text, "hot_water_sensor");
}

TEST(Find, a_code_that_holds_all_words_leaves_out_those_that_hold_some) {
  const Find_run run = find({"tg480", "E1", "1"});
  ASSERT_FALSE(run.found.empty());
  ASSERT_EQ(run.found[0].codes.size(), 1u);
  EXPECT_EQ(run.found[0].codes[0].shown, "E1 1");
  const Find_run both = find({"ov4410", "S1", "H3"});
  ASSERT_EQ(both.found.size(), 1u);
  EXPECT_EQ(both.found[0].codes.size(), 2u) << "neither holds the other's word";
}

TEST(Find, the_profiles_that_have_a_part_are_found_by_its_id) {
  EXPECT_EQ(find({"ntc-10k-b3977-1pct"}).found.size(), 2u);
  EXPECT_GE(find({"10k", "ntc"}).found.at(0).matches.size(), 2u);
}

TEST(Find, more_words_than_can_be_looked_for_are_refused) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < most_words; ++i) words.push_back(fmt::format("word{}", i));
  EXPECT_TRUE(find(words).troubles.empty());
  words.emplace_back("another");
  const Find_run run = find(words);
  ASSERT_EQ(run.troubles.size(), 1u);
  EXPECT_EQ(run.profiles, 0u);
}

// Whoever types the maker, a model and what the display shows is led to that code of that profile.
TEST(Find, every_code_of_the_corpus_is_found_by_what_stands_on_the_appliance) {
  std::size_t codes = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(corpus + "/profiles")) {
    if (!entry.is_regular_file()) continue;
    std::string why;
    const Read_result read = read_json(entry.path().string(), *read_file(entry.path().string(), why));
    const Profile& profile = *read.document.profile();
    for (const auto& fault : profile.faults) {
      const Display& display = fault.value.display;
      std::vector<std::string> typed = {std::string(*profile.appliance.maker),
                                        std::string(*profile.appliance.models[0]),
                                        std::string(display.text ? *display.text : *display.pattern)};
      if (display.subcode) typed.emplace_back(*display.subcode);
      const Find_run run = find(typed, {entry.path().string()});
      EXPECT_TRUE(run.missing.empty()) << fault.id;
      ASSERT_EQ(ids(run), Ids{std::string(*profile.id)}) << fault.id;
      const auto& found = run.found[0].codes;
      EXPECT_FALSE(found.empty()) << *profile.id << ' ' << fault.id;
      ++codes;
    }
  }
  EXPECT_GT(codes, 100u);
}

TEST(Find, what_was_not_searched_is_said) {
  const Find_run nowhere = find({"larch"}, {"/no/such/folder"});
  EXPECT_EQ(nowhere.profiles, 0u);
  EXPECT_FALSE(nowhere.troubles.empty());
  const Find_run parts = find({"larch"}, {corpus + "/parts"});
  ASSERT_EQ(parts.troubles.size(), 1u);
  EXPECT_EQ(parts.troubles[0], "no profile was found to search; name a folder of profiles with --in");
  EXPECT_EQ(find({"-", "?"}).troubles.at(0),
            "nothing to look for: write a word of letters or digits, such as a model or a code");
}

}
}
