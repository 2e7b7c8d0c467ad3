#pragma once
// Ctrl-C and the request to terminate end a run after the current increment.

#include "solver/run_observer.h"

namespace interpile::program {

/// Catches SIGINT and SIGTERM while it lives; a second Ctrl-C ends the program at once. One object at a time.
class StopSignals final : public solver::RunObserver {
public:
    StopSignals();
    ~StopSignals() override;
    StopSignals(const StopSignals&) = delete;
    StopSignals& operator=(const StopSignals&) = delete;

    bool stop_requested() override;
};

} // namespace interpile::program
