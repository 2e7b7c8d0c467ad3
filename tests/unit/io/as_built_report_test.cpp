// Built against ordered on an invented site whose logs follow the instruction, with defects planted.

#include "io/as_built_records.h"
#include "io/as_built_report.h"
#include "io/as_built_tables.h"
#include "io/case_parts.h"
#include "tests/support/as_built_logs.h"
#include "tests/support/case_text.h"
#include "tests/support/works_text.h"
#include "tests/support/written_table.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <numbers>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;
using solver::AsBuiltCheck;

namespace {

const std::string as_built_part = "\n[as_built]\nrecords = \"log.csv\"\nsurvey = \"survey.csv\"\n";

/// A table that is removed at the end of life.
class TableFile {
public:
    TableFile(const std::string& name, const std::string& text)
        : path_(std::filesystem::temp_directory_path() / ("interpile-as-built-" + name)) {
        std::ofstream(path_) << text;
    }
    ~TableFile() { std::filesystem::remove(path_); }
    TableFile(const TableFile&) = delete;
    TableFile& operator=(const TableFile&) = delete;
    const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

/// Six piles of 0.7 m, 2 m apart, from 10 to 1 m; order P1 P2 P3 P6 P5 P4 with a rest of 0.5 h.
io::WorksFile works(const std::string& from = "[works]", const std::string& to = "[works]") {
    return io::parse_works(changed(sound_works, from, to) + as_built_part, "works.toml");
}

solver::AsBuiltRecord log_of(const std::string& pile, const LogSettings& settings = {}) {
    return logged(pile, works().pile, settings);
}

/// Every pile as ordered: an hour and a bit from start to start.
io::AsBuiltInputs sound_inputs() {
    io::AsBuiltInputs inputs;
    const io::WorksFile site = works();
    double start_s = 8 * 3600;
    for (const std::size_t number : site.order) {
        LogSettings settings;
        settings.started_s = start_s;
        inputs.records.push_back(log_of(site.piles[number].name, settings));
        start_s = inputs.records.back().samples.back().time_s + 1800;
        inputs.survey.push_back({site.piles[number].name, site.piles[number].center_m});
    }
    return inputs;
}

solver::AsBuiltRecord& record_of(io::AsBuiltInputs& inputs, const std::string& pile) {
    for (auto& record : inputs.records)
        if (record.pile == pile)
            return record;
    throw std::logic_error("no record of " + pile);
}

mesh::Vec2& survey_of(io::AsBuiltInputs& inputs, const std::string& pile) {
    for (auto& surveyed : inputs.survey)
        if (surveyed.pile == pile)
            return surveyed.position_m;
    throw std::logic_error("no survey of " + pile);
}

/// Same start, other work.
void replace_log(io::AsBuiltInputs& inputs, const std::string& pile, const solver::OrderedPile& plan,
                 LogSettings settings) {
    auto& record = record_of(inputs, pile);
    settings.started_s = record.samples.front().time_s;
    record = logged(pile, plan, settings);
}

const io::SitePile& pile_of(const io::AsBuiltSite& site, const std::string& name) {
    for (const io::SitePile& pile : site.piles)
        if (pile.ordered.name == name)
            return pile;
    throw std::logic_error("no pile " + name);
}

/// P2 too little sand in 5 .. 6 m, P3 0.6 m short, P4 0.18 m off, P5 tilted by 1 degree, P6 without log.
io::AsBuiltInputs with_defects() {
    auto inputs = sound_inputs();
    const auto plan = works().pile;
    LogSettings thin;
    thin.share = [](const solver::StrokeStep& step) {
        return step.tip_after_m > 5.05 && step.tip_before_m < 5.95 ? 0.5 : 1.0; // 5.8 .. 5.2 m
    };
    replace_log(inputs, "P2", plan, thin);
    auto higher = plan;
    higher.bottom_depth_m = 9.4;
    replace_log(inputs, "P3", higher, {});
    survey_of(inputs, "P4") += mesh::Vec2(0.108, -0.144);
    LogSettings tilted;
    tilted.inclination_deg = -1;
    replace_log(inputs, "P5", plan, tilted);
    std::erase_if(inputs.records, [](const auto& record) { return record.pile == "P6"; });
    std::erase_if(inputs.survey, [](const auto& surveyed) { return surveyed.pile == "P6"; });
    return inputs;
}

/// Pile and kind of every finding, the worst first.
std::vector<std::pair<std::string, AsBuiltCheck>> found_on(const io::AsBuiltSite& site) {
    std::vector<std::pair<std::string, AsBuiltCheck>> found;
    for (const auto& spot : site.weak_spots)
        found.emplace_back(spot.finding.pile, spot.finding.what);
    return found;
}

} // namespace

TEST_CASE("piles built as ordered have no findings, and their sand closes", "[as-built]") {
    const auto site = io::as_built_site(works(), sound_inputs());
    REQUIRE(site.piles.size() == 6);
    CHECK(site.weak_spots.empty());
    CHECK_FALSE(site.overlap);
    for (const io::SitePile& pile : site.piles) {
        CHECK(pile.verdict() == io::PileVerdict::AsOrdered);
        CHECK(pile.built->sand_volume_m3 == Approx(std::numbers::pi * 0.49 / 4 * 9).epsilon(1e-9));
        double slices_m3 = 0;
        for (const auto& slice : pile.built->slices)
            slices_m3 += slice.sand_volume_m3;
        CHECK(slices_m3 + pile.built->volume_outside_m3 == Approx(pile.built->sand_volume_m3).epsilon(1e-9));
        REQUIRE(pile.place);
        CHECK(pile.place->place == pile.ordered_place);
        CHECK(pile.place->in_turn);
        CHECK_FALSE(io::began_too_early(pile, 0.5));
    }
    CHECK(io::left_open(site).empty());
    const std::string report = io::as_built_report(works(), site);
    CHECK_THAT(report, Contains("6 piles ordered, 6 recorded: 6 as ordered, 0 deviating, 0 not recorded") &&
                           Contains("none found") && Contains("Order of work: as ordered") &&
                           Contains("kept by 5 of 5") && Contains("Left open: nothing"));
}

TEST_CASE("the planted defects are found, and only they", "[as-built]") {
    using enum AsBuiltCheck;
    const auto site = io::as_built_site(works(), with_defects());
    // Meter 9 .. 10 of P3 lacks 0.6 of its sand, as it lacks 0.6 of its length.
    const auto found = found_on(site);
    REQUIRE(found.size() == 5);
    CHECK((found[0].first == "P3" && found[1].first == "P3"));
    CHECK((found[2] == std::pair{std::string("P2"), SandVolume}));
    CHECK((found[3] == std::pair{std::string("P4"), Position}));
    CHECK((found[4] == std::pair{std::string("P5"), Verticality}));
    CHECK(site.weak_spots[2].finding.value ==
          Approx(1 - 0.6 * 0.5)); // two strokes of 0.3 m with half the sand
    CHECK(site.weak_spots[2].finding.from_depth_m == 5);
    CHECK(site.weak_spots[3].finding.value == Approx(0.18));
    CHECK(site.weak_spots[4].finding.value == Approx(std::tan(std::numbers::pi / 180)));
    CHECK(pile_of(site, "P1").verdict() == io::PileVerdict::AsOrdered);
    CHECK(pile_of(site, "P3").verdict() == io::PileVerdict::Deviates);
    CHECK(pile_of(site, "P6").verdict() == io::PileVerdict::NotRecorded);
    CHECK(io::spot_remark(pile_of(site, "P4")) == "0.18 m off");
    CHECK_THAT(io::spot_remark(pile_of(site, "P3")),
               Contains("short 0.60 m") && Contains("sand 40 % at 9-10 m"));
    CHECK_THAT(io::as_built_report(works(), site),
               Contains("6 piles ordered, 5 recorded: 1 as ordered, 4 deviating, 1 not recorded") &&
                   Contains("Left open: neither kept nor broken\n  no log of P6\n"));
}

TEST_CASE("tables hold built against ordered", "[as-built]") {
    const auto site = io::as_built_site(works(), with_defects());
    const auto slices = rows_of(io::slices_table(works(), site));
    REQUIRE(slices.size() == 5 * 9);
    double sand_m3 = 0;
    for (const auto& row : slices) {
        if (row.at("pile") != "P1")
            continue;
        sand_m3 += std::stod(row.at("sand_m3"));
        CHECK(row.at("passes") == row.at("ordered_passes"));
        CHECK(std::stod(row.at("diameter_m")) == Approx(0.7).epsilon(1e-5));
        CHECK(std::stod(row.at("replacement_ratio")) ==
              Approx(std::numbers::pi * 0.49 / 4 / 4).epsilon(1e-5));
    }
    CHECK(sand_m3 == Approx(std::numbers::pi * 0.49 / 4 * 9).epsilon(1e-5));

    const auto piles = rows_of(io::piles_table(works(), site));
    REQUIRE(piles.size() == 6);
    CHECK(piles[2].at("short_at_bottom_m") == "0.6");
    CHECK(piles[2].at("verdict") == "deviates");
    CHECK(piles[3].at("position_deviation_m") == "0.18");
    CHECK(piles[5].at("verdict") == "not recorded");
    CHECK(piles[5].at("sand_m3").empty());
    CHECK_THAT(piles[5].at("left_open"), Contains("deviation of position; "));
    CHECK(piles[0].at("rest_before_h").empty());
    CHECK(std::stod(piles[1].at("rest_before_h")) == Approx(0.5));

    const auto spots = rows_of(io::weak_spots_table(site));
    REQUIRE(spots.size() == 5);
    for (std::size_t i = 1; i < spots.size(); ++i)
        CHECK(std::stod(spots[i].at("severity")) <= std::stod(spots[i - 1].at("severity")));
    CHECK(spots[4].at("quantity") == "slope of the casing");
    CHECK(spots[4].at("unit") == "-");
    CHECK(spots[3].at("unit") == "m");
}

TEST_CASE("positions as built are a table of positions", "[as-built]") {
    const TableFile file("positions.csv", io::positions_table(io::as_built_site(works(), with_defects())));
    io::FaultList faults("case.toml", "");
    const auto piles = io::read_positions(file.path(), faults);
    CHECK(faults.empty());
    REQUIRE(piles.size() == 6);
    CHECK(piles[3].name == "P4");
    CHECK(piles[3].center_m.x() == Approx(0.108));
    CHECK(piles[3].center_m.y() == Approx(2 - 0.144));
    CHECK(piles[5].center_m.x() == 4); // not surveyed: as ordered
}

TEST_CASE("the plan at a depth has the diameters built there", "[as-built]") {
    const auto site = io::as_built_site(works(), with_defects());
    const auto thin = rows_of(io::layout_table(site, 5.5));
    REQUIRE(thin.size() == 6);
    CHECK(std::stod(thin[0].at("diameter_m")) == Approx(0.7));
    CHECK(std::stod(thin[1].at("diameter_m")) == Approx(0.7 * std::sqrt(0.7)).epsilon(1e-3));
    CHECK(thin[3].at("place_in_order") == "5"); // the sixth, as P6 before it is not recorded
    CHECK(thin[5].at("diameter_m").empty());
    CHECK(thin[5].at("place_in_order").empty());
    const auto deep = rows_of(io::layout_table(site, 9.8));
    REQUIRE(deep.size() == 5); // P3 ends at 9.4 m
    CHECK(deep[2].at("pile") == "P4");
    CHECK(*io::diameter_at(pile_of(site, "P3"), 9.2) == Approx(0.7)); // not thinned by the meter it ends in
    CHECK_THAT(io::plan_report(site, 9.8),
               Contains("5 of 6 piles; without sand there: P3; diameter not recorded: P6"));
}

TEST_CASE("order and rest as built are told", "[as-built]") {
    auto inputs = sound_inputs();
    auto& samples = record_of(inputs, "P2").samples;
    SECTION("made last") {
        const double later_s = 24 * 3600;
        for (auto& sample : samples)
            sample.time_s += later_s;
        const auto site = io::as_built_site(works(), inputs);
        CHECK_FALSE(pile_of(site, "P2").place->in_turn);
        CHECK(pile_of(site, "P3").place->in_turn);
        CHECK_THAT(io::as_built_report(works(), site),
                   Contains("out of turn: P2 (ordered as number 2, built as 6 of 6 recorded)"));
        CHECK(site.weak_spots.empty());
    }
    SECTION("begun too early") {
        for (auto& sample : samples)
            sample.time_s -= 900;
        const auto site = io::as_built_site(works(), inputs);
        CHECK(io::began_too_early(pile_of(site, "P2"), 0.5));
        CHECK_FALSE(io::began_too_early(pile_of(site, "P3"), 0.5));
        CHECK_THAT(io::as_built_report(works(), site), Contains("kept by 4 of 5; begun too early: P2\n"));
        CHECK(rows_of(io::piles_table(works(), site))[1].at("rest_kept") == "no");
    }
    SECTION("times overlap") {
        for (auto& sample : samples)
            sample.time_s -= 3000;
        const auto site = io::as_built_site(works(), inputs);
        REQUIRE(site.overlap);
        CHECK_THAT(io::as_built_report(works(), site), Contains("left open; the times of P1 and P2 overlap"));
        CHECK(rows_of(io::piles_table(works(), site))[1].at("in_turn").empty());
    }
}

TEST_CASE("what a log leaves out stays open", "[as-built]") {
    auto inputs = sound_inputs();
    for (auto& sample : record_of(inputs, "P1").samples)
        sample.inclination_deg.reset();
    std::erase_if(inputs.records, [](const auto& record) { return record.pile == "P2"; });
    survey_of(inputs, "P2").x() += 0.3;
    inputs.survey.pop_back(); // of P4
    const auto site = io::as_built_site(works(), inputs);
    CHECK(pile_of(site, "P1").verdict() == io::PileVerdict::AsRecorded);
    CHECK(pile_of(site, "P4").verdict() == io::PileVerdict::AsRecorded);
    CHECK(pile_of(site, "P2").verdict() == io::PileVerdict::Deviates); // found by the survey alone
    CHECK(io::left_open(site) == std::vector<std::string>{"no log of P2", "deviation of position of P4",
                                                          "slope of the casing of P1"});
    CHECK_THAT(io::as_built_report(works(), site), Contains("2 as ordered as far as recorded"));
}

TEST_CASE("records and surveys of other piles are refused with the nearest name", "[as-built]") {
    auto inputs = sound_inputs();
    SECTION("a record nobody ordered") {
        inputs.records[0].pile = "P11";
        CHECK_THROWS_WITH(io::as_built_site(works(), inputs),
                          Contains("record of pile P11, which was not ordered; nearest: \"P1\""));
    }
    SECTION("a survey nobody ordered") {
        inputs.survey[0].pile = "Q";
        CHECK_THROWS_WITH(io::as_built_site(works(), inputs), Contains("survey of pile Q"));
    }
    SECTION("two records of a pile") {
        inputs.records.push_back(inputs.records[0]);
        CHECK_THROWS_WITH(io::as_built_site(works(), inputs), Contains("two records of pile P1"));
    }
}

TEST_CASE("faults of records and survey are told together, with their places", "[as-built]") {
    const TableFile log("log.csv",
                        "pile,time_s,tip_depth_m,sand_volume_m3\nP1,0,0,0\nP11,0,0,0\nP11,9,1,0\nP1,9,1,0\n");
    const TableFile survey("survey.csv", "pile,x_m,y_m\nP1,0,0\nP1,1,1\nX,0,0\n");
    auto site = works();
    site.as_built->records = log.path();
    site.as_built->survey = survey.path();
    CHECK_THROWS_WITH(io::read_as_built_inputs(site),
                      Contains("log.csv:3:1: row 3, column pile: P11 was not ordered") &&
                          Contains("Nearest ordered name: P1.") &&
                          Contains("survey.csv:3:1: row 3, column pile: P1 stands in row 2 too") &&
                          Contains("survey.csv:4:1: row 4, column pile: X was not ordered") &&
                          Contains("3 faults"));
    site.as_built->survey = "no-such-survey.csv";
    CHECK_THROWS_AS(io::read_as_built_inputs(site), io::FileTrouble);
}
