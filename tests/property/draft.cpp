#include "draft.h"

#include <fmt/format.h>

#include <algorithm>

namespace ohmlore::test {

std::string in_quotes(std::string_view text) { return fmt::format("\"{}\"", text); }

std::string object(Members members) {
  std::string out = "{";
  for (const auto& [key, value] : members)
    if (!value.empty()) out += fmt::format("{} \"{}\": {}", out.size() > 1 ? "," : "", key, value);
  return out + " }";
}

std::string list(const std::vector<std::string>& items) {
  return fmt::format("[{}]", fmt::join(items, ", "));
}

std::string texts(const std::vector<std::string>& items) {
  std::vector<std::string> all;
  for (const std::string& item : items) all.push_back(in_quotes(item));
  return list(all);
}

std::string about(double value, Dimension dimension, int digits) {
  return in_quotes(describe(value, dimension, digits));
}
std::string ohms(double value, int digits) { return about(value, Dimension::resistance, digits); }
std::string degrees(double celsius) { return fmt::format("\"{:g} °C\"", celsius); }
std::string degrees(double from, double to) { return fmt::format("\"{:g} °C to {:g} °C\"", from, to); }
std::string percent(double value) { return fmt::format("\"{:g} %\"", value); }

Draft::Draft(Chance& c, int n) : chance(c), number(n), numbered_on_(c.one_in(8)) {}

std::string Draft::id() const { return fmt::format("healthy-{:04}", number); }

// A plug of the class with room for more pins; a new one where none has.
Draft::Plug& Draft::plug(const std::string& circuit, std::size_t room) {
  for (Plug& plug : plugs_)
    if (plug.on_board && plug.circuit == circuit &&
        plug.pins.size() + room <= static_cast<std::size_t>(plug.ways))
      return plug;
  Plug plug;
  plug.id = fmt::format("X{}", plugs_.size() + 1);
  plug.circuit = circuit;
  plug.ways = std::max(chance.whole(2, 12), static_cast<int>(room) + 1);
  plug.lettered = !numbered_on_ && chance.one_in(10);
  for (const Plug& before : plugs_)
    if (numbered_on_ && before.on_board) plug.first = before.first + before.ways;
  plugs_.push_back(plug);
  return plugs_.back();
}

std::string Draft::add_pin(Plug& plug, const std::string& signal) {
  static const std::vector<std::string> colours = {"BK", "BN", "RD", "OG", "YE",  "BU",
                                                   "VT", "GY", "WH", "PK", "RDBU"};
  Pin pin;
  const int place = static_cast<int>(plug.pins.size());
  pin.name =
      plug.lettered ? std::string(1, static_cast<char>('A' + place)) : std::to_string(plug.first + place);
  pin.signal = signal;
  const std::string colour = chance.of(colours);
  if (chance.one_in(20))
    pin.wire = R"({ "base": "other", "other": "clear" })";
  else if (!chance.one_in(4))
    pin.wire = object({{"base", in_quotes(colour)}, {"stripe", chance.one_in(3) ? in_quotes("WH") : ""}});
  plug.pins.push_back(pin);
  return plug.id + "." + pin.name;
}

std::string Draft::contact(const std::string& circuit, const std::string& signal) {
  return add_pin(plug(circuit, 1), signal);
}

std::vector<std::string> Draft::contacts(const std::string& circuit,
                                         const std::vector<std::string>& signals) {
  Plug& here = plug(circuit, signals.size());
  std::vector<std::string> all;
  for (const std::string& signal : signals) all.push_back(add_pin(here, signal));
  return all;
}

std::vector<std::string> Draft::far_plug(const std::string& where, const std::string& circuit,
                                         const std::vector<std::string>& signals) {
  Plug plug;
  plug.id = fmt::format("J{}", plugs_.size() + 1);
  plug.circuit = circuit;
  plug.where = where;
  plug.on_board = false;
  plug.ways = static_cast<int>(signals.size());
  plugs_.push_back(plug);
  std::vector<std::string> all;
  for (const std::string& signal : signals) all.push_back(add_pin(plugs_.back(), signal));
  return all;
}

Draft::Pin& Draft::pin(const std::string& contact) {
  const std::size_t dot = contact.find('.');
  for (Plug& plug : plugs_)
    for (Pin& pin : plug.pins)
      if (plug.id == contact.substr(0, dot) && pin.name == contact.substr(dot + 1)) return pin;
  return plugs_.front().pins.front();
}

std::string Draft::shared(const std::string& circuit, const std::string& signal) {
  const std::string at = contact(circuit, signal);
  pin(at).shared = true;
  return at;
}

std::string Draft::earth() {
  if (!earth_.empty()) return earth_;
  earth_ = contact("mains", "protective earth");
  pin(earth_).circuit = "protective_earth";
  pin(earth_).wire = chance.one_in(5)   ? R"({ "base": "GN", "stripe": "YE" })"
                     : chance.one_in(5) ? R"({ "base": "other", "other": "bare, tinned braid" })"
                                        : R"({ "base": "GNYE" })";
  return earth_;
}

void Draft::paint(const std::string& contact, const std::string& wire) { pin(contact).wire = wire; }
void Draft::link(const std::string& contact, const std::string& other) { pin(contact).link = other; }

void Draft::component(const std::string& id, Members members) {
  components_.push_back(fmt::format("\"{}\": {}", id, object(members)));
}

void Draft::circuit(const std::string& id, Members members) {
  circuits_.push_back(fmt::format("\"{}\": {}", id, object(members)));
}

void Draft::test(const std::string& id, const std::string& component, const std::string& from,
                 const std::string& to, Members members) {
  static const std::vector<std::string> efforts = {"low", "medium", "high"};
  std::string text = fmt::format(R"("{}": {{ "component": "{}", "unplug": "{}", "probes": ["{}", "{}"])", id,
                                 component, from.substr(0, from.find('.')), from, to);
  // Every plug that a lead goes to is withdrawn.
  if (const std::string other = to.substr(0, to.find('.')); other != from.substr(0, from.find('.')))
    text += fmt::format(R"(, "disconnect_also": ["plug {}"])", other);
  bool has_side = false;
  for (const auto& [key, value] : members) {
    if (value.empty()) continue;
    has_side = has_side || key == "side";
    text += fmt::format(", \"{}\": {}", key, value);
  }
  if (!has_side) text += R"(, "side": "at_board_plug")";
  tests_.push_back(text + fmt::format(R"(, "effort": "{}" }})", chance.of(efforts)));
}

void Draft::fault(const std::string& component, const std::vector<std::string>& modes,
                  const std::vector<std::string>& decided_by, const std::string& raised) {
  const std::size_t n = faults_.size() + 1;
  std::vector<std::string> suspects = {object({{"kind", in_quotes("component")},
                                               {"component", in_quotes(component)},
                                               {"modes", texts(modes)},
                                               {"decided_by", texts(decided_by)}})};
  if (chance.one_in(2))
    suspects.push_back(object({{"kind", in_quotes("harness")},
                               {"connector", in_quotes(plugs_.front().id)},
                               {"modes", texts({"open", "wet_or_corroded"})}}));
  if (chance.one_in(4))
    suspects.push_back(R"({ "kind": "board", "not_decidable": "no dead test shows it" })");
  std::string display = fmt::format(R"({{ "kind": "text", "text": "F{}" }})", n);
  if (chance.one_in(8))
    display = fmt::format(R"({{ "kind": "blink", "pattern": "{} short, 1 long", "lamp": "red" }})", n);
  if (chance.one_in(8)) display = fmt::format(R"({{ "kind": "subcode", "text": "E", "subcode": "{}" }})", n);
  faults_.push_back(fmt::format("\"F{}\": {}", n,
                                object({{"display", display},
                                        {"meaning", in_quotes(component + " out of order")},
                                        {"raised", raised},
                                        {"suspects", list(suspects)}})));
}

// One code that means different things on two models.
void Draft::fault_without_test() {
  for (const std::string model : {"24", "30"})
    faults_.push_back(fmt::format(
        R"("P1_{0}": {{ "display": {{ "kind": "text", "text": "P1" }}, "meaning": "no circulation", "when": {{ "models": ["Larch {0} C"] }},
  "suspects": [{{ "kind": "cause", "cause": "air in the heating circuit", "not_decidable": "hydraulic" }}, {{ "kind": "supply", "not_decidable": "not a dead test" }}] }})",
        model));
}

