#include "postprocess/figures.h"

#include "postprocess/canvas.h"
#include "postprocess/figures/plan_contour.h"
#include "postprocess/figures/pressure_history.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr const char* history_name = "pressure_history";

std::vector<std::string> usual_figures(const io::ResultsHistory& history) {
    std::vector<std::string> names = {"relative_density_pct", "lateral_stress_ratio", "lateral_stress_kPa",
                                      "displacement_m"};
    if (history.pile.size() > 0)
        names.emplace_back(history_name);
    return names;
}

} // namespace

std::vector<std::filesystem::path> draw_figures(const io::ResultsReader& results,
                                                const std::filesystem::path& folder,
                                                const FigureSettings& settings) {
    const int count = results.stage_count();
    const int index = settings.stage == -1 ? count - 1 : settings.stage;
    if (index < 0 || index >= count)
        throw std::out_of_range(
            fmt::format("stage {} is not in the results; they have 0 .. {}", index, count - 1));
    return draw_figures(results.header(), results.stage(index), results.history(), folder, settings);
}

std::vector<std::filesystem::path> draw_figures(const io::ResultsHeader& header,
                                                const io::ResultsStage& stage,
                                                const io::ResultsHistory& history,
                                                const std::filesystem::path& folder,
                                                const FigureSettings& settings) {
    std::vector<std::filesystem::path> files;
    for (const auto& name : settings.fields.empty() ? usual_figures(history) : settings.fields) {
        const Drawing drawing = name == history_name ? pressure_history(header, history)
                                                     : plan_contour(header, stage, name, settings.margin_m);
        for (const auto format : settings.formats) {
            files.push_back(folder / (name + file_ending(format)));
            save(drawing, files.back(), format);
        }
    }
    return files;
}

} // namespace interpile::postprocess
