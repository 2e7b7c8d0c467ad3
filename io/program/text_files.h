#pragma once
// Texts that commands leave behind.

#include <filesystem>
#include <string>

namespace interpile::program {

/// Write a text; the file appears complete or not at all.
/// \return the file
/// \throws io::FileTrouble naming it
std::filesystem::path write_text(const std::filesystem::path& file, const std::string& text);

} // namespace interpile::program
