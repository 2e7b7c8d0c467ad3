#pragma once
#include "solver/soil_model.h"
#include "solver/soil_models/two_surface_lanes.h"

namespace interpile::solver {

/// Two-surface critical-state sand: strength, dilatancy and stiffness follow density and mean stress, and strain cycles
/// densify it. Source of the equations: from memory of Dafalias & Manzari (2004), J. Eng. Mech. 130(6), 622-634.
///
/// History per cell: back-stress ratio a, its value at the last reversal a_in, fabric z, each xx, yy, zz, xy.
/// Cannot show grain crushing (no cap), pore pressure, or small-strain stiffness above 0.4 of the dynamic one (its
/// constants are fitted to triaxial strains).
class TwoSurfaceSand final : public SoilModel {
public:
    /// The tolerance of the settings is lowered to 0.04 m^2 where it is larger.
    explicit TwoSurfaceSand(const TwoSurfaceConstants& constants, const SubstepSettings& settings = {});
    TwoSurfaceSand(const TwoSurfaceSand&) = delete; // its parts look at the other members
    TwoSurfaceSand& operator=(const TwoSurfaceSand&) = delete;

    std::string name() const override { return "two-surface-sand"; }
    Eigen::Index history_size() const override { return 12; }
    /// The cone starts around the stress at rest, without memory of earlier shearing.
    void initialize(SoilState& state) const override;
    /// \throws std::runtime_error naming the cell where no stress is found
    void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                Eigen::Index count) const override;
    ElasticModuli moduli(const SoilState& state, Eigen::Index cell) const override;
    bool densifies_by_cycles() const override { return true; }
    /// K0 must lie inside the critical state in both compression and extension.
    std::string refuse_at_rest(double vertical_stress_kPa, double K0) const override;
    std::optional<double> void_ratio_at_critical_state(double mean_stress_kPa) const override {
        return critical_void_ratio(mean_stress_kPa, constants_);
    }
    std::optional<double> critical_stress_ratio(bool extension) const override {
        return extension ? constants_.c * constants_.M : constants_.M;
    }

private:
    TwoSurfaceConstants constants_;
    SubstepSettings settings_;
    TwoSurfaceIntegration<4> integration_;
    TwoSurfaceLanes<4> lanes_;
};

} // namespace interpile::solver
