// JSON Schemas given at run time: the house schema of a corpus, and the published ones as a second opinion.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace ohmlore {

struct Compiled_schema;

/// A schema, compiled once; copies share it, and any number of threads may use it at a time.
struct Schema {
  std::shared_ptr<const Compiled_schema> compiled;
  std::string problem; ///< why it cannot be used; empty where it can
  bool asks = false;   ///< its root has a keyword by which draft-07 may refuse something
  explicit operator bool() const { return compiled != nullptr; }
};

/// One thing that a schema refuses.
struct Schema_refusal {
  std::string pointer; ///< JSON Pointer of the value
  std::string message;
  std::string_view keyword; ///< of the schema that refuses it; empty where that is not known
  std::string missing = {}; ///< the key that is asked for and not there
};

struct Schema_verdict {
  std::vector<Schema_refusal> refusals; ///< empty: the document is accepted, unless there is a problem
  std::string problem;                  ///< why there is no verdict; empty where there is one
  bool cut = false;                     ///< more may be refused than is told
};

/// False where the library was built without the engine: nothing compiles then, and `problem` says so.
bool has_schema_engine();

/// Compiles a draft-07 schema (JSON text). `$ref` reaches into the schema itself only; `format` is an
/// annotation and checks nothing; patterns are ECMAScript as far as RE2 knows it. Bad text, a keyword that
/// has what draft-07 does not allow it, a bad pattern, another draft and endless references are problems.
/// Never throws on bad input.
Schema compile_schema(std::string_view text);

/// What the schema refuses in a document (JSON text), the deepest place of each refusal alone. A document
/// that is not JSON or is nested beyond `most_depth` has no verdict. Of very many refusals the first are
/// told, and the last of them says so. Never throws on bad input.
Schema_verdict check_schema(const Schema& schema, std::string_view text);

}
