#include "solver/elastic_operator.h"

#include <algorithm>
#include <dlfcn.h>
#include <stdexcept>

namespace interpile::solver {
namespace {

/// Gradients of the shape functions of the four corners, 2 x 4 [1/m], and the area [m2].
struct CellGradient {
    Eigen::Matrix<double, 2, 4> b;
    double area;
    explicit CellGradient(const Diagonals& d) : area(0.5 * d.twice_area()) {
        const Eigen::Vector2d of_a = Eigen::Vector2d(d.by, -d.bx) / (2 * area);
        const Eigen::Vector2d of_b = Eigen::Vector2d(-d.ay, d.ax) / (2 * area);
        b << -of_a, -of_b, of_a, of_b;
    }
};

/// One thread for the dense kernels inside the factorization: the blocks are small, and threads that wait for each
/// other made whole runs four times slower on two cores. Other libraries than OpenBLAS do not have this switch.
void use_one_thread() {
    using Setter = void (*)(int);
    if (const auto set = reinterpret_cast<Setter>(dlsym(RTLD_DEFAULT, "openblas_set_num_threads")))
        set(1);
}

/// Freedoms of a cell, at most eight.
struct CellFreedoms {
    int count = 0;
    std::array<int, 8> index{};
    std::array<int, 8> corner{};
    CellFreedoms(const Supports& supports, const std::array<int, 4>& nodes) {
        for (int k = 0; k < 4; ++k)
            for (int f = supports.first(nodes[k]); f < supports.first(nodes[k] + 1); ++f) {
                index[count] = f;
                corner[count++] = k;
            }
    }
};

} // namespace

ElasticOperator::ElasticOperator(const Momentum& momentum)
    : momentum_(momentum), shared_(momentum.slice().vertical == VerticalCondition::Shared),
      displacements_(momentum.supports().count()),
      pressures_(momentum.pore_water().has_pressure() ? momentum.initial().cell_count() : 0) {
    use_one_thread();
    plan_pattern();
}

void ElasticOperator::plan_pattern() {
    const auto& grid = momentum_.initial();
    std::vector<Eigen::Triplet<double>> entries;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const CellFreedoms f(momentum_.supports(), grid.cell_nodes(cell));
        for (int a = 0; a < f.count; ++a)
            for (int b = 0; b <= a; ++b)
                entries.emplace_back(std::max(f.index[a], f.index[b]), std::min(f.index[a], f.index[b]), 1.0);
    }
    for (int cell = 0; cell < pressures_; ++cell) {
        const CellFreedoms f(momentum_.supports(), grid.cell_nodes(cell));
        const int row = displacements_ + cell, i = cell % grid.cells_x, j = cell / grid.cells_x;
        for (int a = 0; a < f.count; ++a)
            entries.emplace_back(row, f.index[a], 1.0);
        entries.emplace_back(row, row, 1.0);
        if (i + 1 < grid.cells_x)
            entries.emplace_back(row + 1, row, 1.0);
        if (j + 1 < grid.cells_y)
            for (int to = std::max(i - 1, 0); to <= std::min(i + 1, grid.cells_x - 1); ++to)
                entries.emplace_back(row + grid.cells_x + to - i, row, 1.0);
    }
    stiffness_.resize(block_size(), block_size());
    stiffness_.setFromTriplets(entries.begin(), entries.end());
    stiffness_.makeCompressed();
    // Remember where each cell adds, so that a refresh needs no sorting.
    slot_.resize(grid.cell_count());
    const auto slot_at = [&](int i, int j) {
        const int* row = stiffness_.innerIndexPtr();
        const int* start = stiffness_.outerIndexPtr();
        return static_cast<int>(std::lower_bound(row + start[j], row + start[j + 1], i) - row);
    };
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        slot_[cell].fill(-1);
        const CellFreedoms f(momentum_.supports(), grid.cell_nodes(cell));
        for (int a = 0, k = 0; a < f.count; ++a)
            for (int b = 0; b <= a; ++b, ++k) {
                const int i = std::max(f.index[a], f.index[b]), j = std::min(f.index[a], f.index[b]);
                slot_[cell][k] = slot_at(i, j);
            }
    }
    gradient_slot_.resize(static_cast<std::size_t>(pressures_));
    for (int cell = 0; cell < pressures_; ++cell) {
        const CellFreedoms f(momentum_.supports(), grid.cell_nodes(cell));
        for (int a = 0; a < f.count; ++a)
            gradient_slot_[cell][a] = slot_at(displacements_ + cell, f.index[a]);
    }
    if (pressures_ > 0)
        quasi_definite_.analyzePattern(stiffness_);
    else
        cholesky_.analyzePattern(stiffness_);
}

