// Tables out and in: cells that a spreadsheet would run or rewrite, what is refused and at which row and
// column.
#include <gtest/gtest.h>

#include <algorithm>

#include <fmt/format.h>

#include "ohmlore/canonical_json.h"
#include "ohmlore/lint.h"
#include "support/files.h"
#include "support/tables.h"

namespace ohmlore {
namespace {

const std::string profile = R"({ "format": "ohmlore/1.0", "kind": "profile", "id": "a", "revision": 1,
  "appliance": { "maker": "Orrinvale", "models": ["Larch 24 C", "Larch; 30, C"], "type": "hybrid", "fuel": "oil",
    "controller": { "part": "=1+1", "issues": [] } },
  "safety": { "supplies": [{ "kind": "mains", "isolate_at": "'spur'" }], "hazards": [] },
  "connectors": { "X1": { "label": "X1", "ways": 2, "circuit": "selv", "pins": {
    "2": { "signal": "say \"two\"", "wire": { "base": "BK", "x_b": 1 } }, "1": {} } } },
  "components": { "s": { "kind": "ntc", "name": "Sensor", "between": ["X1.1", "X1.2"], "service_limit": "3 K",
    "temperature_range": "-20 °C to 110 °C", "model": { "kind": "beta", "resistance": "10.0 kΩ", "at": "25 °C",
      "b_value": "3977 K", "b_between": "25 °C to 85 °C" } } },
  "faults": { "F1": { "display": { "kind": "text", "text": "F1" }, "meaning": "sensor", "raised": {},
    "suspects": [{ "kind": "component", "component": "s", "modes": ["open", "short"] }, { "kind": "board" }] } },
  "x_a": { "b": [1.50, null] } })";

test::Tables tables_of(const std::string& json, Csv_options options = {}) {
  test::Tables tables(options);
  const Read_result read = read_json("a", json);
  EXPECT_TRUE(tables.add(read, "a.profile.json"));
  return tables;
}

// The cell of a row (1 is the header) under the column of that name; only for tables without line breaks.
std::string cell(test::Tables& tables, const std::string& table, std::size_t row, const std::string& column) {
  const auto split = [](const std::string& text, char at) {
    std::vector<std::string> parts(1);
    bool quoted = false;
    for (const char c : text) {
      quoted = quoted != (c == '"');
      if (c == at && !quoted)
        parts.emplace_back();
      else
        parts.back() += c;
    }
    return parts;
  };
  const std::vector<std::string> rows = split(tables.of(table), '\n');
  const std::vector<std::string> names = split(rows[0].substr(0, rows[0].size() - 1), ',');
  const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), column) - names.begin());
  EXPECT_LT(at, names.size()) << column;
  return split(rows[row - 1].substr(0, rows[row - 1].size() - 1), ',')[at];
}

std::string found(const test::Tables& tables) {
  Csv_import import("t/", tables.open());
  std::vector<Finding> findings = import.findings();
  while (std::optional<Csv_document> document = import.next())
    for (Finding& finding : document->read.findings) findings.push_back(std::move(finding));
  std::string all;
  for (const Finding& finding : findings) {
    EXPECT_TRUE(find_rule(finding.rule) != nullptr ||
                std::any_of(import_problems().begin(), import_problems().end(),
                            [&](const Import_problem& problem) { return problem.slug == finding.rule; }))
        << finding.rule;
    if (!all.empty()) all += '\n';
    all += finding.file + ":" + std::to_string(finding.region.first.line) + ":" +
           std::to_string(finding.region.first.column) + " " + std::string(finding.rule) + ": " +
           finding.message;
  }
  return all;
}

// The tables with one text in one table replaced by another.
std::string found_with(const std::string& table, const std::string& from, const std::string& to,
                       const std::string& json = profile, const std::string& before = "") {
  test::Tables tables = tables_of(json);
  std::string& bytes = tables.of(table);
  bytes.insert(0, before);
  const std::size_t at = bytes.find(from);
  EXPECT_NE(at, std::string::npos) << from << "\n" << bytes;
  if (at != std::string::npos) bytes.replace(at, from.size(), to);
  return found(tables);
}

