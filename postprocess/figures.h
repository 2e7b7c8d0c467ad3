#pragma once
// Contour figures of a result.

#include "io/results_reader.h"
#include "postprocess/figure_format.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::postprocess {

struct FigureSettings {
    std::vector<FigureFormat> formats = {FigureFormat::Pdf, FigureFormat::Svg, FigureFormat::Png};
    /// Names of mesh::field_table(), or "pressure_history"; empty: relative density, both lateral stress
    /// quantities, displacement and the pressure history.
    std::vector<std::string> fields;
    int stage = -1;       ///< -1: the last
    double margin_m = -1; ///< ground shown around the outermost piles; negative: 1.5 spacings
};

/// Draw the figures of a result into a folder: FIELD.pdf, .svg, .png each.
/// \return the files written
/// \throws io::FileTrouble if the folder cannot be written, std::out_of_range for an unknown field or stage
std::vector<std::filesystem::path> draw_figures(const io::ResultsReader& results,
                                                const std::filesystem::path& folder,
                                                const FigureSettings& settings);

/// The same of parts of a result.
std::vector<std::filesystem::path> draw_figures(const io::ResultsHeader& header,
                                                const io::ResultsStage& stage,
                                                const io::ResultsHistory& history,
                                                const std::filesystem::path& folder,
                                                const FigureSettings& settings);

} // namespace interpile::postprocess
