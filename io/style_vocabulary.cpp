// Every key of a file of figure style.

#include "io/key_rows.h"

namespace interpile::io {

namespace {

using enum ValueType;

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> style_keys() {
    return {
        word("page", "column", "text", {"single", "double", "text"},
             "width of a figure: 85 mm for one of two columns of a journal, 175 mm across both, 160 mm for "
             "the text of an "
             "A4 page; in a report figures fill the page whatever stands here",
             own),
        conditional("page", "width_mm", Number, {60, 400}, "instead of column", own),
        standard("page", "letter_size_pt", Number, "7", {4.5, 14},
                 "size of the notes; all other letters, lines and marks grow with it; a figure that needs "
                 "more width is "
                 "drawn smaller, as the command then says",
                 own),
        derived("contours", "most_bands", Count, "six to ten, as round limits ask", {4, 20},
                "bands of color between the open ends of the scale, as near as round limits come to it; of "
                "difference maps "
                "an odd number",
                own),
        word("text", "decimal_sign", ".", {".", ","},
             "in figures; with a comma, numbers in a row are parted by semicolons; tables and files of data "
             "keep the point",
             own),
        conditional("text", "labels", Wordings, {0, 0},
                    "a table [text.labels] of \"English text\" = \"text to draw\", \"\" for not yet "
                    "translated; each number "
                    "stands as #, symbols as D_r; the option --label-list of the commands that draw figures "
                    "writes such a "
                    "table",
                    "no default"),
        standard("files", "formats", Texts, R"(["pdf", "svg", "png"])", {0, 0}, "of figures, each once", own),
        standard("files", "png_dots_per_inch", Number, "300", {72, 1200}, "of PNG files", own),
    };
}
// clang-format on

} // namespace

const Dictionary& style_dictionary() {
    static const Dictionary dictionary = {style_keys(), {}, "Keys of a style file (TOML)", "help-style"};
    return dictionary;
}

} // namespace interpile::io
