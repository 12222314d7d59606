// Bytes as a JSON document: read, looked at by every rule, fixed, written in the canonical form, as XML and
// as tables, and read again.
#include "documents.h"
#include "ohmlore/diff.h"
#include "ohmlore/exchange.h"
#include "ohmlore/fix.h"
#include "ohmlore/lint.h"
#include "ohmlore/upgrade.h"
#include "support/tables.h"

using namespace ohmlore;

namespace {

const Lint_options options{"2026-01-01"};

void expect_same_in_tables(const Read_result& read) {
  test::Tables tables;
  fuzz::expect(tables.add(read, "a/document.json"), "a document without an error is written as tables");
  Csv_import import("", tables.open());
  fuzz::expect(import.findings().empty(), "tables that were written can be read",
               fuzz::shown(import.findings()));
  const std::optional<Csv_document> back = import.next();
  fuzz::expect(back.has_value(), "a document comes back from tables");
  fuzz::expect_same(read, back->read, "a document comes back from tables as it was");
  fuzz::expect(!import.next(), "no other document comes back from tables");
}

void expect_fixed(std::string_view bytes) {
  const Fixed fixed = fix_text("document.json", bytes, {}, options);
  fuzz::expect(fixed.refusal.empty(), "no safe fix does harm", fixed.refusal);
  if (fixed.edits.empty()) return;
  fuzz::expect(fix_text("document.json", fixed.text, {}, options).edits.empty(), "fixes are made at once",
               fixed.text);
}

}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzz::text_of(data, size);
  const Read_result read = read_json("document.json", bytes);
  fuzz::expect_placed(read.findings, bytes);

  const Linted linted = lint_document(read, {});
  fuzz::expect(linted.troubles.empty(), "every rule does its work",
               linted.troubles.empty() ? "" : linted.troubles.front());
  fuzz::expect_placed(linted.findings, bytes);
  expect_fixed(bytes);

  const std::string form = canonical_json(read.document);
  fuzz::expect(form.empty() != read.document.whole(), "what is whole has a canonical form");
  if (fuzz::has_error(read.findings)) return 0;
  const Read_result canonical = read_json("document.json", form);
  fuzz::expect_same(read, canonical, "the canonical form is the document, and its own canonical form");
  for (const Prefixes prefixes : {Prefixes::si, Prefixes::engineering}) {
    const std::string other = canonical_json(read.document, prefixes);
    fuzz::expect(canonical_json(read_json("document.json", other).document, prefixes) == other,
                 "other prefixes are reached at once", other);
  }
  const Document_diff diff = diff_documents(read.document, {}, canonical.document, {});
  fuzz::expect(diff.count(Change_weight::meaning) == 0, "the canonical form means the same", form);

  const std::string xml = xml_of(read);
  fuzz::expect(!xml.empty(), "a document without an error is written as XML");
  fuzz::expect_same(read, read_xml("document.xml", xml).read, "a document comes back from XML as it was");
  expect_same_in_tables(read);
  jsonl_of(read, {});
  upgrade_text("document.json", bytes);
  return 0;
}
