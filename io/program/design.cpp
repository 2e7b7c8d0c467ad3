#include "io/program/design_figures.h"
#include "io/program/figure_files.h"
#include "io/program/result_options.h"
#include "io/program/site_designs.h"
#include "io/program/text_files.h"
#include "io/program/told_numbers.h"
#include "io/site_cases.h"
#include "io/site_summary.h"

namespace interpile::program {

io::ExitCode design(const DesignOptions& options, Answer& answer) {
    const io::SiteFile site = io::read_site(options.site_file);
    const auto designs = designs_of(site);
    const fs::path folder = folder_for(options.folder, options.site_file, "_design");
    answer.say("{}", io::site_summary(site, designs));
    tell_designs(designs, answer);
    answer.note(io::design_caution());
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
    answer.files(files);
    return io::Done;
}

} // namespace interpile::program
