#include "solver/ground_state/permeability.h"

#include "solver/ground_state/void_ratio_limits.h"
#include "solver/number_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace interpile::solver {
namespace {

constexpr double m_per_cm = 0.01;
constexpr double fines_size_mm = 0.075;
constexpr double guessed_d50_mm = 0.2;

struct CreagerPoint {
    double d20_mm, k_cm_s;
};

constexpr std::array<CreagerPoint, 11> creager{{{0.01, 1.05e-5},
                                                {0.02, 4.0e-5},
                                                {0.05, 2.8e-4},
                                                {0.10, 1.75e-3},
                                                {0.15, 4.4e-3},
                                                {0.20, 8.9e-3},
                                                {0.30, 2.2e-2},
                                                {0.40, 4.5e-2},
                                                {0.50, 7.5e-2},
                                                {0.80, 0.215},
                                                {1.0, 0.36}}};

/// Value at x on the straight line in log x, log y through two points.
double on_log_line(double x, double x0, double y0, double x1, double y1) {
    return y0 * std::pow(y1 / y0, std::log(x / x0) / std::log(x1 / x0));
}

void remark_creager(double d20_mm, double fines_pct, Remarks& remarks) {
    if (d20_mm < creager.front().d20_mm || d20_mm > creager.back().d20_mm)
        remarks.push_back("D20 outside the table 0.01 .. 1.0 mm: continued by its last pair");
    if (fines_pct > 5)
        remarks.push_back("with fines the ground is more permeable than this, by a series of field tests");
}

void remark_range(bool inside, const char* text, Remarks& remarks) {
    if (!inside)
        remarks.push_back(text);
}

/// Size that 20 % are finer than, by a straight line in log size between (0.075 mm, Fc) and (D50, 50 %).
double guessed_d20_mm(double d50_mm, double fines_pct) {
    const double share = (20 - fines_pct) / (50 - fines_pct);
    return fines_size_mm * std::pow(d50_mm / fines_size_mm, share);
}

std::optional<double> guess(const SandSample& sample, Remarks& remarks) {
    const bool known = !std::isnan(sample.d50_mm);
    const double d50_mm = known ? sample.d50_mm : guessed_d50_mm;
    if (sample.fines_pct > 40 || d50_mm <= fines_size_mm)
        return {}; // the two points of the grading lie too near each other, or are no sand
    const double d20_mm = guessed_d20_mm(d50_mm, sample.fines_pct);
    remarks.push_back(
        fmt::format("GUESS, may be wrong by a factor of ten: D20 {:.3g} mm by a straight grading between "
                    "fines {:.3g} % and D50 {:.3g} mm{}; give d20_mm, d10_mm or a measured permeability",
                    d20_mm, sample.fines_pct, d50_mm, known ? "" : ", itself a guess"));
    remark_creager(d20_mm, sample.fines_pct, remarks);
    return creager_permeability_m_s(d20_mm);
}

} // namespace

double creager_permeability_m_s(double d20_mm) {
    require_positive("d20_mm", d20_mm);
    const auto inner_end = creager.end() - 1;
    const auto above = std::lower_bound(creager.begin() + 1, inner_end, d20_mm,
                                        [](const CreagerPoint& p, double d) { return p.d20_mm < d; });
    const auto below = above - 1;
    return m_per_cm * on_log_line(d20_mm, below->d20_mm, below->k_cm_s, above->d20_mm, above->k_cm_s);
}

std::span<const Relation> permeability_relations() {
    static const std::vector<Relation> relations{
        {"creager-1945", "from memory of Creager, Justin & Hinds (1945)", "d20_mm",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.d20_mm)
                 return {};
             remark_creager(*s.d20_mm, s.fines_pct, remarks);
             return creager_permeability_m_s(*s.d20_mm);
         }},
        {"hazen-1911", "from memory of Hazen (1911); factor 100 of 40 .. 150", "d10_mm",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.d10_mm)
                 return {};
             const double d10_cm = *s.d10_mm / 10;
             remark_range(*s.d10_mm >= 0.1 && *s.d10_mm <= 3, "D10 outside 0.1 .. 3 mm", remarks);
             remarks.push_back("for loose sand with a coefficient of uniformity below 5");
             return m_per_cm * 100 * d10_cm * d10_cm;
         }},
        {"kozeny-carman", "from memory of Carrier (2003), J. Geotech. Geoenviron. Eng. 129(11)", "d10_mm",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.d10_mm)
                 return {};
             remark_range(s.fines_pct <= 5, "fines above 5 %: the relation is for sand without fines",
                          remarks);
             remarks.push_back("D10 taken as the effective size of round grains");
             const double e = assumed_void_ratio(s, remarks);
             const double specific_surface_per_cm = 6 / (*s.d10_mm / 10);
             return m_per_cm * 1.99e4 * e * e * e /
                    ((1 + e) * specific_surface_per_cm * specific_surface_per_cm);
         }},
        {"chapuis-2004", "from memory of Chapuis (2004), Canadian Geotech. J. 41(5)", "d10_mm",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.d10_mm)
                 return {};
             const double e = assumed_void_ratio(s, remarks);
             remark_range(*s.d10_mm >= 0.13 && *s.d10_mm <= 1.98, "D10 outside 0.13 .. 1.98 mm", remarks);
             remark_range(e >= 0.3 && e <= 1, "void ratio outside 0.3 .. 1", remarks);
             return m_per_cm * 2.4622 * std::pow(*s.d10_mm * *s.d10_mm * e * e * e / (1 + e), 0.7825);
         }},
        {"grading-guess", "a guess of our own on the table from memory of Creager, Justin & Hinds (1945)",
         "d50_mm above 0.075 and fines of at most 40 %", guess},
    };
    return relations;
}

} // namespace interpile::solver
