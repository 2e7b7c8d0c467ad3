#include "io/as_built_site.h"

#include "io/as_built_records.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <stdexcept>

namespace interpile::io {

namespace {

using solver::AsBuiltCheck;
using solver::AsBuiltRecord;

std::vector<std::string> ordered_names(const WorksFile& works) {
    std::vector<std::string> names;
    for (const WorksPile& pile : works.piles)
        names.push_back(pile.name);
    return names;
}

/// What a table says about each ordered pile.
template <class Entry>
std::map<std::string, const Entry*> by_ordered_pile(const std::vector<Entry>& entries,
                                                    const std::vector<std::string>& ordered,
                                                    const char* what) {
    std::map<std::string, const Entry*> found;
    for (const Entry& entry : entries) {
        if (std::find(ordered.begin(), ordered.end(), entry.pile) == ordered.end())
            throw std::invalid_argument(fmt::format("{} of pile {}, which was not ordered; nearest: \"{}\"",
                                                    what, entry.pile, nearest_word(entry.pile, ordered)));
        if (!found.emplace(entry.pile, &entry).second)
            throw std::invalid_argument(fmt::format("two {}s of pile {}", what, entry.pile));
    }
    return found;
}

solver::PileDesign design_of(const WorksFile& works, const WorksPile& pile) {
    return {pile.center_m, works.pile.top_depth_m, works.pile.bottom_depth_m, works.pile.pile_diameter_m,
            works.area_per_pile_m2.value()};
}

void judge(SitePile& pile, AsBuiltRecord record, const WorksFile& works) {
    record.position_m = pile.surveyed_m;
    const AsBuiltFiles& files = works.as_built.value();
    pile.started_s = record.samples.front().time_s;
    pile.built =
        as_built_pile(record, pile.design, {.bulking = files.bulking, .sand_place = files.sand_place});
    pile.assessment = assess(*pile.built, pile.design, works.limits);
}

void judge_without_record(SitePile& pile, const WorksFile& works) {
    using enum AsBuiltCheck;
    pile.assessment.not_recorded = {Verticality, ShortAtBottom, ShortAtTop, SandVolume};
    if (pile.position_deviation_m)
        pile.assessment.findings =
            assess_position(pile.ordered.name, *pile.position_deviation_m, pile.design, works.limits);
    else
        pile.assessment.not_recorded.insert(pile.assessment.not_recorded.begin(), Position);
}

void find_order(AsBuiltSite& site, const WorksFile& works) {
    std::vector<std::optional<solver::TimeSpan>> spans;
    for (const std::size_t number : works.order) {
        const SitePile& pile = site.piles[number];
        spans.emplace_back();
        if (pile.built)
            spans.back() = {*pile.started_s, *pile.started_s + pile.built->duration_s};
    }
    const auto order = solver::built_order(spans);
    for (std::size_t place = 0; place < works.order.size(); ++place) {
        SitePile& pile = site.piles[works.order[place]];
        pile.ordered_place = static_cast<int>(place) + 1;
        pile.place = order.piles[place];
    }
    if (order.overlap)
        site.overlap = {works.piles[works.order[order.overlap->first]].name,
                        works.piles[works.order[order.overlap->second]].name};
}

void sort_weak_spots(AsBuiltSite& site) {
    for (const SitePile& pile : site.piles)
        for (const auto& finding : pile.assessment.findings)
            site.weak_spots.push_back({finding, severity(finding, pile.design)});
    std::stable_sort(site.weak_spots.begin(), site.weak_spots.end(),
                     [](const WeakSpot& a, const WeakSpot& b) { return a.severity > b.severity; });
}

} // namespace

const char* description(PileVerdict verdict) {
    switch (verdict) {
    case PileVerdict::AsOrdered:
        return "as ordered";
    case PileVerdict::AsRecorded:
        return "as ordered as far as recorded";
    case PileVerdict::Deviates:
        return "deviates";
    case PileVerdict::NotRecorded:
        return "not recorded";
    }
    throw std::invalid_argument("unknown verdict");
}

PileVerdict SitePile::verdict() const {
    if (!assessment.findings.empty())
        return PileVerdict::Deviates;
    if (!built)
        return PileVerdict::NotRecorded;
    return assessment.not_recorded.empty() ? PileVerdict::AsOrdered : PileVerdict::AsRecorded;
}

AsBuiltInputs read_as_built_inputs(const WorksFile& works) {
    const AsBuiltFiles& files = works.as_built.value();
    const auto names = ordered_names(works);
    FaultList faults(works.file.string(), {});
    AsBuiltInputs inputs;
    inputs.records = read_as_built_records(files.records, names, faults);
    if (files.survey)
        inputs.survey = read_pile_survey(*files.survey, names, faults);
    faults.throw_if_any();
    return inputs;
}

AsBuiltSite as_built_site(const WorksFile& works, const AsBuiltInputs& inputs) {
    const auto names = ordered_names(works);
    const auto records = by_ordered_pile(inputs.records, names, "record");
    const auto survey = by_ordered_pile(inputs.survey, names, "survey");
    AsBuiltSite site;
    for (const WorksPile& ordered : works.piles) {
        SitePile pile;
        pile.ordered = ordered;
        pile.design = design_of(works, ordered);
        if (const auto found = survey.find(ordered.name); found != survey.end()) {
            pile.surveyed_m = found->second->position_m;
            pile.position_deviation_m = (*pile.surveyed_m - ordered.center_m).norm();
        }
        if (const auto found = records.find(ordered.name); found != records.end())
            judge(pile, *found->second, works);
        else
            judge_without_record(pile, works);
        site.piles.push_back(std::move(pile));
    }
    find_order(site, works);
    sort_weak_spots(site);
    return site;
}

std::optional<double> diameter_at(const SitePile& pile, double depth_m) {
    if (!pile.built)
        return {};
    const double top_m = pile.built->top_depth_m, bottom_m = pile.built->bottom_depth_m;
    const auto& slices = pile.built->slices;
    const auto slice = std::find_if(slices.begin(), slices.end(), [&](const solver::AsBuiltSlice& s) {
        return depth_m >= s.top_depth_m && depth_m <= s.bottom_depth_m;
    });
    if (slice == slices.end() || depth_m < top_m || depth_m > bottom_m)
        return 0;
    const double length_m = std::min(slice->bottom_depth_m, bottom_m) - std::max(slice->top_depth_m, top_m);
    return length_m > 0 ? std::sqrt(4 / std::numbers::pi * slice->sand_volume_m3 / length_m) : 0;
}

bool began_too_early(const SitePile& pile, double ordered_rest_h) {
    constexpr double second_h = 1.0 / 3600;
    return pile.place && pile.place->rest_before_h &&
           *pile.place->rest_before_h < ordered_rest_h - second_h * (1 + 1e-9);
}

} // namespace interpile::io
