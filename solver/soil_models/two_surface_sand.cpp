#include "solver/soil_models/two_surface_sand.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::solver {
namespace {

enum HistoryColumn : int { BackStress = 0, AtReversal = 4, Fabric = 8 };

/// Columns [first, first + 4) of an array as a tensor turned in plan by the rotation of the cell.
SandTensor<4> turned(const Eigen::ArrayXXd& from, Eigen::Index cell, int first, double c, double s) {
    const double xx = from(cell, first), yy = from(cell, first + 1), xy = from(cell, first + 3);
    const double cross = 2 * c * s * xy;
    return {{c * c * xx + s * s * yy - cross, s * s * xx + c * c * yy + cross, from(cell, first + 2),
             c * s * (xx - yy) + (c * c - s * s) * xy}};
}

void put(Eigen::ArrayXXd& to, Eigen::Index cell, int first, const SandTensor<4>& t) {
    for (int k = 0; k < 4; ++k)
        to(cell, first + k) = t[k];
}

} // namespace

TwoSurfaceSand::TwoSurfaceSand(const TwoSurfaceConstants& constants, const SubstepSettings& settings)
    : constants_(constants), settings_(settings), integration_(constants_, settings_),
      lanes_(constants_, settings_, integration_) {
    // n is the direction of r - a, whose size is m: a thin cone turns small errors of r into large ones of n. Measured in
    // dense drained triaxial and biaxial tests (own runs): this keeps q within 0.1 % at m 0.05 and 0.01.
    settings_.tolerance = std::min(settings.tolerance, 0.04 * constants.m * constants.m);
}

void TwoSurfaceSand::initialize(SoilState& state) const {
    for (Eigen::Index cell = 0; cell < state.void_ratio.size(); ++cell) {
        const SandTensor<4> S = turned(state.stress, cell, 0, 1, 0);
        const double p = mean_stress(S, constants_);
        const SandTensor<4> r = stress_ratio(S, p);
        put(state.history, cell, BackStress, r);
        put(state.history, cell, AtReversal, r);
        put(state.history, cell, Fabric, {});
    }
}

void TwoSurfaceSand::update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                            Eigen::Index count) const {
    const auto load = [&](Eigen::Index cell, SandState<4>& state, SandTensor<4>& dE) {
        const double c = motion(cell, RotationCos), s = motion(cell, RotationSin);
        state = {turned(start.stress, cell, 0, c, s), turned(start.history, cell, BackStress, c, s),
                 turned(start.history, cell, AtReversal, c, s), turned(start.history, cell, Fabric, c, s),
                 start.void_ratio(cell)};
        dE = {
            {motion(cell, StrainXX), motion(cell, StrainYY), motion(cell, StrainZZ), motion(cell, StrainXY)}};
    };
    const auto store = [&](Eigen::Index cell, const SandState<4>& state, bool plastic) {
        put(end.stress, cell, 0, state.S);
        put(end.history, cell, BackStress, state.a);
        put(end.history, cell, AtReversal, state.a_in);
        put(end.history, cell, Fabric, state.z);
        end.void_ratio(cell) = state.e;
        end.yielding(cell) = plastic;
    };
    lanes_.advance(first, count, load, store);
}

ElasticModuli TwoSurfaceSand::moduli(const SoilState& state, Eigen::Index cell) const {
    const double p = std::max((state.stress(cell, 0) + state.stress(cell, 1) + state.stress(cell, 2)) / 3,
                              constants_.p_min);
    const double G = sand_shear_modulus(p, state.void_ratio(cell), constants_);
    return {sand_bulk_modulus(G, constants_), G};
}

std::string TwoSurfaceSand::refuse_at_rest(double vertical_stress_kPa, double K0) const {
    if (vertical_stress_kPa < constants_.p_min)
        return fmt::format("this sand needs a vertical stress of at least {} kPa", constants_.p_min);
    // q/p = 3 (1-K0)/(1+2 K0) between -c M (extension) and M (compression).
    const double lowest = (3 - constants_.M) / (3 + 2 * constants_.M);
    const double highest = (3 + constants_.c * constants_.M) / (3 - 2 * constants_.c * constants_.M);
    if (K0 >= lowest && K0 <= highest)
        return {};
    return fmt::format("K0 must lie between {:.3f} and {:.3f}, the critical states of M {} and c {}", lowest,
                       highest, constants_.M, constants_.c);
}

} // namespace interpile::solver
