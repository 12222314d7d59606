#include "ohmlore/find.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "find/letters.h"
#include "find/texts.h"
#include "model/word_lists.h"
#include "ohmlore/text.h"
#include "plan/codes.h"
#include "text/small_letters.h"

namespace ohmlore {

OHMLORE_WORDS(Find_field, "find_field", OHMLORE_FIND_FIELDS)
OHMLORE_WORDS(Likeness, "likeness", OHMLORE_LIKENESSES)

namespace {

// A text as it is compared: its letters and digits, a space for each space, and a hyphen for what else stands
// between them.
std::string compared(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (is_space(c))
      out += ' ';
    else if (is_sharp_s(c))
      out += "ss";
    else if (is_letter_or_digit(c))
      append_code_point(out, small_letter(c));
    else
      out += '-';
  }
  return out;
}

std::string without_hyphens(std::string_view text) {
  std::string out(text);
  std::erase(out, '-');
  return out;
}

std::vector<std::string_view> split(std::string_view text, std::string_view at) {
  std::vector<std::string_view> pieces;
  for (std::size_t end = 0; end != text.npos; text.remove_prefix(std::min(end + 1, text.size()))) {
    end = text.find_first_of(at);
    if (const auto piece = text.substr(0, end); !piece.empty()) pieces.push_back(piece);
  }
  return pieces;
}

// Of a text as it is compared: each word, each two and three that follow one another as one, and what stands
// between two spaces as one: "OV-4410" is typed in many ways.
std::vector<std::string> words_of(std::string_view text) {
  const std::vector<std::string_view> single = split(text, " -");
  std::vector<std::string> words(single.begin(), single.end());
  for (std::size_t i = 0; i + 1 < single.size(); ++i) {
    words.push_back(std::string(single[i]).append(single[i + 1]));
    if (i + 2 < single.size()) words.push_back(std::string(words.back()).append(single[i + 2]));
  }
  for (const std::string_view piece : split(text, " "))
    if (piece.find('-') != piece.npos) words.push_back(without_hyphens(piece));
  return words;
}

// A number that is nearly right names another part.
bool may_be_misspelt(std::string_view word) {
  constexpr std::size_t fewest_letters = 5; // of shorter words too many are alike
  constexpr std::size_t most_letters = 64;  // nearest_word looks at no longer one
  return word.size() >= fewest_letters && word.size() <= most_letters &&
         std::none_of(word.begin(), word.end(), is_digit);
}

std::optional<Likeness> likeness(std::string_view typed, std::string_view there, bool can_be_misspelt) {
  if (there == typed) return Likeness::same;
  if (typed.size() >= 2 && there.starts_with(typed)) return Likeness::beginning;
  constexpr std::size_t shortest_piece = 3;
  if (typed.size() >= shortest_piece && there.find(typed) != std::string_view::npos) return Likeness::inside;
  const std::array<std::string_view, 1> known = {there};
  if (can_be_misspelt && !nearest_word(typed, known).empty()) return Likeness::misspelt;
  return std::nullopt;
}

// How much a word tells where it stands: common practice, no source.
double weight(Find_field field) {
  switch (field) {
  case Find_field::code: return 8;
  case Find_field::model:
  case Find_field::board:
  case Find_field::spare: return 6;
  case Find_field::maker: return 4;
  case Find_field::profile:
  case Find_field::component:
  case Find_field::meaning: return 3;
  case Find_field::text: return 1;
  }
  return 0;
}
double weight(Likeness likeness) {
  switch (likeness) {
  case Likeness::same: return 1;
  case Likeness::beginning: return 0.8;
  case Likeness::inside: return 0.6;
  case Likeness::misspelt: return 0.4;
  }
  return 0;
}
double weight(const Find_match& match) { return weight(match.field) * weight(match.likeness); }
// Of each further word in one text: "hot water sensor" is more than three words that lie apart.
constexpr double weight_of_next = 3;

bool holds(const std::vector<std::string>& list, std::string_view one) {
  return std::find(list.begin(), list.end(), one) != list.end();
}

// "E1 1" asks for that code, not for each that holds one of the two.
void leave_out_what_holds_less(Found_profile& profile) {
  std::vector<std::uint32_t> words; // of each code: one bit a match
  for (const Found_code& code : profile.codes) {
    words.push_back(0);
    for (std::size_t i = 0; i < std::min(profile.matches.size(), most_words); ++i)
      if (holds(profile.matches[i].codes, code.id)) words.back() |= std::uint32_t{1} << i;
  }
  std::vector<Found_code> left;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (std::none_of(words.begin(), words.end(), [&](std::uint32_t other) {
          return other != words[i] && (other & words[i]) == words[i];
        }))
      left.push_back(std::move(profile.codes[i]));
  profile.codes = std::move(left);
}

void settle(Found_profile& profile, const std::vector<std::string>& held) {
  std::erase_if(profile.matches, [&](const Find_match& match) {
    return match.likeness == Likeness::misspelt && holds(held, match.word);
  });
  profile.score = profile.together > 1 ? weight_of_next * static_cast<double>(profile.together - 1) : 0;
  for (const Find_match& match : profile.matches) profile.score += weight(match);
  std::erase_if(profile.codes, [&](const Found_code& code) {
    return std::none_of(profile.matches.begin(), profile.matches.end(),
                        [&](const Find_match& match) { return holds(match.codes, code.id); });
  });
}

}

