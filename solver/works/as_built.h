#pragma once
// What the records of a pile say about it: sand, diameter and passes per meter; reach, tilt and place of the whole.

#include "mesh/domain.h"

#include <optional>
#include <string>
#include <vector>

namespace interpile::solver {

/// One line of the log of a casing.
struct AsBuiltSample {
    double time_s = 0;         ///< never falls
    double tip_depth_m = 0;    ///< >= 0, below the surface
    double sand_volume_m3 = 0; ///< discharged since the start of the record; never falls
    std::optional<double> driving_resistance_kN;
    std::optional<double> inclination_deg; ///< of the casing from the vertical
};

/// The log of one pile, at least two samples, taken on the way down and up alike.
struct AsBuiltRecord {
    std::string pile;
    std::vector<AsBuiltSample> samples;
    std::optional<mesh::Vec2> position_m; ///< of the axis as surveyed
};

/// What was ordered.
struct PileDesign {
    mesh::Vec2 position_m = {0, 0};
    double top_depth_m = 0;    ///< >= 0
    double bottom_depth_m = 0; ///< > top
    double diameter_m = 0;     ///< > 0
    double cell_area_m2 = 0;   ///< plan area that belongs to the pile, > 0
};

/// Where the sand of a stroke ends up.
enum class SandPlace {
    /// Evenly between the tip before the withdrawal and the tip after the re-drive, by the volume balance of a stroke
    /// (solver/works/stroke_instruction.h): the re-drive presses the sand below the tip.
    WithinNetRise,
    /// Where it left the casing: the re-drive presses it sideways only. The lowest withdrawal length then appears
    /// thin, because few strokes cover it, and the re-drive of the last stroke appears above the top.
    AlongWithdrawal,
};

struct AsBuiltReading {
    double bulking = 1; ///< recorded volume over volume in place, 1 .. 2; 1: recorded in place
    SandPlace sand_place = SandPlace::WithinNetRise;
    double least_turn_m = 0.02; ///< > 0; a shorter reversal of the tip is noise (our choice)
};

/// About one meter of a pile.
struct AsBuiltSlice {
    double top_depth_m = 0;
    double bottom_depth_m = 0;
    double sand_volume_m3 = 0;        ///< in place
    double equivalent_diameter_m = 0; ///< of a cylinder of this volume
    double replacement_ratio = 0;     ///< a_s [-]
    int passes = 0;                   ///< down-goings through the middle of the slice, first driving included
    std::optional<double> largest_resistance_kN; ///< of the samples taken in it on the way down
};

struct Tilt {
    double slope = 0;   ///< tan of the largest inclination [-]
    double depth_m = 0; ///< of the tip there
};

struct AsBuiltPile {
    std::string pile;
    double bottom_depth_m = 0;                  ///< deepest tip
    double top_depth_m = 0;                     ///< of the highest sand; the bottom if there is none
    double length_m = 0;                        ///< between them
    double sand_volume_m3 = 0;                  ///< in place, total
    double volume_outside_m3 = 0;               ///< of it above or below the ordered pile
    std::optional<Tilt> tilt;                   ///< none without inclination in the record
    std::optional<double> position_deviation_m; ///< none without a survey
    double duration_s = 0;
    std::vector<AsBuiltSlice> slices; ///< from the ordered top to the ordered bottom
};

/// Slices are the whole meters below the surface, cut at the ordered ends; an end below 0.5 m joins its neighbor.
/// Sand is spread evenly over the depth the tip passed between two samples, also where it was discharged on the way
/// down; with WithinNetRise this holds only for withdrawals without a net rise after them (the last one, or one
/// followed by a re-drive to below its start).
/// \throws std::invalid_argument  names pile and sample: fewer than two samples, time or volume falling, negative depth,
///         a number not finite, an inclination not between -90 and 90; or a number of design or reading out of range
AsBuiltPile as_built_pile(const AsBuiltRecord& record, const PileDesign& design,
                          const AsBuiltReading& reading = {});

/// Discharged volume [m3, loose] since the first sample from the sand level in the casing: A_D times its falls. A rise
/// by `least_charge_m` or more, over any number of samples, is a charge; a smaller one is noise. What is discharged
/// while a charge is under way is not seen (safe side).
/// \param levels_m           height of the sand above the tip, one per sample
/// \param casing_diameter_m  inner, > 0
/// \throws std::invalid_argument  a level negative or not finite; a number not positive
std::vector<double> discharged_volume_m3(const std::vector<double>& levels_m, double casing_diameter_m,
                                         double least_charge_m = 0.2);

} // namespace interpile::solver
