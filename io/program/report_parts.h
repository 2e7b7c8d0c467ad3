#pragma once
// What the chapters of a report are made from, and the chapters.

#include "io/as_built_site.h"
#include "io/report_file.h"
#include "io/site_file.h"
#include "io/study_table.h"
#include "io/works_file.h"
#include "postprocess/ground_summary.h"
#include "postprocess/report/document.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace interpile::program {

namespace report = postprocess::report;

/// A result with what every stage says; only the first and the last stage keep their fields.
struct ReportResult {
    std::filesystem::path file;
    io::ResultsHeader header;
    std::vector<io::ResultsStage> stages;         ///< at least one
    std::vector<postprocess::StageGround> ground; ///< by stage; empty without a treated area
    io::ResultsHalfStrokes half_strokes;
    std::vector<std::string> warnings;
};

struct ReportInput {
    io::ReportFile file;
    std::optional<io::SiteFile> site;
    std::vector<solver::BoringDesign> designs; ///< of the site; the mean boring last where there is one
    std::vector<ReportResult> results;
    std::optional<io::WorksFile> works;
    std::optional<io::AsBuiltSite> built; ///< of works with [as_built]
    std::optional<io::StudyFile> study;
    std::vector<io::StudyRow> members;         ///< of the study
    std::optional<solver::AfterReview> review; ///< of the tests after treatment
    std::string date;                          ///< as it is to stand on the title page
};

/// \throws io::CaseFaults, io::FileTrouble  as the readers of the files
/// \throws UsageError  tests after treatment are asked for where the site names none
ReportInput read_report_input(const std::filesystem::path& file);

/// Every source that a number of the report rests on, in the order of first use.
class SourceList {
public:
    /// \param use  short: "D_r by meyerhof-1957"
    void add(const std::string& source, const std::string& use);
    struct Entry {
        std::string source;
        std::vector<std::string> uses;
    };
    const std::vector<Entry>& entries() const { return entries_; }

private:
    std::vector<Entry> entries_;
    std::map<std::string, std::size_t> place_;
};

using Blocks = std::vector<report::Block>;

// Each empty where there is nothing to tell; sources of its numbers are added to the list.
Blocks ground_blocks(const ReportInput& input, SourceList& sources);
Blocks need_blocks(const ReportInput& input, SourceList& sources);
Blocks methods_blocks(const ReportInput& input, SourceList& sources);
Blocks simulation_blocks(const ReportInput& input, SourceList& sources);
Blocks after_blocks(const ReportInput& input, SourceList& sources);
Blocks alternatives_blocks(const ReportInput& input, SourceList& sources);
Blocks neighbors_blocks(const ReportInput& input, SourceList& sources);
Blocks instruction_blocks(const ReportInput& input, SourceList& sources);
Blocks as_built_blocks(const ReportInput& input, SourceList& sources);
Blocks tests_blocks(const ReportInput& input, SourceList& sources);
Blocks sources_blocks(const SourceList& sources);

/// \param left_out  titles of the chapters that have nothing to tell
Blocks job_blocks(const ReportInput& input, const std::vector<std::string>& left_out);

} // namespace interpile::program
