// Bytes as a document in XML.
#include "documents.h"
#include "ohmlore/exchange.h"
#include "ohmlore/lint.h"

using namespace ohmlore;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzz::text_of(data, size);
  const Xml_import import = read_xml("document.xml", bytes);
  fuzz::expect_placed(import.read.findings, bytes);

  std::vector<Finding> found = lint_document(import.read, {}).findings;
  relocate(import, bytes, found);
  fuzz::expect_placed(found, bytes);

  if (fuzz::has_error(import.read.findings)) return 0;
  const std::string xml = xml_of(import.read);
  fuzz::expect(!xml.empty(), "what was read from XML is written as XML");
  fuzz::expect_same(import.read, read_xml("document.xml", xml).read, "it comes back as it was");
  return 0;
}
