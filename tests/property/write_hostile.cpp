// write_hostile FOLDER COUNT json|xml: generated profiles with hostile texts, as files for programs that are
// no C++.
#include <charconv>
#include <cstdio>
#include <fstream>

#include <fmt/format.h>

#include "healthy_profile.h"
#include "ohmlore/exchange.h"
#include "support/hostile.h"

int main(int argc, char** argv) {
  using namespace ohmlore;
  int count = 0;
  const std::string_view digits = argc == 4 ? argv[2] : "";
  std::from_chars(digits.data(), digits.data() + digits.size(), count);
  const std::string form = argc == 4 ? argv[3] : "";
  if (count <= 0 || (form != "json" && form != "xml")) {
    std::fputs("usage: write_hostile FOLDER COUNT json|xml\n", stderr);
    return 2;
  }
  for (int number = 1; number <= count; ++number) {
    const Read_result read = read_json("a", test::healthy_profile(number).text);
    const std::string json = test::with_hostile_texts(read.document, static_cast<unsigned>(number));
    std::ofstream out(fmt::format("{}/{:05}.profile.{}", argv[1], number, form));
    out << (form == "xml" ? xml_of(read_json("a", json)) : json);
    if (!out.flush()) return 2;
  }
  return 0;
}
