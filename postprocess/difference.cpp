#include "postprocess/difference.h"

#include "mesh/ground_area.h"
#include "postprocess/continuation.h"
#include "postprocess/ground.h"
#include "postprocess/interpolation.h"
#include "postprocess/smoothing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace interpile::postprocess {

using mesh::Vec2;

namespace {

constexpr double depth_tolerance_m = 0.1;  // thinner than any layer told apart (own choice)
constexpr double least_common_share = 0.5; // of the smaller domain (own choice)

struct Box {
    Vec2 low, high;
    double area_m2() const { return (high - low).cwiseMax(0.0).prod(); }
};

Box box_of(const mesh::Grid& grid) {
    return {grid.node_m.rowwise().minCoeff(), grid.node_m.rowwise().maxCoeff()};
}

/// Piles of the result with fewer that stand where one of the other stands, as a share of its piles.
double share_of_common_piles(const io::ResultsHeader& first, const io::ResultsHeader& second) {
    const bool first_is_smaller = first.pile_center_m.cols() <= second.pile_center_m.cols();
    const auto &few = first_is_smaller ? first : second, &many = first_is_smaller ? second : first;
    int common = 0;
    for (Eigen::Index a = 0; a < few.pile_center_m.cols(); ++a) {
        const auto distance = (many.pile_center_m.colwise() - few.pile_center_m.col(a)).colwise().norm();
        common += distance.minCoeff() < few.pile_diameter_m[a] / 2;
    }
    return static_cast<double>(common) / static_cast<double>(few.pile_center_m.cols());
}

/// Values of the second result at the middles of the cells of the first.
class SampledAt {
public:
    SampledAt(const io::ResultsHeader& header, const io::ResultsStage& stage, const Eigen::Matrix2Xd& at_m)
        : stage_(stage), grid_(current_grid(header, stage)), ground_(ground_cells(stage)) {
        const CellInterpolation interpolation(grid_);
        for (Eigen::Index k = 0; k < at_m.cols(); ++k)
            weights_.push_back(interpolation.at(at_m.col(k)));
        for (int pile = 0; pile < stage.disc_radius_m.size(); ++pile)
            if (is_begun(header, stage, pile))
                discs_.emplace_back(stage.disc_center_m.col(pile), stage.disc_radius_m[pile]);
    }

    /// The place lies in the second result, and not in one of its piles.
    bool is_ground(Eigen::Index k, const Vec2& at) const {
        return weights_[k] && std::none_of(discs_.begin(), discs_.end(), [&](const auto& disc) {
                   return (at - disc.first).norm() < disc.second;
               });
    }

    /// 0 where the place is outside; pile material has no part in it.
    Eigen::ArrayXd field(const std::string& name) const {
        const auto values = continued_under_piles(grid_, field_values(stage_, name), ground_);
        Eigen::ArrayXd sampled = Eigen::ArrayXd::Zero(static_cast<Eigen::Index>(weights_.size()));
        for (std::size_t k = 0; k < weights_.size(); ++k)
            if (weights_[k])
                sampled[static_cast<Eigen::Index>(k)] = weights_[k]->apply(values);
        return sampled;
    }

private:
    const io::ResultsStage& stage_;
    mesh::Grid grid_;
    std::vector<bool> ground_;
    std::vector<std::optional<CellInterpolation::Weights>> weights_;
    std::vector<std::pair<Vec2, double>> discs_;
};

/// 0 where two values agree in the digits that results are stored with.
double stored_difference(double first, double second) {
    constexpr double rounding = 1e-7;
    const double difference = second - first;
    return std::abs(difference) > rounding * std::max(std::abs(first), std::abs(second)) ? difference : 0;
}

/// Area of the common ground per cell of the first, between the piles of both where both have a treated area [m2].
Eigen::ArrayXd judged_area(const mesh::Grid& grid, const std::vector<bool>& common,
                           const mesh::TreatedArea& first, const mesh::TreatedArea& second) {
    const auto middle = mesh::cell_middles(grid);
    Eigen::ArrayXd area = mesh::cell_areas(grid);
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const bool treated = first.empty() || second.empty() ||
                             (first.contains(middle.col(cell)) && second.contains(middle.col(cell)));
        if (!common[cell] || !treated)
            area[cell] = 0;
    }
    return area;
}