void ElasticOperator::assemble_water() {
    const auto& grid = momentum_.initial();
    const Eigen::SparseMatrix<double>& water = momentum_.pore_water().matrix();
    double* value = stiffness_.valuePtr();
    const double thickness = std::exp(momentum_.heave());
    for (int column = 0; column < water.outerSize(); ++column)
        for (Eigen::SparseMatrix<double>::InnerIterator entry(water, column); entry; ++entry)
            stiffness_.coeffRef(displacements_ + static_cast<int>(entry.row()), displacements_ + column) =
                -entry.value() / thickness;
    for (int cell = 0; cell < pressures_; ++cell) {
        const CellGradient g(momentum_.diagonals(momentum_.current().node_m, cell));
        const CellFreedoms f(momentum_.supports(), grid.cell_nodes(cell));
        for (int a = 0; a < f.count; ++a)
            value[gradient_slot_[cell][a]] =
                -g.area * momentum_.supports().freedoms()[f.index[a]].direction.dot(g.b.col(f.corner[a]));
    }
}

void ElasticOperator::assemble() {
    const auto& grid = momentum_.initial();
    const auto& supports = momentum_.supports();
    double* value = stiffness_.valuePtr();
    std::fill(value, value + stiffness_.nonZeros(), 0.0);
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const CellGradient g(momentum_.diagonals(momentum_.current().node_m, cell));
        const ElasticModuli m = momentum_.soil().moduli(momentum_.soil_state(), cell);
        const double lambda = m.bulk - 2 * m.shear / 3, G = m.shear;
        const auto [k_h, gamma] = momentum_.hourglass(cell);
        const CellFreedoms f(supports, grid.cell_nodes(cell));
        for (int a = 0, k = 0; a < f.count; ++a)
            for (int b = 0; b <= a; ++b, ++k) {
                const Eigen::Vector2d &da = supports.freedoms()[f.index[a]].direction,
                                      &db = supports.freedoms()[f.index[b]].direction;
                const Eigen::Vector2d ba = g.b.col(f.corner[a]), bb = g.b.col(f.corner[b]);
                // A (lambda tr e_a tr e_b + 2 G e_a : e_b) with e = sym(d x b)
                const double stiffness = g.area * (lambda * da.dot(ba) * db.dot(bb) +
                                                   G * (da.dot(db) * ba.dot(bb) + da.dot(bb) * db.dot(ba)));
                value[slot_[cell][k]] +=
                    stiffness + k_h * gamma[f.corner[a]] * gamma[f.corner[b]] * da.dot(db);
            }
    }
}

