#include "io/csv_text.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "postprocess/canvas.h"
#include "postprocess/figures/difference_map.h"
#include "postprocess/figures/plan_panels.h"
#include "postprocess/plan_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace interpile::program {

namespace {

using postprocess::NamedStage;

/// Names of the files without folder and ending; with the folder where two are alike.
std::vector<std::string> run_names(const std::vector<fs::path>& results) {
    std::vector<std::string> names;
    for (const auto& result : results) {
        const auto alike = [&](const fs::path& other) { return other.stem() == result.stem(); };
        const bool unique = std::count_if(results.begin(), results.end(), alike) == 1;
        names.push_back(unique ? result.stem().string() : (result.parent_path() / result.stem()).string());
    }
    return names;
}

std::vector<NamedStage> read_runs(const CompareOptions& options, Answer& answer) {
    std::vector<NamedStage> runs;
    const auto names = run_names(options.results);
    for (std::size_t k = 0; k < names.size(); ++k) {
        const io::ResultsReader results(options.results[k]);
        const int stage = chosen_stage(results, options.stage);
        runs.push_back({results.header(), results.stage(stage), names[k]});
        warn_unfinished(results, answer);
        const auto why = postprocess::why_not_comparable(runs.front().header, runs.back().header);
        if (!why.empty())
            throw UsageError(fmt::format("{} and {} cannot be compared: {}.", options.results[0].string(),
                                         options.results[k].string(), why));
    }
    return runs;
}

void check(const CompareOptions& options) {
    if (options.results.size() < 2 || options.results.size() > postprocess::most_panels)
        throw UsageError(fmt::format("compare: {} result{}; give 2 .. {}.", options.results.size(),
                                     options.results.size() == 1 ? "" : "s", postprocess::most_panels));
    for (auto result = options.results.begin(); result != options.results.end(); ++result)
        if (std::find(options.results.begin(), result, *result) != result)
            throw UsageError(fmt::format("compare: {} stands there twice.", result->string()));
    require_fields(options.fields);
}

/// Numbers of the differences, one row for each field and run after the first.
class DifferenceTable {
public:
    explicit DifferenceTable(Answer& answer) : answer_(answer) {}
    void add(const NamedStage& first, const NamedStage& second, const mesh::FieldInfo& info,
             const postprocess::FieldDifference& difference) {
        csv_.cell(info.name).cell(info.unit).cell(first.run).cell(second.run);
        csv_.cell(first.stage.stage).cell(second.stage.stage);
        csv_.cell(first.stage.converged && second.stage.converged).cell(difference.area_m2);
        csv_.cell(difference.first_mean).cell(difference.second_mean).cell(difference.mean());
        csv_.cell(difference.mean_size);
        csv_.cell(difference.least).cell(difference.least_at_m.x()).cell(difference.least_at_m.y());
        csv_.cell(difference.most).cell(difference.most_at_m.x()).cell(difference.most_at_m.y());
        csv_.end_row();
        // A field name ends in its unit, or it has none.
        const auto key = [&](const char* what) { return fmt::format("{}_{}", what, info.name); };
        answer_.row("differences", {{"first_run", first.run},
                                    {"second_run", second.run},
                                    {key("mean_difference"), difference.mean()},
                                    {key("least_difference"), difference.least},
                                    {key("most_difference"), difference.most}});
    }
    const std::string& text() const { return csv_.text(); }

private:
    Answer& answer_;
    io::CsvText csv_{{"field", "unit", "first_run", "second_run", "first_stage", "second_stage", "converged",
                      "area_m2", "first_mean", "second_mean", "mean_difference", "mean_size_of_difference",
                      "least_difference", "least_at_x_m", "least_at_y_m", "most_difference", "most_at_x_m",
                      "most_at_y_m"}};
};

/// Everything that will be written, put together before the first file is.
struct Pages {
    std::vector<std::pair<std::string, postprocess::Drawing>> drawings; ///< by name of the file
    DifferenceTable table;
    bool has_differences = false;
};

void add_field(Pages& pages, const std::vector<NamedStage>& runs, const std::string& field) {
    pages.drawings.emplace_back("side_by_side_" + field, postprocess::plan_panels(runs, field));
    if (postprocess::is_stepwise(field)) // states and directions have no differences
        return;
    for (std::size_t k = 1; k < runs.size(); ++k) {
        const auto difference = postprocess::difference_between(runs[0], runs[k], field);
        const auto number = runs.size() > 2 ? fmt::format("_{}", k + 1) : "";
        pages.drawings.emplace_back("difference" + number + "_" + field,
                                    postprocess::difference_map(runs[0], runs[k], field, difference));
        pages.table.add(runs[0], runs[k], mesh::field_info(field), difference);
        pages.has_differences = true;
    }
}

std::vector<std::string> fields_of(const CompareOptions& options) {
    return options.fields.empty() ? std::vector<std::string>{"relative_density_pct", "lateral_stress_ratio"}
                                  : options.fields;
}

} // namespace

io::ExitCode compare(const CompareOptions& options, Answer& answer) {
    check(options);
    const auto formats = formats_of(options.formats);
    const auto runs = read_runs(options, answer);
    const fs::path folder = options.folder.empty() ? fs::path("comparison") : options.folder;
    Pages pages{{}, DifferenceTable(answer)};
    try {
        for (const auto& field : fields_of(options))
            add_field(pages, runs, field);
    } catch (const std::logic_error& nothing_to_draw) {
        throw UsageError(fmt::format("compare: {}.", nothing_to_draw.what()));
    }
    std::vector<fs::path> files;
    for (const auto& [name, drawing] : pages.drawings) {
        const auto saved = postprocess::save_all(drawing, folder, name, formats);
        files.insert(files.end(), saved.begin(), saved.end());
    }
    if (pages.has_differences)
        files.push_back(write_text(folder / "differences.csv", pages.table.text()));
    answer.files(files);
    return io::Done;
}

} // namespace interpile::program
