#include "solver/pore_water.h"

#include "solver/number_check.h"
#include "solver/slice.h"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace interpile::solver {

namespace {

constexpr double water_bulk_kPa = 2.2e6;
constexpr double atmosphere_kPa = 101.3;
constexpr double stabilization = 0.25; // beta; DEVELOPERS.md says how the result depends on it

/// First mode of a layer drained at one end: rate of decay over k/(gamma_w m_v H^2).
constexpr double first_mode = std::numbers::pi * std::numbers::pi / 4;

mesh::Vec2 middle(const mesh::Grid& grid, int cell) {
    const auto c = grid.corners(cell);
    return 0.25 * (c[0] + c[1] + c[2] + c[3]);
}

double area(const mesh::Grid& grid, int cell) {
    const auto c = grid.corners(cell);
    const mesh::Vec2 a = c[2] - c[0], b = c[3] - c[1];
    return 0.5 * (a.x() * b.y() - a.y() * b.x());
}

/// A side of a cell: its ends, its length and the distance of the cell's middle from its line.
struct CellSide {
    mesh::Vec2 from, to;
    double length() const { return (to - from).norm(); }
    mesh::Vec2 middle() const { return 0.5 * (from + to); }
    double distance(const mesh::Vec2& point) const {
        const mesh::Vec2 along = (to - from) / length(), across = point - from;
        return std::abs(along.x() * across.y() - along.y() * across.x());
    }
};

/// Corners counterclockwise from the low one: south, east, north, west.
CellSide side_of(const mesh::Grid& grid, int cell, mesh::Side side) {
    const auto c = grid.corners(cell);
    switch (side) {
    case mesh::South:
        return {c[0], c[1]};
    case mesh::East:
        return {c[1], c[2]};
    case mesh::North:
        return {c[2], c[3]};
    case mesh::West:
        break;
    }
    return {c[3], c[0]};
}

} // namespace

double water_compressibility_1_kPa(double saturation, double static_pressure_kPa) {
    require_positive("saturation", saturation);
    require_between("saturation", saturation, 0, 1);
    require_between("static_pressure_kPa", static_pressure_kPa, 0, std::numeric_limits<double>::max());
    return saturation / water_bulk_kPa + (1 - saturation) / (atmosphere_kPa + static_pressure_kPa);
}

double permeability_factor(double void_ratio, double initial_void_ratio) {
    const auto form = [](double e) { return e * e * e / (1 + e); };
    return form(void_ratio) / form(initial_void_ratio);
}

PoreWater::PoreWater(const mesh::Domain& domain, const Water& water, Eigen::ArrayXd initial_void_ratio)
    : domain_(domain), water_(water), initial_void_ratio_(std::move(initial_void_ratio)),
      compressibility_(water_compressibility_1_kPa(water.saturation, water.static_pressure_kPa)) {
    if (!has_pressure())
        water_.initial_excess_kPa = 0; // nor does overburden hold any
    kept_.setConstant(initial_void_ratio_.size(), water_.initial_excess_kPa);
    trial_ = kept_;
    squeezed_.setZero(kept_.size());
}

Eigen::ArrayXd PoreWater::permeability_m_s(const FlowState& state) const {
    Eigen::ArrayXd k(state.void_ratio.size());
    for (Eigen::Index cell = 0; cell < k.size(); ++cell) {
        k(cell) = water_.permeability_m_s *
                  permeability_factor(std::max(state.void_ratio(cell), 1e-2), initial_void_ratio_(cell));
        if (water_.pile_permeability_m_s > 0)
            k(cell) += state.finished_share(cell) * (water_.pile_permeability_m_s - k(cell));
    }
    return k;
}

std::vector<PoreWater::Face> PoreWater::faces_of(const FlowState& state) const {
    const mesh::Grid& grid = state.grid;
    const Eigen::ArrayXd k = permeability_m_s(state);
    const auto resistance = [&](int cell,
                                mesh::Side side) { // distance over permeability, per length of the side
        const CellSide s = side_of(grid, cell, side);
        return s.distance(middle(grid, cell)) / k(cell);
    };
    std::vector<Face> faces;
    const auto thickness = [&](int cell) { return state.volume_m3_m(cell) / area(grid, cell); };
    const auto between = [&](int cell, int neighbor, mesh::Side side, mesh::Side opposite) {
        const double section =
            side_of(grid, cell, side).length() * 0.5 * (thickness(cell) + thickness(neighbor));
        const double conductance =
            section / (resistance(cell, side) + resistance(neighbor, opposite)) / gamma_w;
        const double size = 0.5 * (state.volume_m3_m(cell) + state.volume_m3_m(neighbor));
        const double shear = 0.5 * (state.shear_modulus_kPa(cell) + state.shear_modulus_kPa(neighbor));
        faces.push_back({cell, neighbor, conductance, stabilization * size / (2 * shear),
                         side_of(grid, cell, side).middle()});
    };
    for (int j = 0; j < grid.cells_y; ++j)
        for (int i = 0; i < grid.cells_x; ++i) {
            const int cell = j * grid.cells_x + i;
            if (i + 1 < grid.cells_x)
                between(cell, cell + 1, mesh::East, mesh::West);
            if (j + 1 < grid.cells_y)
                between(cell, cell + grid.cells_x, mesh::North, mesh::South);
            const std::array<bool, 4> outer = [&] {
                std::array<bool, 4> at{};
                at[mesh::West] = i == 0;
                at[mesh::East] = i + 1 == grid.cells_x;
                at[mesh::South] = j == 0;
                at[mesh::North] = j + 1 == grid.cells_y;
                return at;
            }();
            for (int side = 0; side < 4; ++side)
                if (outer[side] && water_.open_sides && domain_.side[side] != mesh::BoundaryKind::Symmetry)
                    faces.push_back({cell, -1,
                                     side_of(grid, cell, static_cast<mesh::Side>(side)).length() *
                                         thickness(cell) / resistance(cell, static_cast<mesh::Side>(side)) /
                                         gamma_w,
                                     0, side_of(grid, cell, static_cast<mesh::Side>(side)).middle()});
        }
    return faces;
}

