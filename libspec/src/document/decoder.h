// From the tree to the records.
#pragma once

#include "ohmlore/document.h"

namespace ohmlore {

/// The reader of one document kind's records, with every structural check, steered by the descriptions alone.
class Decoder {
public:
  Decoder(Document& document, std::vector<Finding>& findings) : document_(document), findings_(findings) {}
  void decode();
  /// The same, the members of each map in the order of their ids.
  void decode_by_ids();
  /// The same for a root that is no document of the format: `at` is its record.
  void decode_as(const Record& root, void* at);

private:
  // decoder.cpp: objects and lists. `name` is the key that a record stands under, empty where that key is the
  // contributor's own or there is none.
  void make_room();
  void decode_root();
  void report_kindless();
  bool format(Node_id node);
  void record(const Record& record, Node_id object, void* at, std::string_view name);
  std::vector<std::string_view> report_unknown(const Record& record, int kind, std::string_view name,
                                               std::span<const Node_id> keys, std::uint64_t seen);
  std::string other_place(const Record& record, int kind, Node_id key);
  void report_missing(const Record& record, int kind, const Field& field, Node_id object,
                      std::string_view name);
  std::vector<Node_id>& take_duplicates(std::vector<Node_id>& keys);
  bool differ(Node_id key, Node_id other) const;
  void report_duplicate(Node_id first, Node_id key);
  void value(const Field& field, const Type& type, Node_id node, void* at);
  void list(const Field& field, const Type& type, Node_id node, void* at);
  void map(const Field& field, const Type& type, Node_id node, void* at);
  std::vector<Node_id> keys_of(Node_id map, std::uint32_t entries) const;
  std::uint32_t count(const Field& field, Node_id node, std::string_view noun);

  // values.cpp: what has no members, found in scalar_. False: it is not what the field needs, and that is
  // reported.
  bool is_type(const Field& field, Node_id node, Node_type wanted, std::string_view what) {
    if (document_.node(node).type == wanted) return true;
    report_type(field, node, wanted, what);
    return false;
  }
  void report_type(const Field& field, Node_id node, Node_type wanted, std::string_view what);
  std::string instead_of_nothing(const Field& field, Node_id node) const;
  bool scalar(const Field& field, const Type& type, Node_id node);
  bool text(const Field& field, Node_id node);
  bool form(const Field& field, Node_id node, Text text);
  bool word(const Field& field, const Type& type, Node_id node);
  bool integer(const Field& field, Node_id node);
  bool contact(const Field& field, Node_id node);
  bool quantity(const Field& field, const Type& type, Node_id node);
  bool other_quantity(const Field& field, Quantity_grammar grammar, Node_id node);
  bool written_text(const Field& field, Node_id node);

  // Adds a fix that writes something else at a node.
  void offer(Finding& finding, Node_id node, std::string text, Fix_safety safety) const;
  void offer_word(Finding& finding, Node_id node, std::string_view meant) const;

  Finding& report(std::string_view rule, Node_id node, std::string message,
                  Severity severity = Severity::error);
  Finding& report_in(std::string_view rule, Node_id node, std::uint32_t begin, std::uint32_t end,
                     std::string message, Severity severity = Severity::error);
  bool full() const { return findings_.size() >= most_findings; }

  void finish();

  Document& document_;
  std::vector<Finding>& findings_;
  std::size_t left_out_ = 0;
  Finding worst_left_out_, dropped_;
  // Scratch, kept from value to value: a Scalar is large, and its setter takes only what was found.
  Scalar scalar_;
  std::vector<Node_id> keys_;
  std::vector<Text> contested_; // ids that stand twice, with different values; see is_before
  bool by_ids_ = false;
  // The record around the one that is read.
  struct Around {
    const Record* record = nullptr;
    int kind = -1;
    Node_id object = 0;
  } around_;
};

/// The same document with the same nodes, its records in the order of their ids: that in which members stand
/// means nothing.
Document by_ids(const Document& document);

/// Reads a text that is no document of the format by the description of its root, into `at`: a record that
/// lives no longer than what is returned.
Read_result read_described(std::string name, std::string_view bytes, const Record& root, void* at);

}
