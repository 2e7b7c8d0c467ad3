#include "io/after_report.h"
#include "io/program/design_figures.h"
#include "io/program/figure_files.h"
#include "io/program/result_options.h"
#include "io/program/stop_signals.h"
#include "io/program/text_files.h"
#include "io/program/told_numbers.h"
#include "io/site_summary.h"

#include <fmt/format.h>

#include <cstdio>
#include <unistd.h>

namespace interpile::program {

namespace {

/// Simulations one after another; a signal ends them.
io::StrokeFits simulate(const io::SiteFile& site, const std::vector<solver::BoringDesign>& designs,
                        const solver::AfterReview& review, bool& stopped) {
    StopSignals signals;
    const bool terminal = isatty(STDERR_FILENO) != 0;
    const auto tell = [&](int number, int all) {
        if (terminal)
            fmt::print(stderr, "\rsimulation {} of {}", number, all);
        else if (number % 6 == 1)
            fmt::print(stderr, "simulation {} of {}\n", number, all);
    };
    auto fits = io::fit_strokes(site, designs, review, tell, signals);
    stopped = signals.stop_requested();
    if (terminal)
        fmt::print(stderr, "\n");
    return fits;
}

/// The simulation takes part in the comparison where the table gives no simulated blow count of its own.
void take_simulated(std::vector<solver::AfterMeasurement>& tests, const io::StrokeFits& fits) {
    for (std::size_t i = 0; i < tests.size(); ++i)
        if (!tests[i].simulated_blow_count && fits[i] && fits[i]->default_blow_count > 0)
            tests[i].simulated_blow_count = fits[i]->default_blow_count;
}

} // namespace

io::ExitCode after_treatment(const AfterTreatmentOptions& options, Answer& answer) {
    const io::SiteFile site = io::read_site(options.site_file);
    if (site.after.empty())
        throw UsageError(
            fmt::format("{} names no tests: give [after] with table", options.site_file.string()));
    std::vector<solver::BoringDesign> designs;
    for (const auto& boring : site.borings)
        designs.push_back(design_boring(boring, site.quake, site.aims, site.relations));
    auto tests = site.after;
    auto review = review_after_treatment(tests, designs, site.quake, site.aims);
    io::StrokeFits fits;
    bool stopped = false;
    if (options.simulate) {
        fits = simulate(site, designs, review, stopped);
        if (stopped) {
            answer.fail_run("Stopped on request; nothing was written.");
            return io::Stopped;
        }
        take_simulated(tests, fits);
        review = review_after_treatment(tests, designs, site.quake, site.aims);
    }
    answer.say("{}", io::after_summary(site, review, fits));
    tell_review(site, review, answer);
    answer.note(io::design_caution());
    const fs::path folder = folder_for(options.folder, options.site_file, "_after");
    std::vector<fs::path> files;
    for (const auto& table : io::after_tables(site, designs, review, fits))
        files.push_back(write_text(folder / table.file, table.text));
    if (const auto figure = scatter_figure(site, review))
        save_in_all_formats(postprocess::prediction_scatter(*figure), folder / "measured-predicted", files);
    answer.files(files);
    return io::Done;
}

} // namespace interpile::program
