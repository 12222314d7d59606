// What is written in another form and read again is the same document: the corpus, documents that hold every
// field of every kind, and 5000 generated profiles with hostile texts. Nothing is lost, and nothing is found.
#include <gtest/gtest.h>

#include "healthy_profile.h"
#include "ohmlore/exchange.h"
#include "ohmlore/report.h"
#include "support/hostile.h"
#include "support/mutants.h"

namespace ohmlore {
namespace {

#ifdef __SANITIZE_ADDRESS__
constexpr int profiles = 500;
#else
constexpr int profiles = 5000;
#endif

std::string shown(const std::vector<Finding>& findings) {
  std::string out;
  for (const Finding& finding : findings) out += text_report(finding);
  return out.substr(0, 2000);
}

// Empty where the document comes back from XML as it was.
std::string lost_in_xml(const std::string& json) {
  const Read_result read = read_json("document.json", json);
  const std::string xml = xml_of(read);
  if (xml.empty()) return "not written: " + shown(read.findings);
  const Xml_import back = read_xml("document.xml", xml);
  if (back.read.findings.size() != read.findings.size())
    return shown(back.read.findings) + xml.substr(0, 3000);
  std::string difference = test::tree_difference(read.document, back.read.document);
  if (difference.empty() && xml_of(back.read) != xml) difference = "written again the XML differs";
  return difference;
}

TEST(Exchange, documents_of_the_corpus_come_back_from_xml) {
  for (const std::string& json : test::documents_of_corpus()) EXPECT_EQ(lost_in_xml(json), "");
}

TEST(Exchange, every_field_of_every_kind_comes_back_from_xml) {
  for (const std::string& json : test::documents_of_examples()) EXPECT_EQ(lost_in_xml(json), "") << json;
}

TEST(Exchange, generated_profiles_with_hostile_texts_come_back_from_xml) {
  int wrong = 0;
  for (int number = 1; number <= profiles && wrong < 3; ++number) {
    const Read_result read = read_json("a", test::healthy_profile(number).text);
    const std::string hostile = test::with_hostile_texts(read.document, static_cast<unsigned>(number));
    const std::string lost = lost_in_xml(hostile);
    EXPECT_EQ(lost, "") << number;
    wrong += !lost.empty();
  }
}

}
}
