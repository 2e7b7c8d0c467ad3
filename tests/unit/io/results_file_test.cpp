// The results file: what goes in comes out, and every dataset says what it is.

#include "io/diagnostics.h"
#include "io/hdf5.h"
#include "io/results_layout.h"
#include "io/results_writer.h"
#include "tests/unit/io/results_support.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <limits>
#include <set>
#include <sstream>

using namespace interpile;
using namespace interpile::tests;
using Catch::Matchers::Contains;

namespace {

constexpr int piles = 3;

/// Write `stages` stages with ten increments and four half strokes before each.
void write_result(const std::filesystem::path& file, int stages, bool overwrite = false) {
    const auto made_up = synthetic_case();
    const auto grid = synthetic_grid();
    io::ResultsWriter writer(file, made_up, grid, true, overwrite);
    int increment = 0, half_stroke = 0;
    for (int stage = 0; stage < stages; ++stage) {
        for (int i = 0; stage > 0 && i < 10; ++i)
            writer.on_increment(synthetic_increment(increment++));
        for (int i = 0; stage > 0 && i < 4; ++i)
            writer.on_half_stroke(synthetic_half_stroke(half_stroke++));
        writer.on_stage(synthetic_stage(grid, piles, stage));
    }
    writer.finish();
}

std::string bytes_of(const std::filesystem::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

// Every dataset of the file by the library's own visit, so that one missing in results_layout() shows.
std::set<std::string> dataset_paths(const io::hdf5::File& file) {
    std::set<std::string> paths;
    H5Ovisit2(
        file.id(), H5_INDEX_NAME, H5_ITER_NATIVE,
        [](hid_t, const char* name, const H5O_info_t* info, void* out) -> herr_t {
            if (info->type == H5O_TYPE_DATASET)
                static_cast<std::set<std::string>*>(out)->insert(std::string("/").append(name));
            return 0;
        },
        &paths, H5O_INFO_BASIC);
    return paths;
}

} // namespace

TEST_CASE("results come back as they were written", "[results]") {
    const ScratchFolder folder;
    const auto made_up = synthetic_case();
    const auto grid = synthetic_grid();
    const auto file = folder / "result.h5";
    write_result(file, 4);

    const io::ResultsReader reader(file);
    const auto& header = reader.header();
    CHECK(header.case_name == made_up.name);
    CHECK(header.title == made_up.title);
    CHECK(header.case_text == made_up.text);
    CHECK(header.started.size() == std::string("2026-01-01T00:00:00Z").size());
    CHECK(header.finished);
    CHECK_FALSE(header.monotonic_density);
    CHECK(header.settings.at(0) == std::pair<std::string, std::string>("case.title", "Uferstraße"));
    CHECK(header.settings.at(1) == std::pair<std::string, std::string>("layout.spacing_m", "0.4 (default)"));
    CHECK(header.grid.cells_x == grid.cells_x);
    CHECK(header.grid.cells_y == grid.cells_y);
    CHECK(header.grid.node_m == grid.node_m);
    CHECK(header.side ==
          std::array<std::string, 4>{"rigid-smooth", "symmetry", "constant-stress", "rigid-smooth"});
    REQUIRE(header.pile_center_m.cols() == piles);
    CHECK(header.pile_center_m.col(2) == made_up.plan.piles[2].center_m);
    CHECK(header.pile_diameter_m[1] == made_up.plan.piles[1].diameter_m);
    CHECK(header.order == std::vector<int>{2, 0, 1});
    CHECK(header.seed_radius_m == made_up.plan.strokes.seed_radius_m);
    CHECK(header.initial_vertical_stress_kPa == 55);
    CHECK(header.initial_relative_density_pct == Approx(42));
    CHECK(header.depth_m == 6);
    CHECK(header.initial_lateral_stress_ratio == made_up.slice.K0);
    CHECK(header.target_relative_density_pct == 75);
    CHECK(header.sampling_radius_m == 0.07);
    CHECK(header.treated.corners_m() == made_up.plan.record.treated.corners_m());
    REQUIRE(header.points.size() == 2);
    CHECK(header.points[1].name == "Böschung");
    CHECK(header.points[1].at_m == mesh::Vec2(0.8, 0.6));

    REQUIRE(reader.stage_count() == 4);
    for (int stage = 0; stage < 4; ++stage) {
        const auto read = reader.stage(stage);
        CHECK(read.stage == stage);
        CHECK(first_difference(read, grid, piles).empty());
    }
    CHECK_THROWS_AS(reader.stage(4), io::FileTrouble);
    CHECK_THROWS_AS(reader.stage(-1), io::FileTrouble);
    REQUIRE(reader.history().pile.size() == 30);
    CHECK(first_difference(reader.history()).empty());
    REQUIRE(reader.half_strokes().pile.size() == 12);
    CHECK(first_difference(reader.half_strokes()).empty());
    CHECK(reader.warnings().empty());
    CHECK_FALSE(std::filesystem::exists(folder / "result.h5.part"));
}

TEST_CASE("warnings are kept in order, long ones cut between characters", "[results]") {
    const ScratchFolder folder;
    const auto grid = synthetic_grid();
    std::string endless;
    for (int i = 0; i < 400; ++i)
        endless += "σ"; // two bytes each
    {
        io::ResultsWriter writer(folder / "w.h5", synthetic_case(), grid, false, false);
        writer.on_warning("casing pressure above 3 MPa");
        writer.on_warning(endless);
        writer.on_warning("odd" + endless);
        writer.finish();
    }
    const io::ResultsReader reader(folder / "w.h5");
    const auto warnings = reader.warnings();
    REQUIRE(warnings.size() == 3);
    CHECK(warnings[0] == "casing pressure above 3 MPa");
    for (const auto& cut : {warnings[1], "odd" + warnings[2].substr(3)}) {
        CHECK(cut.size() >= 478);
        CHECK(cut.size() <= 480);
        CHECK(cut.substr(cut.size() - 5) == "σ..."); // a half character would not be σ
    }
    CHECK(reader.header().monotonic_density);
}

TEST_CASE("every dataset says what it is", "[results]") {
    const ScratchFolder folder;
    write_result(folder / "result.h5", 2);
    const auto file = io::hdf5::File::open_to_read(folder / "result.h5");

    std::set<std::string> documented;
    for (const auto& info : io::results_layout())
        documented.insert(info.path);
    CHECK(dataset_paths(file) == documented);
    for (const auto& info : io::results_layout()) {
        INFO(info.path);
        CHECK(io::hdf5::text_attribute(file, info.path, "unit") == info.unit);
        CHECK(io::hdf5::text_attribute(file, info.path, "symbol") == info.symbol);
        CHECK(io::hdf5::text_attribute(file, info.path, "long_name") == info.long_name);
        CHECK(io::hdf5::text_attribute(file, info.path, "sign") == info.sign);
        CHECK_FALSE(info.unit.empty());
        CHECK_FALSE(info.long_name.empty());
        CHECK(io::hdf5::Dataset::open(file, info.path).shape().size() == info.axes.size());
    }
    for (const auto& info : mesh::field_table()) {
        const std::string path = "/fields/" + std::string(info.name);
        CHECK(io::hdf5::text_attribute(file, path, "symbol") == info.symbol);
        CHECK(io::hdf5::text_attribute(file, path, "unit") == info.unit);
    }
}

TEST_CASE("an earlier result survives until a new one has begun", "[results]") {
    const ScratchFolder folder;
    const auto file = folder / "result.h5";
    const auto part = folder / "result.h5.part";
    write_result(file, 2);
    const std::string earlier = bytes_of(file);

    SECTION("overwriting not allowed") {
        CHECK_THROWS_WITH(write_result(file, 3), Contains("earlier result") && Contains(file.string()));
        CHECK(bytes_of(file) == earlier);
    }
    SECTION("overwriting allowed") {
        std::ofstream(part) << "left by a run that died";
        write_result(file, 3, true);
        CHECK(io::ResultsReader(file).stage_count() == 3);
        CHECK_FALSE(std::filesystem::exists(part));
    }
    SECTION("the header cannot be written: a case without a valid boundary kind") {
        auto broken = synthetic_case();
        broken.domain.side[0] = static_cast<mesh::BoundaryKind>(99);
        CHECK_THROWS_AS(io::ResultsWriter(file, broken, synthetic_grid(), true, true), std::invalid_argument);
        CHECK(bytes_of(file) == earlier);
        CHECK_FALSE(std::filesystem::exists(part));
    }
    SECTION("the header cannot be written: something stands in its way") {
        std::filesystem::create_directories(part / "not empty");
        CHECK_THROWS_WITH(write_result(file, 3, true), Contains(part.string()));
        CHECK(bytes_of(file) == earlier);
    }
}

TEST_CASE("a bad place for a result is refused with its reason", "[results]") {
    const ScratchFolder folder;
    CHECK_THROWS_WITH(write_result(folder / "nowhere" / "r.h5", 1), Contains("does not exist"));
    std::filesystem::create_directory(folder / "folder.h5");
    CHECK_THROWS_WITH(write_result(folder / "folder.h5", 1), Contains("is a folder"));
    CHECK_THROWS_AS(write_result("/proc/r.h5", 1),
                    io::FileTrouble); // nobody can create files there, not even root
}

TEST_CASE("a case without points, treated area and target", "[results]") {
    const ScratchFolder folder;
    auto bare = synthetic_case();
    bare.plan.record = {};
    bare.target_relative_density_pct.reset();
    {
        io::ResultsWriter writer(folder / "r.h5", bare, synthetic_grid(), true, false);
        auto record = synthetic_half_stroke(0);
        CHECK_THROWS_WITH(writer.on_half_stroke(record), Contains("densities at points"));
        record.point_density_pct.resize(0);
        record.point_stress_ratio.resize(0);
        record.point_pressure_kPa.resize(0);
        record.relative_density_pct = std::numeric_limits<double>::quiet_NaN(); // there is no treated area
        writer.on_half_stroke(record);
        writer.finish();
    }
    const io::ResultsReader reader(folder / "r.h5");
    CHECK(reader.header().points.empty());
    CHECK(reader.header().treated.empty());
    CHECK_FALSE(reader.header().target_relative_density_pct.has_value());
    const auto read = reader.half_strokes();
    REQUIRE(read.pile.size() == 1);
    CHECK(std::isnan(read.relative_density_pct[0]));
    CHECK(read.point_density_pct.rows() == 0);
}

TEST_CASE("a file of version 1 of the layout is read without what it did not have", "[results]") {
    const ScratchFolder folder;
    write_result(folder / "old.h5", 2);
    { // take away what version 2 added
        const io::hdf5::Handle file(H5Fopen((folder / "old.h5").c_str(), H5F_ACC_RDWR, H5P_DEFAULT));
        REQUIRE(file.get() >= 0);
        for (const char* object : {"/half_strokes", "/points", "/mesh/treated_area_m"})
            REQUIRE(H5Ldelete(file.get(), object, H5P_DEFAULT) >= 0);
        for (const char* attribute :
             {"initial_lateral_stress_ratio", "sampling_radius_m", "target_relative_density_pct"})
            REQUIRE(H5Adelete(file.get(), attribute) >= 0);
        const int version = 1;
        const io::hdf5::Handle attribute(H5Aopen(file.get(), "format_version", H5P_DEFAULT));
        REQUIRE(H5Awrite(attribute.get(), H5T_NATIVE_INT, &version) >= 0);
    }
    const io::ResultsReader reader(folder / "old.h5");
    CHECK(reader.stage_count() == 2);
    CHECK(reader.history().pile.size() == 10);
    CHECK(reader.half_strokes().pile.size() == 0);
    CHECK(reader.header().points.empty());
    CHECK(reader.header().treated.empty());
}

TEST_CASE("a file of version 2 of the layout is read without time and pore pressure", "[results]") {
    const ScratchFolder folder;
    write_result(folder / "old.h5", 2);
    { // take away what version 3 added
        const io::hdf5::Handle file(H5Fopen((folder / "old.h5").c_str(), H5F_ACC_RDWR, H5P_DEFAULT));
        REQUIRE(file.get() >= 0);
        for (const char* object :
             {"/stage/time_s", "/stage/mean_excess_pressure_kPa", "/history/time_s", "/half_strokes/time_s",
              "/points/excess_pressure_kPa", "/fields/excess_pore_pressure_kPa", "/fields/seepage_x_m_s"})
            REQUIRE(H5Ldelete(file.get(), object, H5P_DEFAULT) >= 0);
        const int version = 2;
        const io::hdf5::Handle attribute(H5Aopen(file.get(), "format_version", H5P_DEFAULT));
        REQUIRE(H5Awrite(attribute.get(), H5T_NATIVE_INT, &version) >= 0);
    }
    const io::ResultsReader reader(folder / "old.h5");
    const auto stage = reader.stage(1);
    CHECK(stage.time_s == 0);
    CHECK(stage.fields.count("excess_pore_pressure_kPa") == 0);
    CHECK(stage.fields.count("void_ratio") == 1);
    CHECK(reader.history().time_s.size() == 0);
    CHECK(reader.half_strokes().point_pressure_kPa.size() == 0);
}

TEST_CASE("the stage after a rest is known by the record at its time", "[results]") {
    const ScratchFolder folder;
    const auto grid = synthetic_grid();
    {
        io::ResultsWriter writer(folder / "rest.h5", synthetic_case(), grid, true, false);
        const auto stage = [&](int number, double time_s) {
            auto record = synthetic_stage(grid, piles, number);
            record.time_s = time_s;
            writer.on_stage(record);
        };
        const auto half_stroke = [&](solver::Phase phase, double time_s) {
            auto record = synthetic_half_stroke(0);
            record.phase = phase;
            record.time_s = time_s;
            writer.on_half_stroke(record);
        };
        stage(0, 0);
        half_stroke(solver::Phase::Redrive, 20);
        stage(1, 20);
        half_stroke(solver::Phase::Rest, 30);
        half_stroke(solver::Phase::Rest, 70);
        stage(2, 70);
        writer.finish();
    }
    const io::ResultsReader reader(folder / "rest.h5");
    REQUIRE(reader.stage_count() == 3);
    CHECK_FALSE(reader.stage(0).after_rest);
    CHECK_FALSE(reader.stage(1).after_rest);
    CHECK(reader.stage(2).after_rest);
    CHECK(io::phase_in_words(io::rest_phase) == "rest");
}

TEST_CASE("an incomplete stage is refused before anything of it is written", "[results]") {
    const ScratchFolder folder;
    const auto grid = synthetic_grid();
    io::ResultsWriter writer(folder / "r.h5", synthetic_case(), grid, true, false);
    auto record = synthetic_stage(grid, piles, 0);
    record.fields.erase("void_ratio");
    CHECK_THROWS_WITH(writer.on_stage(record), Contains("void_ratio"));
    CHECK_THROWS_AS(writer.on_stage(synthetic_stage(grid, piles + 1, 0)), std::invalid_argument);
    writer.on_stage(synthetic_stage(grid, piles, 0));
    writer.finish();
    CHECK(io::ResultsReader(folder / "r.h5").stage_count() == 1);
}

TEST_CASE("what is not a results file is said so", "[results]") {
    const ScratchFolder folder;
    CHECK_THROWS_WITH(io::ResultsReader(folder / "missing.h5"), Contains("no such file"));
    CHECK_THROWS_WITH(io::ResultsReader(folder / ""), Contains("folder"));

    std::ofstream(folder / "text.h5") << "pile,depth\n";
    CHECK_THROWS_WITH(io::ResultsReader(folder / "text.h5"), Contains("not a results file"));

    write_result(folder / "good.h5", 2);
    const std::string bytes = bytes_of(folder / "good.h5");
    for (const double share : {0.0, 0.01, 0.3, 0.7}) {
        std::ofstream(folder / "torn.h5", std::ios::binary)
            << bytes.substr(0, std::size_t(share * bytes.size()));
        CHECK_THROWS_AS(io::ResultsReader(folder / "torn.h5"), io::FileTrouble);
    }

    { // HDF5, but of some other program
        auto other = io::hdf5::File::create(folder / "other.h5");
        io::hdf5::write_attribute(other, "/", "format", std::string("something else"));
    }
    CHECK_THROWS_WITH(io::ResultsReader(folder / "other.h5"), Contains("not a results file"));

    { // ours, of the future
        auto newer = io::hdf5::File::create(folder / "newer.h5");
        io::hdf5::write_attribute(newer, "/", "format", std::string(io::results_format));
        io::hdf5::write_attribute(newer, "/", "format_version", io::results_format_version + 1);
        io::hdf5::write_attribute(newer, "/", "program_version", std::string("99.0"));
    }
    CHECK_THROWS_WITH(io::ResultsReader(folder / "newer.h5"), Contains("newer version") && Contains("99.0"));
}
