#pragma once
// The restart file beside a results file: from where a run that was stopped or killed can go on.

#include "io/case_file.h"
#include "io/results_writer.h"
#include "solver/run_state.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::io {

/// What a stage tells in the table of the volume balance.
struct StageSummary {
    int stage = 0, pile = -1;
    bool converged = true;
    solver::VolumeBalance balance;
    double heave_strain = 0, relative_density_pct = 0, time_s = 0;
    bool after_rest = false;
};

/// What must be the same for a run to go on.
struct RunIdentity {
    std::string program_version;
    std::string case_text;
    std::vector<std::string>
        piles; ///< one line each, in the order of their numbers: a table of piles is a file of its own
};
RunIdentity identity_of(const Case& run_case);

struct Checkpoint {
    RunIdentity identity;
    ResultsRows rows;                 ///< of the results file that belong to what is done
    std::vector<StageSummary> stages; ///< recorded so far
    double share_done = 0;            ///< 0..1 of the whole run, for the estimate of the time left
    solver::RunState state;
};

/// RESULT.h5.restart
std::filesystem::path restart_file_of(const std::filesystem::path& results);

/// Written as FILE.part, brought to the disk and renamed: the file is a whole one at any instant.
/// \throws FileTrouble
void save_checkpoint(const std::filesystem::path& file, const Checkpoint& checkpoint);

/// \throws FileTrouble  missing, damaged, or of another version of the file
Checkpoint load_checkpoint(const std::filesystem::path& file);

/// \throws FileTrouble  naming the first thing that differs
void refuse_other_run(const std::filesystem::path& file, const RunIdentity& saved, const RunIdentity& now);

} // namespace interpile::io
