#pragma once
// How figures look, as read from a TOML file.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace interpile::io {

struct StyleFile {
    std::filesystem::path file; ///< as given
    double width_mm = 160;      ///< of the page of a figure
    double letter_size_pt = 7;  ///< of notes; all other letters, lines and marks grow with it
    int most_bands = 0;         ///< of contour figures; 0: not wanted otherwise than usual
    bool decimal_comma = false;
    std::vector<std::string> formats; ///< of "pdf", "svg", "png"; each once
    double png_dots_per_inch = 300;
    /// English text as drawn, every number as "#" -> text to draw, with as many "#"; empty: not translated.
    std::map<std::string, std::string> labels;
};

/// Read and check a style file.
/// \throws CaseFaults  with every fault found (exit code 2)
/// \throws FileTrouble if it cannot be read (exit code 3)
StyleFile read_style(const std::filesystem::path& file);

/// The same from text; `file` is used in messages.
StyleFile parse_style(const std::string& text, const std::filesystem::path& file);

} // namespace interpile::io
