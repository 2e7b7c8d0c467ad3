#include "io/program/side_by_side.h"

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <map>
#include <stdexcept>
#include <string>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace interpile::program {

namespace {

constexpr useconds_t pause_us = 10000; ///< between looks at the processes

/// SIGINT and SIGTERM wait while this lives, so that none falls between the birth of a process and its handlers.
class HeldSignals {
public:
    HeldSignals() {
        sigset_t held;
        sigemptyset(&held);
        sigaddset(&held, SIGINT);
        sigaddset(&held, SIGTERM);
        sigprocmask(SIG_BLOCK, &held, &before_);
    }
    ~HeldSignals() { release(); }
    HeldSignals(const HeldSignals&) = delete;
    HeldSignals& operator=(const HeldSignals&) = delete;
    void release() { sigprocmask(SIG_SETMASK, &before_, nullptr); }

private:
    sigset_t before_;
};

class Processes {
public:
    explicit Processes(const SideBySide& parts) : parts_(parts) {}
    Processes(const Processes&) = delete;
    Processes& operator=(const Processes&) = delete;
    ~Processes() { // only after a failure are there any left
        terminate();
        while (!running_.empty())
            collect(0);
    }

    std::size_t count() const { return running_.size(); }

    void begin(std::size_t number) {
        std::fflush(nullptr); // what is in the buffers would be printed twice
        const pid_t parent = getpid();
        HeldSignals held;
        const pid_t process = fork();
        if (process < 0)
            throw std::runtime_error(std::string("no further process can be started: ") +
                                     std::strerror(errno));
        if (process > 0) {
            running_[process] = number;
            return;
        }
        // In the new process. Ctrl-C reaches every process of a terminal; only the first one answers it.
        std::signal(SIGINT, SIG_IGN);
        std::signal(SIGTERM, SIG_DFL);
        prctl(PR_SET_PDEATHSIG, SIGTERM);
        if (getppid() != parent)
            _exit(1);
        _exit(parts_.work(number)); // the signals stay held until the work has its handlers
    }

    void terminate() {
        for (const auto& [process, number] : running_)
            kill(process, SIGTERM);
    }

    /// Those that have ended; without option WNOHANG the next one is waited for.
    void collect(int options) {
        for (auto at = running_.begin(); at != running_.end();) {
            int status = 0;
            if (waitpid(at->first, &status, options) != at->first) {
                ++at;
                continue;
            }
            const ProcessEnd end{at->second, WIFEXITED(status) ? WEXITSTATUS(status) : 0,
                                 WIFSIGNALED(status) ? WTERMSIG(status) : 0};
            at = running_.erase(at);
            parts_.ended(end);
        }
    }

private:
    const SideBySide& parts_;
    std::map<pid_t, std::size_t> running_;
};

} // namespace

void release_stop_signals() {
    sigset_t held;
    sigemptyset(&held);
    sigaddset(&held, SIGTERM);
    sigprocmask(SIG_UNBLOCK, &held, nullptr);
}

bool run_side_by_side(const std::vector<std::size_t>& numbers, const SideBySide& parts) {
    Processes processes(parts);
    std::size_t next = 0;
    bool stopped = false;
    while (processes.count() > 0 || (!stopped && next < numbers.size())) {
        if (!stopped && parts.stop_requested()) {
            stopped = true;
            processes.terminate();
        }
        while (!stopped && next < numbers.size() && processes.count() < static_cast<std::size_t>(parts.jobs))
            processes.begin(numbers[next++]);
        processes.collect(WNOHANG);
        if (processes.count() > 0)
            usleep(pause_us);
    }
    return !stopped;
}

} // namespace interpile::program
