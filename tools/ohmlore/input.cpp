#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string_view>

#include "commands.h"
#include "log.h"
#include "ohmlore/report.h"
#include "ohmlore/text.h"

// Of what .NET takes for white space (Char.IsWhiteSpace), that which is printed as it is.
static bool is_space(char32_t c) {
  return c == ' ' || c == '\t' || c == 0x00A0 || c == 0x1680 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F ||
         c == 0x205F || c == 0x3000;
}

// As ActionCommand.cs of the repository actions/runner finds them: `##[` anywhere in a line, `::` where a
// line begins, white space before it aside.
std::string for_log(const std::string& text) {
  const char* actions = std::getenv("GITHUB_ACTIONS");
  if (actions == nullptr || std::string_view(actions) != "true") return text;
  std::string out;
  bool begins = true;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = std::string_view(text).substr(i);
    if (rest.starts_with("##[")) {
      out += "##\\u{005B}";
      i += 3;
    } else if (begins && rest.starts_with("::")) {
      out += "\\u{003A}:";
      i += 2;
    } else {
      const std::size_t start = i;
      const char32_t c = ohmlore::next_code_point(text, i);
      out.append(text, start, i - start);
      begins = c == '\n' || (begins && is_space(c));
      continue;
    }
    begins = false;
  }
  return out;
}

int complain(const std::string& trouble) {
  std::fprintf(stderr, "ohmlore: %s\n", for_log(ohmlore::printable(trouble)).c_str());
  return 2;
}

void complain(const std::vector<ohmlore::Finding>& findings) {
  for (const ohmlore::Finding& finding : findings)
    std::fputs(for_log(ohmlore::text_report(finding)).c_str(), stderr);
}

void warn(const std::vector<std::string>& warnings) {
  for (const std::string& warning : warnings) complain("warning: " + warning);
}

void print(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm day{};
  localtime_r(&now, &day);
  char text[11];
  std::strftime(text, sizeof text, "%Y-%m-%d", &day);
  return text;
}

std::string all_of_stdin(std::size_t most) {
  std::string bytes;
  char block[1 << 16];
  for (std::size_t n; (n = std::fread(block, 1, sizeof block, stdin)) > 0 && bytes.size() <= most;)
    bytes.append(block, n);
  return bytes;
}
