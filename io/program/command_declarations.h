#pragma once
// The commands with their options, declared to the command-line library.

#include "io/program/commands.h"
#include "io/program/style_options.h"

#include <functional>

namespace CLI {
class App;
}

namespace interpile::program {

/// What a command line says.
struct Options {
    CheckOptions check;
    RunOptions run;
    FiguresOptions figures;
    CompareOptions compare;
    ExportOptions export_result;
    SampleOptions sample;
    SoilTestOptions soil_test;
    StartOptions start;
    DesignOptions design;
    AfterTreatmentOptions after;
    WorksOptions works;
    AsBuiltOptions as_built;
    StudyOptions study;
    ReportOptions report;
    StyleOptions style;
    bool json = false;
    std::function<io::ExitCode(Answer&)> chosen; ///< set by the command that was given
};

/// All commands that compute or write; `options` must outlive the library's object.
void declare_commands(CLI::App& app, Options& options);

} // namespace interpile::program
