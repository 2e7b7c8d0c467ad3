// The command line. The only file that includes the command-line library.

#include "io/program/commands.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstdio>
#include <functional>

namespace {

namespace program = interpile::program;
namespace io = interpile::io;

struct Options {
    program::CheckOptions check;
    program::RunOptions run;
    program::FiguresOptions figures;
    program::ExportOptions export_result;
    program::SampleOptions sample;
    program::SoilTestOptions soil_test;
    program::StartOptions start;
    program::DesignOptions design;
    program::AfterTreatmentOptions after;
    program::WorksOptions works;
    program::AsBuiltOptions as_built;
    program::StudyOptions study;
    program::ReportOptions report;
    std::function<io::ExitCode()> chosen;
};

void declare_case_commands(CLI::App& app, Options& options) {
    auto* check = app.add_subcommand("check", "Read a case, print what it says, compute nothing");
    check->add_option("CASE", options.check.case_file, "case file (TOML)")->required();
    check->add_option("--layout-figure", options.check.layout_figure,
                      "also draw the layout: FILE.pdf, .svg or .png");
    check->callback([&] { options.chosen = [&] { return program::check(options.check); }; });

    auto* run = app.add_subcommand("run", "Drive the piles of a case and record the result");
    run->add_option("CASE", options.run.case_file, "case file (TOML)")->required();
    run->add_option("-o,--output", options.run.output, "results file; default CASE.h5 in the working folder");
    run->add_flag("--overwrite", options.run.overwrite, "replace an existing results file");
    run->add_flag("--resume", options.run.resume,
                  "go on with a run that was stopped or killed, from its restart file");
    run->add_option("--restart-every", options.run.restart_every_s,
                    "seconds between two savings of the restart file; default 20");
    run->add_option("--threads", options.run.threads, "that share the work; default 1");
    run->callback([&] { options.chosen = [&] { return program::run(options.run); }; });

    auto* help_case =
        app.add_subcommand("help-case", "Every key of a case file with default, range and source");
    help_case->callback([&] { options.chosen = program::help_case; });
}

void declare_soil_commands(CLI::App& app, Options& options) {
    auto* test = app.add_subcommand("soil-test", "Laboratory tests on one element of a soil model");
    test->add_option("FILE", options.soil_test.file, "file of tests (TOML)")->required();
    test->add_option("-o,--output", options.soil_test.folder,
                     "folder; default FILE_curves in the working folder");
    test->callback([&] { options.chosen = [&] { return program::soil_test(options.soil_test); }; });

    auto* help =
        app.add_subcommand("help-soil-test", "Every key of a file of tests with default, range and source");
    help->callback([&] { options.chosen = program::help_soil_test; });
}

void declare_site_commands(CLI::App& app, Options& options) {
    auto* start =
        app.add_subcommand("start", "Write commented files to start from, copies of shipped examples");
    start->add_option("KIND", options.start.kind, "case, cell, site, works or soil-test")->required();
    start->add_option("-o,--output", options.start.folder, "folder; default KIND in the working folder");
    start->callback([&] { options.chosen = [&] { return program::start(options.start); }; });

    auto* design = app.add_subcommand("design", "From borings and a target to spacings, figures and cases");
    design->add_option("SITE", options.design.site_file, "site file (TOML)")->required();
    design->add_option("-o,--output", options.design.folder,
                       "folder; default SITE_design in the working folder");
    design->callback([&] { options.chosen = [&] { return program::design(options.design); }; });

    auto* after = app.add_subcommand("after-treatment", "Tests between the piles against prediction");
    after->add_option("SITE", options.after.site_file, "site file (TOML) with [after]")->required();
    after->add_option("-o,--output", options.after.folder,
                      "folder; default SITE_after in the working folder");
    after->add_flag("--simulate", options.after.simulate,
                    "also simulate the cell of every test and fit the strokes of a depth; minutes");
    after->callback([&] { options.chosen = [&] { return program::after_treatment(options.after); }; });

    auto* help = app.add_subcommand("help-site", "Every key of a site file with default, range and source");
    help->callback([&] { options.chosen = program::help_site; });
}

void declare_works_commands(CLI::App& app, Options& options) {
    const auto declare = [&](const char* name, const char* what,
                             io::ExitCode (*command)(const program::WorksOptions&)) {
        auto* works = app.add_subcommand(name, what);
        works->add_option("FILE", options.works.file, "works file (TOML)")->required();
        works->add_option("-o,--output", options.works.folder,
                          fmt::format("folder; default FILE_{} in the working folder", name));
        works->callback(
            [&options, command] { options.chosen = [&options, command] { return command(options.works); }; });
    };
    declare("instruction", "Every stroke of the ordered piles: a table and a page to print",
            program::instruction);
    declare("neighbors", "Screening of displacement, vibration and noise beside the ordered piles",
            program::neighbors);

    auto* built = app.add_subcommand("as-built", "What was built against what was ordered: tables and a map");
    built->add_option("FILE", options.as_built.file, "works file (TOML) with [as_built]")->required();
    built->add_option("-o,--output", options.as_built.folder,
                      "folder; default FILE_as-built in the working folder");
    built->add_option("--slice", options.as_built.slices_m,
                      "also write the plan at this depth in meters; may be repeated");
    built->callback([&] { options.chosen = [&] { return program::as_built(options.as_built); }; });

    auto* help = app.add_subcommand("help-works", "Every key of a works file with default, range and source");
    help->callback([&] { options.chosen = program::help_works; });
}

void declare_result_commands(CLI::App& app, Options& options) {
    auto* figures = app.add_subcommand("figures", "Draw the figures of a result");
    figures->add_option("RESULT", options.figures.result, "results file")->required();
    figures->add_option("-o,--output", options.figures.folder,
                        "folder; default RESULT_figures in the working folder");
    figures
        ->add_option("--field", options.figures.fields, "names of fields or figures; default: the usual ones")
        ->delimiter(',');
    figures->add_option("--format", options.figures.formats, "pdf,svg,png; default: all")->delimiter(',');
    figures->add_option("--stage", options.figures.stage, "0: before the first pile; default: the last");
    figures->add_option("--pile", options.figures.pile,
                        "pile of pressure_loops, from 1; default: the last driven");
    figures->callback([&] { options.chosen = [&] { return program::figures(options.figures); }; });

    auto* vtk = app.add_subcommand("export", "Write a result as .vtu and .pvd for other visualizers");
    vtk->add_option("RESULT", options.export_result.result, "results file")->required();
    vtk->add_option("-o,--output", options.export_result.folder,
                    "folder; default RESULT_vtk in the working folder");
    vtk->callback([&] { options.chosen = [&] { return program::export_result(options.export_result); }; });

    auto* sample =
        app.add_subcommand("sample", "Values along a line, at points, by half strokes or by stages as CSV");
    sample->add_option("RESULT", options.sample.result, "results file")->required();
    sample->add_option("--line", options.sample.line, "x1,y1,x2,y2 in meters, without blanks");
    sample->add_option("--points", options.sample.points, "points along the line; default 101");
    sample->add_option("--at", options.sample.at, "points x,y in meters, each without blanks");
    sample->add_flag("--half-strokes", options.sample.half_strokes,
                     "the record of every half stroke and of the observation points");
    sample->add_flag("--ground", options.sample.ground,
                     "the ground between the piles at every stage: mean, weakest point, shares of the area");
    sample->add_option("--field", options.sample.fields, "names of fields; default: all")->delimiter(',');
    sample->add_option("--stage", options.sample.stage, "0: before the first pile; default: the last");
    sample->add_option("-o,--output", options.sample.output, "CSV file; default: standard output");
    sample->callback([&] { options.chosen = [&] { return program::sample(options.sample); }; });
}

void declare_study_commands(CLI::App& app, Options& options) {
    auto* study = app.add_subcommand("study", "A case with other values of some keys: a table and curves");
    study->add_option("STUDY", options.study.file, "study file (TOML)")->required();
    study->add_option("-o,--output", options.study.folder,
                      "folder; default STUDY_study in the working folder; finished members in it are kept");
    study->add_option("--jobs", options.study.jobs, "members at once; default 1");
    study->add_option("--member", options.study.member,
                      "run only this one, from 1, and make no table: for arrays of batch jobs");
    study->add_flag("--collect", options.study.collect,
                    "run nothing: the table of the members that are there");
    study->callback([&] { options.chosen = [&] { return program::study(options.study); }; });

    auto* help = app.add_subcommand("help-study", "Every key of a study file with default, range and source");
    help->callback([&] { options.chosen = program::help_study; });
}

void declare_report_commands(CLI::App& app, Options& options) {
    auto* report = app.add_subcommand("report", "Site, results and works of a job as one report");
    report->add_option("FILE", options.report.file, "report file (TOML)")->required();
    report->add_option("-o,--output", options.report.folder,
                       "folder; default FILE_report in the working folder");
    report->callback([&] { options.chosen = [&] { return program::make_report(options.report); }; });

    auto* help =
        app.add_subcommand("help-report", "Every key of a report file with default, range and source");
    help->callback([&] { options.chosen = program::help_report; });
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    return names;
}

io::ExitCode refuse(const std::string& message) {
    fmt::print(stderr, "interpile: {}\n", message);
    return io::BadInput;
}

/// The library only says that a command is missing; the user needs the word and the nearest command.
bool is_unknown_command(const CLI::App& app, const std::string& word, std::string& message) {
    const auto names = command_names(app);
    if (word.starts_with('-') || std::find(names.begin(), names.end(), word) != names.end())
        return false;
    const std::string nearest = io::nearest_word(word, names);
    message = fmt::format("unknown command \"{}\"; {}", word,
                          nearest.empty() ? "interpile --help lists the commands"
                                          : fmt::format("nearest: \"{}\"", nearest));
    return true;
}

/// What the library could not place: it lists values before the option they belong to.
std::string unknown_argument(const CLI::App& app) {
    const auto* command = app.get_subcommands().empty() ? &app : app.get_subcommands().front();
    const auto extras = app.remaining(true);
    const auto option =
        std::find_if(extras.begin(), extras.end(), [](const auto& e) { return e.starts_with('-'); });
    if (option == extras.end())
        return fmt::format("{}: unexpected argument \"{}\"", command->get_name(),
                           extras.empty() ? "" : extras.front());
    std::vector<std::string> known;
    for (const auto* known_option : command->get_options())
        for (const auto& name : known_option->get_lnames())
            known.push_back("--" + name);
    const std::string nearest = io::nearest_word(option->substr(0, option->find('=')), known);
    return fmt::format("{}: unknown option \"{}\"; {}", command->get_name(), *option,
                       nearest.empty()
                           ? fmt::format("interpile {} --help lists the options", command->get_name())
                           : fmt::format("nearest: \"{}\"", nearest));
}

io::ExitCode execute(const Options& options) {
    try {
        return options.chosen();
    } catch (const io::CaseFaults& faults) {
        fmt::print(stderr, "{}\n", faults.what());
        return io::BadInput;
    } catch (const program::UsageError& error) {
        return refuse(error.what());
    } catch (const io::FileTrouble& trouble) {
        fmt::print(stderr, "interpile: {}\n", trouble.what());
        return io::FileProblem;
    } catch (const std::filesystem::filesystem_error& trouble) {
        fmt::print(stderr, "interpile: {}\n", trouble.what());
        return io::FileProblem;
    } catch (const std::bad_alloc&) {
        fmt::print(stderr, "interpile: not enough memory; choose larger cells or a smaller domain.\n");
        return io::NotConverged;
    } catch (const std::exception& error) {
        fmt::print(stderr, "interpile: the computation could not go on: {}\n", error.what());
        return io::NotConverged;
    }
}

} // namespace

int main(int argc, char** argv) {
    CLI::App app("Densification of sand by sand compaction piles, simulated in a horizontal slice of ground.",
                 "interpile");
    Options options;
    app.set_version_flag("--version", "interpile " INTERPILE_VERSION);
    app.require_subcommand(1);
    app.footer("Exit codes: 0 done, 1 not converged, 2 bad input, 3 file trouble, 130 stopped.\n"
               "Results need checking by licensed practice; local codes and field control govern.");
    declare_site_commands(app, options);
    declare_case_commands(app, options);
    declare_result_commands(app, options);
    declare_soil_commands(app, options);
    declare_works_commands(app, options);
    declare_study_commands(app, options);
    declare_report_commands(app, options);

    std::string message;
    if (argc == 1)
        return refuse(fmt::format("a command is needed: {}; interpile --help says more",
                                  fmt::join(command_names(app), ", ")));
    if (argc > 1 && is_unknown_command(app, argv[1], message))
        return refuse(message);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ExtrasError&) {
        return refuse(unknown_argument(app));
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success))
            return app.exit(error); // --help, --version
        return refuse(std::string(error.what()) + "; see interpile --help");
    }
    return execute(options);
}