TEST(Csv, cells_are_as_the_page_says) {
  test::Tables tables = tables_of(profile);
  EXPECT_EQ(cell(tables, "profiles", 2, "id"), "a");
  EXPECT_EQ(cell(tables, "profiles", 2, "appliance_models"), "\"Larch 24 C\nLarch; 30, C\"");
  EXPECT_EQ(cell(tables, "profiles", 2, "appliance_controller_part"), "'=1+1");
  EXPECT_EQ(cell(tables, "profiles", 2, "empty"), "appliance_controller_issues safety_hazards");
  EXPECT_EQ(cell(tables, "profiles", 2, "others"), "\"{\"\"/x_a\"\":{ \"\"b\"\": [1.50, null] }}\"");
  EXPECT_EQ(cell(tables, "supplies", 2, "isolate_at"), "''spur'");
  EXPECT_EQ(cell(tables, "pins", 2, "contact"), "X1.2"); // the order of the document
  EXPECT_EQ(cell(tables, "pins", 2, "ordinal"), "1");
  EXPECT_EQ(cell(tables, "pins", 2, "signal"), "\"say \"\"two\"\"\"");
  EXPECT_EQ(cell(tables, "pins", 2, "others"), "\"{\"\"/wire/x_b\"\":1}\"");
  EXPECT_EQ(cell(tables, "components", 2, "between_2"), "X1.2");
  EXPECT_EQ(cell(tables, "components", 2, "service_limit"), "3 K");
  EXPECT_EQ(cell(tables, "components", 2, "service_limit_plus"), "3");
  EXPECT_EQ(cell(tables, "components", 2, "service_limit_unit"), "K");
  EXPECT_EQ(cell(tables, "components", 2, "temperature_range"), "'-20 °C to 110 °C");
  EXPECT_EQ(cell(tables, "components", 2, "temperature_range_low"), "253.15");
  EXPECT_EQ(cell(tables, "components", 2, "model_resistance"), "10.0 kΩ");
  EXPECT_EQ(cell(tables, "components", 2, "model_resistance_si"), "10000");
  EXPECT_EQ(cell(tables, "faults", 2, "empty"), "raised");
  EXPECT_EQ(cell(tables, "suspects", 2, "modes"), "open short");
  EXPECT_EQ(cell(tables, "suspects", 3, "kind"), "board");
  EXPECT_EQ(found(tables), "");
}

TEST(Csv, for_spreadsheets_text_is_kept_from_being_a_number) {
  test::Tables tables = tables_of(profile, {';', true});
  EXPECT_TRUE(tables.of("pins").starts_with("\xEF\xBB\xBFprofile_id;connector_id;ordinal;contact;"));
  EXPECT_NE(tables.of("components").find(";'10.0 kΩ;10000;"), std::string::npos);
  EXPECT_NE(tables.of("components").find(";'3977 K;3977;"), std::string::npos);
  EXPECT_EQ(found(tables), "");
}

