#include "postprocess/figures/movement_arrows.h"

#include "postprocess/ground.h"
#include "postprocess/interpolation.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace interpile::postprocess {

namespace {

constexpr double lattice_pt = 21, length_pt = 11, head_pt = 3.6;
constexpr double longest_pt = 20, shortest_pt = 2.5; // of arrows whose length tells a size

bool is_at_a_pile(const io::ResultsStage& stage, const Vec2& at, double clearance_m) {
    for (Eigen::Index pile = 0; pile < stage.disc_radius_m.size(); ++pile)
        if ((at - stage.disc_center_m.col(pile)).norm() < stage.disc_radius_m[pile] + clearance_m)
            return true;
    return false;
}

/// A vector field at one place of the lattice.
struct Sample {
    Vec2 at_pt;
    Vec2 value; ///< y up
};

std::vector<Sample> on_lattice(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes,
                               const Eigen::ArrayXd& x, const Eigen::ArrayXd& y) {
    const CellInterpolation interpolation(grid);
    const int columns = std::max(1, static_cast<int>(axes.size_pt.x() / lattice_pt));
    const int rows = std::max(1, static_cast<int>(axes.size_pt.y() / lattice_pt));
    std::vector<Sample> samples;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const Vec2 share((column + 0.5) / columns, (row + 0.5) / rows);
            const Vec2 at = axes.low + share.cwiseProduct(axes.high - axes.low);
            const auto weights = interpolation.at(at);
            if (weights && !is_at_a_pile(stage, at, 0.6 * length_pt / axes.pt_per_unit_x()))
                samples.push_back({axes.to_page(at), {weights->apply(x), weights->apply(y)}});
        }
    return samples;
}

/// An arrow with its middle at the place; y of the page runs down.
Arrow arrow_about(const Sample& sample, double length) {
    const Vec2 half = 0.5 * length * Vec2(sample.value.x(), -sample.value.y()).normalized();
    return {sample.at_pt - half, sample.at_pt + half};
}

/// The largest of 1, 2, 5 times a power of ten that is not above a value > 0.
struct RoundSize {
    int digit = 1, power = 0;
    double value() const { return digit * std::pow(10.0, power); }
};

RoundSize round_size_below(double value) {
    RoundSize size{1, static_cast<int>(std::floor(std::log10(value)))};
    for (const int digit : {2, 5})
        if (RoundSize{digit, size.power}.value() <= value)
            size.digit = digit;
    return size;
}

std::string raised(int power) {
    static const std::array<const char*, 10> digits = {"\u2070", "\u00b9", "\u00b2", "\u00b3", "\u2074",
                                                       "\u2075", "\u2076", "\u2077", "\u2078", "\u2079"};
    std::string text = power < 0 ? "\u207b" : "";
    for (const char digit : std::to_string(std::abs(power)))
        text += digits[static_cast<std::size_t>(digit - '0')];
    return text;
}

} // namespace

std::vector<Arrow> movement_arrows(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes) {
    if (stage.fields.count("displacement_x_m") == 0 || stage.fields.count("displacement_y_m") == 0)
        return {};
    const auto& ux = field_values(stage, "displacement_x_m");
    const auto& uy = field_values(stage, "displacement_y_m");
    const double largest = (ux.square() + uy.square()).sqrt().maxCoeff();
    std::vector<Arrow> arrows;
    for (const auto& sample : on_lattice(grid, stage, axes, ux, uy))
        if (sample.value.norm() > 0.01 * largest)
            arrows.push_back(arrow_about(sample, length_pt));
    return arrows;
}

ScaledArrows seepage_arrows(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes) {
    if (stage.fields.count("seepage_x_m_s") == 0 || stage.fields.count("seepage_y_m_s") == 0)
        return {};
    const auto samples = on_lattice(grid, stage, axes, field_values(stage, "seepage_x_m_s"),
                                    field_values(stage, "seepage_y_m_s"));
    double largest = 0;
    for (const auto& sample : samples)
        largest = std::max(largest, sample.value.norm());
    if (!(largest > 0))
        return {};
    const double pt_per_m_s = longest_pt / largest;
    const RoundSize size = round_size_below(largest);
    ScaledArrows scaled{
        {}, size.value() * pt_per_m_s, fmt::format("{}\u00d710{} m/s", size.digit, raised(size.power))};
    for (const auto& sample : samples)
        if (const double length = sample.value.norm() * pt_per_m_s; length >= shortest_pt)
            scaled.arrows.push_back(arrow_about(sample, length));
    return scaled;
}

void draw_arrow(Canvas& canvas, const Arrow& arrow) {
    const double length = (arrow.tip - arrow.tail).norm();
    const Vec2 along = (arrow.tip - arrow.tail) / length;
    const double head = std::min(head_pt, 0.6 * length); // a short arrow must not be all head
    canvas.arrow(arrow.tail - 0.8 * along, arrow.tip + 1.6 * along, head + 2.4, {2.0, {1, 1, 1}});
    canvas.arrow(arrow.tail, arrow.tip, head, {0.75, ink});
}

} // namespace interpile::postprocess
