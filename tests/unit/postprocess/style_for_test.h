#pragma once
// A figure style that holds during a test.

#include "postprocess/figure_style.h"

namespace interpile::tests {

class StyleForTest {
public:
    explicit StyleForTest(const postprocess::FigureStyle& style) { postprocess::set_figure_style(style); }
    ~StyleForTest() { postprocess::set_figure_style({}); }
    StyleForTest(const StyleForTest&) = delete;
    StyleForTest& operator=(const StyleForTest&) = delete;
};

} // namespace interpile::tests
