// The documents that are open in the editor, and what is around them.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "corpus/roots.h"
#include "ohmlore/lint.h"
#include "ohmlore/serve.h"
#include "serve/positions.h"

namespace ohmlore::serve {

/// A document read and linted in its surroundings, as its text is now.
struct Analysis {
  Read_result read;
  Surroundings around;
  std::vector<Finding> findings;
  /// Errors that are told with one of these, at other places: an editor marks each.
  std::vector<Finding> told_elsewhere;
  Lines_of_text lines;
  const Document* corpus = nullptr; ///< that its parts and its policy are of; null: there is none

  bool reads_without_errors() const;
  /// That lint finds errors, whatever waives them; empty where it finds none. Worked out when first asked:
  /// the rules run once more for it.
  const std::string& errors_caution() const;

  mutable std::optional<std::string> kept_caution;
};

/// What findings are to be sent for: nothing, what is around the document, or its own text, which goes first.
enum class Due : std::uint8_t { no, around, text };

struct Open_document {
  std::string uri;  ///< as the editor writes it
  std::string name; ///< its path; of what is no file, the last part of its uri
  bool is_file = false;
  std::filesystem::path real; ///< of a file: its path however it is spelt
  std::string text;
  std::optional<std::int64_t> version;
  /// Grows with each text of any document: of two of one file the later stands for it, and findings of the
  /// latest are sent first.
  std::uint64_t turn = 0;
  Due due = Due::text;
  std::unique_ptr<Analysis> analysis; ///< null: not of this text
};

/// The absolute path of a file's URI (RFC 8089), or nothing.
std::optional<std::string> path_of(std::string_view uri);

class Workspace {
public:
  explicit Workspace(Serve_options options) : options_(std::move(options)) {}

  /// Null where its name is not that of a document.
  Open_document* open(std::string uri, std::string text, std::optional<std::int64_t> version);
  Open_document* find(std::string_view uri);
  /// After a change of its text. What is around others may have changed with it.
  void changed(Open_document& document);
  void close(Open_document& document);
  /// Whether a file may be around documents: a part, a corpus, the schema of a house. No profile is.
  bool is_around_others(std::string_view uri) const;
  /// Whether every corpus that is known of lies in one of these folders, and every document without one.
  bool roots_lie_in(const std::vector<std::string>& folders) const;
  /// Files may have changed: everything is looked at anew.
  void forget_files();

  const Analysis& analysis(Open_document& document);
  std::map<std::string, Open_document, std::less<>>& documents() { return documents_; }
  /// The URI of a file, as the editor writes it where it is open.
  std::string uri_of_file(const std::string& path) const;
  /// Why something could not be looked at; those that were not said yet. Left out are errors at a place of an
  /// open document: its findings say them.
  std::vector<std::string> new_troubles();

private:
  const Open_document* open_file(const std::filesystem::path& path) const;
  std::optional<std::string> read(const std::string& path, std::string& why) const;

  Serve_options options_;
  std::map<std::string, Open_document, std::less<>> documents_;
  std::uint64_t turns_ = 0;
  std::optional<Roots> roots_;
  std::vector<std::string> troubles_, said_;
};

}
