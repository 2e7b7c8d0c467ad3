// Works files: what a sound one means, and what is said about slips.

#include "io/value_reader.h"
#include "io/vocabulary.h"
#include "io/works_file.h"
#include "tests/support/case_text.h"
#include "tests/support/works_text.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>

using namespace interpile;
using namespace interpile::testing;

namespace {

std::string faults_of(const std::string& text) {
    try {
        io::parse_works(text, "site/works.toml");
    } catch (const io::CaseFaults& faults) {
        return faults.what();
    }
    return {};
}

/// Piles of a table beside the works file.
class Table {
public:
    Table() : folder_(std::filesystem::temp_directory_path() / "interpile-works-positions") {
        std::filesystem::create_directories(folder_);
    }
    ~Table() { std::filesystem::remove_all(folder_); }

    io::WorksFile works(const std::string& csv) const {
        std::ofstream(folder_ / "piles.csv") << csv;
        const std::string layout = "pattern = \"square\"\nspacing_m = 2.0\nrows = 2\ncolumns = 3\n";
        std::string text =
            changed(sound_works, layout, "pattern = \"listed\"\npositions_file = \"piles.csv\"\n");
        text = changed(text, "kind = \"alternating\"", "kind = \"listed\"\nsequence = [2, 1]");
        return io::parse_works(text, folder_ / "works.toml");
    }

private:
    std::filesystem::path folder_;
};

const io::KeyInfo& key(std::string_view table, std::string_view name) {
    for (const auto& info : io::works_dictionary().keys)
        if (info.table == table && info.key == name)
            return info;
    throw std::logic_error("no such key");
}

double standard(std::string_view table, std::string_view name) {
    return std::get<double>(io::default_value(key(table, name)));
}

} // namespace

TEST_CASE("a sound works file becomes piles in their order of work", "[works]") {
    const auto works = io::parse_works(sound_works, "site/works.toml");
    CHECK(works.title == "six piles");
    REQUIRE(works.piles.size() == 6);
    CHECK(works.piles[0].name == "P1");
    CHECK(works.piles[5].name == "P6");
    CHECK(works.piles[5].center_m == mesh::Vec2(4, 2));
    CHECK(works.order == std::vector<std::size_t>{0, 1, 2, 5, 4, 3}); // the rig turns at the end of a row
    CHECK(works.rest_h == 0.5);
    CHECK(works.pile.bulking == 1.2);
    CHECK(works.pile.net_rise_m == 0.3);
    CHECK(works.area_per_pile_m2.value() == Approx(4)); // s^2
    CHECK(works.limits.position_m == 0.10);
    CHECK_FALSE(works.as_built);
    REQUIRE(works.neighbors);
    CHECK(works.neighbors->piles_m.size() == 6);
    CHECK(works.neighbors->border_distance_m == 20);
    CHECK(works.neighbors->top_depth_m == 1);
    REQUIRE(works.neighbors->points.size() == 1);
    CHECK(works.neighbors->points[0].name == "wall");
    CHECK(works.working_hours.value().end_h == 17.5);
}

TEST_CASE("surroundings are optional", "[works]") {
    const std::string text = sound_works.substr(0, sound_works.find("[surroundings]"));
    const auto works = io::parse_works(text, "works.toml");
    CHECK_FALSE(works.neighbors);
    CHECK_FALSE(works.working_hours);
}

TEST_CASE("records of the finished piles are named, not opened", "[works]") {
    const auto works =
        io::parse_works(sound_works + "[as_built]\nrecords = \"logs.csv\"\nsurvey = \"axes.csv\"\n"
                                      "sand_place = \"along-withdrawal\"\n"
                                      "[limits]\nverticality = 0.015\n",
                        "site/works.toml");
    REQUIRE(works.as_built);
    CHECK(works.as_built->records == "site/logs.csv");
    CHECK(works.as_built->survey.value() == "site/axes.csv");
    CHECK(works.as_built->sand_place == solver::SandPlace::AlongWithdrawal);
    CHECK(works.as_built->bulking == 1.2); // that of [pile]
    CHECK(works.limits.verticality == 0.015);
    const auto in_place =
        io::parse_works(sound_works + "[as_built]\nrecords = \"logs.csv\"\nbulking = 1\n", "w.toml");
    CHECK(in_place.as_built->bulking == 1);
    CHECK_FALSE(in_place.as_built->survey);
    CHECK(in_place.as_built->sand_place == solver::SandPlace::WithinNetRise);
}

