#pragma once
// Colors of magnitudes and of differences.

#include "postprocess/canvas.h"
#include "postprocess/scale.h"

namespace interpile::postprocess {

/// Color of a share 0 (least) .. 1 (most): pale yellow over green to dark blue.
///
/// Our own path through the OKLab space: lightness falls evenly, so that equal steps look equal and a gray
/// print keeps the order; yellow against blue stays apart for red-green blindness; no bright or rainbow
/// edges. Values outside 0..1 take the end colors.
Color magnitude_color(double share);

/// Color of band `band` of `count`: the middle of its part of the map; one band: the middle.
Color band_color(int band, int count);

/// Color of a share -1 (most below zero) .. 1 (most above): brown over near-white at zero to blue. Lightness falls alike
/// to both sides; blue against brown stays apart for red-green blindness, and blue is more, as in magnitude_color.
Color difference_color(double share);

/// Color of a band of a scale: of differences, if the scale is one, else of magnitudes.
Color band_color(const BandScale& scale, int band);

} // namespace interpile::postprocess
