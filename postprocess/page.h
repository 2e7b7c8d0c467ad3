#pragma once
// What stands above and below every figure of a result: titles, notes, caution.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

namespace interpile::postprocess {

constexpr double page_margin_pt = 8;

/// Width of figure_style() in points of letters of the usual size.
/// \param least_pt  width that a figure needs; where the style gives less, all of it becomes smaller
double page_width_pt(double least_pt = 0);

inline constexpr Color ink{0.10, 0.10, 0.12};
inline constexpr Color soft_ink{0.38, 0.38, 0.40};
inline constexpr Color warning_ink{0.62, 0.10, 0.08};

/// Stand under figures where they hold.
inline constexpr const char* no_prediction = "This soil model does not densify under repeated strokes: D_r "
                                             "shows the effect of monotonic expansion only and is "
                                             "not a prediction.";
inline constexpr const char* not_a_result = "NOT CONVERGED: saved for inspection, not a result.";

inline constexpr const char* simulated_caution =
    "Simulated values; to be checked by a licensed engineer against local codes and post-treatment tests.";
inline constexpr const char* usual_caution =
    "To be checked by a licensed engineer against local codes and post-treatment tests.";

struct PageText {
    std::string title; ///< the user's own words
    Label subtitle;
    std::vector<std::string> warnings; ///< stand out below the figure
    std::vector<Label> notes;          ///< each begins a line and is broken where it is too long
    std::string source;                ///< program, case, time of the run
    std::string caution = simulated_caution;
    double width_pt = page_width_pt();

    double text_width_pt() const { return width_pt - 2 * page_margin_pt; }
};

/// Title, program, case and date of a result, and the caution that belongs to it.
PageText page_text(const io::ResultsHeader& header);

double head_height_pt(const PageText& text);
void draw_head(Canvas& canvas, const PageText& text);

double foot_height_pt(const PageText& text);
/// \param top_pt  distance of the foot from the upper edge of the page
void draw_foot(Canvas& canvas, const PageText& text, double top_pt);

/// "NOT CONVERGED" across a rectangle of the page.
void draw_not_converged(Canvas& canvas, const Vec2& upper_left_pt, const Vec2& size_pt);

} // namespace interpile::postprocess
