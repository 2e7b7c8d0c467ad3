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
///
/// With pore pressure the block is that of displacements and pressures together (monolithic),
///   [ K    -G   ] [u]   [force]
///   [ -G^T -A/t ] [p] = [  0  ],  A the matrix of the pore water, t the thickness,
/// symmetric quasi-definite, so that L D L^T exists in any order of the unknowns (Vanderbei 1995, SIAM J. Optim. 5):
/// sparse, simplicial, without pivoting.
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
    void assemble_water();
    Eigen::MatrixXd solve_block(const Eigen::MatrixXd& right) const;
    /// Displacements, and with pore pressure one pressure per cell.
    int block_size() const { return displacements_ + pressures_; }
    void assemble_border();

    const Momentum& momentum_;
    bool shared_;
    int displacements_;
    int pressures_ = 0;                     ///< 0 without pore pressure
    Eigen::SparseMatrix<double> stiffness_; ///< lower triangle
    std::vector<std::array<int, 36>> slot_; ///< per cell: where its entries go in the value array, -1 none
    std::vector<std::array<int, 8>> gradient_slot_; ///< per cell: where G goes
    Eigen::CholmodSupernodalLLT<Eigen::SparseMatrix<double>, Eigen::Lower> cholesky_;
    Eigen::CholmodSimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower>
        quasi_definite_;      ///< with pore pressure
    Eigen::MatrixXd columns_; ///< d (force, water squeezed) / d (heave, growth)
    Eigen::MatrixXd rows_;    ///< d (vertical, disc area) / d (displacement, pressure), transposed
    Eigen::MatrixXd solved_;  ///< block^-1 columns
    Eigen::MatrixXd corner_;  ///< d (vertical, disc area) / d (heave, growth)
    Eigen::PartialPivLU<Eigen::MatrixXd> schur_;
    long factorizations_ = 0;
};

} // namespace interpile::solver
