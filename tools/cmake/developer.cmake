# Flags for those who work on ohmlore: linked PRIVATE, so that they never reach who embeds the library.
add_library(ohmlore_developer INTERFACE)
if(OHMLORE_DEVELOPER)
  target_compile_options(ohmlore_developer INTERFACE -Wall -Wextra -Wpedantic -Wconversion)
endif()

# More than half of the time that a rule takes to compile. gcc 12 loses sight of what is a system header where one
# is precompiled, and warns in it when it optimises (array-bounds in std::string): not for release builds by gcc.
option(OHMLORE_PRECOMPILE "Precompile what nearly every file includes" OFF)
function(ohmlore_precompile target)
  if(OHMLORE_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE ${ARGN})
  endif()
endfunction()

option(OHMLORE_SANITIZE "AddressSanitizer and UndefinedBehaviorSanitizer" OFF)
if(OHMLORE_SANITIZE)
  target_compile_options(ohmlore_developer INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                                     -fno-omit-frame-pointer)
  target_link_options(ohmlore_developer INTERFACE -fsanitize=address,undefined)
  target_compile_definitions(ohmlore_developer INTERFACE OHMLORE_SANITIZED=1) # tests take fewer cases
  if(CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    target_compile_options(ohmlore_developer INTERFACE
                           -fsanitize-ignorelist=${CMAKE_CURRENT_LIST_DIR}/sanitizers.ignore)
  endif()
endif()
