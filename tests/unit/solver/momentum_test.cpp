#include "solver/momentum.h"
#include "solver/soil_models/elastic.h"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::solver;

namespace {

constexpr double G = 8000, nu = 0.3, lambda = 2 * G * nu / (1 - 2 * nu);

struct Block {
    mesh::Domain domain;
    mesh::Grid grid;
    Slice slice;
    Elastic soil{G, nu};
    Block() {
        domain.low = {-3, -2};
        domain.high = {5, 4};
        domain.side.fill(mesh::BoundaryKind::ConstantStress); // every node is free
        grid = mesh::make_grid(domain, {{0, 0}}, {0.2, 0.8, 1.3});
        // Away from rectangles, so that the test does not depend on them.
        for (int n = 0; n < grid.node_count(); ++n) {
            auto p = grid.node_m.col(n);
            p += 0.03 * mesh::Vec2(std::sin(3 * p.x() + p.y()), std::cos(2 * p.y() - p.x()));
        }
        slice.void_ratio = 0.8;
        slice.vertical = VerticalCondition::Fixed;
    }
    Trial trial(const Momentum& momentum, const Eigen::Matrix2d& gradient) const {
        Trial t;
        Eigen::Matrix2Xd u = gradient * grid.node_m;
        t.displacement.resize(momentum.supports().count());
        momentum.supports().project(u, t.displacement);
        return t;
    }
    bool inner(int node) const {
        const int i = node % (grid.cells_x + 1), j = node / (grid.cells_x + 1);
        return i > 0 && j > 0 && i < grid.cells_x && j < grid.cells_y;
    }
};

} // namespace

TEST_CASE("patch test: a linear motion gives uniform stress and balanced nodes on a graded, distorted grid") {
    const Block block;
    Momentum momentum(block.grid, block.domain, block.slice, block.soil);
    momentum.set_hourglass(0.5); // must not act on linear motion
    Eigen::Matrix2d gradient;
    gradient << 2e-5, 3e-5, -1e-5, 4e-5;
    const Trial trial = block.trial(momentum, gradient);
    Imbalance imbalance;
    momentum.evaluate(trial, imbalance);
    const auto& freedoms = momentum.supports().freedoms();
    double worst = 0;
    for (int k = 0; k < momentum.supports().count(); ++k)
        if (block.inner(freedoms[k].node))
            worst = std::max(worst, std::abs(imbalance.force(k)));
    INFO("worst out-of-balance " << std::scientific << worst);
    CHECK(worst < 1e-10); // round-off: stiffness 4e4 kPa x 1e-16 x cells of up to a meter, several parts

    momentum.keep(trial);
    // Hooke in plane strain, compression positive; the logarithm differs by strain squared x stiffness, 1e-4
    // kPa.
    const double volumetric = gradient.trace();
    const auto& stress = momentum.soil_state().stress;
    CHECK((stress.col(0) + lambda * volumetric + 2 * G * gradient(0, 0)).abs().maxCoeff() < 1e-4);
    CHECK((stress.col(1) + lambda * volumetric + 2 * G * gradient(1, 1)).abs().maxCoeff() < 1e-4);
    CHECK((stress.col(2) + lambda * volumetric).abs().maxCoeff() < 1e-4);
    CHECK((stress.col(3) + G * (gradient(0, 1) + gradient(1, 0))).abs().maxCoeff() < 1e-4);
}

TEST_CASE("a rigid rotation of 40 degrees gives no stress and no hourglass force") {
    const Block block;
    Momentum momentum(block.grid, block.domain, block.slice, block.soil);
    momentum.set_hourglass(0.5);
    const Eigen::Matrix2d rotation = Eigen::Rotation2Dd(40 * 3.14159265358979 / 180).toRotationMatrix();
    const Trial trial = block.trial(momentum, rotation - Eigen::Matrix2d::Identity());
    Imbalance imbalance;
    momentum.evaluate(trial, imbalance);
    CHECK(imbalance.force.cwiseAbs().maxCoeff() < 1e-9);
    momentum.keep(trial);
    CHECK(momentum.soil_state().stress.abs().maxCoeff() < 1e-9);
}

TEST_CASE("an hourglass motion meets a restoring force, and none when the resistance is off") {
    const Block block;
    Momentum momentum(block.grid, block.domain, block.slice, block.soil);
    Trial trial = block.trial(momentum, Eigen::Matrix2d::Zero());
    const auto& freedoms = momentum.supports().freedoms();
    for (int k = 0; k < momentum.supports().count(); ++k) {
        const int i = freedoms[k].node % (block.grid.cells_x + 1),
                  j = freedoms[k].node / (block.grid.cells_x + 1);
        trial.displacement(k) = freedoms[k].direction.x() * ((i + j) % 2 ? 1e-7 : -1e-7);
    }
    Imbalance without, with;
    momentum.evaluate(trial, without);
    momentum.set_hourglass(0.1);
    momentum.evaluate(trial, with);
    // Work of the force on the motion: what the cell sees of it is only its small skew part.
    CHECK(with.force.dot(trial.displacement) > 100 * std::abs(without.force.dot(trial.displacement)));
}

TEST_CASE("the hourglass pattern is orthogonal to every linear field") {
    const std::array<mesh::Vec2, 4> corner = {mesh::Vec2{0, 0}, mesh::Vec2{2, 0.3}, mesh::Vec2{2.4, 1.9},
                                              mesh::Vec2{-0.2, 1.1}};
    const auto g = hourglass_pattern(corner);
    double sum = 0, along_x = 0, along_y = 0;
    for (int k = 0; k < 4; ++k) {
        sum += g[k];
        along_x += g[k] * corner[k].x();
        along_y += g[k] * corner[k].y();
    }
    CHECK(std::abs(sum) < 1e-15);
    CHECK(std::abs(along_x) < 1e-15);
    CHECK(std::abs(along_y) < 1e-15);
}

TEST_CASE("a trial that turns a cell inside out is refused") {
    const Block block;
    Momentum momentum(block.grid, block.domain, block.slice, block.soil);
    const Trial trial = block.trial(momentum, (Eigen::Matrix2d() << -2, 0, 0, 0).finished());
    Imbalance imbalance;
    momentum.evaluate(trial, imbalance);
    CHECK(std::isnan(imbalance.worst));
}
