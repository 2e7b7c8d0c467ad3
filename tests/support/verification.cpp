#include "support/verification.h"

#include "mesh/disc_fraction.h"
#include "mesh/ground_area.h"
#include "solver/soil_parameters.h"
#include "support/places.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>
#include <numbers>
#include <regex>
#include <sstream>
#include <stdexcept>

namespace interpile::test {
namespace {

std::string read_text(const std::string& file) {
    std::ifstream in(file);
    if (!in)
        throw std::runtime_error("cannot read " + file);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

class Keep final : public solver::RunObserver {
public:
    explicit Keep(CaseRun& run) : run_(run) {}
    void on_increment(const solver::IncrementRecord& record) override { run_.history.push_back(record); }
    void on_half_stroke(const solver::HalfStrokeRecord& record) override {
        run_.half_strokes.push_back(record);
    }
    void on_stage(const solver::StageRecord& record) override { run_.stages.push_back(record); }

private:
    CaseRun& run_;
};

} // namespace

mesh::Vec2 CaseRun::middle(int cell) const {
    mesh::Vec2 sum = mesh::Vec2::Zero();
    for (int node : grid.cell_nodes(cell))
        sum += 0.25 * last().node_m.col(node);
    return sum;
}

io::Case read_case(const std::string& name, const Changes& changes) {
    const std::string file =
        interpile::testing::source_folder() + "/cases/verification/" + name + "/case.toml";
    std::string text = read_text(file);
    for (const auto& [key, value] : changes) {
        const std::regex line("(?:^|\n)" + key + " *= *([^\n#]*)");
        std::smatch found;
        if (!std::regex_search(text, found, line))
            throw std::runtime_error(key + " does not stand in " + file);
        text.replace(static_cast<std::size_t>(found.position(1)), static_cast<std::size_t>(found.length(1)),
                     value);
    }
    return io::parse_case(text, file);
}

CaseRun run_case(const std::string& name, const Changes& changes) {
    return run_case(read_case(name, changes));
}

CaseRun run_case(io::Case settings) {
    CaseRun run;
    run.settings = std::move(settings);
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : run.settings.plan.piles)
        centers.push_back(pile.center_m);
    run.grid = mesh::make_grid(run.settings.domain, centers, run.settings.grid);
    const auto soil = solver::make_soil_model(run.settings.soil);
    Keep keep(run);
    run.report = solver::install_piles(run.grid, run.settings.domain, run.settings.slice, *soil,
                                       run.settings.plan, keep);
    if (run.report.outcome != solver::Outcome::Finished)
        throw std::runtime_error(run.settings.title + ": " + run.report.why);
    return run;
}

double solids_error(const CaseRun& run) {
    const auto& plan = run.settings.plan;
    const double seed = plan.strokes.seed_radius_m;
    double injected = 0, seeds = 0;
    for (std::size_t k = 0; k < plan.piles.size(); ++k) {
        const double circle = run.settings.domain.inside_share(plan.piles[k].center_m) * std::numbers::pi;
        const double radius = run.last().disc_radius_m(static_cast<Eigen::Index>(k));
        injected += circle * (radius * radius - seed * seed);
        seeds += circle * seed * seed;
    }
    mesh::Grid moved = run.grid;
    moved.node_m = run.last().node_m;
    const double before = mesh::cell_areas(run.grid).sum(), after = mesh::cell_areas(moved).sum();
    const double expected =
        (1 + (after - before - injected) / (before - seeds)) * std::exp(run.last().heave_strain);
    return (1 + run.last().mean_void_ratio) / (1 + run.settings.slice.void_ratio) / expected - 1;
}

double Convergence::at(double cell_m) const {
    for (const auto& [h, error] : rows_)
        if (h == cell_m)
            return error;
    throw std::runtime_error("no grid of that cell size was run");
}

double Convergence::order() const {
    const auto& [h1, e1] = rows_[rows_.size() - 2];
    const auto& [h2, e2] = rows_.back();
    return std::log(e1 / e2) / std::log(h1 / h2);
}

std::string Convergence::table(const std::string& title) const {
    std::string text = title + "\n     cell m       error   order\n";
    for (std::size_t k = 0; k < rows_.size(); ++k) {
        text += fmt::format("  {:9.5f}  {:10.3e}", rows_[k].first, rows_[k].second);
        if (k > 0)
            text += fmt::format("  {:6.2f}", std::log(rows_[k - 1].second / rows_[k].second) /
                                                 std::log(rows_[k - 1].first / rows_[k].first));
        text += "\n";
    }
    std::cout << text;
    return text;
}

std::vector<Ring> rings(const CaseRun& run, double low, double high, int count) {
    std::vector<Ring> result(count);
    std::vector<double> weight(count, 0.0);
    const auto& f = run.last().fields;
    for (int cell = 0; cell < run.grid.cell_count(); ++cell) {
        const mesh::Vec2 p = run.middle(cell);
        const double r = p.norm();
        const int k = static_cast<int>(std::floor(count * std::log(r / low) / std::log(high / low)));
        if (k < 0 || k >= count)
            continue;
        std::array<mesh::Vec2, 4> corner;
        for (int n = 0; n < 4; ++n)
            corner[n] = run.last().node_m.col(run.grid.cell_nodes(cell)[n]);
        const double area = mesh::quadrilateral_area(corner);
        const double c = p.x() / r, s = p.y() / r;
        const double xx = f.at("stress_x_kPa")(cell), yy = f.at("stress_y_kPa")(cell),
                     xy = f.at("stress_xy_kPa")(cell);
        Ring& ring = result[k];
        weight[k] += area;
        ring.radius += area * r;
        ring.sigma_r += area * (c * c * xx + s * s * yy + 2 * c * s * xy);
        ring.sigma_t += area * (s * s * xx + c * c * yy - 2 * c * s * xy);
        ring.sigma_z += area * f.at("vertical_stress_kPa")(cell);
        ring.void_ratio += area * f.at("void_ratio")(cell);
        ring.excess_pressure += area * f.at("excess_pore_pressure_kPa")(cell);
        ring.displacement += area * (c * f.at("displacement_x_m")(cell) + s * f.at("displacement_y_m")(cell));
        ++ring.cells;
    }
    for (int k = 0; k < count; ++k)
        for (double* value : {&result[k].radius, &result[k].sigma_r, &result[k].sigma_t, &result[k].sigma_z,
                              &result[k].void_ratio, &result[k].excess_pressure, &result[k].displacement})
            *value /= weight[k];
    return result;
}

mesh::Vec2 displacement_at(const CaseRun& run, const mesh::Vec2& point) {
    const mesh::Grid& g = run.grid;
    const auto place = [&](int axis, int count, auto node) {
        int k = 0;
        while (k < count - 1 && g.node_m(axis, node(k + 1)) < point[axis] - 1e-9)
            ++k;
        const double low = g.node_m(axis, node(k)), high = g.node_m(axis, node(k + 1));
        return std::pair(k, (point[axis] - low) / (high - low));
    };
    const auto [i, s] = place(0, g.cells_x, [&](int k) { return g.node_index(k, 0); });
    const auto [j, t] = place(1, g.cells_y, [&](int k) { return g.node_index(0, k); });
    const auto u = [&](int a, int b) {
        const int n = g.node_index(i + a, j + b);
        return mesh::Vec2(run.last().node_m.col(n) - g.node_m.col(n));
    };
    return (1 - t) * ((1 - s) * u(0, 0) + s * u(1, 0)) + t * ((1 - s) * u(0, 1) + s * u(1, 1));
}

double at_radius(const CaseRun& run, double radius_m,
                 const std::function<double(const solver::IncrementRecord&)>& value) {
    const auto radius = [](const solver::IncrementRecord& r) {
        return std::sqrt(r.disc_area_m2 / std::numbers::pi);
    };
    for (std::size_t k = 1; k < run.history.size(); ++k) {
        const double a = radius(run.history[k - 1]), b = radius(run.history[k]);
        if (radius_m > b * (1 + 1e-6))
            continue;
        const double t = std::log(radius_m / a) / std::log(b / a);
        return (1 - t) * value(run.history[k - 1]) + t * value(run.history[k]);
    }
    throw std::runtime_error("the disc never reached that radius");
}

Table::Table(const std::string& file, const std::string& folder) {
    std::stringstream text(
        read_text(interpile::testing::source_folder() + "/tests/sources/" + folder + "/" + file + ".csv"));
    const auto split = [](const std::string& line) {
        std::vector<std::string> cells;
        std::stringstream in(line);
        for (std::string cell; std::getline(in, cell, ',');)
            cells.push_back(cell);
        return cells;
    };
    std::string line;
    std::getline(text, line);
    for (auto& name : split(line))
        head_.push_back(name.substr(0, name.find(' ')));
    while (std::getline(text, line))
        rows_.push_back({split(line)});
}

std::size_t Table::column(const std::string& name) const {
    const auto found = std::find(head_.begin(), head_.end(), name);
    if (found == head_.end())
        throw std::runtime_error("no column " + name);
    return static_cast<std::size_t>(found - head_.begin());
}

std::vector<Table::Row> Table::rows(const std::string& first_cell) const {
    std::vector<Row> some;
    for (const auto& row : rows_)
        if (row.cells.front() == first_cell)
            some.push_back(row);
    if (some.empty())
        throw std::runtime_error("no row " + first_cell);
    return some;
}

double Table::number(const Row& row, const std::string& name) const {
    return std::stod(row.cells.at(column(name)));
}

double Table::interpolate(const std::vector<Row>& rows, const std::string& x_column,
                          const std::string& y_column, double x) const {
    for (std::size_t k = 1; k < rows.size(); ++k) {
        const double a = number(rows[k - 1], x_column), b = number(rows[k], x_column);
        if (x <= b) {
            const double t = (x - a) / (b - a);
            return (1 - t) * number(rows[k - 1], y_column) + t * number(rows[k], y_column);
        }
    }
    return number(rows.back(), y_column);
}

} // namespace interpile::test
