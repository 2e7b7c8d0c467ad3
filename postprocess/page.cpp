#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

namespace interpile::postprocess {

namespace {

constexpr double title_line_pt = 13, subtitle_pt = 21, note_line_pt = 9.5, warning_line_pt = 10, gap_pt = 5;
constexpr std::size_t title_characters = 62, warning_characters = 100; // that surely fit into the width

std::size_t warning_lines(const PageText& text) {
    std::size_t lines = 0;
    for (const auto& warning : text.warnings)
        lines += wrapped(warning, warning_characters).size();
    return lines;
}

} // namespace

std::size_t characters(const std::string& utf8) {
    std::size_t count = 0;
    for (unsigned char byte : utf8)
        count += (byte & 0xC0) != 0x80; // continuation bytes are not counted
    return count;
}

std::vector<std::string> wrapped(const std::string& text, std::size_t most) {
    std::vector<std::string> lines;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        if (!lines.empty() && characters(lines.back()) + 1 + characters(word) <= most)
            lines.back() += " " + word;
        else
            lines.push_back(word);
    }
    return lines;
}

PageText page_text(const io::ResultsHeader& header) {
    PageText text;
    text.title = header.title.empty() ? header.case_name : header.title;
    text.source = fmt::format("interpile {}, case {}, run of {}", header.program_version, header.case_name,
                              header.started.substr(0, 10));
    return text;
}

double head_height_pt(const PageText& text) {
    return page_margin_pt + title_line_pt * wrapped(text.title, title_characters).size() + subtitle_pt;
}

void draw_head(Canvas& canvas, const PageText& text) {
    double y = page_margin_pt;
    for (const auto& line : wrapped(text.title, title_characters))
        canvas.text(plain(line), {page_margin_pt, y += title_line_pt}, {10, Align::Left, ink, true});
    canvas.text(text.subtitle, {page_margin_pt, y + 12}, {8, Align::Left, ink});
}

double foot_height_pt(const PageText& text) {
    const std::size_t warnings = warning_lines(text);
    return note_line_pt * static_cast<double>(text.notes.size()) +
           (warnings > 0 ? warning_line_pt * static_cast<double>(warnings) + 3 * gap_pt : 0) + gap_pt +
           2 * note_line_pt + page_margin_pt;
}

void draw_foot(Canvas& canvas, const PageText& text, double top_pt) {
    const double left = page_margin_pt, right = page_width_pt - page_margin_pt;
    double y = top_pt;
    for (const auto& note : text.notes)
        canvas.text(note, {left, y += note_line_pt}, {7, Align::Left, ink});
    if (const double lines = static_cast<double>(warning_lines(text)); lines > 0) {
        const double high = y + gap_pt, low = high + warning_line_pt * lines + gap_pt;
        canvas.stroke({{left, high}, {right, high}, {right, low}, {left, low}}, {0.8, warning_ink, {}}, true);
        double base = high;
        for (const auto& warning : text.warnings)
            for (const auto& line : wrapped(warning, warning_characters))
                canvas.text(sentence(line), {left + 5, base += warning_line_pt},
                            {7, Align::Left, warning_ink, true});
        y = low + gap_pt;
    }
    y += gap_pt;
    canvas.stroke({{left, y}, {right, y}}, {0.35, soft_ink, {}});
    canvas.text(plain(text.caution), {left, y + note_line_pt}, {6.5, Align::Left, ink});
    canvas.text(plain(text.source), {left, y + 2 * note_line_pt}, {6, Align::Left, soft_ink});
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
