// Many files: which are read, which root governs them, which parts they see, and what is a trouble.
#include "ohmlore/corpus.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>

#include "ohmlore/convert.h"
#include "ohmlore/file_names.h"
#include "ohmlore/report.h"
#include "ohmlore/schema_engine.h"

namespace fs = std::filesystem;

namespace ohmlore {
namespace {

// A folder of its own as current folder, removed at the end.
class Corpus_run : public testing::Test {
protected:
  void SetUp() override {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(testing::TempDir()) / fmt::format("ohmlore_corpus_{}_{}", test->name(),
                                                         ::testing::UnitTest::GetInstance()->random_seed());
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "work");
    before_ = fs::current_path();
    fs::current_path(folder_ / "work");
  }
  void TearDown() override {
    fs::current_path(before_);
    fs::remove_all(folder_);
  }

  static void write(const fs::path& path, std::string_view text) {
    if (path.has_parent_path()) fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << text;
  }
  static void corpus(const fs::path& path, std::string_view members = "") {
    write(path,
          fmt::format(
              R"({{ "format": "ohmlore/1.0", "kind": "corpus", "title": "t", "licence": "CC0-1.0" {} }})",
              members));
  }
  static std::string profile_text(std::string_view id, std::string_view members) {
    return fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "{}", "revision": 1,
  "appliance": {{ "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "combination_boiler", "fuel": "natural_gas",
                  "controller": {{ "part": "{}" }} }},
  "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "fused spur" }}] }} {} }})",
                       id, id, members);
  }
  static void profile(const fs::path& path, std::string_view members = "") {
    std::string name = path.filename().string();
    write(path, profile_text(name.substr(0, name.find('.')), members));
  }
  // A profile with one sensor that names a part.
  static std::string uses(std::string_view part) {
    return fmt::format(R"(, "components": {{ "s": {{ "kind": "ntc", "name": "Sensor", "part": "{}" }} }})",
                       part);
  }
  static void part(const fs::path& path, std::string_view id, std::string_view members = "") {
    write(path, fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "part", "id": "{}", "revision": 1,
  "component": {{ "kind": "ntc", "name": "10 kΩ sensor" {} }} }})",
                            id, members));
  }

  Lint_run lint(std::vector<std::string> paths, std::optional<std::string> root = {}) {
    Lint_request request;
    request.paths = std::move(paths);
    request.root = std::move(root);
    request.options.today = "2026-01-01";
    return lint_paths(request);
  }

  // "file severity rule", without the notes of rules that are not about a corpus.
  static std::string told(const Lint_run& run) {
    std::string out;
    for (const Finding& f : run.findings)
      if (f.severity > Severity::note || find_rule(f.rule)->rule->family == Family::corpus)
        out += fmt::format("{} {} {}\n", f.file, word_of(f.severity), f.rule);
    return out;
  }
  static std::string troubles(const Lint_run& run) {
    std::string out;
    for (const std::string& trouble : run.troubles) out += trouble + '\n';
    return out;
  }

  fs::path folder_, before_;
};

constexpr std::string_view not_looked_up = "p.profile.json note part-unknown\n";
constexpr std::string_view not_there = "p.profile.json error part-unknown\n";

TEST_F(Corpus_run, misses_no_user_of_a_part_while_one_may_name_it) {
  corpus("corpus.json");
  part("parts/x.part.json", "x");
  profile("p.profile.json");
  EXPECT_EQ(told(lint({"."})), "parts/x.part.json note part-unused\n");
  profile("p.profile.json", R"(, "components": { "s": { "kind": "ntc", "name": "Sensor", "part": 7 } })");
  EXPECT_EQ(told(lint({"."})), "p.profile.json error type-wrong\n");
}

// ---- which files are read

TEST_F(Corpus_run, is_never_green_where_nothing_was_named) {
  const Lint_request nothing;
  EXPECT_EQ(lint_paths(nothing).troubles.size(), 1u);
  EXPECT_EQ(fix_paths(nothing, false).troubles.size(), 1u);
  EXPECT_EQ(merge_shards({}, nothing).troubles.size(), 1u);
  EXPECT_EQ(normalise_paths({}).troubles.size(), 1u);
  EXPECT_EQ(upgrade_paths({}).troubles.size(), 1u);
  Convert_request conversion;
  conversion.print = [](std::string_view) {};
  EXPECT_EQ(convert(conversion).troubles.size(), 1u);
}

TEST_F(Corpus_run, converts_nothing_to_nowhere) {
  profile("p.profile.json");
  Convert_request request;
  request.paths = {"p.profile.json"};
  for (const Document_form form :
       {Document_form::json, Document_form::jsonl, Document_form::xml, Document_form::csv}) {
    request.to = form;
    const Convert_run run = convert(request);
    EXPECT_EQ(run.troubles.size(), 1u);
    EXPECT_EQ(run.documents_written, 0u);
  }
}

TEST_F(Corpus_run, has_no_shard_of_none) {
  profile("a.profile.json");
  Lint_request request;
  request.paths = {"."};
  for (const Shard shard : {Shard{1, 0}, Shard{0, 4}, Shard{5, 4}}) {
    request.shard = shard;
    for (const Lint_run& run : {lint_paths(request), lint_shard(request).run}) {
      ASSERT_EQ(run.troubles.size(), 1u) << shard.number << "/" << shard.of;
      EXPECT_NE(run.troubles[0].find(fmt::format("no shard {}/{}", shard.number, shard.of)),
                std::string::npos);
    }
  }
}

TEST_F(Corpus_run, reads_documents_below_a_folder_in_order) {
  for (const char* path : {"c/b/one.profile.json", "c/a.profile.json", "c/parts/x.part.json", "c/notes.json",
                           "c/x.profile.json.bak", "c/x.profile.yaml", "c/b.profile.json"})
    write(path, "[]");
  corpus("c/corpus.json");
  const Lint_run run = lint({"c"});
  EXPECT_EQ(run.files_read, 5u);
  EXPECT_EQ(told(run), "c/a.profile.json error type-wrong\nc/b.profile.json error type-wrong\n"
                       "c/b/one.profile.json error type-wrong\nc/parts/x.part.json error type-wrong\n");
}

TEST_F(Corpus_run, leaves_out_what_is_hidden_unless_named) {
  write("c/.hidden/x.profile.json", "[]");
  write("c/.x.profile.json", "[]");
  profile("c/y.profile.json");
  EXPECT_EQ(lint({"c"}).files_read, 1u);
  EXPECT_EQ(lint({"c/.hidden/x.profile.json"}).files_read, 1u);
  EXPECT_EQ(lint({"c/.hidden"}).files_read, 1u) << "a hidden folder that is named is searched";
}

TEST_F(Corpus_run, reads_whole_what_is_longer_than_it_says) {
  const char* of_no_stated_length = "/proc/self/status";
  if (!fs::exists(of_no_stated_length)) GTEST_SKIP() << "no procfs here";
  std::string why;
  const std::string text = read_file(of_no_stated_length, why).value_or(why);
  EXPECT_TRUE(text.starts_with("Name:")) << text;
  EXPECT_NE(text.find("\nThreads:"), std::string::npos) << text;
}

TEST_F(Corpus_run, reads_any_name_that_is_given) {
  write("anything.txt", profile_text("p", ""));
  const Lint_run run = lint({"anything.txt"});
  EXPECT_EQ(run.files_read, 1u);
  EXPECT_EQ(troubles(run), "");
}

TEST_F(Corpus_run, reads_a_file_once_however_it_is_named) {
  profile("c/p.profile.json");
  fs::create_symlink("p.profile.json", "c/q.profile.json");
  const Lint_run run =
      lint({"c/p.profile.json", "c", "./c/../c/p.profile.json", fs::absolute("c/p.profile.json").string()});
  EXPECT_EQ(run.files_read, 1u);
  EXPECT_EQ(told(run), "") << "it is not a second document of its id";
}

TEST_F(Corpus_run, says_what_could_not_be_read) {
  fs::create_directories("empty");
  fs::create_directories("folder.profile.json/below");
  write("folder.profile.json/below/x.txt", "");
  const Lint_run run = lint({"missing.profile.json", "empty", "folder.profile.json"});
  EXPECT_EQ(run.files_read, 0u);
  EXPECT_EQ(troubles(run),
            "empty: holds no *.profile.json, no *.part.json and no corpus.json; `ohmlore new` begins one\n"
            "folder.profile.json: holds no *.profile.json, no *.part.json and no corpus.json; `ohmlore new` "
            "begins one\n"
            "missing.profile.json: cannot be read: No such file or directory\n");
}

TEST_F(Corpus_run, of_a_folder_whose_only_document_is_not_read_it_is_not_said_that_it_holds_none) {
  write("c/larch.Profile.json", "{}");
  EXPECT_EQ(
      troubles(lint({"c"})),
      "c/larch.Profile.json: is not read: documents are named *.profile.json, *.part.json and corpus.json, "
      "in small letters; rename it\n");
}

TEST_F(Corpus_run, a_document_that_was_named_by_its_id_is_told) {
  fs::create_directories("c");
  write("c/larch.profile.json", "{}");
  EXPECT_EQ(troubles(lint({"c/larch"})),
            "c/larch: cannot be read: No such file or directory; did you mean c/larch.profile.json?\n");
  std::string why; // of what is no document, such as a baseline, none is meant
  EXPECT_FALSE(read_file("c/larch", why));
  EXPECT_EQ(why, "No such file or directory");
}

TEST_F(Corpus_run, standard_input_stands_in_the_current_folder) {
  corpus("corpus.json");
  part("parts/x.part.json", "x");
  Lint_request request;
  request.paths = {"-"};
  request.standard_input = profile_text("p", uses("x"));
  EXPECT_EQ(told(lint_paths(request)), "");
  request.standard_input = profile_text("p", uses("y"));
  EXPECT_EQ(told(lint_paths(request)), "standard input error part-unknown\n");
}

// reports.md, "Shards": to the byte what one run says, under the policy of the corpus that each document lies
// in.
TEST_F(Corpus_run, says_merged_what_it_says_whole_of_several_corpora) {
  corpus("a/corpus.json", R"(, "policy": { "severities": { "part-unused": "off" } })");
  corpus("b/corpus.json",
         R"(, "policy": { "severities": { "part-unused": "warning" }, "fail_on": "warning" })");
  corpus("c/corpus.json", R"(, "policy": { "fail_on": "note" })");
  for (const char* folder : {"a", "b", "c"}) {
    profile(fs::path(folder) / "p.profile.json");
    part(fs::path(folder) / "parts/x.part.json", "x");
  }
  profile("of_none.profile.json", uses("x"));
  Lint_request request;
  request.paths = {"."};
  const Lint_run whole = lint_paths(request);
  EXPECT_EQ(told(whole), "b/parts/x.part.json warning part-unused\nc/parts/x.part.json note part-unused\n"
                         "of_none.profile.json note part-unknown\n");
  EXPECT_GE(whole.failing, 2u);
  std::vector<Shard_file> shards;
  for (const std::size_t number : {3u, 1u, 2u}) {
    request.shard = Shard{number, 3};
    shards.push_back({fmt::format("s{}", number), lint_shard(request).text});
  }
  request.shard.reset();
  EXPECT_EQ(json_report(merge_shards(shards, request)), json_report(whole));
}

TEST_F(Corpus_run, has_each_document_in_one_shard_wherever_it_is_run) {
  corpus("c/corpus.json");
  for (int i = 0; i < 20; ++i) profile(fmt::format("c/p{}.profile.json", i));
  const auto names = [](std::string path) {
    Lint_request request;
    request.paths = {std::move(path)};
    request.shard = Shard{1, 3};
    std::vector<std::string> of_first;
    for (const std::string& file : lint_shard(request).run.files)
      of_first.push_back(fs::path(file).filename().string());
    return of_first;
  };
  const auto from_above = names("c");
  EXPECT_EQ(names(fs::absolute("c").string()), from_above);
  fs::current_path("c");
  EXPECT_EQ(names("."), from_above);
  EXPECT_TRUE(!from_above.empty() && from_above.size() < 21) << from_above.size();
}

TEST_F(Corpus_run, names_the_shard_that_is_given_twice) {
  profile("a.profile.json");
  Lint_request request;
  request.paths = {"."};
  request.shard = Shard{1, 1};
  const std::string text = lint_shard(request).text;
  request.shard.reset();
  const std::vector<Shard_file> once = {{"s", text}}, same = {{"s", text}, {"s", text}},
                                copy = {{"s", text}, {"t", text}};
  EXPECT_EQ(troubles(merge_shards(once, request)), "");
  EXPECT_EQ(troubles(merge_shards(same, request)), "s: was given twice; leave one out\n");
  EXPECT_EQ(troubles(merge_shards(copy, request)), "t: is shard 1/1, as s is; leave one out\n");
}

// A report with the checksum that it should have: SHA-256, as keys have it of a text with line breaks.
std::string sealed(const std::string& body) { return body + "end " + text_in_keys(body).substr(7) + '\n'; }

