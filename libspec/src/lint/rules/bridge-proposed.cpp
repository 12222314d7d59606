#include <algorithm>
#include <span>

#include "lint/rule.h"
#include "text/small_letters.h"

namespace ohmlore::rules {
namespace {

// What a text must not tell anybody to do. A phrase is looked for as whole words, in one clause.
struct Danger {
  std::span<const std::string_view> phrases;
  std::string_view why;
};

constexpr std::string_view bridging[] = {
    "bridge the",       "bridge out",     "bridge across",  "bridge over",   "bridge contacts",
    "bridge terminals", "bridge pins",    "bridge it",      "bridge its",    "bridge them",
    "bridge both",      "bridging the",   "bridging out",   "bridging its",  "bridging it",
    "link out",         "link across",    "link terminals", "link pins",     "linking out",
    "linked out",       "loop out",       "strap out",      "jumper the",    "jumper out",
    "jumper across",    "jumper over",    "jump out",       "jump across",   "short out",
    "short across",     "short together", "short the",      "shorting out",  "shorting the",
    "bypass the",       "bypassing the",  "defeat the",     "defeating the", "short circuit the",
};
// Of these a contact may follow: "bridge X1.1 and X1.2". After an article they are things, and after wires
// what these do: no deeds.
constexpr std::string_view joining[] = {"bridge",  "bridging", "jumper",   "jumpering", "link",
                                        "linking", "short",    "shorting", "join",      "joining"};
constexpr std::string_view articles[] = {"the",  "a",     "an",      "this", "that",   "its",
                                         "each", "every", "factory", "wire", "solder", "board's"};
constexpr std::string_view wires[] = {"wires", "cores", "leads", "tracks", "cables", "which"};
// "open link X4.5": what follows is a thing.
constexpr std::string_view handling[] = {"open", "close", "cut", "check", "remove", "refit", "locate", "see"};
constexpr std::string_view done[] = {"bridged", "jumpered", "shorted", "bypassed", "defeated"};
constexpr std::string_view putting[] = {"put",    "fit",  "place",   "insert", "install", "use",
                                        "attach", "clip", "connect", "hold",   "hook",    "using"};
constexpr std::string_view bridges[] = {
    "a jumper",           "a link",           "a bridge",          "a wire bridge",
    "a wire link",        "a short wire",     "a wire across",     "a paper clip",
    "a temporary jumper", "a temporary link", "a temporary bridge"};
// "twist the two wires together"
constexpr std::string_view uniting[] = {"join",  "joining",  "twist",   "twisting",
                                        "touch", "touching", "connect", "connecting"};
constexpr std::string_view ends[] = {"wires", "cores", "tabs", "pins", "contacts", "terminals"};
// "wedge the door switch", "tape the microswitch down"
constexpr std::string_view wedging[] = {"wedge", "wedging", "override", "overriding"};
constexpr std::string_view taping[] = {"tape", "taping"};
constexpr std::string_view taped[] = {"down", "closed", "shut", "pressed"};
constexpr std::string_view devices[] = {"switch",     "switches", "microswitch", "microswitches", "interlock",
                                        "interlocks", "limiter",  "limit",       "cutout",        "safety",
                                        "thermostat", "stat",     "pressostat",  "device"};
constexpr std::string_view discharging[] = {
    "discharge it with",
    "discharge it through",
    "discharge the capacitor with",
    "discharge the capacitor through",
    "discharge them with",
    "discharge them through",
    "discharging it with",
};
constexpr std::string_view high_voltage[] = {
    "with an insulation tester",
    "use an insulation tester",
    "with an insulation resistance tester",
    "use an insulation resistance tester",
};
constexpr std::string_view spreading[] = {
    "push the tip into",    "push the tips into",  "push a tip into",       "push the probe into",
    "push the probes into", "push a probe into",   "insert the probe into", "insert the probes into",
    "insert a probe into",  "insert the tip into", "insert the tips into",  "insert a tip into",
    "back probe",           "probe the header",    "on the board's header", "on the header of the board",
};
constexpr std::string_view flames[] = {
    "with a flame",      "with an open flame", "with a naked flame", "with a lighter",
    "with a match",      "with a blowtorch",   "with a blow torch",  "with a gas torch",
    "with a blowlamp",   "with a blow lamp",   "with a candle",      "with matches",
    "cigarette lighter", "over a flame",       "over an open flame", "over a naked flame",
    "over a lighter",    "over a match",       "over a blowtorch",   "over a blow torch",
    "over a gas torch",  "over a blowlamp",    "over a blow lamp",   "over a candle",
    "use a flame",       "use an open flame",  "use a naked flame",  "use a lighter",
    "use a match",       "use a blowtorch",    "use a blow torch",   "use a gas torch",
    "use a blowlamp",    "use a blow lamp",    "use a candle",
};
constexpr std::string_view energised[] = {
    "with the power on",
    "with power on",
    "with the mains on",
    "with mains on",
    "with the supply on",
    "with supply on",
    "with the appliance on",
    "with the appliance running",
    "while energised",
    "while energized",
    "while live",
    "while it is live",
    "while it is energised",
    "under power",
    "while the appliance runs",
};
constexpr std::string_view switching_on[] = {
    "switch on the power",  "switch the power on",  "switch on the mains", "switch the mains on",
    "switch on the supply", "switch the supply on", "turn on the power",   "turn the power on",
    "turn on the mains",    "turn the mains on",    "turn on the supply",  "turn the supply on",
    "restore power",        "restore the power",    "restore supply",      "restore the supply",
    "apply power",          "apply mains",          "apply the mains",
};
constexpr std::string_view negations[] = {"never", "not",    "don't",   "dont",     "no",      "without",
                                          "avoid", "cannot", "can't",   "mustn't",  "nothing", "neither",
                                          "nor",   "nobody", "instead", "forbidden"};

// After a deed: "bridging the switch is forbidden".
constexpr std::string_view refusals[] = {"is forbidden", "is not allowed", "must not", "is never", "may not"};

constexpr Danger bridge = {
    bridging, "a safety device or switch is measured, never bridged, shorted, wedged or overridden"};
constexpr Danger flame = {flames, "a part is warmed by hand or with warm water, never with a flame"};
constexpr Danger charge = {discharging,
                           "a stored charge is waited for and verified gone, never discharged with a tool"};
constexpr Danger insulation = {high_voltage,
                               "an ohmmeter is what these tests are for; 500 V ruins electronics"};
constexpr Danger spread = {spreading, "leads touch the withdrawn plug; a contact that is spread, or a header "
                                      "that is bent, is the next fault"};
constexpr Danger live = {energised, "every test is done dead, with all supplies isolated and proved dead"};
constexpr Danger power = {switching_on,
                          "every test is done dead, with all supplies isolated and proved dead"};

constexpr bool beyond_ascii(char c) { return static_cast<unsigned char>(c) >= 0x80; }
constexpr bool in_word(char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || beyond_ascii(c); }

// How many bytes a sign beyond ASCII has with which the text begins, 0 where it begins with none: General
// Punctuation (dashes, quotation marks, "…"), the no-break space, "«" and "»".
std::size_t length_of_sign(Text text) {
  if (text.starts_with("\xE2\x80")) return 3;
  for (const std::string_view sign : {"\u00A0", "«", "»"})
    if (text.starts_with(sign)) return sign.size();
  return 0;
}

// Lower-case words and commas with one space before and after each, clause by clause. The point of a contact
// (X4.1) ends no clause, and an apostrophe no word.
std::vector<std::string> clauses_of(Text text) {
  constexpr std::string_view apostrophe = "\u2019";
  std::vector<std::string> clauses = {" "};
  for (std::size_t i = 0, size = 1; i < text.size(); i += size) {
    const std::size_t sign = length_of_sign(text.substr(i));
    size = std::max<std::size_t>(sign, 1);
    const char c = text.substr(i).starts_with(apostrophe) ? '\'' : small_letter(text[i]);
    const Text behind = text.substr(i + size);
    const bool within_word = clauses.back().back() != ' ' && !behind.empty() &&
                             in_word(small_letter(behind.front())) && length_of_sign(behind) == 0;
    if (c == '.' || c == '\'' ? within_word : sign == 0 && in_word(c)) {
      clauses.back() += c;
    } else if (c == '.' || c == ';' || c == ':' || c == '!' || c == '?') {
      clauses.emplace_back(" ");
    } else {
      if (clauses.back().back() != ' ') clauses.back() += ' ';
      if (c == ',') clauses.back() += ", ";
    }
  }
  for (std::string& clause : clauses)
    if (clause.back() != ' ') clause += ' ';
  return clauses;
}

// Where whole words stand in a clause, or npos.
std::size_t find_words(std::string_view clause, std::string_view words, std::size_t from = 0) {
  std::size_t at = clause.find(words, from);
  while (at != std::string_view::npos && !(clause[at - 1] == ' ' && clause[at + words.size()] == ' '))
    at = clause.find(words, at + 1);
  return at;
}

bool negated(std::string_view before) {
  return std::any_of(std::begin(negations), std::end(negations), [&](std::string_view word) {
    return find_words(before, word) != std::string_view::npos;
  });
}

// The first four letters of a word, as one number.
constexpr std::uint32_t stem(std::string_view word) {
  std::uint32_t letters = 0;
  for (const char c : word.substr(0, 4)) letters = letters << 8 | static_cast<unsigned char>(c);
  return letters;
}

// Whether a word begins like one that every dangerous phrase holds: what nearly no text does.
bool may_be_dangerous(Text text) {
  constexpr std::uint32_t stems[] = {
      stem("across"),  stem("appliance"), stem("blow"),       stem("bridge"),    stem("bypass"),
      stem("candle"),  stem("defeat"),    stem("discharge"),  stem("energised"), stem("flame"),
      stem("header"),  stem("insert"),    stem("insula"),     stem("join"),      stem("jumper"),
      stem("lighter"), stem("link"),      stem("live"),       stem("loop"),      stem("mains"),
      stem("match"),   stem("override"),  stem("paper clip"), stem("power"),     stem("probe"),
      stem("push"),    stem("short"),     stem("shunt"),      stem("strap"),     stem("supply"),
      stem("tape"),    stem("taping"),    stem("together"),   stem("torch"),     stem("wedge")};
  static_assert(std::is_sorted(std::begin(stems), std::end(stems)));
  std::uint32_t letters = 0;
  int length = 0;
  for (const char raw : text) {
    const char c = small_letter(raw);
    if (!in_word(c) || beyond_ascii(c)) {
      length = 0;
      continue;
    }
    letters = letters << 8 | static_cast<unsigned char>(c);
    if (++length == 4 && std::binary_search(std::begin(stems), std::end(stems), letters)) return true;
  }
  return false;
}

bool refused(std::string_view after) {
  return std::any_of(std::begin(refusals), std::end(refusals), [&](std::string_view words) {
    return find_words(after, words) != std::string_view::npos;
  });
}

// "x1.1"
bool is_contact(std::string_view word) {
  const std::size_t point = word.find('.');
  return point != std::string_view::npos && point > 0 && point + 1 < word.size() &&
         std::any_of(word.begin() + static_cast<std::ptrdiff_t>(point), word.end(), is_digit);
}

std::vector<std::string_view> words_of(std::string_view clause) {
  std::vector<std::string_view> words;
  for (std::size_t at = 1, end; (end = clause.find(' ', at)) != std::string_view::npos; at = end + 1)
    words.push_back(clause.substr(at, end - at));
  return words;
}

template <class Words>
bool is_one_of(std::string_view word, const Words& words) {
  return std::find(std::begin(words), std::end(words), word) != std::end(words);
}

// "easily", "then"
bool is_adverb(std::string_view word) {
  constexpr std::string_view others[] = {"then", "also", "now", "even", "still", "over", "time"};
  return word.ends_with("ly") || is_one_of(word, others);
}

// Whether a word that may be a verb is one, behind these: "and bridge", "temporarily bypass".
bool begins_deed(std::span<const std::string_view> before) {
  constexpr std::string_view leading[] = {",",   "to",  "and", "or",   "please",
                                          "you", "can", "may", "must", "should"};
  return before.empty() || is_one_of(before.back(), leading) || is_adverb(before.back());
}

// A stretch of a clause.
std::string_view from_to(std::string_view first, std::string_view last) {
  return {first.data(), static_cast<std::size_t>(last.data() + last.size() - first.data())};
}

// "short 0.5 m leads", which is no contact
bool is_length(std::string_view number, std::string_view unit) {
  constexpr std::string_view units[] = {"m", "mm", "cm", "mm²", "mm2"};
  return is_digit(number.front()) && is_one_of(unit, units);
}

// "with X4.5 and X4.6 bridged at the factory"
bool is_as_made(std::span<const std::string_view> after) {
  constexpr std::string_view made[] = {"internally", "factory", "maker"};
  constexpr std::string_view things[] = {"plug", "socket", "connector", "harness", "terminals"};
  for (std::size_t i = 0; i < std::min<std::size_t>(after.size(), 3); ++i)
    if (is_one_of(after[i], made)) return i + 1 == after.size() || !is_one_of(after[i + 1], things);
  return false;
}

// "a bridge rectifier", "a linkage"
bool is_part_of_a_name(std::string_view after) {
  constexpr std::string_view names[] = {"rectifier", "meter", "cable", "tap",
                                        "key",       "clamp", "box",   "holder"};
  if (after.empty() || after.front() != ' ') return !after.empty();
  after.remove_prefix(1);
  return is_one_of(after.substr(0, after.find(' ')), names);
}

// "twist the two wires of the limiter together", but not "together again" or "both tips together"
std::string_view united_in(std::span<const std::string_view> words) {
  const auto together = std::find(words.begin(), words.end(), "together");
  if (together == words.end() || (together + 1 != words.end() && *(together + 1) == "again")) return {};
  bool any_end = false;
  for (auto word = together; word != words.begin() && *--word != ",";) {
    if (*word == "tips" || *word == "probes") return {};
    if (is_one_of(*word, uniting)) return any_end ? from_to(*word, *together) : std::string_view();
    any_end = any_end || is_one_of(*word, ends);
  }
  return {};
}

// "wedge the door switch", "tape down a microswitch" and, at the beginning, "wedge door switch"; but not "the
// override of the thermostat", "any tape that holds", "push the wedge down" or "override switch".
bool is_deed(std::span<const std::string_view> words, std::size_t i) {
  constexpr std::string_view determiners[] = {"the", "a", "an", "its", "both", "all", "any", "each", "your"};
  const auto word = [&](std::size_t k) { return k < words.size() ? words[k] : std::string_view(); };
  if (is_one_of(word(i + 1), determiners)) return true;
  if (is_one_of(words[i], taping) && word(i + 1) == "down") return true;
  return i == 0 && (is_one_of(word(2), devices) || (is_one_of(word(1), devices) && word(0) != "override"));
}

// "wedge the door switch", "tape the microswitch down", but not "tape the leads down, away from the switch".
std::string_view disabled_in(std::span<const std::string_view> words) {
  constexpr std::string_view elsewhere[] = {",",     "and",   "so",   "then", "until",  "not",
                                            "that",  "which", "for",  "with", "near",   "beside",
                                            "below", "above", "away", "next", "behind", "inside"};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool tapes = is_one_of(words[i], taping);
    if ((!tapes && !is_one_of(words[i], wedging)) || !is_deed(words, i)) continue;
    bool any_device = false, any_end = !tapes;
    for (std::size_t k = i + 1; k < words.size() && !is_one_of(words[k], elsewhere); ++k) {
      any_device = any_device || is_one_of(words[k], devices);
      any_end = any_end || is_one_of(words[k], taped);
      if (any_device && any_end) return from_to(words[i], words[k]);
    }
  }
  return {};
}

// "bridge limit thermostat", "jump the limit stat", but not "bypass thermostat T3", which may be one's name
std::string_view bridged_device_in(std::span<const std::string_view> words) {
  constexpr std::string_view deeds[] = {"bridge", "jumper", "jump", "bypass", "shunt"};
  constexpr std::string_view before_a_name[] = {"the",  "a",        "high",  "low",      "limit",
                                                "flow", "pressure", "air",   "gas",      "door",
                                                "flue", "water",    "level", "overheat", "safety"};
  constexpr std::string_view no_names[] = {"limiter", "stat",      "thermostat",
                                           "cutout",  "interlock", "pressostat"};
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    if (!is_one_of(words[i], deeds) || !begins_deed(words.first(i)) || (words[i] == "bypass" && i == 0))
      continue;
    if (is_one_of(words[i + 1], no_names)) return from_to(words[i], words[i + 1]);
    std::size_t k = i + 1;
    while (k < words.size() && is_one_of(words[k], before_a_name)) ++k;
    if (k > i + 1 && k < words.size() && is_one_of(words[k], devices)) return from_to(words[i], words[k]);
  }
  return {};
}