void ElasticOperator::assemble_border() {
    const auto& grid = momentum_.initial();
    const auto& supports = momentum_.supports();
    const int border = border_count();
    columns_.setZero(block_size(), border);
    rows_.setZero(block_size(), border);
    corner_.setZero(border, border);
    const auto add = [&](Eigen::MatrixXd& to, int column, int cell, const CellGradient& g, double factor) {
        const CellFreedoms f(supports, grid.cell_nodes(cell));
        for (int a = 0; a < f.count; ++a)
            to(f.index[a], column) +=
                factor * g.area * supports.freedoms()[f.index[a]].direction.dot(g.b.col(f.corner[a]));
    };
    if (shared_)
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            const CellGradient g(momentum_.diagonals(momentum_.current().node_m, cell));
            const ElasticModuli m = momentum_.soil().moduli(momentum_.soil_state(), cell);
            const double lambda = m.bulk - 2 * m.shear / 3;
            const double heaving = momentum_.heaving()(cell);
            add(columns_, 0, cell, g, lambda * heaving);
            corner_(0, 0) += (lambda + 2 * m.shear) * g.area * heaving;
            if (pressures_ > 0) // a heaving cell draws water in; pressure carries overburden
                columns_(displacements_ + cell, 0) = -g.area * heaving;
        }
    if (shared_)
        rows_.col(0) = columns_.col(0);
    for (std::size_t k = 0; k < momentum_.active().size(); ++k) {
        const PileDisc& disc = *momentum_.active()[k];
        const int column = heave_count() + static_cast<int>(k);
        for (const auto& part : disc.parts) {
            const CellGradient g(momentum_.diagonals(momentum_.current().node_m, part.cell));
            const ElasticModuli m = momentum_.soil().moduli(momentum_.soil_state(), part.cell);
            const double lambda = m.bulk - 2 * m.shear / 3;
            const double share = PileDisc::pile_share(part.share, disc.log_growth);
            // A growth d(ln g) is an in-plane eigenstrain of `share` in each direction.
            add(columns_, column, part.cell, g, -share * (2 * lambda + 2 * m.shear));
            add(rows_, column, part.cell, g, share);
            if (pressures_ > 0) // growth squeezes water out of the cell
                columns_(displacements_ + part.cell, column) += 2 * share * g.area;
            corner_(column, column) += g.area * 2 * share * (1 - share);
            if (shared_)
                corner_(0, column) -= 2 * lambda * share * g.area * momentum_.heaving()(part.cell);
        }
    }
}

Eigen::MatrixXd ElasticOperator::solve_block(const Eigen::MatrixXd& right) const {
    return pressures_ > 0 ? Eigen::MatrixXd(quasi_definite_.solve(right))
                          : Eigen::MatrixXd(cholesky_.solve(right));
}

void ElasticOperator::factor() {
    assemble();
    if (pressures_ > 0) {
        assemble_water();
        quasi_definite_.factorize(stiffness_);
    } else {
        cholesky_.factorize(stiffness_);
    }
    if ((pressures_ > 0 ? quasi_definite_.info() : cholesky_.info()) != Eigen::Success)
        throw std::runtime_error("the elastic stiffness is not positive definite");
    ++factorizations_;
    assemble_border();
    if (border_count() > 0) {
        solved_ = solve_block(columns_);
        schur_.compute(corner_ - rows_.transpose() * solved_);
    }
}

Eigen::VectorXd ElasticOperator::weights() const {
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(unknowns());
    if (border_count() > 0)
        weight.tail(border_count()) = solved_.topRows(displacements_).colwise().squaredNorm().transpose();
    return weight;
}

void ElasticOperator::apply(const Eigen::VectorXd& force, double vertical, const Eigen::VectorXd& disc_excess,
                            Eigen::VectorXd& correction) {
    correction.resize(unknowns());
    Eigen::VectorXd block = Eigen::VectorXd::Zero(block_size());
    block.head(displacements_) = force;
    block = solve_block(block);
    correction.head(displacements_) = block.head(displacements_);
    if (border_count() == 0)
        return;
    Eigen::VectorXd border(border_count());
    if (shared_)
        border(0) = vertical;
    border.tail(disc_excess.size()) = disc_excess;
    const Eigen::VectorXd scalars = schur_.solve(border - rows_.transpose() * block);
    correction.head(displacements_).noalias() -= solved_.topRows(displacements_) * scalars;
    correction.tail(border_count()) = scalars;
}

} // namespace interpile::solver
