#include "postprocess/figures/element_curves.h"

#include "postprocess/axes.h"
#include "postprocess/curve_pens.h"
#include "postprocess/key.h"
#include "postprocess/page.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double panel_height_pt = 150, panel_gap_pt = 12, key_gap_pt = 6, least_column_pt = 170;

struct Panel {
    Label x_title, y_title;
    double ElementPoint::*x;
    double ElementPoint::*y;
    bool log_x = false;
    bool path = false; ///< q over mean stress

    Vec2 of(const ElementPoint& p) const { return {log_x ? std::log10(p.*x) : p.*x, p.*y}; }
};

std::array<Panel, 4> panels_of(const ElementFigure& figure) {
    using P = ElementPoint;
    const Label strain =
        figure.shear ? plain("shear strain γ (%)") : plain("axial strain (%), compression +");
    const Label stress = figure.shear ? plain("shear stress τ (kPa)")
                                      : plain("deviator stress ") + symbol("q") + plain(" (kPa)");
    const Label mean = plain("mean effective stress ") + symbol("p'") + plain(" (kPa)");
    const Label along =
        figure.shear ? plain("vertical effective stress ") + symbol("σ_v'") + plain(" (kPa)") : mean;
    Panel third{strain, plain("volumetric strain (%), compression +"), &P::strain_pct,
                &P::volumetric_strain_pct};
    if (figure.constant_volume) {
        third.y_title = mean;
        third.y = &P::mean_stress_kPa;
    }
    return {Panel{strain, stress, &P::strain_pct, &P::stress_kPa},
            Panel{along, stress, &P::path_stress_kPa, &P::stress_kPa, false, !figure.shear}, third,
            Panel{mean, plain("void ratio ") + symbol("e"), &P::mean_stress_kPa, &P::void_ratio, true}};
}

/// Range of what a panel shows, widened so that nothing touches the frame.
struct Range {
    Vec2 low = Vec2::Constant(std::numeric_limits<double>::infinity());
    Vec2 high = Vec2::Constant(-std::numeric_limits<double>::infinity());

    void include(const Vec2& v) {
        if (!v.allFinite())
            return;
        low = low.cwiseMin(v);
        high = high.cwiseMax(v);
    }
};

Range range_of(const ElementFigure& figure, const Panel& panel) {
    Range range;
    for (const auto& curve : figure.curves)
        for (const auto* points : {&curve.computed, &curve.measured})
            for (const auto& point : *points)
                range.include(panel.of(point));
    if (panel.log_x) {
        const double first = range.low.x(), last = range.high.x(); // the line reaches beyond the curves
        for (const auto& v : figure.critical_line)
            if (const double x = std::log10(v.x()); x >= first && x <= last)
                range.include({x, v.y()});
    }
    if (!range.low.allFinite())
        range = {{0, 0}, {1, 1}};
    if (!panel.log_x) { // stresses and strains begin at zero; densities do not
        range.low = range.low.cwiseMin(Vec2(0, 0));
        range.high = range.high.cwiseMax(Vec2(0, 0));
    }
    // A flat line gets room of its own size.
    const Vec2 least = panel.log_x ? Vec2(0.3, 0.02) : Vec2(1e-3, 0.1);
    const Vec2 widening =
        (0.06 * (range.high - range.low)).cwiseMax(0.5 * (least - (range.high - range.low)));
    range.high += widening;
    for (int k = 0; k < 2; ++k)
        if (panel.log_x || range.low(k) < 0 || (k == 1 && panel.y == &ElementPoint::volumetric_strain_pct))
            range.low(k) -= widening(k); // a curve of no volume change stays visible above the frame
    return range;
}

const Pen critical_pen{0.8, ink, {4, 2}};

void draw_critical_state(Canvas& canvas, const ElementFigure& figure, const Panel& panel, const Axes& axes,
                         const Range& range) {
    if (panel.log_x && !figure.critical_line.empty()) {
        std::vector<Vec2> line;
        for (const auto& v : figure.critical_line)
            line.emplace_back(std::log10(v.x()), v.y());
        canvas.stroke(axes.line_to_page(line), critical_pen);
    }
    if (panel.path)
        for (const double ratio : figure.critical_stress_ratios)
            canvas.stroke(axes.line_to_page({{0, 0}, {range.high.x(), ratio * range.high.x()}}),
                          critical_pen);
}

