#include "postprocess/page.h"

#include "postprocess/line_breaks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::postprocess {

namespace {

constexpr double title_line_pt = 13, subtitle_line_pt = 10, subtitle_pt = 21, note_line_pt = 9.5;
constexpr double warning_line_pt = 10, gap_pt = 5;
constexpr double title_size_pt = 10, subtitle_size_pt = 8, note_size_pt = 7, caution_size_pt = 6.5,
                 source_size_pt = 6;
// Of the letter size, wide means.
constexpr double letter_width = 0.53, title_letter_width = 0.70, warning_letter_width = 0.61;

std::size_t letters_in(const PageText& text, double size_pt, double width = letter_width) {
    return static_cast<std::size_t>(text.text_width_pt() / (width * size_pt));
}

std::vector<Label> all_lines(const std::vector<Label>& texts, std::size_t letters) {
    std::vector<Label> lines;
    for (const auto& text : texts)
        for (auto& line : worded_lines(text, letters))
            lines.push_back(std::move(line));
    return lines;
}

std::vector<Label> title_lines(const PageText& text) {
    return worded_lines(own_words(text.title), letters_in(text, title_size_pt, title_letter_width));
}

std::vector<Label> subtitle_lines(const PageText& text) {
    return worded_lines(text.subtitle, letters_in(text, subtitle_size_pt));
}

std::vector<Label> note_lines(const PageText& text) {
    return all_lines(text.notes, letters_in(text, note_size_pt));
}

std::vector<Label> warning_lines(const PageText& text) {
    std::vector<Label> warnings;
    for (const auto& warning : text.warnings)
        warnings.push_back(sentence(warning));
    return all_lines(warnings, letters_in(text, note_size_pt, warning_letter_width) - 2);
}

std::vector<Label> caution_lines(const PageText& text) {
    return worded_lines(plain(text.caution), letters_in(text, caution_size_pt));
}

std::vector<Label> source_lines(const PageText& text) {
    return worded_lines(own_words(text.source), letters_in(text, source_size_pt));
}

double height_of(const std::vector<Label>& lines, double line_pt) {
    return line_pt * static_cast<double>(lines.size());
}

} // namespace

PageText page_text(const io::ResultsHeader& header) {
    PageText text;
    text.title = header.title.empty() ? header.case_name : header.title;
    text.source = fmt::format("interpile {}, case {}, run of {}", header.program_version, header.case_name,
                              header.started.substr(0, 10));
    return text;
}

double page_width_pt(double least_pt) {
    const auto& style = figure_style();
    return std::max(least_pt, style.width_pt / style.letter_scale);
}

double head_height_pt(const PageText& text) {
    const double more_lines = std::max(0.0, static_cast<double>(subtitle_lines(text).size()) - 1);
    return page_margin_pt + height_of(title_lines(text), title_line_pt) + subtitle_line_pt * more_lines +
           subtitle_pt;
}

void draw_head(Canvas& canvas, const PageText& text) {
    double y = page_margin_pt;
    for (const auto& line : title_lines(text))
        canvas.text(line, {page_margin_pt, y += title_line_pt}, {title_size_pt, Align::Left, ink, true});
    y += 2;
    for (const auto& line : subtitle_lines(text))
        canvas.text(line, {page_margin_pt, y += subtitle_line_pt}, {subtitle_size_pt, Align::Left, ink});
}

double foot_height_pt(const PageText& text) {
    const auto warnings = warning_lines(text);
    return height_of(note_lines(text), note_line_pt) +
           (warnings.empty() ? 0 : height_of(warnings, warning_line_pt) + 3 * gap_pt) + gap_pt +
           height_of(caution_lines(text), note_line_pt) + height_of(source_lines(text), note_line_pt) +
           page_margin_pt;
}

void draw_foot(Canvas& canvas, const PageText& text, double top_pt) {
    const double left = page_margin_pt, right = text.width_pt - page_margin_pt;
    double y = top_pt;
    const auto draw_lines = [&](const std::vector<Label>& lines, double size_pt, const Color& color) {
        for (const auto& line : lines)
            canvas.text(line, {left, y += note_line_pt}, {size_pt, Align::Left, color});
    };
    draw_lines(note_lines(text), note_size_pt, ink);
    if (const auto warnings = warning_lines(text); !warnings.empty()) {
        const double high = y + gap_pt, low = high + height_of(warnings, warning_line_pt) + gap_pt;
        canvas.stroke({{left, high}, {right, high}, {right, low}, {left, low}}, {0.8, warning_ink, {}}, true);
        double base = high;
        for (const auto& line : warnings)
            canvas.text(line, {left + 5, base += warning_line_pt},
                        {note_size_pt, Align::Left, warning_ink, true});
        y = low + gap_pt;
    }
    y += gap_pt;
    canvas.stroke({{left, y}, {right, y}}, {0.35, soft_ink, {}});
    draw_lines(caution_lines(text), caution_size_pt, ink);
    draw_lines(source_lines(text), source_size_pt, soft_ink);
}

void draw_not_converged(Canvas& canvas, const Vec2& upper_left_pt, const Vec2& size_pt) {
    const auto label = plain("NOT CONVERGED \u2013 not a result");
    TextStyle style{10, Align::Center, warning_ink, true};
    style.halo_pt = 1.6;
    const double turn = std::atan2(size_pt.y(), size_pt.x());
    style.size_pt = std::clamp(10 * 0.8 * size_pt.norm() / canvas.text_width(label, style), 5.0, 40.0);
    style.turn_deg = turn * 180 / std::numbers::pi;
    // Turned about its middle: the base line passes a third of the letter height below it.
    const Vec2 below = 0.35 * style.size_pt * Vec2(std::sin(turn), std::cos(turn));
    canvas.text(label, upper_left_pt + 0.5 * size_pt + below, style);
}

} // namespace interpile::postprocess
