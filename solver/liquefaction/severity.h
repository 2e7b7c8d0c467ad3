#pragma once
// What liquefaction does to a site: liquefaction potential index, strain after liquefaction, settlement.

#include <span>

namespace interpile::solver {

/// A slab of ground with one safety factor. Ground above water and ground that cannot liquefy: leave it out
/// or give F_L infinite; both count nothing.
struct JudgedSlab {
    double top_m = 0;                 ///< below surface, >= 0
    double bottom_m = 0;              ///< > top
    double safety_factor = 0;         ///< F_L >= 0, infinite allowed; NaN (refused) is an error, not a zero
    double clean_sand_blow_count = 0; ///< (N1)60cs, for settlement only, >= 0
};

/// Integral of w = 10 - 0.5 z over the part of a slab within 0 .. 20 m [m], exact; 100 for all of it.
/// \throws std::invalid_argument  top negative, bottom not below top
double index_weight_m(double top_m, double bottom_m);

/// LPI = sum of max(0, 1 - F_L) times the integral of w; 0 .. 100.
/// Source: from memory of Iwasaki et al. (1978, 1982).
/// \throws std::invalid_argument  a number out of range, slabs that overlap or are not in order of depth
double liquefaction_potential_index(std::span<const JudgedSlab> slabs);

enum class Severity { VeryLow, Low, High, VeryHigh };

/// 0 very low, to 5 low, to 15 high, above very high.
/// Source: classes of Iwasaki et al. (1982), read second-hand.
/// \throws std::invalid_argument  index outside 0 .. 100
Severity severity_class(double liquefaction_potential_index);

/// Words for a report: "very low", "low", "high", "very high".
const char* severity_name(Severity severity);

/// Strains after liquefaction [-].
struct LiquefactionStrain {
    double limiting_shear = 0; ///< gamma_lim = 1.859 (1.1 - sqrt(N/46))^3 >= 0
    double f_alpha = 0; ///< F_alpha = 0.032 + 0.69 sqrt(N) - 0.13 N, N at least 7: all of gamma_lim below it
    double largest_shear = 0; ///< gamma_max: 0 from F_L 2
    double volumetric = 0;    ///< eps_v = 1.5 exp(-0.369 sqrt(N)) min(0.08, gamma_max), compression positive
};

/// Source: charts of Ishihara & Yoshimine (1992), Soils and Foundations 32(1), in the form of Yoshimine et
/// al. (2006) and Idriss & Boulanger (2008); from memory of them. For strongly liquefied sand 1.5 to 2.3
/// times the strain of Tokimatsu & Seed (1987) at N1 7 to 20.
/// \param clean_sand_blow_count  (N1)60cs, best by boulanger-idriss-2014
/// \throws std::invalid_argument  a number negative or NaN; F_L may be infinite
LiquefactionStrain liquefaction_strain(double clean_sand_blow_count, double safety_factor);

/// Settlement of level ground after liquefaction, the sum of eps_v times thickness [m].
/// \throws std::invalid_argument  as liquefaction_potential_index and liquefaction_strain
double liquefaction_settlement_m(std::span<const JudgedSlab> slabs);

} // namespace interpile::solver
