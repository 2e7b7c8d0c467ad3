#include "postprocess/canvas.h"
#include "postprocess/replace_file.h"
#include "postprocess/surface.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <map>

namespace interpile::postprocess {

namespace {

/// \param dots_per_pt  of the paper
void paint(const Drawing& drawing, cairo_surface_t* surface, double dots_per_pt) {
    const Context context(cairo_create(surface));
    const double scale = dots_per_pt * paper_scale(drawing);
    cairo_scale(context.get(), scale, scale);
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    Canvas canvas(context.get());
    canvas.in_figure_words([&] { drawing.draw(canvas); });
    cairo_show_page(context.get());
    require(cairo_status(context.get()));
}

Vec2 on_paper(const Drawing& drawing) {
    return paper_scale(drawing) * drawing.size_pt;
}

std::string pdf(const Drawing& drawing) {
    std::string bytes;
    const Vec2 size = on_paper(drawing);
    const Surface surface(cairo_pdf_surface_create_for_stream(append_bytes, &bytes, size.x(), size.y()));
    describe_pdf(surface.get(), drawing.title, drawing.created);
    paint(drawing, surface.get(), 1);
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()));
    return bytes;
}

/// The library names its groups by a counter of the whole process ("surface12"); count within the file
/// instead.
std::string with_own_numbers(const std::string& svg) {
    static constexpr std::string_view word = "surface";
    std::string text;
    std::map<std::string, int> seen;
    std::size_t from = 0;
    for (std::size_t at; (at = svg.find(word, from)) != std::string::npos;) {
        std::size_t end = at + word.size();
        while (end < svg.size() && std::isdigit(static_cast<unsigned char>(svg[end])))
            ++end;
        text.append(svg, from, at + word.size() - from);
        if (const std::string number = svg.substr(at + word.size(), end - at - word.size()); !number.empty())
            text += std::to_string(seen.emplace(number, static_cast<int>(seen.size()) + 1).first->second);
        from = end;
    }
    return text + svg.substr(from);
}

std::string png(const Drawing& drawing) {
    const double dots_per_pt = figure_style().png_dots_per_inch / 72;
    const Eigen::Vector2i dots = (on_paper(drawing) * dots_per_pt).array().round().matrix().cast<int>();
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, dots.x(), dots.y()));
    paint(drawing, surface.get(), dots_per_pt);
    std::string bytes;
    require(cairo_surface_write_to_png_stream(surface.get(), append_bytes, &bytes));
    return bytes;
}

std::map<std::string, double>& reduced() {
    static std::map<std::string, double> drawings;
    return drawings;
}

} // namespace

const std::map<std::string, double>& reduced_drawings() {
    return reduced();
}

double paper_scale(const Drawing& drawing) {
    const auto& style = figure_style();
    return std::min(style.letter_scale, style.width_pt / drawing.size_pt.x());
}

std::string svg_text(const Drawing& drawing) {
    std::string bytes;
    const Vec2 size = on_paper(drawing);
    const Surface surface(cairo_svg_surface_create_for_stream(append_bytes, &bytes, size.x(), size.y()));
    paint(drawing, surface.get(), 1);
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()));
    return with_own_numbers(bytes);
}

std::string file_ending(FigureFormat format) {
    switch (format) {
    case FigureFormat::Pdf:
        return ".pdf";
    case FigureFormat::Svg:
        return ".svg";
    case FigureFormat::Png:
        return ".png";
    }
    return {};
}

void save(const Drawing& drawing, const std::filesystem::path& file, FigureFormat format) {
    if (const double scale = paper_scale(drawing); scale < (1 - 1e-9) * figure_style().letter_scale)
        reduced()[drawing.title] = scale;
    const std::string bytes = format == FigureFormat::Pdf   ? pdf(drawing)
                              : format == FigureFormat::Svg ? svg_text(drawing)
                                                            : png(drawing);
    replace_file(file, [&](const std::filesystem::path& part) {
        std::ofstream out(part, std::ios::binary);
        out << bytes;
        out.close();
        if (!out)
            throw std::filesystem::filesystem_error("write", part, std::make_error_code(std::errc::io_error));
    });
}

std::vector<std::filesystem::path> save_all(const Drawing& drawing, const std::filesystem::path& folder,
                                            const std::string& name,
                                            const std::vector<FigureFormat>& formats) {
    std::vector<std::filesystem::path> files;
    for (const auto format : formats) {
        files.push_back(folder / (name + file_ending(format)));
        save(drawing, files.back(), format);
    }
    return files;
}

} // namespace interpile::postprocess
