#include "io/critical_state_report.h"
#include "io/program/figure_files.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/soil_test_file.h"
#include "postprocess/figures/element_curves.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace interpile::program {

namespace {

struct Made {
    const io::SoilTest* test;
    solver::LaboratoryResult result;
};

/// "Dense, drained" as number 3 is "3-dense-drained".
std::string file_stem(std::size_t number, const std::string& name) {
    std::string stem = fmt::format("{}-", number);
    for (const unsigned char letter : name)
        if (letter < 0x80 && std::isalnum(letter))
            stem += static_cast<char>(std::tolower(letter));
        else if (stem.back() != '-')
            stem += '-';
    while (stem.back() == '-')
        stem.pop_back();
    return stem;
}

std::string end_in_words(const solver::LaboratoryResult& result, const io::SoilTest& test) {
    const auto& plan = test.plan;
    switch (result.end) {
    case solver::TestEnd::Completed:
        return "complete";
    case solver::TestEnd::StrainLimit:
        return fmt::format("ended at the strain limit of {:.4g} %", 100 * plan.stop_strain);
    case solver::TestEnd::DoubleAmplitude:
        return fmt::format("ended at a double amplitude of {:.4g} %", 100 * plan.stop_double_amplitude);
    case solver::TestEnd::StressRatio:
        return fmt::format("ended at a stress ratio of {:.4g}", plan.stop_stress_ratio);
    case solver::TestEnd::ExcessPressureRatio:
        return fmt::format("ended at an excess pressure ratio of {:.4g}", plan.stop_excess_pressure_ratio);
    case solver::TestEnd::MeanStressLimit:
        return fmt::format("ended below a mean stress of {:.4g} kPa", plan.stop_mean_stress_kPa);
    case solver::TestEnd::CannotGoOn:
        return "STOPPED: the held stresses cannot be met by a further step";
    }
    return {};
}

/// Finished cycles of a cyclic test that ended early; 3.5 where it ended in the second half of the fourth.
std::string cycles_in_words(const solver::LaboratoryResult& result, const io::SoilTest& test) {
    if (!test.cyclic || result.end == solver::TestEnd::Completed)
        return {};
    return fmt::format(" after {:.1f} cycles", 0.5 * static_cast<double>(result.legs_begun - 1));
}

postprocess::ElementPoint drawn(const solver::LaboratoryPoint& p, bool shear) {
    return {100 * (shear ? p.shear_strain : p.axial_strain),
            shear ? p.shear_stress_kPa : p.q_kPa,
            shear ? p.vertical_stress_kPa : p.mean_stress_kPa,
            100 * p.volumetric_strain,
            p.mean_stress_kPa,
            p.void_ratio};
}

std::vector<postprocess::ElementPoint> drawn(const std::vector<solver::LaboratoryPoint>& points, bool shear) {
    std::vector<postprocess::ElementPoint> all;
    for (const auto& point : points)
        all.push_back(drawn(point, shear));
    return all;
}

/// The critical state line over the range of mean stress of the curves.
std::vector<mesh::Vec2> critical_line(const solver::SoilModel& soil,
                                      const postprocess::ElementFigure& figure) {
    double low = 1e300, high = 0;
    for (const auto& curve : figure.curves)
        for (const auto& point : curve.computed) {
            low = std::min(low, point.mean_stress_kPa);
            high = std::max(high, point.mean_stress_kPa);
        }
    std::vector<mesh::Vec2> line;
    constexpr int pieces = 60;
    for (int n = 0; n <= pieces; ++n) {
        const double p =
            std::max(low, 1e-3) / 2 * std::pow(4 * high / std::max(low, 1e-3), double(n) / pieces);
        if (const auto e = soil.void_ratio_at_critical_state(p))
            line.emplace_back(p, *e);
    }
    return line;
}

/// Slopes of the critical state in the q-p' plane, which are those of triaxial tests; extension only where a test goes there.
std::vector<double> critical_stress_ratios(const solver::SoilModel& soil, const std::vector<Made>& tests) {
    bool compression = false, extension = false;
    for (const Made& made : tests) {
        const auto apparatus = made.test->plan.apparatus;
        if (apparatus != solver::Apparatus::Triaxial && apparatus != solver::Apparatus::TriaxialConstantP)
            continue;
        for (const auto& point : made.result.points) {
            compression = compression || point.q_kPa > 0;
            extension = extension || point.q_kPa < 0;
        }
    }
    std::vector<double> ratios;
    if (const auto ratio = soil.critical_stress_ratio(false); ratio && compression)
        ratios.push_back(*ratio);
    if (const auto ratio = soil.critical_stress_ratio(true); ratio && extension)
        ratios.push_back(-*ratio);
    return ratios;
}

/// The tests with axial loading, or those with shear.
postprocess::ElementFigure figure_of(const std::vector<Made>& tests, bool shear,
                                     const solver::SoilModel& soil, const std::string& title) {
    postprocess::ElementFigure figure;
    figure.title = title;
    figure.shear = shear;
    figure.constant_volume = true;
    for (const Made& made : tests) {
        if (is_shear(made.test->plan.apparatus) != shear)
            continue;
        figure.constant_volume = figure.constant_volume && !made.test->plan.drained;
        figure.curves.push_back({made.test->name, drawn(made.result.points, shear),
                                 drawn(made.test->measured, shear), made.test->measured_label});
    }
    figure.subtitle = fmt::format("Soil model {}: {} of one element", soil.name(),
                                  shear ? "shear tests" : "tests with axial loading");
    const bool points = std::any_of(figure.curves.begin(), figure.curves.end(),
                                    [](const auto& curve) { return !curve.measured.empty(); });
    figure.source = fmt::format("interpile " INTERPILE_VERSION ", {}",
                                points ? "lines: computed curves of a soil model; circles: as named above"
                                       : "computed curves of a soil model, not measurements");
    figure.critical_line = critical_line(soil, figure);
    if (!shear)
        figure.critical_stress_ratios = critical_stress_ratios(soil, tests);
    return figure;
}

void print_critical_state(const solver::SoilModelChoice& soil, const Answer& answer) {
    if (const std::string line = io::critical_line_text(soil); !line.empty())
        answer.say("critical state line: {}\n", line);
    for (const double p : {10.0, 100.0, 1000.0})
        if (const std::string state = io::critical_state_text(soil, p); !state.empty())
            answer.say("critical state at p' {:4g} kPa: {}\n", p, state);
    if (const std::string remark = io::critical_line_remark(soil, 100); !remark.empty())
        answer.say("{}\n", remark);
}

} // namespace