void Draft::waive(const std::string& rule, const std::string& at, const std::string& why) {
  waivers_.push_back(object({{"rule", in_quotes(rule)}, {"at", in_quotes(at)}, {"why", in_quotes(why)}}));
}

std::string Draft::plug_text(const Plug& plug) const {
  std::string pins;
  for (const Pin& pin : plug.pins)
    pins += fmt::format("{}\"{}\": {}", pins.empty() ? "" : ", ", pin.name,
                        object({{"signal", in_quotes(pin.signal)},
                                {"wire", pin.wire},
                                {"circuit", pin.circuit.empty() ? "" : in_quotes(pin.circuit)},
                                {"shared", pin.shared ? "true" : ""},
                                {"links", pin.link.empty() ? "" : texts({pin.link})}}));
  return fmt::format("\"{}\": {}", plug.id,
                     object({{"label", in_quotes(plug.id)},
                             {"where", in_quotes(plug.where)},
                             {"mounted", plug.on_board ? "" : in_quotes("component")},
                             {"ways", std::to_string(plug.ways)},
                             {"rows", plug.ways % 2 == 0 && plug.ways > 4 ? "2" : ""},
                             {"circuit", in_quotes(plug.circuit)},
                             {"pins", fmt::format("{{ {} }}", pins)}}));
}

static std::string map(std::string_view key, const std::vector<std::string>& entries) {
  return entries.empty() ? ""
                         : fmt::format(",\n  \"{}\": {{\n    {}\n  }}", key, fmt::join(entries, ",\n    "));
}

std::string Draft::text() const {
  std::vector<std::string> plugs;
  for (const Plug& plug : plugs_) plugs.push_back(plug_text(plug));
  return fmt::format(R"({{
  "format": "ohmlore/1.0", "kind": "profile", "id": "{}", "revision": 1,
  "appliance": {{
    "maker": "Orrinvale", "models": ["Larch 24 C", "Larch 30 C"], "type": "combination_boiler", "fuel": "natural_gas",
    "controller": {{ "part": "OV-{:04}" }}
  }},
  "safety": {{
    "supplies": [{{ "kind": "mains", "isolate_at": "fused spur beside the appliance" }}]{}
  }},
  "sources": {{ "notes": {{ "kind": "maker_document", "title": "Service notes {}", "edition": "2", "date": "2019-04" }} }},
  "source": {{ "from": "notes", "page": "31" }}{}{}{}{}{}{}
}}
)",
                     id(), number,
                     hazards_.empty() ? "" : fmt::format(", \"hazards\": [{}]", fmt::join(hazards_, ", ")),
                     number, map("connectors", plugs), map("components", components_),
                     map("circuits", circuits_), map("tests", tests_), map("faults", faults_),
                     waivers_.empty() ? "" : fmt::format(",\n  \"waivers\": {}", list(waivers_)));
}

}
