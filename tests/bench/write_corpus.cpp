// Writes a corpus of generated healthy profiles: write_corpus FOLDER PROFILES [FINDINGS]. The profiles of one
// number are always the same. With FINDINGS, each has so many misspelt keys. Rules that give notes on what is
// merely unusual do their work like all others, and the policy leaves out what they find.
#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <fstream>

#include "ohmlore/lint.h"
#include "property/healthy_profile.h"

namespace fs = std::filesystem;

static bool write(const fs::path& path, const std::string& text) {
  fs::create_directories(path.parent_path());
  return static_cast<bool>(std::ofstream(path, std::ios::binary) << text);
}

static int number(const char* text) {
  int value = -1;
  std::from_chars(text, text + std::char_traits<char>::length(text), value);
  return value;
}

static std::string corpus_without_notes() {
  std::string text = ohmlore::test::healthy_corpus(), off;
  for (const ohmlore::Rule_entry& entry : ohmlore::all_rules())
    if (entry.rule->severity == ohmlore::Severity::note)
      off += fmt::format(R"({}"{}": "off")", off.empty() ? "" : ", ", entry.slug);
  return text.replace(text.rfind('}'), 1, fmt::format(R"(, "policy": {{ "severities": {{ {} }} }} }})", off));
}

int main(int argc, char** argv) {
  const int profiles = argc > 2 ? number(argv[2]) : -1, findings = argc > 3 ? number(argv[3]) : 0;
  if (profiles < 1 || findings < 0) {
    fmt::print(stderr, "usage: write_corpus FOLDER PROFILES [FINDINGS]\n");
    return 2;
  }
  const fs::path folder = argv[1];
  bool good = write(folder / "corpus.json", corpus_without_notes());
  for (const auto& part : ohmlore::test::healthy_parts())
    good = write(folder / "parts" / fs::path(part.name).filename(), part.text) && good;
  std::size_t bytes = 0;
  for (int n = 1; n <= profiles; ++n) {
    auto [name, text] = ohmlore::test::healthy_profile(n);
    for (int i = 0; i < findings; ++i)
      text.replace(text.find('{'), 1, fmt::format("{{ \"titel_{}\": \"misspelt\",", i));
    bytes += text.size();
    const auto place = folder / "profiles" / fmt::format("{:04}", n / 100) / fs::path(name).filename();
    good = write(place, text) && good;
  }
  fmt::print("{} profiles of {:.1f} KB\n", profiles, static_cast<double>(bytes) / 1e3 / profiles);
  return good ? 0 : 2;
}
