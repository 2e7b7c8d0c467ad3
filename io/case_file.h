#pragma once
// A case: everything a run needs, as read from a TOML file.

#include "mesh/domain.h"
#include "mesh/grid.h"
#include "mesh/pile_layout.h"
#include "solver/installation_plan.h"
#include "solver/slice.h"
#include "solver/soil_parameters.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

/// One value in force, for the printed configuration and for /settings in the results.
struct SettingInForce {
    std::string key;   ///< "layout.spacing_m"
    std::string value; ///< as text, in the unit of the key
    bool is_default = false;
    std::string source; ///< of a default; empty for a user's value
};

struct OutputSettings {
    bool every_pile = true; ///< record the slice after each pile, else only first and last
};

struct Case {
    std::string name; ///< file name without folder and ending
    std::string title;
    std::string text; ///< the file as read
    solver::Slice slice;
    solver::SoilModelChoice soil;
    mesh::Domain domain;
    mesh::GridSettings grid;
    mesh::LayoutSettings layout;
    mesh::OrderSettings order;
    solver::InstallationPlan plan; ///< piles, order of work, strokes, steps and record, resolved
    std::optional<double> target_relative_density_pct; ///< wanted after treatment
    OutputSettings output;
    std::vector<SettingInForce> settings; ///< every value, in the order of the vocabulary
};

/// Read and check a case file.
/// \throws io::CaseFaults  with every fault found, sorted by line (exit code 2)
/// \throws io::FileTrouble if the file, or one it names, cannot be read (exit code 3)
Case read_case(const std::filesystem::path& file);

/// The same from text; `file` is used in messages and to resolve relative paths.
Case parse_case(const std::string& text, const std::filesystem::path& file);

} // namespace interpile::io
