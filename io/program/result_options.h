#pragma once
// Options that several subcommands on results share.

#include "io/program/commands.h"
#include "io/results_reader.h"
#include "postprocess/figure_style.h"
#include "postprocess/ground_summary.h"

namespace interpile::program {

/// The stage meant by an option: none is the last.
/// \throws UsageError if the result has no such stage
int chosen_stage(const io::ResultsReader& results, std::optional<int> stage);

/// \throws UsageError naming the nearest name if a field is neither in the field table nor among `others`
void require_fields(const std::vector<std::string>& fields, const std::vector<std::string>& others = {});

/// Formats of figures by their words; without words those of the figure style.
/// \throws UsageError for another word
std::vector<postprocess::FigureFormat> formats_of(const std::vector<std::string>& words);

/// Numbers separated by commas, exactly `count` of them and finite.
/// \throws UsageError naming the option
std::vector<double> numbers_of(const std::string& text, std::size_t count, const std::string& option);

/// A folder for what is made from a result: RESULT_SUFFIX in the working folder, unless one is given.
fs::path folder_for(const fs::path& given, const fs::path& result, const std::string& suffix);

/// The ground between the piles at every complete stage; empty where the layout has no treated area.
std::vector<postprocess::StageGround> ground_at_stages(const io::ResultsReader& results);

/// Warn of a result that is unfinished or not converged.
void warn_unfinished(const io::ResultsReader& results, Answer& answer);

} // namespace interpile::program
