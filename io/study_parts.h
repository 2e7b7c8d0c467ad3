#pragma once
// Parts of the reader of study files.

#include "io/case_values.h"
#include "io/study_file.h"

namespace interpile::io {

/// Read [[factor]] number `n` (from 1); its faults go into the list.
StudyFactor read_factor(const CaseValues& values, int n, StudyDesign design);

/// Whether a key of a case, as "order.sequence", takes a list; its words stand as in a case file, "[1, 3, 2]".
bool takes_list(const std::string& key);

/// The members of a design, each checked as a case. Equal faults of several members are told once, at the factor they
/// name.
std::vector<StudyMember> make_members(const CaseValues& values, const StudyFile& study);

} // namespace interpile::io
