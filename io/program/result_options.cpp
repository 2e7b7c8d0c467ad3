#include "io/program/result_options.h"

#include "mesh/fields.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace interpile::program {

int chosen_stage(const io::ResultsReader& results, std::optional<int> stage) {
    const int count = results.stage_count();
    if (count == 0)
        throw io::FileTrouble("The result has no complete stage yet; wait until the first one is written.");
    const int chosen = stage.value_or(count - 1);
    if (chosen < 0 || chosen >= count)
        throw UsageError(fmt::format("--stage {}: the result has the stages 0 .. {}.", chosen, count - 1));
    return chosen;
}

void require_fields(const std::vector<std::string>& fields, const std::vector<std::string>& others) {
    std::vector<std::string> known = others;
    for (const auto& info : mesh::field_table())
        known.emplace_back(info.name);
    for (const auto& field : fields) {
        if (std::find(known.begin(), known.end(), field) != known.end())
            continue;
        const std::string nearest = io::nearest_word(field, known);
        throw UsageError(
            nearest.empty() ? fmt::format("--field {}: unknown; known are {}.", field, fmt::join(known, ", "))
                            : fmt::format("--field {}: unknown; nearest: \"{}\".", field, nearest));
    }
}

std::vector<postprocess::FigureFormat> formats_of(const std::vector<std::string>& words) {
    using enum postprocess::FigureFormat;
    if (words.empty())
        return postprocess::figure_style().formats;
    std::vector<postprocess::FigureFormat> formats;
    for (const auto& word : words) {
        if (word != "pdf" && word != "svg" && word != "png")
            throw UsageError(fmt::format("--format {}: known are pdf, svg, png.", word));
        formats.push_back(word == "pdf" ? Pdf : word == "svg" ? Svg : Png);
    }
    return formats;
}

std::vector<double> numbers_of(const std::string& text, std::size_t count, const std::string& option) {
    std::vector<double> numbers;
    const char* at = text.data();
    const char* const end = text.data() + text.size();
    while (true) {
        double number = 0;
        const auto [next, error] = std::from_chars(at, end, number);
        if (error != std::errc() || !std::isfinite(number) || (next != end && *next != ','))
            break;
        numbers.push_back(number);
        if (next == end) {
            if (numbers.size() == count)
                return numbers;
            break;
        }
        at = next + 1;
    }
    throw UsageError(fmt::format(
        "{} {}: {} numbers in meters are needed, separated by commas without blanks.", option, text, count));
}

fs::path folder_for(const fs::path& given, const fs::path& result, const std::string& suffix) {
    return given.empty() ? fs::path(result.stem().string() + suffix) : given;
}

std::vector<postprocess::StageGround> ground_at_stages(const io::ResultsReader& results) {
    std::vector<postprocess::StageGround> stages;
    for (int index = 0, count = results.stage_count(); index < count; ++index)
        if (auto ground = postprocess::ground_at(results.header(), results.stage(index)))
            stages.push_back(std::move(*ground));
    return stages;
}

void warn_unfinished(const io::ResultsReader& results, Answer& answer) {
    if (!results.header().finished)
        answer.warn(
            "Note: this run is not finished (still going, stopped or not converged); what is complete so far "
            "is used.");
}

} // namespace interpile::program
