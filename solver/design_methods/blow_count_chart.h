#pragma once
// Design method A: a chart of N after against N before, one curve for each replacement ratio, digitized by the user.

#include "solver/design_methods/design_result.h"

#include <optional>
#include <vector>

namespace interpile::solver {

/// One point read off the chart.
struct ChartPoint {
    double blow_count_before = 0; ///< N0 >= 0
    double replacement_ratio = 0; ///< a_s, 0 .. 1; equal values make one curve
    double blow_count_after = 0;  ///< N1 >= 0
};

/// Curves of equal a_s, linear between their points in N0 and linear between neighboring curves in a_s (on a
/// regular grid: bilinear). Nothing is read outside the points: a_s between the curves, N0 on both curves beside it.
class BlowCountChart {
public:
    /// \throws std::invalid_argument  no points, a number out of range, a point given twice, a curve of one point,
    ///                                curves that cross or touch (N1 must rise with a_s, else the way back has no
    ///                                single answer)
    explicit BlowCountChart(std::vector<ChartPoint> points);

    /// N1; empty outside the chart.
    std::optional<double> blow_count_after(double blow_count_before, double replacement_ratio) const;

    /// Smallest a_s on the chart that gives N1; empty outside the chart.
    std::optional<double> replacement_ratio(double blow_count_before, double blow_count_after) const;

private:
    struct Curve {
        double replacement_ratio;
        std::vector<ChartPoint> points; // N0 rising

        std::optional<double> at(double blow_count_before) const;
    };
    std::vector<Curve> curves_; // a_s rising

    void require_no_crossing() const;
};

/// Method A forward. Outside the chart: N1 is NaN and `outside` says so.
/// \throws std::invalid_argument  a number of the layer out of range, a_s outside 0 .. 1
DesignResult predict_blow_count(const BlowCountChart& chart, const LayerState& layer,
                                double replacement_ratio);

/// Method A back; a_s 0 with a remark where N0 is already at or above the target. Outside the chart: a_s is NaN and
/// `outside` says so.
/// \throws std::invalid_argument  a number of the layer out of range, target not positive
DesignResult require_blow_count(const BlowCountChart& chart, const LayerState& layer,
                                double target_blow_count);

} // namespace interpile::solver
