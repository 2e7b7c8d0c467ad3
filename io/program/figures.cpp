#include "postprocess/figures.h"

#include "io/program/result_options.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::program {

namespace {

postprocess::FigureFormat format_of(const std::string& word) {
    if (word == "pdf")
        return postprocess::FigureFormat::Pdf;
    if (word == "svg")
        return postprocess::FigureFormat::Svg;
    if (word == "png")
        return postprocess::FigureFormat::Png;
    throw UsageError(fmt::format("--format {}: known are pdf, svg, png.", word));
}

} // namespace

io::ExitCode figures(const FiguresOptions& options, Answer& answer) {
    postprocess::FigureSettings settings;
    require_fields(options.fields, postprocess::other_figures());
    settings.fields = options.fields;
    if (!options.formats.empty())
        settings.formats.clear();
    for (const auto& word : options.formats)
        settings.formats.push_back(format_of(word));
    const io::ResultsReader results(options.result);
    settings.stage = chosen_stage(results, options.stage);
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
