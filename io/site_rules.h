#pragma once
// Rules that tie several values of a site together; each adds its faults to values.faults().

#include "io/case_values.h"
#include "io/site_file.h"

namespace interpile::io {

/// The casing is not wider than the pile, and not so thin that no stroke could widen its hole to the pile.
void require_fitting_casing(const SiteFile& site, const CaseValues& values);

/// a_s of piles that touch [-].
double touching_ratio(const solver::CellShape& shape);

/// The spacing rounded down must not make the piles overlap, not even at the largest replacement ratio, which is not
/// above touching_ratio.
void require_apart_in_practice(const solver::TreatmentAims& aims, const CaseValues& values);

/// Every boring, and the mean of them where it is designed for, has sand in the depth to be treated. Says nothing where
/// there are other faults: a table that could not be read has no sand either.
void require_treated_sand(const SiteFile& site, const CaseValues& values);

/// A measured e_max and an e_min from fines, or the other way round, may exclude each other or lie too close to make a sand; in
/// the mean boring too, where it is designed for.
/// Says nothing where there are other faults.
void require_ordered_limits(const SiteFile& site, const CaseValues& values);

} // namespace interpile::io
