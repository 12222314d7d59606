#include "lint/read.h"

#include <algorithm>
#include <initializer_list>
#include <utility>

namespace ohmlore::rules {

// Pairs of a key and the node that its value was decoded from, 0 where it was not.
static bool all_read(const Document& document, Node_id record,
                     std::initializer_list<std::pair<std::string_view, Node_id>> members) {
  return std::all_of(members.begin(), members.end(), [&](const auto& member) {
    return member.second != 0 || !document.may_state(record, member.first);
  });
}

bool fully_read(const Document& document, const Table_row& row) {
  return document.complete() || all_read(document, row.node,
                                         {{"at", row.at.node},
                                          {"nominal", row.nominal.node},
                                          {"tolerance", row.tolerance.node},
                                          {"min", row.min.node},
                                          {"max", row.max.node}});
}

bool fully_read(const Document& document, const Expectation& e) {
  return document.complete() || all_read(document, e.node,
                                         {{"nominal", e.nominal.node},
                                          {"tolerance", e.tolerance.node},
                                          {"min", e.min.node},
                                          {"max", e.max.node},
                                          {"at", e.at.node}});
}

bool fully_read(const Document& document, const Resistance_model& model) {
  if (document.complete()) return true;
  return all_read(document, model.node,
                  {{"resistance", model.resistance.node},
                   {"at", model.at.node},
                   {"tolerance", model.tolerance.node},
                   {"b_value", model.b_value.node},
                   {"b_between", model.b_between.node},
                   {"b_tolerance", model.b_tolerance.node},
                   {"a", model.a.node},
                   {"b", model.b.node},
                   {"c", model.c.node},
                   {"r0", model.r0.node},
                   {"tolerance_class", model.tolerance_class.node},
                   {"a1", model.a1.node},
                   {"a2", model.a2.node},
                   {"a3", model.a3.node},
                   {"a4", model.a4.node},
                   {"a5", model.a5.node},
                   {"a6", model.a6.node},
                   {"metal", model.metal.node},
                   {"k", model.k.node},
                   {"voltage", model.voltage.node},
                   {"power", model.power.node},
                   {"pairs", model.pairs.node}}) &&
         std::all_of(model.rows.begin(), model.rows.end(),
                     [&](const Table_row& row) { return row && fully_read(document, row); });
}

bool fully_read(const Document& document, const Test& test) {
  if (document.complete()) return true;
  const auto whole = [](const List<Value<Text>>& list) {
    return std::all_of(list.begin(), list.end(), [](const Value<Text>& text) { return bool(text); });
  };
  return all_read(document, test.node,
                  {{"unplug", test.unplug.node},
                   {"condition", test.condition.node},
                   {"side", test.side.node},
                   {"positive", test.positive.node},
                   {"note", test.note.node},
                   {"disconnect_also", test.disconnect_also.node},
                   {"before", test.before.node}}) &&
         whole(test.disconnect_also) && whole(test.before) &&
         (!test.expect || all_read(document, test.expect.node, {{"at", test.expect.at.node}}));
}

}
