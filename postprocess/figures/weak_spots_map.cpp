#include "postprocess/figures/weak_spots_map.h"

#include "postprocess/axes.h"
#include "postprocess/figure_text.h"
#include "postprocess/hatch.h"
#include "postprocess/key.h"
#include "postprocess/label_places.h"
#include "postprocess/line_breaks.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double largest_plan_pt = 420, least_plan_pt = 130, key_gap_pt = 5;
constexpr double least_width_pt = 300;
constexpr double visible_shift_pt = 3.5; ///< less is hidden by the cross itself
constexpr double largest_name_pt = 7, least_name_pt = 5, name_share = 1.6; ///< of the radius
constexpr double least_named_radius_pt = 8;                                ///< cross and name in one circle
constexpr double remark_size_pt = 6.2;
const Pen cross_pen{0.6, ink};

struct GradeLook {
    const char* name;
    Color fill;
    Pen edge;
    bool hatched;
};

/// Different in fill, line and hatch, so that no grade hangs on its color.
GradeLook look_of(SpotGrade grade) {
    switch (grade) {
    case SpotGrade::Deviates:
        return {"deviates from the order", {1.0, 0.91, 0.78}, {1.5, {0.72, 0.30, 0.02}}, true};
    case SpotGrade::NotRecorded:
        return {"not recorded", {1, 1, 1}, {0.9, ink, {2.2, 1.6}}, false};
    case SpotGrade::AsOrdered:
        break;
    }
    return {"as ordered", {0.90, 0.90, 0.90}, {0.6, {0.30, 0.30, 0.30}}, false};
}

Vec2 place_m(const MapPile& pile) {
    return pile.built_m.allFinite() ? pile.built_m : pile.ordered_m;
}

/// A remark and where it stands.
struct Remark {
    std::string text;
    Vec2 center_pt;
    double radius_pt;
    PageBox box;
};

struct Content {
    WeakSpotsMap map;
    PageText text;
    Axes axes;
    bool names_inside = false; ///< of every pile or of none
    std::vector<Remark> remarks;

    double radius_pt(const MapPile& pile) const { return 0.5 * pile.diameter_m * axes.pt_per_unit_x(); }
    bool shifted(const MapPile& pile) const {
        return (place_m(pile) - pile.ordered_m).norm() * axes.pt_per_unit_x() > visible_shift_pt;
    }
};

Axes plan_axes(const WeakSpotsMap& map, double top_pt) {
    Vec2 low = place_m(map.piles.front()), high = low;
    double diameter_m = 0;
    for (const auto& pile : map.piles)
        for (const auto& at : {pile.ordered_m, place_m(pile)}) {
            low = low.cwiseMin(at);
            high = high.cwiseMax(at);
            diameter_m = std::max(diameter_m, pile.diameter_m);
        }
    const double left = page_margin_pt + axis_width_pt;
    const Vec2 largest(page_width_pt(least_width_pt) - left - 2 * page_margin_pt, largest_plan_pt);
    Vec2 extent = high - low + Vec2::Constant(3 * diameter_m);
    // A single row gets room for its remarks.
    const double pt_per_m = largest.cwiseQuotient(extent).minCoeff();
    extent = extent.cwiseMax(least_plan_pt / pt_per_m);
    const Vec2 middle = 0.5 * (low + high);
    return equal_scale_axes(middle - 0.5 * extent, middle + 0.5 * extent, {left, top_pt}, largest);
}

void draw_spot(Canvas& canvas, const Vec2& at, double radius_pt, SpotGrade grade) {
    auto look = look_of(grade);
    for (double& dash : look.edge.dash_pt)
        dash *= std::min(1.0, radius_pt / 8); // small circles stay circles
    canvas.fill_circle(at, radius_pt, look.fill);
    if (look.hatched)
        hatch_circle(canvas, at, radius_pt, 2.2, {0.5, look.edge.color});
    canvas.stroke_circle(at, radius_pt, look.edge);
}

void draw_cross(Canvas& canvas, const Vec2& at, double radius_pt) {
    const double arm = std::clamp(0.5 * radius_pt, 1.2, 2.6);
    canvas.stroke({at - Vec2(arm, 0), at + Vec2(arm, 0)}, cross_pen);
    canvas.stroke({at - Vec2(0, arm), at + Vec2(0, arm)}, cross_pen);
}

