// What is written in another form and read again is the same document, to the byte of its canonical form: the
// corpus, documents that hold every field of every kind, and 5000 generated profiles with hostile texts.
#include <gtest/gtest.h>

#include <algorithm>

#include "healthy_profile.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/edit.h"
#include "ohmlore/exchange.h"
#include "ohmlore/report.h"
#include "ohmlore/upgrade.h"
#include "support/cases.h"
#include "support/hostile.h"
#include "support/mutants.h"
#include "support/tables.h"

namespace ohmlore {
namespace {

constexpr int profiles = test::cases(5000);

std::string shown(const std::vector<Finding>& findings) {
  std::string out;
  for (const Finding& finding : findings) out += text_report(finding);
  return out.substr(0, 2000);
}

// Empty where what came back is the document.
std::string lost(const Read_result& read, const Read_result& back) {
  if (back.findings.size() != read.findings.size()) return shown(back.findings);
  if (canonical_json(back.document) == canonical_json(read.document)) return {};
  const std::string difference = test::tree_difference(read.document, back.document);
  return difference.empty() ? "the canonical form differs" : difference;
}

std::string lost_in_xml(const Read_result& read) {
  const std::string xml = xml_of(read);
  if (xml.empty()) return "not written: " + shown(read.findings);
  const Xml_import back = read_xml("document.xml", xml);
  const std::string found = lost(read, back.read);
  if (!found.empty()) return found + '\n' + xml.substr(0, 3000);
  return xml_of(back.read) == xml ? "" : "written again the XML differs";
}

// All documents in one set of tables.
std::string lost_in_csv(const std::vector<Read_result>& documents, Csv_options options = {}) {
  test::Tables tables(options);
  // The order of the tables: profiles, parts, corpora.
  std::vector<const Read_result*> order;
  for (int kind = 0; kind < 3; ++kind)
    for (const Read_result& read : documents)
      if ((kind == 0 && read.document.profile()) || (kind == 1 && read.document.part()) ||
          (kind == 2 && read.document.corpus()))
        order.push_back(&read);
  for (std::size_t i = 0; i < order.size(); ++i)
    if (!tables.add(*order[i], "folder/" + std::to_string(i) + ".json"))
      return "not written: " + shown(order[i]->findings);
  Csv_import import("", tables.open());
  if (!import.findings().empty()) return shown(import.findings());
  for (std::size_t i = 0; i < order.size(); ++i) {
    const std::optional<Csv_document> back = import.next();
    if (!back) return "fewer documents come back";
    if (std::string found = lost(*order[i], back->read); !found.empty()) return found;
    if (back->file != "folder/" + std::to_string(i) + ".json") return "another file: " + back->file;
  }
  return import.next() ? "more documents come back" : "";
}

std::vector<Read_result> read_all(const std::vector<std::string>& texts) {
  std::vector<Read_result> all;
  for (const std::string& text : texts) all.push_back(read_json("document.json", text));
  return all;
}

TEST(Exchange, documents_of_the_corpus_come_back) {
  const std::vector<Read_result> documents = read_all(test::documents_of_corpus());
  for (const Read_result& read : documents) EXPECT_EQ(lost_in_xml(read), "");
  EXPECT_EQ(lost_in_csv(documents), "");
  EXPECT_EQ(lost_in_csv(documents, {';', true}), "");
}

TEST(Exchange, every_field_of_every_kind_comes_back) {
  const std::vector<std::string> documents = test::documents_of_examples();
  for (std::size_t i = 0; i < documents.size(); i += test::step) {
    std::vector<Read_result> one;
    one.push_back(read_json("document.json", documents[i]));
    EXPECT_EQ(lost_in_xml(one[0]), "") << documents[i];
    EXPECT_EQ(lost_in_csv(one), "") << documents[i];
  }
}

TEST(Exchange, generated_profiles_with_hostile_texts_come_back) {
  constexpr int at_once = std::min(100, profiles);
  int wrong = 0;
  for (int first = 1; first <= profiles && wrong < 3; first += at_once) {
    std::vector<Read_result> documents;
    for (int number = first; number < first + at_once; ++number) {
      const Read_result read = read_json("a", test::healthy_profile(number).text);
      documents.push_back(
          read_json("a", test::with_hostile_texts(read.document, static_cast<unsigned>(number))));
      const std::string found = lost_in_xml(documents.back());
      EXPECT_EQ(found, "") << number;
      wrong += !found.empty();
    }
    const Csv_options options = first / at_once % 2 == 0 ? Csv_options{} : Csv_options{'\t', true};
    const std::string found = lost_in_csv(documents, options);
    EXPECT_EQ(found, "") << first;
    wrong += !found.empty();
  }
}

// The same members as a newer minor version may bring them: their keys do not begin with x_.
std::string as_newer_minor(const Document& document) {
  std::vector<Edit> edits;
  const Node& format = document.node(document.member(Document::root, "format"));
  edits.push_back({format.begin, format.end, "\"ohmlore/1.7\""});
  for (const Node& node : document.nodes())
    if (node.key && document.text().substr(node.begin).starts_with("\"x_"))
      edits.push_back({node.begin, node.begin + 3, "\"later_"});
  return apply_edits(document.text(), edits);
}

TEST(Exchange, members_of_a_newer_minor_version_come_back) {
  constexpr int first = 1, count = profiles / 50;
  std::vector<Read_result> documents;
  std::size_t unknown = 0;
  for (int number = first; number < first + count; ++number) {
    const Read_result healthy = read_json("a", test::healthy_profile(number).text);
    const Read_result hostile =
        read_json("a", test::with_hostile_texts(healthy.document, static_cast<unsigned>(number)));
    documents.push_back(read_json("a", as_newer_minor(hostile.document)));
    const Read_result& read = documents.back();
    for (const Finding& finding : read.findings) unknown += finding.rule == "key-unknown";
    EXPECT_EQ(lost_in_xml(read), "") << number;
    // Normalising keeps them as it keeps those that begin with x_.
    const Read_result canonical = read_json("a", canonical_json(hostile.document));
    EXPECT_EQ(canonical_json(read_json("a", as_newer_minor(canonical.document)).document),
              canonical_json(read.document))
        << number;
    EXPECT_EQ(upgrade_text("a", read.document.text()).text, read.document.text());
  }
  EXPECT_EQ(lost_in_csv(documents), "");
  EXPECT_GT(unknown, static_cast<std::size_t>(count)) << "members that this version does not know";
}

}
}
