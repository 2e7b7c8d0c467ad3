#pragma once
// Parts of the reader of study files.

#include "io/case_values.h"
#include "io/study_file.h"

namespace interpile::io {

/// Read [[factor]] number `n` (from 1); its faults go into the list.
StudyFactor read_factor(const CaseValues& values, int n, StudyDesign design);

/// The members of a design, each checked as a case. Equal faults of several members are told once, at the factor they
/// name.
std::vector<StudyMember> make_members(const CaseValues& values, const StudyFile& study);

} // namespace interpile::io
