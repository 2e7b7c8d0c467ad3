#include "postprocess/vtk_stage.h"

#include "postprocess/ground.h"
#include "postprocess/replace_file.h"

#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

namespace interpile::postprocess {

namespace {

vtkNew<vtkDoubleArray> plane_vectors(const Eigen::Matrix2Xd& vectors) {
    vtkNew<vtkDoubleArray> array;
    array->SetNumberOfComponents(3);
    for (Eigen::Index i = 0; i < vectors.cols(); ++i)
        array->InsertNextTuple3(vectors(0, i), vectors(1, i), 0);
    return array;
}

void add_remark(vtkUnstructuredGrid* grid, const char* name, int value) {
    vtkNew<vtkIntArray> array;
    array->SetName(name);
    array->InsertNextValue(value);
    grid->GetFieldData()->AddArray(array);
}

} // namespace

void write_vtk_stage(const io::ResultsHeader& header, const io::ResultsStage& stage,
                     const std::filesystem::path& file) {
    vtkNew<vtkUnstructuredGrid> grid;
    vtkNew<vtkPoints> points;
    points->SetData(plane_vectors(stage.node_m));
    grid->SetPoints(points);
    grid->AllocateExact(header.grid.cell_count(), 4);
    for (int cell = 0; cell < header.grid.cell_count(); ++cell) {
        const auto node = header.grid.cell_nodes(cell);
        const std::array<vtkIdType, 4> ids = {node[0], node[1], node[2], node[3]};
        grid->InsertNextCell(VTK_QUAD, 4, ids.data());
    }
    for (const auto& [name, values] : stage.fields) {
        vtkNew<vtkDoubleArray> array;
        array->SetName(name.c_str());
        for (double value : values)
            array->InsertNextValue(value);
        grid->GetCellData()->AddArray(array);
    }
    const auto displacement = plane_vectors(stage.node_m - header.grid.node_m);
    displacement->SetName("displacement_m");
    grid->GetPointData()->AddArray(displacement);
    add_remark(grid, "piles_finished", piles_finished(header, stage));
    add_remark(grid, "converged", stage.converged ? 1 : 0);

    replace_file(file, [&](const std::filesystem::path& part) {
        vtkNew<vtkXMLUnstructuredGridWriter> writer;
        writer->SetFileName(part.c_str());
        writer->SetInputData(grid);
        writer->SetDataModeToAppended();
        writer->EncodeAppendedDataOff();
        writer->SetCompressorTypeToZLib();
        if (writer->Write() != 1)
            throw std::filesystem::filesystem_error("write", part, std::make_error_code(std::errc::io_error));
    });
}

} // namespace interpile::postprocess
