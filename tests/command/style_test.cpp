// `--style` and `--label-list`: the style file reaches the figures, bad ones leave earlier results alone.

#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/study_text.h"

#include <catch2/catch.hpp>

#include <cstdio>
#include <memory>

using namespace interpile::testing;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

const std::string interpile_program = program_file();
const std::string style_file = source_folder() + "/cases/figure-style/style.toml";

/// What a program of poppler-utils says of a PDF.
std::string told(const std::string& command) {
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string text;
    for (int c = fgetc(pipe.get()); c != EOF; c = fgetc(pipe.get()))
        text += static_cast<char>(c);
    return text;
}

} // namespace

TEST_CASE("figures have the width, the formats and the language of the style") {
    const WorkingFolder folder;
    folder.write("cell.toml", cell_case);
    REQUIRE(folder.run(interpile_program, {"run", "cell.toml", "-o", "r.h5"}).exit_code == 0);
    const auto drawn = folder.run(interpile_program, {"figures", "r.h5", "-o", "f", "--style", style_file,
                                                      "--label-list", "labels.toml"});
    INFO(drawn.err);
    REQUIRE(drawn.exit_code == 0);
    CHECK_THAT(drawn.err, Contains("half strokes\" needs more width"));
    const auto pdf = (folder.path() / "f" / "relative_density_pct.pdf").string();
    CHECK_THAT(told("pdfinfo '" + pdf + "'"), Contains("240.9")); // 85 mm in points
    CHECK_THAT(told("pdftotext -layout '" + pdf + "' -"), Contains("Lagerungsdichte") &&
                                                              Contains("geplanter Durchmesser 0,70 m") &&
                                                              !Contains("pile in the computation"));
    CHECK_FALSE(fs::exists(folder.path() / "f" / "relative_density_pct.svg"));
    const auto list = content_of(folder.path() / "labels.toml");
    CHECK_THAT(list, Contains("\"line of symmetry\" = \"Symmetrielinie\"\n"));

    // A list is a style file itself, and is never written over.
    CHECK(folder
              .run(interpile_program, {"figures", "r.h5", "-o", "g", "--field", "void_ratio", "--style",
                                       "labels.toml", "--format", "pdf"})
              .exit_code == 0);
    const auto again =
        folder.run(interpile_program, {"figures", "r.h5", "-o", "h", "--label-list", "labels.toml"});
    CHECK(again.exit_code == 3);
    CHECK_THAT(again.err, Contains("labels.toml exists and was left untouched"));
    CHECK(content_of(folder.path() / "labels.toml") == list);
    CHECK_FALSE(fs::exists(folder.path() / "h"));

    folder.write("bad.toml", "[page]\nwidth_mm = 3\n");
    const auto bad = folder.run(interpile_program, {"figures", "r.h5", "-o", "f", "--style", "bad.toml"});
    CHECK(bad.exit_code == 2);
    CHECK_THAT(bad.err, Contains("bad.toml:2:") && Contains("page.width_mm = 3 is outside 60 .. 400 mm"));
    CHECK(folder.run(interpile_program, {"figures", "r.h5", "--style", "none.toml"}).exit_code == 3);
}