// What OWASP ("CSV Injection") lists; U+FF1D, U+FF0B, U+FF0D and U+FF20 are = + - @ by Unicode's NFKC. And
// RFC 4180, section 2: what holds the delimiter, a quotation mark or a line break is quoted; with it what
// begins or ends with a space, which some programs take away.
TEST(Csv, cells_are_guarded_and_quoted) {
  const auto written = [](std::string_view meaning, Csv_options options) {
    std::string json = profile;
    json.replace(json.find("meaning\": \"") + 11, 6, meaning);
    test::Tables tables = tables_of(json, options);
    EXPECT_EQ(found(tables), "") << meaning;
    Csv_import import("", tables.open());
    const std::optional<Csv_document> back = import.next();
    EXPECT_TRUE(back && canonical_json(back->read.document) == canonical_json(read_json("a", json).document))
        << meaning;
    const std::string& faults = tables.of("faults");
    const std::size_t begin = faults.find("text" + std::string(1, options.delimiter) + "F1") + 8;
    return faults.substr(begin, faults.find(std::string(1, options.delimiter) + "raised", begin) - begin);
  };
  for (const std::string text : {"=1", "+1", "-1", "@a", "'a", "＝1", "＋1", "－1", "＠a"})
    EXPECT_NE(written(text, {}).find("'" + text), std::string::npos) << text;
  for (const std::string text : {"＜1", "？1", "＊1", "，1", "．1", "Ａ", "a=", "?", "<"})
    EXPECT_EQ(written(text, {}).find("'"), std::string::npos) << text;
  EXPECT_NE(written("a;b", {';', false}).find("\"a;b\""), std::string::npos);
  EXPECT_NE(written("a,b", {}).find("\"a,b\""), std::string::npos);
  EXPECT_EQ(written("a;b", {}).find('"'), std::string::npos);
  EXPECT_NE(written(" a", {}).find("\" a\""), std::string::npos);
  EXPECT_NE(written("a ", {}).find("\"a \""), std::string::npos);
  EXPECT_EQ(written("a b", {}).find('"'), std::string::npos);
  std::string two = profile;
  two.replace(two.find("Larch; 30, C"), 12, "Larch 30 C");
  EXPECT_NE(tables_of(two).of("profiles").find(",\"Larch 24 C\nLarch 30 C\","), std::string::npos);
}

// Unicode CLDR, short and long names of months in English and German.
TEST(Csv, for_spreadsheets_text_is_kept_from_being_a_date) {
  const auto is_guarded = [](std::string_view text) {
    std::string json = profile;
    json.replace(json.find("meaning\": \"") + 11, 6, text);
    test::Tables tables = tables_of(json, {',', true});
    EXPECT_EQ(found(tables), "");
    return tables.of("faults").find(fmt::format(",'{},", text)) != std::string::npos;
  };
  for (const std::string_view text :
       {"Jan 3",  "Mar-21", "May 2",   "OCT4",  "Sept 2",    "December 1", "Mär 21",
        "März 3", "Mai 2",  "Juni 30", "Okt 3", "Oktober 3", "dez.24",     "true",
        "Falsch", "0 A",    "9 A",     "$5",    "(3 W)",     ".5",         "$ 1"})
    EXPECT_TRUE(is_guarded(text)) << text;
  for (const std::string_view text :
       {"Mains 230 V", "Mark 5", "Deck 2", "ma 5", "May", "A 3", "truth", "/5", ":5", "#5", "$", "("})
    EXPECT_FALSE(is_guarded(text)) << text;
}

TEST(Csv, what_a_spreadsheet_makes_of_a_table_is_read) {
  const auto same = [](auto change) {
    test::Tables tables = tables_of(profile);
    for (std::string& bytes : tables.bytes) bytes = change(bytes);
    EXPECT_EQ(found(tables), "");
    Csv_import import("", tables.open());
    const std::optional<Csv_document> back = import.next();
    ASSERT_TRUE(back);
    EXPECT_EQ(canonical_json(back->read.document), canonical_json(read_json("a", profile).document));
  };
  const auto replaced = [](std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
      text.replace(at, from.size(), to);
    return text;
  };
  same([&](std::string text) { return "\xEF\xBB\xBF" + text; });
  same([&](std::string text) { return replaced(text, "\r\n", "\n"); });
  same(
      [&](std::string text) { return replaced(replaced(text, "\r\n", "\n"), "\n", "\r\n"); }); // in cells too
  same([&](std::string text) { return text.substr(0, text.size() - 2); }); // no last line end
  same([&](std::string text) { return text.substr(0, text.size() - 1); }); // nor all of one
  same([&](std::string text) { return replaced(text, "\r\n", "\r"); });
  same([&](std::string text) { return "sep=,\r\n" + text; });
  same([&](std::string text) { return text + "\r\n\r\n"; });
  same([&](std::string text) {
    return text +
           std::string(static_cast<std::size_t>(std::count(
                           text.begin(), text.begin() + static_cast<std::ptrdiff_t>(text.find('\r')), ',')),
                       ',') +
           "\r\n";
  });
}

