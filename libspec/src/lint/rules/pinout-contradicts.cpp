#include <algorithm>
#include <map>
#include <tuple>

#include "lint/facts.h"

namespace ohmlore::rules {
namespace {

// One connector as a profile states it.
struct Pinout {
  const Fact* fact;
  std::string_view connector;
  Items issues, software, models, markets;
  struct Way {
    std::string_view pin, circuit, signal, wire;
    std::string folded_signal;
  };
  std::vector<Way> ways;

  const Way* find(std::string_view pin) const {
    const auto found = std::find_if(ways.begin(), ways.end(), [&](const Way& way) { return way.pin == pin; });
    return found == ways.end() ? nullptr : &*found;
  }
};

constexpr std::size_t fields_before_ways = 5;

void collect(const Subject& subject, Fact_sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  const std::string board = board_of(subject.document, *profile);
  if (board.empty()) return;
  const Appliance& appliance = profile->appliance;
  std::string key = board;
  for (const auto& connector : profile->connectors) {
    if (!is_id(connector.id) || connector.value.pins.empty()) continue;
    key.resize(board.size());
    pack(key, connector.id);
    if (!sink.wants(key, {subject.document.written(connector.value.node)})) continue;
    std::string value = packed({connector.id, packed_list(appliance.controller.issues),
                                packed_list(appliance.controller.software), packed_list(appliance.models),
                                packed_list(appliance.markets)});
    for (const auto& pin : connector.value.pins) {
      if (!is_id(pin.id)) continue;
      const auto* circuit = subject.resolved.circuit_class(Contact{connector.id, pin.id});
      const Wire& wire = pin.value.wire;
      for (const std::string_view field :
           {pin.id, circuit ? word_of(**circuit) : std::string_view(), *pin.value.signal})
        (value += field) += item_end;
      value += *wire.base;
      if (wire.base && wire.stripe) (value += " with ") += *wire.stripe;
      (value += item_end) += field_end;
    }
    sink.add(connector.key, key, value, *appliance.controller.part);
  }
}

Pinout pinout_of(const Fact& fact) {
  const auto fields = unpacked(fact.value, field_end, fields_before_ways);
  Pinout pinout{
      &fact, fields[0], items_of(fields[1]), items_of(fields[2]), items_of(fields[3]), items_of(fields[4]),
      {}};
  for (std::size_t i = fields_before_ways; i < fields.size(); ++i) {
    const auto way = unpacked(fields[i], item_end, 4);
    pinout.ways.push_back({way[0], way[1], way[2], way[3], folded(way[2])});
  }
  return pinout;
}

// Separated from the mains, and not: no contact is both.
bool excludes(std::string_view a, std::string_view b) {
  const auto low = [](std::string_view c) { return c == "selv" || c == "pelv"; };
  const auto high = [](std::string_view c) {
    return c == "mains" || c == "live_referenced" || c == "ignition_hv";
  };
  return (low(a) && high(b)) || (high(a) && low(b));
}

constexpr std::string_view remedy = "; correct one, or state the `issues` of the board that each holds for";

// Whether two profiles speak of one connector, and not in the same words: the same issue of the board, as far
// as they say.
bool comparable(const Pinout& a, const Pinout& b) {
  return a.fact->value != b.fact->value && a.fact->file != b.fact->file &&
         may_share_item(a.issues, b.issues) && may_share_item(a.software, b.software);
}

bool of_same_appliance(const Pinout& a, const Pinout& b) {
  return share_item(a.models, b.models) && may_share_item(a.markets, b.markets);
}

// Which pin-outs may contradict another, without a look at each: thousands of profiles may describe one
// board, each in words of its own.
class Said {
public:
  enum Doubt : char { nothing, wires, more };

  explicit Said(const std::vector<Pinout>& all) {
    for (std::size_t number = 0; number < all.size(); ++number)
      for (const Pinout::Way& way : all[number].ways) {
        circuits_.push_back({way.pin, way.circuit, number});
        wires_.push_back({way.pin, way.wire, number});
        places_.push_back({way.folded_signal, way.pin, number});
      }
    for (auto* claims : {&circuits_, &wires_, &places_}) {
      std::erase_if(*claims, [](const Claim& claim) { return claim.of.empty() || claim.what.empty(); });
      std::sort(claims->begin(), claims->end());
    }
  }

  /// Of each pin-out before this one.
  std::vector<Doubt> doubts(const Pinout& here, std::size_t number) const {
    std::vector<Doubt> doubts(number, nothing);
    const auto doubt = [&](const std::vector<Claim>& claims, std::string_view of, Doubt why, auto is_own) {
      for (auto at = std::lower_bound(claims.begin(), claims.end(), Claim{of, {}, 0});
           at != claims.end() && at->of == of;) {
        const Claim& said = *at;
        if (!is_own(said.what))
          for (; at != claims.end() && at->of == of && at->what == said.what && at->number < number; ++at)
            doubts[at->number] = std::max(doubts[at->number], why);
        at = std::lower_bound(at, claims.end(), Claim{of, said.what, std::string::npos});
      }
    };
    for (const Pinout::Way& way : here.ways) {
      if (!way.circuit.empty())
        doubt(circuits_, way.pin, more, [&](std::string_view circuit) { return circuit == way.circuit; });
      if (!way.wire.empty())
        doubt(wires_, way.pin, wires, [&](std::string_view wire) { return wire == way.wire; });
      doubt(places_, way.folded_signal, more, [&](std::string_view pin) {
        const Pinout::Way* own = here.find(pin);
        return own != nullptr && own->folded_signal == way.folded_signal;
      });
    }
    return doubts;
  }

private:
  struct Claim {
    std::string_view of, what;
    std::size_t number; // of the pin-out
    bool operator<(const Claim& other) const {
      return std::tie(of, what, number) < std::tie(other.of, other.what, other.number);
    }
  };
  std::vector<Claim> circuits_, wires_, places_; // of a pin, of a pin, of a signal
};

// What contradicts one connector: each circuit and wire by what it is here and there, and together the ways
// that are at other contacts there, as one mistake moves many.
struct Contradictions {
  std::map<std::string, std::vector<Finding>> of_way;
  std::vector<Finding> moved;
  std::size_t count = 0;
};

class Comparison {
public:
  Comparison(const Pinout& here, const Pinout& there, Severity severity, Contradictions& found)
      : here_(here), there_(there), same_appliance_(of_same_appliance(here, there)), severity_(severity),
        found_(found) {}

