#include "solver/ground_state/friction_angle.h"

#include <algorithm>
#include <cmath>

namespace interpile::solver {
namespace {

void remark_few_blows(const SandSample& sample, Remarks& remarks) {
    if (sample.blow_count <= 5)
        remarks.push_back("N not above 5: outside the range of the relation");
}

} // namespace

std::span<const Relation> friction_angle_relations() {
    static const std::vector<Relation> relations{
        {"hatanaka-uchida-1996", "from memory of Hatanaka & Uchida (1996), Soils and Foundations 36(4)", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             const double n1 = s.blow_count * std::sqrt(98 / s.effective_stress_kPa);
             if (n1 < 3.5)
                 remarks.push_back("N1 below 3.5: outside the range of the relation");
             if (n1 > 20)
                 remarks.push_back("N1 above 20: the relation stays at 40 deg");
             return std::sqrt(20 * std::min(n1, 20.0)) + 20;
         }},
        {"highway-bridges", "from memory of the specifications for highway bridges (Japan)",
         "blow_count above 0",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             if (s.blow_count == 0)
                 return {};
             remark_few_blows(s, remarks);
             return 4.8 * std::log(170 * s.blow_count / (s.effective_stress_kPa + 70)) + 21;
         }},
        {"highway-bridges-older",
         "from memory of an older edition of the specifications for highway bridges (Japan)", "",
         [](const SandSample& s, Remarks& remarks) -> std::optional<double> {
             remark_few_blows(s, remarks);
             return std::min(45.0, std::sqrt(15 * s.blow_count) + 15);
         }},
        {"osaki", "from memory of Osaki, as used in building practice (Japan)", "",
         [](const SandSample& s, Remarks&) -> std::optional<double> {
             return std::sqrt(20 * s.blow_count) + 15;
         }},
    };
    return relations;
}

} // namespace interpile::solver
