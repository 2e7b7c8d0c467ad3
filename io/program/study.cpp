#include "io/case_parts.h"
#include "io/case_report.h"
#include "io/program/figure_files.h"
#include "io/program/result_options.h"
#include "io/program/side_by_side.h"
#include "io/program/stop_signals.h"
#include "io/program/study_figures.h"
#include "io/program/study_member.h"
#include "io/program/text_files.h"
#include "io/program/told_numbers.h"
#include "io/progress.h"
#include "io/study_validation_report.h"
#include "io/text_lines.h"
#include "postprocess/replace_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <sstream>
#include <unistd.h>

namespace interpile::program {

namespace {

constexpr int most_jobs = 256;          // own choice; keeps out slips
constexpr std::size_t most_listed = 20; // members without result, on the terminal

/// "member 12 of 60, 5 min 20 s left": on a terminal one line that is rewritten, else a line with every 5 %. A member by
/// itself has no progress.
class StudyProgress {
public:
    /// \param done  members of `all` that need not be run
    StudyProgress(std::size_t done, std::size_t all) : before_(done), done_(done), all_(all) {}
    ~StudyProgress() {
        if (terminal_ && shown_)
            fmt::print(stderr, "\n");
    }
    StudyProgress(const StudyProgress&) = delete;
    StudyProgress& operator=(const StudyProgress&) = delete;

