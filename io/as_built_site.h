#pragma once
// What was built on a site against what was ordered: every pile by its log and survey.

#include "io/pile_survey.h"
#include "io/works_file.h"
#include "solver/works/built_order.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace interpile::io {

/// By the limits of the works file; order and rest are told beside it.
enum class PileVerdict {
    AsOrdered,   ///< no limit broken, none left open
    AsRecorded,  ///< no limit broken as far as recorded, some left open
    Deviates,    ///< at least one limit broken
    NotRecorded, ///< no log, and nothing found by the survey
};

/// "as ordered", "as ordered as far as recorded", "deviates", "not recorded".
const char* description(PileVerdict verdict);

/// An ordered pile.
struct SitePile {
    WorksPile ordered;
    solver::PileDesign design;
    int ordered_place = 1;                      ///< in the order of work, from 1
    std::optional<solver::AsBuiltPile> built;   ///< none without log
    std::optional<mesh::Vec2> surveyed_m;       ///< none without survey
    std::optional<double> position_deviation_m; ///< none without survey
    solver::AsBuiltAssessment assessment;       ///< without log: of the position, all else not recorded
    std::optional<double> started_s;            ///< on the clock of the records
    std::optional<solver::BuiltPlace> place;    ///< none without log, or where the order is open

    PileVerdict verdict() const;
    mesh::Vec2 position_m() const { return surveyed_m.value_or(design.position_m); }
};

/// A finding of the whole site.
struct WeakSpot {
    solver::AsBuiltFinding finding;
    double severity = 0; ///< solver::severity
};

struct AsBuiltSite {
    std::vector<SitePile> piles;      ///< every ordered pile by number
    std::vector<WeakSpot> weak_spots; ///< the worst first; equal ones by number of the pile, then by depth
    std::optional<std::pair<std::string, std::string>>
        overlap; ///< two piles whose times leave order and rest open
};

struct AsBuiltInputs {
    std::vector<solver::AsBuiltRecord> records;
    std::vector<SurveyedPile> survey; ///< empty without a survey
};

/// Read the files that [as_built] names.
/// \param works  with [as_built]
/// \throws CaseFaults  the faults of both files together; also a pile that was not ordered
/// \throws FileTrouble  if one cannot be read
AsBuiltInputs read_as_built_inputs(const WorksFile& works);

/// \param works  with [as_built]
/// \throws std::invalid_argument  a pile that was not ordered, or recorded or surveyed twice; as as_built_pile
AsBuiltSite as_built_site(const WorksFile& works, const AsBuiltInputs& inputs);

/// Of the sand at a depth: that of its meter, spread over the part of it the pile reaches; 0 above and below the pile; none
/// without log.
std::optional<double> diameter_at(const SitePile& pile, double depth_m);

/// Whether the rest before a pile was not kept: shorter than ordered by more than the second to which logs are kept (own choice).
bool began_too_early(const SitePile& pile, double ordered_rest_h);

} // namespace interpile::io
