#pragma once
// The elastic stiffness of the slice at its last kept state, factored once and applied many times.

#include "solver/momentum.h"

#include <Eigen/CholmodSupport>
#include <Eigen/Core>
#include <Eigen/LU>
#include <Eigen/SparseCore>

#include <vector>

namespace interpile::solver {

/// Approximate inverse of the map from (displacement, heave, growth of discs) to (force, vertical force, disc
/// areas). The displacement block is symmetric positive definite and factored by sparse Cholesky
/// (supernodal); the few scalar unknowns are eliminated by their Schur complement, so they cost one
/// back-substitution each per factorization and none per iteration.
class ElasticOperator {
public:
    explicit ElasticOperator(const Momentum& momentum);

    /// Assemble and factor at the kept state, for the discs that are active.
    /// \throws std::runtime_error if the stiffness is not positive definite (a cell has turned inside out)
    void factor();

    /// correction = P^-1 (imbalance), in the order displacement, heave (if shared), growth.
    /// \param disc_excess  disc area now minus target [m2]
    void apply(const Eigen::VectorXd& force, double vertical, const Eigen::VectorXd& disc_excess,
               Eigen::VectorXd& correction);

    /// Squared sizes of the displacement that one unit of heave and of growth causes: their weights beside
    /// the displacements in a norm of corrections. One for a displacement.
    Eigen::VectorXd weights() const;

    int unknowns() const { return displacements_ + border_count(); }
    int displacements() const { return displacements_; }
    long factorizations() const { return factorizations_; }

private:
    int heave_count() const { return shared_ ? 1 : 0; }
    int border_count() const { return heave_count() + static_cast<int>(momentum_.active().size()); }
    void plan_pattern();
    void assemble();
    void assemble_border();

    const Momentum& momentum_;
    bool shared_;
    int displacements_;
    Eigen::SparseMatrix<double> stiffness_; ///< lower triangle
    std::vector<std::array<int, 36>> slot_; ///< per cell: where its entries go in the value array, -1 none
    Eigen::CholmodSupernodalLLT<Eigen::SparseMatrix<double>, Eigen::Lower> cholesky_;
    Eigen::MatrixXd columns_; ///< d force / d (heave, growth)
    Eigen::MatrixXd rows_;    ///< d (vertical, disc area) / d displacement, transposed
    Eigen::MatrixXd solved_;  ///< K^-1 columns
    Eigen::MatrixXd corner_;  ///< d (vertical, disc area) / d (heave, growth)
    Eigen::PartialPivLU<Eigen::MatrixXd> schur_;
    long factorizations_ = 0;
};

} // namespace interpile::solver