TEST_F(Corpus_run, joins_no_shards_that_are_not_all_of_one_run) {
  corpus("corpus.json");
  for (const char* name : {"a", "b", "c", "d"}) profile(fmt::format("{}.profile.json", name));
  Lint_request request;
  request.paths = {"."};
  const auto shard = [&](std::uint32_t number, std::uint32_t of) {
    Lint_request part_of_it = request;
    part_of_it.shard = Shard{number, of};
    return lint_shard(part_of_it).text;
  };
  const auto told_of = [&](std::vector<std::string> texts) {
    std::vector<Shard_file> files;
    for (std::size_t i = 0; i < texts.size(); ++i)
      files.push_back({fmt::format("s{}", i + 1), std::move(texts[i])});
    return troubles(merge_shards(files, request));
  };
  const std::string first = shard(1, 2), second = shard(2, 2);
  EXPECT_EQ(told_of({first, second}), "");
  EXPECT_EQ(told_of({second, first}), "");
  EXPECT_EQ(told_of({"{}"}),
            "s1: is no report of a shard; write one with `ohmlore lint --shard N/OF --report shard=FILE`\n");
  constexpr std::string_view torn =
      ": is torn or was changed: its checksum is not that of what it holds; run this shard again\n";
  EXPECT_EQ(told_of({first.substr(0, first.size() - 1), second}), fmt::format("s1{}", torn));
  EXPECT_EQ(told_of({first.substr(0, first.rfind("end ")), second}), fmt::format("s1{}", torn));
  std::string changed = second;
  changed[changed.find("corpus.json")] = 'C';
  EXPECT_EQ(told_of({first, changed}), fmt::format("s2{}", torn));
  EXPECT_EQ(told_of({second}), "1 of 2 shards are here; missing: 1/2\n");
  EXPECT_EQ(told_of({shard(2, 4)}), "1 of 4 shards are here; missing: 1/4, 3/4, 4/4\n");
  EXPECT_TRUE(told_of({shard(1, 100)}).ends_with(" 14/100, 15/100\n")) << "no longer list";
  EXPECT_EQ(told_of({first, shard(2, 3)}), "s2: is one of 3 shards, and s1 is one of 2\n");
  request.paths = {".", "nowhere"};
  EXPECT_EQ(told_of({shard(1, 2), shard(2, 2)}), troubles(lint_paths(request)));
  EXPECT_NE(troubles(lint_paths(request)), "");
  request.paths = {"."};
  profile("a.profile.json", uses("x"));
  EXPECT_TRUE(told_of({first, shard(2, 2)}).starts_with("s2: is of another run than s1: "))
      << "one has other bytes";
  profile("a.profile.json");
  EXPECT_EQ(told_of({first, shard(2, 2)}), "");
  profile("e.profile.json");
  EXPECT_EQ(
      told_of({first, shard(2, 2)}),
      "s2: is of another run than s1: the documents, the corpus or the request are not the same; run all "
      "shards on the same files\n");
}

// What has its checksum, and was written by no program.
TEST_F(Corpus_run, joins_no_shard_that_is_written_otherwise) {
  for (const char* name : {"a", "b", "c"}) profile(fmt::format("{}.profile.json", name));
  Lint_request request;
  request.paths = {"."};
  request.shard = Shard{1, 1};
  const std::string text = lint_shard(request).text, body = text.substr(0, text.rfind("end "));
  request.shard.reset();
  const auto told_of = [&](const std::string& from, const std::string& to) {
    std::string other = body;
    other.replace(other.find(from), from.size(), to);
    return troubles(merge_shards(std::vector<Shard_file>{{"s", sealed(other)}}, request));
  };
  ASSERT_EQ(sealed(body), text);
  constexpr std::string_view unknown = "s: is not what this program writes; run this shard again\n";
  for (const auto& [from, to] :
       {std::pair{"shard\",1,", "shard\",0,"}, std::pair{"shard\",1,", "shard\",2,"},
        std::pair{"shard\",1,", "shard\",x,"}, std::pair{"\n0 0 1 1 [", "\n0 1 1 1 ["},
        std::pair{"\n0 0 1 1 [", "\n0 0 1 ["}, std::pair{"\n0 0 1 1 [", "\n0 0 1 1x["},
        std::pair{"\n0 0 1 1 [", "\n[0 0 1 1 "}, std::pair{"\n0 0 1 1 [", "\n\n0 0 1 1 ["}})
    EXPECT_EQ(told_of(from, to), unknown) << to;
  EXPECT_EQ(told_of("]]]\n", "]]]x\n"), unknown);
  constexpr std::string_view others =
      "the shards do not hold the documents that they name; run all of them again\n";
  EXPECT_EQ(told_of("\n0 0 1 1 [", "\n3 0 1 1 ["), others) << "another order";
  EXPECT_EQ(told_of("\n0 0 1 1 [", "\n1 0 1 1 ["), others) << "a place that is taken";
  EXPECT_EQ(told_of("a.profile.json\",", "z.profile.json\","), others);
  EXPECT_EQ(told_of(body.substr(body.find("\n0 "), body.find("\n1 ") - body.find("\n0 ")), ""), others);
  EXPECT_EQ(told_of("shard\",1,[\"", "shard\",1,[\"0"),
            "s: was written by another version of this program; run its shard again with this one\n");
  // As it is, but for one that was not looked at.
  EXPECT_EQ(merge_shards(std::vector<Shard_file>{{"s", sealed(body)}}, request).files_unchanged, 0u);
  std::string untouched = body;
  untouched.replace(untouched.find("\n0 0 1 1 ["), 10, "\n0 0 1 0 [");
  EXPECT_EQ(merge_shards(std::vector<Shard_file>{{"s", sealed(untouched)}}, request).files_unchanged, 1u);
}

// ---- the root

TEST_F(Corpus_run, root_is_the_nearest_corpus_above_a_file) {
  profile("p.profile.json", uses("x"));
  EXPECT_EQ(told(lint({"p.profile.json"})), not_looked_up) << "no root";
  corpus("../corpus.json");
  EXPECT_EQ(told(lint({"p.profile.json"})), not_there) << "in the folder above";
  part("../parts/deep/x.part.json", "x");
  EXPECT_EQ(told(lint({"p.profile.json"})), "");
  corpus("corpus.json");
  EXPECT_EQ(told(lint({"p.profile.json"})), not_there) << "a nearer root, without that part";
}

TEST_F(Corpus_run, a_nested_root_governs_what_lies_in_it) {
  corpus("c/corpus.json", R"(, "policy": { "severities": { "file-name-differs": "off" } })");
  corpus("c/inner/corpus.json");
  part("c/parts/x.part.json", "x");
  part("c/inner/parts/y.part.json", "y");
  profile("c/p.profile.json", uses("x"));
  profile("c/inner/q.profile.json", uses("y"));
  EXPECT_EQ(told(lint({"c"})), "");
  profile("c/p.profile.json", uses("y"));
  profile("c/inner/q.profile.json", uses("x"));
  write("c/named.profile.json", profile_text("other", ""));
  write("c/inner/named.profile.json", profile_text("other", ""));
  const std::string all = told(lint({"c"}));
  EXPECT_NE(all.find("c/p.profile.json error part-unknown\n"), std::string::npos);
  EXPECT_NE(all.find("c/inner/q.profile.json error part-unknown\n"), std::string::npos);
  EXPECT_NE(all.find("c/inner/named.profile.json warning file-name-differs\n"), std::string::npos);
  EXPECT_EQ(all.find("c/named.profile.json"), std::string::npos) << "its own policy switches it off";
  EXPECT_EQ(all.find("id-used-twice"), std::string::npos) << "facts of two corpora are not compared";
}

TEST_F(Corpus_run, a_root_that_is_given_governs_every_file) {
  corpus("a/corpus.json");
  corpus("b/corpus.json");
  part("b/parts/x.part.json", "x");
  profile("a/p.profile.json", uses("x"));
  EXPECT_EQ(told(lint({"a/p.profile.json"})), "a/p.profile.json error part-unknown\n");
  EXPECT_EQ(told(lint({"a/p.profile.json"}, "b")), "");
}

TEST_F(Corpus_run, a_root_without_a_corpus_is_a_trouble) {
  profile("p.profile.json", uses("x"));
  fs::create_directories("b");
  const Lint_run run = lint({"p.profile.json"}, "b");
  EXPECT_EQ(troubles(run), "b/corpus.json: cannot be read: No such file or directory\n");
  EXPECT_EQ(told(run), not_looked_up);
}

TEST_F(Corpus_run, a_broken_corpus_is_a_trouble_and_no_root) {
  part("parts/x.part.json", "x");
  profile("p.profile.json", uses("y"));
  for (
      const std::string_view broken :
      {R"({ "format": "ohmlore/1.0", "kind": "corpus")", R"({ "format": "ohmlore/1.0", "kind": "corpus" })",
       R"({ "format": "ohmlore/1.0", "kind": "part", "id": "x", "revision": 1, "component": { "kind": "ntc", "name": "n" } })",
       ""}) {
    write("corpus.json", broken);
    const Lint_run run = lint({"p.profile.json"});
    ASSERT_EQ(run.troubles.size(), 1u) << broken;
    EXPECT_TRUE(run.troubles[0].starts_with("corpus.json:")) << run.troubles[0];
    EXPECT_EQ(told(run), not_looked_up) << "parts are not known to be missing: " << broken;
  }
}

TEST_F(Corpus_run, names_what_it_reads_as_it_was_given) {
  corpus("c/corpus.json");
  part("c/parts/x.part.json", "x", R"(, "model": { "kind": "fixed", "resistance": "10" })");
  profile("c/p.profile.json", uses("x"));
  const auto message = [](const Lint_run& run) {
    return run.findings.empty() ? std::string() : run.findings[0].message;
  };
  EXPECT_NE(message(lint({"c/p.profile.json"})).find(" c/parts/x.part.json "), std::string::npos);
  const std::string absolute = fs::absolute("c").string();
  EXPECT_NE(
      message(lint({absolute + "/p.profile.json"})).find(fmt::format(" {}/parts/x.part.json ", absolute)),
      std::string::npos);
  fs::current_path("c");
  EXPECT_NE(message(lint({"p.profile.json"})).find(" parts/x.part.json "), std::string::npos);
  fs::current_path("parts");
  EXPECT_NE(message(lint({"../p.profile.json"})).find(" ../parts/x.part.json "), std::string::npos);
}

// ---- parts

TEST_F(Corpus_run, parts_lie_where_the_corpus_says) {
  corpus("corpus.json", R"(, "part_paths": ["library", "more/parts"])");
  part("library/sensors/x.part.json", "x");
  part("more/parts/y.part.json", "y");
  part("parts/z.part.json", "z");
  for (const char* known : {"x", "y"}) {
    profile("p.profile.json", uses(known));
    EXPECT_EQ(told(lint({"p.profile.json"})), "") << known;
  }
  profile("p.profile.json", uses("z"));
  EXPECT_EQ(told(lint({"p.profile.json"})), not_there) << "`parts` is searched only where nothing is named";
}

TEST_F(Corpus_run, a_part_path_that_is_not_there_is_a_trouble) {
  profile("p.profile.json");
  corpus("corpus.json");
  EXPECT_EQ(troubles(lint({"p.profile.json"})), "") << "no `parts`, and none named";
  corpus("corpus.json", R"(, "part_paths": ["library"])");
  EXPECT_EQ(troubles(lint({"p.profile.json"})), "library: `part_paths` names it, but it is not there\n");
}

TEST_F(Corpus_run, the_first_file_of_an_id_is_the_part) {
  corpus("corpus.json");
  part("parts/a.part.json", "x", R"(, "orderable": "first")");
  part("parts/b.part.json", "x", R"(, "service_limit": "3 K")");
  write("p.profile.json",
        profile_text("p", R"(, "components": { "s": { "kind": "rtd", "name": "Sensor", "part": "x" } })"));
  const Lint_run run = lint({"p.profile.json"});
  ASSERT_EQ(told(run), "p.profile.json error part-kind-differs\n");
  EXPECT_EQ(run.findings[0].related[0].file, "parts/a.part.json");
}

TEST_F(Corpus_run, a_broken_part_is_named_where_it_is_missed) {
  corpus("corpus.json");
  write("parts/x.part.json", "{");
  profile("p.profile.json", uses("x"));
  const Lint_run run = lint({"p.profile.json"});
  ASSERT_EQ(told(run), not_there);
  const auto names_it = [](const Lint_run& of) {
    return of.findings.at(0).message.find("parts/x.part.json cannot be read without errors") !=
           std::string::npos;
  };
  EXPECT_TRUE(names_it(run));
  EXPECT_EQ(troubles(run), "");
  // nor has one errors that cannot be read at all
  fs::remove("parts/x.part.json");
  fs::create_symlink("nowhere.part.json", "parts/x.part.json");
  EXPECT_TRUE(names_it(lint({"p.profile.json"})));
}

// ---- nothing is read from outside of the root

TEST_F(Corpus_run, part_paths_do_not_lead_out) {
  part("../outside/x.part.json", "x");
  profile("p.profile.json", uses("x"));
  for (const char* path :
       {"../outside", "/outside", "parts/../../outside", "./../outside", "~/outside", "..\\\\outside"}) {
    corpus("corpus.json", fmt::format(R"(, "part_paths": ["{}"])", path));
    fs::create_directories("parts");
    const Lint_run run = lint({"p.profile.json"});
    ASSERT_EQ(run.troubles.size(), 1u) << path;
    EXPECT_NE(told(run), "") << path << " must not find the part";
  }
}

