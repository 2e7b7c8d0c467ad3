#include "io/works_file.h"

#include "io/case_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

namespace interpile::io {

namespace {

constexpr double most_rows = 1e6; // of instruction.csv, own choice

/// Fill `target` where the value is sound.
void read_number(const CaseValues& values, std::string_view path, double& target) {
    if (values.has(path))
        target = values.number(path);
}

/// One reader per works file; each function adds its faults and then leaves its part unusable.
class WorksReader {
public:
    WorksReader(CaseValues& values, const std::filesystem::path& file) : values_(values) {
        works_.file = file;
        works_.files = {file};
    }

    WorksFile read() {
        values_.derive("works.title", works_.file.stem().string());
        if (values_.has("works.title"))
            works_.title = values_.text("works.title");
        read_pile();
        std::vector<PlacedPile> piles;
        const auto layout = read_layout(values_, works_.file.parent_path(), piles);
        if (values_.has("layout.positions_file"))
            works_.files.push_back(works_.file.parent_path() / values_.text("layout.positions_file"));
        name_piles(piles);
        const auto order = read_order(values_, piles);
        read_number(values_, "order.rest_h", works_.rest_h);
        read_area(layout);
        read_limits();
        read_as_built();
        read_hours();
        read_neighbors();
        if (values_.faults().empty())
            resolve_order(layout, order);
        values_.faults().throw_if_any();
        works_.settings = values_.settings();
        return works_;
    }

private:
    bool has_all(std::initializer_list<const char*> paths) const {
        for (const char* path : paths)
            if (!values_.has(path))
                return false;
        return true;
    }

    void read_pile() {
        auto& pile = works_.pile;
        read_number(values_, "pile.casing_diameter_m", pile.casing_diameter_m);
        read_number(values_, "pile.diameter_m", pile.pile_diameter_m);
        read_number(values_, "pile.top_depth_m", pile.top_depth_m);
        read_number(values_, "pile.bottom_depth_m", pile.bottom_depth_m);
        read_number(values_, "pile.net_rise_m", pile.net_rise_m);
        read_number(values_, "pile.bulking", pile.bulking);
        const auto before = values_.faults().count();
        if (has_all({"pile.casing_diameter_m", "pile.diameter_m"}) &&
            pile.pile_diameter_m < pile.casing_diameter_m)
            values_.fault("pile.casing_diameter_m",
                          fmt::format("is above diameter_m = {}", pile.pile_diameter_m),
                          "Re-driving widens a pile, it cannot narrow it.");
        const double length_m = pile.bottom_depth_m - pile.top_depth_m;
        if (has_all({"pile.top_depth_m", "pile.bottom_depth_m"}) && length_m <= 0)
            values_.fault("pile.bottom_depth_m",
                          fmt::format("is not below top_depth_m = {}", pile.top_depth_m),
                          "Depths count downward from the surface.");
        else if (has_all({"pile.top_depth_m", "pile.bottom_depth_m", "pile.net_rise_m"}) &&
                 pile.net_rise_m > length_m)
            values_.fault("pile.net_rise_m",
                          fmt::format("is above the length of the pile, {:.6g} m", length_m));
        if (values_.faults().count() > before || values_.any_unsound("pile") ||
            !has_all({"pile.casing_diameter_m", "pile.diameter_m", "pile.top_depth_m", "pile.bottom_depth_m",
                      "pile.net_rise_m"}))
            return;
        try {
            steps_ = solver::stroke_instruction(pile).size();
        } catch (
            const std::invalid_argument& error) { // the numbers are in range, so the casing leaves the ground
            values_.fault("pile.top_depth_m", "does not go with the strokes",
                          std::string(error.what()) + ".");
        }
    }

    void name_piles(const std::vector<PlacedPile>& piles) {
        for (const PlacedPile& pile : piles)
            works_.piles.push_back(
                {pile.name.empty() ? fmt::format("P{}", works_.piles.size() + 1) : pile.name, pile.center_m});
        if (std::any_of(piles.begin(), piles.end(),
                        [](const auto& pile) { return pile.diameter_m.has_value(); }))
            values_.fault("layout.positions_file", "has piles with a diameter_m of their own",
                          "All piles of a works file are equal: take the column out.");
        const double rows = static_cast<double>(steps_) * static_cast<double>(piles.size());
        if (rows > most_rows)
            values_.fault(
                "pile.net_rise_m",
                fmt::format("makes {} strokes of {} piles, {:.3g} rows", steps_, piles.size(), rows),
                fmt::format("At most {:g} are written: split the site.", most_rows));
    }

    void resolve_order(const mesh::LayoutSettings& layout, const mesh::OrderSettings& order) {
        std::vector<mesh::Vec2> centers;
        for (const WorksPile& pile : works_.piles)
            centers.push_back(pile.center_m);
        for (const auto& group : mesh::installation_order(centers, layout, order))
            for (const int pile : group)
                works_.order.push_back(static_cast<std::size_t>(pile));
    }