bool is_way(std::string_view word) {
  return !word.empty() && word.size() <= 2 && std::all_of(word.begin(), word.end(), is_digit);
}

// "bridge 3 and 4", "short pins 3-4"; but not "links 3 and 4", "short 3 to 4 m leads" or "link 3 and 4 are
// cut"
std::string_view joined_ways_in(std::span<const std::string_view> words) {
  constexpr std::string_view between[] = {"and", "to", "with"};
  constexpr std::string_view behind_ways[] = {"at",  "with",     "on",  "using", "by",
                                              "and", "together", "for", "then",  ","};
  constexpr std::string_view states[] = {"are", "is", "must", "stay", "remain", "were", "may"};
  const auto word = [&](std::size_t k) { return k < words.size() ? words[k] : std::string_view(); };
  for (std::size_t i = 0; i + 2 < words.size(); ++i) {
    if (!is_one_of(words[i], joining) || !begins_deed(words.first(i))) continue;
    const bool named = is_one_of(word(i + 1), ends);
    const std::size_t first = i + (named ? 2 : 1);
    const bool apart = is_one_of(word(first + 1), between);
    const std::size_t second = first + (apart ? 2 : 1);
    if (!named && !apart && (words[i] == "jumper" || words[i] == "link")) continue; // "jumper 1-2: LPG"
    if (!is_way(word(first)) || !is_way(word(second))) continue;
    const std::string_view next = word(second + 1);
    if (named ? !is_one_of(next, states) : next.empty() || is_one_of(next, behind_ways))
      return from_to(words[i], words[second]);
  }
  return {};
}

