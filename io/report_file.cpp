#include "io/report_file.h"

#include "io/case_parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

/// A text that is there must say something.
void require_words(CaseValues& values, const std::string& path) {
    if (values.has(path) && values.text(path).find_first_not_of(" \t\r\n") == std::string::npos)
        values.fault(path, "is empty", "Write a text, or leave the key out if it may be.");
}

class ReportReader {
public:
    ReportReader(CaseValues& values, const std::filesystem::path& file) : values_(values) {
        report_.file = file;
    }

    ReportFile read() {
        for (const char* key :
             {"title", "project", "client", "author", "date", "site", "works", "study", "study_folder"})
            require_words(values_, std::string("report.") + key);
        set(report_.title, "report.title");
        set(report_.project, "report.project");
        set(report_.client, "report.client");
        set(report_.author, "report.author");
        if (values_.given("report.date") && values_.has("report.date"))
            report_.date = values_.text("report.date");
        report_.site = beside("report.site");
        report_.works = beside("report.works");
        read_results();
        read_study();
        if (values_.has("report.after"))
            report_.after = values_.flag("report.after");
        if (report_.after && !values_.given("report.site"))
            values_.missing("report.site", "after needs it: its [after] names the tests");
        if (!values_.given("report.site") && !values_.given("report.results") &&
            !values_.given("report.works") && !values_.given("report.study"))
            values_.missing("report.site",
                            "neither it nor results nor works nor study is given: there is nothing to tell");
        read_texts();
        return report_;
    }

private:
    void set(std::string& to, std::string_view path) const {
        if (values_.has(path))
            to = values_.text(path);
    }

    std::optional<std::filesystem::path> beside(std::string_view path) const {
        if (!values_.has(path))
            return {};
        return report_.file.parent_path() / values_.text(path);
    }

    void read_results() {
        if (!values_.has("report.results"))
            return;
        const auto& names = values_.texts("report.results");
        for (std::size_t i = 0; i < names.size(); ++i) {
            if (names[i].empty() ||
                std::count(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(i), names[i]) > 0)
                values_.faults().add(values_.element_place("report.results", i),
                                     names[i].empty()
                                         ? std::string("report.results: a name is empty")
                                         : fmt::format("report.results: \"{}\" stands here twice", names[i]),
                                     "Name every results file once.");
            report_.results.push_back(report_.file.parent_path() / names[i]);
        }
    }

    void read_study() {
        report_.study = beside("report.study");
        report_.study_folder = beside("report.study_folder");
        if (values_.given("report.study") && !values_.given("report.study_folder"))
            values_.missing("report.study_folder", "study needs it: the members that were run lie there");
        if (values_.given("report.study_folder") && !values_.given("report.study"))
            values_.missing("report.study", "study_folder needs it: which members there are");
    }

    void read_texts() {
        for (int n = 1; n <= values_.repeated_count("text"); ++n) {
            const std::string prefix = fmt::format("text[{}].", n);
            require_words(values_, prefix + "body");
            if (values_.has(prefix + "chapter") && values_.has(prefix + "body"))
                report_.texts.push_back({values_.text(prefix + "chapter"), values_.text(prefix + "body")});
        }
    }

    CaseValues& values_;
    ReportFile report_;
};

} // namespace

ReportFile parse_report(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults, report_dictionary());
    ReportFile report = ReportReader(values, file).read();
    faults.throw_if_any();
    return report;
}

ReportFile read_report(const std::filesystem::path& file) {
    return parse_report(read_text_file(file), file);
}

} // namespace interpile::io
