// Verdicts shown: as text for people, as JSON for programs.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "judge/shown.h"
#include "lint/rule.h"
#include "model/spoken.h"
#include "ohmlore/judge.h"
#include "ohmlore/report.h"
#include "report/json_members.h"
#include "report/lines.h"

namespace ohmlore {
namespace {

using namespace rules;

Probable both(const Judged& judged) { return {judged.least, judged.most}; }

std::string temperature_words(const Judgement& one, Interval room) {
  if (one.temperature)
    return fmt::format(
        "{} ± {}{}{}", celsius(one.temperature->kelvin), kelvin(one.temperature->half_width),
        one.temperature->place == Temperature_place::unstated
            ? ""
            : fmt::format(" {}", spoken(one.temperature->place)),
        one.temperature->minutes_since_running
            ? fmt::format(", {:.0f} min after running", *one.temperature->minutes_since_running)
            : "");
  return celsius(room);
}

void show_budget(Lines& lines, const Judgement& one) {
  if (one.budget.empty()) return;
  std::string parts;
  for (const Contribution& c : one.budget) {
    if (c.share < 0.005 && &c != &one.budget[0]) continue;
    const std::string width = c.in_kelvin ? kelvin(c.half_width) : shown_ohm(c.half_width);
    parts +=
        fmt::format("{}{} {:.0f} % (± {})", parts.empty() ? "" : ", ", spoken(c.from), 100 * c.share, width);
  }
  lines.add("uncertainty", fmt::format("{} (standard): {}", shown_ohm(one.uncertainty), parts));
}

void show_modes(Lines& lines, const Judgement& one) {
  for (const Mode_verdict verdict :
       {Mode_verdict::fits, Mode_verdict::excluded, Mode_verdict::undecided, Mode_verdict::not_seen}) {
    std::string modes;
    for (const Mode_answer& answer : one.modes)
      if (answer.verdict == verdict)
        modes += fmt::format("{}{}{}",
                             modes.empty()                       ? ""
                             : verdict == Mode_verdict::excluded ? ", "
                                                                 : "; ",
                             spoken(answer.mode),
                             verdict == Mode_verdict::excluded || verdict == Mode_verdict::fits
                                 ? ""
                                 : fmt::format(" ({})", answer.why));
    if (modes.empty()) continue;
    lines.add(verdict == Mode_verdict::fits ? "looks like" : spoken(verdict), modes);
  }
}

void show(Lines& lines, const Judgement& one, Interval room) {
  lines.out += fmt::format("{}: {}", one.test, printable(one.name));
  if (!one.probes.empty()) lines.out += fmt::format(", {}", one.probes);
  if (!one.side.empty()) lines.out += fmt::format(", {}", spoken(one.side));
  lines.out += '\n';
  const std::string sure = fmt::format("probability of conformity {}", shown_probability(both(one.service)));
  lines.add("result", one.result == one.service.result
                          ? fmt::format("{}: {}", spoken(one.result), sure)
                          : fmt::format("{} by all that was read; the reading itself {}: {}",
                                        spoken(one.result), spoken(one.service.result), sure));
  const Reading& reading = one.reading;
  lines.add("reading", reading.over_range ? fmt::format("OL, more than {}", shown_ohm(reading.ohm))
                                          : fmt::format("{}, {} without the leads", shown_ohm(reading.ohm),
                                                        shown_ohm(one.ohm)));
  lines.add("limits", fmt::format("{}{}: {}", shown_ohm(one.service.ohm),
                                  one.by_temperature ? " at " + temperature_words(one, room) : "",
                                  basis_words(one.service.basis, one.service.words)));
  if (one.manufacturing && one.service.basis != Limit_basis::manufacturing)
    lines.add("as made", fmt::format("{} ({}): {}, probability {}", shown_ohm(one.manufacturing->ohm),
                                     one.manufacturing->words, spoken(one.manufacturing->result),
                                     shown_probability(both(*one.manufacturing))));
  if (one.means) {
    std::string text = celsius(*one.means);
    if (one.means_between) text += fmt::format(" ({})", celsius(*one.means_between));
    if (one.deviation)
      text += std::fabs(*one.deviation) < 0.05
                  ? ": as your thermometer"
                  : fmt::format(": {} {} your thermometer",
                                kelvin(std::round(std::fabs(*one.deviation) * 10) / 10),
                                *one.deviation > 0 ? "above" : "below");
    lines.add("means", text);
  }
  if (one.reverse)
    lines.add("reversed", fmt::format("{}: {}, probability {}", spoken(one.reverse->result),
                                      shown_ohm(one.reverse->ohm), shown_probability(both(*one.reverse))));
  if (one.harness) lines.add("harness", one.harness->words);
  if (one.response)
    lines.add("response", fmt::format("{}: {}", spoken(one.response->result), one.response->words));
  show_budget(lines, one);
  show_modes(lines, one);
  for (const Other_fit& other : one.others)
    lines.add("fits better",
              fmt::format("{}, {} (probability {}): are plugs or leads exchanged?", other.component,
                          other.probes, shown_probability(other.probability)));
  for (const std::string& settle : one.settle)
    lines.add(&settle == &one.settle[0] ? "to settle it" : "or", settle);
  for (const std::string& remark : one.remarks) lines.add("note", remark);
}

}

std::string text_report(const Verdict& verdict) {
  Lines lines;
  for (const std::string& caution : verdict.cautions) lines.wrapped("! ", printable(caution));
  lines.out += '\n';
  for (const Judgement& one : verdict.judgements) {
    show(lines, one, verdict.room);
    lines.out += '\n';
  }
  for (const Set_check& check : verdict.sets)
    lines.wrapped("together: ", fmt::format("{}: {}\n", spoken(check.result), printable(check.words)));
  lines.wrapped(
      "",
      fmt::format(
          "profile {}, revision {}; meter ±({} + {:.0f}), {:.0f} counts; leads {} ± {}; rule {}: at most {} "
          "falsely within, {} falsely outside\n",
          verdict.profile, verdict.revision, percent(verdict.meter.of_reading), verdict.meter.counts,
          verdict.meter.display_counts, shown_ohm(verdict.leads.ohm), shown_ohm(verdict.leads.half_width),
          spoken(name_of(verdict.rule)), percent(verdict.rule.false_acceptance),
          percent(verdict.rule.false_rejection)));
  return lines.out;
}

namespace {

void limit(Json_writer& out, std::string_view name, const Judged& judged) {
  object(out, name, [&] {
    word(out, "result", judged.result);
    word(out, "basis", judged.basis);
    member(out, "words", judged.words);
    low_and_high(out, judged.ohm);
    share(out, "below", judged.least.below);
    share(out, "within", judged.least.within);
    share(out, "above", judged.least.above);
    share(out, "within_at_most", judged.most.within);
    if (judged.best) share(out, "best", *judged.best);
  });
}

void judgement(Json_writer& out, const Judgement& one) {
  member(out, "test", one.test);
  member(out, "component", one.component);
  member(out, "name", one.name);
  member(out, "probes", one.probes);
  member(out, "side", one.side);
  word(out, "result", one.result);
  object(out, "reading", [&] {
    ohms(out, "shown", one.reading.ohm);
    key(out, "over_range");
    out.Bool(one.reading.over_range);
  });
  ohms(out, "resistance", one.ohm);
  if (one.temperature)
    object(out, "temperature", [&] {
      temperature(out, "at", one.temperature->kelvin);
      kelvins(out, "half_width", one.temperature->half_width);
      word(out, "place", one.temperature->place);
      if (one.temperature->minutes_since_running)
        quantity(out, "since_running", 60 * *one.temperature->minutes_since_running, Dimension::time);
    });
  if (one.nominal) ohms(out, "nominal", *one.nominal);
  limit(out, "limit", one.service);
  if (one.manufacturing) limit(out, "manufacturing", *one.manufacturing);
  ohms(out, "uncertainty", one.uncertainty);
  list(out, "budget", one.budget, [&](const Contribution& c) {
    word(out, "from", c.from);
    quantity(out, "half_width", c.half_width,
             c.in_kelvin ? Dimension::temperature_difference : Dimension::resistance);
    ohms(out, "per_unit", c.sensitivity);
    ohms(out, "uncertainty", c.ohm);
    share(out, "share", c.share);
  });
  list(out, "modes", one.modes, [&](const Mode_answer& answer) {
    word(out, "mode", answer.mode);
    word(out, "verdict", answer.verdict);
    member(out, "why", answer.why);
  });
  list(out, "others", one.others, [&](const Other_fit& other) {
    member(out, "component", other.component);
    if (!other.test.empty()) member(out, "test", other.test);
    member(out, "probes", other.probes);
    share(out, "within", other.probability);
  });
  if (one.means)
    object(out, "means", [&] {
      temperature(out, "at", *one.means);
      if (one.means_between) {
        temperature(out, "low", one.means_between->low);
        temperature(out, "high", one.means_between->high);
      }
      if (one.deviation) kelvins(out, "above_thermometer", *one.deviation);
    });
  if (one.reverse) limit(out, "reverse", *one.reverse);
  if (one.harness)
    object(out, "harness", [&] {
      word(out, "result", one.harness->result);
      if (one.harness->mode) word(out, "mode", *one.harness->mode);
      if (one.harness->uncertainty > 0) {
        ohms(out, "difference", one.harness->ohm);
        ohms(out, "uncertainty", one.harness->uncertainty);
      }
      member(out, "words", one.harness->words);
    });
  if (one.response)
    object(out, "response", [&] {
      word(out, "result", one.response->result);
      ohms(out, "change", one.response->change);
      if (one.response->warmed_by) kelvins(out, "warmed_by", *one.response->warmed_by);
      member(out, "words", one.response->words);
    });
  texts(out, "remarks", one.remarks);
  texts(out, "settle", one.settle);
}

}

std::string json_report(const Verdict& verdict) {
  return written_report("ohmlore-judgement/1.0", [&](Json_writer& out) {
    member(out, "profile", verdict.profile);
    number(out, "revision", static_cast<std::uint64_t>(verdict.revision));
    texts(out, "cautions", verdict.cautions);
    word(out, "result", verdict.result());
    meter_and_leads(out, verdict.meter, verdict.leads);
    object(out, "rule", [&] {
      member(out, "name", name_of(verdict.rule));
      share(out, "false_acceptance", verdict.rule.false_acceptance);
      share(out, "false_rejection", verdict.rule.false_rejection);
    });
    object(out, "room", [&] {
      temperature(out, "low", verdict.room.low);
      temperature(out, "high", verdict.room.high);
    });
    list(out, "verdicts", verdict.judgements, [&](const Judgement& one) { judgement(out, one); });
    list(out, "sets", verdict.sets, [&](const Set_check& check) {
      word(out, "result", check.result);
      member(out, "words", check.words);
    });
    texts(out, "problems", verdict.problems);
  });
}

}
