// Words that the messages of the reader share.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {

/// The rule that a text breaks which is no quantity, or is one in an unusual spelling.
std::string_view rule_of(Unit_problem::Kind kind);

/// "text", "a list".
std::string_view type_name(Node_type type);

/// A value as written, short enough for a message.
std::string shown(const Document& document, Node_id node);

/// "`a`, `b` or `c`"
std::string alternatives(std::span<const std::string_view> words);

/// Words that are in what was written (the short of "short circuit"), else those that it is a part of, or
/// whose description names it ("boiler", "fan", the valve of "gas_valve"). Of several words written, those
/// that have most of them.
std::vector<Word> described_by(std::string_view written, std::span<const Word> words);

/// "; by what they stand for, `winding` (…) may be meant"; empty where there is none.
std::string may_be_meant(std::span<const Word> words);

/// A sentence of a description as part of a message: small first letter, no full stop.
std::string in_sentence(std::string_view text);

/// "`expect` of kind `band`", "a connector": by the key that it stands under, or by what it is where `key` is
/// empty.
std::string record_name(const Record& record, int kind, std::string_view key);

/// "`models`", "an item of `models`", "`start` in `terminals`": what stands at `node`, read for `field`.
std::string value_name(const Document& document, const Field& field, Node_id node);

/// The example of a field, where a message has room for it; else empty.
std::string_view short_example(const Field& field);

/// True where only capitals, spaces and dashes set two words apart.
bool same_word(std::string_view written, std::string_view known);

/// The known word that was meant: capitals, spaces and dashes apart, or the nearest; empty where none is.
std::string_view meant_word(std::string_view written, std::span<const std::string_view> known);

/// Why a text is not an id; empty where it is one.
std::string id_problem(std::string_view text);

}
