#pragma once
// The members of a study as a table: what was changed, what the simulation gave, what the simple methods say.

#include "io/study_file.h"
#include "io/study_result.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

/// Blow counts that belong to a result; not numbers where the result or the method gives none. N before and after are
/// those of the relative density by Meyerhof's form, so the methods begin with the density of the simulation.
struct MemberBlowCounts {
    double before = MemberResult::unknown;
    double after = MemberResult::unknown;    ///< of the density alone
    double stressed = MemberResult::unknown; ///< times solver::blow_count_stress_factor of K
    double weakest = MemberResult::unknown;  ///< of the least density between the piles
    double centroid = MemberResult::unknown, mid_span = MemberResult::unknown; ///< of the density there
    double method_a = MemberResult::unknown;                                   ///< with a chart only
    double method_b = MemberResult::unknown, method_c = MemberResult::unknown,
           method_d = MemberResult::unknown;
};

/// By a member's density before, a_s, stress; after only of a result that converged.
MemberBlowCounts blow_counts_of(const MemberResult& result, const ComparisonPlan& plan);

struct StudyRow {
    std::size_t number = 1; ///< from 1
    MemberResult result;
    MemberBlowCounts blow_counts;
};

/// One row for each member, in their order. Wall times are not in it, so that equal studies give equal bytes.
std::string study_table(const StudyFile& study, const std::vector<StudyRow>& rows);
/// Increments, iterations and wall time of every member.
std::string study_times(const std::vector<StudyRow>& rows);

/// The columns of study_table as datasets of /members, with unit, symbol, long_name; words as text. Root attributes:
/// format "interpile study", title, program_version. Replaces the file.
/// \throws FileTrouble
void write_study_file(const std::filesystem::path& file, const StudyFile& study,
                      const std::vector<StudyRow>& rows);

} // namespace interpile::io
