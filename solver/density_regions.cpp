#include "solver/density_regions.h"

#include "mesh/ground_area.h"

namespace interpile::solver {

std::vector<int> region_of_cells(const mesh::Grid& grid, const std::vector<DensityRegion>& regions) {
    std::vector<int> number(static_cast<std::size_t>(grid.cell_count()), -1);
    const Eigen::Matrix2Xd middle = mesh::cell_middles(grid);
    for (std::size_t cell = 0; cell < number.size(); ++cell)
        for (std::size_t k = 0; k < regions.size(); ++k)
            if (regions[k].place.contains(middle.col(static_cast<Eigen::Index>(cell))))
                number[cell] = static_cast<int>(k);
    return number;
}

Eigen::ArrayXd initial_void_ratio(const mesh::Grid& grid, const Slice& slice) {
    Eigen::ArrayXd e = Eigen::ArrayXd::Constant(grid.cell_count(), slice.void_ratio);
    if (slice.regions.empty())
        return e;
    const auto number = region_of_cells(grid, slice.regions);
    for (Eigen::Index cell = 0; cell < e.size(); ++cell)
        if (const int k = number[static_cast<std::size_t>(cell)]; k >= 0)
            e(cell) = slice.regions[static_cast<std::size_t>(k)].void_ratio;
    return e;
}

} // namespace interpile::solver
