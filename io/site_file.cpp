#include "io/site_file.h"

#include "io/after_table.h"
#include "io/boring_table.h"
#include "io/case_parts.h"
#include "io/chart_table.h"
#include "io/site_rules.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

namespace interpile::io {

namespace {

using solver::DesignMethod;

/// Fills the parts of a site; each function adds its faults to the list of the values.
class SiteReader {
public:
    SiteReader(CaseValues& values, const std::filesystem::path& file) : values_(values), file_(file) {}

    SiteFile read() {
        site_.files = {file_};
        values_.derive("site.title", file_.stem().string());
        if (values_.has("site.title"))
            site_.title = values_.text("site.title");
        if (values_.has("site.design_by")) {
            const std::string& word = values_.text("site.design_by");
            site_.design_by = word == "each"   ? DesignBy::Each
                              : word == "mean" ? DesignBy::Mean
                                               : DesignBy::Worst;
        }
        read_borings();
        read_earthquake();
        read_treatment();
        read_methods();
        read_target();
        read_relations();
        require_ordered_limits(site_, values_);
        read_after();
        site_.settings = values_.settings();
        return std::move(site_);
    }

private:
    void set(double& to, std::string_view path) const {
        if (values_.has(path))
            to = values_.number(path);
    }

    /// A table named in the site file, which is read next.
    std::filesystem::path beside(const std::string& name) {
        site_.files.push_back(file_.parent_path() / name);
        return site_.files.back();
    }

    void read_borings() {
        const int count = values_.repeated_count("boring");
        if (count == 0)
            values_.faults().add({}, "there is no [[boring]]",
                                 "The command help-site lists the keys of one.");
        for (int n = 1; n <= count; ++n) {
            const std::string prefix = fmt::format("boring[{}].", n);
            solver::Boring boring;
            if (values_.has(prefix + "name")) {
                boring.name = values_.text(prefix + "name");
                require_new(prefix + "name", boring.name);
            }
            set(boring.energy_ratio_pct, "site.energy_ratio_pct");
            set(boring.energy_ratio_pct, prefix + "energy_ratio_pct");
            set(boring.water_depth_m, "site.water_depth_m");
            set(boring.water_depth_m, prefix + "water_depth_m");
            boring.quake_water_depth_m = boring.water_depth_m;
            set(boring.quake_water_depth_m, "site.quake_water_depth_m");
            set(boring.quake_water_depth_m, prefix + "quake_water_depth_m");
            if (values_.has(prefix + "table"))
                boring.samples = read_boring_table(beside(values_.text(prefix + "table")), values_.faults());
            site_.borings.push_back(std::move(boring));
        }
    }

    void require_new(const std::string& path, const std::string& name) const {
        const std::string word = file_word(name);
        const auto same = [&](const solver::Boring& other) { return file_word(other.name) == word; };
        if (word.empty() || word == "mean")
            values_.fault(path, "cannot be part of a file name of its own",
                          "Use letters or digits, as \"B-1\".");
        else if (std::any_of(site_.borings.begin(), site_.borings.end(), same))
            values_.fault(path, "makes the same file name as an earlier boring",
                          "Give every boring a name of its own.");
    }

    void read_earthquake() {
        set(site_.quake.peak_acceleration_g, "earthquake.peak_acceleration_g");
        set(site_.quake.design_coefficient_khg, "earthquake.design_coefficient_khg");
        set(site_.quake.moment_magnitude, "earthquake.moment_magnitude");
        if (values_.has("earthquake.kind"))
            site_.quake.inland = values_.text("earthquake.kind") == "inland";
        if (!values_.given("earthquake.peak_acceleration_g") &&
            !values_.given("earthquake.design_coefficient_khg"))
            values_.missing("earthquake.peak_acceleration_g",
                            "neither it nor design_coefficient_khg is given, so no procedure can judge");
    }

