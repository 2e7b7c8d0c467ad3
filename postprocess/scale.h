#pragma once
// Round numbers for axes and bands.

#include <Eigen/Core>

#include <string>
#include <vector>

namespace interpile::postprocess {

/// Multiples of 1, 2 or 5 x 10^n inside [low, high].
struct Ticks {
    std::vector<double> value;
    int decimals = 0; ///< needed to write every value exactly
};

/// At most `most` ticks; high > low.
Ticks round_ticks(double low, double high, int most);

/// Limits of color bands. Band 0 lies below level[1] if not open, else below level[0].
struct BandScale {
    std::vector<double> level; ///< ascending, at least two
    int decimals = 0;
    bool open_low = false, open_high = false; ///< there is ground beyond the outermost levels
    double least = 0, most = 0;               ///< extremes of the ground
    std::vector<std::string> name;            ///< of each closed band, in place of its limits; usually empty
    bool about_zero = false;                  ///< of differences: levels are a mirror image about zero

    int band_count() const { return static_cast<int>(level.size()) - 1 + open_low + open_high; }
    /// Band of a value; values beyond a closed end belong to the outermost band.
    int band(double value) const;
};

/// Six to ten bands between the 1st and the 99th percentile of the values, so that a few extreme cells beside
/// a pile do not flatten the picture; what lies beyond falls into open end bands.
/// \param weight  area of each value; sum > 0
/// \param least_range  values that differ by less are of one band
/// \param most_bands  wanted between the open ends, as near as round limits come to it; 0: as above
/// \throws std::invalid_argument if there is no finite value
BandScale band_scale(const Eigen::ArrayXd& values, const Eigen::ArrayXd& weight, double least_range = 0,
                     int most_bands = 0);

/// An odd number of bands about zero, seven or as many as wanted, the middle one from minus to plus half a step, up to
/// the 99th percentile of the size of the values; what lies beyond falls into open end bands.
/// \param weight  area of each value; sum > 0
/// \param least_half_step  differences below it are of the middle band
/// \throws std::invalid_argument if there is no finite value
BandScale difference_scale(const Eigen::ArrayXd& values, const Eigen::ArrayXd& weight,
                           double least_half_step = 0, int most_bands = 0);

/// Bands with these limits, open where values lie beyond.
BandScale fixed_scale(std::vector<double> level, int decimals, const Eigen::ArrayXd& values);

} // namespace interpile::postprocess
