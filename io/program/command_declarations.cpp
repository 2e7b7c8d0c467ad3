#include "io/program/command_declarations.h"

#include <CLI/CLI.hpp>

namespace interpile::program {

namespace {

void declare_case_commands(CLI::App& app, Options& options) {
    auto* check = app.add_subcommand("check", "Read a case, print what it says, compute nothing");
    check->add_option("CASE", options.check.case_file, "case file (TOML)")
        ->type_name("FILE.toml")
        ->required();
    check
        ->add_option("--layout-figure", options.check.layout_figure,
                     "also draw the layout: FILE.pdf, .svg or .png")
        ->type_name("FILE");
    check->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::check(options.check, answer); }; });

    auto* run = app.add_subcommand("run", "Drive the piles of a case and record the result");
    run->add_option("CASE", options.run.case_file, "case file (TOML)")->type_name("FILE.toml")->required();
    run->add_option("-o,--output", options.run.output, "results file; default CASE.h5 in the working folder")
        ->type_name("FILE");
    run->add_flag("--overwrite", options.run.overwrite, "replace an existing results file");
    run->add_flag("--resume", options.run.resume,
                  "go on with a run that was stopped or killed, from its restart file");
    run->add_option("--restart-every", options.run.restart_every_s,
                    "seconds between two savings of the restart file; default 20")
        ->type_name("SECONDS");
    run->add_option("--threads", options.run.threads, "that share the work; default 1")->type_name("N");
    run->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::run(options.run, answer); }; });

    auto* help_case =
        app.add_subcommand("help-case", "Every key of a case file with default, range and source");
    help_case->callback([&] { options.chosen = program::help_case; });
}

void declare_soil_commands(CLI::App& app, Options& options) {
    auto* test = app.add_subcommand("soil-test", "Laboratory tests on one element of a soil model");
    test->add_option("FILE", options.soil_test.file, "file of tests (TOML)")
        ->type_name("FILE.toml")
        ->required();
    test->add_option("-o,--output", options.soil_test.folder,
                     "folder; default FILE_curves in the working folder")
        ->type_name("FOLDER");
    test->callback([&] {
        options.chosen = [&](Answer& answer) { return program::soil_test(options.soil_test, answer); };
    });

    auto* help =
        app.add_subcommand("help-soil-test", "Every key of a file of tests with default, range and source");
    help->callback([&] { options.chosen = program::help_soil_test; });
}

void declare_site_commands(CLI::App& app, Options& options) {
    auto* start =
        app.add_subcommand("start", "Write commented files to start from, copies of shipped examples");
    start->add_option("KIND", options.start.kind, "case, cell, site, works, soil-test, style or tutorial")
        ->type_name("KIND")
        ->required();
    start->add_option("-o,--output", options.start.folder, "folder; default KIND in the working folder")
        ->type_name("FOLDER");
    start->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::start(options.start, answer); }; });

    auto* design = app.add_subcommand("design", "From borings and a target to spacings, figures and cases");
    design->add_option("SITE", options.design.site_file, "site file (TOML)")
        ->type_name("FILE.toml")
        ->required();
    design
        ->add_option("-o,--output", options.design.folder,
                     "folder; default SITE_design in the working folder")
        ->type_name("FOLDER");
    design->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::design(options.design, answer); }; });

    auto* after = app.add_subcommand("after-treatment", "Tests between the piles against prediction");
    after->add_option("SITE", options.after.site_file, "site file (TOML) with [after]")
        ->type_name("FILE.toml")
        ->required();
    after->add_option("-o,--output", options.after.folder, "folder; default SITE_after in the working folder")
        ->type_name("FOLDER");
    after->add_flag("--simulate", options.after.simulate,
                    "also simulate the cell of every test and fit the strokes of a depth; minutes");
    after->callback([&] {
        options.chosen = [&](Answer& answer) { return program::after_treatment(options.after, answer); };
    });

    auto* help = app.add_subcommand("help-site", "Every key of a site file with default, range and source");
    help->callback([&] { options.chosen = program::help_site; });
}

