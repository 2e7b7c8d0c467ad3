#pragma once
#include "solver/soil_model.h"
#include "solver/soil_models/mohr_coulomb_return.h"

namespace interpile::solver {

struct MohrCoulombParameters {
    double friction_angle_deg = 33;  // phi
    double dilation_angle_deg = 3;   // psi, 0 .. phi or negative (contraction)
    double cohesion_kPa = 0;         // c
    double tension_strength_kPa = 0; // T, no more than c cot(phi)
    double shear_modulus_kPa = 8e3;  // G
    double poisson_ratio = 0.3;      // nu
};

/// Mohr-Coulomb strength with constant dilation and a tension cut-off, perfectly plastic. With phi = psi = 0
/// it is Tresca's criterion.
///
/// The return to the surface is in mohr_coulomb_return.h. Holds for monotonic loading of drained sand. Elastic
/// inside a fixed yield surface: it cannot show densification by repeated strokes, and its strength does not
/// follow the density.
class MohrCoulomb final : public SoilModel {
public:
    MohrCoulomb(std::string name, const MohrCoulombParameters& parameters);

    std::string name() const override { return name_; }
    /// \throws std::runtime_error if the motion is not a number
    void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                Eigen::Index count) const override;
    ElasticModuli moduli(const SoilState& state, Eigen::Index cell) const override;
    bool densifies_by_cycles() const override { return false; }
    std::string refuse_at_rest(double vertical_stress_kPa, double K0) const override;

private:
    std::string name_;
    MohrCoulombParameters parameters_;
    MohrCoulombStrength strength_;
    double G_, lambda_;
    MohrCoulombReturn surface_;
};

} // namespace interpile::solver
