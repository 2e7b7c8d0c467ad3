#include "io/program/study_member.h"

#include "io/case_parts.h"
#include "io/observers.h"
#include "io/program/side_by_side.h"
#include "io/program/stage_observers.h"
#include "io/program/stop_signals.h"
#include "io/program/text_files.h"
#include "io/results_writer.h"
#include "postprocess/dissipation.h"
#include "postprocess/ground_summary.h"
#include "solver/installation.h"

#include <chrono>
#include <cmath>
#include <csignal>
#include <new>

namespace interpile::program {

namespace {

namespace fs = std::filesystem;

/// The members of a results file that a row of the study needs.
void take_result(const fs::path& file, io::MemberResult& result) {
    const io::ResultsReader results(file);
    const auto last = results.stage(results.stage_count() - 1);
    result.heave_pct = 100 * std::expm1(last.heave_strain);
    const auto record = results.half_strokes();
    if (record.efficiency.size() > 0)
        result.efficiency = record.efficiency[record.efficiency.size() - 1];
    result.time_to_10_pct_min = postprocess::time_to_remaining_s(record, 0.1) / 60;
    const auto& points = results.header().points;
    const auto values = postprocess::points_at(results.header(), last);
    for (std::size_t k = 0; k < points.size(); ++k) {
        const double density_pct = values.density_pct[static_cast<Eigen::Index>(k)];
        if (points[k].name == mesh::centroid_name)
            result.centroid_density_pct = density_pct;
        else if (points[k].name == mesh::mid_span_name) {
            result.mid_span_density_pct = density_pct;
            result.mid_span_pressure_ratio =
                postprocess::largest_point_pressure_kPa(record, static_cast<Eigen::Index>(k)) /
                result.vertical_stress_kPa;
        }
    }
    if (const auto ground = postprocess::ground_at(results.header(), last)) {
        result.density_pct = ground->density.mean;
        result.weakest_density_pct = ground->density.least;
        result.stress_ratio = ground->mean_stress_ratio;
    }
}

solver::RunReport drive(const io::Case& member, const fs::path& output, StopSignals& signals) {
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : member.plan.piles)
        centers.push_back(pile.center_m);
    const auto grid = mesh::make_grid(member.domain, centers, member.grid);
    const auto soil = solver::make_soil_model(member.soil);
    io::ResultsWriter writer(output, member, grid, soil->densifies_by_cycles(), true);
    FirstAndLastStage first_and_last(writer);
    solver::RunObserver& recorder = member.output.every_pile
                                        ? static_cast<solver::RunObserver&>(writer)
                                        : static_cast<solver::RunObserver&>(first_and_last);
    io::Observers observers({&recorder, &signals});
    const auto report = install_piles(grid, member.domain, member.slice, *soil, member.plan, observers);
    first_and_last.end_of_run();
    if (report.outcome == solver::Outcome::Finished)
        writer.finish();
    return report;
}

/// \returns false if it was stopped
bool simulate(const io::Case& member, const fs::path& output, StopSignals& signals,
              io::MemberResult& result) {
    const auto begin = std::chrono::steady_clock::now();
    const auto report = drive(member, output, signals);
    result.wall_time_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    result.increments = static_cast<double>(report.increments);
    result.iterations = static_cast<double>(report.iterations);
    if (report.outcome == solver::Outcome::Stopped)
        return false;
    if (report.outcome == solver::Outcome::NotConverged) {
        result.state = io::MemberState::NotConverged;
        result.reason = report.why;
        return true;
    }
    take_result(output, result);
    result.state = io::MemberState::Converged;
    return true;
}

} // namespace

MemberFiles member_files(const fs::path& folder, std::size_t number) {
    const fs::path stem = folder / "members" / io::member_name(number);
    return {stem.string() + ".toml", stem.string() + ".h5", stem.string() + ".result.toml"};
}

std::optional<io::MemberResult> finished_result(const io::StudyFile& study, std::size_t number,
                                                const fs::path& folder) {
    const auto files = member_files(folder, number);
    if (!fs::exists(files.case_file) || (study.keep_results && !fs::exists(files.results)) ||
        io::read_text_file(files.case_file) != study.members[number - 1].case_text)
        return {};
    auto result = io::read_result(files.result_file);
    return result && result->finished() ? result : std::nullopt;
}

void keep_result(const fs::path& folder, std::size_t number, const io::MemberResult& result) {
    write_text(member_files(folder, number).result_file, io::result_text(result));
}

std::vector<io::StudyRow> collected(const io::StudyFile& study, const fs::path& folder) {
    std::vector<io::StudyRow> rows;
    for (std::size_t number = 1; number <= study.members.size(); ++number) {
        io::StudyRow row;
        row.number = number;
        const auto files = member_files(folder, number);
        const std::string& text = study.members[number - 1].case_text;
        const bool same = fs::exists(files.case_file) && io::read_text_file(files.case_file) == text;
        const auto kept = same ? io::read_result(files.result_file) : std::nullopt;
        row.result = kept ? *kept : io::planned(io::parse_case(text, files.case_file));
        row.blow_counts = io::blow_counts_of(row.result, study.comparison);
        rows.push_back(std::move(row));
    }
    return rows;
}

io::ExitCode run_member(const io::StudyFile& study, std::size_t number, const fs::path& folder) {
    StopSignals signals;
    std::signal(SIGINT, SIG_IGN);
    release_stop_signals();
    const auto files = member_files(folder, number);
    io::MemberResult result;
    try {
        fs::remove(files.result_file); // first: an old result must not stand beside a new case
        const std::string& text = study.members[number - 1].case_text;
        write_text(files.case_file, text);
        const io::Case member = io::parse_case(text, files.case_file);
        result = io::planned(member);
        const bool finished = simulate(member, files.results, signals, result);
        if (!finished || !study.keep_results)
            fs::remove(files.results);
        if (!finished)
            return io::Stopped;
    } catch (const std::bad_alloc&) {
        result.state = io::MemberState::Failed;
        result.reason = "not enough memory";
    } catch (const std::exception& error) {
        result.state = io::MemberState::Failed;
        result.reason = error.what();
    }
    try {
        keep_result(folder, number, result);
    } catch (const std::exception&) { // the first process tells it
        return io::FileProblem;
    }
    return result.state == io::MemberState::Converged ? io::Done : io::NotConverged;
}

} // namespace interpile::program
