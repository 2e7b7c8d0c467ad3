#pragma once
// Drawing of lines, areas and text, the same for PDF, SVG and PNG.

#include "mesh/domain.h"
#include "postprocess/figure_style.h"
#include "postprocess/label.h"

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

struct _cairo; // drawing context of the graphics library, seen only by canvas.cpp

namespace interpile::postprocess {

using mesh::Vec2;
using Polyline = std::vector<Vec2>; ///< positions [pt], x to the right, y down from the upper left corner

struct Color {
    double red = 0, green = 0, blue = 0; ///< 0..1, sRGB
    double opacity = 1;
};

struct Pen {
    double width_pt = 0.5;
    Color color = {};
    std::vector<double> dash_pt = {}; ///< on, off, ...; empty: solid
};

enum class Align { Left, Center, Right };

struct TextStyle {
    double size_pt = 7;
    Align align = Align::Left;
    Color color = {};
    bool bold = false;
    bool upward = false; ///< turned by 90 degrees, read from below to above
    double halo_pt = 0;  ///< white rim, so that the text stays legible on any ground
    double turn_deg = 0; ///< counterclockwise, besides `upward`
};

/// Draws on one page. Sizes and positions in points.
class Canvas {
public:
    explicit Canvas(_cairo* context);

    /// Fill closed outlines, holes by the even-odd rule. A thin stroke of the same color closes the hairline
    /// gaps that anti-aliasing leaves between neighboring areas.
    void fill(const std::vector<Polyline>& outlines, const Color& color);
    void stroke(const Polyline& line, const Pen& pen, bool closed = false);
    void fill_circle(const Vec2& center, double radius, const Color& color);
    void stroke_circle(const Vec2& center, double radius, const Pen& pen);
    /// Shaft and solid head from tail to tip.
    void arrow(const Vec2& tail, const Vec2& tip, double head_pt, const Pen& pen);
    /// `at` is on the base line, at the left end, middle or right end of the text.
    void text(const Label& label, const Vec2& at, const TextStyle& style);
    double text_width(const Label& label, const TextStyle& style);
    /// Nothing that `draw` does shows outside the rectangle.
    void clipped(const Vec2& low, const Vec2& high, const std::function<void()>& draw);
    /// What `draw` does lies with its upper left corner at `corner`, so many times as large.
    void placed(const Vec2& corner, double scale, const std::function<void()>& draw);
    /// Texts of what `draw` does are worded() by the figure style; outside they stay as they are.
    void in_figure_words(const std::function<void()>& draw);

private:
    double lay_out(const Label& label, const TextStyle& style, bool draw);
    void apply(const Pen& pen);
    _cairo* context_;
    bool figure_words_ = false;
};

/// A page and what is on it; the same drawing makes every format. Its points are those of letters of the usual size;
/// paper_scale() brings them to the width and the letters of the figure style.
struct Drawing {
    Vec2 size_pt = {0, 0};
    std::string title;   ///< document title in the PDF
    std::string created; ///< ISO 8601, date in the PDF; the same input gives the same bytes
    std::function<void(Canvas&)> draw;
};

/// Points on paper for one of a drawing: the letters of figure_style(), smaller where a drawing needs more than its width.
double paper_scale(const Drawing& drawing);

/// Write one file; it appears complete or not at all. Size and dots per inch are those of figure_style().
/// Equal drawings give equal bytes (with one version of the graphics library).
/// \throws io::FileTrouble
void save(const Drawing& drawing, const std::filesystem::path& file, FigureFormat format);

/// The same in several formats: FOLDER/NAME.pdf and so on.
/// \return the files written
std::vector<std::filesystem::path> save_all(const Drawing& drawing, const std::filesystem::path& folder,
                                            const std::string& name,
                                            const std::vector<FigureFormat>& formats);

/// Titles of drawings that were saved with smaller letters than the style asks, as they needed more width, and the
/// paper_scale() of each.
const std::map<std::string, double>& reduced_drawings();

/// The SVG that save writes.
/// \throws io::FileTrouble if it cannot be drawn
std::string svg_text(const Drawing& drawing);

/// ".pdf", ".svg", ".png"
std::string file_ending(FigureFormat format);

} // namespace interpile::postprocess
