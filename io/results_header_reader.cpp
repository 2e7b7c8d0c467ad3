#include "io/results_header_reader.h"

#include "io/results_rows.h"
#include "solver/calendar_date.h"

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

using hdf5::Dataset;

mesh::Grid read_grid(const hdf5::File& file) {
    mesh::Grid grid;
    grid.cells_x = static_cast<int>(hdf5::number_attribute(file, "/", "cells_x"));
    grid.cells_y = static_cast<int>(hdf5::number_attribute(file, "/", "cells_y"));
    const auto found = Dataset::open(file, "/mesh/node_m").shape();
    if (grid.cells_x < 1 || grid.cells_y < 1 || found.at(0) != static_cast<hsize_t>(grid.node_count()))
        file.fail("read, as its mesh does not fit its cell counts,", "/mesh/node_m");
    grid.node_m.resize(2, grid.node_count());
    read_whole(file, "/mesh/node_m", grid.node_m.data(), {as_size(grid.node_m.cols()), 2});
    return grid;
}

/// Rows of x, y; none if the file has no such dataset.
std::vector<mesh::Vec2> read_places(const hdf5::File& file, const char* path) {
    if (!file.has(path))
        return {};
    Eigen::Matrix2Xd rows(2, static_cast<Eigen::Index>(Dataset::open(file, path).shape().at(0)));
    read_whole(file, path, rows.data(), {as_size(rows.cols()), 2});
    return {rows.colwise().begin(), rows.colwise().end()};
}

/// What version 1 of the layout did not have.
void read_record(const hdf5::File& file, ResultsHeader& header) {
    const auto number = [&file](const char* name) { return hdf5::number_attribute(file, "/", name); };
    header.initial_lateral_stress_ratio = number("initial_lateral_stress_ratio");
    header.sampling_radius_m = number("sampling_radius_m");
    if (const double target = number("target_relative_density_pct"); !std::isnan(target))
        header.target_relative_density_pct = target;

    header.treated = mesh::TreatedArea(read_places(file, "/mesh/treated_area_m"));
    const auto places = read_places(file, "/points/position_m");
    const auto names =
        places.empty() ? std::vector<std::string>() : Dataset::open(file, "/points/name").read_texts();
    if (names.size() != places.size())
        file.fail("read a name for every place from", "/points/name");
    for (std::size_t k = 0; k < places.size(); ++k)
        header.points.push_back({names[k], places[k]});
}

} // namespace

std::string site_clock(const ResultsHeader& header, double time_s) {
    const auto begins = solver::local_time(header.work_begins);
    return begins ? solver::in_words(solver::later(*begins, time_s)) : std::string();
}

ResultsHeader read_results_header(const hdf5::File& file) {
    const auto text = [&file](const char* name) { return hdf5::text_attribute(file, "/", name); };
    const auto number = [&file](const char* name) { return hdf5::number_attribute(file, "/", name); };
    ResultsHeader header;
    header.case_name = text("case_name");
    header.title = text("title");
    header.program_version = text("program_version");
    header.started = text("started");
    if (hdf5::has_attribute(file, "/", "work_begins")) // later files of version 3
        header.work_begins = text("work_begins");
    header.finished = number("finished") != 0;
    header.monotonic_density = number("monotonic_density") != 0;
    header.seed_radius_m = number("seed_radius_m");
    header.initial_vertical_stress_kPa = number("initial_vertical_stress_kPa");
    header.initial_relative_density_pct = number("initial_relative_density_pct");
    header.depth_m = number("depth_m");

    header.case_text = Dataset::open(file, "/case_text").read_texts().at(0);
    const auto keys = Dataset::open(file, "/settings/key").read_texts();
    auto values = Dataset::open(file, "/settings/value").read_texts();
    std::vector<int> is_default(keys.size());
    read_whole(file, "/settings/is_default", is_default.data(), {keys.size()});
    values.resize(keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i)
        header.settings.emplace_back(keys[i], values[i] + (is_default[i] ? " (default)" : ""));

    header.setting_sources = Dataset::open(file, "/settings/source").read_texts();
    header.setting_sources.resize(keys.size());

    header.grid = read_grid(file);
    const auto side = Dataset::open(file, "/mesh/side").read_texts();
    if (side.size() != header.side.size())
        file.fail("read four sides from", "/mesh/side");
    std::copy(side.begin(), side.end(), header.side.begin());

    const auto piles = Dataset::open(file, "/piles/diameter_m").shape().at(0);
    header.pile_center_m.resize(2, static_cast<Eigen::Index>(piles));
    header.pile_diameter_m.resize(static_cast<Eigen::Index>(piles));
    read_whole(file, "/piles/center_m", header.pile_center_m.data(), {piles, 2});
    read_whole(file, "/piles/diameter_m", header.pile_diameter_m.data(), {piles});
    if (number("format_version") >= 2)
        read_record(file, header);
    header.order.resize(Dataset::open(file, "/piles/order").shape().at(0));
    read_whole(file, "/piles/order", header.order.data(), {header.order.size()});
    return header;
}

} // namespace interpile::io
