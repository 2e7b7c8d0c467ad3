#pragma once
// Critical state line of a sand of which only the void ratios in its loosest and densest state are known.

namespace interpile::solver {

/// e_c = e_0 - lambda_c (p'/p_a)^xi, p_a = 101.325 kPa.
struct CriticalLine {
    double e0 = 0.934, lambda_c = 0.019, xi = 0.7;
    /// \param mean_stress_kPa > 0
    double void_ratio(double mean_stress_kPa) const;
};

/// Toyoura sand, from memory of Dafalias & Manzari (2004), J. Eng. Mech. 130(6), 622-634.
inline constexpr CriticalLine toyoura_line = {};
/// Toyoura sand, from memory of Verdugo & Ishihara (1996), Soils and Foundations 36(2), 81-91.
inline constexpr double toyoura_e_max = 0.977, toyoura_e_min = 0.597;

/// The line at whose every mean stress the sand has the relative density that Toyoura sand has there. Own choice: no
/// source says that sands share it.
/// \param e_max, e_min  e_min < e_max
CriticalLine line_of_toyoura_density(double e_max, double e_min);

/// The line nearest to I_D = R/(Q - ln p'), where the relative dilatancy I_R = I_D (Q - ln p') - R vanishes (from memory of
/// Bolton (1986), Geotechnique 36(1), 65-78): least squares over 10 .. 1000 kPa at equal distances in ln p'. With Q 10 and
/// R 1 it is within 0.0032 in I_D there. Own choice: Bolton fitted I_R to peaks, not to critical states.
/// \param Q  > ln(1000)
CriticalLine line_after_bolton(double e_max, double e_min, double Q, double R);

} // namespace interpile::solver
