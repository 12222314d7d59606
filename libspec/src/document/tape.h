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
  void check_encoding();
  void report(std::string_view rule, std::size_t begin, std::size_t end, std::string message);

  Document& document_;
  std::vector<Finding>& findings_;
};

/// The reader of one document kind's records: structural checks on the way.
class Decoder {
public:
  Decoder(Document& document, std::vector<Finding>& findings) : document_(document), findings_(findings) {}
  void decode_root();

private:
  void record(const Record& record, Node_id object, void* at);
  void report_duplicates(std::span<const Node_id> keys);
  void report_unknown(const Record& record, int kind, Node_id key, std::string_view suggestion);
  void report_missing(const Record& record, const Field& field, Node_id object);
  int kind_of(const Record& record, Node_id object);
  void value(const Field& field, const Type& type, Node_id node, void* at);
  void list(const Field& field, const Type& type, Node_id node, void* at);
  void map(const Field& field, const Type& type, Node_id node, void* at);
  bool scalar(const Field& field, const Type& type, Node_id node, Scalar& scalar);
  bool text(const Field& field, Node_id node, Scalar& scalar);
  bool word(const Field& field, const Type& type, Node_id node, Scalar& scalar);
  bool integer(const Field& field, Node_id node, Scalar& scalar);
  bool quantity(const Field& field, const Type& type, Node_id node, Scalar& scalar);
  bool format(Node_id node);
  bool well_formed(Node_id node);
  bool is_type(const Field& field, Node_id node, Node_type wanted, std::string_view what);
  bool count(const Field& field, Node_id node, std::string_view what);
  Finding& report(std::string_view rule, Node_id node, std::string message,
                  Severity severity = Severity::error);

  Document& document_;
  std::vector<Finding>& findings_;
};

}
