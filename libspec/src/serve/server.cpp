// The session: its life, and which message means what.
#include "ohmlore/serve.h"

#include <algorithm>
#include <exception>
#include <tuple>

#include <fmt/format.h>
#include <rapidjson/error/en.h>
#include <rapidjson/memorystream.h>
#include <rapidjson/reader.h>

#include "ohmlore/version.h"
#include "serve/features.h"

namespace ohmlore {
namespace {

using namespace serve;

// JSON-RPC 2.0, section 5.1; the second of them LSP 3.17.
enum Error_code : int {
  parse_error = -32700,
  server_not_initialized = -32002,
  invalid_request = -32600,
  method_not_found = -32601,
  invalid_params = -32602,
  internal_error = -32603,
};

// One value alone.
template <class F>
std::string written_value(F write) {
  Json_buffer buffer;
  Json_writer out(buffer);
  out.SetIndent(' ', 0);
  write(out);
  return {buffer.GetString(), buffer.GetSize()};
}

template <class F>
std::string message(F members) {
  return written_value([&](Json_writer& out) {
    out.StartObject();
    member(out, "jsonrpc", "2.0");
    members(out);
    out.EndObject();
  });
}

// The first number that is a member "id" of the message itself, as it was written.
struct Written_id : rapidjson::BaseReaderHandler<rapidjson::UTF8<>, Written_id> {
  using Size = rapidjson::SizeType;
  std::string found;
  std::size_t depth = 0;
  bool follows = false;

  bool Key(const char* text, Size length, bool) {
    follows = depth == 1 && std::string_view(text, length) == "id";
    return true;
  }
  bool RawNumber(const char* text, Size length, bool) {
    if (!follows || depth != 1) return true;
    found.assign(text, length);
    return false;
  }
  bool StartObject() { return ++depth; }
  bool EndObject(Size) { return depth--; }
  bool StartArray() { return ++depth; }
  bool EndArray(Size) { return depth--; }
};

const std::string no_id = "null";

// The id of a message, to be answered with as it was written. Of numbers only an integer of 64 bits that is
// not zero, which may be -0, is sure to come out so; for others the message is read once more.
std::string id_text(const Json* id, std::string_view message) {
  if (id == nullptr) return no_id;
  const bool is_integer = id->IsInt64() || id->IsUint64();
  if (!id->IsNumber() || (is_integer && id->GetDouble() != 0))
    return written_value([&](Json_writer& out) { id->Accept(out); });
  Written_id handler;
  rapidjson::MemoryStream stream(message.data(), message.size());
  rapidjson::Reader().Parse<rapidjson::kParseIterativeFlag | rapidjson::kParseNumbersAsStringsFlag>(stream,
                                                                                                    handler);
  return handler.found;
}

void write_id(Json_writer& out, const std::string& id) {
  key(out, "id");
  out.RawValue(id.data(), id.size(), rapidjson::kNumberType);
}

std::string failure(const std::string& id, Error_code code, std::string_view why) {
  return message([&](Json_writer& out) {
    write_id(out, id);
    object(out, "error", [&] {
      key(out, "code");
      out.Int(code);
      member(out, "message", printable(why));
    });
  });
}

std::string success(const std::string& id, const std::string& result) {
  return message([&](Json_writer& out) {
    write_id(out, id);
    key(out, "result");
    out.RawValue(result.data(), result.size(), rapidjson::kObjectType);
  });
}

template <class F>
std::string notification(std::string_view method, F parameters) {
  return message([&](Json_writer& out) {
    member(out, "method", method);
    key(out, "params");
    parameters(out);
  });
}

std::string shown_message(std::string_view text) {
  return notification("window/showMessage", [&](Json_writer& out) {
    out.StartObject();
    number(out, "type", 2); // a warning
    member(out, "message", printable(text));
    out.EndObject();
  });
}

std::optional<Place> place_at(const Json* from, std::string_view name) {
  const auto line = number_at(from, {name, "line"}), character = number_at(from, {name, "character"});
  if (!line || !character) return std::nullopt;
  return Place{*line, *character};
}

// Of a request for actions, which names the kinds that are wanted; the empty one holds every other.
bool may_be_fixes(const Json* only) {
  return only == nullptr || holds(only, {}, "quickfix") || holds(only, {}, "");
}

// Deeper than any message of the protocol: it would cost memory without need.
bool nests_too_deep(std::string_view json) {
  constexpr std::size_t most = 256;
  std::size_t depth = 0;
  bool in_text = false;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (c == '"') in_text = !in_text;
    if (in_text && c == '\\') ++i;
    if (in_text) continue;
    if ((c == '[' || c == '{') && ++depth > most) return true;
    if ((c == ']' || c == '}') && depth > 0) --depth;
  }
  return false;
}

// Of the request to be told of files, and of what it registers.
constexpr std::string_view watch_id = "ohmlore/watch";

// Texts grow no further than the largest document that a message can bring.
constexpr std::size_t most_open_text = most_message;

}