// Two contacts that are to be joined, or a switch to be held, in words that no list of phrases holds; empty
// where there are none.
std::string_view joined_contacts_in(std::string_view clause) {
  const std::vector<std::string_view> words = words_of(clause);
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    const bool deed = i == 0 || !(is_one_of(words[i - 1], articles) || is_one_of(words[i - 1], wires) ||
                                  (i == 1 && is_one_of(words[0], handling)));
    if (deed && is_one_of(words[i], joining) && is_contact(words[i + 1]) &&
        !(i + 2 < words.size() && is_length(words[i + 1], words[i + 2])))
      return from_to(words[i], words[i + 1]);
    if (words[i] == "with") // "with the limiter bridged"
      for (std::size_t k = i + 1; k < words.size(); ++k)
        if (is_one_of(words[k], done) && !negated(from_to(words[i], words[k])) &&
            !is_as_made(std::span(words).subspan(k + 1)))
          return from_to(words[i], words[k]);
    if (!is_one_of(words[i], putting)) continue;
    const std::string_view rest = from_to(words[i + 1], words.back());
    for (const std::string_view thing : bridges)
      if (rest.starts_with(thing) && !is_part_of_a_name(rest.substr(thing.size())))
        return from_to(words[i], rest.substr(0, thing.size()));
  }
  for (const auto find : {united_in, disabled_in, bridged_device_in, joined_ways_in})
    if (const std::string_view found = find(words); !found.empty()) return found;
  return {};
}

