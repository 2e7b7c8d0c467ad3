#pragma once
// From checked single values to the parts of a case, with the rules that tie several values together. Each
// function adds its faults to values.faults() and then returns a part that must not be used.

#include "io/case_file.h"
#include "io/case_values.h"

#include <optional>
#include <utility>

namespace interpile::io {

/// A pile center and where the user wrote it, for messages.
struct PlacedPile {
    mesh::Vec2 center_m = {0, 0};
    Fault origin;                              ///< file, line, column, width, quote; no text yet
    std::string name = {};                     ///< from a table with names
    std::optional<double> diameter_m = {};     ///< of the finished pile, from a table; none: that of [pile]
    std::optional<double> place_in_order = {}; ///< from a table, which gives it to all piles or to none
    std::optional<double> rig = {};            ///< likewise; from 1 on
};

/// What a pile occupies in plan, and its name in messages: the finished pile, or its seed where that is wider (elastic
/// checks only). The diameter is 0 if it is not known.
struct Footprint {
    double diameter_m = 0;
    std::string name;
};
Footprint footprint_of(const CaseValues& values);

/// The same of one pile.
Footprint footprint_of(const CaseValues& values, const PlacedPile& pile);

solver::Slice read_slice(CaseValues& values);

/// Density before treatment of "ground" or "region[n]" as void ratio [-]; checked where the slice has e_min and e_max.
double read_void_ratio(CaseValues& values, const std::string& table, const solver::Slice& slice);

/// Ground of another density than the rest.
std::vector<solver::DensityRegion> read_regions(CaseValues& values, const solver::Slice& slice);

/// Checks that every region holds in some cell. Only for a case without faults, as it needs the grid.
void check_regions(const CaseValues& values, const Case& run_case);

/// Fill the region that heaves, which depends on where the piles stand.
void read_heaving_region(CaseValues& values, const std::vector<PlacedPile>& piles, solver::Slice& slice);

/// Low and high corner of the box around all pile centers [m]; at least one pile.
std::pair<mesh::Vec2, mesh::Vec2> outermost(const std::vector<PlacedPile>& piles);

/// Also checks that the stress at rest is admissible for the soil.
solver::SoilModelChoice read_soil(CaseValues& values, const solver::Slice& slice);

/// \param piles  of the layout; those with a diameter of their own must go with the strokes too
solver::StrokePlan read_strokes(CaseValues& values, const std::vector<PlacedPile>& piles);

/// After the ground, whose depth and water table they follow.
solver::Water read_water(CaseValues& values);
/// \param strokes  by read_strokes; below 0 if faulty
solver::Schedule read_schedule(CaseValues& values, const solver::StrokePlan& strokes);
/// Shares the piles among the rigs: after the schedule and the order of work.
void read_rigs(CaseValues& values, const std::vector<PlacedPile>& piles, solver::InstallationPlan& plan);
solver::StepSettings read_steps(CaseValues& values);

/// \param folder  of the case file, where a table of positions is looked up
/// \param piles   out: the piles by number; empty if the layout has faults. They do not overlap.
mesh::LayoutSettings read_layout(CaseValues& values, const std::filesystem::path& folder,
                                 std::vector<PlacedPile>& piles);

/// \param piles  of the layout; their places in the order stand for order.sequence
mesh::OrderSettings read_order(CaseValues& values, const std::vector<PlacedPile>& piles);

/// Whether the domain is a cell of the pattern of [layout].
bool is_pattern_cell(const CaseValues& values);

/// How much of it, if it is one; checks that the pattern has such a cell.
std::optional<mesh::CellPart> read_cell_part(CaseValues& values, const mesh::LayoutSettings& layout);

/// Also checks that the piles lie inside. An empty extent where it has faults.
/// \param piles  of the layout; empty if it has faults
mesh::Domain read_domain(CaseValues& values, const mesh::LayoutSettings& layout,
                         const std::vector<PlacedPile>& piles);

/// Also checks that the number of cells is bearable.
mesh::GridSettings read_grid(CaseValues& values, const mesh::Domain& domain,
                             const std::vector<PlacedPile>& piles);

/// Treated area and points to be watched; checks that the user's points lie in the ground.
solver::RecordPlan read_record(CaseValues& values, const mesh::Domain& domain, const mesh::GridSettings& grid,
                               const std::vector<PlacedPile>& piles);

/// Piles from a CSV file with the columns x_m,y_m, before them pile, behind them diameter_m, place_in_order and rig
/// where given; a fault names row and column. Names of piles are there and unique, so are places in the order, of which only the
/// sequence counts: 2, 7 and 7.5 will do.
/// \throws FileTrouble if it cannot be read
std::vector<PlacedPile> read_positions(const std::filesystem::path& file, FaultList& faults);

/// Content of a file.
/// \throws FileTrouble naming it
std::string read_text_file(const std::filesystem::path& file);

} // namespace interpile::io
