#include <cstdio>

#include "commands.h"
#include "ohmlore/text.h"

int complain(const std::string& trouble) {
  std::fprintf(stderr, "ohmlore: %s\n", ohmlore::printable(trouble).c_str());
  return 2;
}

std::string all_of_stdin(std::size_t most) {
  std::string bytes;
  char block[1 << 16];
  for (std::size_t n; (n = std::fread(block, 1, sizeof block, stdin)) > 0 && bytes.size() <= most;)
    bytes.append(block, n);
  return bytes;
}
