# Flags for those who work on ohmlore: linked PRIVATE, so that they never reach who embeds the library.
add_library(ohmlore_developer INTERFACE)
if(OHMLORE_DEVELOPER)
  target_compile_options(ohmlore_developer INTERFACE -Wall -Wextra -Wpedantic -Wconversion)
endif()

# More than half of the time that most files take to compile goes into the headers of others. Own headers stay out, so
# that a file cannot forget to include one; a build that need not find that out takes them, too.
option(OHMLORE_PRECOMPILE "Precompile the headers of the standard library, of fmt and of GoogleTest" ON)
option(OHMLORE_PRECOMPILE_OWN "Precompile own headers, too: fast for a build of everything, slow after an edit of one" OFF)
set(ohmlore_headers_of_others <algorithm> <array> <cmath> <functional> <map> <memory> <optional> <span> <string>
                              <string_view> <utility> <vector> <fmt/format.h>)
if(OHMLORE_PRECOMPILE AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # gcc 12 loses sight of what is a system header where one is precompiled, and warns in std::string when it optimises.
  target_compile_options(ohmlore_developer INTERFACE -Wno-array-bounds -Wno-restrict -Wno-stringop-overflow
                                                     -Wno-stringop-overread)
endif()
# ohmlore_precompile(TARGET HEADERS… [OWN HEADERS…])
function(ohmlore_precompile target)
  cmake_parse_arguments(PARSE_ARGV 1 headers "" "" OWN)
  if(NOT OHMLORE_PRECOMPILE_OWN)
    set(headers_OWN)
  endif()
  if(OHMLORE_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE ${ohmlore_headers_of_others} ${headers_UNPARSED_ARGUMENTS} ${headers_OWN})
  endif()
endfunction()

option(OHMLORE_LIBCXX "With the standard library of LLVM (clang)" OFF)
if(OHMLORE_LIBCXX)
  include(libcxx)
endif()

option(OHMLORE_SANITIZE "AddressSanitizer and UndefinedBehaviorSanitizer" OFF)
if(OHMLORE_SANITIZE)
  target_compile_options(ohmlore_developer INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                                     -fno-omit-frame-pointer)
  target_link_options(ohmlore_developer INTERFACE -fsanitize=address,undefined)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    target_compile_options(ohmlore_developer INTERFACE
                           -fsanitize-ignorelist=${CMAKE_CURRENT_LIST_DIR}/sanitizers.ignore)
  endif()
endif()

option(OHMLORE_FUZZ "Let libFuzzer (clang) drive the programs of tests/fuzz; with OHMLORE_SANITIZE" OFF)
if(OHMLORE_FUZZ)
  target_compile_options(ohmlore_developer INTERFACE -fsanitize=fuzzer-no-link)
endif()
