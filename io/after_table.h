#pragma once
// Blow counts after treatment as CSV, one row per blow count.

#include "io/fault_list.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

/// A blow count between the piles, and what is known of its place.
struct AfterTest {
    std::string place;                       ///< name of the boring
    double depth_m = 0;                      ///< below the surface
    double blow_count = 0;                   ///< N as measured, blows per 0.3 m
    std::optional<double> fines_pct;         ///< finer than 0.075 mm
    std::optional<double> replacement_ratio; ///< a_s as built around the place
    std::optional<double> days_after;        ///< from the last pile nearby to the test
    std::optional<double> simulated_blow_count;
    std::string boring; ///< that tells the ground before treatment; empty: not said
};

/// What the site says about the tests.
struct AfterContext {
    std::vector<std::string> borings;        ///< names before treatment; a test must belong to one of them
    std::optional<double> replacement_ratio; ///< of tests that give none; every test must have one
};

/// Head, in any order: place (text), depth_m (0.05 .. 100), blow_count (0 .. 100); and, if known: fines_pct (0 .. 100),
/// replacement_ratio (0.01 .. 0.5), days_after (0 .. 10000), simulated_blow_count (0 .. 100), boring (text); their cells
/// may be empty.
/// A place has one row for a depth. Form of the table: io/csv_table.h.
/// \param text  content of the file
/// \param file  as named in messages
/// \returns     in the order of the rows
/// \throws CaseFaults  all faults of the table
std::vector<AfterTest> parse_after_table(std::string text, const std::filesystem::path& file);

/// The same from a file.
/// \throws CaseFaults  as above
/// \throws FileTrouble  if it cannot be read
std::vector<AfterTest> read_after_table(const std::filesystem::path& file);

/// For a table named in another file: adds its faults to those of that file; then the tests must not be used.
/// A test that names no boring belongs to the one with the name of its place, or to the only one.
/// \throws FileTrouble  if it cannot be read
std::vector<AfterTest> read_after_table(const std::filesystem::path& file, const AfterContext& context,
                                        FaultList& faults);

} // namespace interpile::io
