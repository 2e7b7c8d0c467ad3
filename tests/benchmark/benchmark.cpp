// Speed of the parts that decide the time of a run, each against a reference timed in the same process. Not a test:
// it judges nothing. Usage: interpile_benchmark [CASE.toml], by default the demonstration case.

#include "io/case_file.h"
#include "mesh/grid.h"
#include "solver/equilibrium.h"
#include "solver/installation.h"
#include "solver/pile_growth.h"
#include "solver/soil_parameters.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>
#include <memory>
#include <vector>

using namespace interpile;

namespace {

double seconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median_of_5(const std::function<void()>& work) {
    std::vector<double> times;
    for (int k = 0; k < 5; ++k)
        times.push_back(seconds(work));
    std::sort(times.begin(), times.end());
    return times[2];
}

/// Memory bandwidth of a = b + s c, three arrays of 64 MB [GB/s].
double triad() {
    const std::size_t n = 8'000'000;
    std::vector<double> a(n, 1.0), b(n, 2.0), c(n, 3.0);
    const double time = median_of_5([&] {
        for (std::size_t k = 0; k < n; ++k)
            a[k] = b[k] + 0.5 * c[k];
    });
    return 3.0 * sizeof(double) * static_cast<double>(n) / time / 1e9;
}

/// One pile in Mohr-Coulomb soil on a graded grid of about 46 000 cells, the size of a 5 x 5 group.
struct OnePile {
    mesh::Domain domain;
    mesh::Grid grid;
    solver::Slice slice;
    std::unique_ptr<solver::SoilModel> soil =
        solver::make_soil_model({"mohr-coulomb", {9000, 0.3, 35, 5, 0, 0}});
    std::unique_ptr<solver::Momentum> momentum;
    solver::PileDisc disc;
    OnePile() {
        domain.low = {-20, -20};
        domain.high = {20, 20};
        grid = mesh::make_grid(domain, {{-3.4, -3.4}, {3.4, 3.4}}, {0.045, 1.0, 1.2});
        slice.vertical_stress_kPa = 70;
        slice.void_ratio = 0.8;
        momentum = std::make_unique<solver::Momentum>(grid, domain, slice, *soil);
        disc = solver::seed_disc(grid, domain, 0, {0, 0}, 0.2);
        momentum->set_active({&disc});
        momentum->set_hourglass(0.1 * 0.2 / 0.035);
    }
};

void parts() {
    OnePile pile;
    const double cells = pile.grid.cell_count();
    const double bandwidth = triad();
    fmt::print("triad                      {:8.1f} GB/s\n", bandwidth);

    solver::ElasticOperator elastic(*pile.momentum);
    const double factor = median_of_5([&] { elastic.factor(); });
    solver::Imbalance imbalance;
    solver::Trial trial;
    trial.displacement = Eigen::VectorXd::Zero(elastic.displacements());
    trial.growth = Eigen::VectorXd::Constant(1, 0.02);
    pile.momentum->evaluate(trial, imbalance);
    Eigen::VectorXd correction;
    const Eigen::VectorXd excess = Eigen::VectorXd::Zero(1);
    const double apply = median_of_5([&] { elastic.apply(imbalance.force, 0, excess, correction); });
    trial.displacement = -correction.head(elastic.displacements()); // so that cells yield
    const double loop = median_of_5([&] { pile.momentum->evaluate(trial, imbalance); });
    // Per cell at least: 12 stress and motion columns read, 5 written, nodes and forces once: about 300 bytes.
    fmt::print("grid                       {:8.0f} cells, {} unknowns\n", cells, elastic.unknowns());
    fmt::print("factorization              {:8.1f} ms = {:.1f} back-substitutions\n", 1e3 * factor,
               factor / apply);
    fmt::print("back-substitution          {:8.2f} ms\n", 1e3 * apply);
    fmt::print("cell loop, Mohr-Coulomb    {:8.2f} ms = {:.2f} back-substitutions, {:.1f} million cells/s, "
               "{:.0f} % of "
               "bandwidth at 300 B/cell\n",
               1e3 * loop, loop / apply, cells / loop / 1e6, 100 * cells * 300 / loop / 1e9 / bandwidth);

    solver::Equilibrium equilibrium(*pile.momentum, {});
    equilibrium.refresh();
    const double area = pile.momentum->disc_area(pile.disc);
    int increments = 0;
    const double growth = seconds([&] {
        for (; increments < 10; ++increments)
            equilibrium.solve(Eigen::VectorXd::Constant(1, area * std::exp(0.07 * (increments + 1))), 0.035,
                              1e-5);
    });
    const double per_increment = growth / increments;
    fmt::print("growth increment           {:8.1f} ms = {:.2f} factorizations, {:.1f} iterations of {:.2f} "
               "back-substitutions each\n",
               1e3 * per_increment, per_increment / factor, equilibrium.iterations() / 10.0,
               growth / static_cast<double>(equilibrium.iterations()) / apply);
}

void whole_case(const char* file) {
    const io::Case run = io::read_case(file);
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : run.plan.piles)
        centers.push_back(pile.center_m);
    const mesh::Grid grid = mesh::make_grid(run.domain, centers, run.grid);
    const auto soil = solver::make_soil_model(run.soil);
    solver::RunObserver nobody;
    solver::RunReport report;
    const double time = seconds(
        [&] { report = solver::install_piles(grid, run.domain, run.slice, *soil, run.plan, nobody); });
    fmt::print(
        "\n{}: {} piles, {} cells: {:.1f} s, {:.2f} s per pile, {} increments, {:.1f} iterations each, "
        "{} factorizations\n",
        run.name, centers.size(), grid.cell_count(), time, time / static_cast<double>(centers.size()),
        report.increments, static_cast<double>(report.iterations) / static_cast<double>(report.increments),
        report.factorizations);
}

} // namespace

int main(int count, char** arguments) {
#ifndef NDEBUG
    std::fputs("interpile_benchmark: this is a Debug build; times would mean nothing. Build Release.\n",
               stderr);
    return 1;
#endif
    parts();
    whole_case(count > 1 ? arguments[1] : SOURCE_DIR "/cases/classroom-example/case.toml");
    return 0;
}
