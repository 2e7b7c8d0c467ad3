// `interpile soil-test`: the example that comes with the program, and a bad file.

#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
}

TEST_CASE("soil-test writes curves and figures of its example") {
    const WorkingFolder folder;
    const auto run = folder.run(
        interpile_program,
        {"soil-test", source_folder() + "/cases/soil-test-toyoura/soil-test.toml", "-o", "curves"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Catch::Contains("complete"));
    for (const std::string page : {"axial", "shear"})
        for (const std::string ending : {".pdf", ".svg", ".png"})
            CHECK(content_of(folder.path() / "curves" / (page + ending)).size() > 1000);
    CHECK_THAT(run.out, Catch::Contains("e_c = 0.934 - 0.019 (p'/p_a)^0.7"));
    CHECK_THAT(run.out, Catch::Contains(
                            "ended at an excess pressure ratio of 0.7 after 3.0 cycles")); // independent: 3.0
    const auto text = folder.run("/usr/bin/pdftotext", {"-layout", "curves/axial.pdf", "-"});
    for (const char* part :
         {"INVENTED points", "critical state line (stress path: triaxial)", "compression +"})
        CHECK_THAT(text.out, Catch::Contains(part));
    const std::string curve = content_of(folder.path() / "curves" / "1-drained-p-100-kpa-e-0-831.csv");
    CHECK_THAT(curve, Catch::StartsWith("axial_strain_pct,shear_strain_pct,volumetric_strain_pct,"));
}

TEST_CASE("soil-test refuses a bad file and writes nothing") {
    const WorkingFolder folder;
    folder.write("bad.toml",
                 "[soil]\nmodel = \"elastic\"\nshear_modulus_kPa = 8000\n[[test]]\nkind = \"triaxal\"\n");
    const auto run = folder.run(interpile_program, {"soil-test", "bad.toml"});
    CHECK(run.exit_code == 2);
    CHECK_THAT(run.err, Catch::Contains("bad.toml:5:8: test[1].kind = \"triaxal\""));
    CHECK(folder.files().size() == 1);
    CHECK(folder.run(interpile_program, {"soil-test", "none.toml"}).exit_code == 3);
}

TEST_CASE("help-soil-test lists every key of a test") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"help-soil-test"});
    CHECK(run.exit_code == 0);
    for (const char* part : {"[[test]]", "stress_amplitude_kPa", "measured", "two-surface-sand"})
        CHECK_THAT(run.out, Catch::Contains(part));
}
