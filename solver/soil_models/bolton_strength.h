#pragma once
// Friction and dilation of sand from its density and mean stress.

#include "solver/soil_models/mohr_coulomb_return.h"

#include <algorithm>
#include <cmath>

namespace interpile::solver {

/// Source: from memory of Bolton (1986), Geotechnique 36(1), 65-78, plane strain:
///
///     I_R = I_D (Q - ln p') - R,   phi = phi_crit + 5 I_R deg = phi_crit + 0.8 psi
///
/// Bolton means p' at failure and the largest dilation; here density and mean stress of the moment are put in, so that
/// strength and dilation fade to the critical state as the sand loosens. Own choice: I_R goes on below zero, where loose
/// sand contracts. His other fit, a dilation rate of 0.3 I_R, gives 2 sin(psi)/(1 - sin(psi)) within 20 % of this one.
struct BoltonStrength {
    double critical_friction_angle_deg = 33;
    double Q = 10; ///< crushing strength of the grains, as ln(kPa)
    double R = 1;
    double least_mean_stress_kPa = 150; ///< p' below it counts as this
    double e_max = 0.977, e_min = 0.597;

    static constexpr double lowest_index = -1, highest_index = 4; ///< Bolton: 0 .. 4

    /// I_R [-]. \param log_mean_stress  ln(p'/1 kPa)
    double index(double void_ratio, double log_mean_stress) const {
        const double I_D = (e_max - void_ratio) / (e_max - e_min);
        const double log_p = std::max(log_mean_stress, std::log(least_mean_stress_kPa));
        return std::clamp(I_D * (Q - log_p) - R, lowest_index, highest_index);
    }
    double friction_angle_deg(double index) const { return critical_friction_angle_deg + 5 * index; }
    static double dilation_angle_deg(double index) { return 5 * index / 0.8; }

    /// Void ratio at I_R = 0. \param mean_stress_kPa > 0
    double critical_void_ratio(double mean_stress_kPa) const {
        const double I_D = R / (Q - std::log(std::max(mean_stress_kPa, least_mean_stress_kPa)));
        return e_max - I_D * (e_max - e_min);
    }
};

} // namespace interpile::solver
