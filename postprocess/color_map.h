#pragma once
// Colors of magnitudes.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Color of a share 0 (least) .. 1 (most): pale yellow over green to dark blue.
///
/// Our own path through the OKLab space: lightness falls evenly, so that equal steps look equal and a gray
/// print keeps the order; yellow against blue stays apart for red-green blindness; no bright or rainbow
/// edges. Values outside 0..1 take the end colors.
Color magnitude_color(double share);

/// Color of band `band` of `count`: the middle of its part of the map; one band: the middle.
Color band_color(int band, int count);

} // namespace interpile::postprocess
