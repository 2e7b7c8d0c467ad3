#pragma once
#include "solver/soil_model.h"

#include <array>

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
/// The stress return is exact for the increment: the plastic strain is a non-negative sum of the flow
/// directions of the planes that are active at the end (planes, edges and corners in principal stress space).
/// Source of yield and flow functions: from memory of Vermeer & de Borst (1984), Heron 29(3); of the return
/// by planes and edges: from memory of de Souza Neto, Peric & Owen (2008), Computational Methods for
/// Plasticity, ch. 8. Holds for monotonic loading of drained sand. Elastic inside a fixed yield surface: it
/// cannot show densification by repeated strokes, and its strength does not follow the density.
class MohrCoulomb final : public SoilModel {
public:
    MohrCoulomb(std::string name, const MohrCoulombParameters& parameters);

    std::string name() const override { return name_; }
    /// \throws std::runtime_error if no admissible stress is found (not a number in the motion)
    void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                Eigen::Index count) const override;
    ElasticModuli moduli(const SoilState& state, Eigen::Index cell) const override;
    bool densifies_by_cycles() const override { return false; }
    std::string refuse_at_rest(double vertical_stress_kPa, double K0) const override;

    /// Principal stresses s[0] >= s[1] >= s[2] brought back to the yield surface. Compression positive [kPa].
    /// \return whether the trial was outside
    bool bring_back(std::array<double, 3>& s) const;

private:
    static constexpr int plane_count = 6;
    struct Plane {
        std::array<double, 3> yield; ///< f = yield . s - limit
        std::array<double, 3> flow;  ///< direction of plastic strain, shortening positive
        std::array<double, 3> fall;  ///< D flow: stress taken away per unit of plastic multiplier
        double limit;
    };
    Plane plane(std::array<double, 3> yield, std::array<double, 3> flow, double limit) const;
    bool admissible(const std::array<double, 3>& s) const;
    template <int N>
    bool try_planes(const std::array<int, N>& active, std::array<double, 3>& s) const;

    std::string name_;
    MohrCoulombParameters parameters_;
    double G_, lambda_;
    double sin_phi_, strength_; ///< strength_ = 2 c cos(phi) [kPa]
    std::array<Plane, plane_count> planes_;
    double inverse_main_ = 0; ///< 1 / (yield . fall) of the main plane
};

} // namespace interpile::solver
