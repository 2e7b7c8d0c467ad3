// A remark about the result is made once, with its number.

#include "solver/remarks.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace interpile::solver;

namespace {

struct Heard final : RunObserver {
    std::vector<std::string> warnings;
    void on_warning(const std::string& text) override { warnings.push_back(text); }
};

} // namespace

TEST_CASE("contrasts at which pressures lose digits are told once, with the number") {
    Heard heard;
    Remarks remarks(heard, 60);
    IncrementRecord record;
    record.pile = 2;
    remarks.look_at(record, 9e11);
    CHECK(heard.warnings.empty());
    remarks.look_at(record, 1e13); // 16 - 13 digits of a double are left
    remarks.look_at(record, 1e14);
    REQUIRE(heard.warnings.size() == 1);
    CHECK_THAT(heard.warnings.front(), Catch::Contains("pile 3") && Catch::Contains("a factor of 1e+13") &&
                                           Catch::Contains("about 3 digits"));
}
