#pragma once
// Laboratory tests on one soil, as read from a TOML file, and the columns of their curves.

#include "io/diagnostics.h"
#include "solver/laboratory_test.h"
#include "solver/soil_parameters.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

struct SoilTest {
    std::string name;
    solver::LaboratoryTest plan;
    bool cyclic = false; ///< made of cycles of one amplitude: two legs are one cycle
    std::vector<solver::LaboratoryPoint> measured; ///< NaN where a column is not given
    std::string measured_label;                    ///< what they are, in the legend
};

struct SoilTestFile {
    std::string title;
    solver::SoilModelChoice soil;
    std::vector<SoilTest> tests;
};

/// Read and check a file of tests.
/// \throws CaseFaults  with every fault found (exit code 2)
/// \throws FileTrouble if the file, or one it names, cannot be read (exit code 3)
SoilTestFile read_soil_tests(const std::filesystem::path& file);

/// The same from text; `file` is used in messages and to resolve relative paths.
SoilTestFile parse_soil_tests(const std::string& text, const std::filesystem::path& file);

/// A column of a curve in CSV files: name with unit, and the value it holds times `factor`.
struct CurveColumn {
    std::string_view name;
    double solver::LaboratoryPoint::*value;
    double factor;
};
const std::vector<CurveColumn>& curve_columns();

/// A curve as CSV, one row per point.
std::string curve_table(const std::vector<solver::LaboratoryPoint>& points);

} // namespace interpile::io
