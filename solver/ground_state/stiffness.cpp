#include "solver/ground_state/stiffness.h"

#include "solver/ground_state/void_ratio_limits.h"

#include <cmath>

namespace interpile::solver {
namespace {

constexpr double gravity_m_s2 = 9.81;
constexpr double kPa_per_kgf_cm2 = 98.0665;
constexpr double atmosphere_kPa = 101.325;

double modulus_of_velocity_kPa(const SandSample& sample, double velocity_m_s) {
    const double density_t_m3 = sample.unit_weight_kN_m3 / gravity_m_s2;
    return density_t_m3 * velocity_m_s * velocity_m_s;
}

double mean_stress_kPa(const SandSample& sample) {
    return sample.effective_stress_kPa * (1 + 2 * sample.lateral_stress_ratio) / 3;
}

/// F(e) = (a - e)^2/(1 + e).
double void_ratio_function(double a, double e) {
    return (a - e) * (a - e) / (1 + e);
}

/// G0 = A F(e) p^0.5, up to a void ratio.
Relation root_relation(const char* key, const char* source, double factor, double a,
                       double highest_void_ratio) {
    return {key, source, "", [=](const SandSample& s, Remarks& remarks) -> std::optional<double> {
                const double e = assumed_void_ratio(s, remarks);
                if (e >= highest_void_ratio)
                    remarks.push_back("void ratio above the range of the relation");
                return factor * void_ratio_function(a, e) * std::sqrt(mean_stress_kPa(s));
            }};
}

Relation blow_count_relation(const char* key, const char* source, double kPa_per_blow) {
    return {key, source, "", [=](const SandSample& s, Remarks&) -> std::optional<double> {
                return kPa_per_blow * s.blow_count;
            }};
}

} // namespace

std::span<const Relation> small_strain_modulus_relations() {
    constexpr double all = 2.17; // where F(e) vanishes
    static const std::vector<Relation> relations{
        {"highway-bridges", "from memory of the specifications for highway bridges (Japan)", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (s.blow_count > 50)
                 remarks.push_back("N above 50: outside the range of the relation");
             return modulus_of_velocity_kPa(s, 80 * std::cbrt(s.blow_count));
         }},
        {"imai-tonouchi-1982", "from memory of Imai & Tonouchi (1982), ESOPT 2", "",
         [](const SandSample& s, Remarks&) -> std::optional<double> {
             return modulus_of_velocity_kPa(s, 97 * std::pow(s.blow_count, 0.314));
         }},
        root_relation("hardin-richart-1963-round",
                      "from memory of Hardin & Richart (1963), J. Soil Mech. Found. Div. 89(1), round grains",
                      6906, 2.17, 0.80),
        root_relation(
            "hardin-richart-1963-angular",
            "from memory of Hardin & Richart (1963), J. Soil Mech. Found. Div. 89(1), angular grains", 3230,
            2.97, 2.97),
        root_relation("kokusho-1980",
                      "from memory of Kokusho (1980), Soils and Foundations 20(2), Toyoura sand", 8400, 2.17,
                      all),
        {"iwasaki-tatsuoka-1977",
         "from memory of Iwasaki & Tatsuoka (1977), Soils and Foundations 17(3), clean sand", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (s.fines_pct > 5)
                 remarks.push_back("fines above 5 %: the relation is for clean sand");
             const double e = assumed_void_ratio(s, remarks);
             return kPa_per_kgf_cm2 * 900 * void_ratio_function(2.17, e) *
                    std::pow(mean_stress_kPa(s) / kPa_per_kgf_cm2, 0.38);
         }},
        {"hardin-1978", "from memory of Hardin (1978), ASCE specialty conference, Pasadena", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             const double e = assumed_void_ratio(s, remarks);
             return 625 * atmosphere_kPa * std::sqrt(mean_stress_kPa(s) / atmosphere_kPa) /
                    (0.3 + 0.7 * e * e);
         }},
    };
    return relations;
}

std::span<const Relation> young_modulus_relations() {
    static const std::vector<Relation> relations{
        blow_count_relation("highway-bridges",
                            "from memory of the specifications for highway bridges (Japan), static", 2800),
        blow_count_relation("building-fresh",
                            "from memory of the architectural guide for foundations (Japan), fresh sand",
                            1400),
        blow_count_relation(
            "building-overconsolidated",
            "from memory of the architectural guide for foundations (Japan), overconsolidated sand", 2800),
    };
    return relations;
}

} // namespace interpile::solver
