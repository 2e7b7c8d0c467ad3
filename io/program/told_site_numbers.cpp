#include "io/instruction_sheet.h"
#include "io/program/told_numbers.h"
#include "solver/liquefaction/procedure.h"

#include <algorithm>
#include <cmath>

namespace interpile::program {

namespace {

double known(const std::optional<double>& number) {
    return number.value_or(std::nan(""));
}

Record score_row(std::string method, const solver::PredictionScore& score) {
    return {{"method", std::move(method)},
            {"tests", static_cast<long>(score.count)},
            {"measured_over_predicted", score.mean_ratio},
            {"measured_over_predicted_deviation", score.ratio_deviation},
            {"bias_blow_count", score.bias},
            {"scatter_blow_count", score.scatter}};
}

} // namespace

void tell_designs(const std::vector<solver::BoringDesign>& designs, Answer& answer) {
    const auto& procedures = solver::procedure_table();
    for (const auto& design : designs) {
        for (std::size_t p = 0; p < design.before.severity.size(); ++p)
            answer.row("severity", {{"boring", design.boring.name},
                                    {"procedure", std::string(procedures[p].name)},
                                    {"potential_index", known(design.before.severity[p].potential_index)},
                                    {"settlement_m", known(design.before.severity[p].settlement_m)}});
        for (const auto& method : design.methods)
            answer.row("spacings",
                       {{"boring", design.boring.name},
                        {"method", std::string(1, solver::letter_of(method.method))},
                        {"governing_depth_m",
                         method.governing ? design.boring.samples[*method.governing].depth_m : std::nan("")},
                        {"out_of_reach", method.out_of_reach},
                        {"replacement_ratio", method.replacement_ratio},
                        {"spacing_m", method.spacing_m},
                        {"practical_spacing_m", method.practical_spacing_m},
                        {"mean_heave_m", method.heave_m}});
    }
}

void tell_review(const io::SiteFile& site, const solver::AfterReview& review, Answer& answer) {
    answer.put("efficiency", review.efficiency.value);
    answer.put("efficiency_standard_error", review.efficiency.standard_error);
    answer.put("density_trend", std::string(solver::verdict_text(review.verdict)));
    for (std::size_t m = 0; m < review.methods.size(); ++m)
        answer.row("scores",
                   score_row(std::string(1, solver::letter_of(site.aims.methods[m])), review.methods[m]));
    if (review.simulated.count > 0)
        answer.row("scores", score_row("simulation", review.simulated));
    for (const auto& test : review.comparisons) {
        Record row = {{"place", test.measured.place},
                      {"depth_m", test.measured.depth_m},
                      {"blow_count", test.measured.blow_count},
                      {"left_out", test.left_out},
                      {"safety_factor", test.safety ? test.safety->value : std::nan("")}};
        if (test.target_kept)
            row.push_back({"target_kept", *test.target_kept});
        answer.row("tests", std::move(row));
    }
}

void tell_orders(const io::WorksFile& works, Answer& answer) {
    const auto totals = io::sand_totals(works);
    const auto steps = solver::stroke_instruction(works.pile);
    answer.put("piles", static_cast<long>(works.piles.size()));
    answer.put("strokes_per_pile", static_cast<long>(steps.size()));
    answer.put("withdrawal_m", steps.front().withdrawal_m);
    answer.put("redrive_m", steps.front().redrive_m);
    answer.put("net_rise_m", steps.front().net_rise_m);
    answer.put("sand_loose_m3", totals.loose_m3);
    answer.put("sand_in_place_m3", totals.in_place_m3);
    for (const std::size_t pile : works.order)
        answer.row("order", {{"pile", works.piles[pile].name},
                             {"x_m", works.piles[pile].center_m.x()},
                             {"y_m", works.piles[pile].center_m.y()}});
}

void tell_neighbors(const io::NeighborsPlan& plan, Answer& answer) {
    const auto add_levels = [](Record& row, const std::string& work, const io::WorkLevels& levels) {
        for (const auto& [what, level] :
             {std::pair("vibration", levels.vibration), {"noise", levels.noise}}) {
            const std::string stem = work + "_" + what;
            row.push_back({stem + "_low_dB", level.level_dB.low});
            row.push_back({stem + "_high_dB", level.level_dB.high});
            row.push_back({stem + "_check", std::string(io::description(level.check))});
        }
    };
    answer.note("Screening only.");
    for (const auto& place : io::screen_neighbors(plan)) {
        Record row = {{"place", place.place}, {"nearest_pile_m", place.nearest_pile_m}};
        if (place.pushed) {
            row.push_back({"outward_bound_m", place.pushed->outward_bound_m});
            row.push_back({"heave_bound_m", place.pushed->heave_bound_m});
        }
        add_levels(row, "non_vibratory", place.non_vibratory);
        add_levels(row, "vibratory", place.vibratory);
        answer.row("places", std::move(row));
    }
}

void tell_as_built(const io::AsBuiltSite& site, Answer& answer) {
    const auto count = [&](io::PileVerdict verdict) {
        return static_cast<long>(std::count_if(site.piles.begin(), site.piles.end(),
                                               [&](const auto& pile) { return pile.verdict() == verdict; }));
    };
    answer.put("piles", static_cast<long>(site.piles.size()));
    answer.put("as_ordered", count(io::PileVerdict::AsOrdered));
    answer.put("as_recorded", count(io::PileVerdict::AsRecorded));
    answer.put("deviating", count(io::PileVerdict::Deviates));
    answer.put("not_recorded", count(io::PileVerdict::NotRecorded));
    for (const auto& [finding, severity] : site.weak_spots)
        answer.row("weak_spots", {{"pile", finding.pile},
                                  {"from_depth_m", finding.from_depth_m},
                                  {"to_depth_m", finding.to_depth_m},
                                  {"quantity", std::string(solver::description(finding.what))},
                                  {"value", finding.value},
                                  {"limit", finding.limit}});
}

} // namespace interpile::program
