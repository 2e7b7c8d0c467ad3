#include "drawn_page.h"

#include "temporary_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <sstream>

namespace interpile::tests {

using namespace postprocess;

namespace {

/// Paths of an SVG without blanks inside their attributes, positions apart.
struct Path {
    std::string style;
    Polyline corners;
};

std::vector<Path> paths_of(const Drawing& drawing) {
    const std::string svg = svg_of(drawing);
    const auto letters_end = svg.find("</defs>");
    std::vector<Path> all;
    for (auto at = svg.find("<path", letters_end == std::string::npos ? 0 : letters_end);
         at != std::string::npos; at = svg.find("<path", at + 1)) {
        const std::string tag = svg.substr(at, svg.find("/>", at) - at);
        Path path;
        path.style = tag;
        path.style.erase(std::remove(path.style.begin(), path.style.end(), ' '), path.style.end());
        const auto first = tag.find(" d=\"") + 4;
        std::string numbers = tag.substr(first, tag.find('"', first) - first);
        std::replace_if(
            numbers.begin(), numbers.end(),
            [](char c) { return std::string("MLCZ").find(c) != std::string::npos; }, ' ');
        std::istringstream in(numbers);
        for (double x = 0, y = 0; in >> x >> y;)
            path.corners.emplace_back(x, y);
        all.push_back(std::move(path));
    }
    return all;
}

std::string rgb(const Color& color) {
    return fmt::format("rgb({:.0f}%,{:.0f}%,{:.0f}%)", 100 * color.red, 100 * color.green, 100 * color.blue);
}

bool is_stroke(const Path& path) {
    return has(path.style, "fill:none") || has(path.style, "fill=\"none\"");
}

std::vector<Polyline> drawn(const Drawing& drawing, const Color& color, bool strokes) {
    std::vector<Polyline> all;
    for (auto& path : paths_of(drawing))
        if (is_stroke(path) == strokes && has(path.style, rgb(color)))
            all.push_back(path.corners);
    return all;
}

std::string told_by_pdftotext(const Drawing& drawing, const std::string& options) {
    const TemporaryFolder folder("interpile_words");
    const auto file = folder.path() / "page.pdf";
    save(drawing, file, FigureFormat::Pdf);
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(
        popen(("pdftotext " + options + " '" + file.string() + "' -").c_str(), "r"), pclose);
    std::string text;
    std::array<char, 4096> part{};
    while (const std::size_t n = fread(part.data(), 1, part.size(), pipe.get()))
        text.append(part.data(), n);
    return text;
}

} // namespace

std::string words_of(const Drawing& drawing) {
    std::istringstream in(told_by_pdftotext(drawing, "-layout"));
    std::string words;
    for (std::string word; in >> word;)
        words += word + " ";
    return words;
}

std::string words_off_page(const Drawing& drawing) {
    std::istringstream lines(told_by_pdftotext(drawing, "-bbox"));
    const Vec2 page = paper_scale(drawing) * drawing.size_pt;
    constexpr double slack_pt = 0.5; // boxes are those of the font, wider than the letters
    std::string off;
    for (std::string line; std::getline(lines, line);) {
        Vec2 low, high;
        const auto at = line.find("<word xMin=");
        if (at == std::string::npos ||
            std::sscanf(line.c_str() + at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"",
                        &low.x(), &low.y(), &high.x(), &high.y()) != 4)
            continue;
        if (low.minCoeff() < -slack_pt || (high - page).maxCoeff() > slack_pt)
            off += line.substr(line.find('>', at) + 1, line.find('<', at + 1) - line.find('>', at) - 1) + " ";
    }
    return off;
}

std::string svg_of(const Drawing& drawing) {
    const TemporaryFolder folder("interpile_svg");
    const auto file = folder.path() / "page.svg";
    save(drawing, file, FigureFormat::Svg);
    return bytes_of(file);
}

std::vector<Polyline> lines_of(const Drawing& drawing, const Color& color) {
    return drawn(drawing, color, true);
}

std::vector<Polyline> areas_of(const Drawing& drawing, const Color& color) {
    return drawn(drawing, color, false);
}

std::size_t dashed_lines(const Drawing& drawing, const Color& color) {
    std::size_t count = 0;
    for (const auto& path : paths_of(drawing))
        count += is_stroke(path) && has(path.style, rgb(color)) && has(path.style, "stroke-dasharray");
    return count;
}

Vec2 middle_of(const Polyline& corners) {
    Vec2 low = corners.at(0), high = low;
    for (const auto& corner : corners) {
        low = low.cwiseMin(corner);
        high = high.cwiseMax(corner);
    }
    return 0.5 * (low + high);
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace interpile::tests