TEST(Csv, columns_may_be_moved_or_left_out_where_nothing_needs_them) {
  test::Tables tables = tables_of(profile);
  tables.of("supplies") = "isolate_at\tkind\tprofile_id\r\n''spur'\tmains\ta\r\n";
  EXPECT_EQ(found(tables), "");
  tables.of("supplies") = "isolate_at,kind,profile_id\r\nspur,mains,a\r\n";
  EXPECT_EQ(found(tables), "");
  EXPECT_EQ(found_with("supplies", "profile_id,", "profile,"),
            "t/supplies.csv:1:1 table-malformed: the table supplies has no column profile; members of your "
            "own, and of a newer "
            "version, go into the column `others`\nt/supplies.csv:1:1 table-malformed: the table supplies "
            "needs the column "
            "profile_id");
  EXPECT_EQ(found_with("supplies", "isolate_at", "isolate_ta"),
            "t/supplies.csv:1:25 table-malformed: the table supplies has no column isolate_ta; did you mean "
            "isolate_at?");
  EXPECT_EQ(found_with("supplies", "enters_at", "note"),
            "t/supplies.csv:1:41 table-malformed: the column note stands "
            "here a second time");
}

// RFC 4180, section 2
TEST(Csv, what_is_not_rfc_4180_is_refused) {
  EXPECT_EQ(found_with("supplies", "''spur'", "a \"spur\""),
            "t/supplies.csv:2:13 table-malformed: a quotation mark stands inside of a cell that does not "
            "begin with one; "
            "write the cell in quotation marks, and this one twice (row 2)");
  EXPECT_EQ(found_with("supplies", "''spur'", "\"a\" spur"),
            "t/supplies.csv:2:14 table-malformed: text stands behind the quotation mark that ends the cell; "
            "a quotation "
            "mark inside of a cell is written twice (row 2)");
  EXPECT_EQ(found_with("supplies", "''spur'", "\"spur"),
            "t/supplies.csv:2:11 table-malformed: this quotation mark is never closed (row 2)");
  EXPECT_NE(found_with("supplies", "''spur'", "\"a\rb\""), "")
      << "a CR alone is a control character of the cell";
  EXPECT_EQ(found_with("supplies", "''spur'", "spur,"),
            "t/supplies.csv:2:1 table-malformed: the row has 9 cells and the header has 8; a cell with `,` "
            "in it stands in quotation marks (row 2)");
  EXPECT_EQ(found_with("supplies", "''spur',,,,", "''spur',,,"),
            "t/supplies.csv:2:1 table-malformed: the row has 7 cells and the header has 8 (row 2)");
  // What is not read may hold the document of the rows that follow: nothing is said of those.
  EXPECT_EQ(
      found_with("profiles", "Orrinvale", "\xB0"),
      "t/profiles.csv:2:34 utf8-malformed: byte 0xB0 is not UTF-8 here; save the table as UTF-8 (row 2)");
  EXPECT_EQ(
      found_with("profiles", "file,id",
                 "\xFF\xFE"
                 "file,id"),
      "t/profiles.csv:1:1 utf8-malformed: byte 0xFF is not UTF-8 here; save the table as UTF-8 (row 1)");
  EXPECT_EQ(
      found_with("profiles", "file,id", std::string("f\0i\0l\0e\0", 8)), // UTF-16
      "t/profiles.csv:1:2 utf8-malformed: a NUL byte stands here; remove it, or save the table as UTF-8 if "
      "it is in UTF-16 (row 1)");
  EXPECT_EQ(
      found_with("supplies", "''spur'", "\xB0"),
      "t/supplies.csv:2:11 utf8-malformed: byte 0xB0 is not UTF-8 here; save the table as UTF-8 (row 2)");
}

