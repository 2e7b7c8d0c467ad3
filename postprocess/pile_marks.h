#pragma once
// Piles and lines of symmetry over a plan.

#include "io/results_reader.h"
#include "postprocess/axes.h"
#include "postprocess/key.h"

#include <optional>
#include <string>

namespace interpile::postprocess {

inline constexpr Color pile_gray{0.88, 0.88, 0.88};

/// Cover the discs of begun piles in light gray with the pile's number, so that pile material is not read as
/// ground; the planned diameter of every pile, begun or not, is a dashed circle about its present center.
void draw_piles(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                const io::ResultsStage& stage);

/// Only cover the discs of begun piles, without number and planned diameter.
void cover_discs(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                 const io::ResultsStage& stage);

/// Sides of the domain at their current place: dash-dot on lines of symmetry, solid otherwise.
void draw_domain_sides(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                       const io::ResultsStage& stage);

/// What the arrows of a figure mean.
struct ArrowMeaning {
    double length_pt = 12; ///< of the one in the key
    std::string text;
};

/// What the marks mean; only what the figure shows.
std::vector<KeyEntry> mark_key(const io::ResultsHeader& header, const std::optional<ArrowMeaning>& arrows);

/// A number in the middle of what is visible of a circle, as large as fits. A circle that is cut by the rim
/// of the axes has its number moved inwards.
/// \param digits  of the largest number in the figure, so that all
/// get the same size
void draw_pile_number(Canvas& canvas, const Axes& axes, const Vec2& center_m, double radius_m, int number,
                      std::size_t digits);

} // namespace interpile::postprocess
