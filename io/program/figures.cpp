#include "postprocess/figures.h"

#include "io/program/result_options.h"
#include "postprocess/canvas.h"
#include "postprocess/figures/plan_panels.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace interpile::program {

namespace {

/// The stages after the first pile, the last among them, at most six (own choice): two rows of a page.
std::vector<int> evenly_spread(int last) {
    constexpr int most = 6;
    std::vector<int> stages;
    const int count = std::min(most, last);
    for (int k = 1; k <= count; ++k)
        stages.push_back(
            count == 1 ? last : static_cast<int>(std::lround(1 + (last - 1.0) * (k - 1) / (count - 1))));
    return stages.empty() ? std::vector{0} : stages;
}

io::ExitCode sequence(const FiguresOptions& options, Answer& answer) {
    if (options.stage || options.pile)
        throw UsageError("figures: --stage and --pile have no effect with --sequence; give --stages.");
    require_fields(options.fields);
    const auto formats = formats_of(options.formats);
    const io::ResultsReader results(options.result);
    const int last = chosen_stage(results, {});
    const auto stages = options.stages.empty() ? evenly_spread(last) : options.stages;
    if (stages.size() > postprocess::most_panels)
        throw UsageError(fmt::format("--stages: {} stages; a page takes 1 .. {}.", stages.size(),
                                     postprocess::most_panels));
    std::vector<postprocess::NamedStage> panels;
    for (const int stage : stages) {
        if (stage < 0 || stage > last)
            throw UsageError(fmt::format("--stages {}: the result has the stages 0 .. {}.", stage, last));
        panels.push_back({results.header(), results.stage(stage), {}});
    }
    warn_unfinished(results, answer);
    const auto folder = folder_for(options.folder, options.result, "_figures");
    std::vector<fs::path> files;
    for (const auto& field :
         options.fields.empty() ? std::vector<std::string>{"relative_density_pct"} : options.fields) {
        const auto saved = postprocess::save_all(postprocess::plan_panels(panels, field), folder,
                                                 "sequence_" + field, formats);
        files.insert(files.end(), saved.begin(), saved.end());
    }
    answer.files(files);
    return io::Done;
}

} // namespace

io::ExitCode figures(const FiguresOptions& options, Answer& answer) {
    if (options.sequence)
        return sequence(options, answer);
    if (!options.stages.empty())
        throw UsageError("figures: --stages has an effect with --sequence alone; give --stage.");
    postprocess::FigureSettings settings;
    require_fields(options.fields, postprocess::other_figures());
    settings.fields = options.fields;
    settings.formats = formats_of(options.formats);
    const io::ResultsReader results(options.result);
    chosen_stage(results, options.stage);
    settings.stage = options.stage.value_or(-1);
    if (options.pile) {
        const auto piles = results.header().pile_diameter_m.size();
        if (*options.pile < 1 || *options.pile > piles)
            throw UsageError(
                fmt::format("--pile {}: the result has the piles 1 .. {}.", *options.pile, piles));
        settings.pile = *options.pile - 1;
    }
    warn_unfinished(results, answer);
    try {
        answer.files(postprocess::draw_figures(
            results, folder_for(options.folder, options.result, "_figures"), settings));
    } catch (const std::invalid_argument& nothing_to_draw) {
        throw UsageError(fmt::format("figures: {}.", nothing_to_draw.what()));
    }
    return io::Done;
}

} // namespace interpile::program
