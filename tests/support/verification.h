#pragma once
// Run a case of cases/verification through the reader and the solver, on several grids, and tell errors and orders.

#include "io/case_file.h"
#include "mesh/grid.h"
#include "solver/installation.h"

#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace interpile::test {

/// Everything a run tells.
struct CaseRun {
    io::Case settings;
    mesh::Grid grid;
    solver::RunReport report;
    std::vector<solver::IncrementRecord> history;
    std::vector<solver::HalfStrokeRecord> half_strokes;
    std::vector<solver::StageRecord> stages;

    const solver::StageRecord& last() const { return stages.back(); }
    /// Middle of a cell at the last stage [m].
    mesh::Vec2 middle(int cell) const;
};

/// What cavity solutions call the pressure at the wall [kPa].
inline double wall(const solver::IncrementRecord& r) {
    return r.wall_pressure_kPa;
}

/// Values that replace those of the file, key without table -> text.
using Changes = std::vector<std::pair<std::string, std::string>>;

/// \param name  folder under cases/verification
/// \throws std::runtime_error if a changed key does not stand in the file or the run does not finish
CaseRun run_case(const std::string& name, const Changes& changes = {});
/// The same in two steps, for what a case file of the folder does not hold.
io::Case read_case(const std::string& name, const Changes& changes = {});
CaseRun run_case(io::Case settings);

/// What is missing or too much of the solids of a closed domain, relative: (1+e_mean)/(1+e0) = (1 - a_s + pushed
/// out)(1 + heave), whatever the soil law; a_s = growth of the discs over the soil's initial area. Pushed out: nodes
/// on a round rim slide along their tangent, which adds some 1e-6 to the area.
double solids_error(const CaseRun& run);

/// Errors on successively finer grids.
class Convergence {
public:
    void add(double cell_m, double error) { rows_.emplace_back(cell_m, error); }
    double finest() const { return rows_.back().second; }
    /// Error on the grid of that cell size.
    double at(double cell_m) const;
    /// log(E1/E2)/log(h1/h2) of the last two grids.
    double order() const;
    /// Printed once and attached to a failing check.
    std::string table(const std::string& title) const;

private:
    std::vector<std::pair<double, double>> rows_;
};

/// Mean over rings of cells at the last stage, about the origin: radius from low to high in `rings` equal steps of
/// ln(r); weighted by cell area, whole circle or quarter.
struct Ring {
    double radius = 0; ///< area-weighted mean [m]
    double sigma_r = 0, sigma_t = 0, sigma_z = 0, void_ratio = 0;
    double excess_pressure = 0;
    double displacement = 0; ///< radial, outward [m]
    int cells = 0;
};
std::vector<Ring> rings(const CaseRun& run, double low, double high, int count);

/// Displacement at a point of the initial grid, bilinear in its cell; rectangular grids only [m].
mesh::Vec2 displacement_at(const CaseRun& run, const mesh::Vec2& point);

/// A quantity of the history at a given disc radius, linear in ln(a).
double at_radius(const CaseRun& run, double radius_m,
                 const std::function<double(const solver::IncrementRecord&)>& value);

/// A reference table: rows with named columns (the name up to the unit).
class Table {
public:
    /// \param file  without ending, in that folder under tests/sources
    explicit Table(const std::string& file, const std::string& folder = "benchmarks");
    struct Row {
        std::vector<std::string> cells;
    };
    std::vector<Row> rows(const std::string& first_cell) const; ///< rows whose first column is this
    const std::vector<Row>& rows() const { return rows_; }
    double number(const Row& row, const std::string& column) const;
    /// Value of y at x by linear interpolation over the given rows.
    double interpolate(const std::vector<Row>& rows, const std::string& x_column, const std::string& y_column,
                       double x) const;

private:
    std::size_t column(const std::string& name) const;
    std::vector<std::string> head_;
    std::vector<Row> rows_;
};

} // namespace interpile::test
