#include "postprocess/sample.h"

#include "postprocess/ground.h"
#include "postprocess/interpolation.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::postprocess {

namespace {

/// Enough digits to get a stored single-precision value back.
std::string written(double value) {
    return fmt::format("{:.9g}", value);
}

void write_rows(const io::ResultsStage& stage, const mesh::Grid& grid, const std::vector<mesh::Vec2>& points,
                std::vector<std::string> fields, std::ostream& csv) {
    if (fields.empty())
        for (const auto& info : mesh::field_table())
            if (stage.fields.count(std::string(info.name)) > 0)
                fields.emplace_back(info.name);
    std::vector<const Eigen::ArrayXd*> values;
    for (const auto& field : fields)
        values.push_back(&field_values(stage, field));
    csv << fmt::format("distance_m,x_m,y_m{}{}\n", fields.empty() ? "" : ",", fmt::join(fields, ","));

    const CellInterpolation interpolation({grid.cells_x, grid.cells_y, stage.node_m});
    double distance = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        distance += i > 0 ? (points[i] - points[i - 1]).norm() : 0;
        csv << written(distance) << ',' << written(points[i].x()) << ',' << written(points[i].y());
        const auto weights = interpolation.at(points[i]);
        for (const auto* value : values)
            csv << ',' << (weights ? written(weights->apply(*value)) : "");
        csv << '\n';
    }
}

} // namespace

void sample_line(const io::ResultsStage& stage, const mesh::Grid& grid, const SampleLine& line,
                 const std::vector<std::string>& fields, std::ostream& csv) {
    if (line.points < 2)
        throw std::invalid_argument(
            fmt::format("a line of {} points cannot be sampled; give 2 or more", line.points));
    std::vector<mesh::Vec2> points(line.points);
    for (int i = 0; i < line.points; ++i) {
        const double share = static_cast<double>(i) / (line.points - 1);
        points[i] = (1 - share) * line.from + share * line.to;
    }
    write_rows(stage, grid, points, fields, csv);
}

void sample_points(const io::ResultsStage& stage, const mesh::Grid& grid,
                   const std::vector<mesh::Vec2>& points, const std::vector<std::string>& fields,
                   std::ostream& csv) {
    write_rows(stage, grid, points, fields, csv);
}

} // namespace interpile::postprocess