    void read_treatment() {
        solver::TreatmentAims& aims = site_.aims;
        set(aims.diameter_m, "treatment.diameter_m");
        set(site_.casing_diameter_m, "treatment.casing_diameter_m");
        if (values_.has("treatment.diameter_m") && values_.has("treatment.casing_diameter_m"))
            require_fitting_casing(site_, values_);
        set(aims.top_depth_m, "treatment.top_depth_m");
        set(aims.bottom_depth_m, "treatment.bottom_depth_m");
        if (values_.has("treatment.top_depth_m") && values_.has("treatment.bottom_depth_m") &&
            !(aims.bottom_depth_m > aims.top_depth_m))
            values_.fault("treatment.bottom_depth_m",
                          fmt::format("is not below top_depth_m = {:g}", aims.top_depth_m));
        set(aims.largest_replacement_ratio, "treatment.largest_replacement_ratio");
        set(aims.spacing_step_m, "treatment.spacing_step_m");
        set(aims.alpha, "treatment.alpha");
        read_pattern();
        require_treated_sand(site_, values_);
    }

    void read_pattern() {
        if (!values_.has("treatment.pattern"))
            return;
        const std::string& word = values_.text("treatment.pattern");
        auto& shape = site_.aims.shape;
        shape.pattern = word == "triangular"    ? mesh::Pattern::Triangular
                        : word == "rectangular" ? mesh::Pattern::Rectangular
                                                : mesh::Pattern::Square;
        if (shape.pattern != mesh::Pattern::Rectangular)
            values_.no_effect("treatment.row_spacing_ratio", "without pattern = \"rectangular\"");
        else if (!values_.given("treatment.row_spacing_ratio"))
            values_.missing("treatment.row_spacing_ratio", "the rectangular pattern needs it");
        set(shape.row_spacing_ratio, "treatment.row_spacing_ratio");
        const double touching = touching_ratio(shape);
        if (values_.has("treatment.largest_replacement_ratio") &&
            site_.aims.largest_replacement_ratio > touching)
            values_.fault("treatment.largest_replacement_ratio",
                          fmt::format("is above {:.3f}, where the piles of this pattern touch", touching));
        else
            require_apart_in_practice(site_.aims, values_);
    }

    void read_methods() {
        solver::TreatmentAims& aims = site_.aims;
        if (values_.has("treatment.methods")) {
            aims.methods.clear();
            const auto& letters = values_.texts("treatment.methods");
            for (std::size_t i = 0; i < letters.size(); ++i)
                read_method(letters[i], i);
        }
        const bool by_chart = std::count(aims.methods.begin(), aims.methods.end(), DesignMethod::A) > 0;
        if (!by_chart)
            values_.no_effect("treatment.chart", "without method \"A\" in methods");
        else if (!values_.given("treatment.chart"))
            values_.missing("treatment.chart", "method A needs it");
        if (by_chart && values_.has("treatment.chart"))
            aims.chart = read_chart_table(beside(values_.text("treatment.chart")), values_.faults());
        read_spacing_by();
    }

    void read_method(const std::string& letter, std::size_t i) {
        auto& methods = site_.aims.methods;
        const bool known = letter.size() == 1 && letter[0] >= 'A' && letter[0] <= 'D';
        const auto method = known ? static_cast<DesignMethod>(letter[0] - 'A') : DesignMethod::B;
        if (!known)
            values_.faults().add(values_.element_place("treatment.methods", i),
                                 fmt::format("treatment.methods: there is no method \"{}\"", letter),
                                 "Allowed: \"A\", \"B\", \"C\", \"D\".");
        else if (std::count(methods.begin(), methods.end(), method) > 0)
            values_.faults().add(values_.element_place("treatment.methods", i),
                                 fmt::format("treatment.methods: method \"{}\" stands here twice", letter),
                                 "Leave one of them out.");
        else
            methods.push_back(method);
    }

    void read_spacing_by() {
        const auto& methods = site_.aims.methods;
        if (!values_.has("treatment.spacing_by") || methods.empty())
            return;
        const auto wanted = static_cast<DesignMethod>(values_.text("treatment.spacing_by")[0] - 'A');
        const auto found = std::find(methods.begin(), methods.end(), wanted);
        if (found == methods.end() && values_.given("treatment.spacing_by"))
            values_.fault("treatment.spacing_by", "is not among treatment.methods",
                          "Give spacing_by one of the methods.");
        else if (found == methods.end())
            values_.fault("treatment.methods",
                          fmt::format("leaves out method {}, from which the spacing is taken by default",
                                      solver::letter_of(wanted)),
                          "Give treatment.spacing_by one of the methods.");
        else
            site_.spacing_by = static_cast<std::size_t>(found - methods.begin());
    }

