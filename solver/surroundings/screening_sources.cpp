#include "solver/surroundings/screening_sources.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::solver {
namespace {

using enum Nuisance;
using enum SourceMark;

constexpr std::string_view manual = "construction vibration manual (Japan, 1994), as quoted on a public page";
// The unit table was read; that its reference point lies 5 m off is from memory.
constexpr std::string_view unit_table =
    "road environmental assessment (Japan), unit table of L10; 5 m from memory";
constexpr std::string_view method_register = "public register of construction methods (Japan)";
constexpr std::string_view practice = "common practice, no source";

constexpr ScreeningSource sources[] = {
    {"vibratory sand pile", Vibration, 81, 81, 5, Read, unit_table},
    {"sand drain", Vibration, 83, 83, 5, Read, unit_table},
    {"sand mat", Vibration, 71, 71, 5, Read, unit_table},
    {"vibratory hammer up to 30 kW", Vibration, 71, 77, 7, Read, manual},
    {"vibratory hammer 30-40 kW", Vibration, 70, 75, 15, Read, manual},
    {"vibratory hammer from 40 kW", Vibration, 72, 92, 7, Read, manual},
    {"hydraulic hammer 6.5 t", Vibration, 85, 88, 7, Read, manual},
    {"earth auger", Vibration, 50, 61, 7, Read, manual},
    {"earth auger", Vibration, 44, 57, 15, Read, manual},
    {"earth auger", Vibration, 40, 47, 30, Read, manual},
    {"bucket drill on crawler", Vibration, 58, 61, 7, Read, manual},
    {"cased bore 1.3 m", Vibration, 57, 68, 7, Read, manual},
    {"pre-boring", Vibration, 50, 64, 5, Read, manual},
    {"non-vibratory sand pile", Vibration, 50, 50, 5, Read, method_register},
    {"non-vibratory sand pile", Noise, 70, 70, 5, Read, method_register},
    {"vibratory sand pile", Noise, 85, 95, 10, Practice, practice},
};

constexpr std::string_view border_rule =
    "rules for specified construction work (Japan), city and ministry pages";

constexpr ScreeningLimit limits[] = {
    {"border vibration", LimitQuantity::VibrationLevel, 75, 75, Read, border_rule},
    {"border noise", LimitQuantity::NoiseLevel, 85, 85, Read, border_rule},
    {"dwelling damage below 10 Hz", LimitQuantity::PeakVelocity, 5, 5, Memory, "DIN 4150-3"},
    {"dwelling damage 50-100 Hz", LimitQuantity::PeakVelocity, 15, 20, Memory, "DIN 4150-3"},
    {"building damage", LimitQuantity::PeakVelocity, 15, 20, Memory, "BS 7385-2"},
    {"just felt by people", LimitQuantity::PeakVelocity, 0.14, 0.3, Memory, "BS 5228-2"},
    {"complaints of people", LimitQuantity::PeakVelocity, 1, 1, Memory, "BS 5228-2"},
    {"intolerable to people", LimitQuantity::PeakVelocity, 10, 10, Memory, "BS 5228-2"},
    {"displacement alarm", LimitQuantity::Displacement, 10, 10, Practice, practice},
    {"displacement stop", LimitQuantity::Displacement, 20, 20, Practice, practice},
};

} // namespace

std::span<const ScreeningSource> screening_sources() {
    return sources;
}

std::span<const ScreeningLimit> screening_limits() {
    return limits;
}

const ScreeningSource& screening_source(std::string_view name, Nuisance nuisance) {
    const ScreeningSource* nearest = nullptr;
    for (const auto& source : sources)
        if (source.name == name && source.nuisance == nuisance)
            if (!nearest || source.distance_m < nearest->distance_m)
                nearest = &source;
    if (!nearest)
        throw std::invalid_argument(fmt::format("no {} level of a source named \"{}\"",
                                                nuisance == Noise ? "noise" : "vibration", name));
    return *nearest;
}

const ScreeningLimit& screening_limit(std::string_view name) {
    for (const auto& limit : limits)
        if (limit.name == name)
            return limit;
    throw std::invalid_argument(fmt::format("no limit named \"{}\"", name));
}

} // namespace interpile::solver