TEST(Csv, findings_name_row_and_column) {
  EXPECT_EQ(found_with("supplies", "mains", "mians"),
            "t/supplies.csv:2:5 word-unknown: `kind` cannot be \"mians\"; did you mean \"mains\"? (row 2, "
            "column kind)");
  EXPECT_EQ(found_with("profiles", ",1,", ",1.0,"), "t/profiles.csv:2:31 type-wrong: `revision` must be a "
                                                    "whole number, here it is 1.0; write 1 (row 2, column "
                                                    "revision)");
  const std::string comma = found_with("components", "10.0 kΩ,10000", "\"10,0 kΩ\",10000");
  EXPECT_NE(comma.find(" decimal-comma: `resistance`: "), std::string::npos) << comma;
  EXPECT_TRUE(comma.ends_with("(row 2, column model_resistance)")) << comma;
  EXPECT_NE(found_with("suspects", "open short", "open  short")
                .find("word-unknown: an item of `modes` cannot be \"\""),
            std::string::npos);
  // An empty line is a row of a spreadsheet too.
  EXPECT_EQ(found_with("supplies", "\r\na,1,mains", "\r\n\r\na,1,mians"),
            "t/supplies.csv:3:5 word-unknown: `kind` cannot be \"mians\"; did you mean \"mains\"? (row 3, "
            "column kind)");
  EXPECT_NE(found_with("supplies", "\r\na,1,mains",
                       "\r\n\xEF\xBB\xBF"
                       "a,1,mains"),
            "")
      << "no mark of the file";
  EXPECT_EQ(found_with("supplies", "a,1,mains", "a,1,mians", profile, "\r\n\r\n").substr(0, 43),
            "t/supplies.csv:4:5 word-unknown: `kind` can");
  EXPECT_TRUE(found_with("supplies", "a,1,mains", "a,1,mians", profile, "\r\n\r\n")
                  .ends_with("(row 4, column kind)"));
  // The line that names the delimiter is no row.
  EXPECT_EQ(found_with("supplies", "a,1,mains", "a,1,mians", profile, "sep=,\r\n"),
            "t/supplies.csv:3:5 word-unknown: `kind` cannot be \"mians\"; did you mean \"mains\"? (row 2, "
            "column kind)");
  for (const std::string first : {"sep=,x\r\n", "sep=,,\r\n", "sap=,\r\n"})
    EXPECT_NE(found_with("supplies", "a,1,mains", "a,1,mains", profile, first), "") << first;
  // Line and column in the file, row as a spreadsheet counts: the cell before holds a line break.
  EXPECT_EQ(found_with("profiles", ",oil,", ",peat,").substr(0, 24), "t/profiles.csv:3:22 word");
}

// The bytes of a fix would be those of a text that nobody wrote.
TEST(Csv, a_finding_has_its_bytes_in_the_table_and_a_fix_none) {
  test::Tables tables = tables_of(profile);
  std::string& bytes = tables.of("supplies");
  bytes.replace(bytes.find("mains"), 5, "mians");
  Csv_import import("t/", tables.open());
  const std::optional<Csv_document> document = import.next();
  ASSERT_TRUE(document);
  ASSERT_EQ(document->read.findings.size(), 1u);
  const Region& region = document->read.findings[0].region; // as bytes of the table
  EXPECT_EQ(bytes.substr(region.begin, region.end - region.begin), "mians");
  EXPECT_EQ(document->read.findings[0].source_line, "a,1,mians,''spur',,,,");
  const std::vector<Fix>& fixes = document->read.findings[0].fixes;
  ASSERT_EQ(fixes.size(), 1u);
  EXPECT_EQ(fixes[0].description, "write \"mains\"");
  EXPECT_EQ(fixes[0].safety, Fix_safety::display_only);
  EXPECT_TRUE(fixes[0].edits.empty());
}

