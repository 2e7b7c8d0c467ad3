// Properties that hold for every liquefaction procedure, refusals and remarks.

#include "solver/liquefaction/procedure.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>
#include <stdexcept>

using namespace interpile::solver;
using Catch::Matchers::Contains;

namespace {

BlowCountPoint point_at(double depth_m, double fines_pct = 8) {
    BlowCountPoint point;
    point.depth_m = depth_m;
    point.blow_count = 8;
    point.fines_pct = fines_pct;
    point.total_stress_kPa = point.total_stress_quake_kPa = 19 * depth_m;
    point.effective_stress_kPa = point.effective_stress_quake_kPa = 9 * depth_m + 10;
    return point;
}

Earthquake quake_of(double magnitude, bool inland = false) {
    Earthquake quake;
    quake.peak_acceleration_g = 0.25;
    quake.moment_magnitude = magnitude;
    quake.design_coefficient_khg = 0.3;
    quake.inland = inland;
    return quake;
}

bool remarked(const SafetyFactor& safety, const std::string& words) {
    for (const std::string& remark : safety.remarks)
        if (remark.find(words) != std::string::npos)
            return true;
    return false;
}

} // namespace

TEST_CASE("a larger blow count is never less safe", "[liquefaction]") {
    for (const auto& info : procedure_table())
        for (double depth_m : {2.0, 6.0, 12.0, 19.0})
            for (double magnitude : {5.5, 7.5, 9.0}) {
                BlowCountPoint point = point_at(depth_m);
                double before = 0;
                for (point.blow_count = 1; point.blow_count <= 60; point.blow_count += 0.25) {
                    const double now =
                        safety_against_liquefaction(info.procedure, point, quake_of(magnitude, true)).value;
                    INFO(info.name << ", z " << depth_m << ", M " << magnitude << ", N " << point.blow_count);
                    REQUIRE(now >= before);
                    before = now;
                }
            }
}

TEST_CASE("the required blow count gives back the safety factor, and the smallest", "[liquefaction]") {
    for (const auto& info : procedure_table())
        for (double depth_m : {3.0, 8.0, 15.0})
            for (double target : {0.8, 1.0, 1.25}) {
                BlowCountPoint point = point_at(depth_m);
                const Earthquake quake = quake_of(7);
                const auto required = required_blow_count(info.procedure, point, quake, target);
                INFO(info.name << ", z " << depth_m << ", target " << target);
                REQUIRE(required);
                point.blow_count = *required;
                CHECK(safety_against_liquefaction(info.procedure, point, quake).value >= target);
                point.blow_count = *required * (1 - 1e-9);
                CHECK(safety_against_liquefaction(info.procedure, point, quake).value < target);
            }
}

TEST_CASE("the safety factor of a blow count asks for that blow count", "[liquefaction]") {
    for (const auto& info : procedure_table())
        for (double blow_count : {5.0, 11.0, 17.0}) {
            BlowCountPoint point = point_at(7);
            point.blow_count = blow_count;
            const double value = safety_against_liquefaction(info.procedure, point, quake_of(7)).value;
            INFO(info.name << ", N " << blow_count);
            REQUIRE(std::isfinite(value));
            CHECK(required_blow_count(info.procedure, point, quake_of(7), value).value() ==
                  Approx(blow_count).epsilon(1e-9));
        }
}

TEST_CASE("a blow count out of reach is not invented", "[liquefaction]") {
    CHECK_FALSE(required_blow_count(Procedure::BoulangerIdriss2014, point_at(6), quake_of(7.5), 1e3));
    CHECK(required_blow_count(Procedure::Youd2001, point_at(6), quake_of(7.5),
                              1e3)); // end of the curve, N1cs 30
    CHECK_FALSE(required_blow_count(Procedure::HighwayBridge2017, point_at(6, 40), quake_of(7.5), 1));
    CHECK(required_blow_count(Procedure::HighwayBridge2017, point_at(6, 39.9), quake_of(7.5), 1));
    CHECK(required_blow_count(Procedure::BoulangerIdriss2014, point_at(6), quake_of(7.5), 0.01).value() == 0);
    CHECK_THROWS_WITH(required_blow_count(Procedure::Youd2001, point_at(6), quake_of(7.5), 0),
                      Contains("target_safety_factor"));
}

TEST_CASE("what a procedure does not judge is refused or remarked", "[liquefaction]") {
    const Earthquake quake = quake_of(7.5);
    for (Procedure procedure :
         {Procedure::HighwayBridge2012, Procedure::HighwayBridge2017, Procedure::ArchitecturalGuide2001}) {
        CHECK(remarked(safety_against_liquefaction(procedure, point_at(20.1), quake), "20 m"));
        CHECK_FALSE(remarked(safety_against_liquefaction(procedure, point_at(20), quake), "20 m"));
        const auto deep = safety_against_liquefaction(procedure, point_at(70), quake);
        CHECK_THAT(deep.refused, Contains("66 m"));
        CHECK(std::isnan(deep.value));
    }
    const auto bi = [&](double z) {
        return safety_against_liquefaction(Procedure::BoulangerIdriss2014, point_at(z), quake);
    };
    CHECK(bi(20).remarks.empty());
    CHECK(remarked(bi(25), "20 m"));
    CHECK(remarked(bi(35), "34 m"));
    CHECK(remarked(safety_against_liquefaction(Procedure::Youd2001, point_at(24), quake), "23 m"));
    CHECK(remarked(safety_against_liquefaction(Procedure::Youd2001, point_at(6), quake_of(9)), "magnitude"));

    BlowCountPoint gravel = point_at(6, 45); // gravel has no fines correction, so nothing to refuse
    gravel.d50_mm = 12;
    const auto safety = safety_against_liquefaction(Procedure::HighwayBridge2017, gravel, quake);
    CHECK(safety.refused.empty());
    CHECK(remarked(safety, "10 mm"));
}

TEST_CASE("numbers out of range are named", "[liquefaction]") {
    for (const auto& info : procedure_table()) {
        BlowCountPoint point = point_at(6);
        point.effective_stress_quake_kPa = 0;
        CHECK_THROWS_WITH(safety_against_liquefaction(info.procedure, point, quake_of(7.5)),
                          Contains("effective_stress_quake_kPa"));
        point = point_at(6);
        point.blow_count = -1;
        CHECK_THROWS_WITH(safety_against_liquefaction(info.procedure, point, quake_of(7.5)),
                          Contains("blow_count"));
        point = point_at(6);
        point.total_stress_kPa = 1;
        CHECK_THROWS_WITH(safety_against_liquefaction(info.procedure, point, quake_of(7.5)),
                          Contains("total_stress_kPa"));
        CHECK_THROWS_AS(safety_against_liquefaction(info.procedure, point_at(6), Earthquake{}),
                        std::invalid_argument);
    }
}

TEST_CASE("the table lists every procedure once, under a name that finds it", "[liquefaction]") {
    std::set<std::string> names;
    for (const auto& info : procedure_table()) {
        CHECK(procedure_by_name(info.name) == info.procedure);
        CHECK_THAT(info.source, Contains("from memory of"));
        names.insert(info.name);
    }
    CHECK(names == std::set<std::string>{"youd-2001", "boulanger-idriss-2014", "highway-bridge-2012",
                                         "highway-bridge-2017", "architectural-guide-2001"});
    CHECK_THROWS_WITH(procedure_by_name("youd"), Contains("boulanger-idriss-2014"));
    CHECK_THROWS_WITH(SafetyFactor{}.intermediate("R_L"), Contains("R_L"));
}
