#include "solver/momentum.h"

#include "solver/density_regions.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <limits>
#include <stdexcept>

namespace interpile::solver {

/// Integrals over the heaving region for the vertical condition.
struct VerticalSums {
    double imbalance = 0, size = 0, area = 0, effective = 0;
};

namespace {

constexpr int cells_per_strip = 256;

/// 1 for cells with their middle inside the rectangle.
Eigen::ArrayXd heaving_cells(const mesh::Grid& grid, const mesh::Vec2& low, const mesh::Vec2& high) {
    Eigen::ArrayXd inside(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto c = grid.corners(cell);
        const mesh::Vec2 middle = 0.25 * (c[0] + c[1] + c[2] + c[3]);
        inside(cell) =
            (middle.array() >= low.array()).all() && (middle.array() <= high.array()).all() ? 1 : 0;
    }
    return inside;
}

} // namespace

std::array<double, 4> hourglass_pattern(const std::array<mesh::Vec2, 4>& corner) {
    const mesh::Vec2 a = corner[2] - corner[0], b = corner[3] - corner[1];
    const double twice_area = a.x() * b.y() - a.y() * b.x();
    const mesh::Vec2 h_x = corner[0] - corner[1] + corner[2] - corner[3];
    // Gradients b_k of the shape functions: of u at the ends of the two diagonals.
    const mesh::Vec2 of_a = mesh::Vec2(b.y(), -b.x()) / twice_area,
                     of_b = mesh::Vec2(-a.y(), a.x()) / twice_area;
    const double along_a = h_x.dot(of_a), along_b = h_x.dot(of_b);
    return {0.25 * (1 + along_a), 0.25 * (-1 + along_b), 0.25 * (1 - along_a), 0.25 * (-1 - along_b)};
}

Momentum::Momentum(const mesh::Grid& grid, const mesh::Domain& domain, const Slice& slice,
                   const SoilModel& soil, const Water& water)
    : initial_(grid), current_(grid), domain_(domain), slice_(slice), soil_(soil), supports_(grid, domain),
      pore_water_(domain, water, initial_void_ratio(grid, slice)) {
    const Eigen::Index cells = grid.cell_count();
    kept_.resize(cells, soil.history_size());
    const double horizontal = slice.K0 * slice.vertical_stress_kPa;
    kept_.stress.col(0) = kept_.stress.col(1) = horizontal;
    kept_.stress.col(2) = slice.vertical_stress_kPa;
    kept_.void_ratio = initial_void_ratio(grid, slice);
    soil.initialize(kept_);
    heaving_ = heaving_cells(grid, slice.heaving_low_m, slice.heaving_high_m);
    trial_ = kept_;
    motion_.setZero(cells, MotionColumns);
    growth_strain_.setZero(cells);
    finished_share_.setZero(cells);
    smear_share_.setZero(cells);
    displacement_ = node_ = force_ = Eigen::Matrix2Xd::Zero(2, grid.node_count());
    force_sum_.setZero(grid.node_count());
}

void Momentum::set_active(std::vector<PileDisc*> discs) {
    active_ = std::move(discs);
    growth_strain_.setZero(); // finished piles grow no more
}

void Momentum::restore(const KeptSlice& kept) {
    const Eigen::Index cells = initial_.cell_count();
    const bool fits = kept.node_m.cols() == initial_.node_count() && kept.soil.stress.rows() == cells &&
                      kept.soil.stress.cols() == kept_.stress.cols() &&
                      kept.soil.void_ratio.size() == cells &&
                      kept.soil.history.rows() == kept_.history.rows() &&
                      kept.soil.history.cols() == kept_.history.cols() &&
                      kept.soil.yielding.size() == cells && kept.finished_share.size() == cells &&
                      kept.smear_share.size() == cells && kept.water.pressure_kPa.size() == cells;
    if (!fits)
        throw std::invalid_argument("the kept state of the slice is of another grid or soil model");
    current_.node_m = kept.node_m;
    kept_ = trial_ = kept.soil;
    heave_ = kept.heave;
    finished_share_ = kept.finished_share;
    smear_share_ = kept.smear_share;
    hourglass_cell_.clear();
    pore_water_.restore(kept.water);
}

FlowState Momentum::flow_state() const {
    const Eigen::Index cells = kept_.void_ratio.size();
    FlowState state{current_,        Eigen::ArrayXd(cells), kept_.void_ratio, Eigen::ArrayXd(cells),
                    finished_share_, smear_share_};
    for (int cell = 0; cell < cells; ++cell) {
        state.volume_m3_m(cell) = cell_area(cell) * thickness(cell);
        state.shear_modulus_kPa(cell) = soil_.moduli(kept_, cell).shear;
    }
    return state;
}

void Momentum::set_duration(double duration_s) {
    if (pore_water_.has_pressure())
        pore_water_.set_step(flow_state(), duration_s);
}

void Momentum::update_pressure() {
    Eigen::ArrayXd squeezed(kept_.void_ratio.size());
    for (int cell = 0; cell < squeezed.size(); ++cell) // solids stay in their cell
        squeezed(cell) = cell_area(cell) * thickness(cell) / (1 + kept_.void_ratio(cell)) *
                         (kept_.void_ratio(cell) - trial_.void_ratio(cell));
    pore_water_.evaluate(squeezed);
}

void Momentum::set_hourglass(double factor_m) {
    hourglass_ = factor_m;
    hourglass_cell_.clear();
}

Momentum::Hourglass Momentum::hourglass(int cell) const {
    const Diagonals d = diagonals(current_.node_m, cell);
    const double area = 0.5 * d.twice_area();
    const double squares = d.ax * d.ax + d.ay * d.ay + d.bx * d.bx + d.by * d.by;
    // sum of b_k^2 times area = squares / (2 area), b_k the gradients of the shape functions
    return {hourglass_ / std::sqrt(area) * soil_.moduli(kept_, cell).shear * squares / (2 * area),
            hourglass_pattern(current_.corners(cell))};
}

bool Momentum::measure_motion(const Trial& trial, int row) {
    const int first = row * initial_.cells_x;
    for (int cell = first; cell < first + initial_.cells_x; ++cell) {
        if (!(diagonals(node_, cell).twice_area() > 0))
            return false;
        const CellStretch s = stretch(diagonals(displacement_, cell), diagonals(current_.node_m, cell));
        const double growth = growth_strain_(cell);
        motion_(cell, StrainXX) = growth - s.xx; // shortening positive from here
        motion_(cell, StrainYY) = growth - s.yy;
        motion_(cell, StrainZZ) = -trial.heave * heaving_(cell);
        motion_(cell, StrainXY) = -s.xy;
        motion_(cell, RotationCos) = s.cos_r;
        motion_(cell, RotationSin) = s.sin_r;
    }
    return true;
}

bool Momentum::update_soil(const Trial& trial) {
    // Strips of rows that stay in the cache, and are long enough for models that work on several cells at once.
    const int rows = std::max(1, cells_per_strip / initial_.cells_x);
    const int strips = (initial_.cells_y + rows - 1) / rows;
    std::atomic<bool> sound = true;
    std::vector<std::exception_ptr> trouble(strips);
#pragma omp parallel for schedule(dynamic) num_threads(threads_) if (threads_ > 1)
    for (int strip = 0; strip < strips; ++strip) {
        const int first = strip * rows, last = std::min(first + rows, initial_.cells_y);
        for (int row = first; row < last; ++row)
            if (!measure_motion(trial, row))
                sound = false;
        try {
            if (sound)
                soil_.update(motion_, kept_, trial_, first * initial_.cells_x,
                             (last - first) * initial_.cells_x);
        } catch (const std::runtime_error&) {
            trouble[strip] = std::current_exception();
        }
    }
    for (const auto& exception : trouble)
        if (sound && exception)
            std::rethrow_exception(exception);
    return sound;
}

void Momentum::add_cell_forces(int row, double overburden, VerticalSums& sums) {
    const int first = row * initial_.cells_x;
    const int stride = initial_.cells_x + 1;
    const Eigen::ArrayXd& pressure = pore_water_.trial_pressure_kPa();
    for (int i = 0; i < initial_.cells_x; ++i) {
        const int cell = first + i;
        const int n1 = row * stride + i, n2 = n1 + 1, n3 = n2 + stride, n4 = n1 + stride;
        const Diagonals d = diagonals(node_, cell);
        const double area = 0.5 * d.twice_area();
        // Tension positive: t = -(sigma' + p). Forces on the ends of the diagonals, t.n/2 (work conjugate to the
        // gradient).
        const double txx = -trial_.stress(cell, 0) - pressure(cell),
                     tyy = -trial_.stress(cell, 1) - pressure(cell), txy = -trial_.stress(cell, 3);
        const Eigen::Vector2d on_a(0.5 * (txx * d.by - txy * d.bx), 0.5 * (txy * d.by - tyy * d.bx));
        const Eigen::Vector2d on_b(0.5 * (txy * d.ax - txx * d.ay), 0.5 * (tyy * d.ax - txy * d.ay));
        force_.col(n1) -= on_a;
        force_.col(n3) += on_a;
        force_.col(n2) -= on_b;
        force_.col(n4) += on_b;
        const double size_a = on_a.norm(), size_b = on_b.norm();
        force_sum_(n1) += size_a;
        force_sum_(n3) += size_a;
        force_sum_(n2) += size_b;
        force_sum_(n4) += size_b;
        const double heaving_area = area * heaving_(cell);
        const double vertical = trial_.stress(cell, 2) + pressure(cell);
        sums.imbalance += heaving_area * (overburden - vertical);
        sums.size += heaving_area * std::abs(vertical);
        sums.effective += heaving_area * trial_.stress(cell, 2);
        sums.area += heaving_area;
        const auto& [stiffness, g] = hourglass_cell_[cell];
        const Eigen::Vector2d q = g[0] * displacement_.col(n1) + g[1] * displacement_.col(n2) +
                                  g[2] * displacement_.col(n3) + g[3] * displacement_.col(n4);
        const Eigen::Vector2d f = stiffness * q;
        force_.col(n1) += g[0] * f;
        force_.col(n2) += g[1] * f;
        force_.col(n3) += g[2] * f;
        force_.col(n4) += g[3] * f;
    }
}

void Momentum::add_side_forces() {
    const double horizontal =
        slice_.K0 * slice_.vertical_stress_kPa + pore_water_.water().initial_excess_kPa; // total
    for (int side = 0; side < 4; ++side) {
        if (domain_.side[side] != mesh::BoundaryKind::ConstantStress)
            continue;
        const auto nodes = initial_.side_nodes(static_cast<mesh::Side>(side));
        // Counterclockwise around the domain the outward normal lies to the right of an edge.
        const double sense = side == mesh::South || side == mesh::East ? 1 : -1;
        for (std::size_t k = 0; k + 1 < nodes.size(); ++k) {
            const Eigen::Vector2d edge = node_.col(nodes[k + 1]) - node_.col(nodes[k]);
            const Eigen::Vector2d external = -0.5 * sense * horizontal * Eigen::Vector2d(edge.y(), -edge.x());
            for (const int node : {nodes[k], nodes[k + 1]}) {
                force_.col(node) -= external;
                force_sum_(node) += external.norm();
            }
        }
    }
}

void Momentum::find_worst(Imbalance& imbalance) const {
    // Where nearly no stress acts, the force sum alone would divide by nothing.
    const double floor = 0.01 * force_sum_.mean() + 1e-300;
    imbalance.worst = 0;
    const auto& freedoms = supports_.freedoms();
    for (int k = 0; k < supports_.count(); ++k) {
        const double ratio = std::abs(imbalance.force(k)) / (force_sum_(freedoms[k].node) + floor);
        if (!(ratio <= imbalance.worst)) { // also takes what is not a number
            imbalance.worst = ratio;
            imbalance.worst_node = freedoms[k].node;
            if (std::isnan(ratio))
                return;
        }
    }
}

void Momentum::set_growth_strain(const Trial& trial) {
    for (const PileDisc* disc : active_) // two discs may share a cell
        for (const auto& part : disc->parts)
            growth_strain_(part.cell) = 0;
    for (std::size_t k = 0; k < active_.size(); ++k) {
        const double from = active_[k]->log_growth, to = from + trial.growth(k);
        for (const auto& part : active_[k]->parts)
            growth_strain_(part.cell) +=
                0.5 * (PileDisc::growth(part.share, to) - PileDisc::growth(part.share, from));
    }
}

void Momentum::evaluate(const Trial& trial, Imbalance& imbalance) {
    supports_.expand(trial.displacement, displacement_);
    node_ = current_.node_m + displacement_;
    set_growth_strain(trial);
    if (hourglass_cell_.empty())
        for (int cell = 0; cell < initial_.cell_count(); ++cell)
            hourglass_cell_.push_back(hourglass(cell));

    force_.setZero();
    force_sum_.setZero();
    VerticalSums sums;
    if (!update_soil(trial)) {
        imbalance.worst = std::numeric_limits<double>::quiet_NaN();
        return;
    }
    if (pore_water_.has_pressure())
        update_pressure();
    const double overburden = slice_.vertical_stress_kPa + pore_water_.water().initial_excess_kPa; // total
    for (int row = 0; row < initial_.cells_y; ++row)
        add_cell_forces(row, overburden, sums);
    add_side_forces();
    imbalance.vertical = sums.imbalance;
    imbalance.vertical_ratio = std::abs(sums.imbalance) / (sums.size + 1e-300);
    imbalance.vertical_stress_kPa = sums.effective / sums.area;
    imbalance.force.resize(supports_.count());
    supports_.project(force_, imbalance.force);
    find_worst(imbalance);

    imbalance.disc_area.setZero(static_cast<Eigen::Index>(active_.size()));
    for (std::size_t k = 0; k < active_.size(); ++k)
        for (const auto& part : active_[k]->parts)
            imbalance.disc_area(k) +=
                0.5 * diagonals(node_, part.cell).twice_area() *
                PileDisc::pile_share(part.share, active_[k]->log_growth + trial.growth(k));
}

void Momentum::keep(const Trial& trial) {
    current_.node_m = node_;
    hourglass_cell_.clear();
    std::swap(kept_, trial_);
    if (pore_water_.has_pressure())
        pore_water_.keep();
    heave_ += trial.heave;
    for (std::size_t k = 0; k < active_.size(); ++k)
        active_[k]->log_growth += trial.growth(k);
}

double Momentum::disc_area(const PileDisc& disc) const {
    double sum = 0;
    for (const auto& part : disc.parts)
        sum += cell_area(part.cell) * PileDisc::pile_share(part.share, disc.log_growth);
    return sum;
}

template <class Value>
double Momentum::disc_mean(const PileDisc& disc, const Value& value) const {
    double area = 0, sum = 0;
    for (const auto& part : disc.parts) {
        const double a = cell_area(part.cell) * PileDisc::pile_share(part.share, disc.log_growth);
        area += a;
        sum += a * value(part.cell);
    }
    return sum / area;
}

double Momentum::disc_pressure(const PileDisc& disc) const {
    return disc_mean(disc, [&](int cell) { return 0.5 * (kept_.stress(cell, 0) + kept_.stress(cell, 1)); });
}

double Momentum::disc_excess_pressure(const PileDisc& disc) const {
    return disc_mean(disc, [&](int cell) { return pore_water_.pressure_kPa()(cell); });
}

} // namespace interpile::solver
