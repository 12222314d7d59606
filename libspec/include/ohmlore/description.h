// Each record described once, as data. Everything that is derived from the format (structural checks,
// schemas, field tables, references) is an ordinary loop over these arrays.
#pragma once

#include <array>
#include <cstdint>
#include <cstdlib>
#include <new>
#include <optional>
#include <span>
#include <string_view>
#include <type_traits>

#include "ohmlore/model.h"

namespace ohmlore {

struct Record;

/// How a value is written.
enum class Shape : std::uint8_t {
  text,
  boolean,
  integer,
  word,      ///< one word of an enumeration
  contact,   ///< "X4.1"
  quantity,  ///< "10 kΩ"
  tolerance, ///< "5 %"
  range,     ///< "-20 °C to 110 °C"
  record,
  list,
  map, ///< object keyed by id
};

/// What the decoder found; a setter takes the member that its type needs.
struct Scalar {
  Node_id node = 0;
  Text text;
  std::int64_t integer = 0;
  bool boolean = false;
  std::uint8_t word = 0;
  Contact contact;
  Quantity quantity;
  Tolerance tolerance;
  Range range;
};

/// How the decoder fills one C++ type. Lists and maps point at the type of their items.
struct Type {
  Shape shape = Shape::text;
  const Record* record = nullptr;
  const Enumeration* words = nullptr;
  const Type* item = nullptr;
  void (*set)(void* at, const Scalar& scalar) = nullptr;
  /// Makes room for `count` items at `node` and returns the first; items are `stride` bytes apart. Of a
  /// record, which is one: where its members go.
  void* (*grow)(void* at, Arena& arena, std::uint32_t count, Node_id node) = nullptr;
  /// Writes id and key node of a map's entry and returns its value.
  void* (*entry)(void* item, Text id, Node_id key) = nullptr;
  std::size_t stride = 0;
  /// Makes what was read there absent again.
  void (*forget)(void* at) = nullptr;
};

/// Form of a text.
enum class Form : std::uint8_t {
  free,    ///< any text without control characters
  any,     ///< the same, and it may be empty (in reports)
  id,      ///< [A-Za-z0-9][A-Za-z0-9_-]{0,63}
  date,    ///< YYYY-MM or YYYY-MM-DD
  country, ///< two capital letters (ISO 3166-1)
  pointer, ///< JSON Pointer (RFC 6901)
  path,    ///< relative path inside the root, with '/' (see is_inner_path)
  version, ///< MAJOR.MINOR, without leading zeros
};

/// What a text refers to: an entry of a map of the same document, or a part.
enum class Target : std::uint8_t {
  none,
  contact,
  component,
  connector,
  circuit,
  test,
  source,
  part,
  rule,
  state
};

/// Bounds of an integer, or of the number of items of a list or map.
struct Limits {
  std::int64_t least = 0;
  std::int64_t most = 0; ///< 0: the common limit
};

inline constexpr std::int64_t most_items = 1000;     ///< of a list or map, unless its field says otherwise
inline constexpr std::size_t most_text = 2048;       ///< bytes of one text
inline constexpr std::size_t most_bytes = 16u << 20; ///< of a document
inline constexpr unsigned most_depth = 64;
inline constexpr unsigned reader_minor = 0; ///< this library reads ohmlore/1.<reader_minor> in full
inline constexpr std::string_view format_tag = "ohmlore/1.0";

/// Where a member lies in its struct, and how it is filled.
struct Member {
  const Type* type = nullptr;
  void* (*at)(void* record) = nullptr;
};

inline constexpr std::uint64_t every_kind = ~std::uint64_t{0};

/// The set of kinds of a variant that a field belongs to.
template <class... E>
constexpr std::uint64_t kinds(E... kind) {
  return ((std::uint64_t{1} << static_cast<unsigned>(kind)) | ...);
}

struct Field {
  std::string_view key;
  Member member;
  std::string_view doc;
  std::string_view example;                     ///< JSON text of a value
  bool required = false;                        ///< in every kind of `kinds`
  std::uint64_t kinds = every_kind;             ///< of a variant: the kinds that have this field
  std::uint64_t required_by = 0;                ///< of a variant: the kinds that require it
  Dimensions dimensions = {};                   ///< of a quantity, tolerance or range (or of the items)
  Form form = Form::free;                       ///< of a text (or of the items)
  Target target = Target::none;                 ///< of a text or contact (or of the items)
  bool single = false;                          ///< of a range: only one value, not two ends
  Target key_target = Target::none;             ///< of a map: what its keys name
  Limits limits = {};                           ///< of an integer, list or map
  std::string_view constant = {};               ///< the only text or word allowed
  std::uint8_t since = 0;                       ///< minor version that brought it
  std::string_view absent_rule = "key-missing"; ///< the rule that reports a missing or empty one

