#include "ohmlore/document.h"

#include <algorithm>

#include <fmt/format.h>

#include "document/findings.h"
#include "document/plainly.h"
#include "text/sha256.h"

namespace ohmlore {

Node_id Document::member(Node_id object, std::string_view key) const {
  const Node& n = nodes_[object];
  if (n.type != Node_type::object) return 0;
  for (Node_id k = object + 1; k < n.next; k = nodes_[k + 1].next)
    if (string(k) == key) return k + 1;
  return 0;
}

Node_id Document::find(std::string_view pointer) const {
  if (nodes_.size() <= root) return 0;
  Node_id at = root;
  while (!pointer.empty() && at != 0) {
    if (pointer[0] != '/') return 0;
    const std::size_t end = std::min(pointer.find('/', 1), pointer.size());
    const std::string_view token = pointer.substr(1, end - 1);
    pointer.remove_prefix(end);
    const Node& n = nodes_[at];
    Node_id child = at + 1;
    if (n.type == Node_type::object) {
      while (child < n.next && pointer_token(string(child)) != token) child = nodes_[child + 1].next;
      at = child < n.next ? child + 1 : 0;
    } else if (n.type == Node_type::array) {
      std::uint32_t index = 0;
      while (child < n.next && std::to_string(index) != token) {
        child = nodes_[child].next;
        ++index;
      }
      at = child < n.next ? child : 0;
    } else {
      return 0;
    }
  }
  return at;
}

// As deep as a document may be nested.
static void append_pointer(const Document& document, Node_id id, std::string& out) {
  if (id <= Document::root) return;
  const Node_id parent = document.node(id).parent;
  append_pointer(document, parent, out);
  out += '/';
  if (const Node_id key = document.key_of(id)) {
    const Text name = document.string(key);
    if (name.find_first_of("~/") == Text::npos)
      out += name;
    else
      out += pointer_token(name);
  } else {
    std::size_t index = 0;
    for (Node_id item = parent + 1; item != id; item = document.node(item).next) ++index;
    out += std::to_string(index);
  }
}

std::string Document::pointer(Node_id id) const {
  std::string out;
  append_pointer(*this, id != 0 && nodes_[id].key ? id + 1 : id, out);
  return out;
}

Region Document::region(std::uint32_t begin, std::uint32_t end) const {
  const Position first = position_of(text(), begin);
  // The end is counted on from the beginning: most regions are short, and many are asked for.
  const std::string_view rest = text().substr(std::min<std::size_t>(begin, text().size()));
  Position last = position_of(rest, end - begin);
  if (last.line == 1) last.column += first.column - 1;
  last.line += first.line - 1;
  return {begin, end, first, last};
}

const Keyed<Source>* Document::sources() const {
  return profile_ ? &profile_->sources : part_ ? &part_->sources : nullptr;
}

const List<Waiver>* Document::waivers() const {
  return profile_ ? &profile_->waivers : part_ ? &part_->waivers : nullptr;
}

// As `ohmlore normalise` spells it: who runs that makes nothing new. Empty where it is no quantity.
static std::string quantity_at(const Document& document, Node_id id) {
  const auto uses = document.quantities(); // in the order of the document
  const auto use = std::lower_bound(uses.begin(), uses.end(), id,
                                    [](const Quantity_use& one, Node_id node) { return one.node < node; });
  if (use == uses.end() || use->node != id) return {};
  return canonical_spelling(document.string(id), use->grammar, use->allowed);
}

// As written, but for layout, escapes, quantities and the order of members.
static std::string value_text(const Document& document, Node_id id) {
  const Node& n = document.node(id);
  const bool is_object = n.type == Node_type::object;
  if (n.type != Node_type::array && !is_object) {
    const std::string quantity = quantity_at(document, id);
    return quantity.empty() ? written_plainly(document, id) : fmt::format("\"{}\"", quantity);
  }
  std::vector<std::string> items;
  for (Node_id item = id + 1; item < n.next; item = document.node(item).next)
    if (document.node(item).key)
      items.push_back(fmt::format("{}:", written_plainly(document, item)));
    else if (is_object)
      items.back() += value_text(document, item);
    else
      items.push_back(value_text(document, item));
  if (is_object) std::stable_sort(items.begin(), items.end());
  return fmt::format("{}{}{}", is_object ? '{' : '[', fmt::join(items, ","), is_object ? '}' : ']');
}

// See Finding::value.
static std::string value_at(const Document& document, Node_id id, bool is_looked_into) {
  if (id <= Document::root) return {}; // the document itself
  if (document.node(id).key) ++id;
  const Node& n = document.node(id);
  if (n.type == Node_type::string) {
    std::string quantity = quantity_at(document, id);
    return quantity.empty() ? std::string(document.string(id)) : std::move(quantity);
  }
  if (is_looked_into)
    for (Node_id item = id + 1; item < n.next; ++item)
      if (const Node_type type = document.node(item).type;
          type == Node_type::array || type == Node_type::object)
        return {};
  return value_text(document, id);
}

std::string text_in_keys(const std::string& text) {
  constexpr std::size_t longest = 200;
  const bool has_no_character =
      text.find("\xEF\xBF\xBE") != text.npos || text.find("\xEF\xBF\xBF") != text.npos;
  const bool plain = !has_no_character && printable(text) == text; // U+FFFE and U+FFFF stand in no document
  return plain && text.size() <= longest ? text : named_sha256(text);
}

Finding_key key_of(const Finding& finding) {
  return {text_in_keys(finding.document), std::string(finding.rule), text_in_keys(finding.pointer),
          text_in_keys(finding.value)};
}

Finding unplaced_finding(const Document& document, std::string_view rule, Severity severity, Node_id node,
                         std::uint32_t begin, std::uint32_t end, std::string message) {
  Finding finding;
  finding.rule = rule;
  finding.severity = severity;
  finding.file = document.name();
  finding.region.begin = begin;
  finding.region.end = end;
  finding.pointer = document.pointer(node);
  finding.message = std::move(message);
  // What stands under a key that nobody knows, or is of another type, has no findings of its own.
  const bool is_refused = rule == "type-wrong" || rule == "key-unknown" || rule == "key-duplicate";
  finding.value = value_at(document, node, !is_refused);
  return finding;
}

Shown_line shown_line(std::string_view text, const Region& region) {
  constexpr std::size_t reach = 200; // bytes to either side
  const std::size_t place = std::min<std::size_t>(region.begin, text.size());
  auto inside = [&](std::size_t i) { return i < text.size() && (text[i] & 0xC0) == 0x80; };
  std::size_t from = place > reach ? place - reach : 0;
  std::size_t to = std::min(text.size(), place + reach);
  while (from > 0 && inside(from)) --from;
  while (to > place && inside(to)) --to;
  if (const auto end = text.substr(from, place - from).rfind('\n'); end != std::string_view::npos)
    from += end + 1;
  if (const auto end = text.substr(place, to - place).find('\n'); end != std::string_view::npos)
    to = place + end;
  if (to > from && text[to - 1] == '\r') --to;
  const std::size_t before = code_points(text.substr(from, place - from));
  return {text.substr(from, to - from), region.first.column - static_cast<std::uint32_t>(before)};
}

void place(std::string_view text, std::vector<Place> places) {
  std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.offset < b.offset; });

  Position here;
  std::size_t at = 0;
  for (const Place& p : places) {
    const Position step = position_of(text.substr(at), p.offset - at);
    here.column = step.line == 1 ? here.column + step.column - 1 : step.column;
    here.line += step.line - 1;
    at = std::min<std::size_t>(p.offset, text.size());
    *p.position = here;
  }
}

