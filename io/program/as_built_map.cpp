#include "io/program/as_built_map.h"

#include "io/as_built_report.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace interpile::program {

namespace {

postprocess::SpotGrade grade_of(io::PileVerdict verdict) {
    switch (verdict) {
    case io::PileVerdict::Deviates:
        return postprocess::SpotGrade::Deviates;
    case io::PileVerdict::NotRecorded:
        return postprocess::SpotGrade::NotRecorded;
    case io::PileVerdict::AsOrdered:
    case io::PileVerdict::AsRecorded:
        break;
    }
    return postprocess::SpotGrade::AsOrdered;
}

} // namespace

postprocess::WeakSpotsMap as_built_map(const io::WorksFile& works, const io::AsBuiltSite& site) {
    postprocess::WeakSpotsMap map;
    map.title = works.title;
    map.subtitle = io::as_built_counts(site);
    map.source =
        fmt::format("interpile " INTERPILE_VERSION ", interpile as-built {}", works.file.filename().string());
    map.warnings = {io::as_built_caution()};
    if (const auto open = io::left_open(site); !open.empty())
        map.notes.push_back(fmt::format("Left open, neither kept nor broken: {}.", fmt::join(open, "; ")));
    for (const io::SitePile& pile : site.piles)
        map.piles.push_back({pile.ordered.name, pile.design.position_m, pile.position_m(),
                             pile.design.diameter_m, grade_of(pile.verdict()), io::spot_remark(pile)});
    return map;
}

} // namespace interpile::program
