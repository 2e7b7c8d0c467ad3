#pragma once
// Contour figures of a result.

#include <filesystem>
#include <string>
#include <vector>

#include "io/results_reader.h"

namespace interpile::postprocess {

enum class FigureFormat { Pdf, Svg, Png };

struct FigureSettings {
    std::vector<FigureFormat> formats = {FigureFormat::Pdf, FigureFormat::Svg, FigureFormat::Png};
    std::vector<std::string> fields;  ///< names of mesh::field_table(); empty: the usual four
    int stage = -1;                   ///< -1: the last
    double margin_m = -1;             ///< ground shown around the outermost piles; negative: 1.5 spacings
};

/// Draw the figures of a result into a folder: FIELD.pdf, .svg, .png each.
/// \return the files written
/// \throws io::FileTrouble if the folder cannot be written
std::vector<std::filesystem::path> draw_figures(const io::ResultsReader& results, const std::filesystem::path& folder,
                                                const FigureSettings& settings);

} // namespace interpile::postprocess
