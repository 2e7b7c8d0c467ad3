#pragma once
// The liquefaction procedures behind one view, and the blow count a safety factor asks for.

#include "solver/liquefaction/safety_factor.h"

#include <optional>

namespace interpile::solver {

enum class Procedure {
    Youd2001,
    BoulangerIdriss2014,
    HighwayBridge2012,
    HighwayBridge2017,
    ArchitecturalGuide2001
};

struct ProcedureInfo {
    Procedure procedure;
    std::string name;     ///< for keys and files, lower case with hyphens
    std::string title;    ///< for people
    std::string source;   ///< with "from memory of" where it was not read
    std::string validity; ///< where it holds
};

/// All procedures, in the order of the enumeration.
const std::vector<ProcedureInfo>& procedure_table();

/// \throws std::invalid_argument  unknown name (the message lists those there are)
Procedure procedure_by_name(const std::string& name);

/// F_L of one point with every intermediate.
/// \throws std::invalid_argument  a number out of range; what lies outside a procedure's own range is refused
/// or remarked in the answer instead
SafetyFactor safety_against_liquefaction(Procedure procedure, const BlowCountPoint& point,
                                         const Earthquake& quake);

/// Smallest N as measured, 0 .. 100, that gives F_L >= target; the blow count of the point is not used.
/// Empty if N 100 does not suffice or the procedure refuses.
/// \throws std::invalid_argument  target not positive, a number out of range
std::optional<double> required_blow_count(Procedure procedure, BlowCountPoint point, const Earthquake& quake,
                                          double target_safety_factor);

} // namespace interpile::solver
