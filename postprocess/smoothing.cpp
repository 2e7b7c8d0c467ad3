#include "postprocess/smoothing.h"

#include <limits>

namespace interpile::postprocess {

Eigen::ArrayXd node_averages(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                             const std::vector<bool>& counts) {
    Eigen::ArrayXd sum = Eigen::ArrayXd::Zero(grid.node_count()), count = sum;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (counts[cell])
            for (int node : grid.cell_nodes(cell)) {
                sum[node] += cell_value[cell];
                count[node] += 1;
            }
    return sum / count; // 0/0 is not a number
}

Eigen::ArrayXd means_of_nodes(const mesh::Grid& grid, const Eigen::ArrayXd& node_value,
                              const std::vector<bool>& counts) {
    Eigen::ArrayXd value =
        Eigen::ArrayXd::Constant(grid.cell_count(), std::numeric_limits<double>::quiet_NaN());
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        if (!counts[cell])
            continue;
        const auto node = grid.cell_nodes(cell);
        value[cell] =
            0.25 * (node_value[node[0]] + node_value[node[1]] + node_value[node[2]] + node_value[node[3]]);
    }
    return value;
}

} // namespace interpile::postprocess
