#include "postprocess/record_table.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::postprocess {

namespace {

/// A text as one value of CSV (RFC 4180).
std::string quoted(const std::string& text) {
    if (text.find_first_of(",\"\n") == std::string::npos)
        return text;
    std::string safe;
    for (const char c : text)
        safe += c == '"' ? "\"\"" : std::string(1, c);
    return "\"" + safe + "\"";
}

std::string number_or_nothing(double value) {
    return std::isnan(value) ? "" : fmt::format("{:.9g}", value);
}

std::string point_columns(const io::ResultsHeader& header) {
    std::string head;
    for (const auto& point : header.points)
        head += fmt::format(",{},{},{}", quoted("relative_density_pct at " + point.name),
                            quoted("lateral_stress_ratio at " + point.name),
                            quoted("excess_pressure_kPa at " + point.name));
    return head;
}

std::string point_values(const PointValues& at) {
    std::string values;
    for (Eigen::Index k = 0; k < at.density_pct.size(); ++k)
        values += fmt::format(",{},{},{}", number_or_nothing(at.density_pct[k]),
                              number_or_nothing(at.stress_ratio[k]), number_or_nothing(at.pressure_kPa[k]));
    return values;
}

/// Of one row of the record; pressures are not numbers where an earlier version did not record them.
PointValues points_in(const io::ResultsHalfStrokes& record, Eigen::Index row) {
    const auto points = record.point_density_pct.rows();
    PointValues at{record.point_density_pct.col(row), record.point_stress_ratio.col(row),
                   Eigen::ArrayXd::Constant(points, NAN)};
    if (record.point_pressure_kPa.cols() > 0)
        at.pressure_kPa = record.point_pressure_kPa.col(row);
    return at;
}

} // namespace

void write_half_strokes(const io::ResultsHeader& header, const io::ResultsHalfStrokes& record,
                        std::ostream& csv) {
    csv << "pile,place_in_order,stroke,phase,injected_area_m2,disc_pressure_kPa,wall_pressure_kPa,heave_"
           "strain,"
           "relative_density_pct,lateral_stress_ratio,total_injected_m2,densified_m3_m,efficiency,time_s,"
           "excess_pressure_kPa"
        << point_columns(header) << '\n';
    for (Eigen::Index row = 0; row < record.pile.size(); ++row) {
        csv << fmt::format("{},{},{},{}", record.pile[row] + 1, record.place_in_order[row],
                           record.stroke[row], io::phase_in_words(record.phase[row]));
        for (const auto* column :
             {&record.injected_area_m2, &record.disc_pressure_kPa, &record.wall_pressure_kPa,
              &record.heave_strain, &record.relative_density_pct, &record.lateral_stress_ratio,
              &record.total_injected_m2, &record.densified_m3_m, &record.efficiency, &record.time_s,
              &record.excess_pressure_kPa})
            csv << ',' << (column->size() > 0 ? number_or_nothing((*column)[row]) : "");
        csv << point_values(points_in(record, row)) << '\n';
    }
}

void write_ground(const io::ResultsHeader& header, const std::vector<StageGround>& stages,
                  std::ostream& csv) {
    csv << "stage,pile,converged,mean_relative_density_pct,least_relative_density_pct,"
           "least_at_x_m,least_at_y_m,"
           "lateral_stress_ratio_there,mean_lateral_stress_ratio,time_s,after_rest,excess_pressure_kPa";
    for (const double share : told_shares)
        csv << fmt::format(",relative_density_quantile_{:02.0f}_pct", 100 * share);
    csv << ",area_below_target_pct" << point_columns(header) << '\n';
    for (const auto& at : stages) {
        const mesh::Vec2 weakest =
            at.density.is_uniform() ? mesh::Vec2::Constant(NAN).eval() : at.density.least_at_m;
        csv << fmt::format("{},{},{}", at.stage, at.pile < 0 ? std::string() : std::to_string(at.pile + 1),
                           at.converged ? 1 : 0);
        for (const double value : {at.density.mean, at.density.least, weakest.x(), weakest.y(),
                                   at.weakest_stress_ratio, at.mean_stress_ratio})
            csv << ',' << number_or_nothing(value);
        csv << fmt::format(",{:.9g},{},{}", at.time_s, at.after_rest ? 1 : 0,
                           number_or_nothing(at.excess_pressure_kPa));
        for (const double share : told_shares)
            csv << ',' << number_or_nothing(at.density.distribution.quantile(share));
        csv << ',' << (at.share_below_target ? number_or_nothing(100 * *at.share_below_target) : "");
        csv << point_values(at.points) << '\n';
    }
}

} // namespace interpile::postprocess
