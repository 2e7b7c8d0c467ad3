#include "io/program/stop_signals.h"

#include <csignal>

namespace interpile::program {

namespace {

volatile std::sig_atomic_t requested = 0;

void request(int) {
    requested = 1;
}

void on_signals(void (*handler)(int)) {
    struct sigaction action = {};
    action.sa_handler = handler;
    action.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
    sigemptyset(&action.sa_mask);
    sigaction(SIGINT, &action, nullptr);
    sigaction(SIGTERM, &action, nullptr);
}

} // namespace

StopSignals::StopSignals() {
    requested = 0;
    on_signals(request);
}

StopSignals::~StopSignals() {
    on_signals(SIG_DFL);
}

bool StopSignals::stop_requested() {
    return requested != 0;
}

} // namespace interpile::program
