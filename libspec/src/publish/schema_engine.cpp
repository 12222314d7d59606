// The one file that compiles valijson: schemas given to it, documents checked with it.
#include "ohmlore/schema_engine.h"

#if OHMLORE_SCHEMA_ENGINE

#include "publish/valijson.h" // before any header of RapidJSON

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <mutex>
#include <optional>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "ohmlore/description.h"
#include "ohmlore/text.h"
#include "publish/schema_inspector.h"
#include "publish/schema_keywords.h"
#include "publish/schema_refusals.h"
#include "publish/schema_rewriter.h"

namespace ohmlore {

struct Compiled_schema {
  valijson::Schema schema;
  std::vector<std::unique_ptr<valijson::Schema>>
      names; // of keys: each `propertyNames`, if they may be asked alone
  // A validator keeps the patterns that it has compiled, and serves one check at a time: idle ones wait here.
  mutable std::mutex mutex;
  mutable std::vector<std::unique_ptr<valijson::Validator>> idle;
};

namespace {

using namespace schemas;

class Borrowed_validator {
public:
  explicit Borrowed_validator(const Compiled_schema& schema) : schema_(schema) {
    const std::lock_guard lock(schema.mutex);
    if (schema.idle.empty()) {
      validator_ = std::make_unique<valijson::Validator>();
    } else {
      validator_ = std::move(schema.idle.back());
      schema.idle.pop_back();
    }
  }
  ~Borrowed_validator() {
    const std::lock_guard lock(schema_.mutex);
    schema_.idle.push_back(std::move(validator_));
  }
  Borrowed_validator(const Borrowed_validator&) = delete;
  Borrowed_validator& operator=(const Borrowed_validator&) = delete;
  valijson::Validator& operator*() const { return *validator_; }

private:
  const Compiled_schema& schema_;
  std::unique_ptr<valijson::Validator> validator_;
};

using Adapter = valijson::adapters::Adapter;
using Context = std::vector<std::string>;

template <class Own>
class Own_constraint : public valijson::constraints::PolyConstraint {
public:
  bool validate(const Adapter& target, const Context& context,
                valijson::ValidationResults* results) const override {
    const Own& self = static_cast<const Own&>(*this);
    if (self.accepts(target)) return true;
    if (results != nullptr) results->pushError(context, self.tells(target));
    return false;
  }

private:
  valijson::constraints::Constraint* cloneInto(void* place) const override {
    return new (place) Own(static_cast<const Own&>(*this));
  }
  std::size_t sizeOf() const override { return sizeof(Own); }
};

class Limited : public Own_constraint<Limited> {
public:
  Limited(const Keyword& keyword, std::string written) : keyword_(&keyword), written_(std::move(written)) {
    rapidjson::Document number;
    parse(written_, number);
    bound_ = number.GetDouble();
  }

