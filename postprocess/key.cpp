#include "postprocess/key.h"

#include "postprocess/line_breaks.h"
#include "postprocess/page.h"

#include <algorithm>

namespace interpile::postprocess {

namespace {

constexpr double line_pt = 8.5, row_gap_pt = 2.5;
constexpr double letter_width = 0.56;  // of the letter size, a wide mean
constexpr double wide_column_pt = 180; // where longer texts may be broken

constexpr int most_columns = 3;

std::vector<Label> lines_of(const KeyEntry& entry, double column_pt) {
    return worded_lines(sentence(entry.text),
                        letters_within(column_pt - key_symbol_pt - 2 * key_text_gap_pt, key_text_size_pt));
}

/// As many columns as no text has to be broken for, at least those that are wide enough for a few words.
int columns_within(const std::vector<KeyEntry>& entries, double width_pt) {
    for (int columns = std::min(most_columns, static_cast<int>(entries.size())); columns > 1; --columns) {
        const bool fits = std::all_of(entries.begin(), entries.end(), [&](const KeyEntry& entry) {
            return lines_of(entry, width_pt / columns).size() == 1;
        });
        if (fits || (columns == 2 && width_pt / columns >= wide_column_pt))
            return columns;
    }
    return 1;
}

double row_height_pt(const std::vector<KeyEntry>& entries, std::size_t first, double column_pt, int columns) {
    std::size_t lines = 1;
    for (std::size_t k = first; k < std::min(entries.size(), first + columns); ++k)
        lines = std::max(lines, lines_of(entries[k], column_pt).size());
    return line_pt * static_cast<double>(lines) + row_gap_pt;
}

double height_pt(const std::vector<KeyEntry>& entries, double width_pt, int columns) {
    double height = 0;
    for (std::size_t first = 0; first < entries.size(); first += columns)
        height += row_height_pt(entries, first, width_pt / columns, columns);
    return height;
}

void draw_rows(Canvas& canvas, const std::vector<KeyEntry>& entries, const Vec2& upper_left_pt,
               double width_pt, int columns) {
    const double column_pt = width_pt / columns;
    double y = upper_left_pt.y();
    for (std::size_t first = 0; first < entries.size(); first += columns) {
        for (std::size_t k = first; k < std::min(entries.size(), first + columns); ++k) {
            const Vec2 left(upper_left_pt.x() + column_pt * static_cast<double>(k - first), y + line_pt);
            entries[k].mark(canvas, left - Vec2(0, 2.4));
            double base = left.y();
            for (const auto& line : lines_of(entries[k], column_pt)) {
                canvas.text(line, {left.x() + key_symbol_pt + key_text_gap_pt, base},
                            {key_text_size_pt, Align::Left, ink});
                base += line_pt;
            }
        }
        y += row_height_pt(entries, first, column_pt, columns);
    }
}

} // namespace

KeyEntry line_entry(const std::string& text, const Pen& pen) {
    return {text, [pen](Canvas& canvas, const Vec2& left) {
                canvas.stroke({left, left + Vec2(key_symbol_pt, 0)}, pen);
            }};
}

std::size_t letters_within(double width_pt, double size_pt) {
    return static_cast<std::size_t>(std::max(1.0, width_pt / (letter_width * size_pt)));
}

double width_of(const std::string& text, double size_pt) {
    return letter_width * size_pt * static_cast<double>(characters(text));
}

double key_height_pt(const std::vector<KeyEntry>& entries, double width_pt) {
    return height_pt(entries, width_pt, columns_within(entries, width_pt));
}

void draw_key(Canvas& canvas, const std::vector<KeyEntry>& entries, const Vec2& upper_left_pt,
              double width_pt) {
    draw_rows(canvas, entries, upper_left_pt, width_pt, columns_within(entries, width_pt));
}

double key_column_height_pt(const std::vector<KeyEntry>& entries, double width_pt) {
    return height_pt(entries, width_pt, 1);
}

void draw_key_column(Canvas& canvas, const std::vector<KeyEntry>& entries, const Vec2& upper_left_pt,
                     double width_pt) {
    draw_rows(canvas, entries, upper_left_pt, width_pt, 1);
}

} // namespace interpile::postprocess
