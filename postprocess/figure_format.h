#pragma once
// File formats of figures.

namespace interpile::postprocess {

enum class FigureFormat { Pdf, Svg, Png };

} // namespace interpile::postprocess