TEST_CASE("piles take the names of their table", "[works]") {
    const Table table;
    const auto works = table.works("pile,x_m,y_m\nA-1,0,0\nA-2,3,0\n");
    REQUIRE(works.piles.size() == 2);
    CHECK(works.piles[1].name == "A-2");
    CHECK(works.order == std::vector<std::size_t>{1, 0});
    CHECK_FALSE(works.area_per_pile_m2);
    CHECK(table.works("x_m,y_m\n0,0\n3,0\n").piles[1].name == "P2");
    CHECK_THROWS_WITH(table.works("pile,x_m,y_m\nA-1,0,0\nA-1,3,0\n"),
                      Catch::Contains("piles.csv:3:1: row 3: pile \"A-1\" stands above already"));
    CHECK_THROWS_WITH(table.works("pile,x_m,y_m\n,0,0\nA-1,3,0\n"),
                      Catch::Contains("row 2: the pile has no printable name"));
    CHECK_THROWS_WITH(table.works("pile,x_m,y_m\nA-1,0,0\nA-2,3\n"),
                      Catch::Contains("row 3 has 2 values instead of 3"));
    CHECK_THROWS_WITH(table.works("name,x_m,y_m\nA-1,0,0\n"), Catch::Contains("pile,x_m,y_m"));
    CHECK_THROWS_WITH(table.works("pile,x_m,y_m\nA-1,0,0\nA-2,0.5,0\n"),
                      Catch::Contains("they would overlap"));
    CHECK_THROWS_WITH(table.works("x_m,y_m,diameter_m\n0,0,0.6\n3,0,0.7\n"),
                      Catch::Contains("layout.positions_file = \"piles.csv\" has piles with a diameter_m") &&
                          Catch::Contains("All piles of a works file are equal"));
}

TEST_CASE("slips in a works file are told with place and mend", "[works]") {
    const auto [from, to, expected] = GENERATE(table<std::string, std::string, std::string>({
        {"net_rise_m = 0.3", "net_rise_m = 30",
         "works.toml:10:14: pile.net_rise_m = 30 is outside 0.05 .. 10 m"},
        {"net_rise_m = 0.3", "net_rise_m = 9.5", "net_rise_m = 9.5 is above the length of the pile, 9 m"},
        {"net_rise_m = 0.3", "", "key \"net_rise_m\" is missing in [pile]"},
        {"net_rise_m = 0.3", "net_rise_m = 0.3\nbulking = 0.9", "pile.bulking = 0.9 is outside 1 .. 2"},
        {"diameter_m = 0.7", "", "key \"diameter_m\" is missing in [pile]"},
        {"casing_diameter_m = 0.4", "casing_diameter_m = 0.8", "is above diameter_m = 0.7"},
        {"bottom_depth_m = 10.0", "bottom_depth_m = 0.5", "is not below top_depth_m = 1"},
        // Re-drive of a full step: (1.2 (0.7/0.4)^2 - 1) 0.3 = 0.8025 m.
        {"top_depth_m = 1.0", "top_depth_m = 0.4",
         "the casing would leave the ground. Lower the top to 0.802 m"},
        {"spacing_m = 2.0", "spacing_m = 0.5", "piles would overlap"},
        {"spacing_m = 2.0", "spacing = 2.0", "nearest: \"spacing_m\""},
        {"spacing_m = 2.0", "spacing_m = 2.0\narea_per_pile_m2 = 4",
         "has no effect where a pattern gives it"},
        {"kind = \"alternating\"", "kind = \"together\"", "is not one of"},
        {"kind = \"alternating\"", "kind = \"listed\"\nsequence = [1, 2, 3]", "Missing: 4, 5, 6"},
        {"rest_h = 0.5", "rest_h = -1", "order.rest_h = -1 is outside 0 .. 1000 h"},
        {"work_end_h = 17.5", "", "key \"work_end_h\" is missing in [surroundings]"},
        {"work_end_h = 17.5", "work_end_h = 7", "is not after work_start_h = 8"},
        {"border_distance_m = 20", "border_distance_m = 20\nefficiency = [0.9, 0.5]", "does not ascend"},
        {"border_distance_m = 20", "border_distance_m = 20\nattenuation_per_m = [0.01, 4]",
         "is outside 0 .. 1 1/m"},
        {"x_m = 8\ny_m = 1\n", "x_m = 4.2\ny_m = 1.8\n",
         "place[1].x_m = 4.2 with y_m = 1.8 lies inside pile P6"},
        {"[[place]]", "[[place]]\nname = \"wall\"\nx_m = 20\ny_m = 0\n[[place]]", "stands above already"},
        {"[[place]]", "[place]", "places are not given as [[place]]"},
        {"[works]", "[as_built]\nsurvey = \"axes.csv\"\n[works]", "key \"records\" is missing in [as_built]"},
        {"[works]", "[domain]\n[works]", "unknown table or key \"domain\""},
    }));
    INFO(from << " -> " << to);
    const std::string said = faults_of(changed(sound_works, from, to));
    INFO(said);
    CHECK_THAT(said, Catch::Contains(expected));
}

