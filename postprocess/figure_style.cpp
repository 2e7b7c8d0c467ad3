#include "postprocess/figure_style.h"

#include <utility>

namespace interpile::postprocess {

namespace {

FigureStyle& held() {
    static FigureStyle style;
    return style;
}

} // namespace

const FigureStyle& figure_style() {
    return held();
}

void set_figure_style(FigureStyle style) {
    held() = std::move(style);
}

} // namespace interpile::postprocess
