#include "postprocess/continuation.h"

#include <optional>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

/// Cells of a structured grid by steps from one another.
class Neighbors {
public:
    explicit Neighbors(const mesh::Grid& grid) : nx_(grid.cells_x), ny_(grid.cells_y) {}

    std::optional<int> at(int cell, int di, int dj) const {
        const int i = cell % nx_ + di, j = cell / nx_ + dj;
        if (i < 0 || i >= nx_ || j < 0 || j >= ny_)
            return {};
        return j * nx_ + i;
    }

private:
    int nx_, ny_;
};

constexpr std::array<std::array<int, 2>, 4> directions = {{{-1, 0}, {1, 0}, {0, -1}, {0, 1}}};

/// From the known cells around, or empty if there is none.
std::optional<double> continued(const Neighbors& neighbors, int cell, const Eigen::ArrayXd& value,
                                const std::vector<bool>& known, bool with_trend) {
    double sum = 0;
    int count = 0;
    for (const auto& [di, dj] : directions) {
        const auto near = neighbors.at(cell, di, dj), far = neighbors.at(cell, 2 * di, 2 * dj);
        if (!near || !known[*near])
            continue;
        const bool has_trend = with_trend && far && known[*far];
        sum += has_trend ? 2 * value[*near] - value[*far] : value[*near];
        ++count;
    }
    return count > 0 ? std::optional(sum / count) : std::nullopt;
}

} // namespace

Eigen::ArrayXd continued_under_piles(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                                     const std::vector<bool>& is_ground) {
    const Neighbors neighbors(grid);
    Eigen::ArrayXd value = cell_value;
    std::vector<bool> known = is_ground;
    std::vector<int> unknown;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (!known[cell])
            unknown.push_back(cell);

    for (bool first_ring = true; !unknown.empty(); first_ring = false) {
        std::vector<std::pair<int, double>> found;
        std::vector<int> left;
        for (int cell : unknown)
            if (const auto guess = continued(neighbors, cell, value, known, first_ring))
                found.emplace_back(cell, *guess);
            else
                left.push_back(cell);
        if (found.empty())
            throw std::invalid_argument("every cell is pile: there is no ground to draw");
        for (const auto& [cell, guess] : found) {
            value[cell] = guess;
            known[cell] = true;
        }
        unknown = std::move(left);
    }
    return value;
}

} // namespace interpile::postprocess
