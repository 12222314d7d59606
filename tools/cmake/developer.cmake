# Flags for those who work on ohmlore: linked PRIVATE, so that they never reach who embeds the library.
add_library(ohmlore_developer INTERFACE)
if(OHMLORE_DEVELOPER)
  target_compile_options(ohmlore_developer INTERFACE -Wall -Wextra -Wpedantic -Wconversion)
endif()

option(OHMLORE_SANITIZE "AddressSanitizer and UndefinedBehaviorSanitizer" OFF)
if(OHMLORE_SANITIZE)
  target_compile_options(ohmlore_developer INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                                     -fno-omit-frame-pointer)
  target_link_options(ohmlore_developer INTERFACE -fsanitize=address,undefined)
endif()
