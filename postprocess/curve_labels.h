#pragma once
// Names at the right ends of curves, in place of a legend.

#include "postprocess/canvas.h"

#include <vector>

namespace interpile::postprocess {

struct CurveLabel {
    double end_pt = 0; ///< height on the page where the curve ends
    Label text;
    Color color = {};
};

/// Write the names right of x_pt, moved apart where curves end close together, within [top_pt, bottom_pt]; a thin line
/// leads from each end to its name.
void draw_curve_labels(Canvas& canvas, std::vector<CurveLabel> labels, double x_pt, double top_pt,
                       double bottom_pt);

/// Heights moved apart to at least `gap`, in their order, as near to where they were as a simple pass allows.
/// \param wanted  ascending
std::vector<double> spread_apart(std::vector<double> wanted, double gap, double low, double high);

} // namespace interpile::postprocess
