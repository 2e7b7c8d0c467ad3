#pragma once
// How figures look: size, letters, bands, decimal sign, language. One style holds for a whole process, as a locale does,
// since every line of every figure depends on it.

#include <map>
#include <string>
#include <vector>

namespace interpile::postprocess {

constexpr double pt_per_mm = 72.0 / 25.4;

enum class FigureFormat { Pdf, Svg, Png };

struct FigureStyle {
    double width_pt = 160 * pt_per_mm; ///< of the page of a figure; 160 mm fit the text of an A4 page
    double letter_scale = 1; ///< 1: numbers at the axes of 6.5 pt; lines and marks grow with the letters
    int most_bands = 0;      ///< of a contour figure; 0: six to ten, as round limits ask
    bool decimal_comma = false;
    std::vector<FigureFormat> formats = {FigureFormat::Pdf, FigureFormat::Svg, FigureFormat::Png};
    double png_dots_per_inch = 300;
    /// What to draw for a text: label_key() of it in English -> the same in another language, or empty to leave it.
    std::map<std::string, std::string> labels;
};

/// The style that holds.
const FigureStyle& figure_style();

/// From now on this style holds; for drawings not yet made. Not while another thread draws.
void set_figure_style(FigureStyle style);

} // namespace interpile::postprocess
