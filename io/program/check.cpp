#include "io/case_report.h"
#include "io/program/commands.h"
#include "io/program/told_numbers.h"
#include "postprocess/layout_figure.h"

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

/// The settings and the numbers that follow from them.
void tell(const io::Case& run_case, Answer& answer) {
    answer.put("title", run_case.title);
    answer.put("piles", static_cast<long>(run_case.plan.piles.size()));
    tell_known_numbers(io::planned(run_case), answer);
    for (const auto& setting : run_case.settings)
        answer.row("settings", {{"key", setting.key},
                                {"value", setting.value},
                                {"is_default", setting.is_default},
                                {"source", setting.source}});
    for (const auto& sentence : io::remarks(run_case))
        answer.note(sentence);
    answer.note(io::caution());
}

} // namespace

io::ExitCode check(const CheckOptions& options, Answer& answer) {
    const io::Case run_case = io::read_case(options.case_file);
    answer.say("{}", io::case_report(run_case));
    tell(run_case, answer);
    if (!options.layout_figure.empty()) {
        postprocess::draw_layout(drawing_of(run_case), options.layout_figure);
        answer.files({options.layout_figure});
    }
    return io::Done;
}

} // namespace interpile::program
