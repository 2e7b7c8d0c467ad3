#pragma once
// Where a boring would liquefy, by every procedure at once.

#include "solver/liquefaction/procedure.h"
#include "solver/site/boring.h"

namespace interpile::solver {

/// The procedures' view of one sample, in the order of procedure_table().
struct SampleSafety {
    bool judged = false;               ///< sand below the water table of the earthquake
    BlowCountPoint point;              ///< what the procedures were given
    std::vector<SafetyFactor> factors; ///< by procedure; empty if not judged

    /// Some procedures give F_L below 1, others 1 or more.
    bool procedures_disagree() const;
};

/// What one procedure says of a whole boring.
struct BoringSeverity {
    std::optional<double> potential_index; ///< P_L [-]; none where a sample was refused
    std::optional<double> settlement_m;    ///< after liquefaction; none where a sample was refused
    double reaches_to_m = 0;               ///< the lower end of the deepest sample's interval
};

struct BoringSafety {
    std::vector<SampleSafety> samples;    ///< by sample
    std::vector<BoringSeverity> severity; ///< by procedure, in the order of procedure_table()
};

/// The number of the earthquake that a procedure needs and that is 0, "not given"; empty: nothing is missing.
std::string missing_for(Procedure procedure, const Earthquake& quake);

/// Blow counts are normalized by the stress at the boring, the demand is that of the earthquake's water table.
/// Slabs of P_L and settlement: the intervals of the judged samples below the water table of the earthquake. The strain
/// after liquefaction takes (N1)60cs of Boulanger & Idriss (2014) and the F_L of the procedure.
/// A procedure whose number of the earthquake is 0 is refused as "not given".
/// \throws std::invalid_argument  a number out of range
BoringSafety boring_safety(const Boring& boring, const Earthquake& quake);

} // namespace interpile::solver
