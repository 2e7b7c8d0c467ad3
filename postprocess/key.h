#pragma once
// The key of a figure: marks and what they mean, in columns below the plot.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

constexpr double key_symbol_pt = 20;  ///< width that the mark of an entry takes
constexpr double key_text_gap_pt = 3; ///< right of it
constexpr double key_text_size_pt = 6.8;

struct KeyEntry {
    std::string text; ///< a sentence(): its symbols get their subscripts
    /// Draws the mark between `left` and key_symbol_pt right of it, `left` being at half the height of a letter.
    std::function<void(Canvas&, const Vec2& left)> mark;
};

/// A line as mark of an entry.
KeyEntry line_entry(const std::string& text, const Pen& pen);

/// Letters of a size that fit into a width, by a wide mean of the letters.
std::size_t letters_within(double width_pt, double size_pt);
/// Width of a text by the same mean; where no canvas is at hand to measure.
double width_of(const std::string& text, double size_pt);

double key_height_pt(const std::vector<KeyEntry>& entries, double width_pt);

/// Row by row, in up to three columns; a text too long for its column goes on in the next line.
void draw_key(Canvas& canvas, const std::vector<KeyEntry>& entries, const Vec2& upper_left_pt,
              double width_pt);
/// The same in one column, below a narrow panel.
double key_column_height_pt(const std::vector<KeyEntry>& entries, double width_pt);
void draw_key_column(Canvas& canvas, const std::vector<KeyEntry>& entries, const Vec2& upper_left_pt,
                     double width_pt);

} // namespace interpile::postprocess