  constexpr bool in(unsigned kind) const { return (kinds >> kind) & 1u; }
  constexpr bool required_in(unsigned kind) const {
    return in(kind) && (required || ((required_by >> kind) & 1u));
  }
  constexpr bool required_always() const { return required && kinds == every_kind; }
};

inline constexpr std::size_t most_fields = 64; ///< of a record: one bit each

/// Where among the fields of a record those of a key stand: places in a table (open addressing), since most
/// keys of a document are looked up.
class Key_table {
public:
  constexpr explicit Key_table(std::span<const Field> fields) {
    if (fields.size() > most_fields) std::abort(); // of a constexpr record: it does not compile
    for (std::size_t i = 0; i < fields.size(); ++i) {
      std::size_t at = first(fields[i].key);
      while (places_[at] != 0) at = next(at);
      places_[at] = static_cast<std::uint8_t>(i + 1);
    }
  }
  /// The first field of that key that `is_it`, or null.
  template <class Is_it>
  const Field* find(std::span<const Field> fields, std::string_view key, Is_it is_it) const {
    for (std::size_t at = first(key); places_[at] != 0; at = next(at)) {
      const Field& field = fields[places_[at] - 1u];
      if (same_name(field.key, key) && is_it(field)) return &field;
    }
    return nullptr;
  }

private:
  static constexpr std::size_t size = 2 * most_fields;
  static constexpr std::size_t next(std::size_t at) { return (at + 1) % size; }
  static constexpr std::size_t first(std::string_view key) {
    if (key.empty()) return 0;
    const auto letter = [&](std::size_t i) { return static_cast<unsigned char>(key[i]) + std::size_t{0}; };
    return (key.size() * 5 + letter(0) * 3 + letter(key.size() / 2) * 17 + letter(key.size() - 1) * 31) %
           size;
  }
  std::array<std::uint8_t, size> places_{};
};

/// A record; with `kinds` a variant, whose first field is "kind".
struct Record {
  constexpr Record(std::string_view its_name, std::string_view its_title, std::string_view its_doc,
                   std::span<const Field> its_fields, const Enumeration* its_kinds = nullptr)
      : name(its_name), title(its_title), doc(its_doc), fields(its_fields), kinds(its_kinds),
        keys(its_fields) {
    for (std::size_t i = 0; i < fields.size(); ++i)
      if (fields[i].required || fields[i].required_by != 0) required |= std::uint64_t{1} << i;
  }
  std::string_view name; ///< of its definition in the schema
  std::string_view title;
  std::string_view doc;
  std::span<const Field> fields;
  const Enumeration* kinds = nullptr;
  // What follows from the fields.
  Key_table keys;
  std::uint64_t required = 0; ///< the fields that every kind requires, or one
};

// ---- where the descriptions are found: by name, and by type

#define OHMLORE_DESCRIBED(type, name)                                                                        \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }

OHMLORE_DESCRIBED(Profile, profile_record)
OHMLORE_DESCRIBED(Part, part_record)
OHMLORE_DESCRIBED(Corpus, corpus_record)
OHMLORE_DESCRIBED(Policy, policy_record)
OHMLORE_DESCRIBED(Meter, meter_record)
OHMLORE_DESCRIBED(Redirected_ids, redirects_record)
OHMLORE_DESCRIBED(Appliance, appliance_record)
OHMLORE_DESCRIBED(Controller, controller_record)
OHMLORE_DESCRIBED(Safety, safety_record)
OHMLORE_DESCRIBED(Supply, supply_record)
OHMLORE_DESCRIBED(Hazard, hazard_record)
OHMLORE_DESCRIBED(Source, source_record)
OHMLORE_DESCRIBED(Source_reference, source_reference_record)
OHMLORE_DESCRIBED(Connector, connector_record)
OHMLORE_DESCRIBED(Pin, pin_record)
OHMLORE_DESCRIBED(Wire, wire_record)
OHMLORE_DESCRIBED(Component, component_record)
OHMLORE_DESCRIBED(Component_type, component_type_record)
OHMLORE_DESCRIBED(Protector, protector_record)
OHMLORE_DESCRIBED(Resistance_model, model_record)
OHMLORE_DESCRIBED(Table_row, table_row_record)
OHMLORE_DESCRIBED(Terminal_pair, terminal_pair_record)
OHMLORE_DESCRIBED(Circuit, circuit_record)
OHMLORE_DESCRIBED(Element, element_record)
OHMLORE_DESCRIBED(Test, test_record)
OHMLORE_DESCRIBED(Expectation, expectation_record)
OHMLORE_DESCRIBED(Response, response_record)
OHMLORE_DESCRIBED(Fault, fault_record)
OHMLORE_DESCRIBED(Display, display_record)
OHMLORE_DESCRIBED(Applies_when, applies_when_record)
OHMLORE_DESCRIBED(Raised, raised_record)
OHMLORE_DESCRIBED(Suspect, suspect_record)
OHMLORE_DESCRIBED(Waiver, waiver_record)
#undef OHMLORE_DESCRIBED

/// The record of a kind of document.
const Record& document_record(Document_kind kind);

/// The word that stands for an enumerator.
template <class E>
std::string_view word_of(E value) {
  return enumeration(std::type_identity<E>{})->words[static_cast<std::size_t>(value)].text;
}
/// The enumerator that a word stands for, or nothing.
template <class E>
std::optional<E> enumerator_of(std::string_view word) {
  const std::span<const Word> words = enumeration(std::type_identity<E>{})->words;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i].text == word) return static_cast<E>(i);
  return std::nullopt;
}

}
