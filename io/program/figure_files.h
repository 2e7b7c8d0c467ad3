#pragma once
// Figures that commands leave behind.

#include "postprocess/canvas.h"

#include <filesystem>
#include <vector>

namespace interpile::program {

/// Save a drawing as STEM.pdf, STEM.svg and STEM.png, and add the files to a list.
void save_in_all_formats(const postprocess::Drawing& drawing, const std::filesystem::path& stem,
                         std::vector<std::filesystem::path>& files);

} // namespace interpile::program
