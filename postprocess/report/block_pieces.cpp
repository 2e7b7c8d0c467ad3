#include "postprocess/report/block_pieces.h"

#include "postprocess/page.h"
#include "postprocess/report/table_pieces.h"
#include "postprocess/report/text_block.h"

#include <algorithm>

namespace interpile::postprocess::report {

namespace {

constexpr TextStyle body_style{body_size_pt, Align::Left, ink};
constexpr double paragraph_gap_pt = 6;

Piece blank(double height_pt) {
    Piece piece;
    piece.height_pt = height_pt;
    piece.draw = [](Canvas&, double) {};
    return piece;
}

/// One call operator for each kind of block; adds to the pieces.
class Setter {
public:
    Setter(Canvas& canvas, std::vector<Piece>& pieces) : canvas_(canvas), pieces_(pieces) {}

    void chapter(const Chapter& chapter) {
        title(numbering_.chapter(), chapter.title, 15, 26);
        const auto& blocks = chapter.blocks;
        for (std::size_t b = 0; b < blocks.size(); ++b) {
            std::visit(*this, blocks[b]);
            // A caution speaks of the table below it.
            if (std::holds_alternative<Caution>(blocks[b]) && b + 1 < blocks.size() &&
                std::holds_alternative<Table>(blocks[b + 1]))
                pieces_.back().with_next = true;
        }
    }

    void operator()(const Heading& heading) { title(numbering_.heading(), heading.text, 11.5, 16); }
    void operator()(const Paragraph& paragraph) {
        add(text_pieces(canvas_, paragraph.text, body_style, line_pt), paragraph_gap_pt);
    }
    void operator()(const Items& items) {
        for (const auto& text : items.texts) {
            auto lines = text_pieces(canvas_, text, body_style, line_pt, 12);
            const auto line = lines.front().draw;
            lines.front().draw = [line](Canvas& page, double top) {
                page.text(plain("\u2022"), {column_left_pt + 2, top + body_size_pt}, body_style);
                line(page, top);
            };
            add(std::move(lines), 3);
        }
    }
    void operator()(const Caution& caution) {
        std::vector<Piece> one = {caution_piece(canvas_, caution.text)};
        add(std::move(one), 8);
    }
    void operator()(const Table& table) {
        auto pieces = table_pieces(canvas_, table, numbering_.table(), column_left_pt, column_width_pt);
        std::move(pieces.begin(), pieces.end(), std::back_inserter(pieces_));
        pieces_.push_back(blank(5));
    }
    void operator()(const Figure& figure) {
        auto caption = text_pieces(canvas_, "Figure " + numbering_.figure() + ". " + figure.caption,
                                   {8.5, Align::Left, ink, true}, 11.5);
        double caption_height = 0;
        for (const Piece& line : caption)
            caption_height += line.height_pt;
        const auto& size = figure.drawing.size_pt;
        const double scale =
            std::min(column_width_pt / size.x(), (column_height_pt - caption_height - 40) / size.y());
        Piece picture;
        picture.height_pt = scale * size.y();
        picture.with_next = true;
        picture.may_shrink = true;
        picture.draw = [drawing = figure.drawing, scale](Canvas& page, double top) {
            const double left = column_left_pt + 0.5 * (column_width_pt - scale * drawing.size_pt.x());
            page.placed({left, top}, scale, [&] { page.in_figure_words([&] { drawing.draw(page); }); });
        };
        std::vector<Piece> pieces = {picture};
        add(std::move(pieces), 8);
        for (Piece& line : caption)
            line.with_next = &line != &caption.back();
        add(std::move(caption), 3);
        pieces_.push_back(blank(6));
    }

private:
    void title(const std::string& number, const std::string& text, double size_pt, double above_pt) {
        const double indent = size_pt > 12 ? 30 : 34;
        auto lines = text_pieces(canvas_, text, {size_pt, Align::Left, ink, true}, 1.25 * size_pt, indent);
        const auto first = lines.front().draw;
        lines.front().draw = [first, number, size_pt](Canvas& page, double top) {
            page.text(plain(number), {column_left_pt, top + size_pt}, {size_pt, Align::Left, ink, true});
            first(page, top);
        };
        lines.front().number = number;
        lines.front().name = text;
        for (Piece& line : lines)
            line.with_next = true;
        add(std::move(lines), above_pt);
    }

    void add(std::vector<Piece> pieces, double above_pt) {
        pieces.front().space_above_pt = above_pt;
        std::move(pieces.begin(), pieces.end(), std::back_inserter(pieces_));
    }

    Canvas& canvas_;
    std::vector<Piece>& pieces_;
    Numbering numbering_;
};

} // namespace

std::vector<Piece> text_pieces(Canvas& canvas, const std::string& text, const TextStyle& style,
                               double leading_pt, double indent_pt) {
    std::vector<Piece> pieces;
    for (const Label& line : lines_of(canvas, text, style, column_width_pt - indent_pt)) {
        Piece piece;
        piece.height_pt = leading_pt;
        piece.draw = [line, style, indent_pt](Canvas& page, double top) {
            page.text(line, {column_left_pt + indent_pt, top + style.size_pt}, style);
        };
        pieces.push_back(std::move(piece));
    }
    if (pieces.size() > 1) {
        pieces.front().with_next = true;
        pieces[pieces.size() - 2].with_next = true;
    }
    return pieces;
}

Piece caution_piece(Canvas& canvas, const std::string& text) {
    constexpr double inner_pt = 7;
    const TextStyle style{body_size_pt, Align::Left, warning_ink};
    const auto lines = lines_of(canvas, text, style, column_width_pt - 2 * inner_pt);
    Piece piece;
    piece.height_pt = line_pt * static_cast<double>(lines.size()) + 1.4 * inner_pt;
    piece.draw = [lines, style, height = piece.height_pt](Canvas& page, double top) {
        const double left = column_left_pt, right = left + column_width_pt;
        page.stroke({{left, top}, {right, top}, {right, top + height}, {left, top + height}},
                    {0.9, warning_ink, {}}, true);
        double y = top + 0.7 * inner_pt - line_pt + style.size_pt + 1;
        for (const Label& line : lines)
            page.text(line, {left + inner_pt, y += line_pt}, style);
    };
    return piece;
}

std::vector<Piece> chapter_pieces(Canvas& canvas, const Document& document) {
    std::vector<Piece> pieces;
    Setter setter(canvas, pieces);
    for (const Chapter& chapter : document.chapters)
        setter.chapter(chapter);
    return pieces;
}

} // namespace interpile::postprocess::report
