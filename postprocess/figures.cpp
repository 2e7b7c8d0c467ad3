#include "postprocess/figures.h"

#include "postprocess/canvas.h"
#include "postprocess/figures/density_distribution.h"
#include "postprocess/figures/excess_pressure_history.h"
#include "postprocess/figures/half_strokes.h"
#include "postprocess/figures/plan_contour.h"
#include "postprocess/figures/pressure_history.h"
#include "postprocess/figures/pressure_loops.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::postprocess {

namespace {

/// Of a run that was not drained, though all of it may have drained away by the stage drawn.
bool has_excess_pressure(const FigureData& data) {
    return is_in_time(data.history) || data.stage.nearly_liquefied_cells > 0 ||
           data.stage.mean_excess_pressure_kPa != 0;
}

std::vector<std::string> usual_figures(const FigureData& data) {
    std::vector<std::string> names = {"relative_density_pct", "lateral_stress_ratio", "lateral_stress_kPa",
                                      "displacement_m"};
    if (data.history.pile.size() > 0)
        names.insert(names.end(), {"pressure_history", "pressure_loops"});
    if (data.half_strokes.pile.size() > 0 && !(data.header.treated.empty() && data.header.points.empty()))
        names.emplace_back("half_strokes");
    if (!data.header.treated.empty())
        names.emplace_back("density_distribution");
    if (has_excess_pressure(data))
        names.insert(names.end(), {"excess_pore_pressure_kPa", "excess_pressure_ratio"});
    if (is_in_time(data.history))
        names.emplace_back("excess_pressure_history");
    return names;
}

Drawing drawing_of(const std::string& name, const FigureData& data, const FigureSettings& settings) {
    if (name == "pressure_history")
        return pressure_history(data.header, data.history);
    if (name == "pressure_loops")
        return pressure_loops(data.header, data.history, settings.pile);
    if (name == "half_strokes")
        return half_stroke_curves(data.header, data.before, data.half_strokes);
    if (name == "density_distribution")
        return density_distribution(data.header, data.before, data.stage);
    if (name == "excess_pressure_history")
        return excess_pressure_history(data.header, data.before, data.history, data.half_strokes);
    return plan_contour(data.header, data.stage, name, settings.margin_m);
}

} // namespace

const std::vector<std::string>& other_figures() {
    static const std::vector<std::string> names = {"pressure_history", "pressure_loops", "half_strokes",
                                                   "density_distribution", "excess_pressure_history"};
    return names;
}

std::vector<std::filesystem::path> draw_figures(const io::ResultsReader& results,
                                                const std::filesystem::path& folder,
                                                const FigureSettings& settings) {
    const int count = results.stage_count();
    const int index = settings.stage == -1 ? count - 1 : settings.stage;
    if (index < 0 || index >= count)
        throw std::out_of_range(
            fmt::format("stage {} is not in the results; they have 0 .. {}", index, count - 1));
    return draw_figures(
        {results.header(), results.stage(0), results.stage(index), results.history(), results.half_strokes()},
        folder, settings);
}

std::vector<std::filesystem::path> draw_figures(const FigureData& data, const std::filesystem::path& folder,
                                                const FigureSettings& settings) {
    std::vector<std::filesystem::path> files;
    for (const auto& name : settings.fields.empty() ? usual_figures(data) : settings.fields) {
        const auto saved = save_all(drawing_of(name, data, settings), folder, name, settings.formats);
        files.insert(files.end(), saved.begin(), saved.end());
    }
    return files;
}

} // namespace interpile::postprocess
