// Every text of a profile that somebody may search for.
#pragma once

#include "ohmlore/find.h"

namespace ohmlore {

/// Calls `take(field, text, fault)` for each; `fault` is null where the text belongs to none.
template <class F>
void each_text(const Resolved& resolved, F take) {
  const Profile& profile = *resolved.document->profile();
  const auto one = [&](Find_field field, const Value<Text>& text,
                       const Keyed<Fault>::Entry* fault = nullptr) {
    if (text && !text->empty()) take(field, *text, fault);
  };
  const auto all = [&](Find_field field, const List<Value<Text>>& texts) {
    for (const Value<Text>& text : texts) one(field, text);
  };
  const Appliance& appliance = profile.appliance;
  one(Find_field::profile, profile.id);
  one(Find_field::profile, profile.title);
  one(Find_field::maker, appliance.maker);
  all(Find_field::model, appliance.models);
  one(Find_field::board, appliance.controller.part);
  one(Find_field::text, appliance.note);
  if (appliance.type) take(Find_field::text, word_of(*appliance.type), nullptr);
  if (appliance.fuel) take(Find_field::text, word_of(*appliance.fuel), nullptr);
  for (const Resolved_component& component : resolved.components) {
    take(Find_field::component, component.id, nullptr);
    one(Find_field::component, *component.get(&Component_type::name).value);
    one(Find_field::spare, *component.get(&Component_type::orderable).value);
    one(Find_field::component, *component.get(&Component_type::assembly).value);
    one(Find_field::text, component.placed->part);
    one(Find_field::text, component.placed->where);
    one(Find_field::text, component.own->note);
    if (component.known_kind) take(Find_field::text, word_of(component.kind()), nullptr);
  }
  for (const auto& connector : profile.connectors) {
    one(Find_field::text, connector.value.label);
    one(Find_field::text, connector.value.where);
    one(Find_field::text, connector.value.note);
    for (const auto& pin : connector.value.pins) one(Find_field::text, pin.value.signal);
  }
  for (const auto& test : profile.tests) one(Find_field::text, test.value.note);
  for (const auto& fault : profile.faults) {
    take(Find_field::code, fault.id, &fault);
    const Display& display = fault.value.display;
    for (const Value<Text>* shown : {&display.text, &display.subcode, &display.pattern, &display.lamp})
      one(Find_field::code, *shown, &fault);
    one(Find_field::meaning, fault.value.meaning, &fault);
    one(Find_field::text, fault.value.note, &fault);
    for (const Suspect& suspect : fault.value.suspects) one(Find_field::text, suspect.cause, &fault);
  }
}

}