io::ExitCode soil_test(const SoilTestOptions& options, Answer& answer) {
    const io::SoilTestFile file = io::read_soil_tests(options.file);
    const auto soil = solver::make_soil_model(file.soil);
    const fs::path folder = folder_for(options.folder, options.file, "_curves");
    print_critical_state(file.soil, answer);
    std::vector<Made> tests;
    std::vector<fs::path> files;
    bool all_went_on = true;
    for (const io::SoilTest& test : file.tests) {
        tests.push_back({&test, run_laboratory_test(*soil, test.plan)});
        const auto& result = tests.back().result;
        all_went_on = all_went_on && result.end != solver::TestEnd::CannotGoOn;
        const std::string end = end_in_words(result, test) + cycles_in_words(result, test);
        answer.say("{}: {}, {} points\n", test.name, end, result.points.size());
        answer.row("tests",
                   {{"name", test.name}, {"end", end}, {"points", static_cast<long>(result.points.size())}});
        files.push_back(write_text(folder / (file_stem(tests.size(), test.name) + ".csv"),
                                   io::curve_table(result.points)));
    }
    for (const bool shear : {false, true}) {
        const auto figure = figure_of(tests, shear, *soil, file.title);
        if (figure.curves.empty())
            continue;
        save_in_all_formats(postprocess::element_curves(figure), folder / (shear ? "shear" : "axial"), files);
    }
    answer.files(files);
    return all_went_on ? io::Done : io::NotConverged;
}

} // namespace interpile::program
