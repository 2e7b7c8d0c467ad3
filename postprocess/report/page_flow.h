#pragma once
// Pieces of a text column dealt out to pages.

#include "postprocess/canvas.h"

#include <memory>
#include <string>
#include <vector>

namespace interpile::postprocess::report {

/// What is not cut: a line, a row of a table, a figure.
struct Piece {
    double height_pt = 0;
    double space_above_pt = 0; ///< left out at the top of a page
    bool with_next = false;    ///< stays on one page with the piece after it
    std::function<void(Canvas&, double top_pt)> draw;
    std::shared_ptr<const Piece> head; ///< comes again above this piece where it begins a page
    std::string number, name;          ///< of a chapter or heading; else empty
    bool may_shrink = false;           ///< down to least_scale, where it fits onto a page then
};

constexpr double least_scale = 0.75; ///< of a figure: letters of 7 pt have 5.5 pt (own choice)

struct PlacedPiece {
    const Piece* piece = nullptr;
    double top_pt = 0;
    double scale = 1; ///< of its height and width
};
using PageContent = std::vector<PlacedPiece>;

/// Pieces in order; one that does not fit, shrunk or not, begins the next page together with those it is bound to, as
/// long as these fit on a page at all.
/// \param top_pt, height_pt  of the column on every page
std::vector<PageContent> paginated(const std::vector<Piece>& pieces, double top_pt, double height_pt);

} // namespace interpile::postprocess::report