/// Above or below the middle, away from the ordered place.
void draw_name(Canvas& canvas, const Content& content, const MapPile& pile) {
    const auto label = own_words(pile.name);
    TextStyle style{largest_name_pt, Align::Center, ink};
    style.size_pt = std::clamp(largest_name_pt * name_share * content.radius_pt(pile) /
                                   std::max(1.0, canvas.text_width(label, style)),
                               least_name_pt, largest_name_pt);
    style.halo_pt = 0.9;
    const Vec2 at = content.axes.to_page(place_m(pile));
    const bool above = content.axes.to_page(pile.ordered_m).y() > at.y() + 1;
    canvas.text(label, at + Vec2(0, above ? -2.2 : 2.2 + 0.74 * style.size_pt), style);
}

void draw_remarks(Canvas& canvas, const Content& content) {
    TextStyle style{remark_size_pt, Align::Center, ink};
    style.halo_pt = 0.8;
    for (const auto& remark : content.remarks) {
        if (const auto line = leading_line(remark.center_pt, remark.radius_pt, remark.box);
            (line[1] - line[0]).norm() > 3)
            canvas.stroke(line, {0.4, ink});
        canvas.text(plain(remark.text),
                    {0.5 * (remark.box.low.x() + remark.box.high.x()), remark.box.high.y() - 1.8}, style);
    }
}

void draw_plan(Canvas& canvas, const Content& content) {
    for (const auto& pile : content.map.piles)
        draw_spot(canvas, content.axes.to_page(place_m(pile)), content.radius_pt(pile), pile.grade);
    for (const auto& pile : content.map.piles) {
        const Vec2 ordered = content.axes.to_page(pile.ordered_m);
        draw_cross(canvas, ordered, content.radius_pt(pile));
        if (content.shifted(pile))
            canvas.arrow(ordered, content.axes.to_page(place_m(pile)), 2.6, cross_pen);
    }
    if (content.names_inside)
        for (const auto& pile : content.map.piles)
            draw_name(canvas, content, pile);
    draw_remarks(canvas, content);
}