std::vector<std::string> find_words(std::span<const std::string> typed) {
  std::vector<std::string> words;
  for (const std::string& text : typed) {
    const std::string all = compared(text);
    for (const std::string_view piece : split(all, " "))
      if (std::string word = without_hyphens(piece); !word.empty() && !holds(words, word))
        words.push_back(std::move(word));
  }
  return words;
}

Found_profile find_in(const Resolved& resolved, std::span<const std::string> words) {
  if (resolved.document->profile() == nullptr) return {};
  const Profile& profile = *resolved.document->profile();
  Found_profile found;
  found.file = resolved.document->name();
  found.id = *profile.id;
  found.title = *profile.title;
  found.maker = *profile.appliance.maker;
  found.board = *profile.appliance.controller.part;
  for (const Value<Text>& model : profile.appliance.models)
    if (model) found.models.emplace_back(*model);

  std::vector<std::optional<Find_match>> best(words.size());
  std::vector<bool> misspelt; // which words may be
  for (const std::string& word : words) misspelt.push_back(may_be_misspelt(word));
  each_text(resolved, [&](Find_field field, Text text, const Keyed<Fault>::Entry* fault) {
    const std::string all = compared(text);
    std::string whole = without_hyphens(all);
    std::erase(whole, ' ');
    std::vector<bool> here(words.size()); // which words the text holds
    for (const std::string& there : words_of(all)) {
      const bool may_be_meant = may_be_misspelt(there);
      for (std::size_t i = 0; i < words.size(); ++i) {
        auto like = likeness(words[i], there, misspelt[i] && may_be_meant);
        if (!like) continue;
        if (*like == Likeness::same) here[i] = true;
        // "E1" is the code E1, and the beginning of E1_1.
        if (field == Find_field::code && *like == Likeness::same && there != whole)
          like = Likeness::beginning;
        const double now = weight(field) * weight(*like), before = best[i] ? weight(*best[i]) : 0;
        if (now < before) continue;
        if (now > before) best[i] = {words[i], field, *like, std::string(text), {}};
        if (fault != nullptr && !holds(best[i]->codes, fault->id)) best[i]->codes.emplace_back(fault->id);
      }
    }
    found.together =
        std::max(found.together, static_cast<std::size_t>(std::count(here.begin(), here.end(), true)));
  });
  for (auto& match : best)
    if (match) found.matches.push_back(std::move(*match));
  for (const auto& fault : profile.faults)
    if (std::any_of(found.matches.begin(), found.matches.end(),
                    [&](const Find_match& match) { return holds(match.codes, fault.id); })) {
      const std::string shown = displayed(fault.value.display);
      found.codes.push_back({std::string(fault.id), shown.empty() ? std::string(fault.id) : shown,
                             std::string(*fault.value.meaning)});
    }
  settle(found, {});
  return found;
}

std::vector<Found_profile> ranked(std::vector<Found_profile> profiles, std::span<const std::string> words) {
  std::vector<std::string> held; // otherwise than misspelt
  for (const std::string& word : words)
    if (std::any_of(profiles.begin(), profiles.end(), [&](const Found_profile& profile) {
          return std::any_of(profile.matches.begin(), profile.matches.end(), [&](const Find_match& match) {
            return match.word == word && match.likeness != Likeness::misspelt;
          });
        }))
      held.push_back(word);
  std::size_t most = 1;
  for (Found_profile& profile : profiles) {
    settle(profile, held);
    leave_out_what_holds_less(profile);
    most = std::max(most, profile.matches.size());
  }
  std::erase_if(profiles, [&](const Found_profile& profile) { return profile.matches.size() < most; });
  std::sort(profiles.begin(), profiles.end(), [](const Found_profile& a, const Found_profile& b) {
    return a.score != b.score ? a.score > b.score : a.file < b.file;
  });
  return profiles;
}

}
