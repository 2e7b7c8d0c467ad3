// Files of laboratory tests: what a sound one means, and what is said about slips.

#include "io/soil_test_file.h"
#include "io/value_reader.h"
#include "io/vocabulary.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>

using namespace interpile;

namespace {

const std::string head = R"([case]
title = "invented sand"
[ground]
e_max = 0.9
e_min = 0.5
[soil]
model = "mohr-coulomb"
shear_modulus_kPa = 8000
)";

const std::string monotonic = R"([[test]]
kind = "triaxial"
vertical_stress_kPa = 100
relative_density_pct = 25
strain_path_pct = [12, -3]
)";

std::string faults_of(const std::string& text) {
    try {
        io::parse_soil_tests(text, "tests.toml");
    } catch (const io::CaseFaults& faults) {
        return faults.what();
    }
    return {};
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("a sound file of tests becomes plans") {
    const auto file = io::parse_soil_tests(head + monotonic + R"([[test]]
name = "cycles"
kind = "simple-shear"
drainage = "undrained"
vertical_stress_kPa = 80
K0 = 0.6
void_ratio = 0.7
stress_amplitude_kPa = 12
cycles = 2
stop_strain_pct = 5
stop_double_amplitude_pct = 7.5
stop_excess_pressure_ratio = 0.95
stop_stress_ratio = 0.6
)",
                                           "tests.toml");
    CHECK(file.title == "invented sand");
    CHECK(file.soil.name == "mohr-coulomb");
    REQUIRE(file.tests.size() == 2);
    const auto& first = file.tests[0];
    CHECK(first.name == "test 1");
    CHECK(first.plan.void_ratio == Approx(0.8)); // e_max - D_r (e_max - e_min)
    CHECK(first.plan.stop_strain == Approx(0.12));
    REQUIRE(first.plan.legs.size() == 2);
    CHECK(first.plan.legs[1].target == Approx(-0.03));
    const auto& second = file.tests[1].plan;
    CHECK(second.apparatus == solver::Apparatus::SimpleShear);
    CHECK_FALSE(second.drained);
    CHECK(file.tests[1].cyclic);
    CHECK(second.stop_strain == Approx(0.05));
    CHECK(second.stop_double_amplitude == Approx(0.075));
    CHECK(second.stop_excess_pressure_ratio == Approx(0.95));
    CHECK(second.stop_stress_ratio == Approx(0.6));
    CHECK(std::isinf(first.plan.stop_stress_ratio));
    REQUIRE(second.legs.size() == 4);
    CHECK(second.legs[3].until == solver::LoadingLeg::Stress);
    CHECK(second.legs[3].target == Approx(-12));
}