TEST_F(Corpus_run, links_do_not_lead_out) {
  part("../outside/x.part.json", "x");
  profile("p.profile.json", uses("x"));
  corpus("corpus.json");
  fs::create_directory_symlink("../outside", "parts");
  Lint_run run = lint({"p.profile.json"});
  EXPECT_EQ(troubles(run), "parts: `part_paths` leads out of the root .\n");
  EXPECT_EQ(told(run), not_there);

  fs::remove("parts");
  fs::create_directories("parts");
  fs::create_symlink("../../outside/x.part.json", "parts/x.part.json");
  run = lint({"p.profile.json"});
  EXPECT_EQ(troubles(run), "parts/x.part.json: leads out of the root .\n");
  EXPECT_EQ(told(run), not_there);

  fs::remove("parts/x.part.json");
  fs::create_symlink("x.part.json", "parts/x.part.json");
  EXPECT_EQ(troubles(lint({"p.profile.json"})),
            "parts/x.part.json: cannot be reached: Too many levels of symbolic links\n");

  fs::remove("parts/x.part.json");
  fs::create_directory_symlink("../../outside", "parts/more");
  run = lint({"p.profile.json"});
  EXPECT_EQ(told(run), not_there) << "a linked folder below is not searched";
}

TEST_F(Corpus_run, links_inside_the_root_are_followed) {
  part("library/x.part.json", "x");
  profile("p.profile.json", uses("x"));
  corpus("corpus.json");
  fs::create_directory_symlink("library", "parts");
  const Lint_run run = lint({"p.profile.json"});
  EXPECT_EQ(troubles(run), "");
  EXPECT_EQ(told(run), "");
}

// ---- what fails the gate

TEST_F(Corpus_run, the_failing_level_is_the_requests_else_the_policys_else_error) {
  write("p.profile.json", profile_text("other", uses("x"))); // a warning and a note
  const auto failing = [&](std::optional<Severity> level) {
    Lint_request request;
    request.paths = {"p.profile.json"};
    request.fail_on = level;
    const Lint_run run = lint_paths(request);
    std::size_t others = 0; // notes of rules that this test does not speak of
    for (const Finding& f : run.findings) others += f.severity == Severity::note && f.rule != "part-unknown";
    return level == Severity::note ? run.failing - others : run.failing;
  };
  EXPECT_EQ(failing({}), 0u);
  EXPECT_EQ(failing(Severity::warning), 1u);
  EXPECT_EQ(failing(Severity::note), 2u);
  corpus("corpus.json", R"(, "policy": { "fail_on": "warning" })");
  part("parts/x.part.json", "x");
  EXPECT_EQ(failing({}), 1u);
  EXPECT_EQ(failing(Severity::error), 0u);
  corpus("corpus.json", R"(, "policy": { "severities": { "file-name-differs": "error" } })");
  EXPECT_EQ(failing({}), 1u) << "raised to an error";
}

// ---- the schema of the house

TEST_F(Corpus_run, a_house_schema_is_checked_in_profiles) {
  corpus("corpus.json", R"(, "house_schema": "house/profile.schema.json")");
  write("house/profile.schema.json", R"({ "required": ["title"] })");
  profile("p.profile.json");
  part("parts/x.part.json", "x");
  const Lint_run run = lint({"."});
  EXPECT_EQ(troubles(run), "");
  if (!has_schema_engine()) return;
  EXPECT_EQ(told(run), "p.profile.json error house-schema-broken\nparts/x.part.json note part-unused\n");
  EXPECT_EQ(run.failing, 1u);
}

TEST_F(Corpus_run, a_house_schema_that_cannot_be_used_is_a_trouble) {
  if (!has_schema_engine()) return;
  corpus("corpus.json", R"(, "house_schema": "house.json")");
  profile("p.profile.json");
  const auto trouble_of = [&](std::string_view schema) {
    write("house.json", schema);
    const Lint_run run = lint({"p.profile.json"});
    return troubles(run);
  };
  const std::string so = "; this corpus cannot be checked against its house schema\n";
  EXPECT_EQ(troubles(lint({"p.profile.json"})), "house.json: `house_schema` names it, but it is not there\n");
  EXPECT_EQ(trouble_of("{ \"required\": [\n  \"title\" }"),
            "house.json:2:11: `}` stands here, but the `[` of line 1 is still open; a `]` is missing before" +
                so);
  EXPECT_EQ(trouble_of(R"({ "required": ["title"], "required": ["note"] })"),
            "house.json:1:26: this object has `required` twice" + so);
  EXPECT_EQ(trouble_of("[]"), "house.json: a schema is one JSON object" + so);
  EXPECT_EQ(trouble_of(R"({ "$schema": "https://json-schema.org/draft/2020-12/schema" })"),
            "house.json: it is written for https://json-schema.org/draft/2020-12/schema; this program knows "
            "http://json-schema.org/draft-07/schema#" +
                so);
  EXPECT_NE(trouble_of(R"({ "properties": { "id": { "pattern": "(" } } })")
                .find("house.json: the pattern ( is not a regular expression"),
            std::string::npos);
  EXPECT_EQ(
      trouble_of(R"({ "$ref": "other.json" })"),
      "house.json: `$ref` to other.json leads out of the schema; copy what it names into `definitions`" + so);
  fs::remove("house.json");
  fs::create_directory("house.json");
  EXPECT_EQ(troubles(lint({"p.profile.json"})),
            "house.json: `house_schema` names it, but it cannot be read: it is a folder\n");
  fs::remove("house.json");
  write("../outside.json", "{}");
  fs::create_symlink("../outside.json", "house.json");
  EXPECT_EQ(troubles(lint({"p.profile.json"})), "house.json: `house_schema` leads out of the root .\n");
}

TEST_F(Corpus_run, a_house_schema_with_a_byte_order_mark_is_read) {
  if (!has_schema_engine()) return;
  corpus("corpus.json", R"(, "house_schema": "house.json")");
  write("house.json", "\xEF\xBB\xBF{ \"required\": [\"title\"] }");
  write("p.profile.json", "\xEF\xBB\xBF" + profile_text("p", ""));
  const Lint_run run = lint({"p.profile.json"});
  EXPECT_EQ(troubles(run), "");
  EXPECT_NE(told(run).find("error house-schema-broken"), std::string::npos);
}

TEST_F(Corpus_run, a_waiver_of_a_rule_that_is_switched_off_is_not_unused) {
  const std::string_view off = R"(, "policy": { "severities": { "spelling-not-canonical": "off" } })";
  const std::string sensor =
      R"(, "components": { "s": { "kind": "ntc", "name": "Sensor", "service_limit": "±3 K" } })";
  profile(
      "p.profile.json",
      sensor +
          R"(, "waivers": [{ "rule": "spelling-not-canonical", "at": "/components/s", "why": "as printed" }])");
  profile("q.profile.json", sensor);
  const auto count = [&](std::string_view rule) {
    const auto findings = lint({"."}).findings;
    return std::count_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.rule == rule; });
  };
  corpus("corpus.json");
  EXPECT_EQ(count("spelling-not-canonical"), 1) << "of q; that of p is waived";
  corpus("corpus.json", off);
  EXPECT_EQ(count("spelling-not-canonical"), 0);
  EXPECT_EQ(count("waiver-unused"), 0);
}

// ---- one corpus, however it is spelt

TEST_F(Corpus_run, a_corpus_is_found_through_links) {
  corpus("c/corpus.json", R"(, "policy": { "ruleset": "2.0" })"); // so that it says that it was found
  profile("c/profiles/p.profile.json");
  profile("of_none.profile.json");
  fs::create_directory_symlink("c/profiles", "linked");
  fs::create_symlink("c/profiles/p.profile.json", "p.profile.json");
  fs::create_directories("q");
  fs::create_directory_symlink("../c/profiles", "q/below");
  const std::string_view paths[][2] = {{"linked", "linked"},
                                       {"linked", "c"},
                                       {"c", "linked"},
                                       {"p.profile.json", "p.profile.json"},
                                       {"p.profile.json", "c"},
                                       {"c/profiles", "p.profile.json"},
                                       {"of_none.profile.json", "p.profile.json"},
                                       {"q/below/../profiles", "c"},
                                       {"q/below/../profiles", "q/below"}};
  for (const auto& [first, second] : paths) {
    const Lint_run run = lint({std::string(first), std::string(second)});
    EXPECT_EQ(run.troubles.size(), 1u) << first << " and " << second << ": " << troubles(run);
  }
}

// corpus.h, read_file: what is named as a document leads to no other file, whose lines findings would show.
TEST_F(Corpus_run, a_link_is_read_unless_its_name_promises_a_document_that_is_none) {
  profile("p.profile.json");
  write("notes", "secret");
  const auto is_read = [](const char* link, const char* target) {
    fs::create_symlink(target, link);
    std::string why;
    return read_file(link, why).has_value();
  };
  EXPECT_TRUE(is_read("q.profile.json", "p.profile.json"));
  EXPECT_TRUE(is_read("measurements.csv", "notes"));
  EXPECT_FALSE(is_read("n.profile.json", "notes"));
  EXPECT_FALSE(is_read("n.part.xml", "notes"));
  EXPECT_FALSE(is_read("n.part.json", "n.profile.json"));
}

TEST_F(Corpus_run, what_lies_above_a_link_is_above_its_target) {
  profile("c/p.profile.json");
  profile("q/p.profile.json");
  fs::create_directories("c/below");
  fs::create_directory_symlink("../c/below", "q/below");
  EXPECT_EQ(real_path("q/below/../p.profile.json"), real_path("c/p.profile.json"));
  EXPECT_EQ(lint({"q/below/../p.profile.json", "q/p.profile.json", "c/p.profile.json"}).files_read, 2u);
}

TEST_F(Corpus_run, documents_of_one_corpus_agree_however_they_are_spelt) {
  corpus("c/corpus.json");
  profile("c/p.profile.json");
  profile("c/more/p.profile.json");
  fs::create_directory_symlink("c", "linked");
  EXPECT_NE(told(lint({"linked/p.profile.json", "c/more"})).find("id-used-twice"), std::string::npos);
}

TEST_F(Corpus_run, a_corpus_that_is_a_broken_link_is_a_trouble) {
  profile("c/p.profile.json");
  fs::create_symlink("nowhere", "c/corpus.json");
  EXPECT_EQ(troubles(lint({"c/p.profile.json"})),
            "c/corpus.json: cannot be read: No such file or directory\n");
}

TEST_F(Corpus_run, a_corpus_below_the_root_of_the_run_says_nothing_of_it) {
  const std::string_view known = R"(, "redirects": { "parts": { "old": "gone" } })",
                         other = R"(, "redirects": { "parts": { "older": "gone", "old": "x" } })";
  corpus("c/corpus.json", known);
  corpus("c/more/corpus.json", other);
  part("c/parts/x.part.json", "x");
  profile("c/p.profile.json");
  EXPECT_EQ(told(lint({"c"}, "c")),
            "c/corpus.json warning redirect-target-unknown\nc/parts/x.part.json note part-unused\n");
  EXPECT_EQ(told(lint({"c/more", "c/p.profile.json", "c/parts"}, "c")), "")
      << "this is not all of the corpus";
  Lint_request request;
  request.paths = {"c/more", "c/p.profile.json", "c/parts"};
  request.root = "c";
  request.cache = "cache";
  for (int i = 0; i < 2; ++i) EXPECT_EQ(told(lint_paths(request)), "");
}

TEST_F(Corpus_run, what_is_wrong_with_a_part_is_said_once) {
  corpus("corpus.json");
  fs::create_directories("parts");
  fs::create_symlink("nowhere", "parts/x.part.json");
  EXPECT_EQ(lint({"."}).troubles.size(), 1u) << troubles(lint({"."}));
}

TEST_F(Corpus_run, a_corpus_with_errors_says_nothing_of_redirects) {
  part("parts/x.part.json", "x");
  corpus("corpus.json", R"(, "policy": { "fail_on": "of" }, "redirects": { "parts": { "old": "x" } })");
  EXPECT_EQ(told(lint({"."})).find("redirect-target-unknown"), std::string::npos);
}

TEST_F(Corpus_run, a_list_of_changes_that_misspells_the_house_schema_does_not_fit) {
  if (!has_schema_engine()) return;
  corpus("c/corpus.json", R"(, "house_schema": "house.json")");
  write("c/house.json", R"({ "required": ["title"] })");
  profile("c/p.profile.json");
  Lint_request request;
  request.paths = {"c"};
  request.changed = {"elsewhere/c/house.json"};
  EXPECT_EQ(lint_paths(request).troubles.size(), 1u) << troubles(lint_paths(request));
  request.changed = {"elsewhere/c/house.json", "elsewhere/c/p.profile.json", "c/p.profile.json"};
  EXPECT_EQ(lint_paths(request).troubles.size(), 1u) << "of a list that does not fit one path is named";
  request.changed = {"elsewhere/README.md"};
  EXPECT_EQ(troubles(lint_paths(request)), "") << "not asked for";
  request.changed = {"c/house.json"};
  EXPECT_EQ(told(lint_paths(request)), "c/p.profile.json error house-schema-broken\n");
}

// ---- the set of rules

TEST_F(Corpus_run, a_set_of_rules_that_the_program_does_not_know_is_a_trouble) {
  profile("p.profile.json");
  corpus("corpus.json", R"(, "policy": { "ruleset": "1.0" })");
  EXPECT_EQ(troubles(lint({"p.profile.json"})), "");
  corpus("corpus.json", R"(, "policy": { "ruleset": "2.0" })");
  EXPECT_EQ(
      troubles(lint({"p.profile.json"})),
      "corpus.json: `ruleset` of the policy is 2.0, and this program knows the rules up to 1.0; upgrade the "
      "program\n");
  corpus("corpus.json", R"(, "policy": { "ruleset": "0.9" })");
  EXPECT_EQ(troubles(lint({"p.profile.json"})), "corpus.json: `ruleset` of the policy is 0.9, and the first "
                                                "set of rules is 1.0: no rule could fail; name a "
                                                "set that there is\n");
  corpus("corpus.json", R"(, "policy": { "ruleset": "newest" })");
  EXPECT_EQ(told(lint({"corpus.json"})), "corpus.json error text-malformed\n");
}

