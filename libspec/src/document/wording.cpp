#include "document/wording.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "text/cut.h"
#include "text/small_letters.h"

namespace ohmlore {

std::string_view type_name(Node_type type) {
  switch (type) {
  case Node_type::null: return "null";
  case Node_type::boolean: return "true or false";
  case Node_type::number: return "a number";
  case Node_type::string: return "text";
  case Node_type::array: return "a list";
  case Node_type::object: return "an object";
  }
  return "";
}

std::string shown(const Document& document, Node_id node) { return shortened(document.written(node), 40); }

std::string alternatives(std::span<const std::string_view> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += fmt::format("`{}`", words[i]);
  }
  return out;
}

std::string in_sentence(std::string_view text) {
  std::string out(text);
  if (out.ends_with('.')) out.pop_back();
  const bool capital = !out.empty() && out[0] >= 'A' && out[0] <= 'Z';
  const bool word = out.size() > 1 && ((out[1] >= 'a' && out[1] <= 'z') || out[1] == ' ');
  if (capital && word) out[0] = static_cast<char>(out[0] | 0x20); // "B-value" stays
  return out;
}

std::string record_name(const Record& record, int kind, std::string_view key) {
  std::string name = fmt::format("`{}`", key);
  if (key.empty()) {
    const std::string title = in_sentence(record.title);
    const bool vowel = std::string_view("aeiou").find(title[0]) != std::string_view::npos;
    name = fmt::format("{} {}", vowel ? "an" : "a", title);
  }
  if (kind >= 0)
    name += fmt::format(" of kind `{}`", record.kinds->words[static_cast<std::size_t>(kind)].text);
  return name;
}

std::string value_name(const Document& document, const Field& field, Node_id node) {
  const Node_id key = document.key_of(node);
  if (key == 0) return fmt::format("an item of `{}`", field.key);
  const Text name = document.string(key);
  return name == field.key ? fmt::format("`{}`", field.key)
                           : fmt::format("`{}` in `{}`", printable(name.substr(0, 64)), field.key);
}

std::string_view short_example(const Field& field) {
  constexpr std::size_t longest = 90; // bytes
  return field.example.size() <= longest ? field.example : std::string_view();
}

static std::string folded(std::string_view word) {
  std::string out(word);
  for (char& c : out) c = c == ' ' || c == '-' ? '_' : small_letter(c);
  return out;
}

// Whether these letters stand in a text as a word.
static bool has_word(std::string_view text, std::string_view word) {
  const auto is_letter = [&](std::size_t at) {
    return at < text.size() && text[at] >= 'a' && text[at] <= 'z';
  };
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1))
    if (!(at > 0 && is_letter(at - 1)) && !is_letter(at + word.size())) return true;
  return false;
}

// Stands in many a sentence and says of no thing what it is.
static bool is_filler(std::string_view word) {
  constexpr std::string_view fillers[] = {"and",  "for", "from", "has",   "how",   "its", "not",
                                          "that", "the", "what", "where", "which", "with"};
  return std::find(std::begin(fillers), std::end(fillers), word) != std::end(fillers);
}

// How many words of a name a description has: none where it lacks the last, which says what the thing is.
static int words_shared(std::string_view name, std::string_view doc) {
  constexpr std::size_t fewest_letters = 3;
  int shared = 0;
  for (std::size_t end = name.size(); end != std::string_view::npos;) {
    const std::size_t before = end == 0 ? std::string_view::npos : name.rfind('_', end - 1);
    const std::string_view word = name.substr(before + 1, end - before - 1); // npos + 1 is 0
    const bool has = word.size() >= fewest_letters && !is_filler(word) && has_word(doc, word);
    if (end == name.size() && !has) return 0;
    if (has) ++shared;
    end = before;
  }
  return shared;
}

std::vector<Word> described_by(std::string_view written, std::span<const Word> words) {
  const std::string name = folded(written), enclosed = fmt::format("_{}_", name);
  std::vector<Word> found;
  for (const Word& word : words)
    if (enclosed.find(fmt::format("_{}_", word.text)) != std::string::npos) found.push_back(word);
  if (!found.empty()) return found;

  int most = 1;
  for (const Word& word : words) {
    const int shared = words_shared(name, small_letters(fmt::format("{} {}", word.text, word.doc)));
    if (shared > most) found.clear();
    most = std::max(most, shared);
    if (shared == most) found.push_back(word);
  }
  return found;
}

std::string may_be_meant(std::span<const Word> words) {
  std::string list;
  for (const Word& word : words)
    list += fmt::format("{}`{}` ({})", list.empty() ? "" : " or ", word.text, in_sentence(word.doc));
  return list.empty() ? list : fmt::format("; by what they stand for, {} may be meant", list);
}

bool same_word(std::string_view written, std::string_view known) { return folded(written) == folded(known); }

std::string_view meant_word(std::string_view written, std::span<const std::string_view> known) {
  if (written.size() > 64) return {};
  const std::string plain = folded(written);
  for (const std::string_view word : known)
    if (folded(word) == plain) return word;
  const std::string_view near = nearest_word(written, known);
  return near.empty() ? nearest_word(plain, known) : near;
}

std::string id_problem(std::string_view text) {
  if (is_id(text)) return "";
  if (text.empty()) return "an id has at least one letter or digit";
  if (text[0] == '_' || text[0] == '-') return "an id begins with a letter or digit";
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t start = i;
    next_code_point(text, i);
    const std::string_view c = text.substr(start, i - start);
    if (c == " ") return "an id has no spaces; `_` or `-` may stand between words";
    if (!is_id(fmt::format("a{}", c)))
      return fmt::format("an id has no `{}`, only the letters A to Z and a to z, digits, `_` and `-`",
                         printable(c));
  }
  return fmt::format("an id has at most 64 characters, this one has {}", text.size());
}

}
