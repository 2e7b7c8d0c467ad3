#include "io/as_built_report.h"
#include "io/as_built_tables.h"
#include "io/program/as_built_map.h"
#include "io/program/figure_files.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/program/told_numbers.h"

#include <fmt/format.h>

namespace interpile::program {

namespace {

void require_usable(const io::WorksFile& works, const AsBuiltOptions& options) {
    if (!works.as_built)
        throw UsageError(fmt::format("{}: key \"records\" is missing in [as_built]; as-built needs it: a CSV "
                                     "file with the logs of the casing.",
                                     options.file.string()));
    for (const double depth_m : options.slices_m)
        if (!(depth_m >= works.pile.top_depth_m && depth_m <= works.pile.bottom_depth_m))
            throw UsageError(fmt::format("--slice {}: the ordered piles reach from {} to {} m.", depth_m,
                                         works.pile.top_depth_m, works.pile.bottom_depth_m));
}

} // namespace

io::ExitCode as_built(const AsBuiltOptions& options, Answer& answer) {
    const io::WorksFile works = io::read_works(options.file);
    require_usable(works, options);
    const auto site = io::as_built_site(works, io::read_as_built_inputs(works));
    const fs::path folder = folder_for(options.folder, options.file, "_as-built");
    answer.say("{}", io::as_built_report(works, site));
    tell_as_built(site, answer);
    std::vector<fs::path> files = {
        write_text(folder / "slices.csv", io::slices_table(works, site)),
        write_text(folder / "piles.csv", io::piles_table(works, site)),
        write_text(folder / "weak-spots.csv", io::weak_spots_table(site)),
        write_text(folder / "positions.csv", io::positions_table(site)),
    };
    for (const double depth_m : options.slices_m) {
        answer.say("{}", io::plan_report(site, depth_m));
        files.push_back(write_text(folder / fmt::format("layout-as-built-{:g}.csv", depth_m),
                                   io::layout_table(site, depth_m)));
    }
    save_in_all_formats(postprocess::weak_spots_map(as_built_map(works, site)), folder / "weak-spots", files);
    answer.files(files);
    return io::Done;
}

} // namespace interpile::program
