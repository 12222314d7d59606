#include "ohmlore/cautions.h"

#include <cmath>

#include <fmt/format.h>

#include "job/stored_charge.h"
#include "model/spoken.h"
#include "ohmlore/resolve.h"
#include "ohmlore/text.h"

namespace ohmlore {
namespace {

std::string in_brackets(const Value<Text>& note) {
  return note ? fmt::format(" ({})", printable(*note)) : std::string();
}

std::string name_of(const Profile& profile, Text component) {
  const auto* found = profile.components.find(component);
  return printable(found != nullptr && found->value.name ? *found->value.name : component);
}

// With its form: a meter on ac shows nothing of a charge.
std::string voltage(const Quantity& quantity) {
  const std::string_view form = quantity.form == Supply_form::dc   ? " dc"
                                : quantity.form == Supply_form::ac ? " ac"
                                                                   : "";
  return fmt::format("{}{}", describe(quantity.si, Dimension::voltage), form);
}

// mains at "fused spur" (compressor and control)
std::string isolation(const Profile& profile) {
  std::string out;
  for (const Supply& supply : profile.safety.supplies) {
    if (!supply.kind) continue;
    out += fmt::format("{}{}", out.empty() ? "" : "; ", spoken(*supply.kind));
    if (supply.isolate_at) out += fmt::format(" at \"{}\"", printable(*supply.isolate_at));
    out += in_brackets(supply.note);
  }
  return out;
}

std::string duration(double seconds) {
  return seconds >= 60 && std::fmod(seconds, 60) == 0 ? fmt::format("{:.0f} min", seconds / 60)
                                                      : describe(seconds, Dimension::time);
}

std::string charge(const Profile& profile) {
  std::string out;
  for (const Hazard& hazard : profile.safety.hazards) {
    if (!is_stored_charge(hazard)) continue;
    if (!out.empty()) out += "; ";
    std::string where = hazard.component ? name_of(profile, *hazard.component) : std::string();
    if (!hazard.where.empty()) where += (where.empty() ? "" : ", ") + where_verified(hazard);
    out += where.empty() ? "stored charge" : where;
    if (hazard.wait) out += fmt::format(": wait {}", duration(hazard.wait->si));
    if (hazard.verify_below) out += fmt::format(", verify below {}", voltage(*hazard.verify_below));
    out += in_brackets(hazard.note);
  }
  return out;
}

void add_other_hazards(const Profile& profile, std::vector<std::string>& texts) {
  for (const Hazard& hazard : profile.safety.hazards) {
    if (!hazard.kind || *hazard.kind == Hazard_kind::stored_charge) continue;
    std::string& text = texts.emplace_back(fmt::format("Also in this appliance: {}", spoken(*hazard.kind)));
    const auto add = [&](const std::string& more) { text += ", " + more; };
    if (hazard.component) add(name_of(profile, *hazard.component));
    for (const Value<Contact>& contact : hazard.where)
      if (contact) add(text_of(*contact));
    if (hazard.wait) add(fmt::format("wait {}", duration(hazard.wait->si)));
    if (hazard.verify_below) add(fmt::format("verify below {}", voltage(*hazard.verify_below)));
    if (hazard.note) text += fmt::format("; {}", printable(*hazard.note));
    text += '.';
  }
}

}

std::vector<std::string> cautions_for(const Profile& profile) {
  std::vector<std::string> texts;
  for (const Caution& caution : cautions()) {
    std::string& text = texts.emplace_back(caution.text);
    if (caution.id == "isolate") {
      const std::string supplies = isolation(profile);
      if (!supplies.empty()) text += fmt::format(" Here: {}.", supplies);
    }
    if (caution.id == "stored-charge") {
      const std::string charges = charge(profile);
      if (!charges.empty()) text += fmt::format(" Here: {}.", charges);
    }
  }
  add_other_hazards(profile, texts);
  return texts;
}

}
