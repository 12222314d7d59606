// Positions, UTF-8, JSON Pointer tokens, likeness of words, forms of text.
#include "ohmlore/text.h"
#include "ohmlore/value.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <iconv.h>
#include <random>
#include <string>
#include <string_view>
#include <vector>

namespace ohmlore {

std::ostream& operator<<(std::ostream& out, Position p) { return out << p.line << ':' << p.column; }
bool operator==(Position a, Position b) { return a.line == b.line && a.column == b.column; }

namespace {

using namespace std::string_view_literals;

// ---- positions

TEST(Position, counts_lines_and_columns_from_one) {
  const auto text = "ab\n\ncd"sv;
  EXPECT_EQ(position_of(text, 0), (Position{1, 1}));
  EXPECT_EQ(position_of(text, 2), (Position{1, 3})) << "a line feed belongs to the line that it ends";
  EXPECT_EQ(position_of(text, 3), (Position{2, 1}));
  EXPECT_EQ(position_of(text, 4), (Position{3, 1}));
  EXPECT_EQ(position_of(text, 5), (Position{3, 2}));
}

TEST(Position, columns_are_code_points) {
  const auto text = "Ω€😀x"sv; // two, three and four bytes
  EXPECT_EQ(position_of(text, 2), (Position{1, 2}));
  EXPECT_EQ(position_of(text, 5), (Position{1, 3}));
  EXPECT_EQ(position_of(text, 9), (Position{1, 4}));
  EXPECT_EQ(position_of("e\xCC\x81x", 3), (Position{1, 3})) << "a combining mark is a code point of its own";
}

TEST(Position, a_tab_is_one_column) { EXPECT_EQ(position_of("\t\tx", 2), (Position{1, 3})); }

TEST(Position, a_carriage_return_is_a_column_and_ends_no_line) {
  EXPECT_EQ(position_of("ab\r\ncd", 3), (Position{1, 4}));
  EXPECT_EQ(position_of("ab\r\ncd", 4), (Position{2, 1}));
  EXPECT_EQ(position_of("ab\rcd", 4), (Position{1, 5}));
}

TEST(Position, past_the_end_is_the_end) {
  EXPECT_EQ(position_of("", 0), (Position{1, 1}));
  EXPECT_EQ(position_of("", 7), (Position{1, 1}));
  EXPECT_EQ(position_of("ab", 2), (Position{1, 3}));
  EXPECT_EQ(position_of("ab", std::string_view::npos), (Position{1, 3}));
  EXPECT_EQ(position_of("ab\n", 99), (Position{2, 1}));
}

TEST(Position, a_byte_that_is_not_utf8_is_a_column) {
  EXPECT_EQ(position_of("\xB0\xB0x", 2), (Position{1, 3}));
  EXPECT_EQ(position_of("\xE2\x82x", 2), (Position{1, 3})) << "truncated: two bytes, two columns";
  EXPECT_EQ(position_of("Ωx", 1), (Position{1, 2})) << "inside a character: as far as it was cut";
}

// More line breaks than one byte counts, in more text than is looked at together.
TEST(Position, counts_the_lines_of_long_texts) {
  std::string text;
  for (int i = 0; i < 400; ++i) text += i % 3 == 0 ? "\n" : "Ω\n";
  Position at;
  for (std::size_t i = 0; i < text.size(); ++i) {
    ASSERT_EQ(position_of(text, i).line, at.line) << i;
    at.line += text[i] == '\n';
  }
  EXPECT_EQ(position_of(std::string(1000, '\n'), 1000), (Position{1001, 1}));
}

TEST(Line, is_without_its_line_break) {
  const auto text = "one\r\ntwo\n\nfour"sv;
  EXPECT_EQ(line_at(text, 0), "one");
  EXPECT_EQ(line_at(text, 4), "one") << "the offset of the line feed itself";
  EXPECT_EQ(line_at(text, 5), "two");
  EXPECT_EQ(line_at(text, 9), "");
  EXPECT_EQ(line_at(text, 10), "four");
  EXPECT_EQ(line_at(text, 14), "four");
  EXPECT_EQ(line_at(text, 99), "four");
  EXPECT_EQ(line_at("one\n", 4), "");
  EXPECT_EQ(line_at("", 0), "");
  EXPECT_EQ(line_at("a\rb", 0), "a\rb");
}

// ---- UTF-8

// The Unicode Standard, table 3-7 "Well-Formed UTF-8 Byte Sequences"; the same as the grammar of RFC 3629,
// section 4 (both from memory; the next test compares with a decoder that knows neither page).
struct Row {
  unsigned first_low, first_high, second_low, second_high, length;
};
constexpr std::array<Row, 9> table_3_7 = {{{0x00, 0x7F, 0, 0, 1},
                                           {0xC2, 0xDF, 0x80, 0xBF, 2},
                                           {0xE0, 0xE0, 0xA0, 0xBF, 3},
                                           {0xE1, 0xEC, 0x80, 0xBF, 3},
                                           {0xED, 0xED, 0x80, 0x9F, 3},
                                           {0xEE, 0xEF, 0x80, 0xBF, 3},
                                           {0xF0, 0xF0, 0x90, 0xBF, 4},
                                           {0xF1, 0xF3, 0x80, 0xBF, 4},
                                           {0xF4, 0xF4, 0x80, 0x8F, 4}}};

unsigned length_by_table(std::string_view bytes) {
  auto at = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(bytes[i])); };
  for (const Row& row : table_3_7) {
    if (at(0) < row.first_low || at(0) > row.first_high) continue;
    if (bytes.size() < row.length) return 0;
    if (row.length > 1 && (at(1) < row.second_low || at(1) > row.second_high)) return 0;
    for (unsigned i = 2; i < row.length; ++i)
      if (at(i) < 0x80 || at(i) > 0xBF) return 0;
    return row.length;
  }
  return 0;
}

