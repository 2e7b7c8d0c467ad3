#include "postprocess/report/page_flow.h"

namespace interpile::postprocess::report {

namespace {

constexpr double slack_pt = 1e-6; // of sums of heights

/// Height of a piece and all it is bound to, the space above the first left out.
double bound_height_pt(const std::vector<Piece>& pieces, std::size_t first) {
    double height = pieces[first].height_pt;
    for (std::size_t i = first; pieces[i].with_next && i + 1 < pieces.size(); ++i)
        height += pieces[i + 1].space_above_pt + pieces[i + 1].height_pt;
    return height;
}

} // namespace

std::vector<PageContent> paginated(const std::vector<Piece>& pieces, double top_pt, double height_pt) {
    std::vector<PageContent> pages(1);
    double used = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const Piece& piece = pieces[i];
        const bool begins = i == 0 || !pieces[i - 1].with_next;
        const double bound = bound_height_pt(pieces, i);
        const double needed = begins && bound <= height_pt + slack_pt ? bound : piece.height_pt;
        if (!pages.back().empty() && used + piece.space_above_pt + needed > height_pt + slack_pt) {
            pages.emplace_back();
            used = 0;
        }
        if (pages.back().empty() && piece.head) {
            pages.back().push_back({piece.head.get(), top_pt});
            used = piece.head->height_pt;
        }
        if (!pages.back().empty())
            used += piece.space_above_pt;
        pages.back().push_back({&piece, top_pt + used});
        used += piece.height_pt;
    }
    return pages;
}

} // namespace interpile::postprocess::report
