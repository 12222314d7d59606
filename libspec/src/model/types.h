// From the C++ type of a member to the way it is filled.
#pragma once

#include "ohmlore/description.h"

namespace ohmlore {

template <class T>
struct Type_of;

template <class T>
inline constexpr Type type_of = Type_of<T>::type;

template <class T>
void forget(void* at) {
  *static_cast<T*>(at) = T{};
}

// Scalars: the setter copies what the decoder found.
template <class T, Shape shape_value, auto part>
struct Scalar_type {
  static constexpr Type type = {.shape = shape_value,
                                .set =
                                    [](void* at, const Scalar& scalar) {
                                      *static_cast<Value<T>*>(at) = {scalar.*part, scalar.node};
                                    },
                                .stride = sizeof(Value<T>),
                                .forget = forget<Value<T>>};
};
template <>
struct Type_of<Value<Text>> : Scalar_type<Text, Shape::text, &Scalar::text> {};
template <>
struct Type_of<Value<bool>> : Scalar_type<bool, Shape::boolean, &Scalar::boolean> {};
template <>
struct Type_of<Value<std::int64_t>> : Scalar_type<std::int64_t, Shape::integer, &Scalar::integer> {};
template <>
struct Type_of<Value<Contact>> : Scalar_type<Contact, Shape::contact, &Scalar::contact> {};
template <>
struct Type_of<Value<Quantity>> : Scalar_type<Quantity, Shape::quantity, &Scalar::quantity> {};
template <>
struct Type_of<Value<Tolerance>> : Scalar_type<Tolerance, Shape::tolerance, &Scalar::tolerance> {};
template <>
struct Type_of<Value<Range>> : Scalar_type<Range, Shape::range, &Scalar::range> {};

template <class E>
requires std::is_enum_v<E>
struct Type_of<Value<E>> {
  static constexpr Type type = {
      .shape = Shape::word,
      .words = enumeration(std::type_identity<E>{}),
      .set =
          [](void* at, const Scalar& scalar) {
            *static_cast<Value<E>*>(at) = {static_cast<E>(scalar.word), scalar.node};
          },
      .stride = sizeof(Value<E>),
      .forget = forget<Value<E>>};
};

template <class R>
requires std::is_base_of_v<Record_base, R>
struct Type_of<R> {
  static constexpr Type type = {.shape = Shape::record,
                                .record = description(std::type_identity<R>{}),
                                .grow = [](void* at, Arena&, std::uint32_t, Node_id node) -> void* {
                                  static_cast<R*>(at)->node = node;
                                  return at;
                                },
                                .stride = sizeof(R),
                                .forget = forget<R>};
};
template <class R>
struct Type_of<Apart<R>> {
  static constexpr Type type = {.shape = Shape::record,
                                .record = description(std::type_identity<R>{}),
                                .grow = [](void* at, Arena& arena, std::uint32_t, Node_id node) -> void* {
                                  R* record = arena.make<R>(1);
                                  record->node = node;
                                  *static_cast<Apart<R>*>(at) = Apart<R>(record);
                                  return record;
                                },
                                .stride = sizeof(Apart<R>),
                                .forget = forget<Apart<R>>};
};

template <class T>
struct Type_of<List<T>> {
  static constexpr Type type = {
      .shape = Shape::list,
      .item = &type_of<T>,
      .grow = [](void* at, Arena& arena, std::uint32_t count, Node_id node) -> void* {
        auto& list = *static_cast<List<T>*>(at);
        list = {arena.make<T>(count), count, node};
        return list.items;
      },
      .stride = sizeof(T),
      .forget = forget<List<T>>};
};

template <class T>
struct Type_of<Keyed<T>> {
  using Entry = typename Keyed<T>::Entry;
  static constexpr Type type = {
      .shape = Shape::map,
      .item = &type_of<T>,
      .grow = [](void* at, Arena& arena, std::uint32_t count, Node_id node) -> void* {
        auto& map = *static_cast<Keyed<T>*>(at);
        map = {arena.make<Entry>(count), count, node};
        return map.items;
      },
      .entry = [](void* item, Text id, Node_id key) -> void* {
        auto& entry = *static_cast<Entry*>(item);
        entry.id = id;
        entry.key = key;
        return &entry.value;
      },
      .stride = sizeof(Entry),
      .forget = forget<Keyed<T>>};
};

template <class P>
struct Member_of;
template <class R, class T>
struct Member_of<T R::*> {
  using Owner = R;
  using Held = T;
};

/// The member that a member pointer names.
template <auto pointer>
constexpr Member member() {
  using Owner = typename Member_of<decltype(pointer)>::Owner;
  using Held = typename Member_of<decltype(pointer)>::Held;
  return {&type_of<Held>, [](void* record) -> void* { return &(static_cast<Owner*>(record)->*pointer); }};
}

// The key of a field is the name of its member.
#define OHMLORE_MEMBER(record, name) .key = #name, .member = member<&record::name>()

}