// Calls `check` with sequences of every first and second byte and of third and fourth bytes at and around
// the ends of the continuation range, cut to every length.
template <class Check>
void for_byte_sequences(Check check) {
  constexpr std::array<unsigned, 6> tails = {0x80, 0xBF, 0x00, 0x7F, 0xC0, 0xFF};
  std::string bytes(4, '\0');
  for (unsigned first = 0; first < 256; ++first) {
    // What stands behind a sequence cannot matter: one tail there is enough.
    const std::size_t thirds = first >= 0xE0 ? tails.size() : 1;
    const std::size_t fourths = first >= 0xF0 ? tails.size() : 1;
    for (unsigned second = 0; second < 256; ++second)
      for (std::size_t third = 0; third < thirds; ++third)
        for (std::size_t fourth = 0; fourth < fourths; ++fourth) {
          bytes[0] = static_cast<char>(first);
          bytes[1] = static_cast<char>(second);
          bytes[2] = static_cast<char>(tails[third]);
          bytes[3] = static_cast<char>(tails[fourth]);
          for (std::size_t size = 1; size <= 4; ++size) check(std::string_view(bytes).substr(0, size));
        }
  }
}

TEST(Utf8, is_what_table_3_7_allows) {
  std::size_t well_formed = 0;
  for_byte_sequences([&](std::string_view bytes) {
    const unsigned expected = length_by_table(bytes);
    well_formed += expected != 0;
    ASSERT_EQ(utf8_length(bytes, 0), expected) << testing::PrintToString(std::string(bytes));
  });
  EXPECT_GT(well_formed, 10'000u);
}

// glibc's decoder, to UTF-32 (which has no surrogates either).
TEST(Utf8, agrees_with_iconv) {
  const iconv_t decoder = iconv_open("UTF-32LE", "UTF-8");
  ASSERT_NE(decoder, reinterpret_cast<iconv_t>(-1)); // NOLINT: the interface of iconv
  for_byte_sequences([&](std::string_view bytes) {
    iconv(decoder, nullptr, nullptr, nullptr, nullptr);
    std::string in(bytes);
    std::array<char32_t, 8> out{};
    char* from = in.data();
    char* to = reinterpret_cast<char*>(out.data());
    std::size_t left = in.size();
    std::size_t room = 4; // one code point
    iconv(decoder, &from, &left, &to, &room);
    const auto length = static_cast<unsigned>(in.size() - left);
    ASSERT_EQ(utf8_length(bytes, 0), length) << testing::PrintToString(in);
    std::size_t offset = 0;
    const char32_t read = next_code_point(bytes, offset);
    ASSERT_EQ(read, length == 0 ? char32_t{0xFFFD} : out[0]) << testing::PrintToString(in);
    ASSERT_EQ(offset, length == 0 ? 1 : length);
  });
  iconv_close(decoder);
}

TEST(Utf8, every_code_point_is_written_as_it_is_read) {
  for (char32_t c = 0; c <= 0x10FFFF; ++c) {
    if (c >= 0xD800 && c <= 0xDFFF) continue;
    std::string text;
    append_code_point(text, c);
    std::size_t offset = 0;
    ASSERT_EQ(next_code_point(text, offset), c);
    ASSERT_EQ(offset, text.size());
  }
}

TEST(Utf8, the_first_ill_formed_byte_is_found_wherever_it_stands) {
  EXPECT_EQ(find_invalid_utf8(""), std::string_view::npos);
  EXPECT_EQ(find_invalid_utf8("Ω and 😀, and plain text behind"), std::string_view::npos);
  const std::string plain(40, 'a');
  for (std::size_t at = 0; at < plain.size(); ++at) { // the search takes eight bytes at a time
    std::string text = plain;
    text[at] = '\xFF';
    EXPECT_EQ(find_invalid_utf8(text), at);
    EXPECT_EQ(find_invalid_utf8(text, at), at);
    EXPECT_EQ(find_invalid_utf8(text, at + 1), std::string_view::npos);
  }
  for (unsigned byte = 0x80; byte < 256; ++byte)
    EXPECT_EQ(find_invalid_utf8(std::string("a") + static_cast<char>(byte) + "a"), 1u) << byte;
  EXPECT_EQ(find_invalid_utf8("aaaaaaa\xCE"), 7u) << "cut by the end of the text";
  EXPECT_EQ(find_invalid_utf8("a", 5), std::string_view::npos);
}

TEST(Utf8, code_points_count_bad_bytes_one_by_one) {
  EXPECT_EQ(code_points(""), 0u);
  EXPECT_EQ(code_points("10 kΩ"), 5u);
  EXPECT_EQ(code_points("\xED\xA0\x80"), 3u) << "a surrogate is not UTF-8";
  EXPECT_EQ(code_points("\xF0\x9F\x98"), 3u);
}

TEST(Plain_prefix, ends_before_the_first_byte_that_is_not_printable_ascii) {
  for (unsigned byte = 0; byte < 256; ++byte)
    for (std::size_t at = 0; at < 20; ++at) { // eight bytes are looked at together
      std::string text(20, '~');
      text[at] = static_cast<char>(byte);
      ASSERT_EQ(plain_prefix(text), byte >= 0x20 && byte <= 0x7E ? text.size() : at) << byte;
    }
  EXPECT_EQ(plain_prefix(""), 0u);
}

// ---- for terminals

TEST(Printable, plain_text_stays) { EXPECT_EQ(printable("10 kΩ ±5 % – “ok” 😀"), "10 kΩ ±5 % – “ok” 😀"); }

TEST(Printable, nothing_reaches_the_terminal_as_a_command) {
  EXPECT_EQ(printable("\x1B[31mred\x1B[0m"), "\\u{001B}[31mred\\u{001B}[0m");
  EXPECT_EQ(printable("\x1B]0;title\x07"), "\\u{001B}]0;title\\u{0007}");
  EXPECT_EQ(printable("\xC2\x9B"
                      "31m"),
            "\\u{009B}31m")
      << "the one-character form of ESC [";
  EXPECT_EQ(printable("a\tb\nc\rd\x08"), "a\\u{0009}b\\u{000A}c\\u{000D}d\\u{0008}");
  EXPECT_EQ(printable(std::string_view("\0\x7F", 2)), "\\u{0000}\\u{007F}");
}

TEST(Printable, text_cannot_be_shown_in_another_order) {
  // Unicode Bidirectional Algorithm (UAX 9), section 2: LRE RLE PDF LRO RLO, LRI RLI FSI PDI, LRM RLM ALM.
  for (const char32_t c : U"\u202A\u202B\u202C\u202D\u202E\u2066\u2067\u2068\u2069\u200E\u200F\u061C"sv) {
    std::string text;
    append_code_point(text, c);
    EXPECT_TRUE(printable(text).starts_with("\\u{")) << std::hex << static_cast<std::uint32_t>(c);
  }
  EXPECT_EQ(printable("a\u202Eb"), "a\\u{202E}b");
}

TEST(Printable, line_separators_break_no_line) {
  EXPECT_EQ(printable("a\u2028b\u2029c"), "a\\u{2028}b\\u{2029}c");
}

// Default_Ignorable_Code_Point of Unicode 14.0, DerivedCoreProperties.txt.
TEST(Printable, what_is_not_seen_is_shown) {
  EXPECT_EQ(printable("10\u200B\u00A0k\u2060\uFEFF"), "10\\u{200B}\u00A0k\\u{2060}\\u{FEFF}")
      << "a no-break space is seen";
  EXPECT_EQ(printable("\u00AD\u034F\u180E\u3164\uFE0F\U000E0041"),
            "\\u{00AD}\\u{034F}\\u{180E}\\u{3164}\\u{FE0F}\\u{E0041}");
  EXPECT_EQ(printable("e\u0301"), "e\u0301") << "a combining mark is seen on its letter";
}

// Unicode 14.0 by Perl 5.36: \p{Default_Ignorable_Code_Point}, \p{Cc}, \p{Zl}, \p{Zp} and \p{Bidi_Control};
// and U+FFF9 to U+FFFB, which Unicode (chapter 23.8) keeps for use inside of programs.
TEST(Printable, shows_of_all_code_points_those_that_are_not_seen) {
  constexpr std::array<std::array<char32_t, 2>, 19> unseen = {{{0x0000, 0x001F},
                                                               {0x007F, 0x009F},
                                                               {0x00AD, 0x00AD},
                                                               {0x034F, 0x034F},
                                                               {0x061C, 0x061C},
                                                               {0x115F, 0x1160},
                                                               {0x17B4, 0x17B5},
                                                               {0x180B, 0x180F},
                                                               {0x200B, 0x200F},
                                                               {0x2028, 0x202E},
                                                               {0x2060, 0x206F},
                                                               {0x3164, 0x3164},
                                                               {0xFE00, 0xFE0F},
                                                               {0xFEFF, 0xFEFF},
                                                               {0xFFA0, 0xFFA0},
                                                               {0xFFF0, 0xFFFB},
                                                               {0x1BCA0, 0x1BCA3},
                                                               {0x1D173, 0x1D17A},
                                                               {0xE0000, 0xE0FFF}}};
  std::size_t next = 0;
  for (char32_t c = 0; c <= 0x10FFFF; ++c) {
    if (c >= 0xD800 && c <= 0xDFFF) continue;
    while (next < unseen.size() && c > unseen[next][1]) ++next;
    std::string text;
    append_code_point(text, c);
    ASSERT_EQ(printable(text) != text, next < unseen.size() && c >= unseen[next][0])
        << std::hex << static_cast<std::uint32_t>(c);
  }
}

// RFC 8259, section 7: \uXXXX, above U+FFFF as the UTF-16 surrogate pair. The pairs by Python's json.dumps.
TEST(Printable, of_json_is_the_same_value) {
  EXPECT_EQ(printable_json("{\n  \"a\": \"10 kΩ 😀\"\n}"), "{\n  \"a\": \"10 kΩ 😀\"\n}");
  EXPECT_EQ(printable_json("\"\x7F\u009B\u00AD\u202E\uFEFF\""), R"("\u007F\u009B\u00AD\u202E\uFEFF")");
  EXPECT_EQ(printable_json("\"\U000E0000\U0001BCA0\U0001D173\U000E0041\U000E0FFFx\""),
            R"("\uDB40\uDC00\uD82F\uDCA0\uD834\uDD73\uDB40\uDC41\uDB43\uDFFFx")");
  EXPECT_EQ(printable_json(""), "");
}

TEST(Printable, twice_is_once) {
  std::string text;
  for (char32_t c = 0; c < 0x3000; ++c) append_code_point(text, c);
  text += "\xFF\xC0";
  EXPECT_EQ(printable(printable(text)), printable(text));
}

TEST(Printable, bytes_that_are_not_utf8_are_shown_as_bytes) {
  EXPECT_EQ(printable("20 \xB0"
                      "C"),
            "20 \\xB0C");
  EXPECT_EQ(printable("\xE2\x82"), "\\xE2\\x82");
}

// ---- JSON Pointer

// RFC 6901, section 5: the keys of its document, and the pointers to them.
TEST(Pointer_token, examples_of_rfc_6901) {
  const std::vector<std::pair<std::string_view, std::string_view>> examples = {
      {"foo", "foo"}, {"", ""},         {"a/b", "a~1b"},  {"c%d", "c%d"}, {"e^f", "e^f"},
      {"g|h", "g|h"}, {"i\\j", "i\\j"}, {"k\"l", "k\"l"}, {" ", " "},     {"m~n", "m~0n"}};
  for (const auto& [key, token] : examples) EXPECT_EQ(pointer_token(key), token);
  EXPECT_EQ(pointer_token("~1"), "~01") << "section 4: ~01 is ~1, not /";
}

// ---- likeness

constexpr std::array<std::string_view, 7> known = {"kind", "name", "where", "between", "at", "a1", "k"};

TEST(Nearest_word, one_slip_is_found) {
  EXPECT_EQ(nearest_word("knid", known), "kind") << "neighbours swapped";
  EXPECT_EQ(nearest_word("kindd", known), "kind") << "one too many";
  EXPECT_EQ(nearest_word("betwen", known), "between") << "one missing";
  EXPECT_EQ(nearest_word("whera", known), "where") << "one exchanged";
  EXPECT_EQ(nearest_word("between", known), "between");
}

TEST(Nearest_word, two_slips_are_found_and_three_are_not) {
  EXPECT_EQ(nearest_word("bteewen", known), "between");
  EXPECT_EQ(nearest_word("betweeeen", known), "between");
  EXPECT_EQ(nearest_word("betweeeeen", known), "");
  EXPECT_EQ(nearest_word("betxxxn", known), "");
}

TEST(Nearest_word, short_words_must_be_closer) {
  EXPECT_EQ(nearest_word("att", known), "at");
  EXPECT_EQ(nearest_word("kin", known), "kind");
  EXPECT_EQ(nearest_word("nme", known), "name");
  EXPECT_EQ(nearest_word("nm", known), "") << "two of two letters missing";
  EXPECT_EQ(nearest_word("nane", known), "name");
  EXPECT_EQ(nearest_word("fine", known), "") << "half of its letters are those of kind";
  EXPECT_EQ(nearest_word("d", known), "") << "one letter is as far from any other as can be";
  EXPECT_EQ(nearest_word("", known), "");
}

TEST(Nearest_word, the_nearest_wins_and_the_first_of_equals) {
  constexpr std::array<std::string_view, 3> words = {"trips_at", "resets_at", "reset_at"};
  EXPECT_EQ(nearest_word("reset_a", words), "reset_at");
  constexpr std::array<std::string_view, 2> equals = {"bold", "cold"};
  EXPECT_EQ(nearest_word("told", equals), "bold");
  EXPECT_EQ(nearest_word("told", std::span<const std::string_view>{}), "");
}

// The distance by its definition, every cell of the matrix: optimal string alignment (from memory).
std::size_t all_steps(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> steps(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        steps[i][j] = i + j;
        continue;
      }
      steps[i][j] = std::min(
          {steps[i - 1][j] + 1, steps[i][j - 1] + 1, steps[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        steps[i][j] = std::min(steps[i][j], steps[i - 2][j - 2] + 1);
    }
  return steps[a.size()][b.size()];
}

TEST(Nearest_word, is_found_by_the_whole_matrix_too) {
  std::mt19937 random(1);
  std::size_t found = 0;
  for (int i = 0; i < 20'000; ++i) {
    const auto word_of = [&](std::size_t shortest) {
      std::string word(shortest + random() % 6, 'a');
      for (char& c : word) c = "abcd"[random() % 4];
      return word;
    };
    const std::string word = word_of(2), candidate = word_of(1);
    const std::array<std::string_view, 1> one = {candidate};
    const bool near = all_steps(word, candidate) <= (word.size() <= 4 ? 1u : 2u);
    found += near;
    ASSERT_EQ(nearest_word(word, one), near ? candidate : "") << word << " " << candidate;
  }
  EXPECT_GT(found, 500u);
}

TEST(Nearest_word, has_two_to_64_letters) {
  EXPECT_EQ(nearest_word("ta", known), "at");
  const std::string longest(64, 'x');
  const std::array<std::string_view, 1> one = {longest};
  EXPECT_EQ(nearest_word(std::string(63, 'x') + 'y', one), longest);
  EXPECT_EQ(nearest_word(longest + 'y', one), "");
}

TEST(Nearest_word, long_nonsense_costs_nothing) {
  EXPECT_EQ(nearest_word(std::string(100'000, 'k'), known), "");
}

// ---- forms

// Every length up to one that is compared whole, and a difference at every place of it.
TEST(Name, is_the_same_where_all_letters_are) {
  for (std::size_t size = 0; size < 20; ++size) {
    const std::string name = std::string("abcdefghijklmnopqrstuvwxyz").substr(0, size);
    EXPECT_TRUE(same_name(name, std::string(name)));
    EXPECT_FALSE(same_name(name, name + "a"));
    for (std::size_t at = 0; at < size; ++at) {
      std::string other = name;
      other[at] = 'A';
      EXPECT_FALSE(same_name(name, other)) << name << " and " << other;
    }
  }
}

TEST(Id, letters_digits_underscore_and_dash) {
  for (const auto id : {"a", "Z", "0", "X4", "flow_sensor", "ntc-10k-b3977-1pct", "a_-"})
    EXPECT_TRUE(is_id(id)) << id;
  for (const auto id : {"", "_a", "-a", "a b", "a.b", "a/b", "ä", "aΩ", "a\n"}) EXPECT_FALSE(is_id(id)) << id;
  EXPECT_FALSE(is_id("a\0"sv));
  for (unsigned byte = 0; byte < 256; ++byte) {
    const char c = static_cast<char>(byte);
    const bool letter_or_digit = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    EXPECT_EQ(is_id(std::string(1, c)), letter_or_digit) << byte;
    EXPECT_EQ(is_id(std::string("a") + c), letter_or_digit || c == '_' || c == '-') << byte;
  }
  EXPECT_TRUE(is_id(std::string(64, 'a')));
  EXPECT_FALSE(is_id(std::string(65, 'a')));
}

TEST(Date, month_or_day) {
  for (const auto date :
       {"2021-03", "2021-01", "2021-12", "2021-03-01", "2021-03-31", "0000-01-01", "1999-09-29"})
    EXPECT_TRUE(is_date(date)) << date;
  for (const auto date :
       {"",          "2021",     "2021-00", "2021-13",     "2021-03-00", "2021-03-32", "2021-3",
        "2021-03-1", "21-03-01", "2021/03", "2021-03-01T", "2021-03-",   "03-2021",    "2021-0a",
        " 2021-03",  ":021-03",  "202/-03", "202:-03",     "2021-03-0/", "2021-03-1:"})
    EXPECT_FALSE(is_date(date)) << date;
}

TEST(Version, is_two_numbers) {
  for (const auto version : {"0.0", "1.0", "1.10", "10.2", "9999.9999"})
    EXPECT_TRUE(is_version(version)) << version;
  for (const auto version : {"", ".", "1", "1.", ".1", "1.0.0", "01.0", "1.00", "1.01", "10000.0", "1.10000",
                             "1.a", "a.1", "-1.0", "1.0 ", "1,0", "/.1", ":.1"})
    EXPECT_FALSE(is_version(version)) << version;
}

TEST(Inner_path, stays_below_where_it_starts) {
  for (const auto path : {"a", "Z9", "_a", "0/b", "house.schema.json", "a/b-c/_d.json", "a..b", "a/", "a-"})
    EXPECT_TRUE(is_inner_path(path)) << path;
  for (const auto path : {"", ".", "..", "/a", "-a", "../a", "a/../b", "a/./b", "a//b", "a/.b", "a\\b",
                          "C:/a", "a b", "ä", "a/b?"})
    EXPECT_FALSE(is_inner_path(path)) << path;
}

}
}
