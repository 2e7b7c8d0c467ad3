#pragma once
// Drawings inside a page of HTML.

#include "postprocess/canvas.h"

namespace interpile::postprocess::report {

/// The drawing as an <svg> element that can stand beside others: every id begins with `prefix`, there is no header and
/// no name space, which HTML knows by itself. Its width is that of the text around it.
/// \param name  read out in place of the picture
std::string inline_svg(const Drawing& drawing, const std::string& prefix, const std::string& name);

} // namespace interpile::postprocess::report
