#include "postprocess/sample.h"

#include "io/program/result_options.h"
#include "postprocess/record_table.h"
#include "postprocess/replace_file.h"

#include <fmt/format.h>

#include <fstream>
#include <sstream>

namespace interpile::program {

namespace {

std::string table_of(const SampleOptions& options, const io::ResultsReader& results) {
    std::ostringstream csv;
    if (options.half_strokes) {
        postprocess::write_half_strokes(results.header(), results.half_strokes(), csv);
        return csv.str();
    }
    if (options.ground) {
        postprocess::write_ground(results.header(), ground_at_stages(results), csv);
        return csv.str();
    }
    const auto stage = results.stage(chosen_stage(results, options.stage));
    const auto& grid = results.header().grid;
    if (!options.line.empty()) {
        const auto ends = numbers_of(options.line, 4, "--line");
        postprocess::sample_line(stage, grid, {{ends[0], ends[1]}, {ends[2], ends[3]}, options.points},
                                 options.fields, csv);
        return csv.str();
    }
    std::vector<mesh::Vec2> points;
    for (const auto& text : options.at) {
        const auto point = numbers_of(text, 2, "--at");
        points.emplace_back(point[0], point[1]);
    }
    postprocess::sample_points(stage, grid, points, options.fields, csv);
    return csv.str();
}

} // namespace

io::ExitCode sample(const SampleOptions& options, Answer& answer) {
    if (!options.line.empty() + !options.at.empty() + options.half_strokes + options.ground != 1)
        throw UsageError("sample: give one of --line x1,y1,x2,y2, --at x,y, --half-strokes and --ground.");
    if ((options.half_strokes || options.ground) && (!options.fields.empty() || options.stage))
        throw UsageError("sample: --field and --stage have no effect with --half-strokes and --ground.");
    if (options.points < 2)
        throw UsageError(fmt::format("--points {}: a line needs at least 2.", options.points));
    require_fields(options.fields);
    const io::ResultsReader results(options.result);
    const std::string table = table_of(options, results);
    warn_unfinished(results, answer);
    if (options.output.empty()) {
        answer.text("csv", table);
        return io::Done;
    }
    postprocess::replace_file(options.output, [&](const fs::path& part) {
        std::ofstream file(part);
        file << table;
        file.close();
        if (!file)
            throw io::FileTrouble(fmt::format("{} cannot be written.", options.output.string()));
    });
    answer.files({options.output});
    return io::Done;
}

} // namespace interpile::program
