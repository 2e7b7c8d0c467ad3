#include "io/program/site_designs.h"

#include "solver/site/mean_boring.h"

namespace interpile::program {

std::vector<solver::BoringDesign> designs_of(const io::SiteFile& site) {
    std::vector<solver::BoringDesign> designs;
    for (const auto& boring : site.borings)
        designs.push_back(design_boring(boring, site.quake, site.aims, site.relations));
    if (site.design_by == io::DesignBy::Mean)
        designs.push_back(
            design_boring(solver::mean_boring(site.borings), site.quake, site.aims, site.relations));
    return designs;
}

} // namespace interpile::program
