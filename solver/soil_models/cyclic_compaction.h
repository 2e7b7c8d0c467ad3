#pragma once
// Compaction of sand by cycles of shear strain.

#include <algorithm>
#include <cmath>

namespace interpile::solver {

/// Deviatoric strain of a cell, shortening positive: xx, yy, xy (tensor shear); zz = -xx - yy.
struct PlaneDeviator {
    double xx = 0, yy = 0, xy = 0;

    friend PlaneDeviator operator+(const PlaneDeviator& a, const PlaneDeviator& b) {
        return {a.xx + b.xx, a.yy + b.yy, a.xy + b.xy};
    }
    friend PlaneDeviator operator*(double f, const PlaneDeviator& a) {
        return {f * a.xx, f * a.yy, f * a.xy};
    }
    /// 2 a : b
    friend double product(const PlaneDeviator& a, const PlaneDeviator& b) {
        return 2 * (a.xx * b.xx + a.yy * b.yy + (a.xx + a.yy) * (b.xx + b.yy) + 2 * a.xy * b.xy);
    }
};

/// Engineering shear strain gamma = sqrt(2 e : e): gamma itself in simple shear, sqrt(3) times the axial one in
/// undrained triaxial loading.
inline double shear_strain(const PlaneDeviator& e) {
    return std::sqrt(product(e, e));
}

/// What a cell remembers of its shearing. Strains are fractions.
struct ShearMemory {
    PlaneDeviator since_reversal; ///< strain path from the last reversal to now
    PlaneDeviator from_center;    ///< strain from the middle of the earlier range to now
    double radius = 0;            ///< half the earlier range, as shear strain
    double furthest = 0;          ///< largest shear strain since the last reversal
    double compaction = 0;        ///< volumetric strain by cycles that is still there
    double at_reversal = 0;       ///< the same at the last reversal
    double C1 = 0;                ///< of the half cycle under way
};

/// Compaction per half cycle, gamma its single amplitude (half of the strain between two reversals):
///
///     0.5 gamma C1 exp(-C2 eps/gamma),  C1 = 7600 D_r^-2.5 (D_r in %),  C2 = 0.4/C1
///
/// Source: from memory of Byrne (1991), 2nd Int. Conf. on Recent Advances in Geotechnical Earthquake Engineering, St.
/// Louis, after Martin, Finn & Seed (1975), J. Geotech. Eng. Div. ASCE 101(GT5). D_r is the density without the
/// compaction eps itself, which the exponent accounts for.
///
/// Our own, to make it a law for any strain path:
/// - the compaction grows with the half cycle, from 0 to the value above, so that it does not depend on increments;
/// - only shear inside the earlier range compacts. That range is the smallest ball in the space of shear strain that
///   holds the old one and the present strain (in one dimension: between the extremes so far). Beyond it the sand is
///   sheared for the first time, and its volume follows from dilation alone;
/// - a reversal is noted once the path has come back from its furthest point by more than the threshold, and lies at
///   that point;
/// - the factor gamma before C1 is less by the threshold, so that compaction begins without a step.
class CyclicCompaction {
public:
    /// \param factor     on C1; 0: no compaction
    /// \param threshold  shear strain amplitude [-]
    CyclicCompaction(double factor, double threshold, double e_max, double e_min)
        : factor_(factor), threshold_(threshold), e_max_(e_max), e_min_(e_min) {}

    /// C1 at a void ratio; relative densities below 20 % count as 20 %, far outside of the tests.
    double constant(double void_ratio) const;

    /// Follow a straight increment of shear strain. The memory of a cell is first turned with it.
    /// \param void_ratio  at the start of the increment
    /// \return compaction of the increment, contraction positive [-]
    double advance(ShearMemory& memory, const PlaneDeviator& increment, double void_ratio) const;

