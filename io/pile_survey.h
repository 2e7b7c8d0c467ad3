#pragma once
// Where the piles stand as surveyed, as CSV, one row per pile.

#include "io/fault_list.h"
#include "mesh/observation_points.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::io {

struct SurveyedPile {
    std::string pile;
    mesh::Vec2 position_m = {0, 0}; ///< of the axis
};

/// Head, in any order: pile (text), x_m, y_m (-10000 .. 10000, in the coordinates of the layout). A pile has one row.
/// Form of the table: io/csv_table.h.
/// \param text  content of the file
/// \param file  as named in messages
/// \returns     in the order of the rows
/// \throws CaseFaults  all faults of the table
std::vector<SurveyedPile> parse_pile_survey(std::string text, const std::filesystem::path& file);

/// The same from a file.
/// \throws CaseFaults  as above
/// \throws FileTrouble  if it cannot be read
std::vector<SurveyedPile> read_pile_survey(const std::filesystem::path& file);

/// For a table named in a works file: adds its faults to those of that file; then the piles must not be used. A pile
/// that is not among the ordered ones is a fault.
/// \throws FileTrouble  if it cannot be read
std::vector<SurveyedPile> read_pile_survey(const std::filesystem::path& file,
                                           const std::vector<std::string>& ordered, FaultList& faults);

} // namespace interpile::io
