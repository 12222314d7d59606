// Bytes as a house schema, and behind a separator as a profile that it judges.
#include "ohmlore/house_schema.h"
#include "documents.h"
#include "ohmlore/lint.h"

using namespace ohmlore;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::vector<std::string_view> pieces = fuzz::pieces(fuzz::text_of(data, size));
  const House_schema house = read_house_schema("house.json", pieces.front());
  if (!house.problem.empty()) return 0;
  fuzz::expect(bool(house.schema), "a schema can be used, or it is said why not");
  const std::string_view profile =
      pieces.size() > 1 ? pieces[1] : R"({"format": "ohmlore/1.0", "kind": "profile", "id": "a"})";
  const Read_result read = read_json("profile.json", profile);
  Surroundings surroundings;
  surroundings.house_schema = &house;
  const Linted linted = lint_document(read, surroundings);
  fuzz::expect_placed(linted.findings, profile);
  return 0;
}
