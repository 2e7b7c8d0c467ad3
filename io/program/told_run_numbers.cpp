#include "io/program/told_numbers.h"

#include <cmath>

namespace interpile::program {

namespace {

/// The columns that are known.
Record known_columns(const io::MemberResult& result) {
    Record record;
    for (const auto& column : io::member_columns())
        if (const double value = result.*column.value; !std::isnan(value))
            record.push_back({column.name, value});
    return record;
}

} // namespace

void tell_known_numbers(const io::MemberResult& result, Answer& answer) {
    for (auto& [key, value] : known_columns(result))
        answer.put(key, value);
}

void tell_member(std::size_t number, const io::MemberResult& result, Answer& answer) {
    Record row = {{"member", static_cast<long>(number)}, {"state", std::string(io::in_words(result.state))}};
    if (!result.reason.empty())
        row.push_back({"reason", result.reason});
    for (auto& entry : known_columns(result))
        row.push_back(std::move(entry));
    answer.row("members", std::move(row));
}

void tell_comparison(const io::StudyComparison& comparison, Answer& answer) {
    for (const auto& deviation : comparison.deviations)
        answer.row("deviations", {{"method", deviation.method},
                                  {"simulated", std::string(io::in_words(deviation.simulated))},
                                  {"parted_by", deviation.parted_by},
                                  {"part", deviation.part},
                                  {"members", static_cast<long>(deviation.members)},
                                  {"simulated_over_predicted", deviation.bias},
                                  {"simulated_over_predicted_deviation", deviation.standard_deviation}});
}

void tell_run(const solver::RunReport& report, const std::vector<io::StageSummary>& stages,
              const std::vector<postprocess::StageGround>& ground, Answer& answer) {
    answer.put("increments", report.increments);
    answer.put("iterations", report.iterations);
    answer.put("factorizations", report.factorizations);
    for (const auto& stage : stages)
        answer.row("stages", {{"stage", static_cast<long>(stage.stage)},
                              {"pile", static_cast<long>(stage.pile + 1)}, // 0: before the first
                              {"converged", stage.converged},
                              {"time_s", stage.time_s},
                              {"injected_m3_m", stage.balance.injected},
                              {"densified_m3_m", stage.balance.densified},
                              {"heaved_m3_m", stage.balance.heaved},
                              {"pushed_out_m3_m", stage.balance.pushed_out},
                              {"heave_pct", 100 * std::expm1(stage.heave_strain)},
                              {"relative_density_pct", stage.relative_density_pct}});
    for (const auto& stage : ground)
        answer.row("ground", {{"stage", static_cast<long>(stage.stage)},
                              {"mean_relative_density_pct", stage.density.mean},
                              {"weakest_relative_density_pct", stage.density.least},
                              {"weakest_x_m", stage.density.least_at_m.x()},
                              {"weakest_y_m", stage.density.least_at_m.y()},
                              {"mean_lateral_stress_ratio", stage.mean_stress_ratio},
                              {"below_target_pct", 100 * stage.share_below_target.value_or(std::nan(""))},
                              {"excess_pressure_kPa", stage.excess_pressure_kPa}});
}

} // namespace interpile::program
