#include "postprocess/canvas.h"

#include "postprocess/wording.h"

#include <cairo.h>

#include <cmath>
#include <numbers>

namespace interpile::postprocess {

namespace {

constexpr const char* font_family = "DejaVu Sans"; // has Greek letters, primes and the minus sign
constexpr double subscript_size = 0.70;            // of the letter size
constexpr double subscript_drop = 0.22;            // of the letter size, below the base line
constexpr double seam_pt = 0.25;                   // closes gaps between areas of the same picture

void trace(cairo_t* context, const Polyline& line, bool closed) {
    if (line.empty())
        return;
    cairo_move_to(context, line.front().x(), line.front().y());
    for (std::size_t i = 1; i < line.size(); ++i)
        cairo_line_to(context, line[i].x(), line[i].y());
    if (closed)
        cairo_close_path(context);
}

void set_color(cairo_t* context, const Color& color) {
    cairo_set_source_rgba(context, color.red, color.green, color.blue, color.opacity);
}

} // namespace

Canvas::Canvas(_cairo* context) : context_(context) {
    cairo_set_line_join(context_, CAIRO_LINE_JOIN_ROUND);
    // Unhinted letters: the same widths in every format.
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(context_, options);
    cairo_font_options_destroy(options);
}

void Canvas::apply(const Pen& pen) {
    set_color(context_, pen.color);
    cairo_set_line_width(context_, pen.width_pt);
    cairo_set_dash(context_, pen.dash_pt.data(), static_cast<int>(pen.dash_pt.size()), 0);
}

void Canvas::fill(const std::vector<Polyline>& outlines, const Color& color) {
    cairo_new_path(context_);
    for (const auto& outline : outlines)
        trace(context_, outline, true);
    set_color(context_, color);
    cairo_set_fill_rule(context_, CAIRO_FILL_RULE_EVEN_ODD);
    if (color.opacity < 1) {
        cairo_fill(context_);
        return;
    }
    cairo_fill_preserve(context_);
    cairo_set_line_width(context_, seam_pt);
    cairo_set_dash(context_, nullptr, 0, 0);
    cairo_stroke(context_);
}

void Canvas::stroke(const Polyline& line, const Pen& pen, bool closed) {
    cairo_new_path(context_);
    trace(context_, line, closed);
    apply(pen);
    cairo_stroke(context_);
}

void Canvas::fill_circle(const Vec2& center, double radius, const Color& color) {
    cairo_new_path(context_);
    cairo_arc(context_, center.x(), center.y(), radius, 0, 2 * std::numbers::pi);
    set_color(context_, color);
    cairo_fill(context_);
}

void Canvas::stroke_circle(const Vec2& center, double radius, const Pen& pen) {
    cairo_new_path(context_);
    cairo_arc(context_, center.x(), center.y(), radius, 0, 2 * std::numbers::pi);
    cairo_close_path(context_);
    apply(pen);
    cairo_stroke(context_);
}

void Canvas::arrow(const Vec2& tail, const Vec2& tip, double head_pt, const Pen& pen) {
    const double length = (tip - tail).norm();
    if (length == 0)
        return;
    const Vec2 along = (tip - tail) / length;
    const Vec2 across(-along.y(), along.x());
    const Vec2 neck = tip - head_pt * along;
    if (length > head_pt)
        stroke({tail, neck}, pen);
    fill({{tip, neck + 0.36 * head_pt * across, neck - 0.36 * head_pt * across}}, pen.color);
}

double Canvas::lay_out(const Label& label, const TextStyle& style, bool draw) {
    double x = 0;
    double above_subscript = 0; // width of a prime that the next subscript stands under
    for (const auto& run : label) {
        const bool subscript = run.script == Run::Script::Subscript;
        const bool italic = run.script == Run::Script::Italic;
        cairo_select_font_face(context_, font_family,
                               italic ? CAIRO_FONT_SLANT_ITALIC : CAIRO_FONT_SLANT_NORMAL,
                               style.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
        cairo_set_font_size(context_, style.size_pt * (subscript ? subscript_size : 1));
        cairo_text_extents_t extents;
        cairo_text_extents(context_, run.text.c_str(), &extents);
        if (subscript)
            x -= above_subscript;
        if (draw) {
            const double y = subscript ? subscript_drop * style.size_pt : 0;
            if (style.halo_pt > 0) {
                cairo_move_to(context_, x, y);
                cairo_text_path(context_, run.text.c_str());
                apply({2 * style.halo_pt, {1, 1, 1}, {}});
                cairo_stroke(context_);
            }
            set_color(context_, style.color);
            cairo_move_to(context_, x, y);
            cairo_show_text(context_, run.text.c_str());
        }
        x += subscript ? std::max(extents.x_advance, above_subscript) : extents.x_advance;
        above_subscript = run.script == Run::Script::Prime ? extents.x_advance : 0;
    }
    return x;
}

double Canvas::text_width(const Label& label, const TextStyle& style) {
    return lay_out(figure_words_ ? worded(label) : label, style, false);
}

void Canvas::text(const Label& label, const Vec2& at, const TextStyle& style) {
    const Label words = figure_words_ ? worded(label) : label;
    const double width = lay_out(words, style, false);
    const double share = style.align == Align::Left ? 0 : style.align == Align::Center ? 0.5 : 1;
    const double turn_deg = style.turn_deg + (style.upward ? 90 : 0);
    cairo_save(context_);
    cairo_translate(context_, at.x(), at.y());
    cairo_rotate(context_, -turn_deg * std::numbers::pi / 180);
    cairo_translate(context_, -share * width, 0);
    lay_out(words, style, true);
    cairo_restore(context_);
}

void Canvas::clipped(const Vec2& low, const Vec2& high, const std::function<void()>& draw) {
    cairo_save(context_);
    cairo_new_path(context_);
    cairo_rectangle(context_, low.x(), low.y(), high.x() - low.x(), high.y() - low.y());
    cairo_clip(context_);
    draw();
    cairo_restore(context_);
}

void Canvas::placed(const Vec2& corner, double scale, const std::function<void()>& draw) {
    cairo_save(context_);
    cairo_translate(context_, corner.x(), corner.y());
    cairo_scale(context_, scale, scale);
    draw();
    cairo_restore(context_);
}

void Canvas::in_figure_words(const std::function<void()>& draw) {
    figure_words_ = true;
    draw();
    figure_words_ = false;
}

} // namespace interpile::postprocess
