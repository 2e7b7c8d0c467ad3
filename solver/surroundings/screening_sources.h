#pragma once
// Levels of usual construction sources and the limits they are held against. For screening only: the levels of one
// kind of machine differ by 20 dB between sites.

#include <span>
#include <string_view>

namespace interpile::solver {

/// What a number can be leaned on.
enum class SourceMark {
    Read,    ///< read in the source named
    Memory,  ///< from memory of the source named
    Practice ///< common practice, no source
};

enum class Nuisance {
    Vibration, ///< vertical, weighted [dB re 1e-5 m/s2]
    Noise      ///< [dB(A) re 20 uPa]
};

/// Level of a source at one distance; low = high where the source gives one number.
struct ScreeningSource {
    std::string_view name; ///< of our own
    Nuisance nuisance = Nuisance::Vibration;
    double low_dB = 0;
    double high_dB = 0;
    double distance_m = 0;
    SourceMark mark = SourceMark::Practice;
    std::string_view source;
};

enum class LimitQuantity {
    VibrationLevel, ///< dB re 1e-5 m/s2, at the site border
    NoiseLevel,     ///< dB(A), at the site border
    PeakVelocity,   ///< mm/s, at the building
    Displacement    ///< mm
};

/// A limit, or the range within which it is set; low = high where it is one number.
struct ScreeningLimit {
    std::string_view name; ///< of our own
    LimitQuantity quantity = LimitQuantity::VibrationLevel;
    double low = 0;
    double high = 0;
    SourceMark mark = SourceMark::Practice;
    std::string_view source;
};

/// All sources, one per distance; names repeat where a source was measured at several.
std::span<const ScreeningSource> screening_sources();

/// All limits.
std::span<const ScreeningLimit> screening_limits();

/// The nearest measurement of a source.
/// \throws std::invalid_argument  if there is none of this name and kind
const ScreeningSource& screening_source(std::string_view name, Nuisance nuisance);

/// \throws std::invalid_argument  if there is none of this name
const ScreeningLimit& screening_limit(std::string_view name);

} // namespace interpile::solver
