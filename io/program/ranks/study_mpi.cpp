// interpile-study-mpi: the members of a study over the processes that mpirun starts, also on several machines with a
// common folder. MPI only hands out numbers. A member is `interpile study ... --member N` in a process of its own, so that
// its result is the one of any other way to run it, and nothing is forked without exec beside the threads of MPI.

#include "io/diagnostics.h"
#include "io/program/side_by_side.h"
#include "io/program/stop_signals.h"
#include "io/study_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <mpi.h>
#include <string>
#include <unistd.h>
#include <vector>

using namespace interpile;

namespace {

constexpr int cannot_start = 127; ///< as shells say it

/// Numbers 1, 2, ... for whichever process asks next; the count lies in the memory of the first process.
class SharedCounter {
public:
    SharedCounter() {
        MPI_Win_allocate(sizeof(int), sizeof(int), MPI_INFO_NULL, MPI_COMM_WORLD, &last_, &window_);
        *last_ = 0;
        MPI_Barrier(MPI_COMM_WORLD); // nobody asks before it is zero
        MPI_Win_lock_all(0, window_);
    }
    ~SharedCounter() {
        MPI_Win_unlock_all(window_);
        MPI_Win_free(&window_);
    }
    SharedCounter(const SharedCounter&) = delete;
    SharedCounter& operator=(const SharedCounter&) = delete;

    int next() { return add(1) + 1; }
    void no_more(int count) { add(count); }

private:
    int add(int step) {
        int before = 0;
        MPI_Fetch_and_op(&step, &before, MPI_INT, 0, 0, MPI_SUM, window_);
        MPI_Win_flush(0, window_);
        return before;
    }
    MPI_Win window_{};
    int* last_ = nullptr;
};

enum class Words { ToOutput, ToErrors };

/// `interpile study ARGUMENTS MORE` as a process that gets the requests to stop of this one.
/// \param words_go  where its standard output goes
/// \returns its exit code; 128 + number of the signal that ended it
int run_program(const std::vector<std::string>& arguments, const std::vector<std::string>& more,
                Words words_go = Words::ToOutput) {
    const auto program =
        (std::filesystem::read_symlink("/proc/self/exe").parent_path() / "interpile").string();
    std::vector<std::string> words = {program, "study"};
    words.insert(words.end(), arguments.begin(), arguments.end());
    words.insert(words.end(), more.begin(), more.end());
    std::vector<char*> pointers;
    std::transform(words.begin(), words.end(), std::back_inserter(pointers),
                   [](std::string& word) { return word.data(); });
    pointers.push_back(nullptr);

    program::StopSignals signals;
    int code = 0;
    program::SideBySide parts;
    parts.work = [&](std::size_t) {
        program::release_stop_signals();
        if (words_go == Words::ToErrors)
            dup2(STDERR_FILENO, STDOUT_FILENO);
        execv(program.c_str(), pointers.data());
        return cannot_start;
    };
    parts.ended = [&](const program::ProcessEnd& end) {
        code = end.signal != 0 ? 128 + end.signal : end.exit_code;
    };
    parts.stop_requested = [&] {
        int arrived = 0; // MPI serves the counter to others only while it is called
        MPI_Iprobe(MPI_ANY_SOURCE, MPI_ANY_TAG, MPI_COMM_WORLD, &arrived, MPI_STATUS_IGNORE);
        return signals.stop_requested();
    };
    const bool whole = program::run_side_by_side({0}, parts);
    return whole ? code : io::Stopped;
}

/// Read by the first process alone, so that a fault is told once. \returns 0 with `code` set if there is one
int count_members(const std::vector<std::string>& arguments, int& code) {
    try {
        if (arguments.empty() || arguments.front().starts_with('-')) {
            fmt::print(stderr, "interpile-study-mpi: usage: mpirun -n N interpile-study-mpi STUDY.toml "
                               "[-o FOLDER] [--json]\n");
            code = io::BadInput;
            return 0;
        }
        return static_cast<int>(io::read_study(arguments.front()).members.size());
    } catch (const io::CaseFaults& faults) {
        fmt::print(stderr, "{}\n", faults.what());
        code = io::BadInput;
    } catch (const std::exception& trouble) {
        fmt::print(stderr, "interpile-study-mpi: {}\n", trouble.what());
        code = io::FileProblem;
    }
    return 0;
}

/// \returns the gravest code of the members that this process ran and that kept others from running; 0: none
int run_share(const std::vector<std::string>& arguments, int count) {
    SharedCounter counter;
    auto of_member = arguments; // with --json the table alone is told as an object on standard output
    const auto words_go = std::erase(of_member, "--json") > 0 ? Words::ToErrors : Words::ToOutput;
    for (int number = counter.next(); number <= count; number = counter.next()) {
        const int code = run_program(of_member, {"--member", std::to_string(number)}, words_go);
        if (code == io::Done || code == io::NotConverged)
            continue; // the table tells of the latter
        if (code == cannot_start)
            fmt::print(stderr, "interpile-study-mpi: interpile cannot be started from its folder\n");
        counter.no_more(count);
        return code;
    }
    return 0;
}

} // namespace

int main(int argc, char** argv) {
    MPI_Init(&argc, &argv);
    int rank = 0, code = 0, count = 0, worst = 0;
    MPI_Comm_rank(MPI_COMM_WORLD, &rank);
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    if (rank == 0)
        count = count_members(arguments, code);
    MPI_Bcast(&count, 1, MPI_INT, 0, MPI_COMM_WORLD);
    if (count > 0)
        code = run_share(arguments, count);
    MPI_Reduce(&code, &worst, 1, MPI_INT, MPI_MAX, 0, MPI_COMM_WORLD);
    if (rank == 0 && worst == 0)
        worst = run_program(arguments, {"--collect"});
    MPI_Finalize();
    return worst; // 0 but in the first process
}
