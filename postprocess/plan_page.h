#pragma once
// A page with one plan of a field: head, plan, color bar, key and foot.

#include "postprocess/key.h"
#include "postprocess/page.h"
#include "postprocess/plan_bands.h"
#include "postprocess/plan_view.h"

#include <functional>
#include <vector>

namespace interpile::postprocess {

constexpr double bar_column_pt = 62; ///< color bar with its numbers, right of the plan
constexpr double least_bar_pt = 130; ///< also beside a flat plan

struct PlanPage {
    PageText text;
    Axes axes;
    BandScale scale;
    PlanBands bands;
    Label bar_title;
    std::vector<KeyEntry> key;
};

/// Axes of a view, below the head and as large as there is room.
Axes plan_axes(const PageText& text, const PlanView& view);

Vec2 size_pt(const PlanPage& page);

/// \param header, stage  whose domain is framed
/// \param converged  false: said across the plan
/// \param draw_over_bands  what lies over the bands inside the frame
void draw_plan_page(Canvas& canvas, const PlanPage& page, const io::ResultsHeader& header,
                    const io::ResultsStage& stage, bool converged,
                    const std::function<void()>& draw_over_bands);

} // namespace interpile::postprocess
