#pragma once
// Rows of tests/sources/liquefaction as checks and as inputs of the procedures. Header only, for unit tests.

#include "solver/liquefaction/safety_factor.h"
#include "support/csv_table.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace interpile::test {

/// To the six digits of the tables.
inline Approx six(double value) {
    return Approx(value).epsilon(1e-5).margin(1e-30);
}

/// Row of a table: checks of columns and the number that was asked.
struct Row {
    const CsvTable& table;
    std::size_t row;

    double operator[](const char* column) const { return table.at(row, column); }

    void check(const char* column, double value) const {
        INFO("row " << row + 2 << ", column " << column);
        if (std::isinf((*this)[column]))
            CHECK(std::isinf(value));
        else
            CHECK(value == six((*this)[column]));
    }
};

template <class Check>
void for_rows(const char* file, std::size_t count, const Check& check) {
    const CsvTable table(std::string("liquefaction/") + file + ".csv");
    REQUIRE(table.rows() == count);
    for (std::size_t row = 0; row < count; ++row)
        check(Row{table, row});
}

/// Stresses from the unit weights of the row, g_w 9.81 kN/m3, which tests the columns of stress too.
inline solver::BlowCountPoint point_of(const Row& row) {
    const double dry_m = std::min(row["z_m"], row["zw_m"]);
    const double total = row["gam_above"] * dry_m + row["gam_below"] * (row["z_m"] - dry_m);
    const double effective = total - 9.81 * (row["z_m"] - dry_m);
    row.check("sv_tot", total);
    row.check("sv_eff", effective);
    solver::BlowCountPoint point;
    point.depth_m = row["z_m"];
    point.blow_count = row["N"];
    point.energy_ratio_pct = row["ER_pct"];
    point.fines_pct = row["FC_pct"];
    point.total_stress_kPa = point.total_stress_quake_kPa = total;
    point.effective_stress_kPa = point.effective_stress_quake_kPa = effective;
    return point;
}

inline solver::Earthquake shaking_of(const Row& row) {
    solver::Earthquake quake;
    quake.peak_acceleration_g = row["amax_g"];
    quake.moment_magnitude = row["Mw"];
    return quake;
}

} // namespace interpile::test
