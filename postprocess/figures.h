#pragma once
// Contour figures of a result.

#include "io/results_reader.h"
#include "postprocess/figure_style.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::postprocess {

struct FigureSettings {
    std::vector<FigureFormat> formats = figure_style().formats;
    /// Names of mesh::field_table(), or of other_figures(); empty: relative density, both lateral stress quantities,
    /// displacement and all others that the result has something for.
    std::vector<std::string> fields;
    int stage = -1; ///< -1: the last; of plans of excess pressure, the one with the largest size of the mean
    double margin_m = -1; ///< ground shown around the outermost piles; negative: 1.5 spacings
    int pile = -1;        ///< of pressure_loops, index; -1: the last one driven
};

/// Names of the figures that are not plans of a field:
/// pressure_history         wall pressure against injected area of up to six piles
/// pressure_loops           the same of one pile, withdrawals told apart
/// half_strokes             density and lateral stress ratio between the piles after every half stroke
/// density_distribution     share of the treated area by relative density, before and at the stage
/// line_across_piles        density, lateral stress ratio and, where there is any, excess pore pressure along a line of
///                          piles, at up to five stages
/// excess_pressure_history  excess pore pressure, its ratio and density over the time of the work
const std::vector<std::string>& other_figures();

/// What figures are drawn from.
struct FigureData {
    io::ResultsHeader header;
    io::ResultsStage before; ///< the first stage
    io::ResultsStage stage;  ///< the one drawn
    io::ResultsHistory history;
    io::ResultsHalfStrokes half_strokes;
    std::vector<io::ResultsStage> between = {};   ///< up to three stages between these two, evenly spread
    std::optional<io::ResultsStage> pressed = {}; ///< in place of `stage` for plans of excess pressure
};

/// Draw the figures of a result into a folder: FIELD.pdf, .svg, .png each.
/// \return the files written
/// \throws io::FileTrouble if the folder cannot be written, std::out_of_range for an unknown field or stage,
/// std::invalid_argument for a figure that the result has nothing for
std::vector<std::filesystem::path> draw_figures(const io::ResultsReader& results,
                                                const std::filesystem::path& folder,
                                                const FigureSettings& settings);

/// The same of a result in memory.
std::vector<std::filesystem::path> draw_figures(const FigureData& data, const std::filesystem::path& folder,
                                                const FigureSettings& settings);

} // namespace interpile::postprocess
