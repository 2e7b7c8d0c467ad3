#pragma once
// The piles ordered for a site: what to build, where, in which order, and what it is held against; as read from a TOML
// file.

#include "io/case_file.h"
#include "io/site_neighbors.h"
#include "mesh/pile_layout.h"
#include "solver/works/as_built_assessment.h"
#include "solver/works/stroke_instruction.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

struct WorksPile {
    std::string name; ///< of the user's table, else "P" and its number
    mesh::Vec2 center_m = {0, 0};
};

/// Where the records of the finished piles lie and how to read them. The files are not opened here.
struct AsBuiltFiles {
    std::filesystem::path records;               ///< CSV of io/as_built_records.h
    std::optional<std::filesystem::path> survey; ///< CSV pile,x_m,y_m
    solver::SandPlace sand_place = solver::SandPlace::WithinNetRise;
    double bulking = 1; ///< recorded volume over volume in place, 1 .. 2
};

/// Allowed hours of a day [h], 0 .. 24, start < end.
struct WorkingHours {
    double start_h = 0;
    double end_h = 0;
};

struct WorksFile {
    std::filesystem::path file; ///< as given
    std::string title;
    solver::OrderedPile pile;       ///< all piles are equal; its steps are sound (solver::stroke_instruction)
    std::vector<WorksPile> piles;   ///< by number, at least one; names are unique
    std::vector<std::size_t> order; ///< indices into `piles` in the order of work, each once
    double rest_h = 0;              ///< after a pile, before the next
    std::optional<double> area_per_pile_m2; ///< always there with `as_built`
    solver::AsBuiltLimits limits;
    std::optional<AsBuiltFiles> as_built;   ///< none without [as_built]
    std::optional<NeighborsPlan> neighbors; ///< none without surroundings.border_distance_m
    std::optional<WorkingHours> working_hours;
    std::vector<std::filesystem::path>
        files; ///< read: the works file, then the table of positions if it names one
    std::vector<SettingInForce> settings; ///< every value, in the order of the vocabulary
};

/// Read and check a works file.
/// \throws CaseFaults  with every fault found (exit code 2)
/// \throws FileTrouble if the file, or its table of positions, cannot be read (exit code 3)
WorksFile read_works(const std::filesystem::path& file);

/// The same from text; `file` is used in messages and to resolve relative paths.
WorksFile parse_works(const std::string& text, const std::filesystem::path& file);

} // namespace interpile::io