void add_places(Region& region, std::vector<Place>& places) {
  places.push_back({region.begin, &region.first});
  places.push_back({region.end, &region.last});
}

void add_places(std::span<Finding> findings, std::vector<Place>& places) {
  for (Finding& finding : findings) {
    add_places(finding.region, places);
    for (Related& related : finding.related)
      if (related.file == finding.file) add_places(related.region, places);
    for (Fix& fix : finding.fixes)
      for (Edit& edit : fix.edits) {
        places.push_back({edit.begin, &edit.first});
        places.push_back({edit.end, &edit.last});
      }
  }
}

void show_lines(std::string_view text, std::span<Finding> findings) {
  for (Finding& finding : findings) {
    const Shown_line line = shown_line(text, finding.region);
    finding.source_line = line.text;
    finding.source_column = line.column;
  }
}

void place(std::string_view text, std::span<Finding> findings) {
  if (findings.empty()) return;
  std::vector<Place> places;
  add_places(findings, places);
  place(text, std::move(places));
  show_lines(text, findings);
}

Finding finding_in(const Document& document, std::string_view rule, Severity severity, Node_id node,
                   std::uint32_t begin, std::uint32_t end, std::string message) {
  Finding finding = unplaced_finding(document, rule, severity, node, begin, end, std::move(message));
  place(document.text(), {&finding, 1});
  return finding;
}

Finding finding_at(const Document& document, std::string_view rule, Severity severity, Node_id node,
                   std::string message) {
  const Node& n = document.node(node);
  return finding_in(document, rule, severity, node, n.begin, n.end, std::move(message));
}

Related related_at(const Document& document, Node_id node, std::string message) {
  const Node& n = document.node(node);
  return {document.name(), document.region(n.begin, n.end), std::move(message)};
}

}