    void read_area(const mesh::LayoutSettings& layout) {
        const char* path = "layout.area_per_pile_m2";
        if (!values_.has("layout.pattern"))
            return;
        if (values_.text("layout.pattern") != "listed") {
            values_.no_effect(path, "where a pattern gives it");
            if (const auto area = mesh::tributary_area_m2(layout); area && *area > 0)
                values_.derive(path, *area);
        } else if (!values_.given(path) && values_.given("as_built.records")) {
            values_.missing(path, "[as_built] needs it where layout.pattern is \"listed\"");
        }
        if (values_.has(path))
            works_.area_per_pile_m2 = values_.number(path);
    }

    void read_limits() {
        read_number(values_, "limits.position_m", works_.limits.position_m);
        read_number(values_, "limits.verticality", works_.limits.verticality);
        read_number(values_, "limits.length_shortfall_m", works_.limits.length_shortfall_m);
        read_number(values_, "limits.least_volume_ratio", works_.limits.least_volume_ratio);
    }

    void read_as_built() {
        if (!values_.given("as_built.records")) {
            for (const char* path : {"as_built.survey", "as_built.sand_place", "as_built.bulking"})
                if (values_.given(path)) {
                    values_.missing("as_built.records", fmt::format("{} needs it", path));
                    break;
                }
            return;
        }
        values_.derive("as_built.bulking", works_.pile.bulking);
        AsBuiltFiles files;
        const auto folder = works_.file.parent_path();
        if (values_.has("as_built.records"))
            files.records = folder / values_.text("as_built.records");
        if (values_.has("as_built.survey"))
            files.survey = folder / values_.text("as_built.survey");
        if (values_.has("as_built.sand_place") && values_.text("as_built.sand_place") == "along-withdrawal")
            files.sand_place = solver::SandPlace::AlongWithdrawal;
        read_number(values_, "as_built.bulking", files.bulking);
        works_.as_built = files;
    }

    void read_hours() {
        const char* start = "surroundings.work_start_h";
        const char* end = "surroundings.work_end_h";
        if (values_.given(start) != values_.given(end)) {
            values_.missing(values_.given(start) ? end : start, "working hours have a start and an end");
            return;
        }
        if (!has_all({start, end}))
            return;
        works_.working_hours = {values_.number(start), values_.number(end)};
        if (works_.working_hours->end_h <= works_.working_hours->start_h)
            values_.fault(end, fmt::format("is not after work_start_h = {}", works_.working_hours->start_h),
                          "Hours of one day, 0 .. 24.");
    }

    void read_neighbors() {
        NeighborsPlan plan;
        for (const WorksPile& pile : works_.piles)
            plan.piles_m.push_back(pile.center_m);
        plan.pile_diameter_m = works_.pile.pile_diameter_m;
        plan.casing_diameter_m = works_.pile.casing_diameter_m;
        plan.top_depth_m = works_.pile.top_depth_m;
        plan.bottom_depth_m = works_.pile.bottom_depth_m;
        for (int n = 1; n <= values_.repeated_count("place"); ++n)
            read_place(fmt::format("place[{}]", n), n, plan);
        const auto range = [&](const char* path, NumberRange& target) {
            if (values_.has(path))
                target = {values_.numbers(path)[0], values_.numbers(path)[1]};
        };
        range("surroundings.efficiency", plan.efficiency);
        range("surroundings.attenuation_per_m", plan.attenuation_per_m);
        read_number(values_, "surroundings.vibration_limit_dB", plan.vibration_limit_dB);
        read_number(values_, "surroundings.noise_limit_dB", plan.noise_limit_dB);
        read_number(values_, "surroundings.border_distance_m", plan.border_distance_m);
        if (values_.has("surroundings.border_distance_m"))
            works_.neighbors = plan;
    }

    void read_place(const std::string& table, int number, NeighborsPlan& plan) {
        const std::string name = table + ".name", x = table + ".x_m", y = table + ".y_m";
        values_.derive(name, fmt::format("place {}", number));
        if (!values_.has(name) || !values_.has(x) || !values_.has(y))
            return;
        mesh::ObservationPoint place{values_.text(name), {values_.number(x), values_.number(y)}};
        if (place.name.find_first_not_of(' ') == std::string::npos)
            values_.fault(name, "is empty", "Name the place, or leave the key out.");
        else if (!place_names_.insert(place.name).second)
            values_.fault(name, "stands above already", "Every place needs a name of its own.");
        for (const WorksPile& pile : works_.piles)
            if ((place.at_m - pile.center_m).norm() < plan.pile_diameter_m / 2) {
                values_.fault(x, fmt::format("with y_m = {} lies inside pile {}", place.at_m.y(), pile.name),
                              fmt::format("Keep at least {} m from every axis.", plan.pile_diameter_m / 2));
                break;
            }
        plan.points.push_back(std::move(place));
    }

    CaseValues& values_;
    WorksFile works_;
    std::size_t steps_ = 0; ///< of a pile; 0 if it has faults
    std::set<std::string> place_names_;
};

} // namespace

WorksFile parse_works(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults, works_dictionary());
    return WorksReader(values, file).read();
}

WorksFile read_works(const std::filesystem::path& file) {
    return parse_works(read_text_file(file), file);
}

} // namespace interpile::io
