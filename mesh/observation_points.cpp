#include "mesh/observation_points.h"

#include "mesh/pile_layout.h"
#include "mesh/treated_area.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <numeric>

namespace interpile::mesh {
namespace {

constexpr std::size_t most_considered = 24; // piles around the middle: two rings and more of any pattern
constexpr double same_m = 1e-9;             // places are told this closely
constexpr double same = 1e-6;               // relative to distances between piles
// A gap wider than this times the nearest spacing around it is open ground, not a place between piles (own choice).
constexpr double widest_gap = 2;

Vec2 middle_of(const std::vector<Vec2>& points) {
    Vec2 sum = Vec2::Zero();
    for (const auto& p : points)
        sum += p;
    return sum / static_cast<double>(points.size());
}

double cross(const Vec2& a, const Vec2& b) {
    return a.x() * b.y() - a.y() * b.x();
}

/// The points nearest to a place, in their own order.
std::vector<Vec2> nearest(const std::vector<Vec2>& points, const Vec2& place) {
    std::vector<std::size_t> index(points.size());
    std::iota(index.begin(), index.end(), std::size_t{0});
    std::stable_sort(index.begin(), index.end(), [&](std::size_t a, std::size_t b) {
        return (points[a] - place).norm() < (points[b] - place).norm();
    });
    index.resize(std::min(index.size(), most_considered));
    std::sort(index.begin(), index.end());
    std::vector<Vec2> chosen;
    for (const auto i : index)
        chosen.push_back(points[i]);
    return chosen;
}

/// Points in or on a circle.
std::vector<Vec2> in_circle(const std::vector<Vec2>& points, const Vec2& center, double radius) {
    std::vector<Vec2> inside;
    std::copy_if(points.begin(), points.end(), std::back_inserter(inside),
                 [&](const Vec2& p) { return (p - center).norm() < radius * (1 + same); });
    return inside;
}

/// A circle through piles is a gap between them: none inside, and not much wider than they stand apart.
bool is_gap(const std::vector<Vec2>& piles, const Vec2& center, double radius) {
    const auto around = in_circle(piles, center, radius);
    return std::none_of(around.begin(), around.end(),
                        [&](const Vec2& p) { return (p - center).norm() < radius * (1 - same); }) &&
           radius <= widest_gap * smallest_distance_m(around);
}

std::vector<Vec2> mid_spans(const std::vector<Vec2>& piles) {
    std::vector<Vec2> places;
    for (std::size_t a = 0; a < piles.size(); ++a)
        for (std::size_t b = a + 1; b < piles.size(); ++b) {
            const Vec2 half_way = 0.5 * (piles[a] + piles[b]);
            // The diagonal of a square has the other two piles on its circle.
            if (in_circle(piles, half_way, 0.5 * (piles[a] - piles[b]).norm()).size() == 2)
                places.push_back(half_way);
        }
    return places;
}

/// Center of the circle through three points that do not lie on a line.
Vec2 circumcenter(const Vec2& a, const Vec2& b, const Vec2& c) {
    const Vec2 p = b - a, q = c - a;
    const double pp = p.squaredNorm(), qq = q.squaredNorm();
    return a + Vec2(q.y() * pp - p.y() * qq, p.x() * qq - q.x() * pp) / (2 * cross(p, q));
}

std::vector<Vec2> centroids(const std::vector<Vec2>& piles) {
    std::vector<Vec2> places;
    for (std::size_t i = 0; i < piles.size(); ++i)
        for (std::size_t j = i + 1; j < piles.size(); ++j)
            for (std::size_t k = j + 1; k < piles.size(); ++k) {
                const Vec2 &a = piles[i], &b = piles[j], &c = piles[k];
                if (std::abs(cross(b - a, c - a)) < same * (b - a).squaredNorm())
                    continue; // in a row
                const Vec2 center = circumcenter(a, b, c);
                if (is_gap(piles, center, (a - center).norm()))
                    places.push_back(center);
            }
    return places;
}

/// The place of the domain nearest to the middle; a later one must be clearly nearer. Nothing if there is none.
void add_nearest(std::vector<ObservationPoint>& points, const std::string& name,
                 const std::vector<Vec2>& places, const Domain& domain, const Vec2& middle) {
    double least = std::numeric_limits<double>::infinity();
    ObservationPoint point{name, middle};
    for (const Vec2& place : places) {
        const double distance = (place - middle).norm();
        if (distance > least - 1e-6 || domain.inside_share(place) == 0)
            continue;
        least = distance;
        point.at_m = (place / same_m).array().round() * same_m + 0.0; // no -0 and no 1e-17 in tables
    }
    if (std::isfinite(least))
        points.push_back(point);
}

} // namespace

std::vector<ObservationPoint> usual_points(const std::vector<Vec2>& centers, const Domain& domain,
                                           double diameter_m) {
    if (centers.empty())
        return {};
    if (is_round_cell(centers, domain, diameter_m))
        return {{rim_name, {domain.high.x(), 0}}};
    const Vec2 middle = middle_of(centers);
    const auto piles = nearest(centers_with_images(centers, domain, diameter_m), middle);
    std::vector<ObservationPoint> points;
    add_nearest(points, mid_span_name, mid_spans(piles), domain, middle);
    const TreatedArea treated = treated_area(centers, domain, diameter_m);
    auto places = centroids(piles); // at the border of a group a circle may have its middle outside
    std::erase_if(places, [&](const Vec2& place) { return !treated.contains(place); });
    add_nearest(points, centroid_name, places, domain, middle);
    return points;
}

} // namespace interpile::mesh