struct Language_server::Session {
  explicit Session(Serve_options options) : workspace(std::move(options)) {}

  enum class Phase : std::uint8_t { begins, runs, shut_down, ended } phase = Phase::begins;
  bool was_shut_down = false;
  Client client;
  Workspace workspace;
  std::vector<std::string> out;

  void take(const Json& received, std::string_view message);
  void request(const std::string& id, std::string_view method, const Json* parameters);
  void notified(std::string_view method, const Json* parameters);
  std::string initialize(const Json* parameters);
  void watch_files();
  void open(const Json* parameters);
  void change(const Json* parameters);
  void close(const Json* parameters);
  void look_again_at_unwatched();
  void files_changed(const Json* parameters);
  void folders_changed(const Json* event);
  void withdraw(Open_document& document);
  void lost(const Received& received);
  bool make_change(Open_document& document, const Json& change) const;
  void send_findings(Open_document& document);
};

// ---- requests

std::string Language_server::Session::initialize(const Json* parameters) {
  client = client_of(parameters);
  phase = Phase::runs;
  return written_value([&](Json_writer& writer) {
    writer.StartObject();
    object(writer, "capabilities", [&] {
      member(writer, "positionEncoding", client.encoding == Encoding::utf8 ? "utf-8" : "utf-16");
      object(writer, "textDocumentSync", [&] {
        truth(writer, "openClose", true);
        number(writer, "change", 2); // only what changes
        truth(writer, "save", true);
      });
      truth(writer, "hoverProvider", true);
      truth(writer, "definitionProvider", true);
      object(writer, "completionProvider", [&] { texts(writer, "triggerCharacters", {"\"", ":", "."}); });
      // "The `CodeActionOptions` return type is only valid if the client signals code action literal
      // support": without it there are commands alone, and here are none.
      if (client.literal_actions)
        object(writer, "codeActionProvider", [&] { texts(writer, "codeActionKinds", {"quickfix"}); });
      else
        truth(writer, "codeActionProvider", false);
      object(writer, "workspace", [&] {
        object(writer, "workspaceFolders", [&] {
          truth(writer, "supported", true);
          truth(writer, "changeNotifications", true);
        });
      });
    });
    object(writer, "serverInfo", [&] {
      member(writer, "name", "ohmlore");
      member(writer, "version", program_version);
    });
    writer.EndObject();
  });
}

void Language_server::Session::request(const std::string& id, std::string_view method,
                                       const Json* parameters) {
  const auto answer = [&](std::string text) { out.push_back(std::move(text)); };
  if (phase == Phase::shut_down) return answer(failure(id, invalid_request, "the server was shut down"));
  if (method == "initialize") {
    if (phase != Phase::begins) return answer(failure(id, invalid_request, "it is initialized already"));
    return answer(success(id, initialize(parameters)));
  }
  if (phase == Phase::begins)
    return answer(failure(id, server_not_initialized, "the first request must be `initialize`"));
  if (method == "shutdown") {
    phase = Phase::shut_down;
    was_shut_down = true;
    return answer(success(id, "null"));
  }

  using Ask = void (*)(const Asked&, std::size_t);
  Ask ask = method == "textDocument/hover"        ? write_hover
            : method == "textDocument/completion" ? write_completion
            : method == "textDocument/definition" ? write_definition
                                                  : nullptr;
  const bool actions = method == "textDocument/codeAction";
  if (ask == nullptr && !actions)
    return answer(failure(id, method_not_found, fmt::format("there is no method {}", method)));

  const auto uri = text_at(parameters, {"textDocument", "uri"});
  const Json* range = at(parameters, {"range"});
  const auto first = actions ? place_at(range, "start") : place_at(parameters, "position");
  const auto last = actions ? place_at(range, "end") : first;
  if (!uri || !first || !last)
    return answer(failure(id, invalid_params, "a document's uri and a place in it must be given"));
  Open_document* document = workspace.find(*uri);
  if (document == nullptr) return answer(success(id, "null"));
  const Lines_of_text lines(document->text);
  const std::size_t begin = lines.offset_of(*first, client.encoding);
  answer(success(id, written_value([&](Json_writer& writer) {
                   const Asked asked{writer, client, workspace, *document};
                   if (!actions)
                     ask(asked, begin);
                   else if (!may_be_fixes(at(parameters, {"context", "only"})))
                     writer.Null();
                   else
                     write_actions(asked, begin, lines.offset_of(*last, client.encoding));
                 })));
}

