#include "io/program/commands.h"
#include "io/program/report_parts.h"
#include "io/program/result_options.h"
#include "io/program/site_designs.h"
#include "io/program/study_member.h"

#include <fmt/format.h>

#include <algorithm>
#include <ctime>

namespace interpile::program {

namespace {

ReportResult read_result(const fs::path& file) {
    const io::ResultsReader results(file);
    const int count = chosen_stage(results, {}) + 1; // refuses a result without a stage
    ReportResult result{file, results.header(), {}, {}, results.half_strokes(), results.warnings()};
    for (int n = 0; n < count; ++n) {
        io::ResultsStage stage = results.stage(n);
        if (auto ground = postprocess::ground_at(result.header, stage))
            result.ground.push_back(std::move(*ground));
        if (n > 0 && n < count - 1) {
            stage.fields.clear();
            stage.node_m.resize(2, 0);
        }
        result.stages.push_back(std::move(stage));
    }
    return result;
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    char text[11];
    std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now));
    return text;
}

/// As given; else the day of the newest result, so that the same input makes the same report.
std::string date_of(const ReportInput& input) {
    if (input.file.date)
        return *input.file.date == "today" ? today() : *input.file.date;
    std::string newest;
    for (const auto& result : input.results)
        newest = std::max(newest, result.header.started.substr(0, 10));
    return newest;
}

} // namespace

ReportInput read_report_input(const fs::path& file) {
    ReportInput input;
    input.file = io::read_report(file);
    if (input.file.site) {
        input.site = io::read_site(*input.file.site);
        input.designs = designs_of(*input.site);
    }
    if (input.file.after) {
        if (input.site->after.empty())
            throw UsageError(fmt::format("{}: report.after = true, but {} names no tests: give [after] with "
                                         "table there, or leave after out.",
                                         file.string(), input.file.site->string()));
        input.review =
            review_after_treatment(input.site->after, input.designs, input.site->quake, input.site->aims);
    }
    if (input.file.works)
        input.works = io::read_works(*input.file.works);
    if (input.works && input.works->as_built)
        input.built = io::as_built_site(*input.works, io::read_as_built_inputs(*input.works));
    if (input.file.study) {
        input.study = io::read_study(*input.file.study);
        input.members = collected(*input.study, *input.file.study_folder);
        if (std::none_of(input.members.begin(), input.members.end(),
                         [](const auto& row) { return row.result.finished(); }))
            throw UsageError(
                fmt::format("{}: report.study_folder = \"{}\" holds no finished member of this study: "
                            "run the command study first, with this folder.",
                            file.string(), input.file.study_folder->string()));
    }
    for (const auto& result : input.file.results)
        input.results.push_back(read_result(result));
    input.date = date_of(input);
    return input;
}

void SourceList::add(const std::string& source, const std::string& use) {
    if (source.empty())
        return;
    const auto [found, is_new] = place_.emplace(source, entries_.size());
    if (is_new)
        entries_.push_back({source, {}});
    auto& uses = entries_[found->second].uses;
    if (std::find(uses.begin(), uses.end(), use) == uses.end())
        uses.push_back(use);
}

} // namespace interpile::program