void declare_works_commands(CLI::App& app, Options& options) {
    const auto declare = [&](const char* name, const char* what,
                             io::ExitCode (*command)(const WorksOptions&, Answer&)) {
        auto* works = app.add_subcommand(name, what);
        works->add_option("FILE", options.works.file, "works file (TOML)")
            ->type_name("FILE.toml")
            ->required();
        works
            ->add_option("-o,--output", options.works.folder,
                         fmt::format("folder; default FILE_{} in the working folder", name))
            ->type_name("FOLDER");
        works->callback([&options, command] {
            options.chosen = [&options, command](Answer& answer) { return command(options.works, answer); };
        });
    };
    declare("instruction", "Every stroke of the ordered piles: a table and a page to print", instruction);
    declare("neighbors", "Screening of displacement, vibration and noise beside the ordered piles",
            neighbors);

    auto* built = app.add_subcommand("as-built", "What was built against what was ordered: tables and a map");
    built->add_option("FILE", options.as_built.file, "works file (TOML) with [as_built]")
        ->type_name("FILE.toml")
        ->required();
    built
        ->add_option("-o,--output", options.as_built.folder,
                     "folder; default FILE_as-built in the working folder")
        ->type_name("FOLDER");
    built
        ->add_option("--slice", options.as_built.slices_m,
                     "also write the plan at this depth in meters; may be repeated")
        ->type_name("METERS");
    built->callback([&] {
        options.chosen = [&](Answer& answer) { return program::as_built(options.as_built, answer); };
    });

    auto* help = app.add_subcommand("help-works", "Every key of a works file with default, range and source");
    help->callback([&] { options.chosen = program::help_works; });
}

void declare_result_commands(CLI::App& app, Options& options) {
    auto* figures = app.add_subcommand("figures", "Draw the figures of a result");
    figures->add_option("RESULT", options.figures.result, "results file")->type_name("FILE.h5")->required();
    figures
        ->add_option("-o,--output", options.figures.folder,
                     "folder; default RESULT_figures in the working folder")
        ->type_name("FOLDER");
    figures
        ->add_option("--field", options.figures.fields, "names of fields or figures; default: the usual ones")
        ->type_name("FIELDS")
        ->delimiter(',');
    figures->add_option("--format", options.figures.formats, "pdf,svg,png; default: all")
        ->type_name("FORMATS")
        ->delimiter(',');
    figures
        ->add_option(
            "--stage", options.figures.stage,
            "0: before the first pile; default: the last, of plans of excess pressure the one with most")
        ->type_name("N");
    figures
        ->add_option("--pile", options.figures.pile,
                     "pile of pressure_loops, from 1; default: the last driven")
        ->type_name("N");
    figures->add_flag("--sequence", options.figures.sequence,
                      "instead: several stages on one page, in the same colors");
    figures
        ->add_option("--stages", options.figures.stages, "of --sequence; default: up to six, evenly spread")
        ->type_name("STAGES")
        ->delimiter(',');
    figures->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::figures(options.figures, answer); }; });

    auto* compare = app.add_subcommand("compare", "Results beside each other, and their differences");
    compare
        ->add_option("RESULTS", options.compare.results,
                     "results files; differences are told against the first")
        ->type_name("FILE.h5")
        ->required();
    compare
        ->add_option("-o,--output", options.compare.folder,
                     "folder; default comparison in the working folder")
        ->type_name("FOLDER");
    compare
        ->add_option("--field", options.compare.fields, "names of fields; default: density, lateral stress")
        ->type_name("FIELDS")
        ->delimiter(',');
    compare->add_option("--format", options.compare.formats, "pdf,svg,png; default: all")
        ->type_name("FORMATS")
        ->delimiter(',');
    compare->add_option("--stage", options.compare.stage, "of all results; default: the last of each")
        ->type_name("N");
    compare->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::compare(options.compare, answer); }; });

    auto* vtk = app.add_subcommand("export", "Write a result as .vtu and .pvd for other visualizers");
    vtk->add_option("RESULT", options.export_result.result, "results file")->type_name("FILE.h5")->required();
    vtk->add_option("-o,--output", options.export_result.folder,
                    "folder; default RESULT_vtk in the working folder")
        ->type_name("FOLDER");
    vtk->callback([&] {
        options.chosen = [&](Answer& answer) {
            return program::export_result(options.export_result, answer);
        };
    });

    auto* sample =
        app.add_subcommand("sample", "Values along a line, at points, by half strokes or by stages as CSV");
    sample->add_option("RESULT", options.sample.result, "results file")->type_name("FILE.h5")->required();
    sample->add_option("--line", options.sample.line, "x1,y1,x2,y2 in meters, without blanks")
        ->type_name("X1,Y1,X2,Y2");
    sample->add_option("--points", options.sample.points, "points along the line; default 101")
        ->type_name("N");
    sample->add_option("--at", options.sample.at, "points x,y in meters, each without blanks")
        ->type_name("X,Y");
    sample->add_flag("--half-strokes", options.sample.half_strokes,
                     "the record of every half stroke and of the observation points");
    sample->add_flag("--ground", options.sample.ground,
                     "the ground between the piles at every stage: mean, weakest point, shares of the area");
    sample->add_option("--field", options.sample.fields, "names of fields; default: all")
        ->type_name("FIELDS")
        ->delimiter(',');
    sample->add_option("--stage", options.sample.stage, "0: before the first pile; default: the last")
        ->type_name("N");
    sample->add_option("-o,--output", options.sample.output, "CSV file; default: standard output")
        ->type_name("FILE");
    sample->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::sample(options.sample, answer); }; });
}

