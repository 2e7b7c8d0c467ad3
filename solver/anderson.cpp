#include "solver/anderson.h"

#include <Eigen/QR>

namespace interpile::solver {

void AndersonMixing::restart(Eigen::VectorXd weight) {
    weight_ = std::move(weight);
    kept_ = oldest_ = 0;
    started_ = false;
    dy_.resize(weight_.size(), depth_);
    dr_.resize(weight_.size(), depth_);
    gram_.setZero(depth_, depth_);
}

void AndersonMixing::step(Eigen::VectorXd& y, const Eigen::VectorXd& r) {
    if (started_) {
        dy_.col(oldest_) = y - last_y_;
        dr_.col(oldest_) = r - last_r_;
        kept_ = std::min(kept_ + 1, depth_);
        // Only the new row of the Gram matrix is computed.
        const Eigen::VectorXd weighted = weight_.cwiseProduct(dr_.col(oldest_));
        for (int k = 0; k < kept_; ++k)
            gram_(k, oldest_) = gram_(oldest_, k) = dr_.col(k).dot(weighted);
        oldest_ = (oldest_ + 1) % depth_;
    }
    last_y_ = y;
    last_r_ = r;
    started_ = true;
    y -= r;
    if (kept_ == 0)
        return;
    const Eigen::VectorXd weighted = weight_.cwiseProduct(r);
    const Eigen::VectorXd rhs = dr_.leftCols(kept_).transpose() * weighted;
    // Scaled to unit diagonal, so that the rank decision does not depend on the size of old steps.
    const Eigen::VectorXd scale = gram_.diagonal().head(kept_).cwiseMax(1e-300).cwiseSqrt().cwiseInverse();
    const Eigen::MatrixXd scaled =
        scale.asDiagonal() * gram_.topLeftCorner(kept_, kept_) * scale.asDiagonal();
    Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> solver(kept_, kept_);
    solver.setThreshold(1e-11);
    solver.compute(scaled);
    const Eigen::VectorXd factor = scale.cwiseProduct(solver.solve(scale.cwiseProduct(rhs)));
    y.noalias() -= dy_.leftCols(kept_) * factor;
    y.noalias() += dr_.leftCols(kept_) * factor;
}

} // namespace interpile::solver
