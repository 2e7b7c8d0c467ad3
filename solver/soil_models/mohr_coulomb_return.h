#pragma once
// Return of principal stresses to the surface of Mohr-Coulomb with a tension cut-off.

#include <array>
#include <utility>

namespace interpile::solver {

struct MohrCoulombStrength {
    double sin_phi = 0;
    double sin_psi = 0;  ///< no larger than sin_phi
    double cohesive = 0; ///< 2 c cos(phi) [kPa]
    double tension = 0;  ///< T, no more than c cot(phi) [kPa]
};

/// Least and greatest sigma_h'/sigma_v' at rest, both horizontal directions alike, for sigma_v' > 0 [kPa].
std::pair<double, double> K0_limits(const MohrCoulombStrength& strength, double vertical_stress_kPa);

/// The return is exact for the increment: the plastic strain is a non-negative sum of the flow directions of the planes
/// that are active at the end (planes, edges and corners in principal stress space).
/// Source of yield and flow functions: from memory of Vermeer & de Borst (1984), Heron 29(3); of the return by planes and
/// edges: from memory of de Souza Neto, Peric & Owen (2008), Computational Methods for Plasticity, ch. 8.
/// Fixed size and cheap to make, so that a law may have another strength in every cell.
class MohrCoulombReturn {
public:
    /// \param lambda  Lame's constant,
    /// \param G  shear modulus [kPa]
    MohrCoulombReturn(const MohrCoulombStrength& strength, double lambda, double G);

    /// Principal stresses s[0] >= s[1] >= s[2] brought back to the yield surface. Compression positive [kPa].
    /// \return whether the trial was outside
    /// \throws std::runtime_error if they are not numbers
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

    double G_, lambda_, strength_, tension_;
    std::array<Plane, plane_count> planes_;
    double inverse_main_; ///< 1 / (yield . fall) of the main plane
};

} // namespace interpile::solver
