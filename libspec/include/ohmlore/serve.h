// A language server: what an editor asks while documents are typed, and what it is answered (Language Server
// Protocol 3.17, JSON-RPC 2.0). Bytes in, messages out: it has no streams, no threads, and writes no file.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmlore {

/// Bytes of one message: a document of `most_bytes` fits, unless most of it is escaped in JSON.
inline constexpr std::size_t most_message = 32u << 20;

/// What the stream of an editor gave: the content of a message, or why something of it was left out.
struct Received {
  std::string content;
  std::string problem; ///< not empty: there is no content
};

/// Takes messages out of a stream ("Content-Length: 23\r\n\r\n{…}"). Where that is damaged, or a message is
/// too long, it goes on at the next header. It keeps no more than one message.
class Message_reader {
public:
  void add(std::string_view bytes) { buffer_ += bytes; }
  /// The next one, or nothing before more bytes are added.
  std::optional<Received> next();

private:
  std::optional<Received> lose(std::string problem);
  bool find_header();
  std::string buffer_;
  std::size_t content_ = 0; ///< length of the message that is being read; its header is gone already
  bool reads_content_ = false, lost_ = false;
};

/// A message with its header.
std::string framed(std::string_view message);

struct Serve_options {
  std::optional<std::string> root;  ///< folder that holds corpus.json; absent: the nearest at or above a file
  std::string (*today)() = nullptr; ///< YYYY-MM-DD, for waivers with a last day; null: none has expired
};

/// One session with one editor. Documents are those that is_document_name knows; the unsaved text of those
/// that are open stands for their files. Never throws on bad input.
class Language_server {
public:
  explicit Language_server(Serve_options options = {});
  ~Language_server();
  Language_server(const Language_server&) = delete;
  Language_server& operator=(const Language_server&) = delete;

  /// What is to be sent in answer to a message, in this order, each without its header.
  std::vector<std::string> take(const Received& received);
  /// Findings of one document that changed since, or by what is around it; nothing where there is none left.
  /// To be asked for as long as no message waits, so that who types fast is not answered for every letter,
  /// and who asks something does not wait for a thousand documents.
  std::vector<std::string> when_idle();

  /// It was told to exit; nothing is answered any more.
  bool ended() const;
  /// Exit status of a process that ends now: 0 after `shutdown`, else 1.
  int status() const;

private:
  struct Session;
  std::unique_ptr<Session> session_;
};

}
