#pragma once
// A single element of soil under prescribed strains and stresses, one component each: the laboratory test of a soil model.

#include "solver/soil_model.h"

#include <array>

namespace interpile::solver {

/// What is prescribed for one of xx, yy, zz, xy over a step.
struct ElementControl {
    /// LikeXX: the strain of xx, for the second radial direction of a triaxial test.
    /// MeanStress: the strain is free, and the mean stress prescribed instead of this component.
    enum Kind { Strain, Stress, LikeXX, MeanStress } kind = Strain;
    double value = 0; ///< strain increment (shortening positive; xy tensor shear) or stress at the end [kPa]
};

class ElementTest {
public:
    /// \param stress  xx, yy, zz, xy at the start, compression positive [kPa]
    ElementTest(const SoilModel& soil, const std::array<double, 4>& stress, double void_ratio);

    /// One step, kept if the prescribed stresses are met within 1e-5 of the mean stress (Newton iteration on the free
    /// strains with a matrix by differences).
    /// \return false and nothing kept if they cannot be met
    bool step(const std::array<ElementControl, 4>& control);

    std::array<double, 4> stress() const;                           ///< [kPa]
    const std::array<double, 4>& strain() const { return strain_; } ///< since the start, shortening positive
    double volumetric_strain() const { return strain_[0] + strain_[1] + strain_[2]; }
    double mean_stress_kPa() const;
    double void_ratio() const { return state_.void_ratio(0); }

private:
    std::array<double, 4> try_strain(const std::array<double, 4>& increment,
                                     const std::array<ElementControl, 4>& control);

    const SoilModel* soil_; ///< a pointer, so that an element can be put back to an earlier state
    SoilState state_, trial_;
    Motion motion_;
    std::array<double, 4> strain_{};
    std::array<double, 4> last_{}; ///< strain increment of the step before, the first guess of the next
};

} // namespace interpile::solver
