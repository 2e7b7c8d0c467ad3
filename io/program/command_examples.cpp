#include "io/program/command_description.h"

#include <map>

namespace interpile::program {

const std::vector<std::string_view>& examples_of(std::string_view command) {
    static const std::map<std::string_view, std::vector<std::string_view>> examples = {
        {"start",
         {"interpile start tutorial -o heron-reach", "interpile start soil-test -o laboratory",
          "interpile start style"}},
        {"design", {"interpile design site.toml -o design", "interpile design site.toml --json"}},
        {"check",
         {"interpile check design/case-b-2-C-cell.toml",
          "interpile check design/case-b-2-C-group.toml --layout-figure layout.pdf"}},
        {"run",
         {"interpile run design/case-b-2-C-cell.toml -o cell.h5",
          "interpile run design/case-b-2-C-cell.toml -o cell.h5 --overwrite --threads 1"}},
        {"figures",
         {"interpile figures cell.h5 -o figures --format pdf",
          "interpile figures cell.h5 --field relative_density_pct,pressure_loops --format png",
          "interpile figures cell.h5 --sequence --format png",
          "interpile figures cell.h5 --style style/style.toml --label-list labels.toml -o journal"}},
        {"compare", {"interpile compare cell.h5 study/members/0001.h5 -o comparison --format png"}},
        {"export", {"interpile export cell.h5", "interpile export cell.h5 -o vtk"}},
        {"sample",
         {"interpile sample cell.h5 --line 0,0,1,1 --points 21 -o diagonal.csv",
          "interpile sample cell.h5 --at 1,0 --at 1,1 --field relative_density_pct",
          "interpile sample cell.h5 --half-strokes -o half-strokes.csv"}},
        {"study",
         {"interpile study study.toml -o study --jobs 2", "interpile study study.toml -o study --share 1/2",
          "interpile study study.toml -o study --collect"}},
        {"soil-test", {"interpile soil-test laboratory/soil-test.toml -o curves"}},
        {"instruction", {"interpile instruction works.toml -o works"}},
        {"neighbors", {"interpile neighbors works.toml -o works", "interpile neighbors works.toml --json"}},
        {"as-built",
         {"interpile as-built works.toml -o works", "interpile as-built works.toml --slice 3.3 --slice 5.3"}},
        {"after-treatment", {"interpile after-treatment site.toml -o after"}},
        {"report", {"interpile report report.toml -o report"}},
        {"help-case", {"interpile help-case", "interpile help-case --json"}},
        {"help-soil-test", {"interpile help-soil-test"}},
        {"help-site", {"interpile help-site"}},
        {"help-works", {"interpile help-works"}},
        {"help-study", {"interpile help-study"}},
        {"help-report", {"interpile help-report"}},
        {"help-style", {"interpile help-style"}},
        {"man-page", {"interpile man-page > interpile.1"}},
        {"completion", {"interpile completion > interpile.bash"}},
    };
    return examples.at(command);
}

} // namespace interpile::program
