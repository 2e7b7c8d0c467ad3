// Site files: what a sound one means, and what is said about slips.

#include "io/site_file.h"
#include "tests/support/case_text.h"
#include "tests/support/site_text.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

/// What is said of a text beside the sound tables; "nothing" if it is sound.
std::string told(const SiteFolder& site, const std::string& text) {
    try {
        io::parse_site(text, site.file());
    } catch (const io::CaseFaults& faults) {
        return faults.what();
    }
    return "nothing";
}

struct Slip {
    const char *from, *to; ///< change of the sound text
    const char* told;      ///< "LINE:COLUMN: MESSAGE", or a part of it
};

/// Line and column of each message are counted by hand in sound_site as changed.
const Slip slips[] = {
    {"water_depth_m = 1.5        # below ground\nquake", "quake",
     "site.toml:2:1: key \"water_depth_m\" is missing in [site]"},
    {"water_depth_m = 1.5 ", "water_depth_m = 150 ",
     "4:17: site.water_depth_m = 150 is outside -50 .. 100 m"},
    {"title", "titel", "3:1: unknown key \"titel\" in [site]; nearest: \"title\""},
    {"safety_factor = 1.0\n", "safety_factor = 1.0\nblow_count = 15\n",
     "33:17: target.safety_factor = 1.0 and blow_count exclude each other"},
    {"safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"\n", "",
     "32:1: key \"blow_count\" is missing in [target]: neither it nor safety_factor is given"},
    {"procedure = \"boulanger-idriss-2014\"\n", "",
     "32:1: key \"procedure\" is missing in [target]: safety_factor needs it"},
    {"safety_factor = 1.0", "blow_count = 15",
     "34:13: target.procedure = \"boulanger-idriss-2014\" has no effect without safety_factor"},
    {"design_coefficient_khg = 0.18\n\n[treatment]", "\n[treatment]", "nothing"},
    {"boulanger-idriss-2014", "highway-bridge-2020", "highway-bridge-2017"},
    {"peak_acceleration_g = 0.2\n", "",
     "33:13: target.procedure = \"boulanger-idriss-2014\" needs earthquake.peak_acceleration_g, which is not "
     "given"},
    {"peak_acceleration_g = 0.2\nmoment_magnitude = 7.0\ndesign_coefficient_khg = 0.18\n", "",
     "neither it nor design_coefficient_khg is given, so no procedure can judge"},
    {"[\"B\", \"C\", \"D\"]", "[\"B\", \"C\", \"E\"]", "29:22: treatment.methods: there is no method \"E\""},
    {"[\"B\", \"C\", \"D\"]", "[\"B\", \"C\", \"BC\"]", "there is no method \"BC\""},
    {"[\"B\", \"C\", \"D\"]", "[\"B\", \"C\", \"B\"]",
     "29:22: treatment.methods: method \"B\" stands here twice"},
    {"[\"B\", \"C\", \"D\"]", "[]", "29:11: treatment.methods = [] is not a list of texts"},
    {"[\"B\", \"C\", \"D\"]", "[\"B\", \"D\"]",
     "30:14: treatment.spacing_by = \"C\" is not among treatment.methods"},
    {"[\"B\", \"C\", \"D\"]\nspacing_by = \"C\"", "[\"B\", \"D\"]",
     "29:11: treatment.methods = [\"B\", \"D\"] leaves out method C, from which the spacing is taken by "
     "default"},
    {"[\"B\", \"C\", \"D\"]", "[\"A\", \"C\"]",
     "23:1: key \"chart\" is missing in [treatment]: method A needs it"},
    {"spacing_by = \"C\"", "chart = \"chart.csv\"",
     "30:9: treatment.chart = \"chart.csv\" has no effect without method"},
    {"pattern = \"square\"", "pattern = \"rectangular\"",
     "23:1: key \"row_spacing_ratio\" is missing in [treatment]: the rectangular pattern needs it"},
    {"pattern = \"square\"", "pattern = \"square\"\nrow_spacing_ratio = 1.2",
     "29:21: treatment.row_spacing_ratio = 1.2 has no effect without pattern = \"rectangular\""},
    {"bottom_depth_m = 6.5", "bottom_depth_m = 0.9",
     "27:18: treatment.bottom_depth_m = 0.9 is not below top_depth_m = 1"},
    {"\ndiameter_m = 0.7", "\ndiameter_m = 0.35",
     "25:21: treatment.casing_diameter_m = 0.4 leaves a casing of 0.4 m wider than the pile of 0.35 m"},
    {"casing_diameter_m = 0.4", "casing_diameter_m = 0.13",
     "25:21: treatment.casing_diameter_m = 0.13 leaves a casing of 0.13 m for a pile of 0.7 m, more than 5 "
     "times"},
    {"casing_diameter_m = 0.4", "casing_diameter_m = 0.14", "nothing"},
    {"diameter_m = 0.7\ncasing_diameter_m = 0.4", "diameter_m = 0.3",
     "24:14: treatment.diameter_m = 0.3 leaves a casing of 0.4 m wider than the pile of 0.3 m"},
    // piles touch: pi/4 (d/s)^2 of s = d over the area of the cell; rectangular 0.4: s = d/0.4, area 0.4 s^2
    {"pattern = \"square\"",
     "pattern = \"rectangular\"\nrow_spacing_ratio = 0.4\nlargest_replacement_ratio = 0.32",
     "30:29: treatment.largest_replacement_ratio = 0.32 is above 0.314, where the piles of this pattern "
     "touch"},
    {"pattern = \"square\"",
     "pattern = \"rectangular\"\nrow_spacing_ratio = 0.4\nlargest_replacement_ratio = 0.31", "nothing"},
    {"pattern = \"square\"", "pattern = \"rectangular\"\nrow_spacing_ratio = 3",
     "23:1: treatment.largest_replacement_ratio = 0.3 (default) is above 0.262"},
    {"pattern = \"square\"", "pattern = \"square\"\nlargest_replacement_ratio = 0.6\nspacing_step_m = 0.5",
     "30:18: treatment.spacing_step_m = 0.5 may round the spacing down to 0.5 m, where the piles overlap"},
    {"top_depth_m = 1.0\nbottom_depth_m = 6.5", "top_depth_m = 6.2\nbottom_depth_m = 7.5",
     "14:9: boring[2].table = \"b2.csv\" has no sand between 6.2 and 7.5 m, the depths to be treated"},
    {"\"B-2\"", "\"b 1\"", "13:8: boring[2].name = \"b 1\" makes the same file name as an earlier boring"},
    {"\"B-2\"", "\"B-1\"", "13:8: boring[2].name = \"B-1\" makes the same file name as an earlier boring"},
    {"\"B-2\"", "\"//\"", "13:8: boring[2].name = \"//\" cannot be part of a file name of its own"},
    {"\"B-2\"", "\"Mean\"", "cannot be part of a file name of its own"},
    {"meyerhof-1957", "meyerhof-1975", "37:24: relations.relative_density_pct = \"meyerhof-1975\""},
    {"[relations]", "[relations]\nvoid_ratio = \"definition\"", "37:1: unknown key \"void_ratio\""},
    {"[target]", "[target]\nlateral_stress = \"blow-count\"",
     "32:1: key \"lateral_stress_ratio\" is missing in [target]: lateral_stress needs it"},
    {"[target]", "[target]\nlateral_stress_ratio = 1",
     "33:24: target.lateral_stress_ratio = 1 has no effect with lateral_stress = \"none\""},
    {"safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"",
     "blow_count = 15\nlateral_stress = \"resistance\"\nlateral_stress_ratio = 1",
     "34:18: target.lateral_stress = \"resistance\" needs a target safety_factor"},
};

} // namespace

