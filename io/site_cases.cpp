#include "io/site_cases.h"

#include "solver/works/stroke_instruction.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace interpile::io {

namespace {

using solver::BoringDesign;
using solver::MethodSpacing;
using solver::Quantity;

enum class View { Cell, Group };

/// Lines "key = value # comment", the comments below each other.
class Lines {
public:
    void head(std::string_view table) { text_ += fmt::format("\n[{}]\n", table); }
    void line(std::string_view key, const std::string& value, const std::string& comment) {
        text_ += fmt::format("{:<21} = {:<18} # {}\n", key, value, comment);
    }
    void line(std::string_view key, double value, const std::string& comment) {
        line(key, fmt::format("{:.5g}", value), comment);
    }
    void comment(const std::string& text) { text_ += "# " + text + '\n'; }
    const std::string& text() const { return text_; }

private:
    std::string text_;
};

/// A text as it stands in TOML; control characters have no place in a title.
std::string quoted(const std::string& text) {
    std::string result = "\"";
    for (const char letter : text) {
        if (letter == '"' || letter == '\\')
            result += '\\';
        result += static_cast<unsigned char>(letter) < 0x20 ? ' ' : letter;
    }
    return result + '"';
}

/// In a comment a line break would end it.
std::string one_line(std::string text) {
    std::replace_if(
        text.begin(), text.end(), [](char letter) { return static_cast<unsigned char>(letter) < 0x20; }, ' ');
    return text;
}

/// What a case is about, besides site and boring.
struct Subject {
    std::size_t sample = 0;
    std::string purpose; ///< "spacing of method C"
    double spacing_m = 0;
    std::string spacing_comment;
    std::optional<double> target_density_pct;
    std::string target_comment;
};

class CaseText {
public:
    CaseText(const SiteFile& site, const BoringDesign& design, const Subject& subject, View view)
        : site_(site), design_(design), subject_(subject), view_(view), sample_(subject.sample),
          depth_m_(design.boring.samples[sample_].depth_m) {}

    std::string text() {
        const std::string title =
            fmt::format("{}, {} at {:g} m, {}", site_.title, design_.boring.name, depth_m_, subject_.purpose);
        lines_.comment(one_line(title) + '.');
        lines_.comment("Made from a site file; every value can be changed. Units stand in the keys.");
        lines_.head("case");
        lines_.line("title", quoted(title), "heading of reports and figures");
        ground();
        soil();
        pile();
        layout();
        grid_and_target();
        return lines_.text();
    }

private:
    void from_state(std::string_view key, Quantity quantity, double low, double high) {
        const auto& estimate = solver::chosen(design_.states[sample_], quantity);
        const double value = std::clamp(estimate.value, low, high);
        lines_.line(key, value,
                    one_line(estimate.relation + ": " + estimate.source) +
                        (value == estimate.value
                             ? ""
                             : fmt::format("; held, the estimate is {:.4g}", estimate.value)));
    }

    void ground() {
        lines_.head("ground");
        lines_.line("slice_depth_m", depth_m_, "of the sample");
        lines_.line("vertical_stress_kPa", design_.at_boring[sample_].effective_kPa,
                    "effective, from the unit weights and the water table of the boring");
        from_state("K0", Quantity::LateralStressRatio, 0.32, 3); // the model fails below 0.318
        from_state("relative_density_pct", Quantity::RelativeDensity, 0, 100);
        from_state("e_max", Quantity::LargestVoidRatio, 0.3, 3);
        from_state("e_min", Quantity::SmallestVoidRatio, 0.2, 2);
        lines_.line("vertical_condition", "\"shared\"", "the ground between the piles heaves as a body");
    }

    void soil() {
        lines_.head("soil");
        lines_.line("model", "\"two-surface-sand\"",
                    "densified by strokes; constants of Toyoura sand until tests of this sand exist");
        lines_.line("critical_line", "\"toyoura-density\"", "follows e_max and e_min of this sand");
    }

    void pile() {
        const double casing = site_.casing_diameter_m, diameter = site_.aims.diameter_m;
        constexpr double net_rise_m = 0.2;
        const auto proportion = solver::stroke_proportion(casing, diameter);
        const double redrive = std::round(100 * proportion.redrive * net_rise_m) / 100;
        lines_.head("pile");
        lines_.line("casing_diameter_m", casing, "outside");
        lines_.line("diameter_m", diameter, "finished");
        if (redrive < 0.01) {
            lines_.line("strokes", "0", "hardly wider than its casing: one growth");
            return;
        }
        lines_.line("withdrawal_m", redrive + net_rise_m,
                    "per stroke, by the volume balance of the sand without bulking");
        lines_.line("redrive_m", redrive, fmt::format("per stroke: net rise {:g} m, own choice", net_rise_m));
        lines_.line("stroke_reach_m", 1.0,
                    "strokes this near above and below are felt too; a matter of judgment");
    }

