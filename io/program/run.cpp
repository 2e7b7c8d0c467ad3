#include "io/case_report.h"
#include "io/checkpoint.h"
#include "io/observers.h"
#include "io/program/restart_keeper.h"
#include "io/program/result_options.h"
#include "io/program/stage_observers.h"
#include "io/program/stop_signals.h"
#include "io/program/told_numbers.h"
#include "io/progress.h"
#include "io/results_writer.h"
#include "solver/installation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <optional>
#include <thread>
#include <unistd.h>

namespace interpile::program {

namespace {

void require_writable_folder(const fs::path& file) {
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (!fs::is_directory(folder))
        throw io::FileTrouble(
            fmt::format("{}: the folder {} does not exist; nothing was computed. Create it first.",
                        file.string(), folder.string()));
    if (access(folder.c_str(), W_OK | X_OK) != 0)
        throw io::FileTrouble(fmt::format("{}: the folder {} cannot be written; nothing was computed.",
                                          file.string(), folder.string()));
}

/// Refuse before anything is computed what the writer would refuse.
void require_writable(const fs::path& file, bool overwrite) {
    require_writable_folder(file);
    if (fs::exists(file) && !overwrite)
        throw io::FileTrouble(fmt::format(
            "{} exists and was left untouched; nothing was computed. Choose another name "
            "with -o, or replace it with --overwrite{}.",
            file.string(),
            fs::exists(io::restart_file_of(file)) ? "; its run was broken off: --resume goes on with it"
                                                  : ""));
}

/// The restart point of a run of this case.
io::Checkpoint restart_point(const io::Case& run_case, const fs::path& output) {
    require_writable_folder(output);
    const fs::path file = io::restart_file_of(output);
    if (!fs::exists(file))
        throw UsageError(
            fmt::format("--resume: there is nothing to resume: {} does not exist; it is there while a "
                        "run goes on and after it was stopped or killed. Nothing was computed.",
                        file.string()));
    io::Checkpoint checkpoint = io::load_checkpoint(file);
    io::refuse_other_run(file, checkpoint.identity, io::identity_of(run_case));
    return checkpoint;
}

struct Driven {
    solver::RunReport report;
    std::vector<io::StageSummary> stages;
    std::string balance;
    bool can_resume = false; ///< of a run that was stopped
};

/// Drive the piles, from a restart point if there is one, and write; the results file is closed when this returns.
class Recording {
public:
    Recording(const io::Case& run_case, const fs::path& output, const RunOptions& options,
              const io::Checkpoint* from)
        : case_(run_case), output_(output), options_(options), from_(from) {}

    Driven operator()(const mesh::Grid& grid, const solver::SoilModel& soil) const {
        const auto writer = writer_for(grid, soil.densifies_by_cycles());
        BalanceTable balance(from_ ? from_->stages : std::vector<io::StageSummary>());
        RestartKeeper keeper(io::restart_file_of(output_), io::identity_of(case_), *writer, balance,
                             options_.restart_every_s);
        if (!from_)
            keeper.remove(); // of an earlier run, whose result has just been replaced
        Driven driven;
        driven.report = drive(grid, soil, *writer, balance, keeper);
        driven.balance = balance.text(soil.densifies_by_cycles());
        driven.stages = balance.rows();
        if (driven.report.outcome == solver::Outcome::Finished)
            writer->finish();
        if (driven.report.outcome == solver::Outcome::Stopped)
            driven.can_resume = keeper.save();
        else
            keeper.remove();
        return driven;
    }

private:
    std::unique_ptr<io::ResultsWriter> writer_for(const mesh::Grid& grid, bool densifies_by_cycles) const {
        if (from_)
            return std::make_unique<io::ResultsWriter>(output_, case_, grid, densifies_by_cycles,
                                                       from_->rows);
        return std::make_unique<io::ResultsWriter>(output_, case_, grid, densifies_by_cycles,
                                                   options_.overwrite);
    }

