// The results file while it is written, and after its writer was killed.

#include "io/diagnostics.h"
#include "io/results_writer.h"
#include "tests/unit/io/results_support.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <random>
#include <sys/resource.h>
#include <sys/wait.h>
#include <thread>

using namespace interpile;
using namespace interpile::tests;
using namespace std::chrono_literals;

namespace {

constexpr int piles = 3;

/// Stages with three increments and two half strokes before each; `pause` between stages.
void write_stages(const std::filesystem::path& file, int stages, std::chrono::microseconds pause) {
    const auto grid = synthetic_grid();
    io::ResultsWriter writer(file, synthetic_case(), grid, true, true);
    for (int stage = 0; stage < stages; ++stage) {
        for (int i = 0; i < 3; ++i)
            writer.on_increment(synthetic_increment(3 * stage + i));
        for (int i = 0; i < 2; ++i)
            writer.on_half_stroke(synthetic_half_stroke(2 * stage + i));
        writer.on_stage(synthetic_stage(grid, piles, stage));
        std::this_thread::sleep_for(pause);
    }
    writer.finish();
}

void wait_for(const std::filesystem::path& file) {
    for (int i = 0; i < 5000 && !std::filesystem::exists(file); ++i)
        std::this_thread::sleep_for(1ms);
    REQUIRE(std::filesystem::exists(file));
}

/// Exit status as of waitpid().
int wait_for_end(pid_t child) {
    int status = 0;
    waitpid(child, &status, 0);
    return status;
}

/// Fault found in stages [first, end), or empty.
std::string fault_in_stages(const io::ResultsReader& reader, int first, int end) {
    const auto grid = synthetic_grid();
    for (int index = first; index < end; ++index) {
        const auto stage = reader.stage(index);
        const std::string difference =
            stage.stage == index ? first_difference(stage, grid, piles) : "stage number";
        if (!difference.empty())
            return "stage " + std::to_string(index) + ": " + difference;
    }
    return {};
}

} // namespace

TEST_CASE("a reader follows a run while it writes", "[results]") {
    const ScratchFolder folder;
    const auto file = folder / "live.h5";
    constexpr int stages = 30;
    const pid_t writer = in_child([&] { write_stages(file, stages, 3ms); });
    wait_for(file);
    const io::ResultsReader reader(file);
    int seen = 0, looks_with_news = 0;
    for (int look = 0; look < 2000 && seen < stages; ++look) {
        const int now = reader.stage_count();
        REQUIRE(now >= seen);
        REQUIRE(fault_in_stages(reader, seen, now) == "");
        const auto history = reader.history();
        REQUIRE(history.pile.size() >= 3 * now); // the increments of a stage are there before the stage
        REQUIRE(first_difference(history) == "");
        const auto half_strokes = reader.half_strokes();
        REQUIRE(half_strokes.pile.size() >= 2 * now);
        REQUIRE(first_difference(half_strokes) == "");
        looks_with_news += now > seen;
        seen = now;
        std::this_thread::sleep_for(1ms);
    }
    CHECK(wait_for_end(writer) == 0);
    CHECK(seen == stages);
    CHECK(looks_with_news > 3); // it was really read in between, not once at the end
    CHECK_FALSE(reader.header().finished);
    CHECK(io::ResultsReader(file).header().finished);
}

TEST_CASE("the file is whole after a kill at any instant", "[results]") {
    const ScratchFolder folder;
    std::mt19937 random(20240229);
    int stages_in_all = 0;
    for (int round = 0; round < 12; ++round) {
        const auto file = folder / ("killed" + std::to_string(round) + ".h5");
        const pid_t writer = in_child([&] { write_stages(file, 100000, 0us); });
        wait_for(file);
        std::this_thread::sleep_for(std::chrono::microseconds(random() % 60000));
        kill(writer, SIGKILL);
        REQUIRE(WIFSIGNALED(wait_for_end(writer)));

        const io::ResultsReader reader(file);
        const int stages = reader.stage_count();
        INFO("round " << round << ", stages " << stages);
        REQUIRE(fault_in_stages(reader, 0, stages) == "");
        REQUIRE(reader.history().pile.size() >= 3 * stages);
        REQUIRE(first_difference(reader.history()) == "");
        const auto half_strokes = reader.half_strokes();
        REQUIRE(half_strokes.pile.size() >= 2 * stages);
        REQUIRE(first_difference(half_strokes) == "");
        CHECK_FALSE(reader.header().finished);
        stages_in_all += stages;
    }
    CHECK(stages_in_all > 12); // the rounds were killed at work, not before it began
}

TEST_CASE("a kill while the file is being begun or finished loses nothing", "[results]") {
    const ScratchFolder folder;
    const auto file = folder / "short.h5";
    write_stages(file, 2, 0us); // the earlier result
    std::mt19937 random(7);
    for (int round = 0; round < 40; ++round) {
        const pid_t writer = in_child([&] { write_stages(file, 2, 0us); });
        std::this_thread::sleep_for(std::chrono::microseconds(random() % 40000));
        kill(writer, SIGKILL);
        wait_for_end(writer);
        const io::ResultsReader reader(file); // the earlier result or the new one, never none
        INFO("round " << round);
        REQUIRE(fault_in_stages(reader, 0, reader.stage_count()) == "");
        if (reader.header().finished)
            REQUIRE(reader.stage_count() == 2);
    }
}

