#include "mesh/pile_layout.h"

#include "mesh/pattern_cell.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <stdexcept>

namespace interpile::mesh {
namespace {

double row_step(const LayoutSettings& layout) {
    switch (layout.pattern) {
    case Pattern::Triangular:
        return layout.spacing_m * std::numbers::sqrt3 / 2;
    case Pattern::Rectangular:
        return layout.row_spacing_m;
    default:
        return layout.spacing_m;
    }
}

/// Stable sort of 0..n-1 by a key; keys closer than `same` count as equal and keep the order of numbers.
std::vector<int> sorted_by(const std::vector<double>& key, double same) {
    std::vector<int> index(key.size());
    std::iota(index.begin(), index.end(), 0);
    std::stable_sort(index.begin(), index.end(), [&](int a, int b) { return key[a] < key[b] - same; });
    return index;
}

bool is_triangular_cell(const LayoutSettings& layout) {
    return layout.cell.has_value() && layout.pattern == Pattern::Triangular;
}

std::vector<int> alternating(const LayoutSettings& layout) {
    if (layout.pattern == Pattern::Listed)
        throw std::invalid_argument("the alternating order needs the rows of a pattern");
    std::vector<int> index;
    for (int row = 0; row < layout.rows; ++row)
        for (int k = 0; k < layout.columns; ++k)
            index.push_back(row * layout.columns + (row % 2 == 0 ? k : layout.columns - 1 - k));
    return index;
}

std::vector<int> from_side(const std::vector<Vec2>& centers, Side side) {
    static const std::array<Vec2, 4> inward = {Vec2{1, 0}, Vec2{-1, 0}, Vec2{0, 1}, Vec2{0, -1}};
    std::vector<double> distance;
    for (const auto& p : centers)
        distance.push_back(p.dot(inward[side]));
    return sorted_by(distance, 1e-6);
}

std::vector<int> from_middle(const std::vector<Vec2>& centers) {
    Vec2 middle = Vec2::Zero();
    for (const auto& p : centers)
        middle += p / static_cast<double>(centers.size());
    std::vector<double> distance;
    for (const auto& p : centers)
        distance.push_back((p - middle).norm());
    return sorted_by(distance, 1e-6);
}

std::vector<int> listed(const std::vector<int>& numbers, std::size_t piles) {
    std::vector<int> index;
    for (int number : numbers)
        index.push_back(number - 1);
    std::vector<int> sorted = index;
    std::sort(sorted.begin(), sorted.end());
    std::vector<int> every(piles);
    std::iota(every.begin(), every.end(), 0);
    if (sorted != every)
        throw std::invalid_argument("the listed order must name every pile 1.." + std::to_string(piles) +
                                    " exactly once");
    return index;
}

} // namespace

std::vector<Vec2> pile_centers(const LayoutSettings& layout) {
    if (layout.pattern == Pattern::Listed)
        return layout.listed_m;
    if (is_triangular_cell(layout))
        return triangular_cell_centers(layout);
    const double angle = layout.angle_deg * std::numbers::pi / 180;
    const Vec2 along = {std::cos(angle), std::sin(angle)};
    const Vec2 across = {-along.y(), along.x()};
    std::vector<Vec2> centers;
    for (int row = 0; row < layout.rows; ++row)
        for (int column = 0; column < layout.columns; ++column) {
            const double shift = layout.pattern == Pattern::Triangular && row % 2 == 1 ? 0.5 : 0.0;
            centers.push_back(layout.origin_m + along * ((column + shift) * layout.spacing_m) +
                              across * (row * row_step(layout)));
        }
    return centers;
}

std::vector<std::vector<int>> installation_order(const std::vector<Vec2>& centers,
                                                 const LayoutSettings& layout, const OrderSettings& order) {
    std::vector<int> index(centers.size());
    std::iota(index.begin(), index.end(), 0);
    if (is_triangular_cell(layout) && order.kind != OrderKind::Together) {
        if (order.kind != OrderKind::RowByRow)
            throw std::invalid_argument("a triangular cell is driven row by row or together");
        return {{index.front()}, {index.begin() + 1, index.end()}};
    }
    switch (order.kind) {
    case OrderKind::RowByRow:
        break;
    case OrderKind::Together:
        return {index};
    case OrderKind::Alternating:
        index = alternating(layout);
        break;
    case OrderKind::FromSide:
        index = from_side(centers, order.from);
        break;
    case OrderKind::FromMiddle:
        index = from_middle(centers);
        break;
    case OrderKind::Listed:
        index = listed(order.listed, centers.size());
        break;
    }
    std::vector<std::vector<int>> groups;
    for (int pile : index)
        groups.push_back({pile});
    return groups;
}

std::optional<double> tributary_area_m2(const LayoutSettings& layout) {
    if (layout.pattern == Pattern::Listed)
        return std::nullopt;
    return layout.spacing_m * row_step(layout);
}

std::optional<double> area_replacement_ratio(const LayoutSettings& layout, double diameter_m) {
    const auto tributary = tributary_area_m2(layout);
    if (!tributary)
        return std::nullopt;
    return std::numbers::pi * diameter_m * diameter_m / 4 / *tributary;
}

double area_replacement_ratio_in(const Domain& domain, const std::vector<Vec2>& centers, double diameter_m) {
    double piles = 0;
    for (const auto& center : centers)
        piles += domain.inside_share(center);
    return piles * std::numbers::pi * diameter_m * diameter_m / 4 / domain.area_m2();
}

double smallest_distance_m(const std::vector<Vec2>& centers) {
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t a = 0; a < centers.size(); ++a)
        for (std::size_t b = 0; b < a; ++b)
            smallest = std::min(smallest, (centers[a] - centers[b]).norm());
    return smallest;
}

} // namespace interpile::mesh