// ---- notifications

void Language_server::Session::watch_files() {
  if (!client.watches_files) return;
  out.push_back(message([&](Json_writer& writer) {
    member(writer, "id", watch_id);
    member(writer, "method", "client/registerCapability");
    object(writer, "params", [&] {
      list(writer, "registrations", std::initializer_list<int>{0}, [&](int) {
        member(writer, "id", watch_id);
        member(writer, "method", "workspace/didChangeWatchedFiles");
        object(writer, "registerOptions", [&] {
          // A house schema may have any name.
          list(writer, "watchers", std::initializer_list<std::string_view>{"**/*.json"},
               [&](std::string_view pattern) { member(writer, "globPattern", pattern); });
        });
      });
    });
  }));
}

void Language_server::Session::open(const Json* parameters) {
  const Json* given = at(parameters, {"textDocument"});
  const auto uri = text_at(given, {"uri"}), text = text_at(given, {"text"});
  if (!uri || !text) return;
  look_again_at_unwatched();
  const Json* version = at(given, {"version"});
  workspace.open(std::string(*uri), std::string(*text),
                 version != nullptr && version->IsInt64() ? std::optional(version->GetInt64())
                                                          : std::nullopt);
}

// False where it cannot be made: then what the editor shows is not known any more.
bool Language_server::Session::make_change(Open_document& document, const Json& change) const {
  const auto text = text_at(&change, {"text"});
  if (!text) return false;
  const Json* range = at(&change, {"range"});
  if (range == nullptr) {
    document.text = *text;
    return true;
  }
  const auto first = place_at(range, "start"), last = place_at(range, "end");
  if (!first || !last) return false;
  const Lines_of_text lines(document.text);
  const std::size_t begin = lines.offset_of(*first, client.encoding),
                    end = lines.offset_of(*last, client.encoding);
  if (end < begin || document.text.size() - (end - begin) + text->size() > most_open_text) return false;
  document.text.replace(begin, end - begin, *text);
  return true;
}

void Language_server::Session::change(const Json* parameters) {
  const auto uri = text_at(parameters, {"textDocument", "uri"});
  Open_document* document = uri ? workspace.find(*uri) : nullptr;
  if (document == nullptr) return;
  const Json* changes = at(parameters, {"contentChanges"});
  bool made = changes != nullptr && changes->IsArray();
  if (made)
    for (const Json& one : changes->GetArray()) made = made && make_change(*document, one);
  if (!made) {
    out.push_back(shown_message(fmt::format("{}: a change of it could not be understood, so it is not looked "
                                            "at any more; close it and open it again",
                                            document->name)));
    return close(parameters);
  }
  const Json* version = at(parameters, {"textDocument", "version"});
  document->version =
      version != nullptr && version->IsInt64() ? std::optional(version->GetInt64()) : std::nullopt;
  workspace.changed(*document);
}

void Language_server::Session::close(const Json* parameters) {
  const auto uri = text_at(parameters, {"textDocument", "uri"});
  Open_document* document = uri ? workspace.find(*uri) : nullptr;
  if (document != nullptr) withdraw(*document);
}

// What changes in files that the editor does not watch is seen when it opens or saves a document.
void Language_server::Session::look_again_at_unwatched() {
  if (!client.watches_files || !workspace.roots_lie_in(client.folders)) workspace.forget_files();
}

void Language_server::Session::files_changed(const Json* parameters) {
  const Json* changes = at(parameters, {"changes"});
  bool matter = changes == nullptr || !changes->IsArray() || changes->Empty();
  if (!matter)
    for (const Json& one : changes->GetArray()) {
      const auto uri = text_at(&one, {"uri"});
      matter = matter || !uri || workspace.is_around_others(*uri);
    }
  if (matter) workspace.forget_files();
}

// Those that it watches. What changed in one before it was added is not told.
void Language_server::Session::folders_changed(const Json* event) {
  for (const std::string& gone : folders_at(at(event, {"removed"}))) std::erase(client.folders, gone);
  for (std::string& more : folders_at(at(event, {"added"}))) client.folders.push_back(std::move(more));
  workspace.forget_files();
}

void Language_server::Session::withdraw(Open_document& document) {
  out.push_back(notification("textDocument/publishDiagnostics", [&](Json_writer& writer) {
    writer.StartObject();
    member(writer, "uri", document.uri);
    texts(writer, "diagnostics", {});
    writer.EndObject();
  }));
  workspace.close(document);
}

