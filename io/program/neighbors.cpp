#include "io/neighbors_report.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/program/told_numbers.h"

#include <fmt/format.h>

namespace interpile::program {

io::ExitCode neighbors(const WorksOptions& options, Answer& answer) {
    const io::WorksFile works = io::read_works(options.file);
    if (!works.neighbors)
        throw UsageError(
            fmt::format("{}: key \"border_distance_m\" is missing in [surroundings]; neighbors needs it: "
                        "0.1 .. 10000 m from the nearest pile axis to the site border.",
                        options.file.string()));
    answer.say("{}", io::neighbors_report(works));
    tell_neighbors(*works.neighbors, answer);
    answer.files({write_text(folder_for(options.folder, options.file, "_neighbors") / "neighbors.csv",
                             io::neighbors_table(*works.neighbors))});
    return io::Done;
}

} // namespace interpile::program
