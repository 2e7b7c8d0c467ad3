#pragma once
// A PDF of several pages.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// An entry of the list of contents that viewers show beside the pages.
struct Bookmark {
    std::string name;
    std::size_t page = 0; ///< index
    bool below = false;   ///< belongs to the last one that does not
};

/// Pages of one size.
struct Booklet {
    Vec2 size_pt = {0, 0};
    std::string title;   ///< document title
    std::string created; ///< ISO 8601; the same input gives the same bytes
    std::vector<std::function<void(Canvas&)>> pages;
    std::vector<Bookmark> bookmarks;
};

/// \throws io::FileTrouble if it cannot be drawn
std::string pdf_text(const Booklet& booklet);

/// A canvas that shows nothing, to measure text before there is a page.
void with_scratch_canvas(const std::function<void(Canvas&)>& use);

} // namespace interpile::postprocess