    void one_more() {
        ++done_;
        const std::size_t twentieths = 20 * done_ / all_;
        if (all_ == 1 || (!terminal_ && twentieths == shown_twentieths_))
            return;
        shown_twentieths_ = twentieths;
        shown_ = true;
        const double elapsed =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
        const double left =
            elapsed * static_cast<double>(all_ - done_) / static_cast<double>(done_ - before_);
        const std::string text = fmt::format("member {} of {}{}", done_, all_,
                                             done_ < all_ ? ", " + io::duration_words(left) + " left" : "");
        fmt::print(stderr, "{}", terminal_ ? fmt::format("\r{:<60}", text) : text + "\n");
        std::fflush(stderr);
    }

private:
    bool terminal_ = isatty(STDERR_FILENO) != 0, shown_ = false;
    std::size_t before_, done_, all_, shown_twentieths_ = 0;
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

/// The members of share K of N: K, K + N, K + 2 N ...: neighbors in the grid, alike in effort, go to different shares.
std::vector<std::size_t> members_of_share(const std::string& share, std::size_t count) {
    std::istringstream text(share);
    int k = 0, n = 0;
    char slash = 0, rest = 0;
    if (!(text >> k >> slash >> n) || slash != '/' || text >> rest || k < 1 || k > n)
        throw UsageError(fmt::format("--share {}: K/N is needed, share K of N with K in 1 .. N, as 3/12",
                                     io::printable(share)));
    std::vector<std::size_t> numbers;
    for (auto number = static_cast<std::size_t>(k); number <= count; number += static_cast<std::size_t>(n))
        numbers.push_back(number);
    return numbers;
}

void require_usable(const io::StudyFile& study, const StudyOptions& options) {
    if (options.jobs < 1 || options.jobs > most_jobs)
        throw UsageError(fmt::format("--jobs {}: 1 .. {}", options.jobs, most_jobs));
    const int count = static_cast<int>(study.members.size());
    if (options.member && (*options.member < 1 || *options.member > count))
        throw UsageError(
            fmt::format("--member {}: the study has the members 1 .. {}", *options.member, count));
    if (options.share)
        members_of_share(*options.share, study.members.size()); // refuses a bad one
    if (static_cast<int>(options.member.has_value()) + static_cast<int>(options.share.has_value()) +
            static_cast<int>(options.collect) >
        1)
        throw UsageError(
            "--member, --share and --collect do not go together: collect when all members are there.");
}

/// A process that could not keep its result itself.
void note_end(const io::StudyFile& study, const fs::path& folder, const ProcessEnd& end) {
    if (end.signal == 0 && end.exit_code != io::FileProblem)
        return;
    io::MemberResult result = io::planned(
        io::parse_case(study.members[end.number - 1].case_text, member_files(folder, end.number).case_file));
    result.state = io::MemberState::Failed;
    result.reason = end.signal != 0 ? fmt::format("its process was ended by signal {} ({})", end.signal,
                                                  strsignal(end.signal))
                                    : std::string("its files could not be written");
    keep_result(folder, end.number, result);
}

/// \returns false if it was stopped
bool run_members(const io::StudyFile& study, const fs::path& folder, const std::vector<std::size_t>& wanted,
                 int jobs, const Answer& answer) {
    std::vector<std::size_t> numbers;
    std::copy_if(wanted.begin(), wanted.end(), std::back_inserter(numbers),
                 [&](std::size_t number) { return !finished_result(study, number, folder); });
    if (numbers.size() < wanted.size())
        answer.say("{} of {} members are finished already.\n", wanted.size() - numbers.size(), wanted.size());
    std::fflush(stdout);
    StudyProgress progress(wanted.size() - numbers.size(), wanted.size());
    StopSignals signals;
    bool stopping = false;
    SideBySide parts;
    parts.jobs = jobs;
    parts.work = [&](std::size_t number) { return run_member(study, number, folder); };
    parts.stop_requested = [&] { return stopping = stopping || signals.stop_requested(); };
    parts.ended = [&](const ProcessEnd& end) {
        if (stopping)
            return; // what was at work is run again by the next call
        note_end(study, folder, end);
        progress.one_more();
    };
    return run_side_by_side(numbers, parts);
}

std::vector<fs::path> write_tables(const io::StudyFile& study, const std::vector<io::StudyRow>& rows,
                                   const fs::path& folder) {
    std::vector<fs::path> files = {write_text(folder / "study.csv", io::study_table(study, rows)),
                                   write_text(folder / "times.csv", io::study_times(rows)),
                                   folder / "study.h5"};
    postprocess::replace_file(files.back(),
                              [&](const fs::path& part) { io::write_study_file(part, study, rows); });
    return files;
}

void write_comparison(const io::StudyFile& study, const std::vector<io::StudyRow>& rows,
                      const fs::path& folder, std::vector<fs::path>& files, Answer& answer) {
    const auto comparison = io::compare_blow_counts(study, rows);
    answer.say("{}", io::comparison_summary(study, comparison));
    tell_comparison(comparison, answer);
    files.push_back(write_text(folder / "validation.csv", io::deviation_table(study, comparison)));
    files.push_back(write_text(folder / "validation-trend.csv", io::trend_table(comparison)));
}

/// One figure keeps its name, several are numbered.
fs::path figure_stem(const fs::path& folder, const char* name, std::size_t k, std::size_t count) {
    return folder / (count == 1 ? std::string(name) : fmt::format("{}-{:02}", name, k + 1));
}

void draw_figures(const io::StudyFile& study, const std::vector<io::StudyRow>& rows, const fs::path& folder,
                  std::vector<fs::path>& files, const Answer& answer) {
    const auto spacing = spacing_figures(study, rows);
    for (std::size_t k = 0; k < spacing.size(); ++k)
        save_in_all_formats(postprocess::spacing_curves(spacing[k]),
                            figure_stem(folder, "spacing-curves", k, spacing.size()), files);
    const auto counts = blow_count_figures(study, rows);
    for (std::size_t k = 0; k < counts.size(); ++k)
        save_in_all_formats(postprocess::blow_count_chart(counts[k]),
                            figure_stem(folder, "blow-counts", k, counts.size()), files);
    if (spacing.size() == most_study_figures || counts.size() == most_study_figures)
        answer.say("At most {} figures of a kind are drawn.\n", most_study_figures);
}

/// Members without a result, each with its reason.
std::size_t print_members(const io::StudyFile& study, const std::vector<io::StudyRow>& rows, Answer& answer) {
    std::size_t without = 0;
    for (const auto& row : rows) {
        if (row.result.state == io::MemberState::Converged)
            continue;
        if (++without <= most_listed)
            answer.warn(fmt::format(
                "member {} ({}): {}{}", row.number, in_words(study, study.members[row.number - 1]),
                io::in_words(row.result.state), row.result.reason.empty() ? "" : ": " + row.result.reason));
    }
    if (without > most_listed)
        answer.warn(fmt::format("and {} more, see the column state", without - most_listed));
    answer.say("{} members, {} converged.\n", rows.size(), rows.size() - without);
    if (std::any_of(rows.begin(), rows.end(), [](const auto& row) { return !row.result.densifies; })) {
        const std::string remark =
            "The soil model cannot densify by strokes: D_r and N after treatment are no predictions.";
        answer.say("{}\n", remark);
        answer.note(remark);
    }
    return without;
}

io::ExitCode stopped(const fs::path& folder, Answer& answer) {
    answer.fail_run(fmt::format(
        "Stopped on request; {} keeps the finished members, and the same command goes on.", folder.string()));
    return io::Stopped;
}

io::ExitCode run_one(const io::StudyFile& study, const fs::path& folder, std::size_t number, Answer& answer) {
    if (!run_members(study, folder, {number}, 1, answer))
        return stopped(folder, answer);
    const auto result = io::read_result(member_files(folder, number).result_file);
    const auto state = result ? result->state : io::MemberState::Failed;
    if (result)
        tell_member(number, *result, answer);
    answer.say("member {} ({}): {}{}\n", number, in_words(study, study.members[number - 1]),
               io::in_words(state), result && !result->reason.empty() ? ": " + result->reason : "");
    return state == io::MemberState::Converged ? io::Done : io::NotConverged;
}

io::ExitCode run_share(const io::StudyFile& study, const fs::path& folder, const StudyOptions& options,
                       Answer& answer) {
    const auto numbers = members_of_share(*options.share, study.members.size());
    if (!run_members(study, folder, numbers, options.jobs, answer))
        return stopped(folder, answer);
    std::size_t converged = 0;
    for (const std::size_t number : numbers) {
        const auto result = finished_result(study, number, folder);
        if (result)
            tell_member(number, *result, answer);
        converged += result && result->state == io::MemberState::Converged ? 1 : 0;
    }
    answer.say("share {}: {} members, {} converged.\n", *options.share, numbers.size(), converged);
    return converged == numbers.size() ? io::Done : io::NotConverged;
}

} // namespace

io::ExitCode study(const StudyOptions& options, Answer& answer) {
    const io::StudyFile study = io::read_study(options.file);
    require_usable(study, options);
    const fs::path folder = folder_for(options.folder, options.file, "_study");
    fs::create_directories(folder / "members");
    if (options.member)
        return run_one(study, folder, static_cast<std::size_t>(*options.member), answer);
    if (options.share)
        return run_share(study, folder, options, answer);
    if (!options.collect) {
        std::vector<std::size_t> all;
        for (std::size_t number = 1; number <= study.members.size(); ++number)
            all.push_back(number);
        answer.say("{}: {} members\n", study.title, all.size());
        if (!run_members(study, folder, all, options.jobs, answer))
            return stopped(folder, answer);
    }
    const auto rows = collected(study, folder);
    const std::size_t without = print_members(study, rows, answer);
    for (const auto& row : rows)
        tell_member(row.number, row.result, answer);
    std::vector<fs::path> files = write_tables(study, rows, folder);
    if (study.comparison.compare)
        write_comparison(study, rows, folder, files, answer);
    draw_figures(study, rows, folder, files, answer);
    answer.files(files);
    answer.say("{}\n", io::caution());
    answer.note(io::caution());
    return without == 0 ? io::Done : io::NotConverged;
}

} // namespace interpile::program
