// Documents of an older version of the format, written anew for this one.
#pragma once

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {

/// Changes of a document's tree, gathered and then made as edits of its bytes: what is not named keeps its
/// text. A value is named by its node as Document::member gives it; node 0, an absent member, changes
/// nothing. In what is moved, removed or replaced nothing else may change at the same time: that takes a step
/// of its own.
class Tree_edits {
public:
  explicit Tree_edits(const Document& document) : document_(document) {}

  /// Gives a member another key. Keys are written as they are given: without `"`, `\` and control characters.
  void rename(Node_id value, std::string_view key);
  void replace(Node_id value, std::string_view json);
  void remove(Node_id value);
  /// Adds a member behind those of an object.
  void add(Node_id object, std::string_view key, std::string_view json);
  /// Takes a member behind those of another object.
  void move(Node_id value, Node_id object);

  /// For apply_edits.
  std::vector<Edit> edits() const;

private:
  const Document& document_;
  std::vector<Edit> edits_;
  std::set<Node_id> removed_;                         ///< values
  std::map<Node_id, std::vector<std::string>> added_; ///< members by their object
};

/// What turns a document of one version into one of the next. The version in `format` is changed without its
/// help.
struct Format_step {
  std::string_view from, to;                              ///< as in `format`
  void (*change)(Tree_edits&, const Document&) = nullptr; ///< null: the newer version only adds
};

/// The steps between the released versions, oldest first; the last leads to format_tag.
std::span<const Format_step> format_steps();

enum class Upgrade_outcome : std::uint8_t {
  upgraded,    ///< it was of an older version
  current,     ///< it is of this version
  newer_minor, ///< it is of a newer minor version, which this library reads
  newer_major, ///< it is of a newer major version, which this library does not read
  refused      ///< the reader refuses it, as it is or as it would become
};

struct Upgraded {
  Upgrade_outcome outcome = Upgrade_outcome::refused;
  std::string from; ///< the version that `format` names; empty where it names none
  std::string text; ///< if upgraded, in canonical form; if current or newer_minor, as given
  /// If refused: why. Those of what a step has made name the document "NAME (as VERSION)".
  std::vector<Finding> findings;
};

/// Brings one document to format_tag, through every step from its version on, and has the outcome read by the
/// one reader. What it does not know it keeps.
Upgraded upgrade_text(const std::string& name, std::string_view bytes,
                      std::span<const Format_step> steps = format_steps());

}
