#include "io/results_header.h"

#include "io/results_layout.h"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <type_traits>
#include <vector>

namespace interpile::io {

namespace {

using hdf5::Dataset;

std::string kind_word(mesh::BoundaryKind kind) {
    switch (kind) {
    case mesh::BoundaryKind::RigidSmooth:
        return "rigid-smooth";
    case mesh::BoundaryKind::Symmetry:
        return "symmetry";
    case mesh::BoundaryKind::ConstantStress:
        return "constant-stress";
    }
    throw std::invalid_argument("unknown kind of boundary");
}

void write_root_attributes(const hdf5::File& file, const Case& run_case, const mesh::Grid& grid,
                           bool densifies_by_cycles, const std::string& started) {
    const auto root = [&file](const char* name, const auto& value) {
        hdf5::write_attribute(file, "/", name, value);
    };
    root("format", std::string(results_format));
    root("format_version", results_format_version);
    root("program_version", std::string(INTERPILE_VERSION));
    root("case_name", run_case.name);
    root("title", run_case.title);
    root("started", started);
    const auto& begins = run_case.plan.schedule.begins;
    root("work_begins", begins ? solver::iso_8601(*begins) : std::string());
    root("soil_model", run_case.soil.name);
    root("monotonic_density", densifies_by_cycles ? 0 : 1);
    root("depth_m", run_case.slice.depth_m);
    root("initial_vertical_stress_kPa", run_case.slice.vertical_stress_kPa);
    root("initial_relative_density_pct", run_case.slice.relative_density_pct(run_case.slice.void_ratio));
    root("initial_lateral_stress_ratio", run_case.slice.K0);
    root("target_relative_density_pct",
         run_case.target_relative_density_pct.value_or(std::numeric_limits<double>::quiet_NaN()));
    root("sampling_radius_m", run_case.plan.record.sampling_radius_m);
    root("seed_radius_m", run_case.plan.strokes.seed_radius_m);
    root("cells_x", grid.cells_x);
    root("cells_y", grid.cells_y);
    root("finished", 0); // there from the start: under SWMR an attribute may change but not be added
}

template <class Number>
void write_array(const hdf5::File& file, const char* path, const Number* values,
                 const Dataset::Shape& shape) {
    const hid_t type = std::is_same_v<Number, int> ? H5T_STD_I32LE : H5T_IEEE_F64LE;
    Dataset::create(file, path, type, shape).write(values);
}

void write_texts(const hdf5::File& file, const char* path, const std::vector<std::string>& texts,
                 const Dataset::Shape& shape) {
    std::size_t width = 1;
    for (const auto& text : texts)
        width = std::max(width, text.size());
    std::string bytes;
    for (const auto& text : texts)
        bytes += text + std::string(width - text.size(), '\0');
    const auto type = hdf5::text_type(file, width);
    Dataset::create(file, path, type.get(), shape).write(type.get(), bytes.data());
}

void write_settings(const hdf5::File& file, const Case& run_case) {
    std::vector<std::string> keys, values, sources;
    std::vector<int> is_default;
    for (const auto& setting : run_case.settings) {
        keys.push_back(setting.key);
        values.push_back(setting.value);
        sources.push_back(setting.source);
        is_default.push_back(setting.is_default ? 1 : 0);
    }
    write_texts(file, "/case_text", {run_case.text}, {});
    write_texts(file, "/settings/key", keys, {keys.size()});
    write_texts(file, "/settings/value", values, {values.size()});
    write_texts(file, "/settings/source", sources, {sources.size()});
    write_array(file, "/settings/is_default", is_default.data(), {is_default.size()});
}

void write_mesh(const hdf5::File& file, const Case& run_case, const mesh::Grid& grid) {
    std::vector<int> corners;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (const int node : grid.cell_nodes(cell))
            corners.push_back(node);
    std::vector<std::string> kinds;
    for (const auto kind : run_case.domain.side)
        kinds.push_back(kind_word(kind));
    write_array(file, "/mesh/node_m", grid.node_m.data(), {static_cast<hsize_t>(grid.node_count()), 2});
    write_array(file, "/mesh/cell_nodes", corners.data(), {static_cast<hsize_t>(grid.cell_count()), 4});
    write_texts(file, "/mesh/side", kinds, {kinds.size()});
}

void write_piles(const hdf5::File& file, const solver::InstallationPlan& plan) {
    std::vector<double> centers, diameters;
    for (const auto& pile : plan.piles) {
        centers.insert(centers.end(), {pile.center_m.x(), pile.center_m.y()});
        diameters.push_back(pile.diameter_m);
    }
    std::vector<int> order;
    for (const auto& group : plan.order)
        order.insert(order.end(), group.begin(), group.end());
    write_array(file, "/piles/center_m", centers.data(), {plan.piles.size(), 2});
    write_array(file, "/piles/diameter_m", diameters.data(), {plan.piles.size()});
    write_array(file, "/piles/order", order.data(), {order.size()});
}

void write_record(const hdf5::File& file, const solver::RecordPlan& record) {
    std::vector<double> corners, places;
    for (const auto& corner : record.treated.corners_m())
        corners.insert(corners.end(), {corner.x(), corner.y()});
    std::vector<std::string> names;
    for (const auto& point : record.points) {
        names.push_back(point.name);
        places.insert(places.end(), {point.at_m.x(), point.at_m.y()});
    }
    if (!corners.empty())
        write_array(file, "/mesh/treated_area_m", corners.data(), {corners.size() / 2, 2});
    if (names.empty())
        return;
    write_texts(file, "/points/name", names, {names.size()});
    write_array(file, "/points/position_m", places.data(), {names.size(), 2});
}

hsize_t extent(const std::string& axis, const Case& run_case, const mesh::Grid& grid) {
    if (axis == "node")
        return static_cast<hsize_t>(grid.node_count());
    if (axis == "cell")
        return static_cast<hsize_t>(grid.cell_count());
    if (axis == "pile")
        return run_case.plan.piles.size();
    if (axis == "point")
        return run_case.plan.record.points.size();
    return std::stoul(axis); // a fixed extent
}

bool grows(const DatasetInfo& info) {
    return info.grows_with("stage") || info.grows_with("half_stroke") || info.grows_with("increment") ||
           info.grows_with("warning");
}

Dataset declare(const hdf5::File& file, const DatasetInfo& info, const Dataset::Shape& row) {
    Dataset::Growing how;
    const bool numbers = row.empty() || info.grows_with("half_stroke"); // rows of a few bytes
    how.compressed = !numbers;
    if (numbers)
        how.rows_per_chunk = info.grows_with("increment") ? 1024 : info.grows_with("half_stroke") ? 256 : 32;
    if (info.path == last_of_stage)
        how.fill = no_stage; // the other mark, no_place, is the library's own fill value 0
    switch (info.storage) {
    case Storage::Text:
        return Dataset::create_growing(file, info.path, hdf5::text_type(file, warning_bytes).get(), row, how);
    case Storage::Integer:
        return Dataset::create_growing(file, info.path, H5T_STD_I32LE, row, how);
    case Storage::Real:
        return Dataset::create_growing(file, info.path, H5T_IEEE_F64LE, row, how);
    case Storage::Single:
        return Dataset::create_growing(file, info.path, H5T_IEEE_F32LE, row, how);
    }
    throw std::logic_error("unknown storage of " + info.path);
}

} // namespace

GrowingDatasets write_results_header(const hdf5::File& file, const Case& run_case, const mesh::Grid& grid,
                                     bool densifies_by_cycles, const std::string& started) {
    write_root_attributes(file, run_case, grid, densifies_by_cycles, started);
    write_settings(file, run_case);
    write_mesh(file, run_case, grid);
    write_piles(file, run_case.plan);
    write_record(file, run_case.plan.record);

    GrowingDatasets growing;
    for (const auto& info : results_layout()) {
        const auto& record = run_case.plan.record;
        if ((info.has_axis("point") && record.points.empty()) ||
            (info.has_axis("corner") && record.treated.empty()))
            continue;
        if (grows(info)) {
            Dataset::Shape row;
            for (auto axis = info.axes.begin() + 1; axis != info.axes.end(); ++axis)
                row.push_back(extent(*axis, run_case, grid));
            growing.emplace(info.path, declare(file, info, row));
        }
        describe(file, info);
    }
    return growing;
}

} // namespace interpile::io
