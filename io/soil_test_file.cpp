#include "io/soil_test_file.h"

#include "io/case_parts.h"
#include "io/soil_constants.h"
#include "io/soil_test_parts.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <utility>

namespace interpile::io {

namespace {

using solver::Apparatus;
using solver::LoadingLeg;

constexpr double most_steps = 1e6; // rows of one curve

Apparatus apparatus_of(const std::string& kind) {
    if (kind == "triaxial-constant-p")
        return Apparatus::TriaxialConstantP;
    if (kind == "biaxial")
        return Apparatus::Biaxial;
    if (kind == "simple-shear")
        return Apparatus::SimpleShear;
    if (kind == "torsional-shear")
        return Apparatus::TorsionalShear;
    return kind == "oedometer" ? Apparatus::Oedometer : Apparatus::Triaxial;
}

/// Void ratios of the loosest and the densest state; not numbers where they have faults.
std::pair<double, double> read_range_of_density(const CaseValues& values) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    if (!values.has("ground.e_max") || !values.has("ground.e_min"))
        return {unknown, unknown};
    const double e_max = values.number("ground.e_max"), e_min = values.number("ground.e_min");
    if (e_min < e_max)
        return {e_max, e_min};
    values.fault(values.given("ground.e_min") ? "ground.e_min" : "ground.e_max",
                 "leaves no range of density: e_min is not below e_max");
    return {unknown, unknown};
}

/// One [[test]]; each function adds its faults and then leaves the plan unusable.
class TestReader {
public:
    /// \param soil  empty if its constants have faults
    TestReader(CaseValues& values, int number, const solver::SoilModel* soil)
        : values_(values), prefix_(fmt::format("test[{}].", number)), soil_(soil) {}

    SoilTest read(const std::filesystem::path& folder, int number) {
        values_.derive(path("name"), fmt::format("test {}", number));
        if (has("name"))
            test_.name = values_.text(path("name"));
        read_apparatus();
        read_start();
        read_loading();
        read_limits();
        read_points(folder);
        return test_;
    }

private:
    std::string path(std::string_view key) const { return prefix_ + std::string(key); }
    bool has(std::string_view key) const { return values_.has(path(key)); }
    bool given(std::string_view key) const { return values_.given(path(key)); }
    double number(std::string_view key) const { return values_.number(path(key)); }

    void read_apparatus() {
        if (!has("kind") || !has("drainage"))
            return;
        const std::string kind = values_.text(path("kind"));
        test_.plan.apparatus = apparatus_of(kind);
        test_.plan.drained = values_.text(path("drainage")) == "drained";
        if (!test_.plan.drained && !can_be_undrained(test_.plan.apparatus))
            values_.fault(path("drainage"), fmt::format("does not go with kind \"{}\"", kind),
                          kind == "torsional-shear" ? "Constant volume with shear is kind \"simple-shear\"."
                                                    : "Undrained tests: triaxial, biaxial, simple-shear.");
    }

    void read_start() {
        read_density();
        if (!has("vertical_stress_kPa") || !has("K0"))
            return;
        test_.plan.vertical_stress_kPa = number("vertical_stress_kPa");
        test_.plan.K0 = number("K0");
        if (soil_ == nullptr)
            return;
        const std::string allowed = soil_->refuse_at_rest(test_.plan.vertical_stress_kPa, test_.plan.K0);
        if (!allowed.empty())
            values_.fault(path("K0"), fmt::format("is not admissible for model \"{}\"", soil_->name()),
                          allowed);
    }

    void read_density() {
        if (given("void_ratio") && given("relative_density_pct"))
            values_.fault(path("relative_density_pct"), "and void_ratio exclude each other",
                          "Keep one of them.");
        else if (!given("void_ratio") && !given("relative_density_pct"))
            values_.missing(path("void_ratio"), "neither it nor relative_density_pct is given");
        if (has("void_ratio"))
            test_.plan.void_ratio = number("void_ratio");
        if (has("relative_density_pct") && values_.has("ground.e_max") && values_.has("ground.e_min")) {
            const double e_max = values_.number("ground.e_max"), e_min = values_.number("ground.e_min");
            test_.plan.void_ratio = e_max - number("relative_density_pct") / 100 * (e_max - e_min);
        }
    }

