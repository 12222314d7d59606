// Names of files that mean something.
#pragma once

#include <filesystem>
#include <string_view>

namespace ohmlore {

/// How the files of profiles and of parts end; what stands before that is their id.
inline constexpr std::string_view end_of_profile = ".profile.json", end_of_part = ".part.json";

/// *.profile, *.part and corpus with the extension.
bool is_document_name(const std::filesystem::path& name, std::string_view extension);

/// A path however it is spelt: absolute, with links followed as far as it exists.
std::filesystem::path real_path(const std::filesystem::path& path);

/// Whether a document stands there by its name, or by that of the file which a link leads to.
bool is_place_of_document(const std::filesystem::path& file, std::string_view extension = ".json");

/// What a document is called that came from there. A file of that name is "./standard input".
inline constexpr std::string_view name_of_standard_input = "standard input";

}