// Who names a rule wants a check to be stricter: no run is green by a policy without it.
TEST_F(Corpus_run, a_policy_with_a_rule_that_there_is_not_is_a_trouble_where_nobody_looks_at_corpus_json) {
  profile("profiles/p.profile.json");
  corpus("corpus.json", R"(, "policy": { "severities": { "source-unusd": "error" } })");
  EXPECT_EQ(troubles(lint({"."})), "");
  EXPECT_EQ(told(lint({"."})), "corpus.json error policy-rule-unknown\n");
  const std::string why =
      "corpus.json:1:111: there is no rule source-unusd, so this line of the policy has no "
      "effect; linting the file says more\n";
  EXPECT_EQ(troubles(lint({"profiles"})), why);
  Lint_request request;
  request.paths = {"."};
  request.changed = {"profiles/p.profile.json"};
  EXPECT_EQ(troubles(lint_paths(request)), why);
  request.changed->push_back("corpus.json");
  EXPECT_EQ(troubles(lint_paths(request)), "");

  Lint_request of_shard; // the shard that holds corpus.json is another's
  of_shard.paths = {"."};
  std::vector<Shard_file> shards;
  for (std::size_t number = 1; number <= 2; ++number) {
    of_shard.shard = Shard{number, 2};
    const Shard_run shard = lint_shard(of_shard);
    EXPECT_EQ(troubles(shard.run), "");
    shards.push_back({fmt::format("{}.shard", number), shard.text});
  }
  EXPECT_EQ(troubles(merge_shards(shards, {})), "");
  write("corpus.json", R"({ "format": "ohmlore/1.9", "kind": "corpus", "title": "t", "licence": "CC0-1.0",
  "policy": { "severities": { "of-a-newer-program": "error" } } })");
  EXPECT_EQ(troubles(lint({"profiles"})), "") << "it is a note there";
}

// ---- ids that documents had before

TEST_F(Corpus_run, an_old_id_finds_the_part_that_has_another_now) {
  profile("p.profile.json", uses("old"));
  part("parts/new.part.json", "new");
  corpus("corpus.json", R"(, "redirects": { "parts": { "old": "older", "older": "new" } })");
  const Lint_run run = lint({"."});
  EXPECT_EQ(told(run), "p.profile.json note part-id-superseded\n");
  Lint_request request;
  request.paths = {"p.profile.json"};
  const Fix_run fixed = fix_paths(request, true);
  EXPECT_EQ(fixed.troubles, std::vector<std::string>());
  EXPECT_EQ(told(lint({"."})), "");
  corpus("corpus.json", R"(, "redirects": { "parts": { "old": "older", "older": "old" } })");
  profile("p.profile.json", uses("old"));
  EXPECT_EQ(told(lint({"p.profile.json"})), not_there) << "a circle ends";
}

TEST_F(Corpus_run, a_redirect_is_not_judged_while_a_document_hides_its_id) {
  corpus("corpus.json", R"(, "redirects": { "profiles": { "old": "new" } })");
  profile("p.profile.json");
  EXPECT_NE(told(lint({"."})).find("redirect-target-unknown"), std::string::npos);
  write("new.profile.json", R"({ "kind": "profile" "id": "new" })");
  EXPECT_EQ(told(lint({"."})).find("redirect-target-unknown"), std::string::npos);
}

// Parts that contradict each other are read again, the profile that uses both is not.
TEST_F(Corpus_run, a_part_is_not_unused_because_it_contradicts_another) {
  corpus("corpus.json");
  const auto with = [](std::string_view b_value) {
    return fmt::format(
        R"(, "orderable": "OV-77", "model": {{ "kind": "beta", "resistance": "10 kΩ", "at": "25 °C",
             "tolerance": "1 %", "b_value": "{}", "b_between": "25 °C to 85 °C", "b_tolerance": "1 %" }})",
        b_value);
  };
  part("parts/a.part.json", "a", with("3977 K"));
  part("parts/b.part.json", "b", with("3435 K"));
  profile("p.profile.json",
          R"(, "components": { "s": { "kind": "ntc", "name": "Sensor", "part": "a", "orderable": "1" },
                                                  "t": { "kind": "ntc", "name": "Sensor", "part": "b", "orderable": "2" } })");
  const std::string found = told(lint({"."}));
  EXPECT_NE(found.find("curve-contradicts"), std::string::npos) << found;
  EXPECT_EQ(found.find("part-unused"), std::string::npos) << found;
}

// reports.md: what could not be done ends in 2. What one document says when it is linted, and no more when it
// is held against the others, would be green without a look.
TEST_F(Corpus_run, tells_of_what_changed_while_it_ran) {
  write("a.profile.json", profile_text("a", ""));
  write("b.profile.json", profile_text("a", ""));
  Lint_request request;
  request.paths = {"a.profile.json", "b.profile.json"};
  request.cache = "cache"; // as of many, facts are read again
  EXPECT_EQ(lint_paths(request).troubles, std::vector<std::string>());
  request.progress = [](std::size_t, std::size_t) { write("b.profile.json", ""); };
  EXPECT_EQ(lint_paths(request).troubles,
            std::vector<std::string>{"b.profile.json: it changed in the meantime; run this again"});
}

// ---- the cache

// reports.md, "Cache": what nobody asked for within 30 days is dropped.
TEST_F(Corpus_run, keeps_in_the_cache_what_was_asked_for_within_30_days) {
  profile("a.profile.json");
  profile("b.profile.json");
  const auto kept = [](std::vector<std::string> paths, std::string today) {
    Lint_request request;
    request.paths = std::move(paths);
    request.cache = "cache";
    request.options.today = std::move(today);
    EXPECT_EQ(lint_paths(request).troubles.size(), 0u);
    std::string why;
    const std::string text = read_file("cache", why).value_or("");
    return std::count(text.begin(), text.end(), '\n') - 1; // the first line names the program
  };
  EXPECT_EQ(kept({"a.profile.json", "b.profile.json"}, "2026-01-01"), 2);
  EXPECT_EQ(kept({"a.profile.json"}, "2026-01-31"), 2);
  EXPECT_EQ(kept({"a.profile.json"}, "2026-02-01"), 1);
}

// reports.md, "Cache": another house schema is another run.
TEST_F(Corpus_run, forgets_what_another_house_schema_said) {
  if (!has_schema_engine()) return;
  corpus("corpus.json", R"(, "house_schema": "house.json")");
  profile("p.profile.json");
  Lint_request request;
  request.paths = {"."};
  request.cache = "cache";
  for (const auto& [schema, found] :
       {std::pair{R"({ "required": ["format"] })", ""},
        {R"({ "required": ["notes"] })", "p.profile.json error house-schema-broken\n"}}) {
    write("house.json", schema);
    for (int i = 0; i < 2; ++i) EXPECT_EQ(told(lint_paths(request)), found);
  }
}

// What could not be read may name any part (part-unused), so which there are is part of what it says.
TEST_F(Corpus_run, forgets_what_an_unreadable_profile_said_of_other_parts) {
  corpus("corpus.json");
  part("parts/a.part.json", "a");
  profile("a.profile.json", R"(, "nmae": "x")");
  Lint_request request;
  request.paths = {"."};
  request.cache = "cache";
  for (const char* added : {"b", "c"}) {
    lint_paths(request);
    part(fmt::format("parts/{}.part.json", added), added);
    Lint_request without = request;
    without.cache.reset();
    EXPECT_EQ(json_report(lint_paths(request)), json_report(lint_paths(without))) << added;
  }
}

// Without a root no part is known, and a profile that names one is touched all the same.
TEST_F(Corpus_run, remembers_which_parts_a_profile_names_whose_corpus_is_broken) {
  write("corpus.json", "{");
  part("parts/a.part.json", "a");
  profile("p.profile.json", uses("a"));
  Lint_request request;
  request.paths = {"."};
  request.changed = {"parts/a.part.json"};
  const std::string without = json_report(lint_paths(request));
  EXPECT_NE(without.find("p.profile.json"), std::string::npos);
  request.cache = "cache";
  for (int i = 0; i < 2; ++i) EXPECT_EQ(json_report(lint_paths(request)), without);
}

// ---- the baseline of a corpus

// A profile whose sensor is on a pin that is not there.
constexpr std::string_view off_pin =
    R"(, "connectors": { "X4": { "label": "X4", "ways": 2, "circuit": "selv", "pins": { "1": {}, "2": {} } } },
         "components": { "s": { "kind": "ntc", "name": "Sensor", "between": ["X4.1", "X4.9"] } })";

class Baseline_run_of_corpus : public Corpus_run {
protected:
  static Lint_request request(std::vector<std::string> paths, std::string baseline) {
    Lint_request request;
    request.paths = std::move(paths);
    request.baseline = std::move(baseline);
    request.options.today = "2026-01-01";
    return request;
  }
  static Baseline_run write_it(const Lint_request& request, std::string owner = "x", std::string until = {}) {
    return write_baseline({request, std::move(owner), "old", std::move(until)});
  }
  static std::size_t count(const Lint_run& run, std::string_view rule) {
    return static_cast<std::size_t>(std::count_if(run.findings.begin(), run.findings.end(),
                                                  [&](const Finding& f) { return f.rule == rule; }));
  }
  static std::string bytes_of(const std::string& path) {
    std::string why;
    return read_file(path, why).value_or("");
  }
};

TEST_F(Baseline_run_of_corpus, is_not_written_over_a_document) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  for (const char* name : {"c/new.profile.json", "parts/x.part.json", "corpus.json"}) {
    const Baseline_run run = write_it(request({"c"}, name));
    ASSERT_EQ(run.troubles.size(), 1u) << name;
    EXPECT_NE(run.troubles[0].find("the name is that of a document; name another"), std::string::npos);
    EXPECT_FALSE(fs::exists(name));
  }
  // Nor through a link, also one by way of another to a document that is not there yet.
  fs::create_symlink("corpus.json", "c/link.json");
  fs::create_directories("d");
  fs::create_symlink("d/second.json", "first.json");
  fs::create_symlink("new.profile.json", "d/second.json");
  for (const char* name : {"c/link.json", "first.json"})
    EXPECT_EQ(write_it(request({"c"}, name)).troubles.size(), 1u) << name;
  EXPECT_FALSE(fs::exists("d/new.profile.json"));
}

TEST_F(Baseline_run_of_corpus, that_cannot_be_used_says_why) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  const auto used = [&] { return troubles(lint_paths(request({"c"}, "known.json"))); };
  EXPECT_TRUE(used().starts_with("known.json: the baseline cannot be read: ")) << used();
  const auto with_unknown_keys = [&](int count) {
    std::string text = R"({ "format": "ohmlore-baseline/1.0", "entries": [])";
    for (int i = 0; i < count; ++i) text += fmt::format(", \"unknown_{}\": 1", i);
    write("known.json", text + " }");
    return used();
  };
  EXPECT_TRUE(
      with_unknown_keys(1).ends_with("known.json: the baseline cannot be used before this is mended\n"));
  const std::string seven = with_unknown_keys(7);
  EXPECT_TRUE(seven.ends_with("known.json: the baseline cannot be used before its 7 errors are mended\n"))
      << seven;
  EXPECT_EQ(std::count(seven.begin(), seven.end(), '\n'), 6) << "five of them are shown";
  EXPECT_EQ(write_it(request({"c"}, "known.json")).troubles.size(), 6u);
  EXPECT_NE(bytes_of("known.json").find("unknown_6"), std::string::npos) << "nor is another written over it";
}

TEST_F(Baseline_run_of_corpus, that_is_not_written_says_why) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  const auto why = [](const Baseline_run& run) {
    return run.troubles.empty() ? std::string() : run.troubles.back();
  };
  EXPECT_TRUE(
      why(write_it(request({"c"}, "nowhere/known.json"))).starts_with("nowhere/known.json: not written: "));
  EXPECT_EQ(why(write_it(request({"c"}, "known.json"), "x", "2025-12-31")),
            "known.json: not written: 2025-12-31 is past, so its new entries would forgive nothing");
  fs::create_directories("empty");
  EXPECT_FALSE(why(write_it(request({"empty"}, "known.json"))).empty());
  EXPECT_FALSE(why(write_it(request({"c", "nowhere"}, "known.json"))).empty());
  write("c/b.profile.json", "{");
  EXPECT_NE(why(write_it(request({"c"}, "known.json"))).find("was not looked at to its end"),
            std::string::npos);
  EXPECT_FALSE(fs::exists("known.json"));
}

TEST_F(Baseline_run_of_corpus, is_written_in_the_run_that_is_held_against_it) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  write_it(request({"c"}, "c/b.json"));
  profile("c/a.profile.json");
  profile("c/b.profile.json", off_pin);
  Lint_request asked = request({"c"}, "c/b.json");
  int runs = 0;
  asked.progress = [&](std::size_t done, std::size_t all) { runs += done == all; };
  const Baseline_run written = write_it(asked);
  EXPECT_GE(written.removed, 1u);
  EXPECT_EQ(runs, 1);
  EXPECT_GE(written.run.suppressed.size(), 1u);
  EXPECT_EQ(json_report(written.run), json_report(lint_paths(request({"c"}, "c/b.json"))));
}

TEST_F(Baseline_run_of_corpus, is_not_stale_where_only_one_of_two_documents_of_an_id_changed) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  write_it(request({"c"}, "c/b.json"));
  write("c/z.profile.json", profile_text("a", ""));
  Lint_request changed = request({"c"}, "c/b.json");
  changed.changed = {"c/z.profile.json"};
  const Lint_run run = lint_paths(changed);
  EXPECT_GE(count(run, "id-used-twice"), 1u);
  EXPECT_EQ(count(run, "baseline-stale"), 0u);
}

