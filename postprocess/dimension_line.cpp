#include "postprocess/dimension_line.h"

#include "postprocess/page.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <optional>
#include <tuple>

namespace interpile::postprocess {

namespace {

constexpr double head_pt = 5;
constexpr double beyond_pt = 12; // dimension line beyond the rim of the piles

struct Pair {
    Vec2 a, b; // a to b runs to the right or upwards
    double distance() const { return (b - a).norm(); }
    Vec2 direction() const { return (b - a).normalized(); }
};

/// Of the pairs that `accepts`, the closest; of equally close ones (within 1 %) the outermost along
/// -`outwards`.
template <typename Accepts>
std::optional<Pair> closest(const std::vector<Vec2>& centers, const Vec2& outwards, Accepts accepts) {
    std::optional<Pair> best;
    const auto rank = [&](const Pair& p) { return -outwards.dot(p.a + p.b) + 1e-3 * (p.a.x() + p.a.y()); };
    for (const auto& a : centers)
        for (const auto& b : centers) {
            if (std::tuple(a.x(), a.y()) >= std::tuple(b.x(), b.y()))
                continue;
            const Pair pair{a, b};
            if (!accepts(pair))
                continue;
            const bool closer = !best || pair.distance() < 0.99 * best->distance();
            const bool as_close = best && pair.distance() < 1.01 * best->distance();
            if (closer || (as_close && rank(pair) < rank(*best)))
                best = pair;
        }
    return best;
}

void draw_dimension(Canvas& canvas, const Axes& axes, const Pair& pair, const Vec2& outwards,
                    double clearance_m) {
    const double clearance_pt = clearance_m * axes.pt_per_unit_x();
    const Vec2 a = axes.to_page(pair.a), b = axes.to_page(pair.b);
    Vec2 across = Vec2(-(b - a).y(), (b - a).x()).normalized();
    if (across.dot(Vec2(outwards.x(), -outwards.y())) < 0)
        across = -across;
    const Vec2 offset = (clearance_pt + beyond_pt) * across;
    const Pen pen{0.5, ink};
    for (const auto& end : {a, b})
        canvas.stroke({end + (clearance_pt + 2) * across, end + offset + 3 * across}, pen);
    const Vec2 middle = 0.5 * (a + b) + offset;
    canvas.arrow(middle, a + offset, head_pt, pen);
    canvas.arrow(middle, b + offset, head_pt, pen);

    double turn = std::atan2(-(b - a).y(), (b - a).x()); // page y runs down
    if (turn > std::numbers::pi / 2 + 1e-9 || turn < -std::numbers::pi / 2 + 1e-9)
        turn += std::numbers::pi;
    TextStyle style{7.5, Align::Center, ink};
    style.turn_deg = turn * 180 / std::numbers::pi;
    // The base line is on the outer side of the dimension line, so that text above it has to step back.
    const Vec2 up(-std::sin(turn), -std::cos(turn));
    const double step = across.dot(up) > 0 ? 3 : 9;
    canvas.text(plain(fmt::format("{:.2f} m", pair.distance())), middle + step * across, style);
}

} // namespace

void draw_spacings(Canvas& canvas, const Axes& axes, const std::vector<Vec2>& centers_m, double clearance_m) {
    const Vec2 below(0, -1), left(-1, 0);
    const auto along = [](const Pair& pair) { return std::abs(pair.direction().x()) > 0.5; };
    const auto first = closest(centers_m, below, along);
    if (first)
        draw_dimension(canvas, axes, *first, below, clearance_m);
    const auto second = closest(centers_m, left, [&](const Pair& pair) {
        return !first || std::abs(pair.direction().dot(first->direction())) < 0.6;
    });
    if (second && (!first || std::abs(second->distance() - first->distance()) > 0.01 * first->distance()))
        draw_dimension(canvas, axes, *second, left, clearance_m);
}

} // namespace interpile::postprocess
