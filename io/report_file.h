#pragma once
// What a report is made of, as read from a TOML file.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

/// The user's own words at the start of a chapter.
struct ReportText {
    std::string chapter; ///< one of the words of text.chapter
    std::string body;    ///< paragraphs parted by empty lines
};

/// Files are named, not opened here.
struct ReportFile {
    std::filesystem::path file; ///< as given
    std::string title, project, client, author;
    std::optional<std::string> date; ///< none: follows from the results
    std::optional<std::filesystem::path> site, works;
    std::vector<std::filesystem::path> results;
    std::optional<std::filesystem::path> study, study_folder; ///< both or none
    bool after = false;                                       ///< tests after treatment are compared
    std::vector<ReportText> texts;
};

/// Read and check a report file.
/// \throws CaseFaults  with every fault found (exit code 2)
/// \throws FileTrouble if it cannot be read (exit code 3)
ReportFile read_report(const std::filesystem::path& file);

/// The same from text; `file` is used in messages and to resolve relative paths.
ReportFile parse_report(const std::string& text, const std::filesystem::path& file);

} // namespace interpile::io
