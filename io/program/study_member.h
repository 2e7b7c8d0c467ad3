#pragma once
// One member of a study: run it and keep its result.

#include "io/diagnostics.h"
#include "io/study_file.h"
#include "io/study_table.h"

#include <filesystem>
#include <optional>

namespace interpile::program {

/// Files of a member in the folder of a study.
struct MemberFiles {
    std::filesystem::path case_file;   ///< members/0007.toml
    std::filesystem::path results;     ///< members/0007.h5
    std::filesystem::path result_file; ///< members/0007.result.toml, written last
};
MemberFiles member_files(const std::filesystem::path& folder, std::size_t number);

/// The result of a member if it is finished and belongs to the same case text; none: it is to be run.
std::optional<io::MemberResult> finished_result(const io::StudyFile& study, std::size_t number,
                                                const std::filesystem::path& folder);

/// Every member in its order; planned only where its result is not there or is that of another case.
std::vector<io::StudyRow> collected(const io::StudyFile& study, const std::filesystem::path& folder);

/// Run a member in this process, which is its own (see side_by_side.h), and keep its result; errors become its reason.
/// \returns Done, NotConverged, Stopped (nothing is kept); FileProblem: the result could not be kept
io::ExitCode run_member(const io::StudyFile& study, std::size_t number, const std::filesystem::path& folder);

/// Keep a result that the process itself could not.
void keep_result(const std::filesystem::path& folder, std::size_t number, const io::MemberResult& result);

} // namespace interpile::program
