#include "io/program/figure_files.h"

namespace interpile::program {

void save_in_all_formats(const postprocess::Drawing& drawing, const std::filesystem::path& stem,
                         std::vector<std::filesystem::path>& files) {
    const auto saved = postprocess::save_all(drawing, stem.parent_path(), stem.filename().string(),
                                             postprocess::figure_style().formats);
    files.insert(files.end(), saved.begin(), saved.end());
}

} // namespace interpile::program
