// The table of keys holds together by itself and with the structs it fills.

#include "io/value_reader.h"
#include "io/vocabulary.h"
#include "solver/installation_plan.h"
#include "solver/slice.h"
#include "solver/soil_parameters.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace interpile;

namespace {

const io::KeyInfo& key(std::string_view table, std::string_view name) {
    for (const auto& info : io::vocabulary())
        if (info.table == table && info.key == name)
            return info;
    throw std::logic_error("no such key");
}

double standard(std::string_view table, std::string_view name) {
    return std::get<double>(io::default_value(key(table, name)));
}

} // namespace

TEST_CASE("every key is unique, explained, and its default lies in its range") {
    std::set<std::string> seen;
    for (const auto& info : io::vocabulary()) {
        const std::string path = std::string(info.table) + "." + std::string(info.key);
        INFO(path);
        CHECK(seen.insert(path).second);
        CHECK_FALSE(info.meaning.empty());
        CHECK_FALSE(info.source.empty());
        CHECK(info.low <= info.high);
        CHECK((info.type == io::ValueType::Word) == !info.choices.empty());
        if (info.presence == io::Presence::Default)
            CHECK_NOTHROW(io::default_value(info));
    }
    CHECK(seen.size() > 50);
}

TEST_CASE("tables stand together in the vocabulary") {
    const auto names = io::table_names();
    CHECK(std::set<std::string>(names.begin(), names.end()).size() == names.size());
}

TEST_CASE("a key of a quantity carries its unit") {
    CHECK(io::unit_of("spacing_m") == "m");
    CHECK(io::unit_of("vertical_stress_kPa") == "kPa");
    CHECK(io::unit_of("unit_weight_kN_m3") == "kN/m3");
    CHECK(io::unit_of("relative_density_pct") == "%");
    CHECK(io::unit_of("angle_deg") == "deg");
    CHECK(io::unit_of("K0") == "-");
    CHECK(io::unit_of("rim") == "-");
}

TEST_CASE("defaults of the vocabulary are those of the structs") {
    const solver::StepSettings steps;
    CHECK(standard("steps", "increments_per_pile") == steps.increments_per_pile);
    CHECK(standard("steps", "increments_per_half_stroke") == steps.increments_per_half_stroke);
    CHECK(standard("steps", "max_iterations") == steps.max_iterations);
    CHECK(standard("steps", "max_halvings") == steps.max_halvings);
    CHECK(standard("steps", "carry_over_iterations") == steps.carry_over_iterations);
    const solver::Slice slice;
    CHECK(standard("ground", "K0") == slice.K0);
    CHECK(standard("ground", "e_max") == slice.e_max);
    CHECK(standard("ground", "e_min") == slice.e_min);
    const solver::StrokePlan strokes;
    CHECK(standard("pile", "withdrawal_pressure_ratio") == strokes.withdrawal_pressure_ratio);
    CHECK(standard("pile", "final_pressure_ratio") == strokes.final_pressure_ratio);
}

TEST_CASE("the keys of a soil model are its parameters") {
    for (const auto& model : solver::soil_model_table()) {
        const auto keys = io::soil_keys(model.name);
        REQUIRE(keys.size() == model.parameters.size());
        for (std::size_t i = 0; i < keys.size(); ++i) {
            CHECK(keys[i].key == model.parameters[i].key);
            CHECK((keys[i].presence == io::Presence::Required) == std::isnan(model.parameters[i].standard));
        }
    }
    CHECK(io::soil_keys("sawdust").empty());
}

TEST_CASE("the help names every key, every model parameter and every source") {
    const std::string help = io::vocabulary_help();
    for (const auto& info : io::vocabulary()) {
        CHECK_THAT(help, Catch::Contains("\n  " + std::string(info.key) + " "));
        CHECK_THAT(help, Catch::Contains(std::string(info.source)));
    }
    for (const auto& model : solver::soil_model_table())
        for (const auto& part : {io::soil_keys(model.name), io::soil_rule_keys(model.name)})
            for (const auto& info : part)
                CHECK_THAT(help, Catch::Contains("\n  " + std::string(info.key) + " "));
}