    solver::RunReport drive(const mesh::Grid& grid, const solver::SoilModel& soil, io::ResultsWriter& writer,
                            BalanceTable& balance, RestartKeeper& keeper) const {
        FirstAndLastStage first_and_last(writer, balance.rows());
        solver::RunObserver& recorder = case_.output.every_pile
                                            ? static_cast<solver::RunObserver&>(writer)
                                            : static_cast<solver::RunObserver&>(first_and_last);
        io::ProgressLine progress(static_cast<int>(case_.plan.piles.size()), isatty(STDERR_FILENO) != 0,
                                  stderr, io::ProgressLine::steady_clock(), from_ ? from_->share_done : 0);
        StopSignals signals;
        io::Observers observers(
            {&recorder, &balance, &progress, &signals, &keeper}); // keeper: after those it asks
        const auto report = solver::install_piles(grid, case_.domain, case_.slice, soil, case_.plan,
                                                  observers, from_ ? &from_->state : nullptr);
        first_and_last.end_of_run();
        progress.end_line();
        return report;
    }

    const io::Case& case_;
    const fs::path& output_;
    const RunOptions& options_;
    const io::Checkpoint* from_;
};

void print_end(const io::Case& run_case, const Driven& driven, const fs::path& output, Answer& answer) {
    answer.say("\n{}\n", driven.balance);
    const io::ResultsReader results(output);
    const auto stages = ground_at_stages(results);
    if (const auto ground = postprocess::ground_table(results.header(), stages); !ground.empty())
        answer.say("{}\n", ground);
    answer.say("{} increments, {} iterations, {} factorizations\n", driven.report.increments,
               driven.report.iterations, driven.report.factorizations);
    for (const auto& warning : results.warnings()) // told on standard error while it ran
        answer.note(warning);
    for (const auto& sentence : io::remarks(run_case)) {
        answer.say("  - {}\n", sentence);
        answer.note(sentence);
    }
    answer.say("{}\nResult: {}\n", io::caution(), output.string());
    answer.note(io::caution());
    answer.file(output);
    tell_run(driven.report, driven.stages, stages, answer);
}

} // namespace

io::ExitCode run(const RunOptions& options, Answer& answer) {
    const int most_threads = static_cast<int>(std::thread::hardware_concurrency());
    if (options.threads < 1 || options.threads > std::max(1, most_threads))
        throw UsageError(
            fmt::format("--threads {}: 1 .. {}, the processors here.", options.threads, most_threads));
    if (options.restart_every_s < 0)
        throw UsageError(fmt::format("--restart-every {}: seconds, 0 or more.", options.restart_every_s));
    if (options.resume && options.overwrite)
        throw UsageError(
            "--resume goes on with an earlier result, --overwrite replaces it; keep one of them.");
    io::Case run_case = io::read_case(options.case_file);
    run_case.plan.threads = options.threads;
    const fs::path output = options.output.empty() ? fs::path(run_case.name + ".h5") : options.output;
    std::optional<io::Checkpoint> from;
    if (options.resume)
        from = restart_point(run_case, output);
    else
        require_writable(output, options.overwrite);
    answer.say("{}\n\nConfiguration in force\n{}\nDerived numbers\n{}\n", run_case.title,
               io::configuration_text(run_case), io::derived_numbers_text(run_case));
    if (from)
        answer.say("Going on where the run was broken off: group {} of {}, {:.0f} % done, {} increments\n\n",
                   from->state.place + 1, run_case.plan.order.size(), std::floor(100 * from->share_done),
                   from->state.increments);
    std::fflush(stdout);

    std::vector<mesh::Vec2> centers;
    for (const auto& pile : run_case.plan.piles)
        centers.push_back(pile.center_m);
    const auto grid = mesh::make_grid(run_case.domain, centers, run_case.grid);
    const auto soil = solver::make_soil_model(run_case.soil);
    const Driven driven = Recording(run_case, output, options, from ? &*from : nullptr)(grid, *soil);
    print_end(run_case, driven, output, answer);
    switch (driven.report.outcome) {
    case solver::Outcome::NotConverged:
        answer.fail_run(fmt::format(
            "NOT CONVERGED: {}\nThe last stage in {} is saved for inspection and is not a result.",
            driven.report.why, output.string()));
        return io::NotConverged;
    case solver::Outcome::Stopped:
        answer.fail_run(
            fmt::format("Stopped on request; {} holds what was complete until then.{}", output.string(),
                        driven.can_resume ? fmt::format("\nTo go on: interpile run {} -o {} --resume",
                                                        options.case_file.string(), output.string())
                                          : ""));
        return io::Stopped;
    case solver::Outcome::Finished:
        break;
    }
    return io::Done;
}

} // namespace interpile::program