TEST_CASE("a sound site file is read with its tables", "[site]") {
    const SiteFolder folder;
    const auto site = io::parse_site(sound_site, folder.file());
    CHECK(site.title == "two borings");
    CHECK(site.design_by == io::DesignBy::Worst);
    REQUIRE(site.borings.size() == 2);
    CHECK(site.borings[0].name == "B-1");
    CHECK(site.borings[0].water_depth_m == 1.5);
    CHECK(site.borings[0].energy_ratio_pct == 72);
    CHECK(site.borings[1].water_depth_m == 2);
    CHECK(site.borings[1].quake_water_depth_m == 1); // that of the site
    CHECK(site.borings[1].energy_ratio_pct == 60);
    REQUIRE(site.borings[0].samples.size() == 6);
    CHECK_FALSE(site.borings[0].samples[3].sand);
    CHECK(site.quake.peak_acceleration_g == 0.2);
    CHECK(site.quake.moment_magnitude == 7);
    CHECK(site.quake.design_coefficient_khg == 0.18);
    CHECK_FALSE(site.quake.inland);
    CHECK(site.aims.diameter_m == 0.7);
    CHECK(site.casing_diameter_m == 0.4);
    CHECK(site.aims.top_depth_m == 1);
    CHECK(site.aims.bottom_depth_m == 6.5);
    CHECK(site.aims.largest_replacement_ratio == 0.30);
    CHECK(site.aims.spacing_step_m == 0.05);
    CHECK(site.aims.methods.size() == 3);
    CHECK(site.spacing_by == 1);
    REQUIRE(site.aims.target_safety);
    CHECK(site.aims.target_safety->safety_factor == 1);
    CHECK(site.aims.target_safety->procedure == solver::Procedure::BoulangerIdriss2014);
    CHECK_FALSE(site.aims.target_blow_count);
    CHECK(site.aims.lateral_stress_effect == solver::LateralStressEffect::None);
    CHECK(site.relations.at(solver::Quantity::RelativeDensity) == "meyerhof-1957");
}

