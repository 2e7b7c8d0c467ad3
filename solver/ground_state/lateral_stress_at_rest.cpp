#include "solver/ground_state/lateral_stress_at_rest.h"

#include "solver/ground_state/friction_angle.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace interpile::solver {
namespace {

double sine_of_friction_angle(const SandSample& sample, Remarks& remarks) {
    const Estimate phi = estimate_by(friction_angle_relations(), "hatanaka-uchida-1996", sample);
    remarks.push_back(fmt::format("peak angle {:.1f} deg from N by {}", phi.value, phi.relation));
    remarks.insert(remarks.end(), phi.remarks.begin(), phi.remarks.end());
    return std::sin(phi.value * std::numbers::pi / 180);
}

} // namespace

std::span<const Relation> lateral_stress_at_rest_relations() {
    static const std::vector<Relation> relations{
        {"practice", "common practice (Japan), no source", "",
         [](const SandSample&, Remarks&) -> std::optional<double> { return 0.5; }},
        {"jaky-1944", "from memory of Jaky (1944)", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (s.overconsolidation_ratio.value_or(1) > 1)
                 remarks.push_back("overconsolidated: the relation is for first loading");
             return 1 - sine_of_friction_angle(s, remarks);
         }},
        {"mayne-kulhawy-1982", "from memory of Mayne & Kulhawy (1982), J. Geotech. Eng. Div. 108(6)",
         "overconsolidation_ratio",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (!s.overconsolidation_ratio)
                 return {};
             const double sine = sine_of_friction_angle(s, remarks);
             return (1 - sine) * std::pow(*s.overconsolidation_ratio, sine);
         }},
    };
    return relations;
}

} // namespace interpile::solver
