#include "io/neighbors_report.h"

#include "io/text_lines.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

/// "10.2 .. 20.1", one number where both ends are equal as printed.
std::string range_text(const NumberRange& range, double factor) {
    const std::string low = fmt::format("{:.1f}", factor * range.low);
    const std::string high = fmt::format("{:.1f}", factor * range.high);
    return low == high ? low : fmt::format("{} .. {}", low, high);
}

/// Padded by characters, not bytes.
std::string padded(const std::string& text, std::size_t width) {
    const auto count = static_cast<std::size_t>(character_count(text));
    return text + std::string(count < width ? width - count : 0, ' ');
}

std::size_t widest_place(const std::vector<NeighborRow>& rows) {
    int widest = 5; // of the head
    for (const NeighborRow& row : rows)
        widest = std::max(widest, character_count(row.place));
    return static_cast<std::size_t>(widest);
}

std::string pushed_ground(const std::vector<NeighborRow>& rows, const NeighborsPlan& plan) {
    if (std::none_of(rows.begin(), rows.end(), [](const NeighborRow& row) { return row.pushed.has_value(); }))
        return "Displacement: no [[place]] is given.\n\n";
    const auto width = widest_place(rows);
    std::string text = fmt::format(
        "Displacement of the surface when all piles stand [mm]; bound: no ground densifies;\n"
        "range: efficiency {:g} .. {:g}, the share of the pile volume that densifies the ground\n",
        plan.efficiency.low, plan.efficiency.high);
    text += fmt::format("  {}  {:>8}  {:>13}  {:>15}  {:>11}  {:>15}\n", padded("place", width), "pile [m]",
                        "outward bound", "range", "heave bound", "range");
    for (const NeighborRow& row : rows)
        if (const auto& pushed = row.pushed)
            text += fmt::format("  {}  {:>8.2f}  {:>13.1f}  {:>15}  {:>11.1f}  {:>15}\n",
                                padded(row.place, width), row.nearest_pile_m, 1e3 * pushed->outward_bound_m,
                                range_text(pushed->outward_m, 1e3), 1e3 * pushed->heave_bound_m,
                                range_text(pushed->heave_m, 1e3));
    return text + '\n';
}

std::string levels(const std::vector<NeighborRow>& rows, const NeighborsPlan& plan) {
    const auto width = widest_place(rows);
    std::string text =
        fmt::format("Levels of one rig at the nearest pile, everywhere against the limits of "
                    "the border. Vibration:\nvertical, weighted, dB re 1e-5 m/s2, limit {:g} dB, "
                    "attenuation {:g} .. {:g} 1/m;\nnoise: dB(A), limit {:g} dB(A)\n",
                    plan.vibration_limit_dB, plan.attenuation_per_m.low, plan.attenuation_per_m.high,
                    plan.noise_limit_dB);
    text += fmt::format("  {}  {:>8}  {:<13}  {:>15}  {:<12}  {:>15}  {}\n", padded("place", width),
                        "pile [m]", "work", "vibration [dB]", "", "noise [dB(A)]", "");
    while (text[text.size() - 2] == ' ')
        text.erase(text.size() - 2, 1);
    for (const NeighborRow& row : rows)
        for (const bool vibratory : {false, true}) {
            const WorkLevels& work = vibratory ? row.vibratory : row.non_vibratory;
            text +=
                fmt::format("  {}  {:>8.2f}  {:<13}  {:>15}  {:<12}  {:>15}  {}\n", padded(row.place, width),
                            row.nearest_pile_m, vibratory ? "vibratory" : "non-vibratory",
                            range_text(work.vibration.level_dB, 1), description(work.vibration.check),
                            range_text(work.noise.level_dB, 1), description(work.noise.check));
        }
    if (std::any_of(rows.begin(), rows.end(),
                    [](const NeighborRow& row) { return row.nearer_than_measured; }))
        text += "  Some levels are taken nearer to the source than it was measured.\n";
    return text + '\n';
}

std::string hours_text(double hours) {
    const int minutes = static_cast<int>(hours * 60 + 0.5);
    return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

} // namespace

std::string neighbors_report(const WorksFile& works) {
    const NeighborsPlan& plan = works.neighbors.value();
    const auto rows = screen_neighbors(plan);
    std::string text =
        fmt::format("{}: neighbors of {} piles. Screening only.\n\n", works.title, works.piles.size());
    text += pushed_ground(rows, plan) + levels(rows, plan);
    text += works.working_hours ? fmt::format("Working hours {} to {} (given in the works file).\n",
                                              hours_text(works.working_hours->start_h),
                                              hours_text(works.working_hours->end_h))
                                : "Working hours: none given in the works file.\n";
    text +=
        "Vibratory driving only beyond about 50 m from sensitive neighbors (common practice, no source).\n"
        "Levels of one kind of machine differ by 20 dB between sites: measure at the site. Local codes and "
        "licensed\npractice go first.\n";
    return text;
}

} // namespace interpile::io
