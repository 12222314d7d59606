#include "sheet/site.h"

#include <algorithm>

#include "ohmlore/version.h"
#include "sheet/page.h"
#include "text/xml_text.h"

namespace ohmlore::sheet {
namespace {

// Without the signs that a page would escape. Every word that is typed must stand somewhere in an entry, one
// or two letters at the beginning of a word: compared as `ohmlore find` does, so that "ov4410" finds OV-4410.
constexpr const char* search_script = R"js((function(){
var label=document.getElementById("search"),box=document.getElementById("search-box"),found=document.getElementById("found");
var entries=Array.from(document.querySelectorAll(".entry")),makers=Array.from(document.querySelectorAll(".maker"));
function plain(text){return text.toLowerCase().normalize("NFD").replace(/[^\p{L}\p{N}\s]/gu,"");}
var texts=entries.map(function(entry){
var all=Array.from(entry.querySelectorAll("a,dd,span"),function(part){return plain(part.textContent);}).concat(plain(entry.getAttribute("data-maker")));
return " "+all.concat(all.map(function(text){return text.replace(/\s+/g,"");})).join(" ");
});
function show(){
var words=plain(box.value).split(/\s+/).filter(Boolean).map(function(word){return /^..?$/.test(word)?" "+word:word;}),count=0;
entries.forEach(function(entry,i){
entry.hidden=!words.every(function(word){return texts[i].includes(word);});
if(!entry.hidden){count+=1;}
});
makers.forEach(function(maker){maker.hidden=!maker.querySelector(".entry:not([hidden])");});
found.textContent=found.getAttribute("data-frame").replace("{}",count).replace("{}",entries.length);
}
box.addEventListener("input",show);
label.hidden=false;
show();
})();)js";

void add_entry(Element parent, const Site_entry& entry, const Catalogue& words) {
  Element article = add(parent, "article", "entry");
  set(article, "data-maker", entry.maker);
  Element link = add(add(article, "h3"), "a");
  set(link, "href", entry.file);
  quote(link, entry.title);
  Element facts = add(article, "dl", "facts");
  const auto fact = [&](Phrase name, const std::string& value) {
    if (value.empty()) return;
    add(facts, "dt", {}, words.say(name));
    quote(add(facts, "dd"), value);
  };
  fact(Phrase::models, entry.models);
  fact(Phrase::board, entry.board);
  if (!entry.appliance.empty()) {
    add(facts, "dt", {}, words.say(Phrase::appliance));
    add(facts, "dd", {}, entry.appliance);
  }
  if (entry.codes.empty()) return;
  Element list = add(article, "ul", "code-list");
  set(list, "aria-label", words.say(Phrase::codes_here));
  for (const Site_entry::Code& code : entry.codes) {
    Element item = add(list, "li"), to = add(item, "a");
    set(to, "href", fmt::format("{}#code-{}", entry.file, code.id));
    quote(to, code.shown);
    say(item, " ");
    quote(add(item, "span"), code.meaning);
  }
}

}

Site_entry site_entry(const Profile& profile, const Catalogue& words) {
  Site_entry entry;
  const auto text = [](const Value<Text>& value) { return value ? *value : Text(); };
  const Appliance& appliance = profile.appliance;
  entry.file = fmt::format("{}.html", *profile.id);
  entry.title = text(profile.title ? profile.title : profile.id);
  entry.maker = text(appliance.maker);
  entry.models = joined(appliance.models, text);
  entry.model_count = appliance.models.size();
  entry.board = text(appliance.controller.part);
  if (appliance.type) entry.appliance = words.word(*appliance.type);
  for (const auto& fault : profile.faults)
    entry.codes.push_back({std::string(fault.id), shown_code(fault), std::string(text(fault.value.meaning))});
  return entry;
}

std::string site_html(const std::string& title, const std::string& licence, std::vector<Site_entry> entries,
                      const Catalogue& words) {
  std::stable_sort(entries.begin(), entries.end(), [](const Site_entry& a, const Site_entry& b) {
    return a.maker != b.maker ? a.maker < b.maker : a.title < b.title;
  });
  std::size_t models = 0, codes = 0;
  for (const Site_entry& entry : entries) models += entry.model_count, codes += entry.codes.size();

  pugi::xml_document document;
  Element body =
      start_page(document, words, words.say(Phrase::site_title, title), words.say(Phrase::shortest_caution));
  Element head = add(body, "header", "masthead");
  add_kind(head, words.say(Phrase::site_kind));
  quote(add(head, "h1"), title);
  add(head, "p", "muted", words.say(Phrase::site_count, entries.size(), models, codes));
  Element main = add(body, "main");
  add(add(main, "p", "cautions"), "strong", {}, words.say(Phrase::shortest_caution));
  Element label = add(main, "label", "search", words.say(Phrase::search));
  set(label, "id", "search");
  set(label, "hidden", "");
  Element box = add(label, "input");
  set(box, "id", "search-box");
  set(box, "type", "search");
  set(box, "autocomplete", "off");
  Element found = add(main, "p", "muted");
  set(found, "id", "found");
  set(found, "role", "status");
  set(found, "data-frame", words.phrases[static_cast<std::size_t>(Phrase::search_found)]);
  Element section;
  const Site_entry* before = nullptr;
  for (const Site_entry& entry : entries) {
    if (before == nullptr || before->maker != entry.maker) {
      section = add(main, "section", "maker");
      quote(add(section, "h2"), entry.maker);
    }
    before = &entry;
    add_entry(section, entry, words);
  }
  Element foot = add(body, "footer", "colophon");
  if (!licence.empty()) add(foot, "p", {}, words.say(Phrase::licence, licence));
  add(foot, "p", {}, words.say(Phrase::site_made_by, program_version));
  add_text(add(body, "script"), search_script);
  return html_of(document);
}

}
