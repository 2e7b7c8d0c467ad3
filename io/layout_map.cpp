#include "io/layout_map.h"

#include "mesh/pile_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

constexpr int spacing_characters = 8; // between the nearest piles, along x
constexpr int spacing_lines = 3;      // along y
constexpr int widest = 110, tallest = 90;
constexpr int indent = 4;

/// Write a label centered at a column; what lies beyond the ends is lost.
void write_centered(std::string& line, int center, const std::string& label) {
    const int first = center - static_cast<int>(label.size()) / 2;
    for (std::size_t i = 0; i < label.size(); ++i) {
        const int at = first + static_cast<int>(i);
        if (at >= 0 && at < static_cast<int>(line.size()))
            line[static_cast<std::size_t>(at)] = label[i];
    }
}

} // namespace

std::string layout_map(const std::vector<mesh::Vec2>& centers, const std::vector<std::vector<int>>& order) {
    if (centers.empty())
        return {};
    mesh::Vec2 low = centers.front(), high = low;
    for (const auto& p : centers) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    const double nearest = mesh::smallest_distance_m(centers);
    const auto step = [&](double distance, int per_spacing) {
        return std::isfinite(nearest) ? distance / nearest * per_spacing : 0.0;
    };
    // Piles of neighboring rows may be nearer along y than the spacing (triangle: 0.87, turned patterns).
    const double width = step(high.x() - low.x(), spacing_characters) + 2 * indent + 1;
    const double height = step(high.y() - low.y(), spacing_lines) + 2;
    if (width > widest || height > tallest)
        return fmt::format("    {} piles are too many for a map in text; draw it with --layout-figure.\n",
                           centers.size());

    std::vector<int> place(centers.size(), 0);
    for (std::size_t k = 0; k < order.size(); ++k)
        for (const int pile : order[k])
            place[static_cast<std::size_t>(pile)] = static_cast<int>(k) + 1;

    std::vector<std::string> lines(static_cast<std::size_t>(std::lround(height)),
                                   std::string(static_cast<std::size_t>(std::lround(width)), ' '));
    for (std::size_t i = 0; i < centers.size(); ++i) {
        const int column =
            indent + static_cast<int>(std::lround(step(centers[i].x() - low.x(), spacing_characters)));
        const auto row =
            static_cast<std::size_t>(std::lround(step(high.y() - centers[i].y(), spacing_lines)));
        write_centered(lines[row], column, std::to_string(i + 1));
        write_centered(lines[row + 1], column, fmt::format("({})", place[i]));
    }
    std::string map;
    for (std::string& line : lines) {
        line.erase(line.find_last_not_of(' ') + 1);
        map += line + "\n";
    }
    return map + fmt::format("    x {:.6g} .. {:.6g} m to the right, y {:.6g} .. {:.6g} m upward; "
                             "(n) is the place in the order of work\n",
                             low.x(), high.x(), low.y(), high.y());
}

std::string order_of_work(const std::vector<std::vector<int>>& order) {
    std::string text, line;
    for (std::size_t k = 0; k < order.size(); ++k) {
        std::string group;
        for (const int pile : order[k])
            group += fmt::format("{}{}", group.empty() ? "" : "+", pile + 1);
        const std::string item = group + (k + 1 < order.size() ? ", " : "");
        if (line.size() + item.size() > widest) {
            text += "    " + line + "\n";
            line.clear();
        }
        line += item;
    }
    return text + "    " + line + "\n";
}

} // namespace interpile::io
