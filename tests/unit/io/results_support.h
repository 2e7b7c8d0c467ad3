#pragma once
// What the tests of the results file share: a scratch folder, and a look whether a stage came back as it went
// in.

#include "io/results_reader.h"
#include "tests/support/synthetic_result.h"

#include <filesystem>
#include <functional>
#include <string>
#include <unistd.h>

namespace interpile::tests {

/// A folder of its own that goes away with the test.
class ScratchFolder {
public:
    ScratchFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "interpile-results-XXXXXX").string();
        if (!mkdtemp(name.data()))
            throw std::runtime_error("no scratch folder in " + name);
        path_ = name;
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

private:
    std::filesystem::path path_;
};

/// Fork; the child runs `work` and leaves without cleaning up the test program.
/// \return process id of the
/// child
pid_t in_child(const std::function<void()>& work);

/// Name of the first member of the stage that is not what synthetic_stage() wrote, or empty.
std::string first_difference(const io::ResultsStage& read, const mesh::Grid& grid, int piles);

/// Same for rows of the history, written by synthetic_increment(0, 1, ...).
std::string first_difference(const io::ResultsHistory& read);

/// Same for half strokes, written by synthetic_half_stroke(0, 1, ...).
std::string first_difference(const io::ResultsHalfStrokes& read);

} // namespace interpile::tests
