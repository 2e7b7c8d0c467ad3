#pragma once
// A report as a PDF on A4 pages.

#include "postprocess/report/document.h"

namespace interpile::postprocess::report {

/// Title page with the cautions, contents with page numbers, then the chapters; title and project at the head of every
/// page, program and "page n of N" at its foot. Tables break over pages, figures take the width of the text. Equal
/// documents give equal bytes.
/// \param created  ISO 8601 date in the file; anything else counts as no date
/// \throws std::invalid_argument as require_sound; io::FileTrouble if it cannot be drawn
std::string pdf_pages(const Document& document, const std::string& created);

} // namespace interpile::postprocess::report
