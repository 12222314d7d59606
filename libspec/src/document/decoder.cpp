#include "document/decoder.h"

#include <algorithm>
#include <array>
#include <bit>
#include <bitset>
#include <utility>

#include <fmt/format.h>

#include "document/described.h"
#include "document/findings.h"
#include "document/format_version.h"
#include "document/tape.h"
#include "document/wording.h"
#include "text/counted.h"
#include "text/stable_hash.h"

namespace ohmlore {
namespace {

bool needed(const Record& record, const Field& field, int kind) {
  return record.kinds != nullptr && kind >= 0 ? field.required_in(static_cast<unsigned>(kind))
                                              : field.required_always();
}

}

Finding& Decoder::report(std::string_view rule, Node_id node, std::string message, Severity severity) {
  const Node& n = document_.node(node);
  return report_in(rule, node, n.begin, n.end, std::move(message), severity);
}

Finding& Decoder::report_in(std::string_view rule, Node_id node, std::uint32_t begin, std::uint32_t end,
                            std::string message, Severity severity) {
  const auto made = [&] {
    return unplaced_finding(document_, rule, severity, node, begin, end, std::move(message));
  };
  if (!full()) return findings_.emplace_back(made());
  if (++left_out_ == 1 || severity > worst_left_out_.severity) return worst_left_out_ = made();
  return dropped_ = {};
}

// About what most documents need, so that little has to grow.
void Decoder::make_room() {
  constexpr std::size_t most = 1 << 18;
  const std::size_t nodes = document_.nodes_.size();
  document_.arena_.reserve(std::min(4 * document_.text().size(), most));
  document_.references_.reserve(nodes / 8);
  document_.quantities_.reserve(nodes / 16);
}

void Decoder::decode() {
  make_room();
  decode_root();
  finish();
}

void Decoder::decode_by_ids() {
  by_ids_ = true;
  decode();
  const auto by_node = [](const auto& a, const auto& b) { return a.node < b.node; };
  std::sort(document_.references_.begin(), document_.references_.end(), by_node);
  std::sort(document_.quantities_.begin(), document_.quantities_.end(), by_node);
}

void Decoder::decode_as(const Record& root, void* at) {
  if (!document_.whole_) return;
  if (document_.node(Document::root).type != Node_type::object)
    report("type-wrong", Document::root,
           fmt::format("{} is one JSON object, here it is {}", in_sentence(root.title),
                       type_name(document_.node(Document::root).type)));
  else
    record(root, Document::root, at, {});
  finish();
}

void Decoder::finish() {
  document_.complete_ = document_.whole_ && document_.minor_ <= reader_minor &&
                        std::none_of(findings_.begin(), findings_.end(),
                                     [](const Finding& f) { return f.severity == Severity::error; });
  if (left_out_ == 0) return;
  if (left_out_ > 1)
    worst_left_out_.message +=
        fmt::format(" ({} more findings in this document are left out)", left_out_ - 1);
  findings_.push_back(std::move(worst_left_out_));
}

void Decoder::decode_root() {
  const Node_id root = Document::root;
  if (!document_.whole_) return;
  if (document_.node(root).type != Node_type::object) {
    report("type-wrong", root,
           fmt::format("a document is one JSON object, here it is {}", type_name(document_.node(root).type)));
    return;
  }
  if (const Node_id node = document_.member(root, "format"); node != 0 && !format(node)) return;

  const Node_id kind = document_.member(root, "kind");
  if (const Node_id key = another_kind(document_, root); key != 0) return report_duplicate(kind - 1, key);
  auto is_kind = [&](Document_kind k) {
    return kind != 0 && document_.node(kind).type == Node_type::string &&
           document_.string(kind) == word_of(k);
  };
  auto decode = [&]<class R>(Document_kind k, const R*& decoded) {
    R* at = document_.arena_.make<R>(1);
    decoded = at;
    at->node = root;
    record(document_record(k), root, at, {});
  };
  if (is_kind(Document_kind::profile))
    decode(Document_kind::profile, document_.profile_);
  else if (is_kind(Document_kind::part))
    decode(Document_kind::part, document_.part_);
  else if (is_kind(Document_kind::corpus))
    decode(Document_kind::corpus, document_.corpus_);
  else
    report_kindless();
}

// Which keys belong to a document depends on its kind: without one only `kind` and `format` are spoken of.
void Decoder::report_kindless() {
  const Node_id root = Document::root;
  std::vector<std::string_view> words;
  for (const Word& word : Document_kind_words.words) words.push_back(word.text);
  if (const Node_id kind = document_.member(root, "kind"); kind == 0) {
    report_in("key-missing", root, document_.node(root).begin, document_.node(root).begin + 1,
              fmt::format("a document needs `kind`; it is one of {}", alternatives(words)))
        .value = "kind";
  } else if (document_.node(kind).type != Node_type::string) {
    report("type-wrong", kind,
           fmt::format("`kind` must be text, here it is {}", type_name(document_.node(kind).type)));
  } else {
    const std::string_view meant = meant_word(document_.string(kind), words);
    Finding& finding = report(
        "word-unknown", kind,
        meant.empty()
            ? fmt::format("`kind` cannot be {}; it is one of {}", shown(document_, kind), alternatives(words))
            : fmt::format("`kind` cannot be {}; did you mean \"{}\"?", shown(document_, kind), meant));
    offer_word(finding, kind, meant);
  }
  if (const Node_id format = document_.member(root, "format"); format == 0)
    report_in("key-missing", root, document_.node(root).begin, document_.node(root).begin + 1,
              fmt::format("a document needs `format`, for example \"format\": \"{}\"", format_tag))
        .value = "format";
  else if (document_.node(format).type != Node_type::string)
    report("type-wrong", format,
           fmt::format("`format` must be text, here it is {}", type_name(document_.node(format).type)));
}

// The version tag. False: no more can be said about this document.
bool Decoder::format(Node_id node) {
  if (document_.node(node).type != Node_type::string) return true; // reported as a field
  const std::optional<Format_version> version = format_version(document_.string(node));
  const Format_version own = own_format_version();
  if (version && version->major == own.major) {
    document_.minor_ = version->minor;
    if (version->minor > own.minor)
      report("format-newer", node,
             fmt::format("written for ohmlore/1.{}; this program knows ohmlore/1.{} and keeps what it does "
                         "not know",
                         version->minor, own.minor),
             Severity::note);
    return true;
  }
  const bool newer = version && *version > own;
  report("format-unsupported", node,
         fmt::format("{} is not a format that this program reads; it reads \"{}\"{}", shown(document_, node),
                     format_tag, newer ? "; a newer version of it may read this document" : ""));
  return false;
}

void Decoder::record(const Record& record, Node_id object, void* at, std::string_view name) {
  const int kind = kind_of(document_, record, object);
  const Around outer = std::exchange(around_, {&record, kind, object});
  std::uint64_t seen = 0;
  const Field* next = record.fields.data(); // most members stand in the order of the fields
  const Field* const fields_end = next + record.fields.size();
  std::array<Node_id, most_fields> first_of; // of the fields seen
  std::vector<Node_id> others;               // keys that no field has
  const Node_id end = document_.node(object).next;
  for (Node_id key = object + 1; key < end; key = document_.node(key + 1).next) {
    const Text name_of_key = document_.string(key);
    const bool is_next =
        next < fields_end && same_name(next->key, name_of_key) && belongs(record, *next, kind);
    const Field* field = is_next ? next : field_of(record, kind, name_of_key);
    if (field == nullptr) {
      others.push_back(key);
      continue;
    }
    const auto index = static_cast<std::size_t>(field - record.fields.data());
    const std::uint64_t bit = std::uint64_t{1} << index;
    if (seen & bit) {
      report_duplicate(first_of[index], key);
      if (differ(first_of[index], key)) field->member.type->forget(field->member.at(at));
      continue;
    }
    next = field + 1;
    seen |= bit;
    first_of[index] = key;
    value(*field, *field->member.type, key + 1, field->member.at(at));
  }
  around_ = outer;
  std::vector<std::string_view> misspelt;
  if (!others.empty()) misspelt = report_unknown(record, kind, name, take_duplicates(others), seen);

  for (std::uint64_t unseen = record.required & ~seen; unseen != 0; unseen &= unseen - 1) {
    const Field& field = record.fields[static_cast<std::size_t>(std::countr_zero(unseen))];
    if (!needed(record, field, kind)) continue;
    if (std::find(misspelt.begin(), misspelt.end(), field.key) == misspelt.end())
      report_missing(record, kind, field, object, name);
  }
}

// Returns the keys that were meant by misspelt ones: those are not missing as well.
std::vector<std::string_view> Decoder::report_unknown(const Record& record, int kind, std::string_view name,
                                                      std::span<const Node_id> keys, std::uint64_t seen) {
  const bool known_kind = record.kinds == nullptr || kind >= 0;
  const bool newer = document_.minor_ > reader_minor;
  std::vector<std::string_view> absent, misspelt;
  std::vector<Word> needed_words, others;
  for (std::size_t i = 0; i < record.fields.size(); ++i) {
    const Field& field = record.fields[i];
    // Without a kind nobody knows which keys belong here, but for `kind` itself.
    if (((seen >> i) & 1u) || !belongs(record, field, kind) || (!known_kind && field.key != "kind")) continue;
    absent.push_back(field.key);
    (needed(record, field, kind) ? needed_words : others).push_back({field.key, field.doc});
  }
  for (const Node_id key : keys) {
    const Text written = document_.string(key);
    if (written.starts_with("x_")) continue;
    document_.nodes_[document_.node(key).parent].truth = true;
    const std::string_view meant = full() ? std::string_view() : meant_word(written, absent);
    if (!known_kind && meant.empty()) continue;
    std::vector<std::string_view> owners;
    if (record.kinds != nullptr)
      for (const Field& field : record.fields)
        for (std::size_t k = 0; field.key == written && k < record.kinds->words.size(); ++k)
          if (field.in(static_cast<unsigned>(k))) owners.push_back(record.kinds->words[k].text);

    std::string message =
        fmt::format("{} has no key {}", record_name(record, kind, name), shown(document_, key));
    if (!owners.empty() && known_kind)
      message += fmt::format("; kind {} has it", alternatives(owners));
    else if (!meant.empty())
      message += fmt::format("; did you mean \"{}\"?", meant);
    else if (newer)
      message += "; it is kept as it is";
    else {
      std::vector<Word> described;
      // In "used_for" the last word says nothing of what is meant.
      if (!full() && written.find('_') == Text::npos) {
        described = described_by(written, needed_words);
        if (described.size() == 1 && !newer) misspelt.push_back(described[0].text);
        if (described.empty()) described = described_by(written, others);
        message += may_be_meant(described);
      }
      if (!full() && described.empty()) message += other_place(record, kind, key);
      message += "; a key of your own begins with x_";
    }
    Finding& finding =
        report("key-unknown", key, std::move(message), newer ? Severity::note : Severity::error);
    if (meant.empty() || (!owners.empty() && known_kind)) continue;
    const Node& n = document_.node(key);
    finding.fixes.push_back({fmt::format("rename to \"{}\"", meant),
                             Fix_safety::unsafe,
                             {{n.begin, n.end, fmt::format("\"{}\"", meant)}}});
    if (!newer) misspelt.push_back(meant);
  }
  return misspelt;
}

static bool may_hold(Shape shape, Node_type type) {
  return (type == Node_type::array) == (shape == Shape::list) &&
         (type == Node_type::object) == (shape == Shape::record || shape == Shape::map);
}

// "; `expect` has it", of a key that stands one step too far out or in; empty where neither lacks one of that
// name, or what stands there is none of its values.
std::string Decoder::other_place(const Record& record, int kind, Node_id key) {
  const Text written = document_.string(key);
  const Node_type value = document_.node(key + 1).type;
  std::vector<std::string_view> inner;
  for (const Field& field : record.fields) {
    const bool is_list = field.member.type->shape == Shape::list;
    const Type& held = is_list ? *field.member.type->item : *field.member.type;
    if (held.shape != Shape::record || !belongs(record, field, kind)) continue;
    const Record& within = *held.record;
    if (std::none_of(within.fields.begin(), within.fields.end(), [&](const Field& one) {
          return one.key == written && may_hold(one.member.type->shape, value);
        }))
      continue;
    const auto lacks_it = [&](Node_id object) {
      if (document_.node(object).type != Node_type::object) return false;
      const int its_kind = kind_of(document_, within, object);
      return (its_kind < 0 || field_of(within, its_kind, written) != nullptr) &&
             document_.member(object, written) == 0;
    };
    const Node_id there = document_.member(document_.node(key).parent, field.key);
    bool lacks = there == 0 || lacks_it(there);
    for (Node_id item = there + 1; is_list && !lacks && item < document_.node(there).next;
         item = document_.node(item).next)
      lacks = lacks_it(item);
    if (lacks) inner.push_back(field.key);
  }
  if (!inner.empty()) return fmt::format("; {} has it", alternatives(inner));
  const Field* outer = around_.record != nullptr ? field_of(*around_.record, around_.kind, written) : nullptr;
  if (outer == nullptr || !may_hold(outer->member.type->shape, value) ||
      document_.member(around_.object, written) != 0)
    return "";
  document_.nodes_[around_.object].truth = true; // what stands here is not missing there
  return fmt::format("; the {} around it has it", in_sentence(around_.record->title));
}

void Decoder::report_missing(const Record& record, int kind, const Field& field, Node_id object,
                             std::string_view name) {
  const std::string_view example = short_example(field);
  const Node_id key = document_.key_of(object);
  const Node& at = document_.node(key != 0 ? key : object);
  report_in(field.absent_rule, object, at.begin, key != 0 ? at.end : at.begin + 1,
            fmt::format("{} needs `{}` ({}){}", record_name(record, kind, name), field.key,
                        in_sentence(field.doc),
                        example.empty() ? "" : fmt::format(", for example \"{}\": {}", field.key, example)))
      .value = field.key; // of several keys that one record lacks, each is known by itself
}

// The order in which keys are looked through: most differ by their lengths.
static bool is_before(Text left, Text right) {
  return left.size() != right.size() ? left.size() < right.size() : left < right;
}

// Reports keys that stood before in the same object, and takes them out.
std::vector<Node_id>& Decoder::take_duplicates(std::vector<Node_id>& keys) {
  if (keys.size() < 2) return keys;
  std::sort(keys.begin(), keys.end(), [&](Node_id a, Node_id b) {
    const Text left = document_.string(a), right = document_.string(b);
    return is_before(left, right) || (left == right && a < b);
  });
  const auto last = std::unique(keys.begin(), keys.end(), [&](Node_id first, Node_id key) {
    if (document_.string(first) != document_.string(key)) return false;
    report_duplicate(first, key);
    if (differ(first, key)) contested_.push_back(document_.string(key));
    return true;
  });
  keys.erase(last, keys.end());
  return keys;
}

// Of two members of one key nobody knows which is meant, unless they say the same.
bool Decoder::differ(Node_id key, Node_id other) const {
  return document_.written(key + 1) != document_.written(other + 1);
}

void Decoder::report_duplicate(Node_id first, Node_id key) {
  Finding& finding =
      report("key-duplicate", key,
             fmt::format("the key `{}` stands here again; of two such members a program keeps one, and not "
                         "every program the same",
                         printable(document_.string(key).substr(0, 64))));
  const Node& n = document_.node(first);
  finding.related.push_back({document_.name(), {n.begin, n.end, {}, {}}, "first here"});
}

void Decoder::value(const Field& field, const Type& type, Node_id node, void* at) {
  switch (type.shape) {
  case Shape::list: list(field, type, node, at); return;
  case Shape::map: map(field, type, node, at); return;
  case Shape::record: {
    if (!is_type(field, node, Node_type::object, "an object")) return;
    const bool own_key = &type == field.member.type;
    record(*type.record, node, type.grow(at, document_.arena_, 1, node),
           own_key ? field.key : std::string_view());
    return;
  }
  default: break;
  }
  scalar_.node = node;
  if (scalar(field, type, node)) type.set(at, scalar_);
}

// Checks the number of members or items, and returns how many of them to read.
std::uint32_t Decoder::count(const Field& field, Node_id node, std::string_view noun) {
  const std::int64_t n = document_.node(node).count;
  const std::int64_t most = field.limits.most != 0 ? field.limits.most : most_items;
  const std::int64_t least = field.limits.least;
  if (n >= least && n <= most) return static_cast<std::uint32_t>(n);
  const std::string has = n == 0 ? std::string("is empty") : fmt::format("has {}", counted(n, noun));
  const std::string_view limit = least == most ? "exactly" : n < least ? "at least" : "at most";
  const bool as_absent = n < least && field.absent_rule != "key-missing";
  report(as_absent ? field.absent_rule : "count-out-of-limits", node,
         fmt::format("{} {}; it must have {} {}{}", value_name(document_, field, node), has, limit,
                     counted(n < least ? least : most, noun),
                     as_absent || least == most ? fmt::format(" ({})", in_sentence(field.doc)) : ""));
  return static_cast<std::uint32_t>(std::min(n, most));
}

void Decoder::list(const Field& field, const Type& type, Node_id node, void* at) {
  if (!is_type(field, node, Node_type::array, "a list")) return;
  const std::uint32_t items = count(field, node, "item");
  auto* item = static_cast<std::byte*>(type.grow(at, document_.arena_, items, node));
  Node_id child = node + 1;
  for (std::uint32_t i = 0; i < items; ++i, item += type.stride) {
    value(field, *type.item, child, item);
    child = document_.node(child).next;
  }
}

// In the order in which its records are to stand.
std::vector<Node_id> Decoder::keys_of(Node_id map, std::uint32_t entries) const {
  std::vector<Node_id> keys;
  for (Node_id key = map + 1; keys.size() < entries; key = document_.node(key + 1).next) keys.push_back(key);
  if (by_ids_)
    std::stable_sort(keys.begin(), keys.end(),
                     [&](Node_id a, Node_id b) { return document_.string(a) < document_.string(b); });
  return keys;
}

void Decoder::map(const Field& field, const Type& type, Node_id node, void* at) {
  if (!is_type(field, node, Node_type::object, "an object keyed by id")) return;
  const std::uint32_t entries = count(field, node, "entry");
  auto* const items = static_cast<std::byte*>(type.grow(at, document_.arena_, entries, node));
  std::byte* item = items;
  std::bitset<2048> met; // by their hashes: hardly any map must be searched for ids that stand twice
  bool perhaps_twice = false;
  const std::vector<Node_id> ordered = by_ids_ ? keys_of(node, entries) : std::vector<Node_id>();
  Node_id key = node + 1;
  for (std::uint32_t i = 0; i < entries; ++i, item += type.stride) {
    if (by_ids_) key = ordered[i];
    const Text id = document_.string(key);
    const std::size_t hash = stable_hash(id) % met.size();
    perhaps_twice |= met.test(hash);
    met.set(hash);
    if (!is_id(id))
      report("id-malformed", key, fmt::format("{} is not an id: {}", shown(document_, key), id_problem(id)));
    value(field, *type.item, key + 1, type.entry(item, id, key));
    key = document_.node(key + 1).next;
  }
  if (!perhaps_twice) return;
  const std::vector<Node_id> keys = keys_of(node, entries);
  keys_ = keys;
  contested_.clear();
  take_duplicates(keys_);
  for (std::uint32_t i = 0; i < entries && !contested_.empty(); ++i) {
    const Text id = document_.string(keys[i]);
    if (std::binary_search(contested_.begin(), contested_.end(), id, is_before))
      type.item->forget(type.entry(items + i * type.stride, id, keys[i]));
  }
}

namespace {

template <class F>
Read_result read_with(std::string name, std::string_view bytes, F decode) {
  Read_result result;
  Tape_builder tape(result.document, result.findings);
  tape.load(std::move(name), bytes);
  tape.build();
  decode(Decoder(result.document, result.findings));
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const Finding& a, const Finding& b) { return a.region.begin < b.region.begin; });
  place(result.document.text(), result.findings);
  return result;
}

}

Read_result read_json(std::string name, std::string_view bytes) {
  return read_with(std::move(name), bytes, [](Decoder&& decoder) { decoder.decode(); });
}

Document by_ids(const Document& document) {
  return read_with(document.name(), document.text(), [](Decoder&& decoder) { decoder.decode_by_ids(); })
      .document;
}

Read_result read_described(std::string name, std::string_view bytes, const Record& root, void* at) {
  return read_with(std::move(name), bytes, [&](Decoder&& decoder) { decoder.decode_as(root, at); });
}

}
