#pragma once
// The weakest place between the piles on a plan.

#include "io/results_reader.h"
#include "postprocess/axes.h"

namespace interpile::postprocess {

struct WeakestMark {
    Vec2 at_m = {0, 0};
    Label text;
};

/// A small cross and its label, beside it where it hides no pile and stays inside the axes.
void draw_weakest_mark(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                       const io::ResultsStage& stage, const WeakestMark& mark);

} // namespace interpile::postprocess