TEST_F(Baseline_run_of_corpus, is_not_stale_where_another_document_changed) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", R"(, "unknown_key": 1)");
  profile("c/z.profile.json");
  write_it(request({"c"}, "c/b.json"));
  EXPECT_NE(bytes_of("c/b.json").find("key-unknown"), std::string::npos);
  Lint_request changed = request({"c"}, "c/b.json");
  changed.changed = {"c/z.profile.json"};
  EXPECT_EQ(count(lint_paths(changed), "baseline-stale"), 0u);
}

// reports.md, "Only what changed": a profile is looked at where its corpus.json changed, or is gone.
TEST_F(Baseline_run_of_corpus, of_what_changed_is_what_the_corpus_json_governs_or_governed) {
  corpus("c/corpus.json");
  profile("c/d/p.profile.json", off_pin);
  Lint_request changed;
  changed.paths = {"c"};
  changed.changed = {"c/d/corpus.json"}; // as git lists what was removed
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u);
  profile("e/p.profile.json", off_pin);
  changed.paths = {"e"};
  changed.changed = {"c/corpus.json"};
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 0u);
  changed.root = "c";
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u);
}

// A submodule of parts is listed as one path.
TEST_F(Baseline_run_of_corpus, of_what_changed_is_what_uses_a_part_of_a_listed_folder) {
  corpus("corpus.json");
  part("parts/x.part.json", "x");
  profile("p.profile.json", uses("x"));
  profile("q.profile.json");
  Lint_request changed;
  changed.paths = {"p.profile.json", "q.profile.json"};
  changed.changed = {"parts"};
  EXPECT_EQ(lint_paths(changed).files_unchanged, 1u);
  profile("p.profile.json", uses("y"));
  EXPECT_EQ(lint_paths(changed).files_unchanged, 2u);
}

TEST_F(Baseline_run_of_corpus, of_what_changed_is_not_all_that_has_a_house_schema) {
  corpus("corpus.json", R"(, "house_schema": "house.json")");
  write("house.json", R"({ "required": ["format"] })");
  profile("a.profile.json", off_pin);
  profile("b.profile.json", off_pin);
  Lint_request changed;
  changed.paths = {"."};
  changed.changed = {"a.profile.json"};
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u);
}

// reports.md, "Only what changed".
TEST_F(Baseline_run_of_corpus, of_what_changed_is_what_uses_a_part_under_any_of_its_ids) {
  corpus("corpus.json", R"(, "redirects": { "parts": { "old": "x", "other": "y" } })");
  part("parts/x.part.json", "x");
  part("parts/y.part.json", "y");
  part("parts/z.part.json", "named_otherwise");
  profile("p.profile.json", uses("old"));
  profile("q.profile.json", uses("other"));
  profile("r.profile.json");
  Lint_request changed;
  changed.paths = {"."};
  const auto unchanged = [&](std::vector<std::string> listed) {
    changed.changed = std::move(listed);
    return lint_paths(changed).files_unchanged;
  };
  const std::size_t all = unchanged({"README.md"});
  EXPECT_EQ(unchanged({"parts/x.part.json"}), all - 2) << "it and p";
  EXPECT_EQ(unchanged({"parts/z.part.json"}), all - 3) << "it and each that names a part: which, nobody says";
  EXPECT_EQ(unchanged({"parts/z.part.json", "parts/x.part.json"}), all - 4);
  EXPECT_EQ(unchanged({"parts/gone.part.json"}), all - 2) << "of which nobody knows the id";
  EXPECT_EQ(unchanged({"gone_folder"}), all - 2);
  EXPECT_EQ(unchanged({"gone_folder", "README.md", "LICENCE.txt"}), all - 2);
  EXPECT_EQ(unchanged({"gone.txt"}), all);
  fs::create_directories("../elsewhere");
  EXPECT_EQ(unchanged({"../elsewhere/gone"}), all) << "which lies in no corpus";
}

TEST_F(Baseline_run_of_corpus, of_what_changed_is_all_where_the_baseline_is_listed) {
  corpus("corpus.json");
  profile("a.profile.json");
  profile("b.profile.json");
  write_it(request({"."}, "known.json"));
  Lint_request changed = request({"."}, "known.json");
  changed.changed = {"README.md"};
  EXPECT_EQ(lint_paths(changed).files_unchanged, 3u);
  changed.changed = {"known.json"};
  EXPECT_EQ(lint_paths(changed).files_unchanged, 0u);
  changed.changed = {fs::absolute("known.json").string()};
  EXPECT_EQ(lint_paths(changed).files_unchanged, 0u);
  changed.baseline.reset();
  EXPECT_EQ(lint_paths(changed).files_unchanged, 3u);
  changed.changed = std::vector<std::string>{};
  EXPECT_EQ(troubles(lint_paths(changed)),
            "the list of changed files is empty, so nothing was checked; if nothing changed, do not ask\n");
}

TEST_F(Baseline_run_of_corpus, of_what_changed_is_what_is_given_as_text) {
  Lint_request changed;
  changed.paths = {"-"};
  changed.standard_input = profile_text("p", off_pin);
  changed.changed = {"README.md"};
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u);
}

// Of a relative path its first folder must be here, of another all of them.
TEST_F(Baseline_run_of_corpus, of_what_changed_fits_what_lies_in_folders_that_are_here) {
  profile("here/a.profile.json");
  Lint_request changed;
  changed.paths = {"."};
  const auto fits = [&](std::string listed) {
    changed.changed = std::vector<std::string>{std::move(listed)};
    return lint_paths(changed).troubles.empty();
  };
  EXPECT_TRUE(fits("gone.profile.json"));
  EXPECT_TRUE(fits("here/gone/x.profile.json"));
  EXPECT_FALSE(fits("gone/x.profile.json"));
  EXPECT_TRUE(fits(fs::absolute("here/gone.profile.json").string()));
  EXPECT_FALSE(fits(fs::absolute("gone/x.profile.json").string()));
}

// A file is the same by either of its paths.
TEST_F(Baseline_run_of_corpus, of_what_changed_is_what_a_link_leads_to) {
  corpus("corpus.json");
  profile("real/a.profile.json", off_pin);
  fs::create_symlink("real", "link");
  for (const char* path : {"link", "real"})
    for (const char* listed : {"link/a.profile.json", "real/a.profile.json"}) {
      Lint_request changed;
      changed.paths = {path};
      changed.changed = {listed};
      EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u) << path << " " << listed;
    }
}

TEST_F(Baseline_run_of_corpus, is_stale_where_a_part_is_gone) {
  corpus("c/corpus.json");
  profile("c/a.profile.json");
  part("c/parts/x.part.json", "x");
  write_it(request({"c"}, "known.json"));
  Lint_request changed = request({"c"}, "known.json");
  changed.changed = {"c/parts/x.part.json"};
  EXPECT_EQ(count(lint_paths(changed), "baseline-stale"), 0u);
  fs::remove("c/parts/x.part.json");
  EXPECT_EQ(count(lint_paths(changed), "baseline-stale"), 1u);
  write("c/broken.profile.json", "{");
  EXPECT_EQ(count(lint_paths(changed), "baseline-stale"), 0u) << "which may be anything";
  fs::remove("c/broken.profile.json");
  changed.paths = {"c", "nowhere"};
  EXPECT_EQ(count(lint_paths(changed), "baseline-stale"), 0u) << "what is there may have been moved";
  EXPECT_EQ(count(lint_paths(request({"c"}, "known.json")), "baseline-stale"), 1u);
  EXPECT_EQ(count(lint_paths(request({"c", "nowhere"}, "known.json")), "baseline-stale"), 0u);
  profile("c/d/b.profile.json");
  EXPECT_EQ(count(lint_paths(request({"c/d", "c"}, "known.json")), "baseline-stale"), 1u)
      << "a folder that lies in another takes nothing away";
}

// reports.md, "Shards": what follows from all documents is said where all are joined.
TEST_F(Baseline_run_of_corpus, leaves_what_follows_from_all_documents_to_the_joined_shards) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  Lint_request held = request({"c"}, "c/known.json");
  write_it(held);
  profile("c/a.profile.json");
  write("c/again.profile.json", profile_text("a", ""));
  held.shard = Shard{1, 1};
  const auto shard = lint_shard(held);
  EXPECT_EQ(count(shard.run, "id-used-twice"), 0u);
  EXPECT_EQ(count(shard.run, "baseline-stale"), 0u);
  held.shard.reset();
  const Lint_run joined = merge_shards(std::vector<Shard_file>{{"s", shard.text}}, held);
  EXPECT_GE(count(joined, "id-used-twice"), 1u);
  EXPECT_GE(count(joined, "baseline-stale"), 1u);
}

TEST_F(Corpus_run, names_the_house_schemas_of_its_documents) {
  corpus("a/corpus.json", R"(, "house_schema": "house.json")");
  corpus("b/corpus.json");
  write("a/house.json", R"({ "required": ["format"] })");
  profile("a/p.profile.json");
  profile("b/p.profile.json");
  profile("p.profile.json");
  EXPECT_EQ(lint({"a", "b", "p.profile.json"}).house_schemas, std::vector<std::string>{"a/house.json"});
}

// baseline-stale.md: nothing is said where the run cannot know, as of a rule that is off, or of a document
// that a broken one may be.
TEST_F(Baseline_run_of_corpus, is_stale_by_what_the_run_can_know) {
  const auto stale = [&] { return count(lint_paths(request({"c"}, "known.json")), "baseline-stale"); };
  corpus("c/corpus.json", R"(, "policy": { "severities": { "part-unused": "warning" } })");
  profile("c/a.profile.json");
  part("c/parts/x.part.json", "x");
  write_it(request({"c"}, "known.json"));
  EXPECT_EQ(stale(), 0u);
  profile("c/a.profile.json", uses("x"));
  EXPECT_EQ(stale(), 1u);
  Lint_request of_shards = request({"c"}, "known.json");
  std::vector<Shard_file> shards;
  for (const std::uint32_t number : {1u, 2u}) {
    of_shards.shard = Shard{number, 2};
    shards.push_back({fmt::format("s{}", number), lint_shard(of_shards).text});
  }
  of_shards.shard.reset();
  EXPECT_EQ(count(merge_shards(shards, of_shards), "baseline-stale"), 1u);
  corpus("c/corpus.json", R"(, "policy": { "severities": { "part-unused": "off" } })");
  EXPECT_EQ(stale(), 0u);
  corpus("c/corpus.json");
  write("c/parts/x.part.json", "{");
  EXPECT_EQ(stale(), 0u);
}

// format.md, "Redirects": one of a document that is there still has no effect.
TEST_F(Baseline_run_of_corpus, lends_nothing_of_a_document_that_is_there_to_the_one_it_is_redirected_to) {
  corpus("c/corpus.json", R"(, "redirects": { "profiles": { "x": "y" } })");
  profile("c/x.profile.json", off_pin);
  profile("c/y.profile.json");
  write_it(request({"c"}, "known.json"));
  profile("c/y.profile.json", off_pin);
  Lint_request changed = request({"c"}, "known.json");
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u);
  changed.changed = {"c/y.profile.json"};
  EXPECT_EQ(count(lint_paths(changed), "pin-undeclared"), 1u);
}

// baseline-stale.md: nothing is said where the run cannot know. Rules that go by absence look at no document
// of a newer version, in which what is missing may be said by a key that is not known.
TEST_F(Baseline_run_of_corpus, is_not_stale_in_a_document_of_a_newer_version) {
  constexpr std::string_view unreached =
      R"(, "components": { "s": { "kind": "ntc", "name": "Sensor" } }, "faults": { "f": { "meaning": "m",
           "display": { "kind": "text", "text": "F" }, "suspects": [{ "kind": "supply" }] } })";
  profile("a.profile.json", unreached);
  const Lint_request held = request({"a.profile.json"}, "known.json");
  write_it(held);
  EXPECT_EQ(count(lint_paths(held), "component-unreached"), 0u);
  std::string text = bytes_of("a.profile.json");
  text.replace(text.find("ohmlore/1.0"), 11, "ohmlore/1.9");
  write("a.profile.json", text);
  EXPECT_EQ(count(lint_paths(held), "format-newer"), 1u);
  EXPECT_EQ(count(lint_paths(held), "baseline-stale"), 0u);
  text.replace(text.find("ohmlore/1.9"), 11, "ohmlore/1.0");
  text.replace(text.find("\"supply\""), 8, R"("component", "component": "s", "modes": ["open"])");
  write("a.profile.json", text);
  EXPECT_EQ(count(lint_paths(held), "baseline-stale"), 1u);
}

// Sensors without a source: where there are three or more, that is told once.
std::string sensors(const std::vector<std::string>& ids, std::string_view of_first = "") {
  std::string members;
  for (const std::string& id : ids)
    members += fmt::format(R"({}"{}": {{ "kind": "ntc", "name": "{}", "model": {{ "kind": "beta",
  "resistance": "10 kΩ", "at": "25 °C", "tolerance": "1 %", "b_value": "3977 K", "b_between": "25 °C to 85 °C",
  "b_tolerance": "1 %" }}{} }})",
                           members.empty() ? "" : ", ", id, id, members.empty() ? of_first : "");
  return fmt::format(R"(, "components": {{ {} }})", members);
}

