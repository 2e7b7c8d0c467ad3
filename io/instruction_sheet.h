#pragma once
// What the rig is told: every stroke of every pile in the order of work, as a table and as a page to print.

#include "io/works_file.h"

#include <string>

namespace interpile::io {

/// Sand of all piles.
struct SandTotals {
    double loose_m3 = 0;    ///< to discharge, sum over every stroke of every pile
    double in_place_m3 = 0; ///< the same sum, in the piles
    double design_m3 = 0;   ///< number x pi d^2/4 x length; in_place_m3 must close on it
};
SandTotals sand_totals(const WorksFile& works);

/// One row per pile and stroke as CSV (RFC 4180, lines end in \n): place in the order of work, pile, center, rest before
/// the pile, stroke, tip depths, lengths of the stroke, sand, diameter, passes. Totals run over the strokes of one pile.
std::string instruction_table(const WorksFile& works);

/// A page of HTML that needs no other file, for A4: summary, order of work, strokes of a pile, columns to fill in by hand.
std::string instruction_page(const WorksFile& works);

/// Some lines for the terminal.
std::string instruction_summary(const WorksFile& works);

/// Defaults in force that the strokes or the order depend on, as "pile.bulking = 1.2 (SOURCE)".
std::vector<std::string> instruction_defaults(const WorksFile& works);

} // namespace interpile::io