// "never bridge the switch", and "the switch is bridged by nobody"
bool is_told(std::string_view clause, std::size_t at) {
  return at != std::string_view::npos && !negated(clause.substr(0, at)) && !refused(clause.substr(at));
}

// "take the link out", "the factory link across", "a short across": a thing that is there. "with a link
// across" and "put the link across" tell to bring it there. "To test this bridge the two" and "with a piece
// of wire short the pins" name no thing.
bool is_thing(std::string_view before, std::string_view phrase) {
  constexpr std::string_view of_a_thing[] = {"the", "a", "an", "its", "every", "factory", "board's"};
  constexpr std::string_view kinds[] = {"automatic", "manual", "hydraulic", "internal",
                                        "external",  "fixed",  "existing",  "differential"};
  const std::vector<std::string_view> words = words_of(before);
  if (phrase.starts_with("short circuit")) return !begins_deed(words);
  if (phrase.ends_with(" the")) {
    std::size_t article = words.size();
    if (article > 0 && is_one_of(words[article - 1], kinds))
      --article; // "the automatic bypass the installer fitted"
    return article > 0 && is_one_of(words[article - 1], of_a_thing);
  }
  std::size_t first = words.size();
  while (first > 0 && is_one_of(words[first - 1], articles)) --first;
  if (first == words.size()) return false;
  const std::string_view deed = first > 0 ? words[first - 1] : std::string_view();
  if (deed == "with" || is_one_of(deed, putting)) return false;
  const bool is_new = words[first] == "a" || words[first] == "an";
  return !is_new || phrase.ends_with(" out") || phrase.starts_with("short ") || phrase.starts_with("jump ");
}

