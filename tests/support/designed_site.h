#pragma once
// A site with the designs of its borings, as the command makes them.

#include "io/site_file.h"
#include "solver/site/mean_boring.h"
#include "tests/support/case_text.h"
#include "tests/support/site_text.h"

#include <utility>
#include <vector>

namespace interpile::testing {

struct DesignedSite {
    io::SiteFile site;
    std::vector<solver::BoringDesign> designs;
};

/// \param folder  with the tables of the site
/// \throws io::CaseFaults, io::FileTrouble
inline DesignedSite designed(const std::string& site_text, const SiteFolder& folder) {
    DesignedSite made{io::parse_site(site_text, folder.file()), {}};
    auto borings = made.site.borings;
    if (made.site.design_by == io::DesignBy::Mean)
        borings.push_back(solver::mean_boring(borings));
    for (const auto& boring : borings)
        made.designs.push_back(design_boring(boring, made.site.quake, made.site.aims, made.site.relations));
    return made;
}

inline DesignedSite designed(const std::string& site_text) {
    return designed(site_text, SiteFolder());
}

/// sound_site with several changes, one after another.
inline std::string site_with(const std::vector<std::pair<std::string, std::string>>& changes) {
    std::string text = sound_site;
    for (const auto& [from, to] : changes)
        text = changed(text, from, to);
    return text;
}

} // namespace interpile::testing