// README.md: what the corpus has already does not fail; what is new does.
TEST_F(Baseline_run_of_corpus, knows_one_by_one_what_is_told_as_one) {
  profile("a.profile.json", sensors({"b", "c", "d"}));
  const Lint_request held = request({"a.profile.json"}, "known.json");
  Lint_request alone = held;
  alone.baseline.reset();
  EXPECT_EQ(count(lint_paths(alone), "source-missing"), 1u);
  write_it(held);
  EXPECT_EQ(count(lint_paths(held), "source-missing"), 0u);

  profile("a.profile.json", sensors({"a", "b", "c", "d"}));
  EXPECT_EQ(count(lint_paths(alone), "source-missing"), 1u);
  const Lint_run grown = lint_paths(held);
  ASSERT_EQ(count(grown, "source-missing"), 1u) << "one more is new";
  EXPECT_NE(json_report(grown).find("the model of a has no source: say"), std::string::npos);
  EXPECT_EQ(count(grown, "baseline-stale"), 0u);
  Lint_request cached = held;
  cached.cache = "cache";
  for (const char* run : {"cold", "warm"})
    EXPECT_EQ(json_report(lint_paths(cached)), json_report(grown)) << run;

  profile("a.profile.json", sensors({"b", "c", "d"}, R"(, "source": { "from": "x" })"));
  const Lint_run mended = lint_paths(held);
  EXPECT_EQ(count(mended, "source-missing"), 0u) << "who mends one is not held up for the others";
  EXPECT_EQ(count(mended, "baseline-stale"), 1u);
}

// reports.md, "Shards" and "A cache": what one run says of all at once. Here is what a document must not lose
// on the way: in which group a finding is, where its line is shown from, whether all was looked at.
TEST_F(Baseline_run_of_corpus, says_the_same_in_shards_and_by_a_cache) {
  const auto suspecting = [](std::string_view suspects) {
    return fmt::format(
        R"(, "faults": {{ "f": {{ "display": {{ "kind": "text", "text": "H3" }}, "meaning": "m",
  "suspects": [{{ "kind": "component", "component": "a", "modes": ["open"] }} {}] }} }})",
        suspects);
  };
  corpus("corpus.json");
  profile("groups.profile.json", suspecting(""));
  profile("mended.profile.json", off_pin);
  Lint_request held = request({"."}, "known.json");
  write_it(held);

  profile("groups.profile.json", suspecting(R"(,
  { "kind": "component", "component": "b", "modes": ["open"], "decided_by": ["t", "u"] })"));
  profile("mended.profile.json");
  profile("waiver.profile.json",
          R"(, "waivers": [{ "rule": "curve-contradicts", "at": "/appliance", "why": "w" }])");
  std::string line = profile_text("twice", "");
  std::replace(line.begin(), line.end(), '\n', ' ');
  line.insert(1, fmt::format(R"("x_long": "{}",)", std::string(300, 'x')));
  write("one.profile.json", line);
  write("two.profile.json", line);
  const auto said = [](const Lint_run& run) {
    std::string text = json_report(run);
    for (const Finding& finding : run.findings) text += text_report(finding);
    return text;
  };
  const Lint_run whole = lint_paths(held);
  EXPECT_EQ(count(whole, "reference-dangling"), 2u) << "b by itself, and the two tests as one";
  EXPECT_EQ(count(whole, "baseline-stale"), 2u) << "of the pin that is not there, of its source";
  EXPECT_EQ(count(whole, "waiver-unused"), 1u);
  EXPECT_EQ(count(whole, "id-used-twice"), 1u);

  std::vector<Shard_file> shards;
  for (const std::size_t number : {1u, 2u}) {
    held.shard = Shard{number, 2};
    shards.push_back({fmt::format("s{}", number), lint_shard(held).text});
  }
  held.shard.reset();
  EXPECT_EQ(said(merge_shards(shards, held)), said(whole));
  held.cache = "cache";
  for (const char* run : {"cold", "warm"}) EXPECT_EQ(said(lint_paths(held)), said(whole)) << run;
}

// format.md, "Baseline": where a key is missing, that key is the value.
TEST_F(Baseline_run_of_corpus, knows_which_key_of_the_house_is_missing) {
  if (!has_schema_engine()) GTEST_SKIP() << "built without valijson";
  corpus("c/corpus.json", R"(, "house_schema": "house.json")");
  write("c/house.json", R"({ "required": ["x_checked", "x_by"] })");
  profile("c/a.profile.json", R"(, "x_by": "somebody")");
  const Lint_request held = request({"c"}, "known.json");
  write_it(held);
  EXPECT_EQ(count(lint_paths(held), "house-schema-broken"), 0u);
  profile("c/a.profile.json", R"(, "x_checked": true)");
  EXPECT_EQ(count(lint_paths(held), "house-schema-broken"), 1u) << "another is missing now";
}

// format.md, "Baseline": where another test contradicts it, the value names that one.
TEST_F(Baseline_run_of_corpus, knows_which_tests_contradict_each_other) {
  const auto tests = [&](const std::vector<std::pair<std::string, std::string>>& all) {
    std::string members;
    for (const auto& [id, nominal] : all)
      members += fmt::format(R"({}"{}": {{ "component": "r", "probes": ["X1.1", "X1.2"],
  "side": "at_component", "expect": {{ "kind": "band", "nominal": "{}", "tolerance": "5 %", "at": "20 °C" }} }})",
                             members.empty() ? "" : ", ", id, nominal);
    profile("a.profile.json",
            fmt::format(R"(, "components": {{ "r": {{ "kind": "resistor", "name": "Resistor" }} }},
  "tests": {{ {} }})",
                        members));
  };
  const Lint_request held = request({"a.profile.json"}, "known.json");
  tests({{"a", "500 Ω"}, {"b", "100 Ω"}});
  write_it(held);
  EXPECT_EQ(count(lint_paths(held), "expectations-contradict"), 0u);

  tests({{"a2", "505 Ω"}, {"a", "500 Ω"}, {"b", "100 Ω"}});
  Lint_request alone = held;
  alone.baseline.reset();
  EXPECT_EQ(count(lint_paths(alone), "expectations-contradict"), 1u) << "told once";
  const Lint_run grown = lint_paths(held);
  ASSERT_EQ(count(grown, "expectations-contradict"), 1u) << "a second wrong test before the first is new";
  EXPECT_NE(json_report(grown).find(", a2 expects 479.7 Ω"), std::string::npos) << json_report(grown);
  EXPECT_EQ(count(grown, "baseline-stale"), 0u);

  tests({{"a", "500 Ω"}, {"a2", "505 Ω"}, {"a3", "495 Ω"}, {"b", "100 Ω"}});
  write_it(held);
  tests({{"a3", "495 Ω"}, {"a2", "505 Ω"}, {"a", "500 Ω"}, {"b", "100 Ω"}});
  const Lint_run reordered = lint_paths(held);
  EXPECT_EQ(count(reordered, "expectations-contradict"), 0u);
  EXPECT_EQ(count(reordered, "baseline-stale"), 0u);
}

TEST_F(Baseline_run_of_corpus, knows_each_test_that_no_part_passes) {
  const auto test = [](std::string_view id, std::string_view at, std::string_view min, std::string_view max) {
    return fmt::format(R"("{}": {{ "component": "s", "probes": ["X1.1", "X1.2"], "side": "at_component",
  "expect": {{ "kind": "band", "at": "{}", "min": "{}", "max": "{}" }} }})",
                       id, at, min, max);
  };
  const auto tests = [&](const std::string& members) {
    profile("a.profile.json", fmt::format(R"(, "connectors": {{ "X1": {{ "label": "X1", "ways": 2,
  "circuit": "selv", "pins": {{ "1": {{}}, "2": {{}} }} }} }},
  "components": {{ "s": {{ "kind": "ntc", "name": "Sensor", "between": ["X1.1", "X1.2"],
  "model": {{ "kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "tolerance": "5 %", "b_value": "3977 K",
  "b_between": "25 °C to 85 °C", "b_tolerance": "1 %" }} }} }}, "tests": {{ {} }})",
                                          members));
  };
  const std::string cold = test("cold", "25 °C", "10.4 kΩ", "10.49 kΩ"),
                    hot = test("hot", "60 °C", "2.30 kΩ", "2.31 kΩ"),
                    hottest = test("hottest", "85 °C", "1000 Ω", "1010 Ω");
  const Lint_request held = request({"a.profile.json"}, "known.json");
  Lint_request alone = held;
  alone.baseline.reset();
  tests(cold + ", " + hot);
  write_it(held);
  EXPECT_EQ(count(lint_paths(held), "no-part-passes-all-tests"), 0u);
  for (const std::string& both : {hot + ", " + hottest, hottest + ", " + hot}) {
    tests(cold + ", " + both);
    EXPECT_EQ(count(lint_paths(alone), "no-part-passes-all-tests"), 1u) << "told once";
    EXPECT_EQ(count(lint_paths(held), "no-part-passes-all-tests"), 1u) << "a second wrong test is new";
    EXPECT_EQ(count(lint_paths(held), "baseline-stale"), 0u) << "the first is still there";
  }
}

// format.md, "Baseline": the value names what contradicts it, here the way round and the terminals.
TEST_F(Baseline_run_of_corpus, knows_which_readings_of_a_network_are_impossible_together) {
  using Pairs = std::vector<std::array<std::string, 3>>;
  const auto network = [&](const Pairs& all) {
    std::string terminals, pairs, pins;
    for (int i = 0; i < 5; ++i) {
      terminals += fmt::format(R"({}"{}": "X4.{}")", i > 0 ? ", " : "", "abcde"[i], i + 1);
      pins += fmt::format(R"({}"{}": {{}})", i > 0 ? ", " : "", i + 1);
    }
    for (const auto& [from, to, ohm] : all)
      pairs += fmt::format(R"({}{{ "from": "{}", "to": "{}", "resistance": "{}" }})",
                           pairs.empty() ? "" : ", ", from, to, ohm);
    profile("a.profile.json", fmt::format(R"(, "connectors": {{ "X4": {{ "label": "X4", "ways": 5,
  "circuit": "selv", "pins": {{ {} }} }} }}, "components": {{ "n": {{ "kind": "resistor", "name": "Network",
  "purely_resistive": true, "terminals": {{ {} }},
  "model": {{ "kind": "fixed", "resistance": "1.00 kΩ", "pairs": [{}] }} }} }})",
                                          pins, terminals, pairs));
  };
  const Lint_request held = request({"a.profile.json"}, "known.json");
  Lint_request alone = held;
  alone.baseline.reset();
  const auto expect_one_more = [&](std::string_view rule, const Pairs& known, Pairs more) {
    network(known);
    write_it(held);
    EXPECT_EQ(count(lint_paths(alone), rule), 1u);
    EXPECT_EQ(count(lint_paths(held), rule), 0u);
    more.insert(more.begin(), known.begin(), known.end());
    network(more);
    EXPECT_EQ(count(lint_paths(alone), rule), 1u) << "told once";
    EXPECT_EQ(count(lint_paths(held), rule), 1u) << "another is new";
    EXPECT_EQ(count(lint_paths(held), "baseline-stale"), 0u) << "the first is still there";
  };
  expect_one_more("triangle-broken", {{"a", "b", "20 Ω"}, {"b", "c", "20 Ω"}, {"a", "c", "52 Ω"}},
                  {{"a", "d", "22 Ω"}, {"d", "c", "22 Ω"}});
  // The sides of a square, and both diagonals: at most 1.25 kΩ where one is 1.5 kΩ.
  const std::string side = "1.00 kΩ", long_ = "1.50 kΩ";
  expect_one_more("readings-unrealizable",
                  {{"a", "b", side},
                   {"b", "c", side},
                   {"c", "d", side},
                   {"a", "d", side},
                   {"a", "c", long_},
                   {"b", "d", long_}},
                  {{"a", "e", side}, {"b", "e", side}, {"c", "e", "1.80 kΩ"}, {"d", "e", side}});
}

// The same of rows: which of them clash. Many wrong rows are told once.
TEST_F(Baseline_run_of_corpus, knows_which_rows_of_a_table_clash) {
  using Rows = std::map<int, std::string>; // by temperature in °C
  const auto table = [&](std::string_view kind, const Rows& rows) {
    std::string members;
    for (const auto& [celsius, ohm] : rows)
      members += fmt::format(R"({}{{ "at": "{} °C", "nominal": "{}", "tolerance": "1 %" }})",
                             members.empty() ? "" : ", ", celsius, ohm);
    profile("a.profile.json", fmt::format(R"(, "components": {{ "s": {{ {}, "name": "Sensor",
  "model": {{ "kind": "table", "rows": [{}] }} }} }})",
                                          kind, members));
  };
  const Lint_request held = request({"a.profile.json"}, "known.json");
  const auto fresh = [&](std::string_view rule, std::string_view kind, Rows rows, const Rows& wrong,
                         const Rows& more) {
    for (const auto& [celsius, ohm] : wrong) rows[celsius] = ohm;
    table(kind, rows);
    write_it(held);
    EXPECT_EQ(count(lint_paths(held), rule), 0u);
    for (const auto& [celsius, ohm] : more) rows[celsius] = ohm;
    table(kind, rows);
    const std::size_t told = count(lint_paths(held), rule);
    fs::remove("known.json");
    return told;
  };
  // R25 = 10 kΩ, B = 3977 K, rounded.
  const Rows ntc = {{0, "33.9 kΩ"},  {10, "20.3 kΩ"}, {20, "12.5 kΩ"}, {30, "8.03 kΩ"}, {40, "5.28 kΩ"},
                    {50, "3.56 kΩ"}, {60, "2.46 kΩ"}, {70, "1.73 kΩ"}, {80, "1.24 kΩ"}};
  const std::string_view bare = R"("kind": "ntc")";
  const Rows steep = {{0, "30 kΩ"}, {10, "20 kΩ"}, {20, "12.0 kΩ"}, {30, "9 kΩ"}, {40, "6 kΩ"}};
  EXPECT_EQ(fresh("ntc-rises", bare, steep, {{30, "13.0 kΩ"}}, {{40, "12.5 kΩ"}}), 1u);
  EXPECT_EQ(fresh("ntc-b-impossible", bare, ntc, {{10, "33.8 kΩ"}, {30, "12.4 kΩ"}}, {{80, "1.72 kΩ"}}), 1u)
      << "told as one with those that are known";
  const Rows ptc = {{25, "100 Ω"}, {60, "200 Ω"}, {80, "400 Ω"}, {100, "1.0 kΩ"}, {120, "20 kΩ"}};
  EXPECT_EQ(
      fresh("ptc-falls", R"("kind": "ptc", "type": "switching")", ptc, {{80, "150 Ω"}}, {{100, "180 Ω"}}),
      1u);
}

