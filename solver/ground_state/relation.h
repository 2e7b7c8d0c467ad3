#pragma once
// Estimates of the state of sand from a blow count and a grading: one sample in, one estimate per published
// relation out, so that their spread can be seen.

#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace interpile::solver {

/// What is known of the sand at one depth. Empty or NaN: not known; relations that need it give no estimate.
struct SandSample {
    double depth_m = 0;                                       ///< below surface, >= 0
    double blow_count = 0;                                    ///< N as measured, >= 0
    double energy_ratio_pct = 78;                             ///< of the hammer, above 0 .. 100
    double fines_pct = 0;                                     ///< finer than 0.075 mm, 0 .. 100
    double d50_mm = std::numeric_limits<double>::quiet_NaN(); ///< > 0
    double effective_stress_kPa = 0;                          ///< vertical, > 0
    std::optional<double> e_max = {};                         ///< measured, both or one of them
    std::optional<double> e_min = {};
    std::optional<double> void_ratio = {}; ///< measured
    std::optional<double> d10_mm = {};
    std::optional<double> d20_mm = {};
    std::optional<double> overconsolidation_ratio = {}; ///< >= 1
    double lateral_stress_ratio = 0.5;                  ///< K0 for the mean stress; common practice
    double unit_weight_kN_m3 = 19;                      ///< below water 19 .. 20, common practice
};

struct Estimate {
    double value = 0;
    std::string relation;             ///< key
    std::string source;               ///< "from memory of ...", or what else it rests on
    std::vector<std::string> remarks; ///< outside the range of validity, assumed inputs
};

using Remarks = std::vector<std::string>;

/// One published relation for one quantity.
struct Relation {
    std::string key; ///< lower case with hyphens
    std::string source;
    std::string needs; ///< inputs beyond N, fines and stress, for the message; may be empty
    /// Value, remarks added; empty where an input is missing.
    std::function<std::optional<double>(const SandSample&, Remarks&)> value;
};

/// The estimate of one relation.
/// \throws std::invalid_argument  unknown key (the message lists those there are); an input missing or out of range
Estimate estimate_by(std::span<const Relation> relations, const std::string& key, const SandSample& sample);

/// The estimates of all relations whose inputs are known, in their order; may be empty.
/// \throws std::invalid_argument  an input out of range
std::vector<Estimate> estimate_all(std::span<const Relation> relations, const SandSample& sample);

} // namespace interpile::solver