  bool accepts(const Adapter& target) const {
    double value = 0;
    switch (keyword_->limit->of) {
    case Of::number:
      if (!target.isNumber()) return true;
      value = target.asDouble();
      break;
    case Of::characters:
      if (!target.isString()) return true;
      value = static_cast<double>(code_points(target.asString()));
      break;
    case Of::items:
      if (!target.isArray()) return true;
      value = static_cast<double>(target.getArraySize());
      break;
    case Of::members:
      if (!target.isObject()) return true;
      value = static_cast<double>(target.getObjectSize());
      break;
    }
    switch (keyword_->limit->must) {
    case Must::at_most: return value <= bound_;
    case Must::less: return value < bound_;
    case Must::at_least: return value >= bound_;
    case Must::more: return value > bound_;
    case Must::multiple: // but for the rounding of both decimals: 19.99 is a multiple of 0.01
      return std::fabs(std::remainder(value, bound_)) <=
             std::fabs(value) * std::numeric_limits<double>::epsilon();
    }
    return true;
  }
  std::string tells(const Adapter&) const { return fmt::format("{}{}:{}", own, keyword_->name, written_); }

private:
  const Keyword* keyword_; // with a limit
  std::string written_;
  double bound_ = 0;
};

// The same for values that are: numbers by what they are worth, objects in whatever order.
std::string same_text(const Adapter& value) {
  if (value.isString()) return fmt::format("'{}:{}", value.asString().size(), value.asString());
  if (value.isNumber()) return fmt::format("{}", value.getNumber() + 0.0); // -0 is 0
  if (value.isBool()) return value.asBool() ? "true" : "false";
  if (!value.isArray() && !value.isObject()) return "null";
  std::vector<std::string> inner;
  value.applyToArray([&](const Adapter& item) {
    inner.push_back(same_text(item));
    return true;
  });
  if (value.isArray()) return fmt::format("[{}]", fmt::join(inner, ","));
  value.applyToObject([&](const std::string& key, const Adapter& member) {
    inner.push_back(fmt::format("{}:{}{}", key.size(), key, same_text(member)));
    return true;
  });
  std::sort(inner.begin(), inner.end());
  return fmt::format("{{{}}}", fmt::join(inner, ","));
}

// `uniqueItems`: the engine would compare each item with each, and tell every pair.
class Unique : public Own_constraint<Unique> {
public:
  bool accepts(const Adapter& target) const { return !repeated(target); }
  std::string tells(const Adapter& target) const {
    const auto [first, second] = *repeated(target);
    return fmt::format("{}uniqueItems:{} and {}", own, first, second);
  }

private:
  // The first item that stands before already, and where.
  static std::optional<std::pair<std::size_t, std::size_t>> repeated(const Adapter& target) {
    if (!target.isArray()) return std::nullopt;
    std::vector<std::pair<std::string, std::size_t>> items;
    target.applyToArray([&](const Adapter& item) {
      items.emplace_back(same_text(item), items.size());
      return true;
    });
    std::sort(items.begin(), items.end());
    std::optional<std::pair<std::size_t, std::size_t>> found;
    for (std::size_t i = 1; i < items.size(); ++i)
      if (items[i].first == items[i - 1].first && (!found || items[i].second < found->second))
        found = {items[i - 1].second, items[i].second};
    return found;
  }
};

// `enum`: the engine would compare with every value, each in 64 KiB of its own.
class Enumerated : public Own_constraint<Enumerated> {
public:
  explicit Enumerated(const Adapter& values) {
    values.applyToArray([&](const Adapter& value) {
      holds_any_with_parts_ = holds_any_with_parts_ || has_parts(value);
      values_.push_back(same_text(value));
      return true;
    });
    std::sort(values_.begin(), values_.end());
  }
  bool accepts(const Adapter& target) const {
    if (has_parts(target) && !holds_any_with_parts_) return false; // its text may be long
    return std::binary_search(values_.begin(), values_.end(), same_text(target));
  }
  std::string tells(const Adapter&) const { return fmt::format("{}enum", own); }

private:
  static bool has_parts(const Adapter& value) { return value.isArray() || value.isObject(); }

