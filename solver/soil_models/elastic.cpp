#include "solver/soil_models/elastic.h"

#include "solver/soil_models/elastic_step.h"

namespace interpile::solver {

Elastic::Elastic(double shear_modulus_kPa, double poisson_ratio)
    : G_(shear_modulus_kPa), lambda_(2 * G_ * poisson_ratio / (1 - 2 * poisson_ratio)) {}

void Elastic::update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                     Eigen::Index count) const {
    for (Eigen::Index cell = first; cell < first + count; ++cell)
        store(end, start, motion, cell, elastic_trial(motion, start, cell, lambda_, G_), false);
}

ElasticModuli Elastic::moduli(const SoilState&, Eigen::Index) const {
    return {lambda_ + 2 * G_ / 3, G_};
}

std::string Elastic::refuse_at_rest(double, double) const {
    return {};
}

} // namespace interpile::solver
