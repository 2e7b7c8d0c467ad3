#include "postprocess/report/html.h"

#include "postprocess/report/html_text.h"
#include "postprocess/report/inline_svg.h"

#include <fmt/format.h>

#include <sstream>

namespace interpile::postprocess::report {

namespace {

constexpr std::string_view style = R"(<style>
@page { size: A4; margin: 18mm 16mm; }
body { font: 11pt/1.45 "DejaVu Sans", Verdana, sans-serif; color: #1a1a1f; max-width: 178mm; margin: 12mm auto;
  padding: 0 4mm; }
h1 { font-size: 20pt; line-height: 1.2; margin: 0 0 4mm; }
h2 { font-size: 15pt; margin: 12mm 0 3mm; padding-bottom: 1mm; border-bottom: 0.3mm solid #1a1a1f;
  break-after: avoid; }
h3 { font-size: 12pt; margin: 7mm 0 2mm; break-after: avoid; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 1mm 5mm; margin: 0 0 6mm; }
dt { color: #616166; }
dd { margin: 0; }
nav { margin: 8mm 0; }
nav ul { list-style: none; margin: 0; padding: 0; }
nav li.below { padding-left: 7mm; font-size: 10pt; }
nav a { color: #1a4785; text-decoration: none; }
.caution { border: 0.4mm solid #9e1a14; color: #9e1a14; padding: 2mm 4mm; margin: 3mm 0; break-inside: avoid; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: 9pt; line-height: 1.3; margin: 2mm 0 1mm;
  font-variant-numeric: tabular-nums; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th { background: #eceef1; border-bottom: 0.3mm solid #1a1a1f; border-top: 0.3mm solid #1a1a1f;
  vertical-align: bottom; font-weight: bold; }
th span { font-weight: normal; white-space: nowrap; }
th, td { padding: 0.8mm 2.2mm; text-align: right; }
td { border-bottom: 0.15mm solid #c9ccd1; vertical-align: top; }
th.text, td.text { text-align: left; }
.long { overflow-wrap: anywhere; }
@media print { table { font-size: 8pt; } th, td { padding: 0.7mm 1.6mm; } }
.caption { font-size: 9.5pt; font-weight: bold; margin: 5mm 0 1mm; break-after: avoid; }
.note { font-size: 9pt; color: #616166; margin: 0 0 1mm; }
figure { margin: 5mm 0; break-inside: avoid; }
figure svg { width: 100%; height: auto; display: block; }
figcaption { font-size: 9.5pt; font-weight: bold; margin-top: 1mm; }
footer { margin-top: 12mm; border-top: 0.2mm solid #616166; color: #616166; font-size: 9pt; padding-top: 1mm; }
</style>
)";

/// A word that would widen its column beyond the page may be broken.
const char* text_class(const std::string& text) {
    constexpr std::size_t long_word = 40;
    std::istringstream words(text);
    for (std::string word; words >> word;)
        if (word.size() > long_word)
            return " class=\"text long\"";
    return " class=\"text\"";
}

/// Writes the blocks of a chapter; one call operator for each kind.
class Body {
public:
    std::string chapter(const Chapter& chapter) {
        chapter_ = numbering_.chapter();
        contents_ += fmt::format("<li><a href=\"#chapter-{0}\">{0}&#160;&#160;{1}</a></li>\n", chapter_,
                                 set_sentence(chapter.title));
        std::string html = fmt::format("<section><h2 id=\"chapter-{0}\">{0}&#160;&#160;{1}</h2>\n", chapter_,
                                       set_sentence(chapter.title));
        for (const Block& block : chapter.blocks)
            html += std::visit(*this, block);
        return html + "</section>\n";
    }
    const std::string& contents() const { return contents_; }

    std::string operator()(const Heading& heading) {
        const std::string number = numbering_.heading();
        const std::string text = set_sentence(heading.text);
        contents_ += fmt::format("<li class=\"below\"><a href=\"#heading-{0}\">{0}&#160;&#160;{1}</a></li>\n",
                                 number, text);
        return fmt::format("<h3 id=\"heading-{0}\">{0}&#160;&#160;{1}</h3>\n", number, text);
    }
    std::string operator()(const Paragraph& paragraph) const {
        return "<p>" + set_sentence(paragraph.text) + "</p>\n";
    }
    std::string operator()(const Items& items) const {
        std::string html = "<ul>\n";
        for (const auto& text : items.texts)
            html += "<li>" + set_sentence(text) + "</li>\n";
        return html + "</ul>\n";
    }
    std::string operator()(const Caution& caution) const {
        return "<p class=\"caution\">" + set_sentence(caution.text) + "</p>\n";
    }
    std::string operator()(const Table& table) {
        const std::string number = numbering_.table();
        std::string html = fmt::format(
            "<p class=\"caption\" id=\"table-{0}\">Table {0}. {1}</p>\n<div class=\"wide\"><table>"
            "<thead><tr>",
            number, set_sentence(table.caption));
        for (const Column& column : table.columns)
            html += fmt::format(
                "<th{}>{}{}</th>", column.text ? " class=\"text\"" : "", set_sentence(column.head),
                column.unit.empty() ? std::string()
                                    : "<br/><span>" + escaped(unit_in_brackets(column)) + "</span>");
        html += "</tr></thead><tbody>\n";
        for (const auto& row : table.rows) {
            html += "<tr>";
            for (std::size_t c = 0; c < row.size(); ++c)
                html += fmt::format("<td{}>{}</td>", table.columns[c].text ? text_class(row[c]) : "",
                                    set_sentence(row[c]));
            html += "</tr>\n";
        }
        html += "</tbody></table></div>\n";
        for (const auto& note : table.notes)
            html += "<p class=\"note\">" + set_sentence(note) + "</p>\n";
        return html;
    }
    std::string operator()(const Figure& figure) {
        const std::string number = numbering_.figure();
        return fmt::format("<figure id=\"figure-{0}\">", number) +
               inline_svg(figure.drawing, fmt::format("f{}-", number), figure.caption) +
               fmt::format("\n<figcaption>Figure {}. {}</figcaption></figure>\n", number,
                           set_sentence(figure.caption));
    }

private:
    Numbering numbering_;
    std::string chapter_, contents_;
};

std::string head_of(const Document& document) {
    std::string html = "<h1>" + escaped(document.title) + "</h1>\n<dl>\n";
    const auto row = [&](const char* name, const std::string& text) {
        if (!text.empty())
            html += fmt::format("<dt>{}</dt><dd>{}</dd>\n", name, escaped(text));
    };
    row("Project", document.project);
    row("Client", document.client);
    row("Author", document.author);
    row("Date", document.date);
    row("Made by", document.program);
    html += "</dl>\n";
    for (const auto& caution : document.cautions)
        html += "<p class=\"caution\">" + set_sentence(caution) + "</p>\n";
    return html;
}

} // namespace

std::string html_page(const Document& document) {
    require_sound(document);
    Body body;
    std::string chapters;
    for (const Chapter& chapter : document.chapters)
        chapters += body.chapter(chapter);
    std::string html =
        fmt::format("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>\n"
                    "<meta name=\"viewport\" content=\"width=device-width\"/>\n<title>{}</title>\n",
                    escaped(document.title));
    html += style;
    html += "</head><body>\n" + head_of(document);
    html += "<nav><h2>Contents</h2><ul>\n" + body.contents() + "</ul></nav>\n" + chapters;
    return html + fmt::format("<footer>{} &#183; {}</footer>\n</body></html>\n", escaped(document.title),
                              escaped(document.program));
}

} // namespace interpile::postprocess::report