TEST_CASE("a full disk is told and leaves the earlier stages readable", "[results]") {
    // A limit on the size of files stands in for the disk: writing beyond it fails like writing to a full
    // one.
    const ScratchFolder folder;
    const auto limited = [](rlim_t bytes, const std::function<void()>& work) {
        return in_child([&] {
            signal(SIGXFSZ, SIG_IGN);
            const rlimit limit{bytes, bytes};
            setrlimit(RLIMIT_FSIZE, &limit);
            try {
                work();
            } catch (const io::FileTrouble& trouble) {
                _exit(std::string(trouble.what()).find("File too large") != std::string::npos ? 42 : 43);
            }
        });
    };
    const auto file = folder / "full.h5";
    SECTION("in the header: the earlier result stays, no part of the new one is left") {
        write_stages(file, 2, 0us);
        const int status = wait_for_end(limited(4096, [&] { write_stages(file, 5, 0us); }));
        REQUIRE(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 42);
        const io::ResultsReader reader(file);
        CHECK(reader.header().finished);
        CHECK(reader.stage_count() == 2);
        CHECK_FALSE(std::filesystem::exists(folder / "full.h5.part"));
    }
    SECTION("during the run") {
        const int status = wait_for_end(limited(400000, [&] { write_stages(file, 100000, 0us); }));
        REQUIRE(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 42);
        const io::ResultsReader reader(file);
        CHECK(reader.stage_count() > 3);
        CHECK(fault_in_stages(reader, 0, reader.stage_count()) == "");
    }
}

TEST_CASE("h5py reads values and meaning, also of an unfinished result", "[results]") {
    // Outside source: h5py, a reader of HDF5 that shares nothing with ours but the C library.
    const std::string python = "/usr/bin/python3"; // the one Debian's python3-h5py is made for
    if (std::system((python + " -c 'import h5py' 2> /dev/null").c_str()) != 0) {
        WARN("python3-h5py is not installed: the file was not read from Python (.ci/setup installs it)");
        return;
    }
    const ScratchFolder folder;
    const auto script = folder / "look.py";
    std::ofstream(script) << R"(
import sys, h5py
f = h5py.File(sys.argv[1], "r", swmr=True)
assert f.attrs["title"] == "Uferstraße, invented site, σ_v' = 55 kPa", f.attrs["title"]
assert f["case_text"][()].decode().startswith("# invented"), f["case_text"][()]
assert [k.decode() for k in f["settings/key"]] == ["case.title", "layout.spacing_m"]
e = f["fields/vertical_stress_kPa"]
assert e.attrs["symbol"] == "σ_v'" and e.attrs["unit"] == "kPa" and e.attrs["axes"] == "stage, cell"
assert e.attrs["sign"] == "compression positive" and e.attrs["long_name"]
assert e.dtype == "float32" and e.chunks[0] == 1 and e.compression == "gzip" and e.shuffle
names = []
f.visititems(lambda name, item: names.append(name) if isinstance(item, h5py.Dataset) else None)
assert len(names) > 50 and all({"unit", "symbol", "long_name", "sign"} <= set(f[n].attrs) for n in names)
assert [w.decode() for w in f["warnings"]] == ["σ above 3 MPa"]
for stage in range(2):                      # the formula of tests/support/synthetic_result.h
    for cell in (0, 1, 83):
        number = 7                          # vertical_stress_kPa is field 7 of mesh::field_table()
        assert e[stage, cell] == stage + number / 32 + cell / 65536, (stage, cell, e[stage, cell])
p = f["points/relative_density_pct"]
assert p.attrs["axes"] == "half_stroke, point" and p.attrs["unit"] == "%" and p.shape == (2, 2)
assert p[1, 0] == 1.11 and f["half_strokes/efficiency"][1] == 1.9 and f["points/name"][1].decode() == "Böschung"
print(f.attrs["finished"], len(f["stage/number"]))
)";
    const auto grid = synthetic_grid();
    const auto look = [&](const std::string& file) {
        const auto answer = folder / "answer";
        const std::string command = python + " '" + script.string() + "' '" + (folder / file).string() +
                                    "' > '" + answer.string() + "'";
        REQUIRE(std::system(command.c_str()) == 0);
        std::string line;
        std::getline(std::ifstream(answer) >> std::ws, line);
        return line;
    };
    io::ResultsWriter writer(folder / "py.h5", synthetic_case(), grid, true, false);
    writer.on_stage(synthetic_stage(grid, piles, 0));
    writer.on_stage(synthetic_stage(grid, piles, 1));
    for (int i = 0; i < 2; ++i)
        writer.on_half_stroke(synthetic_half_stroke(i));
    writer.on_warning("σ above 3 MPa");
    CHECK(look("py.h5") == "0 2");
    writer.finish();
    CHECK(look("py.h5") == "1 2");
}
