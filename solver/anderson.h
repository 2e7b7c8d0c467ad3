#pragma once
// Anderson mixing of a fixed-point iteration.

#include <Eigen/Core>

namespace interpile::solver {

/// Accelerates y <- y - r(y). Keeps the last `depth` differences of y and r and takes the combination whose
/// residual is smallest in a weighted norm. Source: from memory of Anderson (1965), J. ACM 12(4), 547-560,
/// and of Walker & Ni (2011), SIAM J. Numer. Anal. 49(4), 1715-1735 (type II).
class AndersonMixing {
public:
    explicit AndersonMixing(int depth) : depth_(depth) {}

    /// Forget everything; the next iteration starts afresh.
    /// \param weight per unknown, squared in the norm
    void restart(Eigen::VectorXd weight);
    /// One step: y becomes the next iterate.
    void step(Eigen::VectorXd& y, const Eigen::VectorXd& r);

private:
    int depth_;
    int kept_ = 0;   ///< differences at hand
    int oldest_ = 0; ///< column to be replaced next
    bool started_ = false;
    Eigen::VectorXd weight_, last_y_, last_r_;
    Eigen::MatrixXd dy_, dr_; ///< unknowns x depth
    Eigen::MatrixXd gram_;    ///< weighted products of the columns of dr_
};

} // namespace interpile::solver
