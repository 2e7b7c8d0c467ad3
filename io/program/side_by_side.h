#pragma once
// Several pieces of work at once, each in a process of its own: whatever ends one leaves the others alone.

#include <cstddef>
#include <functional>
#include <vector>

namespace interpile::program {

/// How the process of a piece of work ended.
struct ProcessEnd {
    std::size_t number = 0; ///< of the work
    int exit_code = 0;      ///< what `work` returned; without meaning if a signal ended it
    int signal = 0;         ///< 0: none
};

/// What the parts of run_side_by_side do.
struct SideBySide {
    int jobs = 1; ///< processes at once, at least 1
    /// In the process: returns 0 .. 255, must not throw. SIGTERM is held until it calls release_stop_signals.
    std::function<int(std::size_t)> work;
    std::function<void(ProcessEnd)> ended; ///< here, after each
    std::function<bool()> stop_requested;  ///< here, asked many times a second
};

/// To be called by `work` once it can answer SIGTERM.
void release_stop_signals();

/// Do the numbered pieces in their order; returns when all processes have ended. On a request to stop no more are begun
/// and those at work get SIGTERM once (they do not see Ctrl-C themselves, and end with this process).
/// Call it before anything has started threads.
/// \returns false if it was stopped
/// \throws std::runtime_error  the system gives no more processes
bool run_side_by_side(const std::vector<std::size_t>& numbers, const SideBySide& parts);

} // namespace interpile::program
