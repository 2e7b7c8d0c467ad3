#pragma once
// What piles do to their neighbors: a screening of displacement, vibration and noise at named places.

#include "mesh/observation_points.h"

#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

struct NumberRange {
    double low = 0;
    double high = 0;
};

/// The piles, the places to look at, and how sure one is of the ground.
struct NeighborsPlan {
    std::vector<mesh::Vec2> piles_m;            ///< axes; at least one
    double pile_diameter_m = 0.70;              ///< > 0
    double casing_diameter_m = 0.40;            ///< > 0, not larger than the pile
    double top_depth_m = 0;                     ///< of the piles, below the surface, >= 0
    double bottom_depth_m = 0;                  ///< > top
    NumberRange efficiency = {0.5, 0.9};        ///< 0 .. 1, share that densifies; common practice, no source
    std::vector<mesh::ObservationPoint> points; ///< at the surface, outside the piles
    double border_distance_m = 0;               ///< from the nearest axis to the site border, > 0
    NumberRange attenuation_per_m = {0.01, 0.04}; ///< >= 0, of vibration in the ground
    double vibration_limit_dB = 75;               ///< solver::screening_limit("border vibration")
    double noise_limit_dB = 85;                   ///< solver::screening_limit("border noise"), dB(A)
};

/// A range of levels against a limit.
enum class LimitCheck { Within, MayBeAbove, Above };

/// "within", "may be above", "above".
const char* description(LimitCheck check);

struct NeighborLevel {
    NumberRange level_dB; ///< over the range of the source level and of the attenuation
    LimitCheck check = LimitCheck::Within;
};

/// One kind of work at the nearest pile.
struct WorkLevels {
    NeighborLevel vibration; ///< vertical, weighted, re 1e-5 m/s2
    NeighborLevel noise;     ///< dB(A)
};

/// All piles installed.
struct PushedGround {
    double outward_bound_m = 0; ///< size of the shift in plan if no ground densified (efficiency 0)
    double heave_bound_m = 0;   ///< the same, upward
    NumberRange outward_m;      ///< over the range of efficiency
    NumberRange heave_m;
};

struct NeighborRow {
    std::string place;
    double nearest_pile_m = 0;          ///< to its axis
    std::optional<PushedGround> pushed; ///< none for the border: where it runs is not known
    WorkLevels non_vibratory;
    WorkLevels vibratory;
    bool nearer_than_measured = false; ///< some level is taken nearer to the source than it was measured
};

/// A row for every point, then one named "site border".
/// Displacement: solver/surroundings/ground_displacement.h. Above the top of the piles the casing pushes its own
/// volume aside; whether that closes again is not known, so it is counted (safe side).
/// Levels: one rig at the nearest pile; sources "non-vibratory sand pile" and "vibratory hammer from 40 kW" (vibration),
/// "vibratory sand pile" (noise) of solver/surroundings/screening_sources.h.
/// \throws std::invalid_argument  names the number or the point that is out of range
std::vector<NeighborRow> screen_neighbors(const NeighborsPlan& plan);

/// The rows as CSV (RFC 4180, lines end in \n); column `kind` says "screening" in every row.
/// \throws std::invalid_argument  as screen_neighbors
std::string neighbors_table(const NeighborsPlan& plan);

} // namespace interpile::io
