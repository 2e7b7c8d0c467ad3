#include "postprocess/figures.h"

#include "postprocess/canvas.h"
#include "postprocess/figures/density_distribution.h"
#include "postprocess/figures/excess_pressure_history.h"
#include "postprocess/figures/half_strokes.h"
#include "postprocess/figures/line_across_piles.h"
#include "postprocess/figures/plan_contour.h"
#include "postprocess/figures/pressure_history.h"
#include "postprocess/figures/pressure_loops.h"
#include "postprocess/plan_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
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
    if (data.header.pile_diameter_m.size() > 0 && data.stage.stage > data.before.stage)
        names.emplace_back("line_across_piles");
    if (has_excess_pressure(data))
        names.insert(names.end(), {"excess_pore_pressure_kPa", "excess_pressure_ratio"});
    if (is_in_time(data.history))
        names.emplace_back("excess_pressure_history");
    return names;
}

/// The stages of a figure that shows how the ground changed.
std::vector<io::ResultsStage> in_order(const FigureData& data) {
    std::vector<io::ResultsStage> stages = {data.before};
    stages.insert(stages.end(), data.between.begin(), data.between.end());
    if (data.stage.stage > data.before.stage)
        stages.push_back(data.stage);
    return stages;
}

std::vector<io::ResultsStage> stages_between(const io::ResultsReader& results, int last) {
    const int count = std::clamp(last - 1, 0, 3);
    std::vector<io::ResultsStage> stages;
    for (int k = 1; k <= count; ++k)
        stages.push_back(results.stage(last * k / (count + 1)));
    return stages;
}

/// After the rests nothing is left to see. Dense ground may be under suction.
io::ResultsStage with_largest_pressure(const io::ResultsReader& results) {
    io::ResultsStage largest = results.stage(0);
    for (int k = 1; k < results.stage_count(); ++k)
        if (auto stage = results.stage(k);
            std::abs(stage.mean_excess_pressure_kPa) > std::abs(largest.mean_excess_pressure_kPa))
            largest = std::move(stage);
    return largest;
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
    if (name == "line_across_piles")
        return line_across_piles(data.header, in_order(data), has_excess_pressure(data));
    if (name == "excess_pressure_history")
        return excess_pressure_history(data.header, data.before, data.history, data.half_strokes);
    const auto& stage = is_excess_pressure(name) && data.pressed ? *data.pressed : data.stage;
    return plan_contour(data.header, stage, name, settings.margin_m);
}

} // namespace

const std::vector<std::string>& other_figures() {
    static const std::vector<std::string> names = {"pressure_history",  "pressure_loops",
                                                   "half_strokes",      "density_distribution",
                                                   "line_across_piles", "excess_pressure_history"};
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
    FigureData data{results.header(),  results.stage(0),       results.stage(index),
                    results.history(), results.half_strokes(), stages_between(results, index)};
    if (settings.stage == -1 && is_in_time(data.history))
        data.pressed = with_largest_pressure(results);
    return draw_figures(data, folder, settings);
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
