#include "postprocess/curve_labels.h"

#include <algorithm>

namespace interpile::postprocess {

namespace {
constexpr double line_pt = 8, lead_pt = 9;
} // namespace

std::vector<double> spread_apart(std::vector<double> wanted, double gap, double low, double high) {
    for (std::size_t i = 0; i < wanted.size(); ++i)
        wanted[i] = std::max(wanted[i], i == 0 ? low : wanted[i - 1] + gap);
    for (std::size_t i = wanted.size(); i-- > 0;)
        wanted[i] = std::min(wanted[i], i + 1 == wanted.size() ? high : wanted[i + 1] - gap);
    return wanted;
}

void draw_curve_labels(Canvas& canvas, std::vector<CurveLabel> labels, double x_pt, double top_pt,
                       double bottom_pt) {
    std::stable_sort(labels.begin(), labels.end(),
                     [](const CurveLabel& a, const CurveLabel& b) { return a.end_pt < b.end_pt; });
    std::vector<double> wanted;
    for (const auto& label : labels)
        wanted.push_back(label.end_pt);
    const auto height = spread_apart(wanted, line_pt, top_pt + 3, bottom_pt - 3);
    for (std::size_t k = 0; k < labels.size(); ++k) {
        canvas.stroke({{x_pt + 1, labels[k].end_pt}, {x_pt + lead_pt, height[k]}}, {0.4, labels[k].color});
        canvas.text(labels[k].text, {x_pt + lead_pt + 2, height[k] + 2.4},
                    {6.5, Align::Left, labels[k].color});
    }
}

} // namespace interpile::postprocess
