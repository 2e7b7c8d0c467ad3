#include "postprocess/plan_bands.h"

#include "postprocess/color_map.h"
#include "postprocess/plan_view.h"

namespace interpile::postprocess {

PlanBands plan_bands(const std::string& field, const mesh::Grid& grid, const Eigen::ArrayXd& value,
                     const BandScale& scale) {
    if (is_stepwise(field))
        return {cell_bands(grid, value, scale), {}};
    return {smooth_bands(grid, value, scale), isolines(grid, value, scale)};
}

void draw_plan_bands(Canvas& canvas, const Axes& axes, const PlanBands& bands, const BandScale& scale) {
    for (const auto& area : bands.areas) {
        std::vector<Polyline> outlines;
        for (const auto& ring : area.rings)
            outlines.push_back(axes.line_to_page(ring));
        canvas.fill(outlines, band_color(scale, area.band));
    }
    for (const auto& line : bands.lines)
        canvas.stroke(axes.line_to_page(line), {0.3, {0.15, 0.2, 0.25, 0.7}});
}

} // namespace interpile::postprocess