// Each finding would hold it whole.
TEST(Csv, a_long_row_is_shown_around_the_place) {
  test::Tables tables = tables_of(profile);
  std::string columns;
  for (int i = 0; i < 2000; ++i) columns += fmt::format("c{:04},", i);
  tables.of("profiles").insert(0, columns);
  Csv_import import("t/", tables.open());
  const std::vector<Finding> findings = import.findings();
  ASSERT_EQ(findings.size(), 1000);
  const Finding& last = findings.back();
  EXPECT_LT(last.source_line.size(), 500);
  EXPECT_EQ(last.region.first.column, 999 * 6 + 1);
  EXPECT_EQ(last.source_line.substr(last.region.first.column - last.source_column, 5), "c0999");
}

TEST(Csv, numbers_must_agree_with_what_is_written) {
  EXPECT_EQ(found_with("components", ",10000,", ",,"), "");
  EXPECT_EQ(found_with("components", ",10000,", ",1E+04,"), "");
  EXPECT_NE(found_with("components", ",10000,", ",12000,")
                .find("number-differs: model_resistance_si says 12000 Ω, but \"10.0 kΩ\" is 10000 Ω; what is "
                      "written out "
                      "counts (row 2, column model_resistance_si)"),
            std::string::npos);
  EXPECT_NE(found_with("components", ",10000,", ",01. Okt,")
                .find("number-malformed: \"01. Okt\" is no number; write "
                      "10000, or leave it empty (row 2, column "
                      "model_resistance_si)"),
            std::string::npos);
  EXPECT_NE(found_with("components", "10.0 kΩ,10000,", ",10000,")
                .find("number-differs: a number stands here, and nothing in model_resistance; write the "
                      "quantity there, "
                      "with its unit (row 2, column model_resistance_si)"),
            std::string::npos);
  // A negative number, however its zeros are written: -5.775e-7 (IEC 60751, B).
  std::string negative = profile;
  const std::size_t beta = negative.find("\"kind\": \"beta\"");
  negative.replace(beta, negative.find('}', beta) - beta,
                   R"("kind": "polynomial", "r0": "100 Ω", "a1": "3.9083e-3 K^-1", "a2": "-5.775e-7 K^-2" )");
  for (const std::string number : {"-5.775e-07", "-05.775E-7", "-.5775e-6", "-0.0000005775"})
    EXPECT_EQ(found_with("components", ",-5.775e-07,", "," + number + ",", negative), "") << number;
  for (const std::string number : {"5.775e-07", "+5.775e-7", "--5.775e-07", "-", "-."})
    EXPECT_NE(found_with("components", ",-5.775e-07,", "," + number + ",", negative), "") << number;
  EXPECT_EQ(found_with("components", ",10000,", ",.1e5,"), "");
  EXPECT_NE(found_with("profiles", ",1,", ",1x,").find("type-wrong: `revision` must be a whole number"),
            std::string::npos);
  // `at` of this kind of model is a range: format.md, table of models.
  std::string fixed = profile;
  const std::size_t model = fixed.find("\"kind\": \"beta\"");
  fixed.replace(model, fixed.find('}', model) - model,
                R"("kind": "fixed", "resistance": "470 Ω", "at": "0 °C to 100 °C" )");
  EXPECT_EQ(found_with("components", ",373.15,", ",373.15,", fixed), "");
  EXPECT_NE(found_with("components", ",373.15,", ",380,", fixed)
                .find("number-differs: model_at_high says 380 K, but \"0 °C to 100 °C\" is 373.15 K"),
            std::string::npos);
  // Nor where it is all that its record has.
  test::Tables tables = tables_of(profile);
  tables.of("faults") =
      "profile_id,id,display_kind,display_text,meaning,raised_after_si\r\na,F1,text,F1,sensor,5\r\n";
  EXPECT_EQ(found(tables), "t/faults.csv:2:21 number-differs: a number stands here, and nothing in "
                           "raised_after; write the quantity there, with its unit (row 2, column "
                           "raised_after_si)");
  // What the metadata call a double or an integer (W3C XML Schema 1.1, part 2, 3.3.5 and 3.4.13).
  for (const std::string number : {"+10000", "010000", "10000.", "1E4", "+1.e+04", "00.1e5"})
    EXPECT_EQ(found_with("components", ",10000,", "," + number + ","), "") << number;
  for (const std::string number : {"+-10000", ".", "+", "1e", "0x2710", "10 000", "1000000 %", "INF", "NaN"})
    EXPECT_NE(found_with("components", ",10000,", "," + number + ",").find("number-malformed"),
              std::string::npos)
        << number;
  for (const std::string number : {"+1", "01", "0001"}) {
    EXPECT_EQ(found_with("profiles", ",1,", "," + number + ","), "") << number;
    EXPECT_EQ(found_with("suspects", "F1,1,", "F1," + number + ","), "") << number;
  }
  EXPECT_NE(found_with("components", ",K,", ",kg,").find("number-differs: the unit is \"kg\""),
            std::string::npos);
}

