#include "solver/liquefaction/procedure.h"

#include "solver/liquefaction/architectural_guide.h"
#include "solver/liquefaction/boulanger_idriss_2014.h"
#include "solver/liquefaction/highway_bridge.h"
#include "solver/liquefaction/youd_2001.h"
#include "solver/number_check.h"

#include <stdexcept>

namespace interpile::solver {

const std::vector<ProcedureInfo>& procedure_table() {
    static const std::vector<ProcedureInfo> table{
        {Procedure::Youd2001, "youd-2001", "Youd et al. (2001), blow count",
         "from memory of Youd et al. (2001), J. Geotech. Geoenviron. Eng. 127(10); exponent of K_sigma: our "
         "own line "
         "through the published values",
         "level ground; depth to 23 m; magnitude 5.5 .. 8.5; not liquefiable from (N1)60cs 30"},
        {Procedure::BoulangerIdriss2014, "boulanger-idriss-2014", "Boulanger & Idriss (2014), blow count",
         "from memory of Boulanger & Idriss (2014), report UCD/CGM-14/01",
         "level ground; depth to 20 m, at most 34 m; magnitude 5.25 .. 9; CRR held at 2 from (N1)60cs 37.5"},
        {Procedure::HighwayBridge2012, "highway-bridge-2012",
         "Japanese Specifications for Highway Bridges, part V, 1996 to 2012",
         "scope and safety factor read in the English edition of 2002; fines, R_L and c_w from memory of the "
         "specifications",
         "water table within 10 m and depth to 20 m; fines to 35 % or plasticity index to 15; D50 to 10 mm "
         "and D10 "
         "to 1 mm"},
        {Procedure::HighwayBridge2017, "highway-bridge-2017",
         "Japanese Specifications for Highway Bridges, part V, 2017",
         "from memory of the specifications, not checked against the book",
         "as in 2012; sand with fines of 40 % or more is refused"},
        {Procedure::ArchitecturalGuide2001, "architectural-guide-2001",
         "Japanese recommendations for design of building foundations, 2001",
         "from memory of Architectural Institute of Japan (2001) and Tokimatsu & Yoshimi (1983); C_s 80",
         "depth to 20 m; fines to 35 %, or of low plasticity, or made ground"},
    };
    return table;
}

Procedure procedure_by_name(const std::string& name) {
    std::string known;
    for (const ProcedureInfo& info : procedure_table()) {
        if (info.name == name)
            return info.procedure;
        known += (known.empty() ? "" : ", ") + info.name;
    }
    throw std::invalid_argument("unknown procedure \"" + name + "\"; there are: " + known);
}

SafetyFactor safety_against_liquefaction(Procedure procedure, const BlowCountPoint& point,
                                         const Earthquake& quake) {
    switch (procedure) {
    case Procedure::Youd2001:
        return youd_2001::safety(point, quake);
    case Procedure::BoulangerIdriss2014:
        return boulanger_idriss_2014::safety(point, quake);
    case Procedure::HighwayBridge2012:
        return highway_bridge::safety(highway_bridge::Edition::Edition2012, point, quake);
    case Procedure::HighwayBridge2017:
        return highway_bridge::safety(highway_bridge::Edition::Edition2017, point, quake);
    case Procedure::ArchitecturalGuide2001:
        return architectural_guide::safety(point, quake);
    }
    throw std::invalid_argument("unknown liquefaction procedure");
}

std::optional<double> required_blow_count(Procedure procedure, BlowCountPoint point, const Earthquake& quake,
                                          double target_safety_factor) {
    require_positive("target_safety_factor", target_safety_factor);
    const auto suffices = [&](double blow_count) { // false where refused: F_L is NaN
        point.blow_count = blow_count;
        return safety_against_liquefaction(procedure, point, quake).value >= target_safety_factor;
    };
    double low = 0, high = 100;
    if (!suffices(high))
        return {};
    if (suffices(low))
        return low;
    // To the last bit, so that the answer itself suffices also where F_L jumps: (N1)60cs 30, R_L 0.4.
    for (double middle = 50; low < middle && middle < high; middle = 0.5 * (low + high))
        (suffices(middle) ? high : low) = middle;
    return high;
}

} // namespace interpile::solver
