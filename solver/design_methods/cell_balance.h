#pragma once
// Volume balance of one cell: soil solids are kept, the pile takes its place, the surface rises or sinks.

namespace interpile::solver {

/// What a cell is changed by. Exact balance: (1 - a_s)(1 + eps)(1 + lambda) = (1 + e1)/(1 + e0).
struct CellChange {
    double void_ratio_before = 0; ///< e0 > 0
    double void_ratio_after = 0;  ///< e1 > 0
    double replacement_ratio = 0; ///< a_s, 0 <= a_s < 1
    double lateral_expansion = 0; ///< lambda > -1 [-]: share of plan area pushed out sideways
};

/// a_s = (e0 - e1)/(1 + e0) [-] without heave; negative where the ground is loosened.
/// Source: the trade; exact for a cell that neither rises nor spreads.
/// \throws std::invalid_argument  a void ratio not positive
double replacement_without_heave(double void_ratio_before, double void_ratio_after);

/// e1 = e0 - eta a_s (1 + e0) [-]: the share eta of the pile's volume becomes density.
/// \throws std::invalid_argument  a_s outside 0 .. 1; e0 or eta not positive
double void_ratio_after(double void_ratio_before, double replacement_ratio, double efficiency = 1);

/// eta = (e0 - e1)/(a_s (1 + e0)) [-], share of the pile's volume that became density.
/// \throws std::invalid_argument  a_s not above 0; a number out of range
double efficiency(const CellChange& change);

/// Mean vertical stretch eps of the cell by the exact balance [-]; heave positive, subsidence negative.
/// Without lateral expansion the same as a_s (1 - eta)/(1 - a_s).
/// \throws std::invalid_argument  a number out of range
double heave_strain(const CellChange& change);

/// Mean heave of a layer by the trade's form H = (1 - alpha R_c) h a_s [m], which measures the loss on the whole
/// cell; smaller than the exact balance by the factor 1 - a_s. Negative: subsidence.
/// Source: published application 2000-345553, form only.
/// \param layer_m     h >= 0
/// \param efficiency  alpha R_c > 0
/// \throws std::invalid_argument  a number out of range
double heave_by_efficiency_m(double layer_m, double replacement_ratio, double efficiency);

/// a_s = (e0 - e1)/(1 + e0) - S/h [-] where vibration lets the surface sink by S over the depth h: the trade's form,
/// linear in S/h. Negative: the subsidence alone densifies more than asked.
/// Source: course after Han (2015), written there as s = C d sqrt((1 + e0) h/((e0 - e1) h - (1 + e0) S)).
/// \throws std::invalid_argument  a void ratio or h not positive; S outside 0 .. h
double replacement_with_subsidence(double void_ratio_before, double void_ratio_after, double subsidence_m,
                                   double depth_m);

/// The same by the exact balance: a_s = 1 - (1 + e1)/((1 + e0)(1 - S/h)) [-].
/// \throws std::invalid_argument  as above, and S = h
double replacement_with_subsidence_exact(double void_ratio_before, double void_ratio_after,
                                         double subsidence_m, double depth_m);

} // namespace interpile::solver
