#pragma once
// A report as one page of HTML that needs no other file and no network.

#include "postprocess/report/document.h"

namespace interpile::postprocess::report {

/// Style inside, figures as inline SVG, cautions on top, a table of contents with links, numbered tables and figures.
/// The page is well-formed XML too. Equal documents give equal bytes.
/// \throws std::invalid_argument as require_sound; io::FileTrouble if a figure cannot be drawn
std::string html_page(const Document& document);

} // namespace interpile::postprocess::report