    void read_target() {
        const bool by_count = values_.given("target.blow_count"),
                   by_safety = values_.given("target.safety_factor");
        if (by_count && by_safety)
            values_.fault("target.safety_factor", "and blow_count exclude each other", "Keep one of them.");
        else if (!by_count && !by_safety)
            values_.missing("target.blow_count", "neither it nor safety_factor is given");
        if (values_.has("target.blow_count"))
            site_.aims.target_blow_count = values_.number("target.blow_count");
        if (!by_safety)
            values_.no_effect("target.procedure", "without safety_factor");
        else if (!values_.given("target.procedure"))
            values_.missing("target.procedure", "safety_factor needs it");
        if (values_.has("target.safety_factor") && values_.has("target.procedure"))
            read_safety_target();
        read_lateral_stress(by_safety);
    }

    void read_safety_target() {
        const auto procedure = solver::procedure_by_name(values_.text("target.procedure"));
        const std::string lacking = missing_for(procedure, site_.quake);
        if (!lacking.empty() && !values_.any_unsound("earthquake"))
            values_.fault("target.procedure",
                          fmt::format("needs earthquake.{}, which is not given", lacking));
        site_.aims.target_safety = solver::SafetyTarget{values_.number("target.safety_factor"), procedure};
    }

    void read_lateral_stress(bool by_safety) {
        if (!values_.has("target.lateral_stress"))
            return;
        using Effect = solver::LateralStressEffect;
        const std::string& word = values_.text("target.lateral_stress");
        site_.aims.lateral_stress_effect = word == "blow-count"   ? Effect::BlowCount
                                           : word == "resistance" ? Effect::Resistance
                                                                  : Effect::None;
        if (word == "none")
            values_.no_effect("target.lateral_stress_ratio", "with lateral_stress = \"none\"");
        else if (!values_.given("target.lateral_stress_ratio"))
            values_.missing("target.lateral_stress_ratio", "lateral_stress needs it");
        if (word == "resistance" && !by_safety)
            values_.fault("target.lateral_stress", "needs a target safety_factor",
                          "With a target blow_count only \"blow-count\" has a meaning.");
        set(site_.aims.lateral_stress_ratio, "target.lateral_stress_ratio");
    }

    void read_relations() {
        for (const auto& info : solver::quantity_table())
            if (const std::string path = "relations." + info.name; values_.has(path))
                site_.relations[info.quantity] = values_.text(path);
    }

    void read_after() {
        if (!values_.given("after.table")) {
            values_.no_effect("after.replacement_ratio", "without table");
            return;
        }
        if (!values_.has("after.table"))
            return;
        AfterContext context;
        for (const auto& boring : site_.borings)
            context.borings.push_back(boring.name);
        if (values_.given("after.replacement_ratio")) // one that is faulty has been told, not by every row
            context.replacement_ratio =
                values_.has("after.replacement_ratio") ? values_.number("after.replacement_ratio") : 0;
        const auto tests = read_after_table(beside(values_.text("after.table")), context, values_.faults());
        if (!values_.faults().empty())
            return;
        for (const AfterTest& test : tests) {
            const auto boring = std::find(context.borings.begin(), context.borings.end(), test.boring);
            site_.after.push_back({test.place, static_cast<std::size_t>(boring - context.borings.begin()),
                                   test.depth_m, test.blow_count, test.fines_pct, *test.replacement_ratio,
                                   test.simulated_blow_count, test.days_after});
        }
    }

    CaseValues& values_;
    const std::filesystem::path& file_;
    SiteFile site_;
};

} // namespace

std::string file_word(const std::string& name) {
    std::string word;
    for (const unsigned char letter : name)
        if (letter >= 0x80 || std::isalnum(letter) != 0)
            word += static_cast<char>(letter < 0x80 ? std::tolower(letter) : letter);
        else if (!word.empty() && word.back() != '-')
            word += '-';
    while (word.ends_with('-'))
        word.pop_back();
    return word;
}

SiteFile parse_site(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults, site_dictionary());
    SiteFile site = SiteReader(values, file).read();
    faults.throw_if_any();
    return site;
}

SiteFile read_site(const std::filesystem::path& file) {
    return parse_site(read_text_file(file), file);
}

} // namespace interpile::io