    void read_loading() {
        const std::vector<std::string> ways = {"strain_path_pct", "stress_path_kPa", "strain_amplitude_pct",
                                               "stress_amplitude_kPa"};
        std::string chosen;
        for (const std::string& way : ways) {
            if (!given(way))
                continue;
            if (!chosen.empty())
                values_.fault(path(way), fmt::format("and {} exclude each other", chosen),
                              "Keep one of them.");
            chosen = way;
        }
        if (chosen.empty()) {
            values_.missing(
                path("strain_path_pct"),
                "neither it nor stress_path_kPa, strain_amplitude_pct, stress_amplitude_kPa is given");
            return;
        }
        const bool cyclic = chosen.find("amplitude") != std::string::npos;
        if (!cyclic)
            values_.no_effect(path("cycles"), "without an amplitude");
        else if (!given("cycles"))
            values_.missing(path("cycles"), "the amplitude needs it");
        if (!has(chosen) || (cyclic && !has("cycles")))
            return;
        if (cyclic && test_.plan.apparatus == Apparatus::Oedometer) {
            values_.fault(path(chosen), "does not go with kind \"oedometer\"",
                          "Give its turning points as stress_path_kPa.");
            return;
        }
        test_.cyclic = cyclic;
        const bool strain = chosen.starts_with("strain");
        const auto until = strain ? LoadingLeg::Strain : LoadingLeg::Stress;
        const double factor = strain ? 0.01 : 1;
        if (cyclic)
            for (int n = 0; n < values_.count(path("cycles")); ++n)
                for (const double sign : {1.0, -1.0})
                    test_.plan.legs.push_back({until, sign * factor * number(chosen)});
        else
            for (const double target : values_.numbers(path(chosen)))
                test_.plan.legs.push_back({until, factor * target});
        if (!strain && test_.plan.apparatus == Apparatus::Oedometer)
            for (const LoadingLeg& leg : test_.plan.legs)
                if (leg.target <= 0) {
                    values_.fault(path(chosen), "asks for a vertical stress that is not positive", "");
                    return;
                }
    }

    void read_limits() {
        read_stops();
        double largest = 0, length = 0, at = 0;
        for (const LoadingLeg& leg : test_.plan.legs) {
            if (leg.until != LoadingLeg::Strain)
                continue;
            largest = std::max(largest, std::abs(leg.target));
            length += std::abs(leg.target - at);
            at = leg.target;
        }
        if (!test_.plan.legs.empty())
            values_.derive(path("stop_strain_pct"), largest > 0 ? 100 * largest : 20);
        if (has("stop_strain_pct"))
            test_.plan.stop_strain = number("stop_strain_pct") / 100;
        if (!has("strain_step"))
            return;
        test_.plan.strain_step = number("strain_step");
        if (length / test_.plan.strain_step > most_steps)
            values_.fault(path("strain_step"),
                          fmt::format("makes {:.3g} steps of this path", length / test_.plan.strain_step),
                          fmt::format("At most {:g} are allowed.", most_steps));
    }

    void read_points(const std::filesystem::path& folder) {
        if (!given("measured")) {
            values_.no_effect(path("measured_label"), "without measured");
            return;
        }
        values_.derive(path("measured_label"), "measured");
        if (has("measured_label"))
            test_.measured_label = values_.text(path("measured_label"));
        if (has("measured"))
            test_.measured = read_measured(folder / values_.text(path("measured")), values_.faults());
    }

    /// Conditions that end the test early; one that is met before the first step is a fault.
    void read_stops() {
        if (!given("stress_amplitude_kPa"))
            values_.no_effect(path("stop_double_amplitude_pct"), "without stress_amplitude_kPa");
        if (has("drainage") && test_.plan.drained)
            values_.no_effect(path("stop_excess_pressure_ratio"), "in a drained test");
        if (has("stop_double_amplitude_pct"))
            test_.plan.stop_double_amplitude = number("stop_double_amplitude_pct") / 100;
        if (has("stop_excess_pressure_ratio"))
            test_.plan.stop_excess_pressure_ratio = number("stop_excess_pressure_ratio");
        if (has("stop_stress_ratio"))
            test_.plan.stop_stress_ratio = number("stop_stress_ratio");
        if (has("stop_mean_stress_kPa"))
            test_.plan.stop_mean_stress_kPa = number("stop_mean_stress_kPa");
        if (!has("vertical_stress_kPa") || !has("K0"))
            return;
        const double K0 = test_.plan.K0, mean = (1 + 2 * K0) / 3 * test_.plan.vertical_stress_kPa;
        const double ratio = is_shear(test_.plan.apparatus) ? 0 : std::abs(1 - K0) / ((1 + 2 * K0) / 3);
        if (ratio >= test_.plan.stop_stress_ratio)
            values_.fault(path("stop_stress_ratio"),
                          fmt::format("is met at the start, where q/p' is {:.3g}", ratio));
        if (mean < test_.plan.stop_mean_stress_kPa)
            values_.fault(path("stop_mean_stress_kPa"),
                          fmt::format("is met at the start, where the mean stress is {:.4g} kPa", mean));
    }

    CaseValues& values_;
    std::string prefix_;
    const solver::SoilModel* soil_;
    SoilTest test_;
};

} // namespace

SoilTestFile parse_soil_tests(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults, soil_test_dictionary());
    SoilTestFile result;
    values.derive("case.title", file.stem().string());
    if (values.has("case.title"))
        result.title = values.text("case.title");
    const auto [e_max, e_min] = read_range_of_density(values);
    result.soil = read_soil_constants(values, e_max, e_min);
    const auto soil = make_soil(values, result.soil);
    if (values.repeated_count("test") == 0)
        faults.add({}, "there is no [[test]]", "The command help-soil-test lists the keys of one.");
    for (int n = 1; n <= values.repeated_count("test"); ++n)
        result.tests.push_back(TestReader(values, n, soil.get()).read(file.parent_path(), n));
    faults.throw_if_any();
    return result;
}

SoilTestFile read_soil_tests(const std::filesystem::path& file) {
    return parse_soil_tests(read_text_file(file), file);
}

} // namespace interpile::io
