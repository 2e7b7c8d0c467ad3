#include "solver/ground_state/void_ratio_limits.h"

#include "solver/ground_state/meyerhof.h"
#include "solver/number_check.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::solver {
namespace {

constexpr double hirama_top_pct = 40;
const char* const hirama_source = "from memory of Hirama (1981)";
const char* const measured_source = "measured on the sample";
const char* const cubrinovski_source =
    "from memory of Cubrinovski & Ishihara (1999, 2002), Soils and Foundations";

void remark_fines(double fines_pct, Remarks& remarks) {
    if (fines_pct > hirama_top_pct)
        remarks.push_back("fines above 40 %: outside the range of the relation");
}

/// e_max of the e_min measured, by class of fines.
double e_max_from_e_min(double e_min, double fines_pct) {
    if (fines_pct < 5)
        return 0.072 + 1.53 * e_min;
    if (fines_pct < 15)
        return 0.25 + 1.37 * e_min;
    return 0.44 + (fines_pct < 30 ? 1.21 : 1.32) * e_min;
}

double range(const VoidRatioLimits& limits) {
    require_positive("e_min", limits.e_min);
    require_finite("e_max", limits.e_max);
    require_positive("e_max - e_min", limits.e_max - limits.e_min);
    return limits.e_max - limits.e_min;
}

} // namespace

VoidRatioLimits hirama_void_ratio_limits(double fines_pct) {
    require_between("fines_pct", fines_pct, 0, 100);
    return {1.0 + 0.02 * fines_pct, 0.6 + 0.008 * fines_pct};
}

double void_ratio(const VoidRatioLimits& limits, double relative_density_pct) {
    require_finite("relative_density_pct", relative_density_pct);
    return limits.e_max - relative_density_pct / 100 * range(limits);
}

double relative_density_pct(const VoidRatioLimits& limits, double void_ratio) {
    require_finite("void_ratio", void_ratio);
    return 100 * (limits.e_max - void_ratio) / range(limits);
}

VoidRatioLimits assumed_limits(const SandSample& sample, Remarks& remarks) {
    if (sample.e_max && sample.e_min)
        return {*sample.e_max, *sample.e_min};
    remarks.push_back("e_max and e_min not measured: taken from fines by hirama-1981");
    remark_fines(sample.fines_pct, remarks);
    return hirama_void_ratio_limits(sample.fines_pct);
}

double assumed_void_ratio(const SandSample& sample, Remarks& remarks) {
    if (sample.void_ratio)
        return *sample.void_ratio;
    const double density_pct = meyerhof_relative_density_pct(sample.blow_count, sample.effective_stress_kPa);
    const double e = void_ratio(assumed_limits(sample, remarks), density_pct);
    remarks.push_back(fmt::format("void ratio {:.3f} not measured: from N by meyerhof-1957", e));
    return e;
}

std::span<const Relation> e_max_relations() {
    static const std::vector<Relation> relations{
        {"measured", measured_source, "e_max", [](const SandSample& s, Remarks&) { return s.e_max; }},
        {"hirama-1981", hirama_source, "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             remark_fines(s.fines_pct, remarks);
             return hirama_void_ratio_limits(s.fines_pct).e_max;
         }},
        {"cubrinovski-ishihara-2002", cubrinovski_source, "e_min",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.e_min)
                 return {};
             remarks.push_back("digits of this relation are unchecked");
             if (s.fines_pct > 70)
                 remarks.push_back("fines above 70 %: outside the range of the relation");
             return e_max_from_e_min(*s.e_min, s.fines_pct);
         }},
    };
    return relations;
}

std::span<const Relation> e_min_relations() {
    static const std::vector<Relation> relations{
        {"measured", measured_source, "e_min", [](const SandSample& s, Remarks&) { return s.e_min; }},
        {"hirama-1981", hirama_source, "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             remark_fines(s.fines_pct, remarks);
             return hirama_void_ratio_limits(s.fines_pct).e_min;
         }},
    };
    return relations;
}

double void_ratio_range_by_d50(double d50_mm) {
    require_positive("d50_mm", d50_mm);
    return 0.23 + 0.06 / d50_mm;
}

std::span<const Relation> void_ratio_range_relations() {
    static const std::vector<Relation> relations{
        {"measured", measured_source, "e_max and e_min",
         [](const SandSample& s, Remarks&) -> std::optional<double> {
             if (!s.e_max || !s.e_min)
                 return {};
             return *s.e_max - *s.e_min;
         }},
        {"hirama-1981", hirama_source, "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             remark_fines(s.fines_pct, remarks);
             const auto [e_max, e_min] = hirama_void_ratio_limits(s.fines_pct);
             return e_max - e_min;
         }},
        {"cubrinovski-ishihara-d50", cubrinovski_source, "d50_mm",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (std::isnan(s.d50_mm))
                 return {};
             remarks.push_back(
                 "a mean over many soils: uniform clean sand lies well below it (0.38 measured against "
                 "0.58 for a sand of D50 0.17 mm)");
             if (s.d50_mm <= 0.1)
                 remarks.push_back("D50 not above 0.1 mm: outside the range of the relation");
             return void_ratio_range_by_d50(s.d50_mm);
         }},
        {"cubrinovski-ishihara-fines", cubrinovski_source, "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (s.fines_pct > 70)
                 remarks.push_back("fines above 70 %: outside the range of the relation");
             return s.fines_pct < 30 ? 0.43 + 0.00867 * s.fines_pct : 0.57 + 0.004 * s.fines_pct;
         }},
    };
    return relations;
}

} // namespace interpile::solver
