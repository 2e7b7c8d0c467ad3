#include "postprocess/figures/nearly_liquefied.h"

#include "mesh/ground_area.h"
#include "postprocess/ground.h"
#include "postprocess/hatch.h"
#include "postprocess/page.h"

namespace interpile::postprocess {

NearlyLiquefied nearly_liquefied(const mesh::Grid& grid, const io::ResultsStage& stage) {
    const auto found = stage.fields.find("excess_pressure_ratio");
    if (found == stage.fields.end())
        return {};
    const auto ground = ground_cells(stage);
    const auto area = mesh::cell_areas(grid);
    NearlyLiquefied result;
    Eigen::ArrayXd counts = Eigen::ArrayXd::Zero(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (ground[cell] && found->second[cell] >= nearly_liquefied_ratio) {
            counts[cell] = 1;
            ++result.cells;
            result.area_m2 += area[cell];
        }
    if (result.cells == 0)
        return result;
    const auto scale = fixed_scale({-0.5, 0.5, 1.5}, 1, counts);
    for (auto& band : cell_bands(grid, counts, scale))
        if (band.band == 1)
            result.outlines = std::move(band.rings);
    return result;
}

void draw_nearly_liquefied(Canvas& canvas, const Axes& axes, const NearlyLiquefied& ground) {
    std::vector<Polyline> outlines;
    for (const auto& ring : ground.outlines)
        outlines.push_back(axes.line_to_page(ring));
    for (const Pen& pen : {Pen{1.3, {1, 1, 1}}, Pen{0.45, ink}}) { // legible on light and dark bands
        hatch_area(canvas, outlines, 6, pen);
        for (const auto& outline : outlines)
            canvas.stroke(outline, {pen.width_pt + 0.3, pen.color}, true);
    }
}

} // namespace interpile::postprocess