TEST(Csv, rows_belong_to_a_row_around_them) {
  EXPECT_EQ(
      found_with("suspects", "\r\na,F1,1", "\r\na,F2,1"),
      "t/suspects.csv:2:3 cell-malformed: there is no such row in faults for this document (row 2, column "
      "fault_id)");
  EXPECT_EQ(
      found_with("suspects", "\r\na,F1,1", "\r\nb,F1,1"),
      "t/suspects.csv:2:1 row-out-of-place: there is no such row in profiles (row 2, column profile_id)");
  EXPECT_EQ(found_with("suspects", "F1,2,", "F1,1,"),
            "t/suspects.csv:3:6 cell-malformed: the ordinal 1 stands twice; number the rows of one parent in "
            "their order "
            "(row 3, column ordinal)");
  EXPECT_EQ(found_with("suspects", "F1,2,", "F1,second,"),
            "t/suspects.csv:3:6 cell-malformed: \"second\" is no ordinal; write 1, 2, 3 …, or leave the "
            "column empty (row "
            "3, column ordinal)");
  for (const std::string number : {"0", "-2", "2.5", "2.0", "2e0", "20000000000", "third"})
    EXPECT_NE(found_with("suspects", "F1,2,", "F1," + number + ",").find("\" is no ordinal; write 1, 2, 3"),
              std::string::npos)
        << number;
  EXPECT_EQ(found_with("suspects", "F1,2,", "F1,7,"), ""); // a row was taken out
  EXPECT_EQ(found_with("pins", "X1.2", "X2.2"), "t/pins.csv:2:8 cell-malformed: \"X2.2\" is no contact of "
                                                "the connector X1; it begins with \"X1.\" (row 2, "
                                                "column contact)");
}

TEST(Csv, documents_stand_in_one_order_in_every_table) {
  test::Tables tables;
  std::string other = profile;
  other.replace(other.find("\"id\": \"a\""), 9, "\"id\": \"b\"");
  ASSERT_TRUE(tables.add(read_json("a", profile), "a.profile.json"));
  ASSERT_TRUE(tables.add(read_json("b", other), "b.profile.json"));
  EXPECT_EQ(found(tables), "");
  std::string& pins = tables.of("pins");
  const std::string header = pins.substr(0, pins.find("\r\n") + 2);
  const std::string of_a = pins.substr(header.size(), pins.find("b,X1") - header.size());
  pins = header + pins.substr(pins.find("b,X1")) + of_a;
  EXPECT_EQ(found(tables).substr(0, 110), "t/pins.csv:4:1 row-out-of-place: the rows of one document stand "
                                          "together, and documents in the order of profil");
  Csv_import import("", tables.open());
  EXPECT_FALSE(import.next()) << "no document is made where rows would be lost";
  pins = header;
  tables.of("profiles") += tables.of("profiles").substr(tables.of("profiles").find("b.profile"));
  EXPECT_NE(
      found(tables).find("row-out-of-place: this document stands here a second time (row 4, column id)"),
      std::string::npos)
      << found(tables);
}

