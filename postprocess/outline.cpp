#include "postprocess/outline.h"

#include <algorithm>
#include <utility>

namespace interpile::postprocess {

namespace {

using Edge = std::pair<int, int>; ///< from, to

std::vector<Edge> border_edges(const std::vector<Polygon>& polygons) {
    std::vector<Edge> edges;
    for (const auto& polygon : polygons)
        for (std::size_t k = 0; k < polygon.size(); ++k)
            if (const Edge edge(polygon[k], polygon[(k + 1) % polygon.size()]); edge.first != edge.second)
                edges.push_back(edge);
    // Both directions of an edge side by side, then keep what has no partner.
    const auto undirected = [](const Edge& e) {
        return Edge(std::min(e.first, e.second), std::max(e.first, e.second));
    };
    std::sort(edges.begin(), edges.end(), [&](const Edge& a, const Edge& b) {
        return std::pair(undirected(a), a) < std::pair(undirected(b), b);
    });
    std::vector<Edge> border;
    for (std::size_t i = 0; i < edges.size();) {
        const auto key = undirected(edges[i]);
        int balance = 0;
        for (; i < edges.size() && undirected(edges[i]) == key; ++i)
            balance += edges[i].first == key.first ? 1 : -1;
        for (; balance > 0; --balance)
            border.emplace_back(key.first, key.second);
        for (; balance < 0; ++balance)
            border.emplace_back(key.second, key.first);
    }
    std::sort(border.begin(), border.end());
    return border;
}

} // namespace

std::vector<std::vector<mesh::Vec2>> outline(const std::vector<Polygon>& polygons,
                                             const std::vector<mesh::Vec2>& points) {
    const auto border = border_edges(polygons);
    std::vector<bool> used(border.size(), false);
    const auto unused_from = [&](int point) {
        auto at = std::lower_bound(border.begin(), border.end(), Edge(point, -1)) - border.begin();
        while (used[at]) // in and out edges balance at every point, so one is left
            ++at;
        return static_cast<std::size_t>(at);
    };
    std::vector<std::vector<mesh::Vec2>> rings;
    for (std::size_t first = 0; first < border.size(); ++first) {
        if (used[first])
            continue;
        auto& ring = rings.emplace_back();
        for (std::size_t at = first;; at = unused_from(border[at].second)) {
            used[at] = true;
            ring.push_back(points[border[at].first]);
            if (border[at].second == border[first].first)
                break;
        }
    }
    return rings;
}

double ring_area(const std::vector<mesh::Vec2>& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto& a = ring[i];
        const auto& b = ring[(i + 1) % ring.size()];
        twice += a.x() * b.y() - a.y() * b.x();
    }
    return twice / 2;
}

} // namespace interpile::postprocess