TEST_CASE("a list of piles needs its area only for as-built records", "[works]") {
    const std::string layout = "pattern = \"square\"\nspacing_m = 2.0\nrows = 2\ncolumns = 3\n";
    const std::string listed =
        changed(changed(sound_works, layout, "pattern = \"listed\"\npositions_m = [[0, 0], [3, 0]]\n"),
                "kind = \"alternating\"", "kind = \"from-middle\"");
    CHECK(faults_of(listed).empty());
    const std::string records = "[as_built]\nrecords = \"logs.csv\"\n";
    CHECK_THAT(faults_of(listed + records),
               Catch::Contains("key \"area_per_pile_m2\" is missing in [layout]"));
    const auto works =
        io::parse_works(changed(listed, "[order]", "area_per_pile_m2 = 3.5\n[order]") + records, "w.toml");
    CHECK(works.area_per_pile_m2.value() == 3.5);
}

TEST_CASE("all faults of a works file show at once", "[works]") {
    const std::string said = faults_of(
        changed(changed(changed(sound_works, "diameter_m = 0.7", "diameter_m = 7"), "rows = 2", "rows = 0"),
                "work_end_h = 17.5", "work_end_h = 7"));
    INFO(said);
    for (const char* part : {":7:", "pile.diameter_m = 7", "layout.rows = 0", "work_end_h = 7"})
        CHECK_THAT(said, Catch::Contains(part));
}

TEST_CASE("a site with too many strokes to write is refused", "[works]") {
    const std::string text =
        changed(changed(changed(sound_works, "rows = 2", "rows = 50"), "columns = 3", "columns = 50"),
                "net_rise_m = 0.3", "net_rise_m = 0.05");
    const std::string said = faults_of(changed(text, "bottom_depth_m = 10.0", "bottom_depth_m = 100"));
    CHECK_THAT(said, Catch::Contains("1980 strokes of 2500 piles")); // 99 m / 0.05 m
}

TEST_CASE("every key of a works file is unique, explained, and its default is that of the structs",
          "[works]") {
    std::set<std::string> seen;
    const std::string help = io::vocabulary_help(io::works_dictionary());
    for (const auto& info : io::works_dictionary().keys) {
        INFO(info.table << "." << info.key);
        CHECK(seen.insert(std::string(info.table) + "." + std::string(info.key)).second);
        CHECK_FALSE(info.meaning.empty());
        CHECK_FALSE(info.source.empty());
        CHECK_THAT(help, Catch::Contains("\n  " + std::string(info.key) + " "));
        if (info.presence == io::Presence::Default)
            CHECK_NOTHROW(io::default_value(info));
    }
    const auto tables = io::table_names(io::works_dictionary());
    CHECK(std::set<std::string>(tables.begin(), tables.end()).size() == tables.size());
    const solver::AsBuiltLimits limits;
    CHECK(standard("limits", "position_m") == limits.position_m);
    CHECK(standard("limits", "verticality") == limits.verticality);
    CHECK(standard("limits", "length_shortfall_m") == limits.length_shortfall_m);
    CHECK(standard("limits", "least_volume_ratio") == limits.least_volume_ratio);
    const io::NeighborsPlan plan;
    CHECK(standard("surroundings", "vibration_limit_dB") == plan.vibration_limit_dB);
    CHECK(standard("surroundings", "noise_limit_dB") == plan.noise_limit_dB);
    const auto ends = [](const char* name) {
        return std::get<std::vector<double>>(io::default_value(key("surroundings", name)));
    };
    CHECK(ends("efficiency") == std::vector{plan.efficiency.low, plan.efficiency.high});
    CHECK(ends("attenuation_per_m") == std::vector{plan.attenuation_per_m.low, plan.attenuation_per_m.high});
}
