#include "sheet/style.h"

#include <fmt/format.h>

#include "job/chart.h"

namespace ohmlore::sheet {
namespace {

constexpr Paint all_paints[] = {
    {"paper", "#ffffff", "#12181d"},        {"ink", "#1b2127", "#e9eef2"},
    {"muted", "#48525c", "#b4bfc9"},        {"rule", "#7b8792", "#7f8b97"},
    {"hairline", "#d3d9de", "#33404a"},     {"accent", "#0d4457", "#9fdcf0"},
    {"on-accent", "#ffffff", "#0b1a20"},    {"tint", "#eef5f7", "#1a252c"},
    {"warn-ground", "#fff6e0", "#33290f"},  {"warn-edge", "#8a5a00", "#d9a441"},
    {"warn-ink", "#3d2b00", "#ffe9b8"},     {"danger", "#a3201a", "#ff9c8f"},
    {"probe", "#ffffff", "#12181d"},        {"probe-red", "#b3261e", "#ffb4a9"},
    {"on-probe-red", "#ffffff", "#3b0a06"}, {"field", "#ffffff", "#0c1115"},
};

constexpr Paint_pair all_pairs[] = {
    {"ink", "paper", 4.5},
    {"ink", "tint", 4.5},
    {"ink", "field", 4.5},
    {"muted", "paper", 4.5},
    {"muted", "tint", 4.5},
    {"accent", "paper", 4.5},
    {"accent", "tint", 4.5},
    {"on-accent", "accent", 4.5},
    {"warn-ink", "warn-ground", 4.5},
    {"danger", "paper", 4.5},
    {"danger", "tint", 4.5},
    {"warn-edge", "paper", 3},
    {"warn-edge", "warn-ground", 3},
    {"rule", "paper", 3},
    {"rule", "field", 3},
    {"rule", "tint", 3},
    {"ink", "probe", 4.5},
    {"on-probe-red", "probe-red", 4.5},
    {"probe-red", "paper", 4.5},
    {"rule", "probe", 3},
};

// No child combinator and no ampersand: what stands between <style> and </style> is not unescaped.
constexpr std::string_view rules = R"css(
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;padding:0 1rem 3rem;max-width:62rem;background:var(--paper);color:var(--ink);font:15px/1.45 system-ui,"DejaVu Sans",sans-serif;overflow-wrap:break-word;hyphens:auto}
h1{font-size:1.6rem;line-height:1.2;margin:.2rem 0 .6rem}
h2{font-size:1.2rem;line-height:1.25;margin:2rem 0 .6rem;padding-top:.35rem;border-top:3px solid var(--accent);color:var(--accent)}
h3{font-size:1rem;line-height:1.3;margin:0 0 .35rem}
h4{font-size:.9rem;margin:.9rem 0 .2rem;color:var(--muted)}
p{margin:.3rem 0}
ul,ol,dl{margin:.3rem 0}
a{color:var(--accent)}
a:focus-visible,input:focus-visible,[tabindex]:focus-visible{outline:3px solid var(--accent);outline-offset:1px}
code,.shown,.t{hyphens:none}
code{font-family:ui-monospace,"DejaVu Sans Mono",monospace;font-size:.88em;overflow-wrap:anywhere}
.muted,.intro{color:var(--muted)}
.intro{font-size:.88rem}
.nowrap{white-space:nowrap}
.masthead{padding:1rem 0 .4rem}
.bands{display:flex;gap:5px;margin:0 0 .7rem}
.bands i{display:block;height:7px;border-radius:2px;background:var(--accent);flex:6}
.bands i:nth-child(2){flex:1}.bands i:nth-child(3){flex:1}.bands i:nth-child(4){flex:1;background:var(--warn-edge)}
.kind{margin:0;text-transform:uppercase;letter-spacing:.09em;font-size:.78rem;font-weight:600;color:var(--accent)}
.facts{display:grid;grid-template-columns:max-content minmax(0,1fr) max-content minmax(0,1fr);gap:.15rem .8rem;font-size:.9rem}
.facts .long{grid-column:1}.facts .long+dd{grid-column:2/-1}
.facts dt{color:var(--muted)}.facts dd{margin:0}
.cautions{border:2px solid var(--warn-edge);border-radius:6px;background:var(--warn-ground);color:var(--warn-ink);padding:.2rem 1rem .7rem;margin:.8rem 0 1.2rem}
.cautions h2{border:0;margin:.5rem 0 .3rem;padding:0;color:var(--warn-ink)}
.cautions li{margin:.22rem 0}
.cautions ol{padding-left:1.5rem}
.cautions .here{list-style:none;padding-left:0;margin:.25rem 0 .35rem}
.here-title{font-weight:600;margin:.35rem 0 0}
.here li{display:flex;flex-wrap:wrap;justify-content:space-between;gap:0 1rem}
.here li span,.code .shown+span{min-width:0}
.ticks{display:inline-flex;flex-wrap:wrap;gap:0 1rem}
.tick{display:inline-flex;align-items:baseline}
.tick input{width:1em;height:1em;vertical-align:-.12em;margin:0 .35em 0 0;accent-color:var(--warn-edge)}
nav ul{list-style:none;display:flex;flex-wrap:wrap;gap:.3rem 1.2rem;padding:0}
.codes{columns:22rem 2;column-gap:1.6rem}
.code{break-inside:avoid;padding:.5rem 0 .6rem;border-top:1px solid var(--rule)}
.code h3{display:flex;gap:.6rem;align-items:baseline}
.shown{font-family:ui-monospace,"DejaVu Sans Mono",monospace;background:var(--accent);color:var(--on-accent);border-radius:4px;padding:.05rem .45rem;min-width:2.4rem;text-align:center;flex-shrink:0;max-width:60%}
.meta{font-size:.84rem;color:var(--muted);margin:.1rem 0}
.steps{padding-left:0;list-style:none;counter-reset:step}
.steps li{counter-increment:step;display:grid;grid-template-columns:1.5rem minmax(0,1fr);margin:.25rem 0;font-size:.92rem}
.steps li::before{content:counter(step) ".";color:var(--muted)}
.undecided{color:var(--muted)}
.t{display:inline-block;min-width:2.1em;text-align:center;font-weight:700;font-size:.86em;border:1.5px solid var(--accent);border-radius:999px;padding:0 .4em;color:var(--accent);text-decoration:none;white-space:nowrap}
.connectors{columns:22rem 2;column-gap:1.6rem}
.connector{padding:.55rem 0 1rem;border-top:1px solid var(--rule)}
.connector.wide{column-span:all;margin-top:.6rem}
.connector h3{font-size:1.1rem}
.tests{padding-top:.5rem}
.head{break-inside:avoid}
.badge{display:inline-block;border:1.5px solid var(--rule);border-radius:4px;padding:0 .4rem;font-size:.8rem;font-weight:600;margin-right:.4rem}
.badge.live{border-color:var(--danger);color:var(--danger)}
.drawing{margin:.4rem 0;overflow-x:auto}
.pinout{display:block;max-width:100%;height:auto}
.wide .drawing .pinout{max-width:none}
.pinout text{font:600 12px system-ui,"DejaVu Sans",sans-serif;fill:var(--ink)}
.housing{fill:var(--tint);stroke:var(--ink);stroke-width:2}
.unsure{stroke-dasharray:6 4}
.key{fill:var(--ink)}
.cavity{fill:var(--paper);stroke:var(--ink);stroke-width:1.5}
.unused .cavity,.blanked .cavity{stroke:var(--rule);stroke-dasharray:3 3}
.cross{stroke:var(--rule);stroke-width:1.5}
.pinout .number{font-size:14px;font-weight:700}
.pinout .free{fill:var(--muted);font-weight:400}
.wire-edge{fill:none;stroke:var(--ink);stroke-width:1}
.lead{stroke:var(--accent);stroke-width:2}
.probe{fill:var(--probe);stroke:var(--accent);stroke-width:2}
.probe.positive{fill:var(--probe-red);stroke:var(--probe-red)}
.pinout .probe-name.positive{fill:var(--on-probe-red)}
.pinout .sign{fill:var(--probe-red);font-size:13px}
.pinout .test{fill:var(--accent);font-weight:700;text-anchor:start}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.16rem .5rem .16rem 0;border-bottom:1px solid var(--hairline)}
th{font-weight:600}
thead th{font-size:.8rem;color:var(--muted)}
.pins{font-size:.86rem}
.pins td{min-width:6rem}.pins td,.pins th[scope=row]{overflow-wrap:anywhere}
.pins .wire-words{color:var(--muted)}
.test-card{break-inside:avoid;margin:0 0 .55rem;padding:.45rem .6rem;background:var(--tint);border-left:4px solid var(--accent);border-radius:0 4px 4px 0}
.test-card h4{margin:0;font-size:.95rem;color:var(--ink)}
.test-card h4 code{font-weight:400;color:var(--muted);font-size:.8em}
.test-card p{margin:.12rem 0;font-size:.86rem}
.test-card .expect{font-size:.95rem}
.blanks{display:flex;flex-wrap:wrap;gap:.4rem .6rem;margin-top:.4rem}
.blank{flex:1;font-size:.78rem;color:var(--muted)}
.blanks .blank{display:flex;align-items:center;gap:.45rem;white-space:nowrap}
.blank input{display:block;width:100%;min-width:0;height:1.9rem;font:inherit;font-size:1rem;color:var(--ink);background:var(--field);border:1.5px solid var(--rule);border-radius:3px;padding:0 .4rem}
.blanks input{min-width:25mm}
.blank.small{flex:0 0 9rem}
.job{display:grid;grid-template-columns:repeat(auto-fill,minmax(14rem,1fr));gap:.6rem 1rem}
.readings{font-size:.82rem}
.readings td b{display:block;font-size:.92rem;white-space:nowrap}
.readings td span{color:var(--muted);display:block}
.readings th[scope=row]{min-width:8.5rem;overflow-wrap:anywhere}
.readings .limit{display:block;font-weight:400;color:var(--muted)}
.curves{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(21rem,100%),1fr));gap:1rem 1.6rem}
.curve{margin:0;break-inside:avoid}
.curve figcaption{font-weight:600;font-size:.92rem}
.curve svg{display:block;max-width:100%;height:auto}
.chart .paper{fill:var(--paper)}
.sources{font-size:.86rem}
.sources dt{font-weight:600;margin-top:.4rem}.sources dd{margin:0}
.colophon{font-size:.8rem;color:var(--muted);border-top:1px solid var(--rule);margin-top:1.5rem;padding-top:.5rem}
.search{display:block;margin:1rem 0;font-weight:600}
.search input{display:block;width:100%;max-width:34rem;font:inherit;font-size:1.05rem;padding:.45rem .6rem;color:var(--ink);background:var(--field);border:2px solid var(--rule);border-radius:5px}
.entry{padding:.6rem 0 .8rem;border-top:1px solid var(--rule);break-inside:avoid}
.entry h3 a{font-size:1.05rem}
.entry .code-list{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.25rem .9rem;font-size:.86rem}
.code-list li{min-width:0}
[hidden]{display:none}
@media screen and (max-width:44rem){
.facts{grid-template-columns:max-content minmax(0,1fr)}
.pins td{min-width:4rem}
}
@media screen and (max-width:56rem),print and (max-width:40rem){
.readings thead{position:absolute;clip-path:inset(50%);height:1px;width:1px;overflow:hidden}
.readings tr{display:grid;grid-template-columns:1fr 1fr;gap:0 1rem;padding:.5rem 0;border-bottom:1px solid var(--rule)}
.readings th[scope=row]{grid-column:1/-1;border:0}
.readings td{display:grid;grid-template-columns:3.2rem 1fr;padding:.2rem 0;border-bottom:1px solid var(--hairline)}
.readings td::before{content:attr(data-at);grid-row:1/3;color:var(--muted)}
.readings td b,.readings td span{grid-column:2}
}
@media print{
html{font-size:9pt}
body{font-size:.95rem;line-height:1.32;max-width:none;padding:0 1px}
h2{margin:4mm 0 1.5mm;break-after:avoid}h3,h4,.intro{break-after:avoid}
nav,.search,#found{display:none}
a{text-decoration:none}
.masthead{padding-top:0}
p{orphans:3;widows:3}
.intro{break-inside:avoid}
.sources dt{break-after:avoid}.sources dd{break-inside:avoid}
.cautions{padding:.1rem .8rem .4rem;box-decoration-break:clone}
.cautions li{margin:.1rem 0}.cautions .here li{break-inside:avoid}
.shown{background:none;color:var(--accent);box-shadow:inset 0 0 0 1.5px}
.codes,.connectors,.wide .tests,.sources{columns:22rem 2;column-gap:7mm}
.drawing{overflow:visible}
.pinout{zoom:.8}
.wide .drawing .pinout{max-width:100%}
.curves{grid-template-columns:repeat(auto-fill,minmax(17rem,1fr));gap:2mm 5mm}
.readings tr,.pins tr{break-inside:avoid}
.readings th[scope=row]{min-width:7rem}
.test-card{border:1px solid var(--rule);border-left:3px solid var(--accent);background:none}
.blank input{height:6.5mm}
.job{grid-template-columns:1fr 1fr 1fr;break-inside:avoid}
.colophon{break-inside:avoid}
}
)css";

}

std::span<const Paint> paints() { return all_paints; }
std::span<const Paint_pair> paint_pairs() { return all_pairs; }

std::string style_sheet(std::string_view foot_left, std::string_view foot_right) {
  std::string light, dark;
  for (const Paint& paint : all_paints) {
    light += fmt::format("--{}:{};", paint.name, paint.light);
    dark += fmt::format("--{}:{};", paint.name, paint.dark);
  }
  return fmt::format(R"css(
:root{{color-scheme:light dark;{}}}
@media screen and (prefers-color-scheme:dark){{:root{{{}}}}}
@page{{margin:11mm 12mm 14mm;@bottom-left{{content:"{}";font:7pt system-ui,"DejaVu Sans",sans-serif;width:90%;text-align:left}}@bottom-right{{content:"{} " counter(page) "/" counter(pages);font:7pt system-ui,"DejaVu Sans",sans-serif;white-space:nowrap;width:10%;text-align:right}}}}
{}{})css",
                     light, dark, foot_left, foot_right, chart_style(), rules);
}

}
