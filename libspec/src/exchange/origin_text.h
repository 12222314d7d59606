// The JSON text of a document that is imported, and where each value in it came from. One reader then reads
// that text, so that an imported document is checked like any other. It holds no space: the largest document
// must fit.
#pragma once

#include "ohmlore/exchange.h"
#include "text/json_memory.h"

namespace ohmlore {

class Origin_text {
public:
  /// Every value and key names its place, a number of the importer's own.
  void key(std::string_view key, std::uint32_t place) {
    mark(place);
    json_.Key(key.data(), size_of(key));
  }
  void text(std::string_view text, std::uint32_t place) {
    mark(place);
    json_.String(text.data(), size_of(text));
  }
  /// A number, true, false, null, or a text or key with its quotation marks and escapes: JSON as it stands.
  void raw(std::string_view json, rapidjson::Type type, std::uint32_t place) {
    mark(place);
    json_.RawValue(json.data(), json.size(), type);
  }
  void open_object(std::uint32_t place) {
    mark(place);
    json_.StartObject();
  }
  void close_object() { json_.EndObject(); }
  void open_array(std::uint32_t place) {
    mark(place);
    json_.StartArray();
  }
  void close_array() { json_.EndArray(); }

  std::string_view json() const { return {buffer_.GetString(), buffer_.GetSize()}; }
  std::vector<Origin> take_origins() { return std::move(origins_); }

private:
  static rapidjson::SizeType size_of(std::string_view text) {
    return static_cast<rapidjson::SizeType>(text.size());
  }
  // Commas before the value count as its own.
  void mark(std::uint32_t place) {
    origins_.push_back({static_cast<std::uint32_t>(buffer_.GetSize()), place});
  }

  Json_buffer buffer_;
  Json_line_writer json_{buffer_};
  std::vector<Origin> origins_;
};

/// The place that a byte of the text was made from.
std::uint32_t place_of(const std::vector<Origin>& origins, std::uint32_t byte);

}
