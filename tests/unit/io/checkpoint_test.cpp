// The restart file: what goes in comes out; a damaged one and one of another case are refused.

#include "io/checkpoint.h"
#include "io/diagnostics.h"
#include "tests/support/results_difference.h"
#include "tests/unit/io/results_support.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace interpile;
using namespace interpile::tests;
using Catch::Matchers::Contains;

namespace {

std::string bytes_of(const std::filesystem::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

/// A made-up state in which every number is another one.
io::Checkpoint made_up() {
    double next = 0.1;
    const auto number = [&] { return next += 1.0 / 3; };
    const auto fill = [&](auto&& array) {
        for (Eigen::Index k = 0; k < array.size(); ++k)
            array.data()[k] = number();
    };
    io::Checkpoint c;
    c.identity = io::identity_of(synthetic_case());
    c.rows = {"2031-05-06T07:08:09Z", 5, 4, 3, 2};
    c.stages = {{0, -1, true, {}, 0, number()},
                {1, 2, false, {number(), number(), number(), number()}, 0.01, 55}};
    c.share_done = 0.375;
    auto& s = c.state;
    s.slice.node_m.resize(2, 6);
    fill(s.slice.node_m);
    s.slice.soil.resize(2, 3);
    fill(s.slice.soil.stress);
    fill(s.slice.soil.void_ratio);
    fill(s.slice.soil.history);
    s.slice.soil.yielding << 0, 1;
    s.slice.heave = number();
    s.slice.finished_share.setConstant(2, number());
    s.slice.smear_share.setConstant(2, number());
    s.slice.water = {
        Eigen::ArrayXd::Constant(2, number()), number(), {number(), number(), number(), number()}};
    s.discs = {{2, 0.5, number(), {number(), number()}, {{0, number()}, {1, number()}}}};
    s.ever_yielded.setOnes(2);
    s.sums = {1, -1, {number(), {}, {}, {}, {}}, {number()}, number(), number()};
    s.place = 1;
    s.resting = true;
    s.done = {3, number(), number()};
    s.rigs = {{number(), number(), 2}, {number(), number(), 3}};
    s.direction.setConstant(4, number());
    s.remarks.density = true;
    s.increments = 77;
    s.iterations = 888;
    s.factorizations = 99;
    return c;
}

} // namespace

TEST_CASE("a restart file gives back what was saved", "[checkpoint]") {
    const ScratchFolder folder;
    const auto file = folder / "r.h5.restart";
    const io::Checkpoint saved = made_up();
    io::save_checkpoint(file, saved);
    const io::Checkpoint read = io::load_checkpoint(file);
    CHECK(read.identity.case_text == saved.identity.case_text);
    CHECK(read.rows.started == saved.rows.started);
    CHECK(read.rows.warnings == 2);
    CHECK(read.stages.at(1).balance.pushed_out == saved.stages[1].balance.pushed_out);
    CHECK_FALSE(read.stages.at(1).converged);
    CHECK(read.state.slice.node_m == saved.state.slice.node_m);
    CHECK((read.state.slice.soil.history == saved.state.slice.soil.history).all());
    CHECK(read.state.slice.soil.yielding(1) == 1);
    CHECK(read.state.slice.water.balance.leaked == saved.state.slice.water.balance.leaked);
    CHECK(read.state.discs.at(0).parts.at(1).share == saved.state.discs[0].parts[1].share);
    CHECK(read.state.sums.seed_area_m2 == saved.state.sums.seed_area_m2);
    CHECK(read.state.done.rest_step_s == saved.state.done.rest_step_s);
    CHECK(read.state.direction == saved.state.direction);
    CHECK(read.state.resting);
    CHECK(read.state.remarks.density);
    CHECK(read.state.factorizations == 99);
    io::save_checkpoint(folder / "again.restart", read); // and so every other number
    CHECK(bytes_of(folder / "again.restart") == bytes_of(file));
    CHECK_FALSE(std::filesystem::exists(folder / "r.h5.restart.part"));
}

TEST_CASE("a restart file cut short or changed in any byte is refused", "[checkpoint]") {
    const ScratchFolder folder;
    const auto file = folder / "r.h5.restart", bad = folder / "bad.restart";
    io::save_checkpoint(file, made_up());
    const std::string sound = bytes_of(file);
    for (std::size_t k = 0; k < sound.size(); ++k) {
        std::string changed = sound;
        changed[k] = static_cast<char>(changed[k] ^ 0x10);
        std::ofstream(bad, std::ios::binary) << changed;
        REQUIRE_THROWS_AS(io::load_checkpoint(bad), io::FileTrouble);
        std::ofstream(bad, std::ios::binary) << sound.substr(0, k);
        REQUIRE_THROWS_AS(io::load_checkpoint(bad), io::FileTrouble);
    }
    std::ofstream(bad, std::ios::binary) << sound << "x";
    CHECK_THROWS_WITH(io::load_checkpoint(bad), Contains("bad.restart") && Contains("damaged"));
}

TEST_CASE("what cannot be saved leaves the restart file as it was", "[checkpoint]") {
    const ScratchFolder folder;
    const auto file = folder / "r.h5.restart";
    io::save_checkpoint(file, made_up());
    const std::string before = bytes_of(file);
    std::filesystem::create_directory(folder / "r.h5.restart.part"); // where the new one would grow
    CHECK_THROWS_WITH(io::save_checkpoint(file, made_up()), Contains("cannot be written"));
    CHECK(bytes_of(file) == before);
}

TEST_CASE("another case is refused with what differs", "[checkpoint]") {
    const auto was = synthetic_case();
    const auto refused = [&](const io::Case& is) {
        io::refuse_other_run("r", io::identity_of(was), io::identity_of(is));
    };
    CHECK_NOTHROW(refused(was));
    auto other_text = was;
    other_text.text = "# invented\n[case]\ntitle = \"other\"\n";
    CHECK_THROWS_WITH(refused(other_text),
                      Contains("line 3 was \"title = \"Uferstraße\"\", is \"title = \"other\"\""));
    auto longer = was;
    longer.text += "[grid]\n";
    CHECK_THROWS_WITH(refused(longer), Contains("line 4 was not there, is \"[grid]\""));
    auto moved = was; // a table of piles of its own
    moved.plan.piles[1].center_m.x() += 0.01;
    CHECK_THROWS_WITH(refused(moved), Contains("pile 2 was \"(0.6, 0.35) m"));
}

TEST_CASE("a results file goes on with its first rows and ends as one written at once", "[checkpoint]") {
    const ScratchFolder folder;
    const auto grid = synthetic_grid();
    const auto made_up_case = synthetic_case();
    const auto write = [&](io::ResultsWriter& writer, int first, int end) {
        for (int stage = first; stage < end; ++stage) {
            for (int i = 0; i < 3; ++i)
                writer.on_increment(synthetic_increment(3 * stage + i));
            for (int i = 0; i < 2; ++i)
                writer.on_half_stroke(synthetic_half_stroke(2 * stage + i));
            writer.on_warning("remark " + std::to_string(stage));
            writer.on_stage(synthetic_stage(grid, 3, stage));
        }
    };
    const auto whole = folder / "whole.h5", broken = folder / "broken.h5";
    {
        io::ResultsWriter writer(whole, made_up_case, grid, true, false);
        write(writer, 0, 6);
        writer.finish();
    }
    io::ResultsRows kept;
    {
        io::ResultsWriter writer(broken, made_up_case, grid, true, false);
        write(writer, 0, 2);
        kept = writer.rows();
        write(writer, 2, 4); // lost
        CHECK_THROWS_WITH(io::ResultsWriter(broken, made_up_case, grid, true, kept),
                          Contains("is being written by a run that goes on"));
    }
    auto more = kept;
    more.half_strokes = 9;
    const std::string before = bytes_of(broken);
    CHECK_THROWS_WITH(io::ResultsWriter(broken, made_up_case, grid, true, more), Contains("holds less"));
    auto other = kept;
    other.started = "2031-05-06T07:08:09Z";
    CHECK_THROWS_WITH(io::ResultsWriter(broken, made_up_case, grid, true, other), Contains("of another run"));
    CHECK(bytes_of(broken) == before);
    CHECK_FALSE(std::filesystem::exists(folder / "broken.h5.part"));
    {
        io::ResultsWriter writer(broken, made_up_case, grid, true, kept);
        CHECK(io::ResultsReader(broken).stage_count() == 2);
        write(writer, 2, 6);
        writer.finish();
    }
    CHECK(testing::first_difference(whole, broken) == "");
    CHECK(io::ResultsReader(broken).header().started == kept.started);
    CHECK(io::ResultsReader(broken).header().finished);
}