// What a rule finds about a record that holds others is known by what it says of it, not by the place alone.
TEST_F(Baseline_run_of_corpus, knows_what_is_said_of_a_record_that_holds_others) {
  const Lint_request held = request({"c"}, "known.json");
  const auto fresh = [&](std::string_view rule, const std::string& before, const std::string& after) {
    profile("c/a.profile.json", before);
    write_it(held);
    EXPECT_EQ(count(lint_paths(held), rule), 0u);
    profile("c/a.profile.json", after);
    const std::size_t told = count(lint_paths(held), rule);
    fs::remove("known.json");
    return told;
  };
  corpus("c/corpus.json");
  const auto table = [](const std::string& of_component, const std::string& at_60, const std::string& at_80) {
    return fmt::format(R"({}"model": {{ "kind": "table", "rows": [
  {{ "at": "25 °C", "nominal": "10.0 kΩ", "tolerance": "1 %" }},
  {{ "at": "60 °C", "nominal": "{}", "tolerance": "1 %" }},
  {{ "at": "80 °C", "nominal": "{}", "tolerance": "1 %" }}] }})",
                       of_component, at_60, at_80);
  };
  const auto sensor = [](const std::string& members) {
    return fmt::format(R"(, "components": {{ "s": {{ "kind": "ntc", "name": "Sensor", {} }} }})", members);
  };
  EXPECT_EQ(
      fresh("ntc-b-unusual", sensor(table("", "6.0 kΩ", "4.6 kΩ")), sensor(table("", "6.0 kΩ", "4.7 kΩ"))),
      1u);
  part("c/parts/p.part.json", "p", ", " + table("", "2.49 kΩ", "1.26 kΩ"));
  const std::string of_part = R"("part": "p", )";
  EXPECT_EQ(fresh("part-narrowed-outside", sensor(table(of_part, "2.60 kΩ", "1.26 kΩ")),
                  sensor(table(of_part, "2.60 kΩ", "1.35 kΩ"))),
            1u);
  const auto suspect = [](const std::string& id) {
    return fmt::format(
        R"(, "faults": {{ "f": {{ "display": {{ "kind": "text", "text": "H3" }}, "meaning": "m",
  "suspects": [{{ "kind": "component", "component": "{}", "modes": ["open"] }}] }} }},
  "components": {{ "s": {{ "kind": "ntc", "name": "S" }}, "t": {{ "kind": "ntc", "name": "T" }} }})",
        id);
  };
  EXPECT_EQ(fresh("fault-undecided", suspect("s"), suspect("t")), 1u);
  const auto circuit = [](const std::string& id) {
    return fmt::format(R"(, "components": {{ "s": {{ "kind": "ntc", "name": "S" }}, "t": {{ "kind": "ntc",
  "name": "T" }} }}, "circuits": {{ "inner": {{ "arrangement": "series", "elements": [
  {{ "kind": "component", "component": "s" }}, {{ "kind": "component", "component": "t" }}] }},
  "outer": {{ "arrangement": "parallel", "elements": [
  {{ "kind": "circuit", "circuit": "inner" }}, {{ "kind": "component", "component": "{}" }}] }} }})",
                       id);
  };
  const auto reversed = [&](const std::string& id) { // the nested one comes last
    std::string text = circuit(id);
    const std::string nested = R"({ "kind": "circuit", "circuit": "inner" }, )";
    text.erase(text.find(nested), nested.size());
    const std::string last = fmt::format(R"("component": "{}" }}] }} }})", id);
    text.insert(text.rfind(last) + last.size() - 5, R"(, { "kind": "circuit", "circuit": "inner" })");
    return text;
  };
  EXPECT_EQ(fresh("circuit-element-twice", reversed("s"), reversed("t")), 1u);
  if (!has_schema_engine()) GTEST_SKIP() << "built without valijson";
  corpus("c/corpus.json", R"(, "house_schema": "house.json")");
  write("c/house.json", R"({ "properties": { "appliance": { "anyOf": [{ "required": ["note"] }],
  "maxProperties": 5 } } })");
  const auto appliance = [&](const std::string& member) {
    profile("c/a.profile.json");
    std::string text = bytes_of("c/a.profile.json");
    text.insert(text.find(R"("maker")"), member);
    write("c/a.profile.json", text);
  };
  appliance("");
  write_it(held);
  appliance(R"("note": "n", )");
  EXPECT_EQ(count(lint_paths(held), "house-schema-broken"), 1u) << "the other demand";
}

// format.md, "Baseline": the value is what both documents say, so that neither a mistake in the other is
// hidden nor a moved file new.
class Baseline_of_contradictions : public Baseline_run_of_corpus {
protected:
  static void on_one_board(const std::string& path, const std::string& members) {
    profile(path, members);
    std::string text = bytes_of(path);
    const std::string part = R"("controller": { "part": ")", id = text.substr(text.find(part) + part.size());
    text.replace(text.find(part) + part.size(), id.find('"'), "OV-4410");
    write(path, text);
  }
  static std::string code(const std::string& meaning) {
    return fmt::format(
        R"(, "faults": {{ "f": {{ "display": {{ "kind": "text", "text": "H3" }}, "meaning": "{}",
  "suspects": [{{ "kind": "board", "not_decidable": "no test" }}] }} }})",
        meaning);
  }
  static std::string ways(const std::vector<std::string>& pins) {
    std::string members;
    for (std::size_t i = 0; i < pins.size(); ++i)
      members += fmt::format(R"({}"{}": {{ {} }})", i == 0 ? "" : ", ", i + 1, pins[i]);
    return fmt::format(
        R"(, "connectors": {{ "X1": {{ "label": "X1", "ways": 6, "circuit": "selv", "pins": {{ {} }} }} }})",
        members);
  }
  static std::string carrying(const std::vector<std::string>& signals) {
    std::vector<std::string> pins;
    for (const std::string& signal : signals) pins.push_back(fmt::format(R"("signal": "{}")", signal));
    return ways(pins);
  }
  static std::string coils(const std::vector<std::string>& ohms) {
    std::string members;
    for (std::size_t i = 0; i < ohms.size(); ++i)
      members += fmt::format(R"({}"c{}": {{ "kind": "coil", "name": "Coil", "orderable": "OV-1",
  "model": {{ "kind": "copper", "resistance": "{}", "at": "20 °C", "tolerance": "1 %" }} }})",
                             i == 0 ? "" : ", ", i, ohms[i]);
    return fmt::format(R"(, "components": {{ {} }})", members);
  }
  // How often the rule is told of `after`, where the baseline knows `before`: documents by their ids.
  using Documents = std::map<std::string, std::string>;
  static std::size_t fresh(std::string_view rule, const Documents& before, const Documents& after) {
    for (const Documents* documents : {&before, &after}) {
      fs::remove_all("c");
      corpus("c/corpus.json", R"(, "policy": { "fail_on": "note" })");
      for (const auto& [path, members] : *documents) on_one_board("c/" + path + ".profile.json", members);
      if (documents == &before) write_it(request({"c"}, "known.json"));
    }
    fs::remove("cache");
    Lint_request held = request({"c"}, "known.json");
    held.cache = "cache";
    const std::size_t told = count(lint_paths(held), rule);
    EXPECT_EQ(count(lint_paths(held), rule), told) << "from the cache";
    fs::remove("known.json");
    return told;
  }
};

TEST_F(Baseline_of_contradictions, knows_meanings_of_a_code_by_both) {
  const auto fresh = [](const Documents& before, const Documents& after) {
    return Baseline_of_contradictions::fresh("code-means-two", before, after);
  };
  const Documents known = {{"a", code("fan speed")}, {"b", code("no flame")}};
  EXPECT_EQ(fresh(known, known), 0u);
  EXPECT_EQ(fresh(known, {{"z/a", code("fan speed")}, {"b", code("no FLAME")}}), 0u)
      << "moved, and in capitals";
  EXPECT_EQ(fresh(known, {{"a", code("fan and pump")}, {"b", code("no flame")}}), 1u);
  EXPECT_EQ(fresh(known, {{"a", code("fan speed")}, {"a2", code("fan speed")}, {"b", code("no flame")}}), 1u);
  EXPECT_EQ(fresh({{"a", code("flame goes out")}, {"b", code("no flame")}},
                  {{"a", code("fan speed")}, {"b", code("no flame")}}),
            1u)
      << "a note hides no warning";
}

TEST_F(Baseline_of_contradictions, knows_contacts_by_both) {
  const auto fresh = [](const Documents& before, const Documents& after) {
    return Baseline_of_contradictions::fresh("pinout-contradicts", before, after);
  };
  const std::string mains = R"("circuit": "mains")", selv = R"("circuit": "selv")";
  const Documents known = {{"a", ways({mains, selv})}, {"b", ways({selv, selv})}};
  EXPECT_EQ(fresh(known, known), 0u);
  EXPECT_EQ(fresh(known, {{"z/a", ways({mains, selv})}, {"b", ways({selv, selv, selv})}}), 0u);
  EXPECT_EQ(fresh(known, {{"a", ways({selv, mains})}, {"b", ways({selv, selv})}}), 1u);
  EXPECT_EQ(
      fresh(known, {{"a", ways({mains, selv})}, {"a2", ways({mains, selv})}, {"b", ways({selv, selv})}}), 1u);

  // Two that differ from all others at many contacts hide nothing of the others.
  const std::vector<std::string> all_mains(10, mains), all_selv(11, selv);
  std::vector<std::string> last_mains = all_selv;
  last_mains.back() = mains;
  Documents many = {{"a1", ways(all_mains)}, {"a2", ways(all_mains)}};
  for (const char* id : {"b1", "b2", "b3"}) many[id] = ways(all_selv);
  Documents one_wrong = many;
  one_wrong["b3"] = ways(last_mains);
  EXPECT_EQ(fresh(many, one_wrong), 1u);

  const Documents moved = {{"a", carrying({"2", "1", "3", "4"})}, {"b", carrying({"1", "2", "3", "4"})}};
  EXPECT_EQ(fresh(moved, moved), 0u);
  EXPECT_EQ(fresh({}, moved), 1u) << "told once";
  EXPECT_EQ(fresh(moved, {{"a", carrying({"2", "1", "4", "3"})}, {"b", carrying({"1", "2", "3", "4"})}}), 2u);
}

// What several documents contradict in the same words is one finding that shows them, and counts each.
TEST_F(Baseline_of_contradictions, counts_the_documents_that_say_the_same) {
  corpus("c/corpus.json");
  for (const char* id : {"a", "b", "d"})
    on_one_board(fmt::format("c/{}.profile.json", id),
                 ways({id[0] == 'd' ? R"("circuit": "mains")" : R"("circuit": "selv")"}));
  const Lint_run run = lint_paths(request({"c"}, "none.json"));
  const auto found = std::find_if(run.findings.begin(), run.findings.end(), [](const Finding& finding) {
    return finding.rule == "pinout-contradicts";
  });
  ASSERT_NE(found, run.findings.end());
  EXPECT_EQ(found->times, 2u);
  EXPECT_EQ(found->related.size(), 2u);
  write_it(request({"c"}, "known.json"));
  EXPECT_NE(bytes_of("known.json").find("\"count\": 2"), std::string::npos) << bytes_of("known.json");
  on_one_board("c/a.profile.json", ways({R"("circuit": "mains")"}));
  EXPECT_EQ(count(lint_paths(request({"c"}, "known.json")), "baseline-stale"), 1u) << "one of two is left";
}

// Made to harm: as many curves of one spare number here as there are others there.
TEST_F(Baseline_of_contradictions, does_not_keep_all_pairs_of_curves) {
  std::vector<std::string> here, there;
  for (int i = 0; i < 100; ++i) {
    here.push_back(fmt::format("{} Ω", 100 * (i + 1)));
    there.push_back(fmt::format("{} Ω", 100 * (i + 101)));
  }
  corpus("c/corpus.json");
  on_one_board("c/a.profile.json", coils(here));
  on_one_board("c/b.profile.json", coils(there));
  write_it(request({"c"}, "known.json"));
  const Lint_run run = lint_paths(request({"c"}, "known.json"));
  const auto kept = std::count_if(run.suppressed.begin(), run.suppressed.end(),
                                  [](const Finding& finding) { return finding.rule == "curve-contradicts"; });
  EXPECT_GT(kept, 0);
  EXPECT_LE(kept, 20);
}

