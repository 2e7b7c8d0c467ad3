#include "io/diagnostics.h"

#include "io/text_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <set>

namespace interpile::io {

namespace {

constexpr int widest_quote = 100; // characters; a longer line is cut around the marker

/// The quoted line with the marker below it; empty where there is nothing to quote.
std::string quotation(const Fault& fault, std::string_view line) {
    if (fault.line < 1 || fault.column < 1 || line.empty())
        return {};
    const int first = fault.column > widest_quote ? fault.column - widest_quote / 2 : 1;
    const std::string shown = printable(characters(line, first, widest_quote));
    const int marker_at = fault.column - first;
    const int width = std::clamp(fault.width, 1, std::max(1, character_count(shown) - marker_at));
    return fmt::format("{:5d} | {}\n{:5s} | {:{}s}{:^^{}s}\n", fault.line, shown, "", "", marker_at, "",
                       width);
}

std::string describe(const Fault& fault, const std::string& text) {
    std::string message = fault.file;
    if (fault.line > 0)
        message += fmt::format(":{}:{}", fault.line, std::max(fault.column, 1));
    message += fmt::format(": {}\n", fault.what);
    message +=
        quotation(fault, fault.quote.empty() ? line_of(text, fault.line) : std::string_view(fault.quote));
    if (!fault.mend.empty())
        message += fmt::format("   {}\n", fault.mend);
    return message;
}

std::string describe(const std::vector<Fault>& faults, const std::string& text) {
    std::string message;
    std::set<std::string_view> files;
    for (const Fault& fault : faults) {
        message += describe(fault, text);
        files.insert(fault.file);
    }
    return message + fmt::format("{} fault{} in {}; nothing was computed, earlier results are untouched.",
                                 faults.size(), faults.size() == 1 ? "" : "s",
                                 files.size() == 1 ? "the file" : fmt::format("{} files", files.size()));
}

std::string lower_case(std::string_view word) {
    std::string lower(word);
    for (char& c : lower)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return lower;
}

/// Insertions, deletions, substitutions and exchanges of neighbors that turn a into b (Damerau-Levenshtein,
/// in the restricted form that edits no place twice).
std::size_t edit_distance(const std::string& a, const std::string& b) {
    std::vector<std::size_t> two_back(b.size() + 1), back(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        two_back.swap(back);
        back.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({back[j] + 1, row[j - 1] + 1, back[j - 1] + (a[i - 1] != b[j - 1])});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], two_back[j - 2] + 1);
        }
    }
    return row[b.size()];
}

} // namespace

CaseFaults::CaseFaults(std::vector<Fault> faults, const std::string& text)
    : std::runtime_error(describe(faults, text)), faults_(std::move(faults)) {}

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
    const std::string wanted = lower_case(word);
    std::string nearest;
    std::size_t smallest = wanted.size() + 1;
    for (const std::string& candidate : candidates) {
        const std::size_t distance = edit_distance(wanted, lower_case(candidate));
        const std::size_t length = std::max(wanted.size(), candidate.size());
        if (distance < smallest && 3 * distance <= length) {
            smallest = distance;
            nearest = candidate;
        }
    }
    return nearest;
}

} // namespace interpile::io
