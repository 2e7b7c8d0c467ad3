#include "postprocess/report/pdf.h"

#include "postprocess/booklet.h"
#include "postprocess/page.h"
#include "postprocess/report/block_pieces.h"
#include "postprocess/report/text_block.h"

#include <fmt/format.h>

namespace interpile::postprocess::report {

namespace {

constexpr double right_pt = column_left_pt + column_width_pt;
constexpr double margin_line_pt = 7.5; // letters of header and footer

/// As much of a text as fits into the width, with an ellipsis where it is cut.
std::string shortened(Canvas& canvas, const std::string& text, const TextStyle& style, double width_pt) {
    if (canvas.text_width(plain(text), style) <= width_pt)
        return text;
    std::string cut = text;
    while (!cut.empty() && canvas.text_width(plain(cut + "\u2026"), style) > width_pt) {
        while (!cut.empty() && (static_cast<unsigned char>(cut.back()) & 0xC0) == 0x80)
            cut.pop_back();
        if (!cut.empty())
            cut.pop_back();
    }
    return cut + "\u2026";
}

void draw_margins(Canvas& canvas, const Document& document, std::size_t page, std::size_t pages) {
    const TextStyle left{margin_line_pt, Align::Left, soft_ink},
        right{margin_line_pt, Align::Right, soft_ink};
    const double top = 15 * pt_per_mm, bottom = 282 * pt_per_mm;
    canvas.text(plain(shortened(canvas, document.title, left, 0.58 * column_width_pt)), {column_left_pt, top},
                left);
    canvas.text(plain(shortened(canvas, document.project, right, 0.38 * column_width_pt)), {right_pt, top},
                right);
    canvas.stroke({{column_left_pt, top + 4}, {right_pt, top + 4}}, {0.4, soft_ink, {}});
    canvas.stroke({{column_left_pt, bottom - 10}, {right_pt, bottom - 10}}, {0.4, soft_ink, {}});
    canvas.text(plain(document.program + (document.date.empty() ? "" : ", " + document.date)),
                {column_left_pt, bottom}, left);
    canvas.text(plain(fmt::format("page {} of {}", page, pages)), {right_pt, bottom}, right);
}

void draw_title_page(Canvas& canvas, const Document& document) {
    double y = 62 * pt_per_mm;
    const TextStyle title{22, Align::Left, ink, true};
    for (const Label& line : lines_of(canvas, document.title, title, column_width_pt))
        canvas.text(line, {column_left_pt, y += 28}, title);
    y += 12;
    canvas.stroke({{column_left_pt, y}, {right_pt, y}}, {1, ink, {}});
    y += 12;
    const TextStyle name{10.5, Align::Left, soft_ink}, value{10.5, Align::Left, ink};
    constexpr double indent = 72;
    const auto row = [&](const char* what, const std::string& text) {
        if (text.empty())
            return;
        canvas.text(plain(what), {column_left_pt, y + 16}, name);
        for (const Label& line : lines_of(canvas, text, value, column_width_pt - indent))
            canvas.text(line, {column_left_pt + indent, y += 16}, value);
        y += 3;
    };
    row("Project", document.project);
    row("Client", document.client);
    row("Author", document.author);
    row("Date", document.date);
    row("Made by", document.program);
    y += 24;
    for (const auto& caution : document.cautions) {
        const Piece piece = caution_piece(canvas, caution);
        piece.draw(canvas, y);
        y += piece.height_pt + 8;
    }
}

/// A smaller one stays in the middle of the column.
void draw_placed(Canvas& canvas, const PlacedPiece& placed) {
    const double middle = column_left_pt + 0.5 * column_width_pt;
    if (placed.scale == 1)
        placed.piece->draw(canvas, placed.top_pt);
    else
        canvas.placed({(1 - placed.scale) * middle, placed.top_pt}, placed.scale,
                      [&] { placed.piece->draw(canvas, 0); });
}

/// A line of the contents; `page` counts from 1.
Piece contents_line(Canvas& canvas, const Piece& title, std::size_t page) {
    const bool below = title.number.find('.') != std::string::npos;
    const TextStyle style{below ? 9.0 : 10.0, Align::Left, ink, !below};
    const double indent = below ? 24 : 0, number_width = below ? 30 : 24;
    const std::string name =
        shortened(canvas, title.name, style, column_width_pt - indent - number_width - 40);
    Piece piece;
    piece.height_pt = below ? 14 : 17;
    piece.space_above_pt = below ? 0 : 4;
    piece.draw = [=, number = title.number](Canvas& sheet, double top) {
        const double base = top + 10, left = column_left_pt + indent;
        sheet.text(plain(number), {left, base}, style);
        sheet.text(sentence(name), {left + number_width, base}, style);
        TextStyle right = style;
        right.align = Align::Right;
        const std::string at = std::to_string(page);
        const double from = left + number_width + sheet.text_width(sentence(name), style) + 5;
        const double to = right_pt - sheet.text_width(plain(at), right) - 5;
        if (from < to)
            sheet.stroke({{from, base}, {to, base}}, {0.5, soft_ink, {0.6, 3}});
        sheet.text(plain(at), {right_pt, base}, right);
    };
    return piece;
}

/// Contents, for chapters that begin `offset` pages later than the first page.
std::vector<Piece> contents(Canvas& canvas, const std::vector<PageContent>& chapters, std::size_t offset) {
    std::vector<Piece> pieces(1);
    pieces[0].height_pt = 26;
    pieces[0].with_next = true;
    pieces[0].draw = [](Canvas& sheet, double top) {
        sheet.text(plain("Contents"), {column_left_pt, top + 15}, {15, Align::Left, ink, true});
    };
    for (std::size_t page = 0; page < chapters.size(); ++page)
        for (const PlacedPiece& placed : chapters[page])
            if (!placed.piece->number.empty())
                pieces.push_back(contents_line(canvas, *placed.piece, offset + page + 1));
    return pieces;
}

std::vector<Bookmark> bookmarks(const std::vector<PageContent>& chapters, std::size_t offset) {
    std::vector<Bookmark> marks;
    for (std::size_t page = 0; page < chapters.size(); ++page)
        for (const PlacedPiece& placed : chapters[page])
            if (const Piece& piece = *placed.piece; !piece.number.empty())
                marks.push_back({piece.number + " " + piece.name, offset + page,
                                 piece.number.find('.') != std::string::npos});
    return marks;
}

} // namespace

std::string pdf_pages(const Document& document, const std::string& created) {
    require_sound(document);
    std::vector<Piece> chapter_text, contents_text;
    std::vector<PageContent> pages, chapters;
    std::size_t offset = 0;
    with_scratch_canvas([&](Canvas& canvas) {
        chapter_text = chapter_pieces(canvas, document);
        chapters = paginated(chapter_text, column_top_pt, column_height_pt);
        // How many pages the contents take does not depend on the numbers in them.
        offset = 1 + paginated(contents(canvas, chapters, 0), column_top_pt, column_height_pt).size();
        contents_text = contents(canvas, chapters, offset);
        pages = paginated(contents_text, column_top_pt, column_height_pt);
        pages.insert(pages.end(), chapters.begin(), chapters.end());
    });
    Booklet booklet{
        {sheet_width_pt, sheet_height_pt}, document.title, created, {}, bookmarks(chapters, offset)};
    const std::size_t count = pages.size() + 1;
    booklet.pages.emplace_back([&](Canvas& canvas) {
        draw_title_page(canvas, document);
        draw_margins(canvas, document, 1, count);
    });
    for (std::size_t page = 0; page < pages.size(); ++page)
        booklet.pages.emplace_back([&, page](Canvas& canvas) {
            draw_margins(canvas, document, page + 2, count);
            for (const PlacedPiece& placed : pages[page])
                draw_placed(canvas, placed);
        });
    return pdf_text(booklet);
}

} // namespace interpile::postprocess::report
