#include "postprocess/report/table_pieces.h"

#include "postprocess/page.h"
#include "postprocess/report/text_block.h"

#include <algorithm>
#include <numeric>

namespace interpile::postprocess::report {

namespace {

constexpr double gap_pt = 4;          // left and right of what stands in a cell
constexpr double pad_pt = 2.2;        // above and below it
constexpr double leading = 1.3;       // of lines, over the letter size
constexpr double widest_spread = 1.5; // a small table is not drawn out over the page
constexpr Color head_ground{0.925, 0.933, 0.945};
constexpr Color row_line{0.79, 0.80, 0.82};

/// Columns and letter size that fit together.
struct Form {
    double size_pt = 8;
    std::vector<double> width_pt;
    double total_pt() const { return std::accumulate(width_pt.begin(), width_pt.end(), 0.0); }
};

TextStyle cell_style(double size_pt, bool bold = false) {
    return {size_pt, Align::Left, ink, bold};
}

/// Widths with as much room as the contents ask for, at least their widest words; empty if these do not fit.
std::vector<double> fitted_widths(Canvas& canvas, const Table& table, double size_pt, double width_pt) {
    std::vector<double> least, wanted;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const Column& column = table.columns[c];
        double low = std::max(widest_word_pt(canvas, column.head, cell_style(size_pt, true)),
                              text_width_pt(canvas, unit_in_brackets(column), cell_style(size_pt)));
        double high = low;
        for (const auto& row : table.rows) {
            const double whole = text_width_pt(canvas, row[c], cell_style(size_pt));
            low = std::max(low, column.text ? widest_word_pt(canvas, row[c], cell_style(size_pt)) : whole);
            high = std::max(high, whole);
        }
        least.push_back(low + 2 * gap_pt);
        wanted.push_back(high + 2 * gap_pt);
    }
    const double low = std::accumulate(least.begin(), least.end(), 0.0);
    const double high = std::accumulate(wanted.begin(), wanted.end(), 0.0);
    if (low > width_pt)
        return {};
    const double spread = std::min(width_pt / high, widest_spread);
    for (std::size_t c = 0; c < least.size(); ++c)
        wanted[c] = high <= width_pt ? wanted[c] * spread
                                     : least[c] + (wanted[c] - least[c]) * (width_pt - low) / (high - low);
    return wanted;
}

Form form_of(Canvas& canvas, const Table& table, double width_pt) {
    for (const double size : {8.0, 7.5, 7.0, 6.5})
        if (auto widths = fitted_widths(canvas, table, size, width_pt); !widths.empty())
            return {size, std::move(widths)};
    // Some word is too wide: columns by what they hold, words broken.
    Form form{6.5, fitted_widths(canvas, table, 6.5, 1e6)};
    const double shrink = width_pt / form.total_pt();
    for (double& width : form.width_pt)
        width *= shrink;
    return form;
}

using CellLines = std::vector<std::vector<Label>>; // by column

double height_of(const CellLines& cells, double size_pt) {
    std::size_t most = 1;
    for (const auto& lines : cells)
        most = std::max(most, lines.size());
    return static_cast<double>(most) * leading * size_pt + 2 * pad_pt;
}

/// Text at the left, numbers at the right of their column.
void draw_cells(Canvas& canvas, const Table& table, const Form& form, const CellLines& cells, double left_pt,
                double top_pt, TextStyle style) {
    double x = left_pt;
    for (std::size_t c = 0; c < cells.size(); x += form.width_pt[c++]) {
        const bool text = table.columns[c].text;
        style.align = text ? Align::Left : Align::Right;
        double y = top_pt + pad_pt - 0.25 * style.size_pt;
        for (const Label& line : cells[c])
            canvas.text(line,
                        {text ? x + gap_pt : x + form.width_pt[c] - gap_pt, y += leading * style.size_pt},
                        style);
    }
}

Piece head_piece(Canvas& canvas, const Table& table, const Form& form, double left_pt) {
    CellLines cells;
    const TextStyle style = cell_style(form.size_pt, true);
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const Column& column = table.columns[c];
        cells.push_back(lines_of(canvas, column.head, style, form.width_pt[c] - 2 * gap_pt));
        if (!column.unit.empty())
            cells.back().push_back(plain(unit_in_brackets(column)));
    }
    Piece piece;
    piece.height_pt = height_of(cells, form.size_pt);
    piece.with_next = true;
    piece.draw = [table, form, cells, left_pt, style, height = piece.height_pt](Canvas& page, double top) {
        const double right = left_pt + form.total_pt();
        page.fill({{{left_pt, top}, {right, top}, {right, top + height}, {left_pt, top + height}}},
                  head_ground);
        page.stroke({{left_pt, top}, {right, top}}, {0.7, ink, {}});
        page.stroke({{left_pt, top + height}, {right, top + height}}, {0.7, ink, {}});
        draw_cells(page, table, form, cells, left_pt, top, style);
    };
    return piece;
}

Piece row_piece(Canvas& canvas, const Table& table, const Form& form, const std::vector<std::string>& row,
                double left_pt) {
    CellLines cells;
    const TextStyle style = cell_style(form.size_pt);
    for (std::size_t c = 0; c < row.size(); ++c)
        cells.push_back(lines_of(canvas, row[c], style, form.width_pt[c] - 2 * gap_pt));
    Piece piece;
    piece.height_pt = height_of(cells, form.size_pt);
    piece.draw = [columns = table.columns, form, cells, left_pt, style,
                  height = piece.height_pt](Canvas& page, double top) {
        draw_cells(page, {{}, columns, {}}, form, cells, left_pt, top, style);
        page.stroke({{left_pt, top + height}, {left_pt + form.total_pt(), top + height}},
                    {0.35, row_line, {}});
    };
    return piece;
}

void add_lines(Canvas& canvas, const std::string& text, const TextStyle& style, double left_pt,
               double width_pt, double space_above_pt, bool with_next, std::vector<Piece>& pieces) {
    for (const Label& line : lines_of(canvas, text, style, width_pt)) {
        Piece piece;
        piece.height_pt = leading * style.size_pt;
        piece.space_above_pt = space_above_pt;
        piece.with_next = with_next;
        piece.draw = [line, style, left_pt](Canvas& page, double top) {
            page.text(line, {left_pt, top + style.size_pt}, style);
        };
        pieces.push_back(std::move(piece));
        space_above_pt = 0;
    }
}

} // namespace

std::vector<Piece> table_pieces(Canvas& canvas, const Table& table, const std::string& number, double left_pt,
                                double width_pt) {
    const Form form = form_of(canvas, table, width_pt);
    std::vector<Piece> pieces;
    add_lines(canvas, "Table " + number + ". " + table.caption, {8.5, Align::Left, ink, true}, left_pt,
              width_pt, 11, true, pieces);
    const auto head = std::make_shared<Piece>(head_piece(canvas, table, form, left_pt));
    pieces.push_back(*head);
    pieces.back().space_above_pt = 2;
    const std::size_t first = pieces.size();
    for (const auto& row : table.rows) {
        pieces.push_back(row_piece(canvas, table, form, row, left_pt));
        pieces.back().head = head;
    }
    // Neither the first nor the last row stands alone on a page.
    if (table.rows.size() > 1) {
        pieces[first].with_next = true;
        pieces[pieces.size() - 2].with_next = true;
    }
    if (!table.notes.empty())
        pieces.back().with_next = true;
    for (const auto& note : table.notes)
        add_lines(canvas, note, {7.5, Align::Left, soft_ink}, left_pt, width_pt, 2.5, false, pieces);
    return pieces;
}

} // namespace interpile::postprocess::report
