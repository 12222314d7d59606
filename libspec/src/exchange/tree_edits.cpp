#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "ohmlore/upgrade.h"

namespace ohmlore {

void Tree_edits::rename(Node_id value, std::string_view key) {
  const Node& old = document_.node(document_.key_of(value));
  if (value != 0) edits_.push_back({old.begin, old.end, fmt::format("\"{}\"", key)});
}

void Tree_edits::replace(Node_id value, std::string_view json) {
  const Node& old = document_.node(value);
  if (value != 0) edits_.push_back({old.begin, old.end, std::string(json)});
}

void Tree_edits::remove(Node_id value) {
  if (value != 0) removed_.insert(value);
}

void Tree_edits::add(Node_id object, std::string_view key, std::string_view json) {
  if (object != 0) added_[object].push_back(fmt::format("\"{}\": {}", key, json));
}

void Tree_edits::move(Node_id value, Node_id object) {
  if (value == 0 || object == 0) return;
  added_[object].push_back(
      fmt::format("{}: {}", document_.written(document_.key_of(value)), document_.written(value)));
  removed_.insert(value);
}

std::vector<Edit> Tree_edits::edits() const {
  std::vector<Edit> edits = edits_;
  std::set<Node_id> objects;
  for (const Node_id value : removed_) objects.insert(document_.node(value).parent);
  for (const auto& entry : added_) objects.insert(entry.first);
  for (const Node_id object : objects) {
    const Node& all = document_.node(object);
    std::uint32_t behind = 0; // where the member before ends
    bool any = false;         // a member before is kept
    for (Node_id key = object + 1; key < all.next; key = document_.node(key + 1).next) {
      const Node &name = document_.node(key), &value = document_.node(key + 1);
      const bool keep = !removed_.contains(key + 1);
      // A comma stands before each kept member but the first.
      if (behind != 0 && !(keep && any)) edits.push_back({behind, name.begin, {}});
      if (!keep) edits.push_back({name.begin, value.end, {}});
      any = any || keep;
      behind = value.end;
    }
    if (const auto added = added_.find(object); added != added_.end())
      edits.push_back(
          {all.end - 1, all.end - 1, fmt::format("{}{}", any ? ", " : "", fmt::join(added->second, ", "))});
  }
  return edits;
}

}