TEST_F(Baseline_of_contradictions, knows_curves_by_both) {
  const auto fresh = [](const Documents& before, const Documents& after) {
    return Baseline_of_contradictions::fresh("curve-contradicts", before, after);
  };
  const Documents known = {{"a", coils({"50 Ω"})}, {"b", coils({"60 Ω"})}};
  EXPECT_EQ(fresh(known, known), 0u);
  EXPECT_EQ(fresh(known, {{"z/a", coils({"50 Ω"})}, {"b", coils({"60 Ω"})}}), 0u);
  EXPECT_EQ(fresh(known, {{"a", coils({"5000 Ω"})}, {"b", coils({"60 Ω"})}}), 1u);
  EXPECT_EQ(fresh(known, {{"a", coils({"50 Ω", "55 Ω"})}, {"b", coils({"60 Ω"})}}), 1u);
  EXPECT_EQ(fresh({}, {{"a", coils({"50 Ω", "55 Ω"})}, {"b", coils({"60 Ω", "65 Ω"})}}), 1u) << "told once";
  corpus("c/corpus.json");
  on_one_board("c/a.profile.json", coils({"50 Ω"}));
  on_one_board("c/b.profile.json", coils({"60 Ω", "60 Ω"}));
  write_it(request({"c"}, "known.json"));
  for (const char* at : {"/components/c0\"", "/components/c1\""})
    EXPECT_NE(bytes_of("known.json").find(at), std::string::npos) << "two places that say the same: " << at;
}

// reports.md, "What is suppressed"
TEST_F(Baseline_run_of_corpus, knows_nothing_of_a_document_of_which_the_house_tells_not_all) {
  if (!has_schema_engine()) GTEST_SKIP() << "built without valijson";
  corpus("c/corpus.json", R"(, "house_schema": "house.json")");
  write("c/house.json", R"({ "properties": { "x_list": { "items": { "const": 1 } } } })");
  const auto list = [&](int length) {
    std::string items = "2";
    for (int i = 1; i < length; ++i) items += ", 2";
    profile("c/a.profile.json", fmt::format(R"(, "x_list": [{}])", items));
  };
  const Lint_request held = request({"c"}, "known.json");
  list(3);
  write_it(held);
  EXPECT_EQ(count(lint_paths(held), "house-schema-broken"), 0u);
  list(4);
  EXPECT_EQ(count(lint_paths(held), "house-schema-broken"), 1u);
  list(3000);
  EXPECT_EQ(count(lint_paths(held), "house-schema-broken"), 1000u) << "also those that are in the baseline";
}

// format.md, "Unknown keys": a key that begins with x_ is free for others and is kept.
TEST_F(Baseline_run_of_corpus, keeps_what_others_wrote_into_it) {
  profile("a.profile.json", off_pin);
  write_it(request({"a.profile.json"}, "b.json"));
  std::string text = bytes_of("b.json");
  text.replace(text.find("      \"owner\""), 0,
               "      \"x_ticket\": { \"n\u00famero\": [1.50, \"\\u0041\"] },\n");
  text.replace(text.find("  \"entries\""), 0, "  \"x_team\": \"sensors\",\n");
  write("b.json", text);
  EXPECT_EQ(write_it(request({"a.profile.json"}, "b.json")).removed, 0u);
  const std::string after = bytes_of("b.json");
  EXPECT_NE(after.find("\"x_ticket\": { \"n\u00famero\": [1.50, \"\\u0041\"] }\n"), std::string::npos)
      << after;
  EXPECT_NE(after.find("\"x_team\": \"sensors\"\n"), std::string::npos) << after;
  write_it(request({"a.profile.json"}, "b.json"));
  EXPECT_EQ(bytes_of("b.json"), after);
}

TEST_F(Baseline_run_of_corpus, is_of_one_corpus) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  corpus("c/nested/corpus.json");
  profile("c/nested/b.profile.json", off_pin);
  ASSERT_EQ(write_it(request({"c"}, "b.json")).troubles.size(), 1u);
  EXPECT_FALSE(fs::exists("b.json"));
  write("b.json", R"({"format":"ohmlore-baseline/1.0","entries":[]})");
  const Lint_run run = lint_paths(request({"c"}, "b.json"));
  EXPECT_EQ(troubles(run), "b.json: a baseline is of one corpus, and these documents are of several (c, "
                           "c/nested); lint each with a baseline of its own, or name one --root for all\n");
  Lint_request one_root = request({"c"}, "c/b.json");
  one_root.root = "c";
  EXPECT_GE(write_it(one_root).added, 2u);
}

TEST_F(Baseline_run_of_corpus, keeps_what_a_root_below_did_not_look_at) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  const std::size_t known = write_it(request({"c"}, "c/b.json")).added;
  ASSERT_GE(known, 1u);
  corpus("c/nested/corpus.json");
  profile("c/nested/n.profile.json");
  const Lint_run run = lint_paths(request({"c/nested"}, "c/b.json"));
  EXPECT_EQ(troubles(run), "");
  EXPECT_EQ(count(run, "baseline-stale"), 0u);
  const Baseline_run again = write_it(request({"c/nested"}, "c/b.json"));
  EXPECT_EQ(again.removed, 0u);
  EXPECT_EQ(again.kept, known);
}

TEST_F(Baseline_run_of_corpus, knows_nothing_of_a_document_that_was_not_read_to_its_end) {
  profile("a.profile.json", off_pin);
  const std::string whole = bytes_of("a.profile.json");
  // A syntax error, a kind that nobody knows, a list that is too long.
  std::string kindless = whole, longer = whole;
  kindless.replace(kindless.find("\"profile\""), 9, "\"profil\"");
  std::string models;
  for (int i = 0; i < 2000; ++i) models += fmt::format("\"m{}\", ", i);
  longer.insert(longer.find("\"Larch 24 C\""), models);
  const std::pair<std::string, std::string> broken[] = {
      {whole + "!", "json-syntax"}, {kindless, "word-unknown"}, {longer, "count-out-of-limits"}};
  for (const auto& [text, rule] : broken) {
    write("a.profile.json", text);
    fs::remove("b.json");
    const Baseline_run run = write_it(request({"a.profile.json"}, "b.json"));
    ASSERT_EQ(run.troubles.size(), 1u) << rule;
    EXPECT_NE(run.troubles[0].find("was not looked at to its end"), std::string::npos) << run.troubles[0];
    EXPECT_FALSE(fs::exists("b.json"));
  }
}

TEST_F(Baseline_run_of_corpus, knows_nothing_where_findings_were_left_out) {
  std::string unknown;
  for (int i = 0; i < 1100; ++i) unknown += fmt::format(R"(, "k{}": 1)", i);
  profile("a.profile.json", unknown);
  EXPECT_EQ(write_it(request({"a.profile.json"}, "b.json")).troubles.size(), 1u);
  EXPECT_FALSE(fs::exists("b.json"));
}

TEST_F(Baseline_run_of_corpus, is_written_only_where_it_can_be_read_back) {
  profile("a.profile.json", off_pin);
  for (const std::string& owner : {std::string(), std::string("a\nb"), std::string(5000, 'x')}) {
    const Baseline_run run = write_it(request({"a.profile.json"}, "b.json"), owner);
    ASSERT_EQ(run.troubles.size(), 1u);
    EXPECT_NE(run.troubles[0].find("could not be read back"), std::string::npos) << run.troubles[0];
    EXPECT_FALSE(fs::exists("b.json"));
  }
}

TEST_F(Baseline_run_of_corpus, is_not_written_with_a_last_day_that_is_past) {
  profile("a.profile.json", off_pin);
  EXPECT_EQ(write_it(request({"a.profile.json"}, "b.json"), "x", "2025-12").troubles.size(), 1u);
  EXPECT_FALSE(fs::exists("b.json"));
  EXPECT_EQ(write_it(request({"a.profile.json"}, "b.json"), "x", "2026-01-01").troubles.size(), 0u);
}

TEST_F(Baseline_run_of_corpus, knows_a_file_without_id_however_it_is_spelt) {
  write("a.profile.json", R"({"format":"ohmlore/1.0","kind":"profile","revision":1})");
  ASSERT_GE(write_it(request({"./a.profile.json"}, "b.json")).added, 1u);
  EXPECT_NE(bytes_of("b.json").find("\"file a.profile.json\""), std::string::npos) << bytes_of("b.json");
  EXPECT_EQ(lint_paths(request({fs::absolute("a.profile.json").string()}, "b.json")).findings.size(), 0u);
  fs::create_directory("d");
  fs::current_path("d");
  EXPECT_EQ(lint_paths(request({"../a.profile.json"}, "../b.json")).findings.size(), 0u);
}

TEST_F(Baseline_run_of_corpus, obeys_the_policy_of_the_documents_wherever_it_lies) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  ASSERT_GE(write_it(request({"c"}, "b.json")).added, 1u);
  profile("c/a.profile.json");
  const std::size_t stale = count(lint_paths(request({"c"}, "b.json")), "baseline-stale");
  ASSERT_GE(stale, 1u);
  corpus("c/corpus.json", R"(, "policy": { "severities": { "baseline-stale": "error" } })");
  EXPECT_EQ(lint_paths(request({"c"}, "b.json")).failing, stale);
}

TEST_F(Baseline_run_of_corpus, keeps_entries_of_rules_that_are_switched_off) {
  corpus("c/corpus.json");
  write("c/p.profile.json", profile_text("other", ""));
  ASSERT_GE(write_it(request({"c"}, "c/b.json")).added, 1u);
  ASSERT_NE(bytes_of("c/b.json").find("file-name-differs"), std::string::npos);
  corpus("c/corpus.json", R"(, "policy": { "severities": { "file-name-differs": "off" } })");
  EXPECT_EQ(count(lint_paths(request({"c"}, "c/b.json")), "baseline-stale"), 0u);
  EXPECT_EQ(write_it(request({"c"}, "c/b.json")).removed, 0u);
}

TEST_F(Baseline_run_of_corpus, follows_a_document_to_its_new_id) {
  corpus("c/corpus.json");
  profile("c/old.profile.json", off_pin);
  const Lint_request all = request({"c"}, "c/baseline.json");
  EXPECT_EQ(write_it(all).troubles, std::vector<std::string>());
  fs::rename("c/old.profile.json", "c/new.profile.json");
  profile("c/new.profile.json", off_pin);
  Lint_run run = lint_paths(all);
  EXPECT_EQ(count(run, "pin-undeclared"), 1u) << "another document";
  EXPECT_GT(count(run, "baseline-stale"), 0u);

  corpus("c/corpus.json", R"(, "redirects": { "profiles": { "old": "between", "between": "new" } })");
  run = lint_paths(all);
  EXPECT_EQ(run.findings.size(), 0u);
  EXPECT_EQ(write_it(all).added, 0u);
  EXPECT_EQ(bytes_of("c/baseline.json").find("profile old"), std::string::npos);

  corpus("c/corpus.json"); // the redirect may go once the baseline is written anew
  EXPECT_EQ(lint_paths(all).findings.size(), 0u);
}

TEST_F(Baseline_run_of_corpus, knows_which_curves_contradict_whatever_id_their_documents_have_now) {
  const auto resistor = [&](const std::string& id, std::string_view resistance) {
    profile("c/" + id + ".profile.json", fmt::format(R"(, "components": {{ "r": {{ "kind": "resistor",
  "name": "Resistor", "orderable": "OV-R-1", "model": {{ "kind": "fixed", "resistance": "{}", "tolerance": "1 %" }} }} }})",
                                                     resistance));
  };
  corpus("c/corpus.json");
  resistor("b", "10 kΩ");
  resistor("c", "12 kΩ");
  const Lint_request all = request({"c"}, "c/baseline.json");
  EXPECT_EQ(write_it(all).troubles, std::vector<std::string>());
  Lint_request alone = all;
  alone.baseline.reset();
  ASSERT_EQ(count(lint_paths(alone), "curve-contradicts"), 1u);
  fs::remove("c/b.profile.json");
  resistor("d", "10 kΩ");
  corpus("c/corpus.json", R"(, "redirects": { "profiles": { "b": "d" } })");
  const Lint_run run = lint_paths(all);
  EXPECT_EQ(count(run, "curve-contradicts"), 0u);
  EXPECT_EQ(count(run, "baseline-stale"), 0u);
}

TEST_F(Baseline_run_of_corpus, knows_of_merged_documents_what_it_knew_of_each) {
  corpus("c/corpus.json");
  profile("c/a.profile.json", off_pin);
  profile("c/b.profile.json", off_pin);
  const Lint_request all = request({"c"}, "c/baseline.json");
  EXPECT_EQ(write_it(all).troubles, std::vector<std::string>());
  fs::remove("c/b.profile.json");
  corpus("c/corpus.json", R"(, "redirects": { "profiles": { "b": "a" } })");
  Lint_run run = lint_paths(all);
  EXPECT_EQ(count(run, "pin-undeclared"), 0u);
  EXPECT_GT(count(run, "baseline-stale"), 0u) << "two were known, one is left";
  EXPECT_EQ(write_it(all).troubles, std::vector<std::string>());
  EXPECT_EQ(lint_paths(all).findings.size(), 0u);

  // A document that is there is never taken for another.
  corpus("c/corpus.json", R"(, "redirects": { "profiles": { "a": "b" } })");
  EXPECT_EQ(count(lint_paths(all), "pin-undeclared"), 0u);
}

TEST_F(Corpus_run, a_file_called_standard_input_is_not_taken_for_it) {
  write("standard input", profile_text("a", ""));
  EXPECT_EQ(lint({"standard input"}).files, std::vector<std::string>{"./standard input"});
}

}
}
