#include "solver/run_observer.h"

namespace interpile::solver {

std::string_view in_words(Phase phase) {
    switch (phase) {
    case Phase::CasingPass:
        return "casing pass";
    case Phase::Withdrawal:
        return "withdrawal";
    case Phase::Redrive:
        return "re-driving";
    case Phase::Relaxation:
        return "relaxation";
    case Phase::Growth:
        return "growth";
    case Phase::Rest:
        return "rest";
    }
    return "";
}

} // namespace interpile::solver
