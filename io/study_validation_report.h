#pragma once
// The comparison of a study with the simple methods as tables and in words.

#include "io/study_validation.h"

#include <string>

namespace interpile::io {

/// One row for each deviation; numbers not known are empty.
std::string deviation_table(const StudyFile& study, const StudyComparison& comparison);
/// One row for each trend.
std::string trend_table(const StudyComparison& comparison);
/// Both in sentences for the terminal.
std::string comparison_summary(const StudyFile& study, const StudyComparison& comparison);

} // namespace interpile::io
