#include "solver/soil_model.h"

namespace interpile::solver {

void SoilState::resize(Eigen::Index cells, Eigen::Index history_size) {
    stress.setZero(cells, 4);
    void_ratio.setZero(cells);
    history.setZero(cells, history_size);
    yielding.setZero(cells);
}

} // namespace interpile::solver