// "water bridging the pins" and "water can easily bridge the contacts" tell what happens, "you then can
// bridge" what to do.
bool happens(std::string_view before) {
  constexpr std::string_view dirt[] = {"water", "condensate", "moisture", "damp",     "dirt",
                                       "dust",  "soot",       "lint",     "debris",   "swarf",
                                       "salt",  "solder",     "flux",     "corrosion"};
  constexpr std::string_view may[] = {"can", "could", "may", "might", "will", "would"};
  constexpr std::string_view persons[] = {"you",        "we",        "one",    "anyone",   "person",
                                          "people",     "they",      "he",     "she",      "who",
                                          "engineer",   "fitter",    "user",   "customer", "owner",
                                          "technician", "installer", "tester", "plumber",  "electrician"};
  std::vector<std::string_view> words = words_of(before);
  if (!words.empty() && is_one_of(words.back(), dirt)) return true;
  const auto drop_adverbs = [&] {
    while (!words.empty() && is_adverb(words.back())) words.pop_back();
  };
  if (words.size() > 2 && words.back() == "and") words.resize(words.size() - 2); // "can touch and bridge"
  drop_adverbs();
  if (words.empty() || !is_one_of(words.back(), may)) return false;
  words.pop_back();
  drop_adverbs();
  if (words.empty()) return false;
  std::string_view who = words.back();
  if (who.ends_with('s')) who.remove_suffix(1);
  return !is_one_of(who, persons);
}

