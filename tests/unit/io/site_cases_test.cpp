// Cases written from a design are sound cases, and say what the design says.

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "io/site_cases.h"
#include "tests/support/designed_site.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

std::vector<io::NamedTable> cases_of(const DesignedSite& made) {
    return io::site_cases(made.site, made.designs);
}

/// \throws io::CaseFaults  the case is not sound
io::Case parsed(const io::NamedTable& written) {
    INFO(written.text);
    return io::parse_case(written.text, written.file);
}

std::vector<std::string> files_of(const std::vector<io::NamedTable>& cases) {
    std::vector<std::string> files;
    for (const auto& one : cases)
        files.push_back(one.file);
    return files;
}

/// Every written case is sound; a fault fails with the text and the message.
void require_sound(const DesignedSite& made) {
    const auto cases = cases_of(made);
    CHECK_FALSE(cases.empty());
    for (const auto& written : cases) {
        INFO(written.text);
        CHECK_NOTHROW(io::parse_case(written.text, written.file));
    }
}

/// The digits a case is written with.
Approx five(double value) {
    return Approx(value).epsilon(1e-4);
}

const std::string square = "pattern = \"square\"";

} // namespace

TEST_CASE("a written case has the ground, the piles and the spacing of the design", "[site]") {
    for (const std::string& pattern : {square, std::string("pattern = \"triangular\""),
                                       std::string("pattern = \"rectangular\"\nrow_spacing_ratio = 0.8")}) {
        const auto made = designed(site_with({{square, pattern}}));
        const bool triangular = pattern.find("triangular") != std::string::npos;
        for (std::size_t m = 0; m < 3; ++m) {
            const auto worst = io::borings_for_cases(made.site, made.designs, m);
            REQUIRE(worst.size() == 1);
            const auto& design = *worst[0];
            const auto& method = design.methods[m];
            const std::size_t i = *method.governing;
            const std::string stem =
                "case-" + io::file_word(design.boring.name) + "-" + solver::letter_of(method.method);
            int found = 0;
            for (const auto& written : cases_of(made)) {
                if (!written.file.starts_with(stem))
                    continue;
                ++found;
                const auto run = parsed(written);
                const bool group = written.file == stem + "-group.toml";
                CHECK((group || written.file == stem + "-cell.toml"));
                CHECK(run.slice.depth_m == five(design.boring.samples[i].depth_m));
                CHECK(run.slice.vertical_stress_kPa == five(design.at_boring[i].effective_kPa));
                CHECK(run.slice.K0 ==
                      five(chosen(design.states[i], solver::Quantity::LateralStressRatio).value));
                CHECK(run.slice.e_max ==
                      five(chosen(design.states[i], solver::Quantity::LargestVoidRatio).value));
                CHECK(run.slice.e_min ==
                      five(chosen(design.states[i], solver::Quantity::SmallestVoidRatio).value));
                CHECK(run.slice.void_ratio ==
                      five(chosen(design.states[i], solver::Quantity::VoidRatio).value));
                CHECK(run.layout.spacing_m == five(method.practical_spacing_m));
                CHECK(run.layout.cell.has_value() == !group);
                if (pattern.find("rectangular") != std::string::npos)
                    CHECK(run.layout.row_spacing_m == five(0.8 * method.practical_spacing_m));
                CHECK(run.plan.piles.front().diameter_m == five(0.7));
                CHECK(run.plan.strokes.casing_diameter_m == five(0.4));
                CHECK(run.plan.strokes.strokes > 0);
                CHECK(run.target_relative_density_pct.value() ==
                      five(design.needs[i].methods[m].result.relative_density_after_pct));
                CHECK_THAT(run.title, Contains("two borings") && Contains(design.boring.name));
                if (group)
                    CHECK(run.plan.piles.size() == 9);
            }
            CHECK(found == (triangular ? 1 : 2));
        }
    }
}

// The volume balance of a stroke, derived: w/net rise = (d/D)^2, here (0.7/0.4)^2 = 3.06 at a net rise of 0.2 m.
TEST_CASE("the strokes of a written case make the pile", "[site]") {
    const auto written = cases_of(designed(sound_site)).front();
    const auto value = [&](const std::string& key) {
        const auto at = written.text.find("\n" + key + " ");
        REQUIRE(at != std::string::npos);
        return std::stod(written.text.substr(written.text.find('=', at) + 1));
    };
    CHECK(value("withdrawal_m") - value("redrive_m") == Approx(0.2));
    CHECK(value("withdrawal_m") / 0.2 == Approx(0.49 / 0.16).margin(0.03).epsilon(0)); // rounded to 1 cm
    require_sound(designed(site_with({{"casing_diameter_m = 0.4", "casing_diameter_m = 0.7"}})));
}

