#include "postprocess/report/page_flow.h"

namespace interpile::postprocess::report {

namespace {

constexpr double slack_pt = 1e-6; // of sums of heights

/// Height of a piece and all it is bound to, the space above the first left out.
struct Bound {
    double height_pt = 0;
    double shrinkable_pt = 0; ///< part of it that may become smaller
};

Bound bound_from(const std::vector<Piece>& pieces, std::size_t first) {
    Bound bound;
    for (std::size_t i = first; i < pieces.size(); ++i) {
        bound.height_pt += pieces[i].height_pt + (i > first ? pieces[i].space_above_pt : 0);
        bound.shrinkable_pt += pieces[i].may_shrink ? pieces[i].height_pt : 0;
        if (!pieces[i].with_next)
            break;
    }
    return bound;
}

/// Of the shrinkable part, so that the whole has the height; less than least_scale: it cannot.
double scale_to_fit(const Bound& bound, double height_pt) {
    if (bound.height_pt <= height_pt + slack_pt)
        return 1;
    return bound.shrinkable_pt > 0 ? 1 - (bound.height_pt - height_pt) / bound.shrinkable_pt : 0;
}

} // namespace

std::vector<PageContent> paginated(const std::vector<Piece>& pieces, double top_pt, double height_pt) {
    std::vector<PageContent> pages(1);
    double used = 0, scale = 1; // of the pieces bound together
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Piece& piece = pieces[i];
        Bound needed = bound_from(pieces, i);
        const bool begins = i == 0 || !pieces[i - 1].with_next;
        if (begins)
            scale = 1;
        if (!begins || needed.height_pt > height_pt + slack_pt)
            needed = {(piece.may_shrink ? scale : 1) * piece.height_pt, 0};
        const double fitting = scale_to_fit(needed, height_pt - used - piece.space_above_pt);
        if (!pages.back().empty() && fitting < least_scale) {
            pages.emplace_back();
            used = 0;
        } else if (begins && !pages.back().empty()) {
            scale = fitting;
        }
        if (pages.back().empty() && piece.head) {
            pages.back().push_back({piece.head.get(), top_pt});
            used = piece.head->height_pt;
        }
        if (!pages.back().empty())
            used += piece.space_above_pt;
        const double own_scale = piece.may_shrink ? scale : 1;
        pages.back().push_back({&piece, top_pt + used, own_scale});
        used += own_scale * piece.height_pt;
    }
    return pages;
}

} // namespace interpile::postprocess::report
