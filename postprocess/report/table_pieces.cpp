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
constexpr double least_size_pt = 6.5;
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

/// What the columns ask for.
struct Demand {
    std::vector<double> least, wanted;
    static double sum(const std::vector<double>& widths) {
        return std::accumulate(widths.begin(), widths.end(), 0.0);
    }
};

/// Least: the widest word of a text, the widest number. Wanted: all in one line, of one column not more than its share.
Demand demand_of(Canvas& canvas, const Table& table, double size_pt, double width_pt) {
    constexpr double largest_share = 0.62;
    Demand demand;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const Column& column = table.columns[c];
        double low = std::max(widest_word_pt(canvas, column.head, cell_style(size_pt, true)),
                              text_width_pt(canvas, unit_in_brackets(column), cell_style(size_pt, true)));
        double high = low;
        for (const auto& row : table.rows) {
            const double whole = text_width_pt(canvas, row[c], cell_style(size_pt));
            low = std::max(low, column.text ? widest_word_pt(canvas, row[c], cell_style(size_pt)) : whole);
            high = std::max(high, whole);
        }
        demand.least.push_back(low + 2 * gap_pt);
        demand.wanted.push_back(std::max(low, std::min(high, largest_share * width_pt)) + 2 * gap_pt);
    }
    return demand;
}

/// Widths that fit on the page; empty if the widest words do not.
std::vector<double> fitted_widths(const Demand& demand, double width_pt) {
    const double low = Demand::sum(demand.least), high = Demand::sum(demand.wanted);
    if (low > width_pt)
        return {};
    std::vector<double> widths = demand.wanted;
    for (std::size_t c = 0; c < widths.size(); ++c)
        widths[c] = high <= width_pt
                        ? widths[c] * std::min(width_pt / high, widest_spread)
                        : demand.least[c] + (widths[c] - demand.least[c]) * (width_pt - low) / (high - low);
    return widths;
}

/// Widths that break words: numbers stay whole as long as the texts keep a part of the page.
std::vector<double> forced_widths(const Table& table, const Demand& demand, double width_pt) {
    double numbers = 0, texts = 0;
    for (std::size_t c = 0; c < table.columns.size(); ++c)
        (table.columns[c].text ? texts : numbers) += demand.least[c];
    const bool spare = texts > 0 && numbers < 0.7 * width_pt;
    std::vector<double> widths = demand.least;
    for (std::size_t c = 0; c < widths.size(); ++c)
        if (!spare)
            widths[c] *= width_pt / (numbers + texts);
        else if (table.columns[c].text)
            widths[c] *= (width_pt - numbers) / texts;
    return widths;
}

Form form_of(Canvas& canvas, const Table& table, double width_pt) {
    for (const double size : {8.0, 7.5, 7.0, least_size_pt})
        if (auto widths = fitted_widths(demand_of(canvas, table, size, width_pt), width_pt); !widths.empty())
            return {size, std::move(widths)};
    return {least_size_pt, forced_widths(table, demand_of(canvas, table, least_size_pt, width_pt), width_pt)};
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

/// The head once more, on a later page.
Piece continued(const Piece& head, const std::string& number, double left_pt) {
    constexpr double line_pt = 12;
    Piece piece = head;
    piece.space_above_pt = 0;
    piece.height_pt += line_pt;
    piece.draw = [draw = head.draw, number, left_pt](Canvas& page, double top) {
        page.text(plain("Table " + number + ", continued"), {left_pt, top + 8}, {7.5, Align::Left, soft_ink});
        draw(page, top + line_pt);
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
    pieces.push_back(head_piece(canvas, table, form, left_pt));
    pieces.back().space_above_pt = 2;
    const auto head = std::make_shared<Piece>(continued(pieces.back(), number, left_pt));
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
    for (const auto& note : table.notes) {
        const std::size_t line = pieces.size();
        add_lines(canvas, note, {7.5, Align::Left, soft_ink}, left_pt, width_pt, 2.5, true, pieces);
        pieces.back().with_next = false;
        if (pieces.size() - line > 4) // a long note may go on overleaf
            pieces[line + 1].with_next = false;
    }
    return pieces;
}

} // namespace interpile::postprocess::report
