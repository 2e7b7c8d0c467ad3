#include "postprocess/report/inline_svg.h"

#include "postprocess/report/html_text.h"

#include <fmt/format.h>

#include <string_view>

namespace interpile::postprocess::report {

namespace {

std::string replaced(const std::string& text, std::string_view from, const std::string& to) {
    std::string made;
    std::size_t at = 0;
    for (std::size_t found; (found = text.find(from, at)) != std::string::npos; at = found + from.size())
        made.append(text, at, found - at).append(to);
    return made + text.substr(at);
}

} // namespace

std::string inline_svg(const Drawing& drawing, const std::string& prefix, const std::string& name) {
    std::string svg = svg_text(drawing);
    const auto begin = svg.find("<svg");
    const auto end = svg.find('>', begin);
    const std::string content = svg.substr(end + 1, svg.rfind("</svg>") - end - 1);
    svg = replaced(content, "xlink:href=\"#", "href=\"#" + prefix);
    // Pictures inside (patterns) are data: addresses.
    svg = replaced(svg, "xlink:href=\"", "href=\"");
    svg = replaced(svg, " id=\"", " id=\"" + prefix);
    svg = replaced(svg, "url(#", "url(#" + prefix);
    const Vec2 size = paper_scale(drawing) * drawing.size_pt; // as in svg_text
    return fmt::format("<svg role=\"img\" aria-label=\"{}\" viewBox=\"0 0 {:.6g} {:.6g}\">", escaped(name),
                       size.x(), size.y()) +
           svg + "</svg>";
}

} // namespace interpile::postprocess::report
