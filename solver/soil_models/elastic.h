#pragma once
#include "solver/soil_model.h"

namespace interpile::solver {

/// Isotropic linear elasticity in the logarithmic strain (Hencky), corotational. Cannot yield; for
/// verification and for first estimates of displacement far from the piles.
class Elastic final : public SoilModel {
public:
    /// \param shear_modulus_kPa > 0,
    /// \param poisson_ratio in [0, 0.5)
    Elastic(double shear_modulus_kPa, double poisson_ratio);

    std::string name() const override { return "elastic"; }
    void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                Eigen::Index count) const override;
    ElasticModuli moduli(const SoilState& state, Eigen::Index cell) const override;
    bool densifies_by_cycles() const override { return false; }
    std::string refuse_at_rest(double vertical_stress_kPa, double K0) const override;

private:
    double G_, lambda_;
};

} // namespace interpile::solver