std::vector<KeyEntry> key_of(const Content& content) {
    std::vector<KeyEntry> key;
    const auto& piles = content.map.piles;
    for (const auto grade : {SpotGrade::AsOrdered, SpotGrade::Deviates, SpotGrade::NotRecorded}) {
        const auto count = std::count_if(piles.begin(), piles.end(),
                                         [&](const MapPile& pile) { return pile.grade == grade; });
        if (count > 0)
            key.push_back({fmt::format("{} ({} pile{})", look_of(grade).name, count, count == 1 ? "" : "s"),
                           [grade](Canvas& canvas, const Vec2& left) {
                               draw_spot(canvas, left + Vec2(0.5 * key_symbol_pt, 0), 4, grade);
                           }});
    }
    key.push_back({"ordered place", [](Canvas& canvas, const Vec2& left) {
                       draw_cross(canvas, left + Vec2(0.5 * key_symbol_pt, 0), 8);
                   }});
    if (std::any_of(piles.begin(), piles.end(), [&](const MapPile& pile) { return content.shifted(pile); }))
        key.push_back({"from the ordered to the built place", [](Canvas& canvas, const Vec2& left) {
                           canvas.arrow(left + Vec2(3, 0), left + Vec2(17, 0), 3, cross_pen);
                       }});
    return key;
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    canvas.clipped(content.axes.upper_left_pt, content.axes.lower_right_pt(),
                   [&] { draw_plan(canvas, content); });
    draw_axes(canvas, content.axes, symbol("x") + plain(" (m)"), symbol("y") + plain(" (m)"));
    const auto key = key_of(content);
    const double key_top = content.axes.lower_right_pt().y() + axis_height_pt + key_gap_pt;
    draw_key(canvas, key, {page_margin_pt, key_top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, key_top + key_height_pt(key, content.text.text_width_pt()));
}

void require_drawable(const WeakSpotsMap& map) {
    if (map.piles.empty())
        throw std::invalid_argument("a map without piles cannot be drawn");
    for (const auto& pile : map.piles) {
        if (!pile.ordered_m.allFinite())
            throw std::invalid_argument(fmt::format("pile {} has no ordered place", pile.name));
        if (!pile.built_m.allFinite() && pile.grade != SpotGrade::NotRecorded)
            throw std::invalid_argument(fmt::format("pile {} has no built place", pile.name));
        if (!(pile.diameter_m > 0))
            throw std::invalid_argument(
                fmt::format("pile {} has the diameter {} m", pile.name, pile.diameter_m));
    }
}

bool names_fit(const Content& content) {
    return std::all_of(content.map.piles.begin(), content.map.piles.end(), [&](const MapPile& pile) {
        const double radius = content.radius_pt(pile);
        return radius >= least_named_radius_pt &&
               characters(pile.name) <= letters_within(name_share * radius, least_name_pt);
    });
}

std::string words_beside(const Content& content, const MapPile& pile) {
    if (content.names_inside || pile.remark.empty())
        return content.names_inside ? pile.remark : pile.name;
    return pile.name + ": " + pile.remark;
}

/// Stay together at the end of a line.
std::string unbroken(const std::string& text) {
    std::string joined;
    for (const char c : text)
        joined += c == ' ' ? "\u00a0" : std::string(1, c);
    return joined;
}

LabelPlaces places_of(const Content& content) {
    std::vector<PageBox> marks;
    for (const auto& pile : content.map.piles) {
        const Vec2 at = content.axes.to_page(place_m(pile));
        const Vec2 half = Vec2::Constant(0.9 * content.radius_pt(pile)); // the corners are free
        marks.push_back({at - half, at + half});
        const Vec2 cross = content.axes.to_page(pile.ordered_m);
        if (content.shifted(pile))
            marks.push_back({cross - Vec2::Constant(2), cross + Vec2::Constant(2)});
    }
    const Vec2 rim = Vec2::Constant(1.5);
    return {{content.axes.upper_left_pt + rim, content.axes.lower_right_pt() - rim}, std::move(marks)};
}

/// Place the remarks, of deviating piles first; what finds no room goes into a note, and at least the name of its
/// pile onto the map.
void place_remarks(Content& content) {
    auto places = places_of(content);
    const auto placed = [&](const MapPile& pile, const std::string& words) {
        const Vec2 center = content.axes.to_page(place_m(pile));
        const double radius = content.radius_pt(pile);
        const auto box =
            places.place(center, radius, {width_of(words, remark_size_pt), remark_size_pt + 0.8});
        if (box)
            content.remarks.push_back({words, center, radius, *box});
        return box.has_value();
    };
    std::vector<const MapPile*> left_out;
    for (const auto grade : {SpotGrade::Deviates, SpotGrade::NotRecorded})
        for (const auto& pile : content.map.piles)
            if (const auto words = words_beside(content, pile);
                pile.grade == grade && !words.empty() && !placed(pile, words))
                left_out.push_back(&pile);
    std::string note;
    for (const auto* pile : left_out) {
        if (!content.names_inside)
            placed(*pile, pile->name);
        note += (note.empty() ? "" : "; ") +
                unbroken(pile->remark.empty() ? pile->name : pile->name + ": " + pile->remark);
    }
    if (!note.empty())
        content.map.notes.push_back("Without room on the map: " + note + ".");
}

PageText text_of(const WeakSpotsMap& map) {
    auto text = figure_text(map);
    text.width_pt = page_width_pt(least_width_pt);
    return text;
}

std::shared_ptr<const Content> content_of(const WeakSpotsMap& map) {
    auto content = std::make_shared<Content>();
    content->map = map;
    content->axes = plan_axes(map, head_height_pt(text_of(map)));
    content->names_inside = names_fit(*content);
    const bool any_as_ordered = std::any_of(map.piles.begin(), map.piles.end(), [](const MapPile& pile) {
        return pile.grade == SpotGrade::AsOrdered;
    });
    if (!content->names_inside && any_as_ordered)
        content->map.notes.push_back("The circles have no room for the names of piles built as ordered.");
    place_remarks(*content);
    content->text = text_of(content->map);
    return content;
}

} // namespace

Drawing weak_spots_map(const WeakSpotsMap& map) {
    require_drawable(map);
    const auto content = content_of(map);
    const Vec2 size(content->text.width_pt,
                    content->axes.lower_right_pt().y() + axis_height_pt + key_gap_pt +
                        key_height_pt(key_of(*content), content->text.text_width_pt()) +
                        foot_height_pt(content->text));
    return {size, map.title + ": built piles", {}, [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
