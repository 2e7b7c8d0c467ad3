#include "solver/pore_water.h"

#include "solver/number_check.h"
#include "solver/slice.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace interpile::solver {

namespace {

constexpr double water_bulk_kPa = 2.2e6;
constexpr double atmosphere_kPa = 101.3;
constexpr double stabilization = 0.25; // beta; DEVELOPERS.md says how the result depends on it

constexpr double hollow_bulk_kPa = 50; // of cavitating pores; small against stresses, large against round-off
constexpr int most_passes =
    8; // until the set of cavitating cells stands; what is left shows as a small error of p

/// First mode of a layer drained at one end: rate of decay over k/(gamma_w m_v H^2).
constexpr double first_mode = std::numbers::pi * std::numbers::pi / 4;

double area(const mesh::Grid& grid, int cell) {
    const auto c = grid.corners(cell);
    const mesh::Vec2 a = c[2] - c[0], b = c[3] - c[1];
    return 0.5 * (a.x() * b.y() - a.y() * b.x());
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

double smeared_permeability(double permeability_m_s, double share, double permeability_ratio) {
    return permeability_m_s / (1 - share + share / permeability_ratio);
}

PoreWater::PoreWater(const mesh::Domain& domain, const Water& water, Eigen::ArrayXd initial_void_ratio)
    : domain_(domain), water_(water), initial_void_ratio_(std::move(initial_void_ratio)),
      compressibility_(water_compressibility_1_kPa(water.saturation, water.static_pressure_kPa)),
      cavitation_(-(atmosphere_kPa + water.static_pressure_kPa)) {
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
        const double pile = state.finished_share(cell);
        const double smear = state.smear_share.size() > 0 ? state.smear_share(cell) : 0;
        if (smear > 0)
            k(cell) = smeared_permeability(k(cell), smear, water_.smear_permeability_ratio);
        if (smear > 0 && pile > 0 && pile < 1 && water_.pile_permeability_m_s > 0) // in series too
            k(cell) = 1 / ((1 - pile) / k(cell) + pile / water_.pile_permeability_m_s);
        else if (water_.pile_permeability_m_s > 0)
            k(cell) += pile * (water_.pile_permeability_m_s - k(cell));
    }
    return k;
}

std::vector<PoreWater::Face> PoreWater::faces_of(const FlowState& state) const {
    const mesh::Grid& grid = state.grid;
    std::vector<Face> faces;
    const auto between = [&](int cell, int neighbor) {
        const double size = 0.5 * (state.volume_m3_m(cell) + state.volume_m3_m(neighbor));
        const double shear = 0.5 * (state.shear_modulus_kPa(cell) + state.shear_modulus_kPa(neighbor));
        faces.push_back({cell, neighbor, stabilization * size / (2 * shear)});
    };
    for (int j = 0; j < grid.cells_y; ++j)
        for (int i = 0; i < grid.cells_x; ++i) {
            const int cell = j * grid.cells_x + i;
            if (i + 1 < grid.cells_x)
                between(cell, cell + 1);
            if (j + 1 < grid.cells_y)
                between(cell, cell + grid.cells_x);
        }
    return faces;
}

std::vector<FlowQuad> PoreWater::flow_of(const FlowState& state) const {
    FlowGround ground{domain_, state.grid, water_.open_sides, permeability_m_s(state), state.volume_m3_m};
    for (int cell = 0; cell < state.grid.cell_count(); ++cell)
        ground.thickness(cell) /= area(state.grid, cell);
    return flow_quads(ground);
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
    leak_ = leakage(state);
    const Eigen::ArrayXd pores = state.volume_m3_m * state.void_ratio / (1 + state.void_ratio);
    storage_ = pores * compressibility_;
    hollow_storage_ = pores / hollow_bulk_kPa;
    factored_hollow_ = hollow(kept_);
    const bool flows = water_.drainage == Drainage::Coupled;
    const Eigen::Index cells = storage_.size();
    std::vector<Eigen::Triplet<double>> entries;
    through_sides_.setZero(cells);
    const auto quads = flows ? flow_of(state) : std::vector<FlowQuad>();
    for (const FlowQuad& quad : quads)
        for (int a = 0; a < 4; ++a) {
            if (quad.cell[a] < 0)
                continue;
            through_sides_(quad.cell[a]) += quad.conductance.col(a).sum();
            for (int b = 0; b < 4; ++b)
                if (quad.cell[b] < 0) // what flows to there leaves
                    through_sides_(quad.cell[a]) -= quad.conductance(b, a);
                else if (quad.cell[a] >= quad.cell[b])
                    entries.emplace_back(quad.cell[a], quad.cell[b], quad.conductance(a, b));
        }
    flow_.resize(cells, cells);
    flow_.setFromTriplets(entries.begin(), entries.end());

    entries.clear();
    for (Eigen::Index cell = 0; cell < cells; ++cell)
        entries.emplace_back(cell, cell,
                             (factored_hollow_(cell) ? hollow_storage_ : storage_)(cell) +
                                 (flows ? duration_s_ * leak_(cell) : 0));
    for (const Face& face : faces_of(state)) {
        entries.emplace_back(face.cell, face.cell, face.jump);
        entries.emplace_back(face.neighbor, face.neighbor, face.jump);
        entries.emplace_back(face.neighbor, face.cell, -face.jump);
    }
    matrix_.resize(cells, cells);
    matrix_.setFromTriplets(entries.begin(), entries.end());
    if (flows)
        matrix_ += duration_s_ * flow_;
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
    factor();
}

void PoreWater::factor() {
    cholesky_.factorize(matrix_);
    if (cholesky_.info() != Eigen::Success)
        throw std::runtime_error("the matrix of the pore water is not positive definite");
}

Eigen::ArrayXd PoreWater::stored(const Eigen::ArrayXd& pressure_kPa) const {
    return hollow(pressure_kPa).select(hollow_storage_, storage_) * (pressure_kPa - cavitation_);
}

Eigen::ArrayXd PoreWater::outflow(const Eigen::ArrayXd& pressure_kPa) const {
    return (flow_.selfadjointView<Eigen::Lower>() * pressure_kPa.matrix()).array();
}

void PoreWater::evaluate(const Eigen::ArrayXd& squeezed_m3_m) {
    squeezed_ = squeezed_m3_m;
    // The jump stabilization acts on the increment, flow and leak on the pressure itself: solved for the increment.
    Eigen::ArrayXd source = squeezed_;
    if (water_.drainage == Drainage::Coupled)
        source -= duration_s_ * (leak_ * kept_ + outflow(kept_));
    // Storage has a kink where cavitation begins: the set of cavitating cells is repeated until it stands.
    for (int pass = 0; pass < most_passes; ++pass) {
        const Eigen::ArrayXd slope = factored_hollow_.select(hollow_storage_, storage_);
        const Eigen::ArrayXd right = source + stored(kept_) - slope * (kept_ - cavitation_);
        trial_ = kept_ + cholesky_.solve(right.matrix()).array();
        const auto now = hollow(trial_).eval();
        if ((now == factored_hollow_).all())
            return;
        const Eigen::ArrayXd change = now.select(hollow_storage_, storage_) - slope;
        for (Eigen::Index cell = 0; cell < change.size(); ++cell)
            matrix_.coeffRef(cell, cell) += change(cell);
        factored_hollow_ = now;
        factor();
    }
}

void PoreWater::keep() {
    balance_.squeezed += squeezed_.sum();
    balance_.stored += (stored(trial_) - stored(kept_)).sum();
    if (water_.drainage == Drainage::Coupled) {
        balance_.leaked += duration_s_ * (leak_ * trial_).sum();
        balance_.through_sides += duration_s_ * (through_sides_ * trial_).sum();
        time_s_ += duration_s_;
    }
    kept_ = trial_;
}

void PoreWater::restore(const KeptWater& kept) {
    kept_ = trial_ = kept.pressure_kPa;
    time_s_ = kept.time_s;
    balance_ = kept.balance;
}

Eigen::Matrix2Xd PoreWater::discharge_m_s(const FlowState& state) const {
    Eigen::Matrix2Xd sum = Eigen::Matrix2Xd::Zero(2, state.void_ratio.size());
    if (water_.drainage != Drainage::Coupled)
        return sum;
    const mesh::Grid& grid = state.grid;
    for (const FlowQuad& quad : flow_of(state)) {
        Eigen::Vector4d pressure;
        for (int n = 0; n < 4; ++n)
            pressure(n) = quad.cell[n] < 0 ? 0 : kept_(quad.cell[n]);
        const Eigen::Vector2d at_node = quad.discharge * pressure;
        for (int j = std::max(quad.node_y - 1, 0); j <= std::min(quad.node_y, grid.cells_y - 1); ++j)
            for (int i = std::max(quad.node_x - 1, 0); i <= std::min(quad.node_x, grid.cells_x - 1); ++i)
                sum.col(j * grid.cells_x + i) += 0.25 * at_node;
    }
    return sum;
}

} // namespace interpile::solver