void draw_panel(Canvas& canvas, const ElementFigure& figure, const Panel& panel, const Vec2& upper_left,
                const Vec2& size) {
    const Range range = range_of(figure, panel);
    const Axes axes{range.low, range.high, upper_left, size, panel.log_x};
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        for (const int k : {0, 1}) { // zero lines where the panel has both signs
            if (panel.log_x || range.low(k) >= 0)
                continue;
            Vec2 from = range.low, to = range.high;
            from(k) = to(k) = 0;
            canvas.stroke(axes.line_to_page({from, to}), {0.4, {0.75, 0.75, 0.75}});
        }
        draw_critical_state(canvas, figure, panel, axes, range);
        for (std::size_t c = 0; c < figure.curves.size(); ++c) {
            std::vector<Vec2> line;
            for (const auto& point : figure.curves[c].computed)
                if (const Vec2 v = panel.of(point); v.allFinite())
                    line.push_back(v);
            canvas.stroke(axes.line_to_page(line), curve_pen(c));
            for (const auto& point : figure.curves[c].measured)
                if (const Vec2 v = panel.of(point); v.allFinite())
                    canvas.stroke_circle(axes.to_page(v), 1.8, {0.7, curve_pen(c).color});
        }
    });
    draw_axes(canvas, axes, panel.x_title, panel.y_title);
}

std::vector<KeyEntry> key_of(const ElementFigure& figure) {
    std::vector<KeyEntry> key;
    for (std::size_t c = 0; c < figure.curves.size(); ++c)
        key.push_back(line_entry(figure.curves[c].name, curve_pen(c)));
    for (std::size_t c = 0; c < figure.curves.size(); ++c)
        if (!figure.curves[c].measured.empty())
            key.push_back({figure.curves[c].measured_label, [c](Canvas& canvas, const Vec2& left) {
                               canvas.stroke_circle(left + Vec2(0.5 * key_symbol_pt, 0), 1.8,
                                                    {0.7, curve_pen(c).color});
                           }});
    if (!figure.critical_line.empty())
        key.push_back(line_entry(figure.critical_stress_ratios.empty()
                                     ? "critical state line"
                                     : "critical state line (stress path: triaxial)",
                                 critical_pen));
    return key;
}

PageText page_text_of(const ElementFigure& figure) {
    PageText text;
    text.title = figure.title;
    text.subtitle = plain(figure.subtitle);
    text.source = figure.source;
    return text;
}

constexpr double row_height_pt = panel_height_pt + axis_height_pt + panel_gap_pt;

int columns_of(const PageText& text) {
    return text.text_width_pt() >= 2 * least_column_pt ? 2 : 1;
}

double panels_height_pt(const PageText& text) {
    return row_height_pt * 4 / columns_of(text);
}

void draw(Canvas& canvas, const ElementFigure& figure) {
    const PageText text = page_text_of(figure);
    draw_head(canvas, text);
    const double top = head_height_pt(text);
    const auto key = key_of(figure);
    draw_key(canvas, key, {page_margin_pt, top}, text.text_width_pt());
    const double below = top + key_height_pt(key, text.text_width_pt()) + key_gap_pt;
    const int columns = columns_of(text);
    const double column = text.text_width_pt() / columns;
    const auto panels = panels_of(figure);
    for (std::size_t k = 0; k < panels.size(); ++k) {
        const Vec2 upper_left(page_margin_pt + column * static_cast<double>(k % columns) + axis_width_pt,
                              below + row_height_pt * static_cast<double>(k / columns));
        draw_panel(canvas, figure, panels[k], upper_left, {column - axis_width_pt - 8, panel_height_pt});
    }
    draw_foot(canvas, text, below + panels_height_pt(text));
}

} // namespace

Drawing element_curves(const ElementFigure& figure) {
    if (figure.curves.empty())
        throw std::invalid_argument("there is no test to draw");
    const auto content = std::make_shared<ElementFigure>(figure);
    const PageText text = page_text_of(figure);
    const Vec2 size(text.width_pt, head_height_pt(text) +
                                       key_height_pt(key_of(figure), text.text_width_pt()) + key_gap_pt +
                                       panels_height_pt(text) + foot_height_pt(text));
    return {
        size, figure.title + ": element tests", {}, [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