TEST(Csv, a_part_and_a_profile_may_have_one_id) {
  const std::string part =
      R"({ "format": "ohmlore/1.0", "kind": "part", "id": "a", "revision": 1, "title": "Sensor",
  "sources": { "s": { "kind": "standard", "title": "of the part" } }, "source": { "from": "s" },
  "component": { "kind": "ntc", "name": "Sensor", "model": { "kind": "beta", "resistance": "10.0 kΩ", "at": "25 °C",
    "b_value": "3977 K", "b_between": "25 °C to 85 °C" } } })";
  test::Tables tables;
  ASSERT_TRUE(tables.add(read_json("a", profile), "a.profile.json"));
  ASSERT_TRUE(tables.add(read_json("a", part), "a.part.json"));
  Csv_import import("t/", tables.open());
  EXPECT_TRUE(import.findings().empty());
  for (const std::string& json : {profile, part}) {
    const std::optional<Csv_document> back = import.next();
    ASSERT_TRUE(back);
    EXPECT_EQ(canonical_json(back->read.document), canonical_json(read_json("a", json).document));
  }
  EXPECT_FALSE(import.next());
}

TEST(Csv, a_document_that_stands_twice_is_told_once) {
  test::Tables tables = tables_of(profile);
  std::string& profiles = tables.of("profiles");
  profiles += profiles.substr(profiles.find("a.profile"));
  const std::string all = found(tables);
  EXPECT_EQ(std::count(all.begin(), all.end(), '\n'), 0) << all;
}

TEST(Csv, rows_out_of_place_are_told_a_thousand_times) {
  test::Tables tables = tables_of(profile);
  std::string& supplies = tables.of("supplies");
  const std::string row = supplies.substr(supplies.find("a,1,mains"));
  for (int i = 0; i < 1100; ++i) supplies += "b" + row.substr(1);
  EXPECT_EQ(Csv_import("t/", tables.open()).findings().size(), 1000u);
}

TEST(Csv, what_stands_in_empty_and_others_must_mean_something) {
  EXPECT_NE(
      found_with("faults", ",raised,\r\n", ",raise,\r\n").find("cell-malformed: `empty` names \"raise\""),
      std::string::npos);
  EXPECT_NE(found_with("pins", "/wire/x_b", "/wir/x_b")
                .find("cell-malformed: there is no record \"/wir\" in this row for "
                      "the member `x_b` (row 2, column others)"),
            std::string::npos);
  EXPECT_NE(found_with("pins", "/wire/x_b", "/wire/y_b").find("key-unknown: "), std::string::npos);
  EXPECT_NE(found_with("pins", "\"{\"\"/wire", "\"[\"\"/wire").find("`others` is no JSON object"),
            std::string::npos);
}

TEST(Csv, tables_without_documents_are_refused) {
  EXPECT_EQ(found(test::Tables()),
            "t/profiles.csv:1:1 table-malformed: there is no row in profiles, parts or "
            "corpora: these tables hold no document");
  test::Tables none;
  for (std::string& bytes : none.bytes) bytes.clear();
  EXPECT_NE(found(none).find("has no header"), std::string::npos);
  EXPECT_EQ(found(none).find("no document"), std::string::npos) << "that is not known";
}

TEST(Csv, a_document_with_an_error_has_no_rows) {
  test::Tables tables;
  EXPECT_FALSE(tables.add(read_json("a", "{}"), "a"));
  EXPECT_EQ(tables.bytes, test::Tables().bytes);
}

TEST(Csv, damage_anywhere_is_found_or_harmless) {
  test::Tables tables = tables_of(test::larch_profile());
  const std::vector<std::string> good = tables.bytes;
  for (std::size_t table = 0; table < good.size(); ++table)
    for (std::size_t at = 0; at < good[table].size(); at += 211) {
      tables.bytes = good;
      tables.bytes[table][at] = "\",\n;'"[at % 5];
      found(tables); // must end, and touch no byte that is not its own
    }
}

}
}