TEST_CASE("defaults and choices of a site file", "[site]") {
    const SiteFolder folder;
    std::string text = changed(sound_site, "title = \"two borings\"\n", "design_by = \"each\"\n");
    text = changed(text, "quake_water_depth_m = 1.0\nenergy_ratio_pct = 72\n", "");
    text = changed(text, "[\"B\", \"C\", \"D\"]\nspacing_by = \"C\"",
                   "[\"D\", \"A\"]\nspacing_by = \"A\"\nchart = \"chart.csv\"");
    text = changed(text, "pattern = \"square\"", "pattern = \"rectangular\"\nrow_spacing_ratio = 1.2");
    text = changed(text, "safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"",
                   "blow_count = 15\nlateral_stress = \"blow-count\"\nlateral_stress_ratio = 0.9");
    text = changed(text, "moment_magnitude = 7.0", "kind = \"inland\"");
    const auto site = io::parse_site(text, folder.file());
    CHECK(site.title == "site"); // name of the file
    CHECK(site.design_by == io::DesignBy::Each);
    CHECK(site.borings[0].energy_ratio_pct == 78);
    CHECK(site.borings[0].quake_water_depth_m == 1.5); // no other known
    CHECK(site.borings[1].quake_water_depth_m == 2);
    CHECK(site.spacing_by == 1);
    REQUIRE(site.aims.chart);
    CHECK(site.aims.chart->blow_count_after(0, 0.2).value() == 22);
    CHECK(site.aims.shape.pattern == mesh::Pattern::Rectangular);
    CHECK(site.aims.shape.row_spacing_ratio == 1.2);
    CHECK(site.aims.target_blow_count.value() == 15);
    CHECK_FALSE(site.aims.target_safety);
    CHECK(site.aims.lateral_stress_effect == solver::LateralStressEffect::BlowCount);
    CHECK(site.aims.lateral_stress_ratio == 0.9);
    CHECK(site.quake.moment_magnitude == 7.5);
    CHECK(site.quake.inland);
}

TEST_CASE("every slip in a site file is told with its place", "[site]") {
    const SiteFolder folder;
    for (const Slip& slip : slips) {
        const std::string message = told(folder, changed(sound_site, slip.from, slip.to));
        INFO(slip.from << "\n  became\n" << slip.to << "\n  and was told\n" << message);
        CHECK_THAT(message, Contains(slip.told));
        CHECK((message == "nothing" ||
               message.find("1 fault in") != std::string::npos || // one slip, one message
               slip.told ==
                   std::string("neither it nor design_coefficient_khg is given, so no procedure can judge")));
    }
}

TEST_CASE("a highway-bridge target needs its coefficient", "[site]") {
    const SiteFolder folder;
    const std::string text = changed(changed(sound_site, "boulanger-idriss-2014", "highway-bridge-2012"),
                                     "design_coefficient_khg = 0.18\n", "");
    CHECK_THAT(told(folder, text), Contains("33:13: target.procedure = \"highway-bridge-2012\" needs "
                                            "earthquake.design_coefficient_khg, which is not given"));
}

TEST_CASE("a site without borings", "[site]") {
    const SiteFolder folder;
    const auto from = sound_site.find("[[boring]]"), to = sound_site.find("[earthquake]");
    CHECK_THAT(told(folder, sound_site.substr(0, from) + sound_site.substr(to)),
               Contains("there is no [[boring]]"));
}

