// Bytes as a set of tables, in the order of their names, a separator between each two.
#include "support/tables.h"
#include "documents.h"
#include "ohmlore/exchange.h"

using namespace ohmlore;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  test::Tables given;
  std::size_t table = 0;
  for (const std::string_view piece : fuzz::pieces(fuzz::text_of(data, size)))
    if (table < given.bytes.size()) given.bytes[table++] = piece;

  Csv_import import("", given.open());
  for (const Finding& finding : import.findings())
    fuzz::expect(!text_report(finding).empty(), "a finding says something");
  while (const std::optional<Csv_document> document = import.next()) {
    for (const Finding& finding : document->read.findings)
      fuzz::expect(!text_report(finding).empty(), "a finding says something");
    if (fuzz::has_error(document->read.findings)) continue;
    test::Tables written;
    fuzz::expect(written.add(document->read, document->file), "what was read from tables is written as them");
    Csv_import again("", written.open());
    const std::optional<Csv_document> back = again.next();
    fuzz::expect(back.has_value(), "it comes back");
    fuzz::expect_same(document->read, back->read, "it comes back as it was");
  }
  return 0;
}
