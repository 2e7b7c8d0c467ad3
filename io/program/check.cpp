#include "io/case_report.h"
#include "io/program/commands.h"
#include "postprocess/layout_figure.h"

#include <fmt/format.h>

#include <cstdio>

namespace interpile::program {

namespace {

postprocess::LayoutDrawing drawing_of(const io::Case& run_case) {
    const auto& plan = run_case.plan;
    postprocess::LayoutDrawing drawing;
    drawing.title = run_case.title;
    drawing.domain = run_case.domain;
    for (const auto& pile : plan.piles) {
        drawing.centers_m.push_back(pile.center_m);
        drawing.diameters_m.push_back(pile.diameter_m);
    }
    drawing.place_in_order.resize(plan.piles.size());
    for (std::size_t place = 0; place < plan.order.size(); ++place)
        for (const int pile : plan.order[place])
            drawing.place_in_order[static_cast<std::size_t>(pile)] = static_cast<int>(place) + 1;
    return drawing;
}

} // namespace

io::ExitCode check(const CheckOptions& options) {
    const io::Case run_case = io::read_case(options.case_file);
    fmt::print("{}", io::case_report(run_case));
    if (!options.layout_figure.empty()) {
        postprocess::draw_layout(drawing_of(run_case), options.layout_figure);
        fmt::print("{}\n", options.layout_figure.string());
    }
    return io::Done;
}

} // namespace interpile::program