TEST_CASE("a table that is not there is file trouble", "[site]") {
    const SiteFolder folder;
    CHECK_THROWS_AS(io::parse_site(changed(sound_site, "b2.csv", "b3.csv"), folder.file()), io::FileTrouble);
    CHECK_THROWS_AS(io::read_site(folder.file()), io::FileTrouble);
    folder.folder.write("site.toml", sound_site);
    CHECK(io::read_site(folder.file()).borings.size() == 2);
}

TEST_CASE("faults of the site file and of its tables are told at once", "[site]") {
    const SiteFolder folder;
    folder.folder.write("b1.csv", changed(sound_boring_one, "2.3,5,", "2.3,-5,"));
    folder.folder.write("b2.csv", changed(sound_boring_two, "3,6,14", "1,6,14"));
    const std::string message = told(folder, changed(sound_site, "diameter_m = 0.7", "diameter_m = 7"));
    CHECK_THAT(message, Contains("b1.csv:3:5:") &&
                            Contains("b2.csv:3:1: row 3, column depth_m: 1 is not below 1.5") &&
                            Contains("site.toml:24:14: treatment.diameter_m = 7 is outside 0.2 .. 3 m") &&
                            Contains("3 faults in 3 files; nothing was computed"));
}

TEST_CASE("one measured limit of the void ratio must agree with the other from fines", "[site]") {
    const SiteFolder folder;
    const auto with = [&](const char* head, const char* value) {
        std::string text = changed(sound_boring_two, "_m3\n", std::string("_m3,") + head + "\n");
        text = changed(text, "3,6,14,18.5", std::string("3,6,14,18.5,") + value);
        for (const char* row : {"1.5,7,9,18\n", "4.5,8,10,18.5\n", "6,10,7,19\n"})
            text = changed(text, row, std::string(row).replace(std::string(row).size() - 1, 1, ",\n"));
        folder.folder.write("b2.csv", text);
        return told(folder, sound_site);
    };
    // Hirama (1981), from memory: e_min = 0.6 + 0.008 x 14.
    CHECK_THAT(with("e_max", "0.7"),
               Contains("14:9: boring[2].table = \"b2.csv\" has at 3 m e_max = 0.7 and e_min = "
                        "0.712, of which only e_max is measured"));
    CHECK_THAT(with("e_max", "0.761"), Contains("not below e_max by at least 0.05"));
    CHECK(with("e_max", "0.763") == "nothing");
    CHECK_THAT(with("e_min", "1.3"), Contains("of which only e_min is measured"));
}

TEST_CASE("limits of the void ratio measured in different borings may not fit in their mean", "[site]") {
    const SiteFolder folder;
    const std::string head = "depth_m,blow_count,fines_pct,unit_weight_kN_m3,e_max,e_min\n";
    folder.folder.write("b1.csv", head + "2,5,0,18,0.8,\n");
    folder.folder.write("b2.csv", head + "2,5,0,18,,0.78\n");
    CHECK(told(folder, sound_site) == "nothing"); // with 0.6 and 1.0 by Hirama (1981), from memory
    CHECK_THAT(
        told(folder, changed(sound_site, "title", "design_by = \"mean\"\ntitle")),
        Contains(
            "3:13: site.design_by = \"mean\" has at 2 m e_max = 0.8 and e_min = 0.78, of which both are"));
}

TEST_CASE("a mean boring without sand in the treated depth is told", "[site]") {
    const SiteFolder folder;
    const std::string head = "depth_m,blow_count,fines_pct,unit_weight_kN_m3\n";
    folder.folder.write("b1.csv", head + "2,5,5,18\n3,5,80,18\n4,5,80,18\n");
    folder.folder.write("b2.csv", head + "2,5,80,18\n3,5,80,18\n4,5,5,18\n");
    CHECK(told(folder, sound_site) == "nothing");
    const auto by_mean = changed(sound_site, "title", "design_by = \"mean\"\ntitle");
    CHECK_THAT(
        told(folder, by_mean),
        Contains("3:13: site.design_by = \"mean\" is of a mean boring that has no sand between 1 and 6.5 m"));
}

