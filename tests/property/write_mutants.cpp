// write_mutants FOLDER COUNT: mutants as files, with the reader's verdicts in verdicts.json, for engines that
// are no C++.
#include <charconv>
#include <cstdio>
#include <fstream>
#include <string>

#include <fmt/format.h>

#include "ohmlore/publish.h"
#include "support/mutants.h"

int main(int argc, char** argv) {
  using namespace ohmlore;
  int count = 0;
  const std::string_view digits = argc == 3 ? argv[2] : "";
  std::from_chars(digits.data(), digits.data() + digits.size(), count);
  if (count <= 0) {
    std::fputs("usage: write_mutants FOLDER COUNT\n", stderr);
    return 2;
  }
  const std::string folder = argv[1];
  std::vector<std::string> documents = test::documents_of_examples();
  for (std::string& json : test::documents_of_corpus()) documents.push_back(std::move(json));
  test::Mutator mutator(documents, 4410);
  std::ofstream verdicts(folder + "/verdicts.json");
  verdicts << "[\n";
  for (int i = 0; i < count; ++i) {
    const test::Mutant mutant = mutator.next();
    const std::string name = fmt::format("{:04}.json", i);
    std::ofstream(folder + '/' + name) << mutant.json;
    std::string why;
    const bool accepted = test::reader_accepts(mutant.json, why);
    verdicts << fmt::format("  {{\"file\": \"{}\", \"schema\": \"{}\", \"accepted\": {}}}{}\n", name,
                            document_record(test::kind_of(mutant.json)).name, accepted,
                            i + 1 < count ? "," : "");
  }
  verdicts << "]\n";
  verdicts.close();
  return verdicts ? 0 : 2;
}