  void compare() {
    for (const Pinout::Way& way : here_.ways) {
      const Pinout::Way* other = there_.find(way.pin);
      if (other != nullptr) compare_circuits(way, *other);
      if (other != nullptr && same_appliance_) compare_wires(way, *other);
      compare_places(way, other);
    }
  }

private:
  Finding contradiction_of(std::string_view pin, std::string_view own, std::string_view other,
                           std::string what) {
    ++found_.count;
    return contradiction(
        *here_.fact, *there_.fact, "the other pin-out", severity_,
        fmt::format("{}.{} of board {} {}", here_.connector, pin, quoted(here_.fact->text), what),
        fmt::format("{}: {}", pin, own), other);
  }
  void add(Finding finding) {
    std::vector<Finding>& same = found_.of_way[finding.value];
    same.push_back(std::move(finding));
  }

  // Never sure: a relay contact without a supply of its own may switch one thing here and another there, and
  // kits that are fitted later make it differ in one appliance with one issue of the board.
  void compare_circuits(const Pinout::Way& way, const Pinout::Way& other) {
    if (way.circuit.empty() || other.circuit.empty() || way.circuit == other.circuit) return;
    const bool likely =
        excludes(way.circuit, other.circuit) && share_item(here_.issues, there_.issues) && same_appliance_;
    add(contradiction_of(
        way.pin, way.circuit, other.circuit,
        fmt::format("is `{}` here and `{}` in another profile{}", way.circuit, other.circuit,
                    likely ? " of the same appliance and issue: one of the two is wrong, unless "
                             "another kit is fitted there"
                           : remedy)));
  }

  void compare_wires(const Pinout::Way& way, const Pinout::Way& other) {
    if (way.wire.empty() || other.wire.empty() || way.wire == other.wire) return;
    add(contradiction_of(
        way.pin, way.wire, other.wire,
        fmt::format("has a wire of {} here and of {} in another profile of the same appliance{}", way.wire,
                    other.wire, remedy)));
  }

  static bool says(const Pinout::Way* way) { return way != nullptr && !way->signal.empty(); }
  // The same words at another contact there, and of one of the two contacts both say something: worded
  // differently is not enough, nor that one says nothing. Asked from either side it is the same. Of several
  // the first by id: in which order they stand means nothing.
  const Pinout::Way* place_there(const Pinout::Way& way, const Pinout::Way* other) const {
    if (!says(&way) || (other != nullptr && way.folded_signal == other->folded_signal)) return nullptr;
    const Pinout::Way* found = nullptr;
    for (const Pinout::Way& place : there_.ways) {
      if (place.folded_signal != way.folded_signal || (found != nullptr && found->pin < place.pin)) continue;
      const Pinout::Way* own = here_.find(place.pin);
      if (own != nullptr && own->folded_signal == way.folded_signal) continue;
      if (says(other) || says(own)) found = &place;
    }
    return found;
  }
  void compare_places(const Pinout::Way& way, const Pinout::Way* other) {
    const Pinout::Way* place = place_there(way, other);
    if (place == nullptr) return;
    found_.moved.push_back(
        contradiction_of(way.pin, way.folded_signal, place->pin,
                         fmt::format("carries {} here, which another profile has at {}.{}{}",
                                     quoted(way.signal), there_.connector, place->pin, remedy)));
  }

  const Pinout& here_;
  const Pinout& there_;
  bool same_appliance_;
  Severity severity_;
  Contradictions& found_;
};

void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  std::vector<Pinout> pinouts;
  for (const Fact& fact : facts) pinouts.push_back(pinout_of(fact));
  const auto document_of = [](const Pinout& p) { return std::tie(p.fact->document, p.fact->file); };
  std::stable_sort(pinouts.begin(), pinouts.end(),
                   [&](const Pinout& a, const Pinout& b) { return document_of(a) < document_of(b); });
  const Said said(pinouts);
  for (std::size_t i = 1; i < pinouts.size(); ++i) {
    const std::vector<Said::Doubt> doubts = said.doubts(pinouts[i], i);
    Contradictions found;
    std::size_t others = 0; // that contradict this one
    for (std::size_t k = 0; k < i && others < most_contradictions; ++k) {
      if (doubts[k] == Said::nothing || !comparable(pinouts[i], pinouts[k])) continue;
      if (doubts[k] == Said::wires && !of_same_appliance(pinouts[i], pinouts[k])) continue;
      const std::size_t before = found.count;
      Comparison(pinouts[i], pinouts[k], severity, found).compare();
      if (found.count > before) ++others;
    }
    for (auto& [what, same] : found.of_way) add_group(findings, std::move(same));
    add_group(findings, std::move(found.moved));
  }
}

}

extern const Rule pinout_contradicts = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "Two profiles give one connector of a board two pin-outs.",
    .collect = collect,
    .judge = judge,
};

}
