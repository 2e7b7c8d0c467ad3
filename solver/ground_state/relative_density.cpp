#include "solver/ground_state/relative_density.h"

#include "solver/ground_state/meyerhof.h"
#include "solver/ground_state/void_ratio_limits.h"
#include "solver/number_check.h"

#include <algorithm>
#include <cmath>

namespace interpile::solver {
namespace {

constexpr double atmosphere_kPa = 101.325;
constexpr double exponent_cap = 46; // (N1)60 beyond which the exponent stays

double remarked(double density_pct, Remarks& remarks) {
    if (density_pct > 100)
        remarks.push_back("relative density above 100 %");
    return density_pct;
}

void remark_fines(const SandSample& sample, Remarks& remarks) {
    if (sample.fines_pct > 10)
        remarks.push_back("fines above 10 %: a relation for clean sand gives too low a density");
}

double cubrinovski_ishihara_pct(const SandSample& sample, double void_ratio_range) {
    const double n78 = sample.blow_count * sample.energy_ratio_pct / 78;
    const double c_d = 9 / std::pow(void_ratio_range, 1.7);
    return 100 * std::sqrt(n78 * std::sqrt(98 / sample.effective_stress_kPa) / c_d);
}

const char* const cubrinovski_source =
    "from memory of Cubrinovski & Ishihara (1999), Soils and Foundations 39(5)";

} // namespace

NormalizedBlowCount normalized_blow_count(double n60, double effective_stress_kPa) {
    require_between("n60", n60, 0, std::numeric_limits<double>::max());
    require_positive("effective_stress_kPa", effective_stress_kPa);
    const auto factor = [&](double n1_60) {
        const double exponent = 0.784 - 0.0768 * std::sqrt(std::min(n1_60, exponent_cap));
        return std::min(1.7, std::pow(atmosphere_kPa / effective_stress_kPa, exponent));
    };
    // Bisection on C_N: a fixed point may swing at large stress. factor(n60 C) - C falls from positive to not
    // positive.
    double low = 0, high = 1.7;
    while (true) {
        const double middle = 0.5 * (low + high);
        if (middle <= low || middle >= high)
            return {high, high * n60};
        (factor(middle * n60) > middle ? low : high) = middle;
    }
}

std::span<const Relation> relative_density_relations() {
    static const std::vector<Relation> relations{
        {"meyerhof-1957", "from memory of Meyerhof (1957), metric form", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             remark_fines(s, remarks);
             return remarked(meyerhof_relative_density_pct(s.blow_count, s.effective_stress_kPa), remarks);
         }},
        {"method-d", "from memory of the trade, fines term of Tokimatsu & Yoshimi (1983); medium confidence",
         "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             return remarked(meyerhof_relative_density_pct(s.blow_count, s.effective_stress_kPa,
                                                           fines_increment(s.fines_pct)),
                             remarks);
         }},
        {"idriss-boulanger-2008", "from memory of Idriss & Boulanger (2008), EERI MNO-12; C_d 46 of 35 .. 55",
         "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             remark_fines(s, remarks);
             const double n60 = s.blow_count * s.energy_ratio_pct / 60;
             const double n1_60 = normalized_blow_count(n60, s.effective_stress_kPa).n1_60;
             return remarked(100 * std::sqrt(n1_60 / 46), remarks);
         }},
        {"cubrinovski-ishihara-1999", cubrinovski_source, "e_max and e_min",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.e_max || !s.e_min)
                 return {};
             return remarked(cubrinovski_ishihara_pct(s, *s.e_max - *s.e_min), remarks);
         }},
        {"cubrinovski-ishihara-1999-d50", cubrinovski_source, "d50_mm",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (std::isnan(s.d50_mm))
                 return {};
             if (s.d50_mm <= 0.1)
                 remarks.push_back("D50 not above 0.1 mm: outside the range of the relation");
             remarks.push_back("e_max - e_min not measured: from D50, too large for uniform clean sand");
             return remarked(cubrinovski_ishihara_pct(s, void_ratio_range_by_d50(s.d50_mm)), remarks);
         }},
    };
    return relations;
}

} // namespace interpile::solver
