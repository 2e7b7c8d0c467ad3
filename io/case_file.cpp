#include "io/case_file.h"

#include "io/case_parts.h"

#include <fmt/format.h>

namespace interpile::io {

namespace {

solver::InstallationPlan read_plan(CaseValues& values, const Case& result,
                                   const std::vector<PlacedPile>& piles) {
    solver::InstallationPlan plan;
    plan.strokes = read_strokes(values, piles);
    plan.steps = read_steps(values);
    plan.water = read_water(values);
    plan.schedule = read_schedule(values, plan.strokes);
    std::vector<mesh::Vec2> centers;
    for (const PlacedPile& pile : piles) {
        centers.push_back(pile.center_m);
        const double usual_m = values.has("pile.diameter_m") ? values.number("pile.diameter_m") : 0;
        plan.piles.push_back({pile.center_m, pile.diameter_m.value_or(usual_m)});
    }
    if (values.faults().empty())
        plan.order = mesh::installation_order(centers, result.layout, result.order);
    read_rigs(values, piles, plan);
    return plan;
}

} // namespace

Case parse_case(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults);

    Case result;
    // Cases live in folders of their own as case.toml; then the folder tells them apart.
    const auto folder = std::filesystem::absolute(file).parent_path().filename();
    result.name = file.stem() == "case" && !folder.empty() ? folder.string() : file.stem().string();
    result.text = text;
    values.derive("case.title", result.name);
    if (values.has("case.title"))
        result.title = values.text("case.title");
    result.slice = read_slice(values);
    result.soil = read_soil(values, result.slice);
    std::vector<PlacedPile> piles;
    result.layout = read_layout(values, file.parent_path(), piles);
    read_heaving_region(values, piles, result.slice);
    result.order = read_order(values, piles);
    result.plan = read_plan(values, result, piles);
    result.domain =
        read_domain(values, result.layout, piles); // its default extent needs the seed radius of the plan
    result.grid = read_grid(values, result.domain, piles);
    result.plan.record = read_record(values, result.domain, result.grid, piles);
    if (values.has("target.relative_density_pct"))
        result.target_relative_density_pct = values.number("target.relative_density_pct");
    if (values.has("output.every_pile"))
        result.output.every_pile = values.flag("output.every_pile");
    faults.throw_if_any();
    check_regions(values, result);
    faults.throw_if_any();
    result.settings = values.settings();
    return result;
}

Case read_case(const std::filesystem::path& file) {
    return parse_case(read_text_file(file), file);
}

} // namespace interpile::io
