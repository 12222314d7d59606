// From bytes to the located tree.
#pragma once

#include "ohmlore/document.h"

namespace ohmlore {

/// Builds the tree over the bytes that a document holds, with the findings of encoding and syntax. On a
/// syntax error the tree up to it is kept, its containers closed.
class Tape_builder {
public:
  Tape_builder(Document& document, std::vector<Finding>& findings)
      : document_(document), findings_(findings) {}
  void load(std::string name, std::string_view bytes);
  void build();

private:
  struct Patch {
    std::size_t at;
    std::string bytes;
  };
  bool check_encoding();
  void parse(std::size_t start);
  bool step_over(int code, std::size_t at, std::vector<Patch>& patches);
  void place_patches(const std::vector<Patch>& patches);
  void report_huge_numbers(const std::vector<Patch>& patches);
  void report_second_halves();
  void check_syntax(std::size_t start);
  Finding& report_half(std::size_t at);
  Finding& report_huge(std::size_t begin, std::size_t end);
  void report_syntax(Node_id open, std::size_t offset, int code);
  Finding& report(std::string_view rule, std::size_t begin, std::size_t end, std::string message,
                  Severity severity = Severity::error);

  Document& document_;
  std::vector<Finding>& findings_;
};

}