Eigen::ArrayXd PoreWater::leakage(const FlowState& state) const {
    Eigen::ArrayXd leak = Eigen::ArrayXd::Zero(state.void_ratio.size());
    for (Eigen::Index cell = 0; cell < leak.size(); ++cell) {
        const bool drains = water_.pile_permeability_m_s > 0 && water_.pile_leak_length_m > 0;
        const double share = drains ? state.finished_share(cell) : 0; // else a pile leaks as the ground does
        const auto rate = [&](double k, double length) {
            return length > 0 ? first_mode * k / gamma_w / (length * length) : 0;
        };
        const double ground =
            rate(water_.vertical_permeability_m_s *
                     permeability_factor(std::max(state.void_ratio(cell), 1e-2), initial_void_ratio_(cell)),
                 water_.leak_length_m);
        const double pile = rate(water_.pile_permeability_m_s, water_.pile_leak_length_m);
        leak(cell) = state.volume_m3_m(cell) * ((1 - share) * ground + share * pile);
    }
    return leak;
}

void PoreWater::assemble(const FlowState& state) {
    faces_ = faces_of(state);
    leak_ = leakage(state);
    storage_ = state.volume_m3_m * state.void_ratio / (1 + state.void_ratio) * compressibility_;
    const double dt = water_.drainage == Drainage::Coupled ? duration_s_ : 0;
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(static_cast<std::size_t>(storage_.size()) + 3 * faces_.size());
    for (Eigen::Index cell = 0; cell < storage_.size(); ++cell)
        entries.emplace_back(cell, cell, storage_(cell) + dt * leak_(cell));
    for (const Face& face : faces_) {
        const double value = dt * face.conductance + face.jump;
        entries.emplace_back(face.cell, face.cell, value);
        if (face.neighbor < 0)
            continue;
        entries.emplace_back(face.neighbor, face.neighbor, value);
        entries.emplace_back(std::max(face.cell, face.neighbor), std::min(face.cell, face.neighbor), -value);
    }
    matrix_.resize(storage_.size(), storage_.size());
    matrix_.setFromTriplets(entries.begin(), entries.end());
    const Eigen::ArrayXd diagonal = matrix_.diagonal().array();
    contrast_ = diagonal.maxCoeff() / diagonal.minCoeff();
}

void PoreWater::set_step(const FlowState& state, double duration_s) {
    require_between("duration_s", duration_s, 0, std::numeric_limits<double>::max());
    duration_s_ = duration_s;
    assemble(state);
    if (!analyzed_)
        cholesky_.analyzePattern(matrix_);
    analyzed_ = true;
    cholesky_.factorize(matrix_);
    if (cholesky_.info() != Eigen::Success)
        throw std::runtime_error("the matrix of the pore water is not positive definite");
}

void PoreWater::evaluate(const Eigen::ArrayXd& squeezed_m3_m) {
    squeezed_ = squeezed_m3_m;
    // The jump stabilization acts on the increment, fluxes and leak on the pressure itself: solved for the increment.
    Eigen::ArrayXd source = squeezed_;
    if (water_.drainage == Drainage::Coupled) {
        source -= duration_s_ * leak_ * kept_;
        for (const Face& face : faces_) {
            const double flow = duration_s_ * face.conductance *
                                (kept_(face.cell) - (face.neighbor < 0 ? 0 : kept_(face.neighbor)));
            source(face.cell) -= flow;
            if (face.neighbor >= 0)
                source(face.neighbor) += flow;
        }
    }
    trial_ = kept_ + cholesky_.solve(source.matrix()).array();
}

void PoreWater::keep() {
    balance_.squeezed += squeezed_.sum();
    balance_.stored += (storage_ * (trial_ - kept_)).sum();
    if (water_.drainage == Drainage::Coupled) {
        balance_.leaked += duration_s_ * (leak_ * trial_).sum();
        for (const Face& face : faces_)
            if (face.neighbor < 0)
                balance_.through_sides += duration_s_ * face.conductance * trial_(face.cell);
        time_s_ += duration_s_;
    }
    kept_ = trial_;
}

Eigen::Matrix2Xd PoreWater::discharge_m_s(const FlowState& state) const {
    Eigen::Matrix2Xd sum = Eigen::Matrix2Xd::Zero(2, state.void_ratio.size());
    if (water_.drainage != Drainage::Coupled)
        return sum;
    for (const Face& face : faces_of(state)) {
        const double flux =
            face.conductance * (kept_(face.cell) - (face.neighbor < 0 ? 0 : kept_(face.neighbor)));
        sum.col(face.cell) += flux * (face.place - middle(state.grid, face.cell));
        if (face.neighbor >= 0)
            sum.col(face.neighbor) -= flux * (face.place - middle(state.grid, face.neighbor));
    }
    for (Eigen::Index cell = 0; cell < sum.cols(); ++cell)
        sum.col(cell) /= state.volume_m3_m(cell);
    return sum;
}

} // namespace interpile::solver
