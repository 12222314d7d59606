// What RapidJSON writes with, and reads what may be large. Its own allocator hands on the null pointer of
// malloc where memory runs out, and RapidJSON writes there: this one throws, as all else does.
#pragma once

#include <cstddef>
#include <new>

#include <rapidjson/document.h>
#include <rapidjson/prettywriter.h>
#include <rapidjson/stringbuffer.h>

namespace ohmlore {

struct Json_memory : rapidjson::CrtAllocator {
  void* Malloc(std::size_t size) { return there(CrtAllocator::Malloc(size), size); }
  void* Realloc(void* old, std::size_t old_size, std::size_t size) {
    return there(CrtAllocator::Realloc(old, old_size, size), size);
  }

private:
  static void* there(void* memory, std::size_t size) {
    if (memory == nullptr && size != 0) throw std::bad_alloc();
    return memory;
  }
};

using Json_buffer = rapidjson::GenericStringBuffer<rapidjson::UTF8<>, Json_memory>;
/// Indented.
using Json_writer = rapidjson::PrettyWriter<Json_buffer, rapidjson::UTF8<>, rapidjson::UTF8<>, Json_memory>;
/// All on one line.
using Json_line_writer = rapidjson::Writer<Json_buffer, rapidjson::UTF8<>, rapidjson::UTF8<>, Json_memory>;

using Json_document =
    rapidjson::GenericDocument<rapidjson::UTF8<>, rapidjson::MemoryPoolAllocator<Json_memory>, Json_memory>;
using Json_value = Json_document::ValueType;

}
