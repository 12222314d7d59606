#include "serve/places.h"
#include "ohmlore/file_names.h"

#include <algorithm>
#include <vector>

#include "document/described.h"
#include "publish/exchange_names.h"

namespace ohmlore::serve {
namespace {

// The nearest enclosing value that `is`, or 0.
template <class F>
Node_id around(const Document& document, Node_id node, F is) {
  while (node > Document::root && !is(node)) node = document.node(node).parent;
  return node > Document::root ? node : 0;
}

Node_id key_before(Node_id value) { return value == 0 ? 0 : value - 1; }

Node_id contact_key(const Document& document, Text contact) {
  const std::size_t dot = contact.find('.');
  const Node_id connectors = document.member(Document::root, target_map(Target::connector));
  const Node_id connector = connectors == 0 ? 0 : document.member(connectors, contact.substr(0, dot));
  if (connector == 0 || dot == contact.npos) return 0;
  const Node_id pins = document.member(connector, "pins");
  const Node_id pin = pins == 0 ? 0 : document.member(pins, contact.substr(dot + 1));
  return key_before(pin != 0 ? pin : connector);
}

// A condition is one of the states of the component that its test is of.
Declared state_key(const Resolved& resolved, Node_id node) {
  const Document& document = *resolved.document;
  const Node_id test = around(document, node, [&](Node_id id) {
    return document.node(id).type == Node_type::object && document.member(id, "component") != 0;
  });
  const Node_id named = test == 0 ? 0 : document.member(test, "component");
  if (named == 0 || document.node(named).type != Node_type::string) return {};
  const Resolved_component* component = resolved.component(document.string(named));
  if (component == nullptr) return {};
  const auto states = component->get(&Component_type::states);
  const auto* state = states->find(document.string(node));
  return state == nullptr ? Declared{} : Declared{states.document, state->key};
}

}

Node_id node_at(const Document& document, std::size_t offset) {
  const auto holds = [&](Node_id id) {
    return document.node(id).begin <= offset && offset <= document.node(id).end;
  };
  if (document.nodes().size() <= Document::root || !holds(Document::root)) return 0;
  Node_id at = Document::root;
  for (;;) {
    const Node& node = document.node(at);
    if (node.type != Node_type::object && node.type != Node_type::array) return at;
    Node_id inner = at + 1;
    while (inner < node.next && !holds(inner)) inner = document.node(inner).next;
    if (inner >= node.next) return at;
    at = inner;
  }
}

std::optional<Text> text_member(const Document& document, Node_id object, std::string_view key) {
  const Node_id member = document.member(object, key);
  if (member == 0 || document.node(member).type != Node_type::string) return std::nullopt;
  return document.string(member);
}

const Record& record_of(const Document& document) {
  const bool has_root = document.nodes().size() > Document::root;
  if (const auto kind = has_root ? text_member(document, Document::root, "kind") : std::nullopt)
    if (const auto known = enumerator_of<Document_kind>(*kind)) return document_record(*known);
  const std::string_view name = document.name();
  return document_record(name.ends_with(end_of_part)      ? Document_kind::part
                         : name.ends_with(end_of_profile) ? Document_kind::profile
                                                          : Document_kind::corpus);
}

Described described(const Document& document, Node_id node) {
  if (document.node(node).key) ++node;
  std::vector<Node_id> path;
  for (Node_id at = node; at > Document::root; at = document.node(at).parent) path.push_back(at);
  std::reverse(path.begin(), path.end());

  const Type root = {.shape = Shape::record, .record = &record_of(document)};
  Described here;
  const Type* type = &root;
  for (const Node_id at : path) {
    if (type == nullptr) return {};
    here.is_entry = type->shape == Shape::map;
    if (type->shape == Shape::record) {
      const Node_id object = document.node(at).parent;
      const Node_id key = document.key_of(at);
      here.around = type->record;
      here.kind = kind_of(document, *type->record, object);
      here.field = key == 0 ? nullptr : field_of(*type->record, here.kind, document.string(key));
      type = here.field == nullptr ? nullptr : here.field->member.type;
    } else {
      type = type->shape == Shape::list || type->shape == Shape::map ? type->item : nullptr;
    }
  }
  if (type == nullptr) return {here.around, here.kind, nullptr, nullptr, false};
  here.type = type == &root ? nullptr : type;
  return here;
}

const Record* record_at(const Document& document, Node_id object) {
  if (object == Document::root) return &record_of(document);
  const Type* type = described(document, object).type;
  return type != nullptr && type->shape == Shape::record ? type->record : nullptr;
}

Target target_of(const Document& document, Node_id node) {
  const Node& at = document.node(node);
  if (at.type != Node_type::string) return Target::none;
  const Described value = described(document, node);
  if (at.key) return value.is_entry ? value.field->key_target : Target::none;
  const bool refers =
      value.type != nullptr && (value.type->shape == Shape::text || value.type->shape == Shape::contact);
  return refers ? value.field->target : Target::none;
}

Declared declared(const Resolved& resolved, Node_id node, Target target) {
  const Document& document = *resolved.document;
  const Text id = document.string(node);
  Node_id found = 0;
  switch (target) {
  case Target::none:
  case Target::rule: break;
  case Target::contact: found = contact_key(document, id); break;
  case Target::state: return state_key(resolved, node);
  case Target::part: {
    const Document* part =
        resolved.surroundings.parts != nullptr ? resolved.surroundings.parts->find(id) : nullptr;
    return part == nullptr ? Declared{} : Declared{part, part->part()->id.node};
  }
  default: {
    const Node_id map = document.member(Document::root, target_map(target));
    found = key_before(map == 0 ? 0 : document.member(map, id));
  }
  }
  return found == 0 ? Declared{} : Declared{&document, found};
}

}
