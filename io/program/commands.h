#pragma once
// The subcommands of the program, free of the command-line library: each gets its options, tells an
// Answer what it did and returns an exit code.

#include "io/program/answer.h"
#include "io/vocabulary.h"
#include "mesh/domain.h"

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::program {

namespace fs = std::filesystem;

/// Options that cannot be used as given; what() names the option, the value and the mend (exit code 2).
class UsageError : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct CheckOptions {
    fs::path case_file;
    fs::path layout_figure; ///< empty: none
};
/// Print the configuration in force, derived numbers and the layout; compute nothing.
io::ExitCode check(const CheckOptions& options, Answer& answer);

struct RunOptions {
    fs::path case_file;
    fs::path output; ///< empty: CASE.h5 in the working folder
    bool overwrite = false;
    bool resume = false; ///< go on from the restart file beside the output
    double restart_every_s = 20;
    int threads = 1;
};
/// Drive the piles and record the result.
io::ExitCode run(const RunOptions& options, Answer& answer);

struct FiguresOptions {
    fs::path result;
    fs::path folder; ///< empty: RESULT_figures in the working folder
    std::vector<std::string> fields;
    std::vector<std::string> formats; ///< "pdf", "svg", "png"; empty: all
    std::optional<int> stage; ///< none: the last, of plans of excess pressure the one with the largest mean
    std::optional<int> pile;  ///< from 1, of pressure_loops; none: the last one driven
    bool sequence = false;    ///< instead: stages beside each other, one page per field
    std::vector<int> stages;  ///< of the sequence; empty: up to six, evenly spread
};
/// Draw the figures of a result.
io::ExitCode figures(const FiguresOptions& options, Answer& answer);

struct CompareOptions {
    std::vector<fs::path> results; ///< two or more; differences are told against the first
    fs::path folder;               ///< empty: "comparison" in the working folder
    std::vector<std::string> fields;
    std::vector<std::string> formats; ///< as of FiguresOptions
    std::optional<int> stage;         ///< of all; none: the last of each
};
/// Results beside each other in the same colors, and maps and a table of their differences.
io::ExitCode compare(const CompareOptions& options, Answer& answer);

struct ExportOptions {
    fs::path result;
    fs::path folder; ///< empty: RESULT_vtk in the working folder
};
/// Write the result for other visualizers.
io::ExitCode export_result(const ExportOptions& options, Answer& answer);

struct SampleOptions {
    fs::path result;
    std::string line;            ///< "x1,y1,x2,y2"; empty: none
    int points = 101;            ///< along the line
    std::vector<std::string> at; ///< "x,y" each
    bool half_strokes = false;   ///< instead: the record of half strokes
    bool ground = false;         ///< instead: the ground between the piles at every stage
    std::vector<std::string> fields;
    std::optional<int> stage; ///< none: the last
    fs::path output;          ///< empty: standard output
};
/// Values along a line or at points, the record of half strokes or the ground between the piles, as CSV.
io::ExitCode sample(const SampleOptions& options, Answer& answer);

struct SoilTestOptions {
    fs::path file;
    fs::path folder; ///< empty: FILE_curves in the working folder
};
/// Laboratory tests on a soil element: one CSV file per test, and figures.
io::ExitCode soil_test(const SoilTestOptions& options, Answer& answer);

struct StartOptions {
    std::string kind; ///< of program/starter_files.h
    fs::path folder;  ///< empty: a folder named like the kind in the working folder
};
/// Write commented files to start from; existing ones are left untouched.
io::ExitCode start(const StartOptions& options, Answer& answer);

struct DesignOptions {
    fs::path site_file;
    fs::path folder; ///< empty: SITE_design in the working folder
};
/// From borings to spacings: tables, figures and case files.
io::ExitCode design(const DesignOptions& options, Answer& answer);

struct AfterTreatmentOptions {
    fs::path site_file;
    fs::path folder; ///< empty: SITE_after in the working folder
    bool simulate = false;
};
/// Tests between the piles against the simple methods and, if asked for, the simulation.
io::ExitCode after_treatment(const AfterTreatmentOptions& options, Answer& answer);

struct WorksOptions {
    fs::path file;
    fs::path folder; ///< empty: FILE_COMMAND in the working folder
};
/// Every stroke of the ordered piles as a table and as a page to print.
io::ExitCode instruction(const WorksOptions& options, Answer& answer);
/// What the ordered piles do to their neighbors: a screening.
io::ExitCode neighbors(const WorksOptions& options, Answer& answer);

struct AsBuiltOptions {
    fs::path file;
    fs::path folder;              ///< empty: FILE_as-built in the working folder
    std::vector<double> slices_m; ///< depths whose plan is written too
};
/// What was built against what was ordered: tables, and a map of the weak spots.
io::ExitCode as_built(const AsBuiltOptions& options, Answer& answer);

struct StudyOptions {
    fs::path file;
    fs::path folder;                  ///< empty: FILE_study in the working folder
    int jobs = 1;                     ///< members at once
    std::optional<int> member;        ///< from 1: run only this one and make no table
    std::optional<std::string> share; ///< "K/N": run only each N-th member from K on and make no table
    bool collect = false;             ///< run nothing, make the table of what is there
};
/// A case with other values of some keys: every member side by side, and a table of them.
io::ExitCode study(const StudyOptions& options, Answer& answer);

struct ReportOptions {
    fs::path file;
    fs::path folder; ///< empty: FILE_report in the working folder
};
/// Site, results and works of a job as one report, in HTML and PDF.
io::ExitCode make_report(const ReportOptions& options, Answer& answer);

/// Print every key of a kind of file with default, range and source; with the parameters of all soil models where the
/// file chooses one.
io::ExitCode help_keys(const io::Dictionary& dictionary, Answer& answer);

} // namespace interpile::program