/// Least and most of the smoothed difference, at nodes whose cells are all judged; else of the cells.
void add_extremes(FieldDifference& difference, const mesh::Grid& grid, const Eigen::ArrayXd& area) {
    const auto at_nodes = node_averages(grid, difference.value, difference.common);
    std::vector<bool> judged(grid.node_count(), true);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell))
            judged[node] = judged[node] && area[cell] > 0;
    difference.least = std::numeric_limits<double>::infinity();
    difference.most = -difference.least;
    const auto count = [&](double value, const Vec2& at) {
        if (value < difference.least)
            difference.least = value, difference.least_at_m = at;
        if (value > difference.most)
            difference.most = value, difference.most_at_m = at;
    };
    for (int node = 0; node < grid.node_count(); ++node)
        if (judged[node])
            count(at_nodes[node], grid.node_m.col(node));
    if (std::isfinite(difference.least))
        return;
    const auto middle = mesh::cell_middles(grid);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (area[cell] > 0)
            count(difference.value[cell], middle.col(cell));
}

} // namespace

std::string why_not_comparable(const io::ResultsHeader& first, const io::ResultsHeader& second) {
    if (std::abs(first.depth_m - second.depth_m) > depth_tolerance_m)
        return fmt::format("the slices lie at {:.4g} and {:.4g} m below ground; only slices of one depth "
                           "(within {:g} m) can be compared",
                           first.depth_m, second.depth_m, depth_tolerance_m);
    const Box a = box_of(first.grid), b = box_of(second.grid);
    const Box both{a.low.cwiseMax(b.low), a.high.cwiseMin(b.high)};
    const double share = both.area_m2() / std::min(a.area_m2(), b.area_m2());
    if (share < least_common_share)
        return fmt::format("their ground has {:.0f} % of the smaller domain in common, of {:.0f} % that are "
                           "needed; run both in the same coordinates",
                           100 * share, 100 * least_common_share);
    if (const double piles = share_of_common_piles(first, second); piles < least_common_share)
        return fmt::format(
            "{:.0f} % of the piles of the smaller layout stand where a pile of the other stands, "
            "of {:.0f} % that are needed; the layouts are too different",
            100 * piles, 100 * least_common_share);
    return {};
}

FieldDifference difference_between(const NamedStage& first, const NamedStage& second,
                                   const std::string& field) {
    const auto grid = current_grid(first.header, first.stage);
    const auto middle = mesh::cell_middles(grid);
    const SampledAt sampled(second.header, second.stage, middle);
    const auto& first_value = field_values(first.stage, field);

    FieldDifference difference;
    difference.common = ground_cells(first.stage);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        difference.common[cell] = difference.common[cell] && sampled.is_ground(cell, middle.col(cell));
    const auto second_value = sampled.field(field);
    difference.value = Eigen::ArrayXd::Zero(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (difference.common[cell])
            difference.value[cell] = stored_difference(first_value[cell], second_value[cell]);

    const auto area = judged_area(grid, difference.common, first.header.treated, second.header.treated);
    difference.area_m2 = area.sum();
    if (difference.area_m2 <= 0)
        throw std::invalid_argument("the two results have no ground between the piles in common");
    if (field == "lateral_stress_ratio") {
        const auto ratio = [&](const Eigen::ArrayXd& lateral, const Eigen::ArrayXd& vertical) {
            return mesh::lateral_stress_ratio(area, lateral, vertical);
        };
        difference.first_mean = ratio(field_values(first.stage, "lateral_stress_kPa"),
                                      field_values(first.stage, "vertical_stress_kPa"));
        difference.second_mean =
            ratio(sampled.field("lateral_stress_kPa"), sampled.field("vertical_stress_kPa"));
    } else {
        difference.first_mean = mesh::area_mean(area, first_value);
        difference.second_mean = mesh::area_mean(area, second_value);
    }
    difference.mean_size = mesh::area_mean(area, difference.value.abs());
    add_extremes(difference, grid, area);
    return difference;
}

} // namespace interpile::postprocess
