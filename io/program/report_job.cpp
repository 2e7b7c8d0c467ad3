// Chapter 1: what was asked, what went in.

#include "io/file_digest.h"
#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "io/site_summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace interpile::program {

namespace {

/// Every file that the report was made from, with what it is.
std::vector<std::pair<std::filesystem::path, std::string>> input_files(const ReportInput& input) {
    std::vector<std::pair<std::filesystem::path, std::string>> files = {{input.file.file, "report file"}};
    if (input.site)
        for (const auto& file : input.site->files)
            files.emplace_back(file, file == *input.file.site ? "site file" : "table of the site");
    for (const auto& result : input.results)
        files.emplace_back(result.file, "results file");
    if (input.study) {
        files.emplace_back(input.study->file, "study file");
        files.emplace_back(input.study->base, "case of the study");
    }
    if (input.works)
        for (const auto& file : input.works->files)
            files.emplace_back(file, file == *input.file.works ? "works file" : "table of the works");
    if (input.built) {
        files.emplace_back(input.works->as_built->records, "logs of the casing");
        if (input.works->as_built->survey)
            files.emplace_back(*input.works->as_built->survey, "survey of the piles");
    }
    return files;
}

report::Table files_table(const ReportInput& input) {
    report::Table table{"Files that this report was made from",
                        {text_column("file"), text_column("what"), text_column("FNV-1a, 64 bit")},
                        {},
                        {"The last column changes with any change of a file; it is no protection against "
                         "forgery. Made with interpile " INTERPILE_VERSION "."}};
    for (const auto& [file, what] : input_files(input))
        table.rows.push_back({file.filename().string(), what, io::digest_of_file(file)});
    return table;
}

report::Items contents_in_words(const ReportInput& input) {
    report::Items items;
    if (input.site)
        items.texts.push_back(fmt::format("{}: {} borings; wanted between the piles: {}.", input.site->title,
                                          input.site->borings.size(), io::target_text(input.site->aims)));
    for (const auto& result : input.results)
        items.texts.push_back(fmt::format("Simulation {} at {:g} m below ground: {}.",
                                          result.header.case_name, result.header.depth_m,
                                          result.header.title));
    if (input.study)
        items.texts.push_back(fmt::format("{}: {} alternatives.", input.study->title, input.members.size()));
    if (input.works)
        items.texts.push_back(
            fmt::format("{}: {} piles ordered.", input.works->title, input.works->piles.size()));
    return items;
}

/// What keeps a result from being one.
void add_cautions(const ReportInput& input, Blocks& blocks) {
    for (const auto& result : input.results) {
        const std::string& name = result.header.case_name;
        if (!result.stages.back().converged)
            blocks.push_back(report::Caution{fmt::format(
                "Simulation {}: NOT CONVERGED. Its last stage is shown for inspection and is not a result.",
                name)});
        else if (!result.header.finished)
            blocks.push_back(report::Caution{
                fmt::format("Simulation {} is not finished; what was complete is shown.", name)});
        if (result.header.monotonic_density)
            blocks.push_back(
                report::Caution{fmt::format("Simulation {}: its soil model does not densify under repeated "
                                            "strokes; its D_r is not a prediction.",
                                            name)});
    }
    for (const auto& design : input.designs)
        for (const auto& method : design.methods)
            if (method.out_of_reach)
                blocks.push_back(report::Caution{fmt::format(
                    "Boring {}: the target is out of reach of method {} at {:g} m.", design.boring.name,
                    solver::letter_of(method.method), design.boring.samples[*method.governing].depth_m)});
}

} // namespace

Blocks job_blocks(const ReportInput& input, const std::vector<std::string>& left_out) {
    Blocks blocks;
    blocks.push_back(contents_in_words(input));
    add_cautions(input, blocks);
    if (!left_out.empty())
        blocks.push_back(report::Paragraph{
            fmt::format("Left out, as there is nothing to tell: {}.", fmt::join(left_out, "; "))});
    blocks.push_back(files_table(input));
    return blocks;
}

} // namespace interpile::program
