// Two implementations that share no code but the descriptions: the reader, and a general engine with the
// published schemas. They accept and refuse the same documents (spec/README.md lists the exceptions).
#include <array>
#include <iterator>

#include <gtest/gtest.h>

#include "ohmlore/document.h"
#include "ohmlore/publish.h"
#include "ohmlore/report.h"
#include "ohmlore/schema_engine.h"
#include "support/mutants.h"

namespace ohmlore {
namespace {

// Sanitizers make the general engine some thirty times slower: they see every twentieth mutant.
constexpr std::size_t step = OHMLORE_ONE_CASE_IN;

class Schema_agreement : public testing::Test {
protected:
  void SetUp() override {
    if (!has_schema_engine()) GTEST_SKIP() << "built without a schema engine";
    for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus}) {
      Schema& schema = schemas_[static_cast<std::size_t>(kind)];
      schema = compile_schema(json_schema(kind));
      ASSERT_EQ(schema.problem, "");
    }
  }

  bool schema_accepts(const std::string& json, std::string& why) {
    const Schema_verdict verdict =
        check_schema(schemas_[static_cast<std::size_t>(test::kind_of(json))], json);
    EXPECT_EQ(verdict.problem, "") << json;
    why.clear();
    for (const Schema_refusal& refusal : verdict.refusals)
      why += refusal.pointer + ": " + refusal.message + "\n";
    return verdict.refusals.empty();
  }

  static std::vector<std::string> documents() {
    std::vector<std::string> all = test::documents_of_examples();
    for (std::string& json : test::documents_of_corpus()) all.push_back(std::move(json));
    return all;
  }

  void compare(const std::vector<test::Mutant>& mutants) {
    std::size_t compared = 0, refused = 0, disagreements = 0;
    for (std::size_t i = 0; i < mutants.size(); i += step) {
      const test::Mutant& mutant = mutants[i];
      ++compared;
      std::string reader, schema;
      const bool read = test::reader_accepts(mutant.json, reader);
      const bool valid = schema_accepts(mutant.json, schema);
      if (!read) ++refused;
      if (read == valid) continue;
      if (++disagreements <= 5)
        ADD_FAILURE() << mutant.what << "\nreader: " << (read ? "accepts" : reader)
                      << "\nschema: " << (valid ? "accepts" : schema) << "\n"
                      << mutant.json.substr(0, 4000);
    }
    EXPECT_EQ(disagreements, 0u);
    std::cout << refused << " of " << compared << " refused by both\n";
    // Neither verdict is rare, so that the comparison means something.
    EXPECT_GT(refused, compared / 4);
    EXPECT_LT(refused, compared * 19 / 20);
  }

  std::array<Schema, 3> schemas_;
};

// Every example of every field, in every kind: nothing to report at all, units included.
TEST_F(Schema_agreement, documents_of_examples_are_good) {
  std::string why;
  for (const std::string& json : test::documents_of_examples()) {
    EXPECT_TRUE(schema_accepts(json, why)) << why << json;
    for (const Finding& finding : read_json("example.json", json).findings)
      EXPECT_NE(finding.severity, Severity::error) << finding.pointer << ": " << finding.message;
  }
}

TEST_F(Schema_agreement, documents_of_the_corpus_are_judged_alike) {
  std::string reader, schema;
  for (const std::string& json : test::documents_of_corpus())
    EXPECT_EQ(test::reader_accepts(json, reader), schema_accepts(json, schema)) << reader << schema;
}

TEST_F(Schema_agreement, on_25000_mutants) {
  test::Mutator mutator(documents(), 20250211);
  std::vector<test::Mutant> mutants;
  for (int i = 0; i < 25'000; ++i) mutants.push_back(mutator.next());
  compare(mutants);
}

TEST_F(Schema_agreement, on_every_form_of_text_at_every_key) {
  const std::vector<test::Mutant> mutants = test::mutants_by_text(documents());
  EXPECT_GT(mutants.size(), 5'000u);
  compare(mutants);
}

// The report of broken profiles has the form that its schema says. (Engines of others: report_schemas.py.)
TEST_F(Schema_agreement, reports_have_the_form_of_their_schema) {
  const Schema schema = compile_schema(report_schema());
  ASSERT_EQ(schema.problem, "");
  test::Mutator mutator(documents(), 4410);
  Lint_run run;
  for (std::size_t i = 0; i < 1000; i += step) {
    std::vector<Finding> waived;
    std::vector<Finding> findings = lint_text("mutant.json", mutator.next().json, {}, {}, &waived);
    std::move(findings.begin(), findings.end(), std::back_inserter(run.findings));
    std::move(waived.begin(), waived.end(), std::back_inserter(run.suppressed));
  }
  EXPECT_GT(run.findings.size(), 1000 / step);
  const Schema_verdict verdict = check_schema(schema, json_report(run));
  EXPECT_EQ(verdict.problem, "");
  for (const Schema_refusal& refusal : verdict.refusals)
    ADD_FAILURE() << refusal.pointer << ": " << refusal.message;
}

}
}
