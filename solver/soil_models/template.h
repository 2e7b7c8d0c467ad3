#pragma once
// A soil model to copy: linear elasticity that remembers how much it was sheared. Everything a law must do is here, with
// the reason. To make it yours: copy, rename, write the law between the dashed lines, add a row to soil_model_table()
// and a line to make_soil_model() in solver/soil_parameters.cpp.

#include "solver/soil_models/elastic_step.h"

#include <cmath>

namespace interpile::solver {

/// Say here what the law is, where it comes from ("Author (year), Journal"; "from memory of ..." if you could not read
/// it), and what it cannot show.
class TemplateModel final : public SoilModel {
public:
    explicit TemplateModel(double shear_modulus_kPa, double poisson_ratio)
        : G_(shear_modulus_kPa), lambda_(2 * G_ * poisson_ratio / (1 - 2 * poisson_ratio)) {}

    std::string name() const override { return "template"; }

    /// Columns of SoilState::history. Tensors among them (back stress, fabric) must be turned by the rotation of the
    /// motion like the stress: see elastic_trial().
    Eigen::Index history_size() const override { return 1; }
    void initialize(SoilState& state) const override { state.history.col(0) = 0; }

    /// Called several times for the same increment with different motions, always with the same `start`. Write `end`
    /// completely, never read it, keep nothing in members: a trial is undone by being forgotten. Memory of reversals
    /// belongs into end.history; it becomes real when the solver keeps the increment.
    void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                Eigen::Index count) const override {
        for (Eigen::Index cell = first; cell < first + count; ++cell) {
            const PlaneStress trial = elastic_trial(motion, start, cell, lambda_, G_);
            // --- the law: bring the trial back to where it may be, advance the history -----------------------------
            const double shear =
                std::hypot(motion(cell, StrainXX) - motion(cell, StrainYY), 2 * motion(cell, StrainXY));
            end.history(cell, 0) = start.history(cell, 0) + shear;
            const bool yields = false;
            // --------------------------------------------------------------------------------------------------------
            store(end, start, motion, cell, trial, yields);
        }
    }

    /// Stiffness on unloading: the operator of the solver. Too soft makes it diverge, too stiff only slow.
    ElasticModuli moduli(const SoilState&, Eigen::Index) const override { return {lambda_ + 2 * G_ / 3, G_}; }

    /// True only if strokes of constant size go on to densify the soil; figures of density depend on the answer.
    bool densifies_by_cycles() const override { return false; }

    /// Words for the user if the stress at rest lies outside the law.
    std::string refuse_at_rest(double, double) const override { return {}; }

private:
    double G_, lambda_;
};

} // namespace interpile::solver