    void layout() {
        const auto& shape = site_.aims.shape;
        const double s = subject_.spacing_m;
        const bool group = view_ == View::Group;
        const char* pattern = shape.pattern == mesh::Pattern::Triangular    ? "\"triangular\""
                              : shape.pattern == mesh::Pattern::Rectangular ? "\"rectangular\""
                                                                            : "\"square\"";
        lines_.head("layout");
        lines_.line("pattern", pattern, "of the site file");
        lines_.line("spacing_m", s, subject_.spacing_comment);
        if (shape.pattern == mesh::Pattern::Rectangular)
            lines_.line("row_spacing_m", shape.row_spacing_ratio * s, "row_spacing_ratio of the site file");
        lines_.line("rows", group ? "3" : "1",
                    group ? "a group inside the treated field" : "one pile is the cell");
        lines_.line("columns", group ? "3" : "1", "as above");
        lines_.head("order");
        lines_.line("kind", group ? "\"row-by-row\"" : "\"together\"",
                    group ? "one after another" : "all piles of the endless pattern at the same time");
        lines_.head("domain");
        if (!group) {
            const bool triangular = shape.pattern == mesh::Pattern::Triangular;
            lines_.line("shape", "\"pattern-cell\"", "between lines of symmetry of the pattern");
            lines_.line("part", triangular ? "\"whole\"" : "\"quarter\"", "the rest follows by symmetry");
            return;
        }
        const double t = shape.pattern == mesh::Pattern::Rectangular ? shape.row_spacing_ratio * s : s;
        lines_.line("x_m", fmt::format("[{:.5g}, {:.5g}]", -s / 2, 2.5 * s),
                    "half a spacing around the piles:");
        lines_.line("y_m", fmt::format("[{:.5g}, {:.5g}]", -t / 2, 2.5 * t),
                    "the field goes on in this pattern");
        for (const char* side : {"west", "east", "south", "north"})
            lines_.line(side, "\"symmetry\"", "nothing leaves sideways");
    }

    void grid_and_target() {
        lines_.head("grid");
        lines_.line("cells_per_diameter", "8", "own choice: quick; refine before relying on it");
        if (view_ == View::Group)
            lines_.line("fine_margin_m", 2 * subject_.spacing_m, "the whole domain");
        if (!subject_.target_density_pct)
            return;
        lines_.head("target");
        lines_.line("relative_density_pct", *subject_.target_density_pct, subject_.target_comment);
    }

    const SiteFile& site_;
    const BoringDesign& design_;
    const Subject& subject_;
    View view_;
    std::size_t sample_;
    double depth_m_;
    Lines lines_;
};

Subject subject_of(const SiteFile& site, const BoringDesign& design, std::size_t m) {
    const MethodSpacing& method = design.methods[m];
    const char letter = solver::letter_of(method.method);
    const auto& sample = design.needs[*method.governing];
    Subject subject;
    subject.sample = *method.governing;
    subject.purpose = fmt::format("spacing of method {} at its governing depth", letter);
    subject.spacing_m = method.practical_spacing_m;
    subject.spacing_comment =
        fmt::format("method {} asks for {:.3f} m, rounded down to {:g} m; a_s = {:.3f}", letter,
                    method.spacing_m, site.aims.spacing_step_m, method.practical_ratio);
    const double density = sample.methods[m].result.relative_density_after_pct;
    if (!std::isnan(density)) {
        subject.target_density_pct = std::clamp(density, 0.0, 100.0);
        subject.target_comment = fmt::format("of N = {:.3g} by method {}", *sample.target_blow_count, letter);
    }
    return subject;
}

/// Piles that far apart serve nothing, and a case does not hold them.
bool has_case(const SiteFile& site, const MethodSpacing& method) {
    constexpr double largest_m = 20; // of layout.spacing_m
    const auto& shape = site.aims.shape;
    const double rows = shape.pattern == mesh::Pattern::Rectangular ? shape.row_spacing_ratio : 1;
    return method.governing && !method.out_of_reach &&
           method.practical_spacing_m * std::max(1.0, rows) <= largest_m;
}

} // namespace

std::vector<const BoringDesign*>
borings_for_cases(const SiteFile& site, const std::vector<BoringDesign>& designs, std::size_t method) {
    std::vector<const BoringDesign*> chosen;
    const std::size_t borings = site.borings.size();
    for (std::size_t i = 0; i < designs.size(); ++i) {
        const bool candidate = site.design_by == DesignBy::Mean ? i >= borings : i < borings;
        if (candidate && has_case(site, designs[i].methods[method]))
            chosen.push_back(&designs[i]);
    }
    if (site.design_by == DesignBy::Worst && !chosen.empty())
        return {*std::max_element(chosen.begin(), chosen.end(), [&](const auto* a, const auto* b) {
            return a->methods[method].replacement_ratio < b->methods[method].replacement_ratio;
        })};
    return chosen;
}

std::string cell_case(const SiteFile& site, const BoringDesign& design, std::size_t sample,
                      double replacement_ratio) {
    Subject subject;
    subject.sample = sample;
    subject.purpose = fmt::format("as built, a_s {:.3f}", replacement_ratio);
    subject.spacing_m = spacing_m(site.aims.shape, replacement_ratio, site.aims.diameter_m);
    subject.spacing_comment = fmt::format("of a_s = {:.4g} as built", replacement_ratio);
    return CaseText(site, design, subject, View::Cell).text();
}

std::vector<NamedTable> site_cases(const SiteFile& site, const std::vector<BoringDesign>& designs) {
    std::vector<NamedTable> cases;
    for (std::size_t m = 0; m < site.aims.methods.size(); ++m)
        for (const BoringDesign* design : borings_for_cases(site, designs, m)) {
            const Subject subject = subject_of(site, *design, m);
            const std::string stem = fmt::format("case-{}-{}", file_word(design->boring.name),
                                                 solver::letter_of(site.aims.methods[m]));
            cases.push_back({stem + "-cell.toml", CaseText(site, *design, subject, View::Cell).text()});
            if (site.aims.shape.pattern != mesh::Pattern::Triangular)
                cases.push_back({stem + "-group.toml", CaseText(site, *design, subject, View::Group).text()});
        }
    return cases;
}

} // namespace interpile::io
