// Hands the bytes of files, and of all files below folders, to a fuzz program, each once.
#include <filesystem>

#include "fuzz.h"
#include "support/files.h"

namespace fs = std::filesystem;

int main(int argc, char** argv) {
  std::vector<fs::path> files;
  for (int i = 1; i < argc; ++i) {
    if (!fs::is_directory(argv[i]))
      files.emplace_back(argv[i]);
    else
      for (const auto& entry : fs::recursive_directory_iterator(argv[i]))
        if (entry.is_regular_file()) files.push_back(entry.path());
  }
  for (const fs::path& file : files) {
    std::printf("%s\n", file.c_str()); // the last one is that of a crash
    std::fflush(stdout);
    const std::string bytes = ohmlore::test::read_bytes(file);
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  }
  std::printf("%zu files\n", files.size());
  return files.empty() ? 1 : 0;
}