// A change may have been in it, of any document: edits that are made for the text before it would damage what
// the editor shows.
void Language_server::Session::lost(const Received& received) {
  if (phase != Phase::runs) return;
  const auto holds = [&](std::string_view method_end) {
    return received.content.find(method_end) != std::string::npos;
  };
  const bool opens = holds("didOpen\"");
  if (received.problem.empty() && !opens && !holds("didChange\"")) return;
  auto& documents = workspace.documents();
  if (documents.empty() && !opens) return;
  out.push_back(shown_message("a message of the editor was lost, so the open documents are not looked at any "
                              "more; close and open them again"));
  while (!documents.empty()) withdraw(documents.begin()->second);
}

void Language_server::Session::notified(std::string_view method, const Json* parameters) {
  if (method == "exit") phase = Phase::ended;
  if (phase != Phase::runs) return;
  if (method == "initialized") watch_files();
  if (method == "textDocument/didOpen") open(parameters);
  if (method == "textDocument/didChange") change(parameters);
  if (method == "textDocument/didClose") close(parameters);
  if (method == "textDocument/didSave") look_again_at_unwatched();
  if (method == "workspace/didChangeWatchedFiles") files_changed(parameters);
  if (method == "workspace/didChangeWorkspaceFolders") folders_changed(at(parameters, {"event"}));
}

// ---- messages

void Language_server::Session::take(const Json& received, std::string_view message) {
  const Json* given = at(&received, {"id"});
  const auto method = text_at(&received, {"method"});
  const bool refuses = at(&received, {"error"}) != nullptr;
  if (!method && (refuses || at(&received, {"result"}) != nullptr)) { // an answer to a request of ours
    if (refuses && text_at(given, {}) == watch_id) client.watches_files = false;
    return;
  }
  const bool good_id = given == nullptr || given->IsString() || given->IsNumber() || given->IsNull();
  const std::string id = good_id ? id_text(given, message) : no_id;
  if (!method || !good_id || text_at(&received, {"jsonrpc"}) != "2.0") {
    out.push_back(
        failure(id, invalid_request,
                "a message is an object with \"jsonrpc\": \"2.0\", a method, and for an answer an id"));
    return;
  }
  const Json* parameters = at(&received, {"params"});
  try {
    if (given == nullptr)
      notified(*method, parameters);
    else
      request(id, *method, parameters);
  } catch (const std::exception& thrown) {
    out.push_back(given != nullptr ? failure(id, internal_error, thrown.what())
                                   : shown_message(fmt::format("{} went wrong: {}", *method, thrown.what())));
  }
}

void Language_server::Session::send_findings(Open_document& document) {
  document.due = Due::no;
  try {
    out.push_back(notification("textDocument/publishDiagnostics", [&](Json_writer& writer) {
      write_diagnostics({writer, client, workspace, document});
    }));
  } catch (const std::exception& thrown) {
    out.push_back(shown_message(fmt::format("{}: cannot be looked at: {}", document.name, thrown.what())));
  }
}

Language_server::Language_server(Serve_options options)
    : session_(std::make_unique<Session>(std::move(options))) {}
Language_server::~Language_server() = default;

std::vector<std::string> Language_server::take(const Received& received) {
  Session& session = *session_;
  session.out.clear();
  if (session.phase == Session::Phase::ended) return {};
  const auto lost = [&](std::string_view why) {
    session.out.push_back(failure(no_id, parse_error, why));
    session.lost(received);
    return std::move(session.out);
  };
  if (!received.problem.empty()) return lost(received.problem);
  if (nests_too_deep(received.content)) return lost("the message nests deeper than any of the protocol");
  // Iterative: what is nested deep needs no stack.
  constexpr unsigned how = rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag;
  Json_document json;
  json.Parse<how>(received.content.data(), received.content.size());
  if (json.HasParseError())
    return lost(fmt::format("at byte {} of the message: {}", json.GetErrorOffset(),
                            rapidjson::GetParseError_En(json.GetParseError())));
  session.take(json, received.content);
  return std::move(session.out);
}

std::vector<std::string> Language_server::when_idle() {
  Session& session = *session_;
  session.out.clear();
  if (session.phase != Session::Phase::runs) return {};
  auto& documents = session.workspace.documents();
  const auto next = std::max_element(documents.begin(), documents.end(), [](const auto& a, const auto& b) {
    return std::tie(a.second.due, a.second.turn) < std::tie(b.second.due, b.second.turn);
  });
  if (next != documents.end() && next->second.due != Due::no)
    session.send_findings(next->second);
  else
    for (const std::string& trouble : session.workspace.new_troubles())
      session.out.push_back(shown_message(trouble));
  return std::move(session.out);
}

bool Language_server::ended() const { return session_->phase == Session::Phase::ended; }
int Language_server::status() const { return session_->was_shut_down ? 0 : 1; }

}
