#include "postprocess/ground.h"

#include "mesh/ground_area.h"
#include "mesh/pile_layout.h"
#include "postprocess/time_words.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::postprocess {

using mesh::Vec2;

mesh::Grid current_grid(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    return {header.grid.cells_x, header.grid.cells_y, stage.node_m};
}

const Eigen::ArrayXd& field_values(const io::ResultsStage& stage, const std::string& field) {
    if (const auto found = stage.fields.find(field); found != stage.fields.end())
        return found->second;
    std::string names;
    for (const auto& [name, values] : stage.fields)
        names += (names.empty() ? "" : ", ") + name;
    throw std::out_of_range("the results have no field \"" + field + "\"; they have: " + names);
}

std::vector<bool> ground_cells(const io::ResultsStage& stage) {
    const auto& share = field_values(stage, "pile_share");
    std::vector<bool> ground(share.size());
    for (Eigen::Index cell = 0; cell < share.size(); ++cell)
        ground[cell] = share[cell] < mesh::largest_pile_share;
    return ground;
}

bool is_begun(const io::ResultsHeader& header, const io::ResultsStage& stage, int pile) {
    return stage.disc_radius_m[pile] > 1.02 * header.seed_radius_m;
}

int piles_finished(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    const auto seed = header.seed_radius_m * header.seed_radius_m;
    int finished = 0;
    for (Eigen::Index pile = 0; pile < stage.disc_radius_m.size(); ++pile) {
        const double planned = header.pile_diameter_m[pile] * header.pile_diameter_m[pile] / 4;
        const double grown = stage.disc_radius_m[pile] * stage.disc_radius_m[pile] - seed;
        const bool stopped_here = !stage.converged && !stage.after_rest && pile == stage.pile;
        finished += grown > 0.5 * planned && !stopped_here;
    }
    return finished;
}

namespace {

std::string state_in_words(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    const auto piles = header.pile_diameter_m.size();
    const int finished = piles_finished(header, stage);
    const bool all_there = stage.after_rest && finished == piles;
    if (!stage.converged && stage.after_rest)
        return all_there ? "stopped in the final rest"
                         : fmt::format("stopped in the rest after pile {} of {}", finished, piles);
    if (!stage.converged)
        return fmt::format("stopped in pile {}, {} of {} finished", stage.pile + 1, finished, piles);
    if (all_there)
        return "after the final rest";
    if (stage.after_rest) // of a run that was stopped there
        return fmt::format("in the rest after pile {} of {}", finished, piles);
    return stage.stage == 0 ? "before the first pile" : fmt::format("after pile {} of {}", finished, piles);
}

} // namespace

std::string stage_in_words(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    const std::string state = state_in_words(header, stage);
    return stage.time_s > 0 ? fmt::format("{}, at {}", state, time_in_words(stage.time_s)) : state;
}

double typical_spacing_m(const io::ResultsHeader& header) {
    std::vector<Vec2> centers;
    for (Eigen::Index pile = 0; pile < header.pile_center_m.cols(); ++pile)
        centers.emplace_back(header.pile_center_m.col(pile));
    return centers.size() > 1 ? mesh::smallest_distance_m(centers) : 4 * header.pile_diameter_m[0];
}

} // namespace interpile::postprocess