// "jump out of the band", "while live-referenced", "with mains on ways 1 and 2", "with the supply on the
// left", "with a match mark", "under power relay K2", "push the probe into its pocket"; and "short the test
// leads together", which nulls a meter.
bool means_otherwise(std::string_view phrase, std::string_view after) {
  constexpr std::string_view places[] = {"pin",      "pins",     "way",       "ways", "contact",
                                         "contacts", "terminal", "terminals", "its"};
  constexpr std::string_view sides[] = {"left", "right", "top",   "bottom", "front", "back",
                                        "rear", "upper", "lower", "side",   "other"};
  constexpr std::string_view no_flames[] = {"mark",  "marks",  "stripe",   "colour",    "color",
                                            "wire",  "rod",    "detector", "electrode", "sensor",
                                            "guard", "signal", "present",  "that"};
  constexpr std::string_view no_power[] = {"relay", "supply", "board", "module", "transformer"};
  constexpr std::string_view pockets[] = {"pocket", "well", "thermowell", "sleeve"};
  constexpr std::string_view of_meter[] = {"leads", "probes", "tips"};
  const std::vector<std::string_view> words = words_of(after);
  if (words.empty()) return false;
  const auto word = [&](std::size_t i) { return i < words.size() ? words[i] : std::string_view(); };
  const std::string_view next = words.front();
  if (phrase.ends_with(" out")) return next == "of";
  if (phrase.ends_with(" live")) return next == "referenced";
  if (phrase.ends_with(" on"))
    return is_one_of(next, places) || is_contact(next) || (next == "the" && is_one_of(word(1), sides));
  if (phrase.ends_with(" flame") || phrase.ends_with(" match") || phrase.ends_with(" lighter"))
    return is_one_of(next, no_flames);
  if (phrase == "under power") return is_one_of(next, no_power);
  if (phrase.ends_with(" into")) return is_one_of(word(1), pockets) || is_one_of(word(2), pockets);
  if (!phrase.starts_with("short")) return false;
  const std::size_t thing = next == "test" || next == "meter" ? 1 : 0;
  // Leads alone may be those of a switch that was unplugged.
  return is_one_of(word(thing), of_meter) && word(thing + 1) == "together" && (thing == 1 || next != "leads");
}

