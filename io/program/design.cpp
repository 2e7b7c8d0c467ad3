#include "io/program/design_figures.h"
#include "io/program/figure_files.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/site_cases.h"
#include "io/site_summary.h"
#include "solver/site/mean_boring.h"

#include <fmt/format.h>

namespace interpile::program {

namespace {

std::vector<solver::BoringDesign> designs_of(const io::SiteFile& site) {
    std::vector<solver::BoringDesign> designs;
    for (const auto& boring : site.borings)
        designs.push_back(design_boring(boring, site.quake, site.aims, site.relations));
    if (site.design_by == io::DesignBy::Mean)
        designs.push_back(
            design_boring(solver::mean_boring(site.borings), site.quake, site.aims, site.relations));
    return designs;
}

} // namespace

io::ExitCode design(const DesignOptions& options) {
    const io::SiteFile site = io::read_site(options.site_file);
    const auto designs = designs_of(site);
    const fs::path folder = folder_for(options.folder, options.site_file, "_design");
    fmt::print("{}", io::site_summary(site, designs));
    std::vector<fs::path> files;
    for (const auto& tables : {io::site_tables(site, designs), io::site_cases(site, designs)})
        for (const auto& table : tables)
            files.push_back(write_text(folder / table.file, table.text));
    for (const auto& design : designs) {
        const std::string word = io::file_word(design.boring.name);
        save_in_all_formats(postprocess::depth_profile(profile_figure(site, design)),
                            folder / ("profile-" + word), files);
        if (const auto figure = ratio_figure(site, design))
            save_in_all_formats(postprocess::blow_count_chart(*figure), folder / ("ratios-" + word), files);
    }
    report_files(files);
    return io::Done;
}

} // namespace interpile::program
