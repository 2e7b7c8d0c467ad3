#include "postprocess/contours.h"

#include "postprocess/outline.h"
#include "postprocess/smoothing.h"

#include <vtkBandedPolyDataContourFilter.h>
#include <vtkCellArray.h>
#include <vtkContourFilter.h>
#include <vtkDoubleArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkStripper.h>

#include <SMP/Common/vtkSMPToolsAPI.h> // vtkSMPTools.h itself is not valid C++20 in VTK 9.1
#include <stdexcept>

namespace interpile::postprocess {

namespace {

/// Four triangles per cell around its middle: a linear field over triangles has no ambiguous saddle. The middle takes
/// the mean of its corners, not the cell's own value: a pattern that alternates from cell to cell, the noise of one
/// stress point per cell, averages out at the corners and would come back through the middles.
vtkNew<vtkPolyData> triangles(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value) {
    // Threads would give another order of lines in every run.
    vtk::detail::smp::vtkSMPToolsAPI::GetInstance().SetBackend("Sequential");
    const int nodes = grid.node_count();
    const std::vector<bool> all(grid.cell_count(), true);
    const Eigen::ArrayXd node_value = node_averages(grid, cell_value, all);
    const Eigen::ArrayXd middle_value = means_of_nodes(grid, node_value, all);
    vtkNew<vtkPoints> points;
    points->SetDataTypeToDouble();
    vtkNew<vtkDoubleArray> values;
    for (int node = 0; node < nodes; ++node) {
        points->InsertNextPoint(grid.node_m(0, node), grid.node_m(1, node), 0);
        values->InsertNextValue(node_value[node]);
    }
    vtkNew<vtkCellArray> cells;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corner = grid.cell_nodes(cell);
        mesh::Vec2 middle(0, 0);
        for (int node : corner)
            middle += 0.25 * grid.node_m.col(node);
        points->InsertNextPoint(middle.x(), middle.y(), 0);
        values->InsertNextValue(middle_value[cell]);
        for (int k = 0; k < 4; ++k)
            cells->InsertNextCell({corner[k], corner[(k + 1) % 4], nodes + cell});
    }
    vtkNew<vtkPolyData> mesh;
    mesh->SetPoints(points);
    mesh->SetPolys(cells);
    mesh->GetPointData()->SetScalars(values);
    return mesh;
}

std::vector<BandArea> outlined(const std::vector<std::vector<Polygon>>& polygons_of_band,
                               const std::vector<mesh::Vec2>& points) {
    std::vector<BandArea> bands;
    for (std::size_t band = 0; band < polygons_of_band.size(); ++band)
        if (auto rings = outline(polygons_of_band[band], points); !rings.empty())
            bands.push_back({static_cast<int>(band), std::move(rings)});
    return bands;
}

std::vector<mesh::Vec2> plan_points(vtkPolyData* data) {
    std::vector<mesh::Vec2> points(data->GetNumberOfPoints());
    for (std::size_t i = 0; i < points.size(); ++i) {
        double p[3];
        data->GetPoint(static_cast<vtkIdType>(i), p);
        points[i] = {p[0], p[1]};
    }
    return points;
}

} // namespace

double BandArea::area_m2() const {
    double area = 0;
    for (const auto& ring : rings)
        area += ring_area(ring);
    return area;
}

std::vector<BandArea> smooth_bands(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                                   const BandScale& scale) {
    vtkNew<vtkBandedPolyDataContourFilter> filter;
    const auto mesh = triangles(grid, cell_value);
    filter->SetInputData(mesh);
    for (std::size_t i = 0; i < scale.level.size(); ++i)
        filter->SetValue(static_cast<int>(i), scale.level[i]);
    filter->Update();
    vtkPolyData* banded = filter->GetOutput();
    vtkDataArray* values = banded->GetPointData()->GetScalars();

    std::vector<std::vector<Polygon>> polygons(scale.band_count());
    vtkNew<vtkIdList> corners;
    vtkCellArray* cells = banded->GetPolys();
    for (cells->InitTraversal(); cells->GetNextCell(corners);) {
        Polygon polygon;
        double sum = 0;
        for (vtkIdType k = 0; k < corners->GetNumberOfIds(); ++k) {
            polygon.push_back(static_cast<int>(corners->GetId(k)));
            sum += values->GetTuple1(corners->GetId(k));
        }
        // The corners lie within one band, limits included; their mean is inside.
        polygons[scale.band(sum / static_cast<double>(polygon.size()))].push_back(std::move(polygon));
    }
    return outlined(polygons, plan_points(banded));
}

std::vector<BandArea> cell_bands(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                                 const BandScale& scale) {
    std::vector<mesh::Vec2> points(grid.node_count());
    for (int node = 0; node < grid.node_count(); ++node)
        points[node] = grid.node_m.col(node);
    std::vector<std::vector<Polygon>> polygons(scale.band_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corner = grid.cell_nodes(cell);
        polygons[scale.band(cell_value[cell])].emplace_back(corner.begin(), corner.end());
    }
    return outlined(polygons, points);
}

std::vector<Ring> isolines(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value, const BandScale& scale) {
    vtkNew<vtkContourFilter> contour;
    const auto mesh = triangles(grid, cell_value);
    contour->SetInputData(mesh);
    for (std::size_t i = 0; i < scale.level.size(); ++i)
        contour->SetValue(static_cast<int>(i), scale.level[i]);
    vtkNew<vtkStripper> joined;
    joined->SetInputConnection(contour->GetOutputPort());
    joined->SetMaximumLength(100000);
    joined->Update();
    const auto points = plan_points(joined->GetOutput());
    std::vector<Ring> lines;
    vtkNew<vtkIdList> ids;
    vtkCellArray* cells = joined->GetOutput()->GetLines();
    for (cells->InitTraversal(); cells->GetNextCell(ids);) {
        Ring& line = lines.emplace_back();
        for (vtkIdType k = 0; k < ids->GetNumberOfIds(); ++k)
            line.push_back(points[ids->GetId(k)]);
    }
    return lines;
}

} // namespace interpile::postprocess
