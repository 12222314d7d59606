// The yardstick: walks a folder, reads every document and parses it with RapidJSON into a DOM, as it comes
// from its package. Compiled by itself with flags of its own, so that nothing of ohmlore moves it.
#include <rapidjson/document.h>

#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  std::size_t documents = 0, members = 0, bytes = 0;
  std::string text;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(argv[1])) {
    if (!entry.is_regular_file() || entry.path().extension() != ".json") continue;
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(entry.path().c_str(), "rb"),
                                                               std::fclose);
    if (!file) return 2;
    text.resize(entry.file_size());
    if (std::fread(text.data(), 1, text.size(), file.get()) != text.size()) return 2;
    rapidjson::Document document;
    document.Parse(text.data(), text.size());
    if (document.HasParseError() || !document.IsObject()) return 2;
    ++documents;
    members += document.MemberCount();
    bytes += text.size();
  }
  std::printf("%zu documents, %zu bytes, %zu members\n", documents, bytes, members);
  return 0;
}
