#include "io/as_built_report.h"

#include "io/as_built_tables.h"
#include "io/text_lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <numbers>

namespace interpile::io {

namespace {

using solver::AsBuiltCheck;
using solver::AsBuiltFinding;

constexpr std::size_t most_spots = 10, most_names = 8;
constexpr std::array checks = {AsBuiltCheck::Position, AsBuiltCheck::Verticality, AsBuiltCheck::ShortAtTop,
                               AsBuiltCheck::ShortAtBottom, AsBuiltCheck::SandVolume};

/// "P1, P2 and 3 more".
std::string names_of(const std::vector<std::string>& names) {
    if (names.size() <= most_names)
        return fmt::format("{}", fmt::join(names, ", "));
    return fmt::format("{} and {} more", fmt::join(names.begin(), names.begin() + most_names, ", "),
                       names.size() - most_names);
}

template <class Chosen>
std::vector<std::string> piles_that(const AsBuiltSite& site, Chosen chosen) {
    std::vector<std::string> names;
    for (const SitePile& pile : site.piles)
        if (chosen(pile))
            names.push_back(pile.ordered.name);
    return names;
}

std::string depths_of(const AsBuiltFinding& finding) {
    return finding.from_depth_m == finding.to_depth_m
               ? fmt::format("{:.2f}", finding.from_depth_m)
               : fmt::format("{:.2f} .. {:.2f}", finding.from_depth_m, finding.to_depth_m);
}

std::string spots_text(const AsBuiltSite& site) {
    if (site.weak_spots.empty())
        return "Weak spots: none found in what was recorded.\n\n";
    const std::size_t shown = std::min(most_spots, site.weak_spots.size());
    int widest = 4; // of the head
    for (std::size_t i = 0; i < shown; ++i)
        widest = std::max(widest, character_count(site.weak_spots[i].finding.pile));
    const auto padded = [&](const std::string& name) {
        return name + std::string(static_cast<std::size_t>(widest - character_count(name)), ' ');
    };
    std::string text =
        fmt::format("Weakest spots, {} of {} limits not kept\n", shown, site.weak_spots.size());
    text += fmt::format("  {}  {:<14}  {:>8}  {:>8}  {}\n", padded("pile"), "depth [m]", "value", "limit",
                        "quantity");
    for (std::size_t i = 0; i < shown; ++i) {
        const AsBuiltFinding& finding = site.weak_spots[i].finding;
        text += fmt::format("  {}  {:<14}  {:>8.4g}  {:>8.4g}  {}\n", padded(finding.pile),
                            depths_of(finding), finding.value, finding.limit, description(finding.what));
    }
    return text + '\n';
}

std::string sand_text(const AsBuiltSite& site) {
    double built_m3 = 0, ordered_m3 = 0;
    for (const SitePile& pile : site.piles)
        if (pile.built) {
            const auto& design = pile.design;
            built_m3 += pile.built->sand_volume_m3;
            ordered_m3 += std::numbers::pi / 4 * design.diameter_m * design.diameter_m *
                          (design.bottom_depth_m - design.top_depth_m);
        }
    return fmt::format("Sand of the recorded piles in place: {:.2f} m3, ordered for them {:.2f} m3\n",
                       built_m3, ordered_m3);
}

std::string order_text(const AsBuiltSite& site, double ordered_rest_h) {
    if (site.overlap)
        return fmt::format(
            "Order of work and rest: left open; the times of {} and {} overlap (several rigs, or "
            "a clock that starts anew for every pile)\n",
            site.overlap->first, site.overlap->second);
    const std::size_t placed =
        piles_that(site, [](const SitePile& pile) { return pile.place.has_value(); }).size();
    if (placed < 2)
        return "Order of work and rest: left open; fewer than two piles are recorded\n";
    std::vector<std::string> out_of_turn;
    for (const SitePile& pile : site.piles)
        if (pile.place && !pile.place->in_turn)
            out_of_turn.push_back(fmt::format("{} (ordered as number {}, built as {} of {} recorded)",
                                              pile.ordered.name, pile.ordered_place, pile.place->place,
                                              placed));
    const auto early =
        piles_that(site, [&](const SitePile& pile) { return began_too_early(pile, ordered_rest_h); });
    std::string text = "Order of work: ";
    text += out_of_turn.empty() ? "as ordered among the recorded piles\n"
                                : fmt::format("out of turn: {}\n", names_of(out_of_turn));
    text += fmt::format("Rest of {:g} h before a pile: kept by {} of {}{}\n", ordered_rest_h,
                        placed - 1 - early.size(), placed - 1,
                        early.empty() ? "" : "; begun too early: " + names_of(early));
    return text;
}

std::string words_of(const AsBuiltFinding& finding) {
    switch (finding.what) {
    case AsBuiltCheck::Position:
        return fmt::format("{:.2f} m off", finding.value);
    case AsBuiltCheck::Verticality:
        return fmt::format("tilt 1/{:.0f}", 1 / finding.value);
    case AsBuiltCheck::ShortAtBottom:
        return fmt::format("short {:.2f} m", finding.value);
    case AsBuiltCheck::ShortAtTop:
        return fmt::format("top {:.2f} m low", finding.value);
    case AsBuiltCheck::SandVolume:
        return fmt::format("sand {:.0f} % at {:g}-{:g} m", 100 * finding.value, finding.from_depth_m,
                           finding.to_depth_m);
    }
    return {};
}

} // namespace

std::string as_built_counts(const AsBuiltSite& site) {
    std::array<std::size_t, 4> of_verdict{};
    std::size_t recorded = 0;
    for (const SitePile& pile : site.piles) {
        ++of_verdict[static_cast<std::size_t>(pile.verdict())];
        recorded += pile.built ? 1 : 0;
    }
    const auto [ordered, as_recorded, deviating, not_recorded] = of_verdict;
    std::string text =
        fmt::format("{} piles ordered, {} recorded: {} as ordered", site.piles.size(), recorded, ordered);
    if (as_recorded > 0)
        text += fmt::format(", {} as ordered as far as recorded", as_recorded);
    return text + fmt::format(", {} deviating, {} not recorded", deviating, not_recorded);
}

std::string plan_report(const AsBuiltSite& site, double depth_m) {
    const auto without_sand =
        piles_that(site, [&](const SitePile& pile) { return diameter_at(pile, depth_m) == 0.0; });
    const auto unknown = piles_that(site, [&](const SitePile& pile) { return !diameter_at(pile, depth_m); });
    std::string text = fmt::format("Plan at {:g} m: {} of {} piles", depth_m,
                                   site.piles.size() - without_sand.size(), site.piles.size());
    if (!without_sand.empty())
        text += "; without sand there: " + names_of(without_sand);
    if (!unknown.empty())
        text += "; diameter not recorded: " + names_of(unknown);
    return text + '\n';
}

std::vector<std::string> left_open(const AsBuiltSite& site) {
    std::vector<std::string> sentences;
    if (const auto names = piles_that(site, [](const SitePile& pile) { return !pile.built; }); !names.empty())
        sentences.push_back(fmt::format("no log of {}", names_of(names)));
    for (const AsBuiltCheck check : checks) {
        const auto names = piles_that(site, [&](const SitePile& pile) {
            const auto& open = pile.assessment.not_recorded;
            return pile.built && std::find(open.begin(), open.end(), check) != open.end();
        });
        if (!names.empty())
            sentences.push_back(fmt::format("{} of {}", quantity_of(check), names_of(names)));
    }
    return sentences;
}

std::string spot_remark(const SitePile& pile) {
    std::vector<const AsBuiltFinding*> worst; // of every kind
    for (const AsBuiltFinding& finding : pile.assessment.findings) {
        const auto same = std::find_if(worst.begin(), worst.end(), [&](const AsBuiltFinding* other) {
            return other->what == finding.what;
        });
        if (same == worst.end())
            worst.push_back(&finding);
        else if (severity(finding, pile.design) > severity(**same, pile.design))
            *same = &finding;
    }
    std::stable_sort(worst.begin(), worst.end(), [&](const AsBuiltFinding* a, const AsBuiltFinding* b) {
        return severity(*a, pile.design) > severity(*b, pile.design);
    });
    std::vector<std::string> words;
    for (const AsBuiltFinding* finding : worst)
        words.push_back(words_of(*finding));
    return fmt::format("{}", fmt::join(words, ", "));
}

std::string as_built_caution() {
    return "Records tell what left the casing, not how dense the ground is: tests between the piles prove. "
           "Project "
           "rules on limits go first.";
}

std::string as_built_report(const WorksFile& works, const AsBuiltSite& site) {
    std::string text = fmt::format("{}: built against ordered\n{}\n{}\n", works.title, as_built_counts(site),
                                   sand_text(site));
    text += spots_text(site) + order_text(site, works.rest_h);
    const auto open = left_open(site);
    text += open.empty() ? "Left open: nothing\n" : "Left open: neither kept nor broken\n";
    for (const std::string& sentence : open)
        text += fmt::format("  {}\n", sentence);
    return text + '\n' + as_built_caution() + '\n';
}

} // namespace interpile::io
