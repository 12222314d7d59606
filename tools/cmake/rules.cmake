# The registry of lint rules, written from the file names: libspec/src/lint/rules/<slug>.cpp. A rule needs its page
# (spec/v1/rules/<slug>.md) and its folder of cases (tests/rules/<slug>/); a page or folder needs its rule.
function(ohmlore_rule_registry target)
  set(rules_folder ${PROJECT_SOURCE_DIR}/libspec/src/lint/rules)
  set(pages_folder ${PROJECT_SOURCE_DIR}/spec/v1/rules)
  set(cases_folder ${PROJECT_SOURCE_DIR}/tests/rules)
  file(GLOB sources CONFIGURE_DEPENDS ${rules_folder}/*.cpp)
  file(GLOB pages CONFIGURE_DEPENDS ${pages_folder}/*.md)
  file(GLOB cases CONFIGURE_DEPENDS LIST_DIRECTORIES true ${cases_folder}/*)

  set(slugs "")
  foreach(source IN LISTS sources)
    cmake_path(GET source STEM slug)
    list(APPEND slugs ${slug})
    if(NOT EXISTS ${pages_folder}/${slug}.md)
      message(FATAL_ERROR "Rule ${slug} has no page: write spec/v1/rules/${slug}.md")
    endif()
    file(GLOB bad ${cases_folder}/${slug}/bad*)
    if(NOT bad)
      message(FATAL_ERROR "Rule ${slug} has no case that it must find: write tests/rules/${slug}/bad-*.json")
    endif()
  endforeach()
  foreach(page IN LISTS pages)
    cmake_path(GET page STEM slug)
    if(NOT slug IN_LIST slugs)
      message(FATAL_ERROR "Page spec/v1/rules/${slug}.md has no rule: write libspec/src/lint/rules/${slug}.cpp")
    endif()
  endforeach()
  foreach(case IN LISTS cases)
    cmake_path(GET case FILENAME slug)
    if(IS_DIRECTORY ${case} AND NOT slug IN_LIST slugs)
      message(FATAL_ERROR "Cases tests/rules/${slug} have no rule: write libspec/src/lint/rules/${slug}.cpp")
    endif()
  endforeach()

  list(SORT slugs)
  set(declarations "")
  set(entries "")
  foreach(slug IN LISTS slugs)
    string(REPLACE "-" "_" name ${slug})
    file(READ ${pages_folder}/${slug}.md page)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${pages_folder}/${slug}.md)
    string(APPEND declarations "extern const Rule ${name};\n")
    string(APPEND entries "    {\"${slug}\", &rules::${name}, R\"page(${page})page\"},\n")
  endforeach()
  file(CONFIGURE OUTPUT ${CMAKE_CURRENT_BINARY_DIR}/rule_registry.cpp @ONLY CONTENT [[
// Written by tools/cmake/rules.cmake from the names of the rule files.
#include "ohmlore/lint.h"

namespace ohmlore {
namespace rules {
@declarations@}

std::span<const Rule_entry> all_rules() {
  static const Rule_entry entries[] = {
@entries@  };
  return entries;
}

}
]])
  target_sources(${target} PRIVATE ${sources} ${CMAKE_CURRENT_BINARY_DIR}/rule_registry.cpp)
endfunction()