TEST_CASE("slips in a file of tests are told with place and mend") {
    const auto [from, to, expected] = GENERATE(table<std::string, std::string, std::string>({
        {"kind = \"triaxial\"", "kind = \"triaxal\"",
         "tests.toml:10:8: test[1].kind = \"triaxal\" is not one of"},
        {"kind = \"triaxial\"", "kind = \"oedometer\"\ndrainage = \"undrained\"", "does not go with kind"},
        {"kind = \"triaxial\"", "kind = \"torsional-shear\"\ndrainage = \"undrained\"", "\"simple-shear\""},
        {"strain_path_pct = [12, -3]", "", "key \"strain_path_pct\" is missing in [test[1]]"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12, \"3\"]", "a number is needed"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [120]", "is outside -60 .. 60 %"},
        {"strain_path_pct = [12, -3]", "strain_amplitude_pct = 1", "key \"cycles\" is missing"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\ncycles = 3",
         "has no effect without an amplitude"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nstress_path_kPa = [5]", "exclude each other"},
        {"relative_density_pct = 25", "", "key \"void_ratio\" is missing"},
        {"relative_density_pct = 25", "relative_density_pct = 25\nvoid_ratio = 0.7", "exclude each other"},
        {"vertical_stress_kPa = 100", "vertical_stres_kPa = 100", "nearest: \"vertical_stress_kPa\""},
        {"[[test]]", "[test]", "tests are not given as [[test]]"},
        {"e_min = 0.5", "e_min = 0.95", "leaves no range of density"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [50, -50, 50, -50, 50]\nstrain_step = 1e-6",
         "steps of this path"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nstop_double_amplitude_pct = 5",
         "stop_double_amplitude_pct = 5 has no effect without stress_amplitude_kPa"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nstop_excess_pressure_ratio = 0.9",
         "stop_excess_pressure_ratio = 0.9 has no effect in a drained test"},
        {"strain_path_pct = [12, -3]",
         "drainage = \"undrained\"\nstrain_path_pct = [12]\nstop_excess_pressure_ratio = 95",
         "stop_excess_pressure_ratio = 95 is outside 0.01 .. 1"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nstop_stress_ratio = \"0.9\"",
         "a number is needed"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nK0 = 0.5\nstop_stress_ratio = 0.7",
         "stop_stress_ratio = 0.7 is met at the start, where q/p' is 0.75"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nstop_mean_stress_kPa = 101",
         "is met at the start, where the mean stress is 100 kPa"},
        {"strain_path_pct = [12, -3]", "strain_path_pct = [12]\nmeasured_label = \"ours\"",
         "has no effect without measured"},
    }));
    INFO(from << " -> " << to);
    const std::string said = faults_of(replaced(head + monotonic, from, to));
    INFO(said);
    CHECK_THAT(said, Catch::Contains(expected));
}

TEST_CASE("tests take the critical state line of a site from e_max and e_min") {
    const std::string sand = replaced(head, "model = \"mohr-coulomb\"\nshear_modulus_kPa = 8000",
                                      "model = \"two-surface-sand\"\ncritical_line = \"toyoura-density\"");
    const auto file = io::parse_soil_tests(sand + monotonic, "tests.toml");
    CHECK(*parameter_value(file.soil, "critical_line_slope") ==
          Approx(0.019 * 0.4 / 0.38)); // e_max - e_min over its own
    CHECK_THAT(faults_of(sand + "dilatancy_offset = 0.9\n" + monotonic),
               Catch::Contains("has no effect with critical_line"));
    CHECK_THAT(faults_of(replaced(sand, "toyoura-density", "tojoura") + monotonic),
               Catch::Contains("is not one of"));
}

TEST_CASE("a stress at rest outside the strength is refused; no test at all is a fault") {
    // Mohr's circle at 25 deg: K0 >= (1 - sin phi)/(1 + sin phi) = 0.406.
    const std::string weak =
        replaced(head, "shear_modulus_kPa = 8000", "shear_modulus_kPa = 8000\nfriction_angle_deg = 25");
    CHECK_THAT(faults_of(weak + replaced(monotonic, "vertical_stress_kPa = 100",
                                         "vertical_stress_kPa = 100\nK0 = 0.35")),
               Catch::Contains("K0 must lie between 0.406"));
    CHECK_THAT(faults_of(head), Catch::Contains("there is no [[test]]"));
}

TEST_CASE("measured points are read by the heads of the written curves") {
    const auto folder = std::filesystem::temp_directory_path() / "interpile-measured-points";
    std::filesystem::create_directories(folder);
    const auto parse = [&](const std::string& csv) {
        std::ofstream(folder / "points.csv") << csv;
        return io::parse_soil_tests(head + monotonic + "measured = \"points.csv\"\n", folder / "tests.toml");
    };
    const auto points = parse("axial_strain_pct,q_kPa\n0, 0\n1.5,120\n").tests[0].measured;
    REQUIRE(points.size() == 2);
    CHECK(points[1].axial_strain == Approx(0.015));
    CHECK(points[1].q_kPa == 120);
    CHECK(std::isnan(points[1].void_ratio));
    const auto labeled =
        io::parse_soil_tests(head + monotonic + "measured = \"points.csv\"\nmeasured_label = \"invented\"\n",
                             folder / "tests.toml");
    CHECK(labeled.tests[0].measured_label == "invented");
    for (const auto& [csv, said] : std::vector<std::pair<std::string, std::string>>{
             {"axial_strain,q_kPa\n", "points.csv:1:1: \"axial_strain\" is not the head of a column"},
             {"axial_strain_pct,q_kPa\n1\n", "row 2 has 1 values instead of 2"},
             {"axial_strain_pct,q_kPa\n1,1,2\n", "row 2 has 3 values instead of 2"},
             {"axial_strain_pct,q_kPa\n1,x\n",
              "points.csv:2:3: row 2, column q_kPa: \"x\" is not a number"}}) {
        try {
            parse(csv);
            FAIL("nothing was said about " << csv);
        } catch (const io::CaseFaults& faults) {
            CHECK_THAT(faults.what(), Catch::Contains(said));
        }
    }
    std::filesystem::remove_all(folder);
    CHECK_THROWS_AS(
        io::parse_soil_tests(head + monotonic + "measured = \"none.csv\"\n", folder / "tests.toml"),
        io::FileTrouble);
}

TEST_CASE("a curve as CSV has one head per column and its points") {
    solver::LaboratoryPoint point;
    point.axial_strain = 0.0123;
    point.q_kPa = 45;
    const std::string text = io::curve_table({{}, point});
    CHECK(text.substr(0, text.find(',')) == "axial_strain_pct");
    CHECK(std::count(text.begin(), text.end(), '\n') == 3);
    CHECK_THAT(text, Catch::Contains("\n1.23,0,0,"));
}

TEST_CASE("every key of a test is unique, explained, and its default lies in its range") {
    std::set<std::string> seen;
    for (const auto& info : io::soil_test_dictionary().keys) {
        INFO(info.table << "." << info.key);
        CHECK(seen.insert(std::string(info.table) + "." + std::string(info.key)).second);
        CHECK_FALSE(info.meaning.empty());
        CHECK_FALSE(info.source.empty());
        if (info.presence == io::Presence::Default)
            CHECK_NOTHROW(io::default_value(info));
    }
    CHECK_THAT(io::vocabulary_help(io::soil_test_dictionary()), Catch::Contains("strain_path_pct"));
}
