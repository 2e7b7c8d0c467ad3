#pragma once
// Logs of piles that follow an instruction, with defects where a test wants them.

#include "solver/works/as_built.h"
#include "solver/works/stroke_instruction.h"

#include <functional>
#include <string>

namespace interpile::testing {

struct LogSettings {
    double started_s = 0;
    double sample_s = 20; ///< between samples, one per half stroke
    double inclination_deg = 0.1;
    /// Of the loose sand of a step that is delivered.
    std::function<double(const solver::StrokeStep&)> share = [](const solver::StrokeStep&) { return 1.0; };
};

/// The log of a casing that carries out a plan.
inline solver::AsBuiltRecord logged(const std::string& pile, const solver::OrderedPile& plan,
                                    const LogSettings& settings = {}) {
    solver::AsBuiltRecord record;
    record.pile = pile;
    double time_s = settings.started_s, volume_m3 = 0;
    const auto sample = [&](double depth_m, double resistance_kN) {
        record.samples.push_back({time_s, depth_m, volume_m3, resistance_kN, settings.inclination_deg});
        time_s += settings.sample_s;
    };
    sample(0, 0);
    sample(plan.bottom_depth_m, 100);
    for (const auto& step : solver::stroke_instruction(plan)) {
        volume_m3 += settings.share(step) * step.loose_m3;
        sample(step.tip_before_m - step.withdrawal_m, 0);
        sample(step.tip_after_m, 120);
    }
    sample(0, 0);
    return record;
}

} // namespace interpile::testing