void declare_study_commands(CLI::App& app, Options& options) {
    auto* study = app.add_subcommand("study", "A case with other values of some keys: a table and curves");
    study->add_option("STUDY", options.study.file, "study file (TOML)")->type_name("FILE.toml")->required();
    study
        ->add_option("-o,--output", options.study.folder,
                     "folder; default STUDY_study in the working folder; finished members in it are kept")
        ->type_name("FOLDER");
    study->add_option("--jobs", options.study.jobs, "members at once; default 1")->type_name("N");
    study
        ->add_option("--member", options.study.member,
                     "run only this one, from 1, and make no table: for arrays of batch jobs")
        ->type_name("N");
    study
        ->add_option("--share", options.study.share,
                     "K/N: run only each N-th member, from K on, and make no table: the same in fewer jobs")
        ->type_name("K/N");
    study->add_flag("--collect", options.study.collect,
                    "run nothing: the table of the members that are there");
    study->callback(
        [&] { options.chosen = [&](Answer& answer) { return program::study(options.study, answer); }; });

    auto* help = app.add_subcommand("help-study", "Every key of a study file with default, range and source");
    help->callback([&] { options.chosen = program::help_study; });
}

void declare_report_commands(CLI::App& app, Options& options) {
    auto* report = app.add_subcommand("report", "Site, results and works of a job as one report");
    report->add_option("FILE", options.report.file, "report file (TOML)")->type_name("FILE.toml")->required();
    report
        ->add_option("-o,--output", options.report.folder,
                     "folder; default FILE_report in the working folder")
        ->type_name("FOLDER");
    report->callback([&] {
        options.chosen = [&](Answer& answer) { return program::make_report(options.report, answer); };
    });

    auto* help =
        app.add_subcommand("help-report", "Every key of a report file with default, range and source");
    help->callback([&] { options.chosen = program::help_report; });
}

void declare_style(CLI::App& app, Options& options) {
    for (const char* draws : {"figures", "compare", "check", "design", "after-treatment", "as-built",
                              "soil-test", "study", "report"}) {
        auto* command = app.get_subcommand(draws);
        command
            ->add_option("--style", options.style.style,
                         "style file: width, letters, bands, decimal sign and language of figures")
            ->type_name("FILE.toml");
        command
            ->add_option("--label-list", options.style.label_list,
                         "also write all texts drawn, as a table to translate for a style file")
            ->type_name("FILE.toml");
    }
    auto* help = app.add_subcommand("help-style", "Every key of a style file with default, range and source");
    help->callback([&] { options.chosen = program::help_style; });
}

} // namespace

void declare_commands(CLI::App& app, Options& options) {
    declare_site_commands(app, options);
    declare_case_commands(app, options);
    declare_result_commands(app, options);
    declare_soil_commands(app, options);
    declare_works_commands(app, options);
    declare_study_commands(app, options);
    declare_report_commands(app, options);
    declare_style(app, options);
}

} // namespace interpile::program
