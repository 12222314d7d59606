// The building blocks of a record: values that know where they stand in their document.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <memory>
#include <span>
#include <string_view>
#include <type_traits>
#include <vector>

namespace ohmlore {

/// A place in a document's tree; 0 is no place.
using Node_id = std::uint32_t;

/// A field: its value and where it stands. `node` 0 means absent, and `value` is then the default.
template <class T>
struct Value {
  [[no_unique_address]] T value{}; // what a quantity leaves unused at its end holds `node`
  Node_id node = 0;
  explicit operator bool() const { return node != 0; }
  const T& operator*() const { return value; }
  const T* operator->() const { return &value; }
};

/// Base of every record; `node` 0 means absent.
struct Record_base {
  Node_id node = 0;
  explicit operator bool() const { return node != 0; }
};

/// A record that is seldom stated, or large: it lies by itself, so that records without it stay small. Where
/// it is absent, all its members are.
template <class R>
class Apart {
public:
  Apart() = default;
  explicit Apart(const R* record) : record_(record) {}
  explicit operator bool() const { return record_->node != 0; }
  const R& operator*() const { return *record_; }
  const R* operator->() const { return record_; }

private:
  static constexpr R absent{};
  const R* record_ = &absent;
};

/// Free text or an id: a view into the document, valid as long as the document.
using Text = std::string_view;

/// Whether both texts of `size` letters, at least those of a word, begin and end with the same words, which
/// may overlap.
template <class Word>
bool same_ends(const char* a, const char* b, std::size_t size) {
  Word a_head, a_tail, b_head, b_tail;
  std::memcpy(&a_head, a, sizeof(Word));
  std::memcpy(&b_head, b, sizeof(Word));
  std::memcpy(&a_tail, a + size - sizeof(Word), sizeof(Word));
  std::memcpy(&b_tail, b + size - sizeof(Word), sizeof(Word));
  return a_head == b_head && a_tail == b_tail;
}

/// The same as ==, for names: they are short, and neighbours ("X4.1" and "X4.2") differ in their last letter,
/// which says most at the least cost.
inline bool same_name(Text a, Text b) {
  const std::size_t size = a.size();
  if (size != b.size()) return false;
  if (size == 0) return true;
  if (a[size - 1] != b[size - 1]) return false;
  if (size < 4) return a[0] == b[0] && a[size / 2] == b[size / 2];
  if (size < 8) return same_ends<std::uint32_t>(a.data(), b.data(), size);
  if (size <= 16) return same_ends<std::uint64_t>(a.data(), b.data(), size);
  return a == b;
}

/// A contact "X4.1": connector and pin.
struct Contact {
  Text connector;
  Text pin;
  friend bool operator==(const Contact& a, const Contact& b) {
    return same_name(a.pin, b.pin) && same_name(a.connector, b.connector);
  }
};

/// Items of an array in document order; the document owns them.
template <class T>
struct List {
  using Item = T;
  T* items = nullptr;
  std::uint32_t count = 0;
  Node_id node = 0;
  explicit operator bool() const { return node != 0; }
  const T* begin() const { return items; }
  const T* end() const { return items + count; }
  const T* data() const { return items; }
  std::size_t size() const { return count; }
  bool empty() const { return count == 0; }
  const T& operator[](std::size_t i) const { return items[i]; }
};

/// Members of an object keyed by id, in document order; the document owns them.
template <class T>
struct Keyed {
  struct Entry {
    Text id;
    Node_id key = 0;
    T value{};
  };
  using Item = T;
  Entry* items = nullptr;
  std::uint32_t count = 0;
  Node_id node = 0;
  explicit operator bool() const { return node != 0; }
  const Entry* begin() const { return items; }
  const Entry* end() const { return items + count; }
  std::size_t size() const { return count; }
  bool empty() const { return count == 0; }
  /// The entry of an id, or null.
  const Entry* find(Text id) const {
    for (const Entry& entry : *this)
      if (same_name(entry.id, id)) return &entry;
    return nullptr;
  }
  /// Where among the entries the one of `value` stands, which must be one of them.
  std::size_t position_of(const T& value) const {
    return static_cast<std::size_t>(reinterpret_cast<const char*>(&value) -
                                    reinterpret_cast<const char*>(&items[0].value)) /
           sizeof(Entry);
  }
};

/// Memory that is freed at once. What it holds is never destroyed, so only trivial types may live here.
class Arena {
public:
  void* take(std::size_t bytes, std::size_t alignment) {
    std::size_t start = (used_ + alignment - 1) & ~(alignment - 1);
    if (blocks_.empty() || start + bytes > size_) {
      add_block(bytes + alignment > block_size ? bytes + alignment : block_size);
      start = 0;
    }
    used_ = start + bytes;
    return blocks_.back().get() + start;
  }
  /// `count` value-initialised objects.
  template <class T>
  T* make(std::size_t count) {
    static_assert(std::is_trivially_destructible_v<T>);
    T* first = static_cast<T*>(take(count * sizeof(T), alignof(T)));
    for (std::size_t i = 0; i < count; ++i) new (first + i) T{};
    return first;
  }
  /// A copy of a list.
  template <class T>
  std::span<const T> keep(std::span<const T> list) {
    static_assert(std::is_trivially_destructible_v<T>);
    T* first = static_cast<T*>(take(list.size_bytes(), alignof(T)));
    std::uninitialized_copy(list.begin(), list.end(), first);
    return {first, list.size()};
  }
  /// A copy of a text.
  std::string_view keep(std::string_view text) {
    return {keep(std::span<const char>(text)).data(), text.size()};
  }

  /// The first block is to hold so much.
  void reserve(std::size_t bytes) {
    if (blocks_.empty()) add_block(bytes);
  }

private:
  void add_block(std::size_t bytes) {
    // make_unique would clear it, and libc++ 14 has no make_unique_for_overwrite
    blocks_.push_back(std::unique_ptr<std::byte[]>(new std::byte[bytes]));
    size_ = bytes;
    used_ = 0;
  }

  static constexpr std::size_t block_size = 32 * 1024;
  std::vector<std::unique_ptr<std::byte[]>> blocks_;
  std::size_t used_ = 0;
  std::size_t size_ = 0;
};

}
