# fmt compiled here, where the library of its package does not fit: with another standard library, or when nothing is
# to be loaded at the start.
add_library(fmt_from_headers STATIC ${CMAKE_CURRENT_LIST_DIR}/fmt.cpp)
target_compile_features(fmt_from_headers PUBLIC cxx_std_20)
add_library(fmt::fmt INTERFACE IMPORTED GLOBAL)
target_link_libraries(fmt::fmt INTERFACE fmt_from_headers)

# What find_package is to find in place of a package.
function(ohmlore_compiled_here package)
  file(WRITE ${CMAKE_FIND_PACKAGE_REDIRECTS_DIR}/${package}Config.cmake "# compiled here\n")
endfunction()
ohmlore_compiled_here(fmt)