  std::vector<std::string> values_;
  bool holds_any_with_parts_ = false;
};

// Refuses everything, and says for which keyword.
class Refusing : public Own_constraint<Refusing> {
public:
  explicit Refusing(std::string cause) : cause_(std::move(cause)) {}
  bool accepts(const Adapter&) const { return false; }
  std::string tells(const Adapter&) const { return fmt::format("{}{}", own, cause_); }

private:
  std::string cause_;
};

struct Limit_builder : valijson::ConstraintBuilder {
  explicit Limit_builder(const Keyword& of) : keyword(of) {}
  valijson::constraints::Constraint* make(const Adapter& written) const override {
    return new Limited(keyword, written.asString());
  }
  const Keyword& keyword;
};
struct Unique_builder : valijson::ConstraintBuilder {
  valijson::constraints::Constraint* make(const Adapter&) const override { return new Unique; }
};
struct Enumerated_builder : valijson::ConstraintBuilder {
  valijson::constraints::Constraint* make(const Adapter& values) const override {
    return new Enumerated(values);
  }
};
struct Refusing_builder : valijson::ConstraintBuilder {
  valijson::constraints::Constraint* make(const Adapter& cause) const override {
    return new Refusing(cause.asString());
  }
};

void add_own_keywords(valijson::SchemaParser& parser) {
  for (const Keyword& keyword : keywords)
    if (keyword.limit) parser.addConstraintBuilder(own_name(keyword.name), new Limit_builder(keyword));
  parser.addConstraintBuilder(own_name("uniqueItems"), new Unique_builder);
  parser.addConstraintBuilder(own_name("enum"), new Enumerated_builder);
  parser.addConstraintBuilder(own_name(refuses), new Refusing_builder);
}

std::string draft_problem(const Json& schema) {
  const Json* draft = find(schema, "$schema");
  if (draft == nullptr) return {};
  if (!draft->IsString()) return "`$schema` is not text";
  const std::string_view name = view(*draft);
  if (name.find("json-schema.org/draft-07/schema") != std::string_view::npos) return {};
  return fmt::format("it is written for {}; this program knows http://json-schema.org/draft-07/schema#",
                     printable(name));
}

const rapidjson::Document& draft_7() {
  static const rapidjson::Document document = [] {
    rapidjson::Document schema;
    parse(schema_of_schemas(), schema);
    return schema;
  }();
  return document;
}

// Whether one of the keywords of a schema may refuse something, at once or further inside.
bool asks(const Json& schema) {
  constexpr std::array<std::string_view, 5> harmless = {"title", "description", "definitions", "then",
                                                        "else"};
  const std::span all = members(schema);
  return std::any_of(all.begin(), all.end(), [&](const Json::Member& member) {
    const std::string_view key = view(member.name);
    if (std::find(harmless.begin(), harmless.end(), key) != harmless.end()) return false;
    return key == "$ref" || keyword_named(key) != nullptr;
  });
}

// A schema for each `propertyNames`, where none needs the root that they lose by it.
void add_names(valijson::SchemaParser& parser, Rewritten& rewritten, Compiled_schema& compiled) {
  rapidjson::Document& schema = rewritten.schema;
  auto& memory = schema.GetAllocator();
  for (std::size_t index = 0; index < rewritten.names; ++index) {
    schema.RemoveMember("$ref");
    schema.AddMember("$ref", Json(names_reference(index).c_str(), memory), memory);
    compiled.names.push_back(std::make_unique<valijson::Schema>());
    parser.populateSchema(valijson::adapters::RapidJsonAdapter(schema), *compiled.names.back());
  }
}

std::string misuse_problem(const Json& schema, std::string_view pointer);

Schema built(const rapidjson::Document& document) {
  Schema result;
  const Inspected inspected = inspect(document, misuse_problem);
  result.problem = inspected.problem;
  if (!result.problem.empty()) return result;
  try {
    auto compiled = std::make_shared<Compiled_schema>();
    Rewritten rewritten = rewrite(document, inspected);
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    add_own_keywords(parser);
    parser.populateSchema(valijson::adapters::RapidJsonAdapter(rewritten.schema), compiled->schema);
    if (!inspected.refers_to_root) add_names(parser, rewritten, *compiled);
    result.compiled = std::move(compiled);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    result.problem = printable(error.what());
  }
  return result;
}

Schema_verdict refusals_of(const Json& value, const valijson::Schema& schema, const Compiled_schema& compiled,
                           valijson::Validator& validator);

// The keys of an object that are refused, each at its place.
std::vector<Error> refused_keys(const Json& object, const Error& refusal, const Compiled_schema& compiled,
                                valijson::Validator& validator) {
  std::vector<Error> out;
  for (const Json::Member& member : members(object)) {
    const std::vector<Schema_refusal> why =
        refusals_of(member.name, *compiled.names[*refusal.names], compiled, validator).refusals;
    if (why.empty()) continue;
    Error error = refusal;
    error.place.keys.emplace_back(view(member.name));
    error.message = fmt::format("as a key: {}", why.front().message);
    out.push_back(std::move(error));
  }
  return out;
}

Schema_verdict refusals_of(const Json& value, const valijson::Schema& schema, const Compiled_schema& compiled,
                           valijson::Validator& validator) {
  // Most documents are accepted, and without results to fill the engine is faster.
  const valijson::adapters::RapidJsonAdapter adapter(value);
  if (validator.validate(schema, adapter, nullptr)) return {};
  valijson::ValidationResults results;
  validator.validate(schema, adapter, &results);
  const bool cut = results.numErrors() == valijson::std::most_told;
  Refusals refusals;
  valijson::ValidationResults::Error raw;
  while (results.popError(raw)) {
    Error error = read_error(value, raw.context, raw.description);
    const Json* object = error.names && !compiled.names.empty() ? value_at(value, error.place) : nullptr;
    if (object == nullptr) {
      refusals.add(std::move(error));
      continue;
    }
    for (Error& key : refused_keys(*object, error, compiled, validator)) refusals.add(std::move(key));
  }
  Schema_verdict verdict = {refusals.take(), {}, cut};
  std::vector<Schema_refusal>& out = verdict.refusals;
  if (cut && !out.empty()) out.back().message += " (what else the schema refuses may be left out)";
  // Refused without a word: by the schema `false`.
  if (out.empty()) out.push_back({"", "the document is refused by the schema as a whole", {}});
  return verdict;
}

Schema_verdict verdict_on(const Json& document, const Compiled_schema& schema,
                          double most_applications = std::numeric_limits<double>::infinity()) {
  Schema_verdict verdict;
  valijson::std::applications_left = most_applications;
  try {
    const Borrowed_validator validator(schema);
    verdict = refusals_of(document, schema.schema, schema, *validator);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    verdict.problem = printable(error.what());
  }
  return verdict;
}

// Why the engine may not take a value for a schema: "" where it may.
std::string misuse_problem(const Json& schema, std::string_view pointer) {
  static const Schema known = built(draft_7());
  const Schema_verdict verdict = verdict_on(schema, *known.compiled);
  if (!verdict.problem.empty() || verdict.refusals.empty()) return verdict.problem;
  const Schema_refusal& first = verdict.refusals.front();
  const std::string place = fmt::format("{}{}", pointer, first.pointer);
  return fmt::format("what stands at {} is no schema of draft-07: {}",
                     place.empty() ? "its root" : printable(place), first.message);
}

}

bool has_schema_engine() { return true; }

Schema compile_schema(std::string_view text) {
  Schema result;
  rapidjson::Document document;
  parse(text, document);
  if (document.HasParseError())
    result.problem = parse_problem(document);
  else if (!document.IsObject() && !document.IsBool())
    result.problem = "a schema is one JSON object";
  else if (deeper_than(document, most_depth))
    result.problem = fmt::format("it is nested more than {} deep", most_depth);
  else if (document.IsObject())
    result.problem = draft_problem(document);
  if (!result.problem.empty()) return result;
  round_long_numbers(document);
  result.problem = misuse_problem(document, {});
  if (!result.problem.empty()) return result;
  result = built(document);
  result.asks = document.IsObject() && asks(document);
  return result;
}

Schema_verdict check_schema(const Schema& schema, std::string_view text) {
  Schema_verdict verdict;
  if (!schema) {
    verdict.problem = "there is no schema to check against: " + schema.problem;
    return verdict;
  }
  rapidjson::Document document;
  parse(text, document);
  if (document.HasParseError())
    verdict.problem = parse_problem(document);
  else if (deeper_than(document, most_depth))
    verdict.problem = fmt::format("the document is nested more than {} deep", most_depth);
  if (!verdict.problem.empty()) return verdict;
  round_long_numbers(document);
  return verdict_on(document, *schema.compiled, 1e6 + 100 * static_cast<double>(text.size()));
}

}

#else

namespace ohmlore {

struct Compiled_schema {};

bool has_schema_engine() { return false; }

Schema compile_schema(std::string_view) {
  return {nullptr, "this build has no schema engine: configure it with OHMLORE_SCHEMA_ENGINE=ON"};
}

Schema_verdict check_schema(const Schema& schema, std::string_view) { return {{}, schema.problem}; }

}

#endif
