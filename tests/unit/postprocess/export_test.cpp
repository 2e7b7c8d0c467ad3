#include "invented_result.h"
#include "postprocess/vtk_stage.h"
#include "temporary_folder.h"

#include <catch2/catch.hpp>
#include <vtkCellData.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

using namespace interpile;
using namespace interpile::tests;

TEST_CASE("an exported stage reads back with its coordinates and values", "[export]") {
    const auto result = invented_three_by_three(0.34);
    const TemporaryFolder folder("interpile_export");
    const auto file = folder.path() / "stage.vtu";
    postprocess::write_vtk_stage(result.header, result.stage, file);

    vtkNew<vtkXMLUnstructuredGridReader> reader;
    reader->SetFileName(file.c_str());
    reader->Update();
    vtkUnstructuredGrid* grid = reader->GetOutput();
    REQUIRE(grid->GetNumberOfPoints() == result.header.grid.node_count());
    REQUIRE(grid->GetNumberOfCells() == result.header.grid.cell_count());
    CHECK(grid->GetCellData()->GetNumberOfArrays() == static_cast<int>(mesh::field_table().size()));

    vtkDataArray* moved = grid->GetPointData()->GetArray("displacement_m");
    REQUIRE(moved != nullptr);
    double largest_error = 0;
    for (int node = 0; node < result.header.grid.node_count(); ++node) {
        const Eigen::Vector3d at(grid->GetPoint(node)), displacement(moved->GetTuple3(node));
        const mesh::Vec2 now = result.stage.node_m.col(node), before = result.header.grid.node_m.col(node);
        largest_error = std::max({largest_error, (at.head<2>() - now).norm(), std::abs(at.z()),
                                  (displacement.head<2>() - (now - before)).norm()});
    }
    CHECK(largest_error == 0);
    for (const auto& [name, values] : result.stage.fields) {
        vtkDataArray* array = grid->GetCellData()->GetArray(name.c_str());
        REQUIRE(array != nullptr);
        for (int cell = 0; cell < result.header.grid.cell_count(); ++cell)
            if (array->GetTuple1(cell) != values[cell])
                FAIL(name << " differs in cell " << cell);
    }
    // Corners of the first cell counterclockwise, as the grid numbers them.
    const auto corner = result.header.grid.cell_nodes(0);
    for (int k = 0; k < 4; ++k)
        CHECK(grid->GetCell(0)->GetPointId(k) == corner[k]);
    CHECK(grid->GetFieldData()->GetArray("piles_finished")->GetTuple1(0) == 9);
    CHECK(grid->GetFieldData()->GetArray("converged")->GetTuple1(0) == 1);
}

TEST_CASE("a series lists every stage with the piles finished as time", "[export]") {
    const auto result = invented_three_by_three(0.85);
    const TemporaryFolder folder("interpile_series");
    const auto stage_at = [&](int index) {
        auto stage = result.stage;
        for (int pile = 4 * index; pile < 9; ++pile)
            stage.disc_radius_m[pile] = result.header.seed_radius_m;
        return stage;
    };
    const auto files = postprocess::export_vtk(result.header, 3, stage_at, folder.path());
    REQUIRE(files.size() == 4);
    CHECK(files[1].filename() == "invented_001.vtu");
    CHECK(files[3].filename() == "invented.pvd");
    const auto list = bytes_of(files[3]);
    CHECK(list.find("timestep=\"0\" part=\"0\" file=\"invented_000.vtu\"") != std::string::npos);
    CHECK(list.find("timestep=\"4\" part=\"0\" file=\"invented_001.vtu\"") != std::string::npos);
    CHECK(list.find("timestep=\"8\" part=\"0\" file=\"invented_002.vtu\"") != std::string::npos);

    // With flow of water in time the series has the times [s].
    const auto in_time = [&](int index) {
        auto stage = stage_at(index);
        stage.time_s = 1800.5 * index;
        return stage;
    };
    const auto timed = bytes_of(postprocess::export_vtk(result.header, 3, in_time, folder.path()).at(3));
    CHECK(timed.find("timestep=\"0\" part=\"0\" file=\"invented_000.vtu\"") != std::string::npos);
    CHECK(timed.find("timestep=\"3601\" part=\"0\" file=\"invented_002.vtu\"") != std::string::npos);

    const auto first = bytes_of(files[1]);
    postprocess::export_vtk(result.header, 3, stage_at, folder.path());
    CHECK(first == bytes_of(files[1]));
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
        CHECK(entry.path().extension() != ".part");
}

TEST_CASE("a folder that cannot be written is named and nothing is left", "[export]") {
    const auto result = invented_three_by_three(0.85);
    const TemporaryFolder folder("interpile_blocked");
    const auto blocker = folder.path() / "file";
    std::ofstream(blocker) << "not a folder";
    CHECK_THROWS_AS(postprocess::write_vtk_stage(result.header, result.stage, blocker / "stage.vtu"),
                    io::FileTrouble);
    CHECK_THROWS_WITH(postprocess::write_vtk_stage(result.header, result.stage, blocker / "stage.vtu"),
                      Catch::Contains("stage.vtu"));
    CHECK(bytes_of(blocker) == "not a folder");
}