    /// Dilation takes compaction back, so that the sand can be compacted again.
    /// \param plastic_volumetric  of the increment, contraction positive [-]
    static void loosen(ShearMemory& memory, double plastic_volumetric);

private:
    /// Compaction since the last reversal where the single amplitude is gamma.
    double half_cycle(const ShearMemory& memory, double gamma) const;
    /// Least shear strain since the last reversal during an increment that ends at `strain`.
    static double nearest_to_reversal(const PlaneDeviator& before, const PlaneDeviator& increment,
                                      double strain);
    /// Part 0 .. 1 of an increment that lies inside the earlier range; the range then takes in the new strain.
    static double share_inside(ShearMemory& memory, const PlaneDeviator& increment);

    double factor_, threshold_, e_max_, e_min_;
};

inline double CyclicCompaction::constant(double void_ratio) const {
    const double relative_density_pct = std::max(20.0, 100 * (e_max_ - void_ratio) / (e_max_ - e_min_));
    return factor_ * 7600 * std::pow(relative_density_pct, -2.5);
}

inline double CyclicCompaction::half_cycle(const ShearMemory& memory, double gamma) const {
    if (gamma <= threshold_)
        return 0;
    const double C2 = 0.4 / memory.C1;
    return 0.5 * (gamma - threshold_) * memory.C1 * std::exp(-C2 * memory.at_reversal / gamma);
}

inline double CyclicCompaction::share_inside(ShearMemory& memory, const PlaneDeviator& increment) {
    const PlaneDeviator before = memory.from_center;
    memory.from_center = before + increment;
    const double distance = shear_strain(memory.from_center);
    if (distance <= memory.radius)
        return 1;
    // |before + share increment| = radius
    const double a = product(increment, increment), b = product(before, increment);
    const double c = std::min(0.0, product(before, before) - memory.radius * memory.radius);
    const double share = a > 0 ? (std::sqrt(b * b - a * c) - b) / a : 0;
    const double radius = 0.5 * (distance + memory.radius);
    memory.from_center = radius / distance * memory.from_center;
    memory.radius = radius;
    return std::clamp(share, 0.0, 1.0);
}

inline double CyclicCompaction::nearest_to_reversal(const PlaneDeviator& before,
                                                    const PlaneDeviator& increment, double strain) {
    const double a = product(increment, increment), b = product(before, increment);
    if (b >= 0 || -b >= a) // away from it all the time, or nearer all the time
        return strain;
    return std::sqrt(std::max(0.0, product(before, before) - b * b / a));
}

inline double CyclicCompaction::advance(ShearMemory& memory, const PlaneDeviator& increment,
                                        double void_ratio) const {
    PlaneDeviator before = memory.since_reversal;
    memory.since_reversal = before + increment;
    double strain = shear_strain(memory.since_reversal);
    double furthest_before = memory.furthest;
    if (nearest_to_reversal(before, increment, strain) < memory.furthest - threshold_) {
        // The furthest point lies at most a threshold beyond the start of the increment, on its ray.
        before = (1 - memory.furthest / shear_strain(before)) * before;
        memory.since_reversal = before + increment;
        strain = shear_strain(memory.since_reversal);
        furthest_before = memory.furthest = 0;
        memory.at_reversal = memory.compaction;
        memory.C1 = constant((1 + void_ratio) * std::exp(memory.compaction) - 1);
    }
    const double inside = share_inside(memory, increment);
    if (strain <= furthest_before)
        return 0;
    memory.furthest = strain;
    if (inside == 0 || memory.C1 == 0)
        return 0;
    // Two reversals are 2 gamma apart.
    const double reached = inside == 1 ? strain : shear_strain(before + inside * increment);
    if (reached <= furthest_before)
        return 0;
    const double amount = half_cycle(memory, 0.5 * reached) - half_cycle(memory, 0.5 * furthest_before);
    memory.compaction += amount;
    return amount;
}

inline void CyclicCompaction::loosen(ShearMemory& memory, double plastic_volumetric) {
    memory.compaction = std::max(0.0, memory.compaction + std::min(0.0, plastic_volumetric));
}

} // namespace interpile::solver
