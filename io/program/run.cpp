#include "io/case_report.h"
#include "io/observers.h"
#include "io/program/result_options.h"
#include "io/program/stage_observers.h"
#include "io/program/stop_signals.h"
#include "io/progress.h"
#include "io/results_writer.h"
#include "solver/installation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <thread>
#include <unistd.h>

namespace interpile::program {

namespace {

/// Refuse before anything is computed what the writer would refuse.
void require_writable(const fs::path& file, bool overwrite) {
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (!fs::is_directory(folder))
        throw io::FileTrouble(
            fmt::format("{}: the folder {} does not exist; nothing was computed. Create it first.",
                        file.string(), folder.string()));
    if (access(folder.c_str(), W_OK | X_OK) != 0)
        throw io::FileTrouble(fmt::format("{}: the folder {} cannot be written; nothing was computed.",
                                          file.string(), folder.string()));
    if (fs::exists(file) && !overwrite)
        throw io::FileTrouble(
            fmt::format("{} exists and was left untouched; nothing was computed. Choose another name "
                        "with -o, or replace it with --overwrite.",
                        file.string()));
}

struct Outcome {
    solver::RunReport report;
    std::string balance;
};

Outcome drive(const io::Case& run_case, const mesh::Grid& grid, const solver::SoilModel& soil,
              io::ResultsWriter& writer) {
    const int piles = static_cast<int>(run_case.plan.piles.size());
    FirstAndLastStage first_and_last(writer);
    solver::RunObserver& recorder = run_case.output.every_pile
                                        ? static_cast<solver::RunObserver&>(writer)
                                        : static_cast<solver::RunObserver&>(first_and_last);
    BalanceTable balance;
    io::ProgressLine progress(piles, isatty(STDERR_FILENO) != 0, stderr);
    StopSignals signals;
    io::Observers observers({&recorder, &balance, &progress, &signals});
    Outcome outcome;
    outcome.report =
        solver::install_piles(grid, run_case.domain, run_case.slice, soil, run_case.plan, observers);
    first_and_last.end_of_run();
    progress.end_line();
    outcome.balance = balance.text(soil.densifies_by_cycles());
    return outcome;
}

/// Drive and write; the file is closed when this returns.
Outcome record(const io::Case& run_case, const mesh::Grid& grid, const solver::SoilModel& soil,
               const fs::path& output, bool overwrite) {
    io::ResultsWriter writer(output, run_case, grid, soil.densifies_by_cycles(), overwrite);
    const Outcome outcome = drive(run_case, grid, soil, writer);
    if (outcome.report.outcome == solver::Outcome::Finished)
        writer.finish();
    return outcome;
}

void print_end(const io::Case& run_case, const Outcome& outcome, const fs::path& output) {
    fmt::print("\n{}\n", outcome.balance);
    const io::ResultsReader results(output);
    if (const auto ground = postprocess::ground_table(results.header(), ground_at_stages(results));
        !ground.empty())
        fmt::print("{}\n", ground);
    fmt::print("{} increments, {} iterations, {} factorizations\n", outcome.report.increments,
               outcome.report.iterations, outcome.report.factorizations);
    for (const auto& sentence : io::remarks(run_case))
        fmt::print("  - {}\n", sentence);
    fmt::print("{}\nResult: {}\n", io::caution(), output.string());
}

} // namespace

io::ExitCode run(const RunOptions& options) {
    const int most_threads = static_cast<int>(std::thread::hardware_concurrency());
    if (options.threads < 1 || options.threads > std::max(1, most_threads))
        throw UsageError(
            fmt::format("--threads {}: 1 .. {}, the processors here.", options.threads, most_threads));
    io::Case run_case = io::read_case(options.case_file);
    run_case.plan.threads = options.threads;
    const fs::path output = options.output.empty() ? fs::path(run_case.name + ".h5") : options.output;
    require_writable(output, options.overwrite);
    fmt::print("{}\n\nConfiguration in force\n{}\nDerived numbers\n{}\n", run_case.title,
               io::configuration_text(run_case), io::derived_numbers_text(run_case));
    std::fflush(stdout);

    std::vector<mesh::Vec2> centers;
    for (const auto& pile : run_case.plan.piles)
        centers.push_back(pile.center_m);
    const auto grid = mesh::make_grid(run_case.domain, centers, run_case.grid);
    const auto soil = solver::make_soil_model(run_case.soil);
    const Outcome outcome = record(run_case, grid, *soil, output, options.overwrite);
    print_end(run_case, outcome, output);
    switch (outcome.report.outcome) {
    case solver::Outcome::NotConverged:
        fmt::print(stderr,
                   "\nNOT CONVERGED: {}\nThe last stage in {} is saved for inspection and is not a result.\n",
                   outcome.report.why, output.string());
        return io::NotConverged;
    case solver::Outcome::Stopped:
        fmt::print(stderr, "\nStopped on request; {} holds what was complete until then.\n", output.string());
        return io::Stopped;
    case solver::Outcome::Finished:
        break;
    }
    return io::Done;
}

} // namespace interpile::program
