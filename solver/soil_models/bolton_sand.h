#pragma once
#include "solver/soil_model.h"
#include "solver/soil_models/bolton_strength.h"
#include "solver/soil_models/cyclic_compaction.h"

namespace interpile::solver {

struct BoltonSandParameters {
    double shear_modulus_kPa = 8e3;     // G_100, at a mean stress of 100 kPa
    double stiffness_exponent = 0.5;    // n
    double poisson_ratio = 0.3;         // nu
    BoltonStrength strength;            // holds e_max and e_min too
    double compaction_factor = 1;       // on C1
    double compaction_threshold = 5e-5; // shear strain amplitude [-]
};

/// Mohr-Coulomb sand whose friction and dilation follow density and mean stress (bolton_strength.h) and which cycles of
/// shear strain compact (cyclic_compaction.h).
///
/// Stiffness G = G_100 (p'/100 kPa)^n, as Hardin & Richart (1963) found with n = 0.5 (from memory of J. Soil Mech. Found.
/// Div. ASCE 89(SM1)); the effect of density on it is left out.
///
/// During an increment stiffness, friction and dilation are those of the last kept state; the error is of first order in
/// the increment. The compaction of an increment is taken out of the elastic-plastic strain of the next one, so that it
/// relaxes the stress where the volume is held. At once, it would feed back on the iteration of the solver through the
/// shear strain: seven times the iterations in the demonstration case, and the same density.
/// Cannot show fabric, stress-induced anisotropy, or plastic strain inside the yield surface other than compaction.
class BoltonSand final : public SoilModel {
public:
    explicit BoltonSand(const BoltonSandParameters& parameters);

    std::string name() const override { return "bolton-sand"; }
    /// ShearMemory and the compaction of the last kept increment.
    Eigen::Index history_size() const override { return 12; }
    /// No earlier shearing.
    void initialize(SoilState& state) const override;
    /// \throws std::runtime_error if the motion is not a number
    void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                Eigen::Index count) const override;
    ElasticModuli moduli(const SoilState& state, Eigen::Index cell) const override;
    bool densifies_by_cycles() const override { return parameters_.compaction_factor > 0; }
    /// The stress must be admissible at the critical state, whatever the density.
    std::string refuse_at_rest(double vertical_stress_kPa, double K0) const override;
    std::optional<double> void_ratio_at_critical_state(double mean_stress_kPa) const override {
        return parameters_.strength.critical_void_ratio(mean_stress_kPa);
    }

private:
    /// \param log_mean_stress  ln(p'/1 kPa) [kPa]
    double shear_modulus(double log_mean_stress) const;

    BoltonSandParameters parameters_;
    CyclicCompaction compaction_;
    double lambda_over_G_;
    double least_sin_phi_; ///< at the lowest index
};

} // namespace interpile::solver
