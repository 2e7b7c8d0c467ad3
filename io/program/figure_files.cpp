#include "io/program/figure_files.h"

namespace interpile::program {

void save_in_all_formats(const postprocess::Drawing& drawing, const std::filesystem::path& stem,
                         std::vector<std::filesystem::path>& files) {
    for (const auto format :
         {postprocess::FigureFormat::Pdf, postprocess::FigureFormat::Svg, postprocess::FigureFormat::Png}) {
        files.push_back(stem.string() + postprocess::file_ending(format));
        postprocess::save(drawing, files.back(), format);
    }
}

} // namespace interpile::program
