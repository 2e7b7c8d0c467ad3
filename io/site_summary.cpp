#include "io/site_summary.h"

#include "io/fixed_digits.h"
#include "solver/liquefaction/severity.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

using solver::BoringDesign;
using solver::MethodSpacing;

std::string water_text(double depth_m) {
    return depth_m < 0 ? fmt::format("{:g} m above ground", -depth_m)
                       : fmt::format("{:g} m below ground", depth_m);
}

std::string severity_text(const BoringDesign& design) {
    std::string text = "  before treatment, by procedure:\n";
    for (std::size_t p = 0; p < design.before.severity.size(); ++p) {
        const auto& severity = design.before.severity[p];
        const std::string& name = solver::procedure_table()[p].name;
        if (severity.potential_index) {
            text += fmt::format(
                "    {:<24} P_L {:5.1f} ({}), settlement {:.2f} m\n", name, *severity.potential_index,
                severity_name(solver::severity_class(*severity.potential_index)), *severity.settlement_m);
            continue;
        }
        const auto& samples = design.before.samples;
        const auto refused = std::find_if(samples.begin(), samples.end(), [&](const auto& sample) {
            return sample.judged && !sample.factors[p].refused.empty();
        });
        text += fmt::format("    {:<24} no index: {}\n", name, refused->factors[p].refused);
    }
    std::vector<double> disagree;
    for (const auto& sample : design.before.samples)
        if (sample.procedures_disagree())
            disagree.push_back(sample.point.depth_m);
    if (!disagree.empty())
        text += fmt::format("  PROCEDURES DISAGREE on liquefaction at {:g} m: see safety.csv\n",
                            fmt::join(disagree, ", "));
    return text;
}

std::string method_text(const BoringDesign& design, std::size_t m) {
    const MethodSpacing& method = design.methods[m];
    const std::string start = fmt::format("    {}  ", solver::letter_of(method.method));
    if (!method.governing)
        return start + (has_target(design) ? "nothing asked for: the target holds before treatment\n"
                                           : "NO TARGET at any depth, so nothing is asked for: see above\n");
    const double depth = design.boring.samples[*method.governing].depth_m;
    const auto& sample = design.needs[*method.governing];
    const auto& need = sample.methods[m];
    if (method.out_of_reach)
        return start + fmt::format("OUT OF REACH at {:g} m: N {:.1f} asked for, {}; limit: {}\n", depth,
                                   *sample.target_blow_count,
                                   need.largest_blow_count
                                       ? fmt::format("at most {:.1f} reachable", *need.largest_blow_count)
                                       : std::string("no gain promised"),
                                   need.limit);
    std::string text =
        start + fmt::format("a_s {:.3f} at {:g} m: spacing {:.2f} m, in practice {:.2f} m (a_s {:.3f})",
                            method.replacement_ratio, depth, method.spacing_m, method.practical_spacing_m,
                            method.practical_ratio);
    if (!std::isnan(method.heave_m))
        text += fmt::format("; mean heave {} m", fixed(method.heave_m, 2));
    return text + '\n';
}

std::string boring_text(const SiteFile& site, const BoringDesign& design) {
    const auto& boring = design.boring;
    const auto sand =
        std::count_if(boring.samples.begin(), boring.samples.end(), [](const auto& s) { return s.sand; });
    std::string text =
        fmt::format("{}: water {}, in the earthquake {}; {} samples of sand, {} of clay or silt\n",
                    boring.name, water_text(boring.water_depth_m), water_text(boring.quake_water_depth_m),
                    sand, static_cast<std::ptrdiff_t>(boring.samples.size()) - sand);
    text += severity_text(design);
    for (std::size_t i = 0; i < design.needs.size(); ++i)
        if (!design.needs[i].no_target.empty())
            text += fmt::format("  no target at {:g} m: {}\n", boring.samples[i].depth_m,
                                design.needs[i].no_target);
    text += fmt::format("  {} piles of {:g} m for {}, by method:\n",
                        site.aims.shape.pattern == mesh::Pattern::Triangular    ? "triangular"
                        : site.aims.shape.pattern == mesh::Pattern::Rectangular ? "rectangular"
                                                                                : "square",
                        site.aims.diameter_m, target_text(site.aims));
    for (std::size_t m = 0; m < design.methods.size(); ++m)
        text += method_text(design, m);
    return text + '\n';
}

/// The boring that asks for most, by method; a mean boring is none of them.
std::string worst_text(const SiteFile& site, const std::vector<BoringDesign>& designs) {
    std::string text = "Asks for most:\n";
    for (std::size_t m = 0; m < site.aims.methods.size(); ++m) {
        const BoringDesign* worst = nullptr;
        std::vector<std::string> beyond, untold;
        for (std::size_t i = 0; i < site.borings.size(); ++i) {
            const MethodSpacing& method = designs[i].methods[m];
            if (method.out_of_reach)
                beyond.push_back(designs[i].boring.name);
            else if (!has_target(designs[i]))
                untold.push_back(designs[i].boring.name);
            else if (method.governing &&
                     (worst == nullptr || method.replacement_ratio > worst->methods[m].replacement_ratio))
                worst = &designs[i];
        }
        std::vector<std::string> parts;
        if (worst != nullptr)
            parts.push_back(
                fmt::format("{}: {:.2f} m", worst->boring.name, worst->methods[m].practical_spacing_m));
        if (!beyond.empty())
            parts.push_back(fmt::format("OUT OF REACH at {}", fmt::join(beyond, ", ")));
        if (!untold.empty())
            parts.push_back(fmt::format("NO TARGET at {}", fmt::join(untold, ", ")));
        text += fmt::format("  {}  {}", solver::letter_of(site.aims.methods[m]),
                            parts.empty() ? "nothing" : fmt::format("{}", fmt::join(parts, "; ")));
        text += '\n';
    }
    return text;
}

} // namespace

std::string target_text(const solver::TreatmentAims& aims) {
    if (aims.target_blow_count)
        return fmt::format("N {:g}", *aims.target_blow_count);
    const auto& target = *aims.target_safety;
    return fmt::format("F_L {:g} by {}", target.safety_factor,
                       solver::procedure_table()[static_cast<std::size_t>(target.procedure)].name);
}

std::string design_caution() {
    return "Empirical relations, most of them from memory of their sources: for judgment, not for approval. "
           "Local codes "
           "and licensed practice decide, and tests between the piles prove.";
}

std::string site_summary(const SiteFile& site, const std::vector<BoringDesign>& designs) {
    std::string text = site.title + "\n\n";
    for (const BoringDesign& design : designs)
        text += boring_text(site, design);
    return text + worst_text(site, designs) + design_caution() + '\n';
}

} // namespace interpile::io