// The words of a danger that a clause tells to bring about; empty where there are none.
std::string_view told(std::string_view clause, const Danger& danger) {
  for (const std::string_view phrase : danger.phrases)
    for (std::size_t at = find_words(clause, phrase); at != std::string_view::npos;
         at = find_words(clause, phrase, at + 1))
      if (is_told(clause, at) &&
          !(&danger == &bridge &&
            (is_thing(clause.substr(0, at), phrase) || happens(clause.substr(0, at)))) &&
          !means_otherwise(phrase, clause.substr(at + phrase.size())))
        return phrase;
  if (&danger != &bridge) return {};
  const std::string_view words = joined_contacts_in(clause);
  if (words.empty()) return {};
  const auto at = static_cast<std::size_t>(words.data() - clause.data());
  return is_told(clause, at) && !happens(clause.substr(0, at)) ? words : std::string_view();
}

using Dangers = std::span<const Danger* const>;
// What may stand in a text: that which is done before a test, in its note, and in any other note.
constexpr const Danger* of_work[] = {&bridge, &flame, &live, &power, &charge, &insulation, &spread};
constexpr const Danger* of_tests[] = {&bridge, &flame, &live, &charge, &insulation, &spread};
constexpr const Danger* of_notes[] = {&bridge, &flame, &charge};

void report_danger(Sink& sink, const Value<Text>& text, Dangers dangers) {
  for (const std::string& clause : clauses_of(*text))
    for (const Danger* danger : dangers) {
      const std::string_view words = told(clause, *danger);
      if (words.empty()) continue;
      sink.report(
          text.node,
          fmt::format(
              "this text says \"{}\": {}; take that out, or word it otherwise where something else is meant",
              words, danger->why));
      return;
    }
}

void check_text(Sink& sink, const Value<Text>& text, Dangers dangers) {
  if (text && may_be_dangerous(*text)) report_danger(sink, text, dangers);
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    for (const Value<Text>& step : test.before) check_text(sink, step, of_work);
    for (const Value<Text>& what : test.disconnect_also) check_text(sink, what, of_work);
    check_text(sink, test.response.how, of_work);
    check_text(sink, test.note, of_tests);
  });
  for (const Resolved_component& component : subject.resolved.components)
    check_text(sink, component.own->note, of_notes);
  each_fault(subject, [&](Text, const Fault& fault) {
    check_text(sink, fault.note, of_notes);
    for (const Suspect& suspect : fault.suspects)
      for (const Value<Text>* text : {&suspect.note, &suspect.not_decidable})
        check_text(sink, *text, of_notes);
  });
  if (const Profile* profile = subject.profile()) {
    check_text(sink, profile->appliance.note, of_notes);
    for (const Supply& supply : profile->safety.supplies) check_text(sink, supply.note, of_notes);
    for (const Hazard& hazard : profile->safety.hazards) check_text(sink, hazard.note, of_notes);
    for (const auto& circuit : profile->circuits) check_text(sink, circuit.value.note, of_notes);
    for (const auto& connector : profile->connectors) {
      check_text(sink, connector.value.note, of_notes);
      for (const auto& pin : connector.value.pins) check_text(sink, pin.value.note, of_notes);
    }
  }
}

}

extern const Rule bridge_proposed = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A text tells to bridge a contact, to warm a part with a flame, or to test live.",
    .check = check,
};

}
