#include "solver/element_test.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <vector>

namespace interpile::solver {

ElementTest::ElementTest(const SoilModel& soil, const std::array<double, 4>& stress, double void_ratio)
    : soil_(&soil) {
    state_.resize(1, soil.history_size());
    for (int k = 0; k < 4; ++k)
        state_.stress(0, k) = stress[k];
    state_.void_ratio(0) = void_ratio;
    soil.initialize(state_);
    trial_ = state_;
    motion_.setZero(1, MotionColumns);
    motion_(0, RotationCos) = 1;
}

std::array<double, 4> ElementTest::stress() const {
    return {state_.stress(0, 0), state_.stress(0, 1), state_.stress(0, 2), state_.stress(0, 3)};
}

double ElementTest::mean_stress_kPa() const {
    return (state_.stress(0, 0) + state_.stress(0, 1) + state_.stress(0, 2)) / 3;
}

std::array<double, 4> ElementTest::try_strain(const std::array<double, 4>& increment,
                                              const std::array<ElementControl, 4>& control) {
    for (int k = 0; k < 4; ++k)
        motion_(0, k) = increment[control[k].kind == ElementControl::LikeXX ? 0 : k];
    soil_->update(motion_, state_, trial_, 0, 1);
    return {trial_.stress(0, 0), trial_.stress(0, 1), trial_.stress(0, 2), trial_.stress(0, 3)};
}

bool ElementTest::step(const std::array<ElementControl, 4>& control) {
    std::vector<int> free;
    std::array<double, 4> increment{};
    for (int k = 0; k < 4; ++k) {
        increment[k] = control[k].value;
        if (control[k].kind == ElementControl::Stress || control[k].kind == ElementControl::MeanStress) {
            free.push_back(k);
            increment[k] = last_[k];
        }
    }
    const auto count = static_cast<Eigen::Index>(free.size());
    const double tolerance = 1e-5 * std::max(1.0, mean_stress_kPa());
    Eigen::VectorXd excess(count);
    Eigen::MatrixXd matrix(count, count);
    const auto miss = [&](const std::array<double, 4>& strain) {
        const auto stress = try_strain(strain, control);
        Eigen::VectorXd e(count);
        for (Eigen::Index i = 0; i < count; ++i) {
            const ElementControl& wanted = control[free[i]];
            const double mean = (stress[0] + stress[1] + stress[2]) / 3;
            e(i) = (wanted.kind == ElementControl::MeanStress ? mean : stress[free[i]]) - wanted.value;
        }
        return e;
    };
    for (int iteration = 0; iteration < 60; ++iteration) {
        excess = miss(increment);
        if (count == 0 || excess.cwiseAbs().maxCoeff() < tolerance) {
            miss(increment); // leaves the trial at the answer
            std::swap(state_, trial_);
            for (int k = 0; k < 4; ++k)
                strain_[k] += motion_(0, k);
            last_ = increment;
            return true;
        }
        const double size = 1e-2 * std::max({1e-6, std::abs(increment[0]), std::abs(increment[1]),
                                             std::abs(increment[2]), std::abs(increment[3])});
        for (Eigen::Index j = 0; j < count; ++j) {
            auto moved = increment;
            moved[free[j]] += size;
            matrix.col(j) = (miss(moved) - excess) / size;
        }
        const Eigen::VectorXd change = matrix.partialPivLu().solve(excess);
        // A step of Newton that makes things worse is shortened.
        double share = 1;
        for (int n = 0; n < 8; ++n, share /= 2) {
            auto next = increment;
            for (Eigen::Index i = 0; i < count; ++i)
                next[free[i]] -= share * change(i);
            if (miss(next).norm() < excess.norm() || n == 7) {
                increment = next;
                break;
            }
        }
    }
    return false;
}

} // namespace interpile::solver
