#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

// The codes of ISO 3166-1 that are assigned, parted by spaces; and XK, left free for users, which everybody
// writes for Kosovo.
static constexpr std::string_view assigned =
    "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ "
    "BR BS BT BV BW BY BZ CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM "
    "DO DZ EC EE EG EH ER ES ET FI FJ FK FM FO FR GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS "
    "GT GU GW GY HK HM HN HR HT HU ID IE IL IM IN IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN "
    "KP KR KW KY KZ LA LB LC LI LK LR LS LT LU LV LY MA MC MD ME MF MG MH MK ML MM MN MO MP MQ "
    "MR MS MT MU MV MW MX MY MZ NA NC NE NF NG NI NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM "
    "PN PR PS PT PW PY QA RE RO RS RU RW SA SB SC SD SE SG SH SI SJ SK SL SM SN SO SR SS ST SV "
    "SX SY SZ TC TD TF TG TH TJ TK TL TM TN TO TR TT TV TW TZ UA UG UM US UY UZ VA VC VE VG VI "
    "VN VU WF WS YE YT ZA ZM ZW XK";

// What is written for a country that has another code: UK is reserved and not assigned, and the institutions
// of the European Union write EL.
static std::string_view meant(Text code) { return code == "UK" ? "GB" : code == "EL" ? "GR" : ""; }

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Value<Text>& market : profile->appliance.markets) {
    if (!market || assigned.find(*market) != std::string_view::npos) continue;
    const std::string_view code = meant(*market);
    const auto& all = profile->appliance.markets;
    const bool there = std::any_of(all.begin(), all.end(),
                                   [&](const Value<Text>& other) { return other && *other == code; });
    Finding& finding = sink.report(
        market.node, fmt::format("{} is no country code of ISO 3166-1; {}", *market,
                                 code.empty() ? "write that of the country where the appliance is sold"
                                 : there      ? fmt::format("leave it out beside {}", code)
                                              : fmt::format("write {}", code)));
    if (code.empty() || there) continue;
    const Node& node = subject.document.node(market.node);
    finding.fixes.push_back({fmt::format("write {}", code),
                             Fix_safety::safe,
                             {{node.begin, node.end, fmt::format("\"{}\"", code)}}});
  }
}

extern const Rule country_code_unknown = {
    .family = Family::shape,
    .severity = Severity::warning,
    .summary = "A market is no country code of ISO 3166-1.",
    .check = check,
};

}