TEST_CASE("written cases are sound over the range of the keys", "[site]") {
    const std::string piles = "diameter_m = 0.7\ncasing_diameter_m = 0.4";
    for (const char* sizes :
         {"diameter_m = 0.2\ncasing_diameter_m = 0.1", "diameter_m = 0.5\ncasing_diameter_m = 0.4999",
          "diameter_m = 1\ncasing_diameter_m = 0.2", "diameter_m = 1.5\ncasing_diameter_m = 1.2"})
        for (const char* pattern : {"pattern = \"square\"", "pattern = \"triangular\"",
                                    "pattern = \"rectangular\"\nrow_spacing_ratio = 0.6",
                                    "pattern = \"rectangular\"\nrow_spacing_ratio = 2.2"})
            for (const char* water : {"water_depth_m = 1.5 ", "water_depth_m = -3 "}) {
                INFO(sizes << '\n' << pattern << '\n' << water);
                require_sound(designed(
                    site_with({{piles, sizes}, {square, pattern}, {"water_depth_m = 1.5 ", water}})));
            }
}

TEST_CASE("no title or name breaks a written case", "[site]") {
    const auto made = [] {
        auto site = designed(site_with({{"\"two borings\"", R"("a \"quoted\" \\ title # = [x]")"},
                                        {"\"B-1\"", "'B \"1\" \\ #'"},
                                        {"\"B-2\"", "'C \"2\" \\ #'"}}));
        site.site.title += "\nsecond line\t\x1f"; // beyond what a site file lets pass
        return site;
    }();
    for (const auto& written : cases_of(made)) {
        const auto run = parsed(written);
        CHECK_THAT(run.title,
                   Contains(R"(a "quoted" \ title # = [x] second line)") && Contains("\"2\" \\ #"));
    }
}

TEST_CASE("every value of a written case has its comment", "[site]") {
    for (const auto& written : cases_of(designed(sound_site))) {
        std::istringstream lines(written.text);
        int values = 0;
        for (std::string line; std::getline(lines, line);) {
            if (line.empty() || line.starts_with('#') || line.starts_with('['))
                continue;
            INFO(line);
            const auto comment = line.rfind(" # ");
            REQUIRE(comment != std::string::npos);
            CHECK(line.size() > comment + 5);
            CHECK(line.find('=') < comment);
            ++values;
        }
        CHECK(values > 20);
    }
}

TEST_CASE("cases are made for the worst, each, or the mean boring", "[site]") {
    const auto with = [](const std::string& word) {
        return designed(site_with(
            {{"title", "design_by = \"" + word + "\"\ntitle"}, {"[\"B\", \"C\", \"D\"]", "[\"C\"]"}}));
    };
    const auto each = with("each");
    CHECK(files_of(cases_of(each)) ==
          std::vector<std::string>{"case-b-1-C-cell.toml", "case-b-1-C-group.toml", "case-b-2-C-cell.toml",
                                   "case-b-2-C-group.toml"});
    const double one = each.designs[0].methods[0].replacement_ratio,
                 two = each.designs[1].methods[0].replacement_ratio;
    REQUIRE(one != two);
    const std::string worst = one > two ? "case-b-1-C-" : "case-b-2-C-";
    CHECK(files_of(cases_of(with("worst"))) ==
          std::vector<std::string>{worst + "cell.toml", worst + "group.toml"});
    CHECK(files_of(cases_of(with("mean"))) ==
          std::vector<std::string>{"case-mean-C-cell.toml", "case-mean-C-group.toml"});
}

TEST_CASE("no case where nothing is asked for or the target is out of reach", "[site]") {
    const std::string target = "safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"";
    CHECK(cases_of(designed(site_with({{target, "blow_count = 2"}}))).empty());
    CHECK(cases_of(designed(site_with({{target, "blow_count = 60"}}))).empty());
    auto far = designed(sound_site);
    far.site.aims.methods = {solver::DesignMethod::B};
    for (auto& design : far.designs)
        design.methods[0].practical_spacing_m = 20.05;
    CHECK(cases_of(far).empty()); // a case holds piles to 20 m apart
}

TEST_CASE("a state beyond the range of a case is held and says so", "[site]") {
    auto made = designed(sound_site);
    for (auto& design : made.designs)
        for (auto& state : design.states)
            if (!state.empty())
                state[static_cast<std::size_t>(solver::Quantity::RelativeDensity)].chosen.value = 104;
    for (const auto& written : cases_of(made)) {
        CHECK(parsed(written).slice.void_ratio == Approx(parsed(written).slice.e_min));
        CHECK_THAT(written.text, Contains("; held, the estimate is 104"));
    }
    for (auto& design : made.designs) // a measured K0 below what the sand model can stand
        for (auto& state : design.states)
            if (!state.empty())
                state[static_cast<std::size_t>(solver::Quantity::LateralStressRatio)].chosen.value = 0.25;
    require_sound(made);
}