TEST_CASE("tests after treatment belong to a boring and have a replacement ratio", "[site]") {
    const SiteFolder folder;
    folder.folder.write("after.csv", "place,depth_m,blow_count,boring,replacement_ratio,fines_pct\n"
                                     "B-2,3,14,,,\nA-1,2.3,12,B-1,0.12,7\n");
    const auto site = io::parse_site(sound_site + "[after]\ntable = \"after.csv\"\nreplacement_ratio = 0.1\n",
                                     folder.file());
    REQUIRE(site.after.size() == 2);
    CHECK(site.after[0].place == "B-2"); // a place with the name of a boring lies beside it
    CHECK(site.after[0].boring == 1);
    CHECK(site.after[0].replacement_ratio == 0.1);
    CHECK_FALSE(site.after[0].fines_pct);
    CHECK(site.after[1].boring == 0);
    CHECK(site.after[1].depth_m == 2.3);
    CHECK(site.after[1].blow_count == 12);
    CHECK(site.after[1].replacement_ratio == 0.12);
    CHECK(site.after[1].fines_pct == 7.0);
    CHECK(io::parse_site(sound_site, folder.file()).after.empty());
}

TEST_CASE("the only boring of a site is that of every test after treatment", "[site]") {
    const SiteFolder folder;
    const auto from = sound_site.find("[[boring]]\nname = \"B-2\""), to = sound_site.find("[earthquake]");
    folder.folder.write("after.csv", "place,depth_m,blow_count\nA-1,3,14\n");
    const auto site = io::parse_site(sound_site.substr(0, from) + sound_site.substr(to) +
                                         "[after]\ntable = \"after.csv\"\nreplacement_ratio = 0.1\n",
                                     folder.file());
    REQUIRE(site.after.size() == 1);
    CHECK(site.after[0].boring == 0);
}

TEST_CASE("a slip in the tests after treatment is told with its place, once", "[site]") {
    const SiteFolder folder;
    const auto told_of = [&](const std::string& rows, const std::string& after,
                             const std::string& text = sound_site) {
        folder.folder.write("after.csv", "place,depth_m,blow_count,boring,replacement_ratio\n" + rows);
        return told(folder, text + "[after]\n" + after);
    };
    const std::string table = "table = \"after.csv\"\n", ratio = "replacement_ratio = 0.1\n";
    const std::string rows = "B-1,2.3,12,,\nB-1,3.3,13,,\n";
    CHECK(told_of(rows, table + ratio) == "nothing");
    CHECK_THAT(told_of("A-1,2.3,12,B-3,0.1\n", table),
               Contains("after.csv:2:12: row 2, column boring: there is no boring B-3") &&
                   Contains("The site has: B-1, B-2.") && Contains("1 fault in the file"));
    CHECK_THAT(told_of("A-1,2.3,12,,0.1\n", table),
               Contains("after.csv:2:1: row 2, column place: nothing says which boring tells the ground "
                        "before treatment") &&
                   Contains("1 fault in"));
    CHECK_THAT(told_of("B-1,2.3,12,,0.1\nB-1,3.3,12,,\n", table),
               Contains("after.csv:3:1: row 3, column place: neither it nor the site file gives a "
                        "replacement ratio as built") &&
                   Contains("1 fault in"));
    CHECK_THAT(told_of(rows, ratio),
               Contains("39:21: after.replacement_ratio = 0.1 has no effect without table") &&
                   Contains("1 fault in"));
    // What the site file says wrongly is not told again of every row.
    CHECK_THAT(told_of(rows, table + "replacement_ratio = 10\n"),
               Contains("after.replacement_ratio = 10 is outside 0.01 .. 0.5") && Contains("1 fault in"));
    const auto from = sound_site.find("[[boring]]"), to = sound_site.find("[earthquake]");
    CHECK_THAT(told_of("A-1,2.3,12,,0.1\nA-2,2.3,12,,0.1\n", table,
                       sound_site.substr(0, from) + sound_site.substr(to)),
               Contains("there is no [[boring]]") && Contains("1 fault in"));
    CHECK_THROWS_AS(told_of(rows, "table = \"none.csv\"\n"), io::FileTrouble);
}

TEST_CASE("names become words of a file name", "[site]") {
    CHECK(io::file_word("BH 1/a") == "bh-1-a");
    CHECK(io::file_word("../W--1.") == "w-1");
    CHECK(io::file_word("Köln 3") == "köln-3");
    CHECK(io::file_word("/..").empty());
}
