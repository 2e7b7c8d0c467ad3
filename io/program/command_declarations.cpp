#include "io/program/command_declarations.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace interpile::program {

namespace {

/// A command, and what executes it with its options.
template <class Given>
CLI::App* declare(CLI::App& app, Options& options, const char* name, const char* what, const Given& given,
                  io::ExitCode (*execute)(const Given&, Answer&)) {
    auto* command = app.add_subcommand(name, what);
    command->callback([&options, &given, execute] {
        options.chosen = [&given, execute](Answer& answer) { return execute(given, answer); };
    });
    return command;
}

/// What the command is about: one file, or several.
template <class Files>
void add_file(CLI::App* command, const char* name, Files& files, const char* what, const char* form) {
    command->add_option(name, files, what)->type_name(form)->required();
}

void add_folder(CLI::App* command, fs::path& folder, const char* standard, const char* remark = "") {
    command
        ->add_option("-o,--output", folder,
                     fmt::format("folder; default {} in the working folder{}", standard, remark))
        ->type_name("FOLDER");
}

void declare_case_commands(CLI::App& app, Options& options) {
    auto* check = declare(app, options, "check", "Read a case, print what it says, compute nothing",
                          options.check, program::check);
    add_file(check, "CASE", options.check.case_file, "case file (TOML)", "FILE.toml");
    check
        ->add_option("--layout-figure", options.check.layout_figure,
                     "also draw the layout: FILE.pdf, .svg or .png")
        ->type_name("FILE");

    auto* run = declare(app, options, "run", "Drive the piles of a case and record the result", options.run,
                        program::run);
    add_file(run, "CASE", options.run.case_file, "case file (TOML)", "FILE.toml");
    run->add_option("-o,--output", options.run.output, "results file; default CASE.h5 in the working folder")
        ->type_name("FILE");
    run->add_flag("--overwrite", options.run.overwrite, "replace an existing results file");
    run->add_flag("--resume", options.run.resume,
                  "go on with a run that was stopped or killed, from its restart file");
    run->add_option("--restart-every", options.run.restart_every_s,
                    "seconds between two savings of the restart file; default 20")
        ->type_name("SECONDS");
    run->add_option("--threads", options.run.threads, "that share the work; default 1")->type_name("N");
}

void declare_soil_commands(CLI::App& app, Options& options) {
    auto* test = declare(app, options, "soil-test", "Laboratory tests on one element of a soil model",
                         options.soil_test, program::soil_test);
    add_file(test, "FILE", options.soil_test.file, "file of tests (TOML)", "FILE.toml");
    add_folder(test, options.soil_test.folder, "FILE_curves");
}

void declare_site_commands(CLI::App& app, Options& options) {
    auto* start =
        declare(app, options, "start", "Write commented files to start from, copies of shipped examples",
                options.start, program::start);
    start->add_option("KIND", options.start.kind, "case, cell, site, works, soil-test, style or tutorial")
        ->type_name("KIND")
        ->required();
    add_folder(start, options.start.folder, "KIND");

    auto* design = declare(app, options, "design", "From borings and a target to spacings, figures and cases",
                           options.design, program::design);
    add_file(design, "SITE", options.design.site_file, "site file (TOML)", "FILE.toml");
    add_folder(design, options.design.folder, "SITE_design");

    auto* after = declare(app, options, "after-treatment", "Tests between the piles against prediction",
                          options.after, program::after_treatment);
    add_file(after, "SITE", options.after.site_file, "site file (TOML) with [after]", "FILE.toml");
    add_folder(after, options.after.folder, "SITE_after");
    after->add_flag("--simulate", options.after.simulate,
                    "also simulate the cell of every test and fit the strokes of a depth; minutes");
}

void declare_works_commands(CLI::App& app, Options& options) {
    auto* sheet =
        declare(app, options, "instruction", "Every stroke of the ordered piles: a table and a page to print",
                options.works, program::instruction);
    add_file(sheet, "FILE", options.works.file, "works file (TOML)", "FILE.toml");
    add_folder(sheet, options.works.folder, "FILE_instruction");

    auto* screening = declare(app, options, "neighbors",
                              "Screening of displacement, vibration and noise beside the ordered piles",
                              options.works, program::neighbors);
    add_file(screening, "FILE", options.works.file, "works file (TOML)", "FILE.toml");
    add_folder(screening, options.works.folder, "FILE_neighbors");

    auto* built =
        declare(app, options, "as-built", "What was built against what was ordered: tables and a map",
                options.as_built, program::as_built);
    add_file(built, "FILE", options.as_built.file, "works file (TOML) with [as_built]", "FILE.toml");
    add_folder(built, options.as_built.folder, "FILE_as-built");
    built
        ->add_option("--slice", options.as_built.slices_m,
                     "also write the plan at this depth in meters; may be repeated")
        ->type_name("METERS");
}

void declare_result_commands(CLI::App& app, Options& options) {
    auto* figures =
        declare(app, options, "figures", "Draw the figures of a result", options.figures, program::figures);
    add_file(figures, "RESULT", options.figures.result, "results file", "FILE.h5");
    add_folder(figures, options.figures.folder, "RESULT_figures");
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

    auto* compare = declare(app, options, "compare", "Results beside each other, and their differences",
                            options.compare, program::compare);
    add_file(compare, "RESULTS", options.compare.results,
             "results files; differences are told against the first", "FILE.h5");
    add_folder(compare, options.compare.folder, "comparison");
    compare
        ->add_option("--field", options.compare.fields, "names of fields; default: density, lateral stress")
        ->type_name("FIELDS")
        ->delimiter(',');
    compare->add_option("--format", options.compare.formats, "pdf,svg,png; default: all")
        ->type_name("FORMATS")
        ->delimiter(',');
    compare->add_option("--stage", options.compare.stage, "of all results; default: the last of each")
        ->type_name("N");

    auto* vtk = declare(app, options, "export", "Write a result as .vtu and .pvd for other visualizers",
                        options.export_result, program::export_result);
    add_file(vtk, "RESULT", options.export_result.result, "results file", "FILE.h5");
    add_folder(vtk, options.export_result.folder, "RESULT_vtk");

    auto* sample =
        declare(app, options, "sample", "Values along a line, at points, by half strokes or by stages as CSV",
                options.sample, program::sample);
    add_file(sample, "RESULT", options.sample.result, "results file", "FILE.h5");
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
}

void declare_study_commands(CLI::App& app, Options& options) {
    auto* study = declare(app, options, "study", "A case with other values of some keys: a table and curves",
                          options.study, program::study);
    add_file(study, "STUDY", options.study.file, "study file (TOML)", "FILE.toml");
    add_folder(study, options.study.folder, "STUDY_study", "; finished members in it are kept");
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
}

void declare_report_commands(CLI::App& app, Options& options) {
    auto* report = declare(app, options, "report", "Site, results and works of a job as one report",
                           options.report, program::make_report);
    add_file(report, "FILE", options.report.file, "report file (TOML)", "FILE.toml");
    add_folder(report, options.report.folder, "FILE_report");
}

void declare_help(CLI::App& app, Options& options) {
    for (const io::Dictionary& dictionary : io::dictionaries())
        app.add_subcommand(std::string(dictionary.help_command),
                           fmt::format("{}, each with default, range and source", dictionary.title))
            ->callback(
                [&] { options.chosen = [&](Answer& answer) { return help_keys(dictionary, answer); }; });
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
    declare_help(app, options);
}

} // namespace interpile::program
