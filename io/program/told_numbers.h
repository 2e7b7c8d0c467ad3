#pragma once
// Key numbers of the commands for JSON; every key carries its unit.

#include "io/as_built_site.h"
#include "io/checkpoint.h"
#include "io/program/answer.h"
#include "io/site_file.h"
#include "io/study_result.h"
#include "io/study_validation.h"
#include "io/works_file.h"
#include "postprocess/ground_summary.h"
#include "solver/installation.h"
#include "solver/site/after_treatment.h"

namespace interpile::program {

/// Of a case: what is known of a result, under the names of the columns of a study.
void tell_known_numbers(const io::MemberResult& result, Answer& answer);
/// One row of "members".
void tell_member(std::size_t number, const io::MemberResult& result, Answer& answer);
/// Rows of "deviations" by method.
void tell_comparison(const io::StudyComparison& comparison, Answer& answer);

/// Counts, rows of "stages" (volumes, heave, density) and of "ground" (between the piles).
void tell_run(const solver::RunReport& report, const std::vector<io::StageSummary>& stages,
              const std::vector<postprocess::StageGround>& ground, Answer& answer);

/// Rows of "severity" by boring and procedure and of "spacings" by boring and method.
void tell_designs(const std::vector<solver::BoringDesign>& designs, Answer& answer);
/// Efficiency, rows of "scores" by method and of "tests".
void tell_review(const io::SiteFile& site, const solver::AfterReview& review, Answer& answer);

/// Sand and strokes ordered.
void tell_orders(const io::WorksFile& works, Answer& answer);
/// Rows of "places".
void tell_neighbors(const io::NeighborsPlan& plan, Answer& answer);
/// Counts by verdict and rows of "weak_spots".
void tell_as_built(const io::AsBuiltSite& site, Answer& answer);

} // namespace interpile::program
