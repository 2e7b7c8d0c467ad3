#include "io/checkpoint.h"

#include "io/binary_archive.h"
#include "io/diagnostics.h"
#include "io/run_state_archive.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <unistd.h>

namespace interpile::io {

namespace fs = std::filesystem;

// In namespace io, where the archive finds them.
void exchange(auto& a, Either<RunIdentity> auto& s) {
    a(s.program_version, s.case_text, s.piles);
}
void exchange(auto& a, Either<ResultsRows> auto& s) {
    a(s.started, s.increments, s.half_strokes, s.stages, s.warnings);
}
void exchange(auto& a, Either<StageSummary> auto& s) {
    a(s.stage, s.pile, s.converged, s.balance, s.heave_strain, s.relative_density_pct, s.time_s,
      s.after_rest);
}
void exchange(auto& a, Either<Checkpoint> auto& s) {
    a(s.identity, s.rows, s.stages, s.share_done, s.state);
}

namespace {

constexpr std::string_view signature = "interpile restart\n";
constexpr std::uint32_t format_version = 3; // on a machine of the other byte order another number

/// FNV-1a, 64 bit. Source: Fowler, Noll, Vo, Eastlake, Hansen, "The FNV Non-Cryptographic Hash Algorithm", from memory.
std::uint64_t checksum(std::string_view bytes) {
    std::uint64_t sum = 14695981039346656037ULL;
    for (const char byte : bytes)
        sum = (sum ^ static_cast<unsigned char>(byte)) * 1099511628211ULL;
    return sum;
}

void write_to_disk(const fs::path& file, std::string_view bytes) {
    const int descriptor = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    const auto fail = [&] {
        const int error = errno;
        if (descriptor >= 0)
            close(descriptor);
        throw FileTrouble(fmt::format("{}: cannot be written: {}", file.string(), std::strerror(error)));
    };
    if (descriptor < 0)
        fail();
    while (!bytes.empty()) {
        const ssize_t written = write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            fail();
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    if (fsync(descriptor) != 0)
        fail();
    close(descriptor);
}

std::string content_of(const fs::path& file) {
    std::ifstream stream(file, std::ios::binary);
    if (!stream)
        throw FileTrouble(fmt::format("{}: cannot be read: {}", file.string(), std::strerror(errno)));
    std::ostringstream content;
    content << stream.rdbuf();
    return std::move(content).str();
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

/// "line 12 was "a", is "b"", or empty.
std::string first_difference(const std::vector<std::string>& was, const std::vector<std::string>& is,
                             std::string_view what) {
    const auto quoted = [](const std::vector<std::string>& lines, std::size_t k) {
        return k < lines.size() ? fmt::format("\"{}\"", lines[k]) : std::string("not there");
    };
    for (std::size_t k = 0; k < std::max(was.size(), is.size()); ++k)
        if (quoted(was, k) != quoted(is, k))
            return fmt::format("{} {} was {}, is {}", what, k + 1, quoted(was, k), quoted(is, k));
    return {};
}

} // namespace

RunIdentity identity_of(const Case& run_case) {
    RunIdentity identity{INTERPILE_VERSION, run_case.text, {}};
    for (const auto& pile : run_case.plan.piles)
        identity.piles.push_back(
            fmt::format("({}, {}) m, diameter {} m", pile.center_m.x(), pile.center_m.y(), pile.diameter_m));
    return identity;
}

fs::path restart_file_of(const fs::path& results) {
    return fs::path(results) += ".restart";
}

void save_checkpoint(const fs::path& file, const Checkpoint& checkpoint) {
    BinaryWriter payload;
    payload(checkpoint);
    BinaryWriter head;
    head(format_version, static_cast<std::uint64_t>(payload.bytes().size()));
    std::string all = std::string(signature) + head.bytes() + payload.bytes();
    BinaryWriter tail;
    tail(checksum(all));
    all += tail.bytes();

    const fs::path part = fs::path(file) += ".part";
    std::error_code error;
    try {
        write_to_disk(part, all);
    } catch (const FileTrouble&) {
        fs::remove(part, error);
        throw;
    }
    fs::rename(part, file, error);
    if (error)
        throw FileTrouble(fmt::format("{}: cannot be replaced: {}", file.string(), error.message()));
}

Checkpoint load_checkpoint(const fs::path& file) {
    const std::string all = content_of(file);
    const auto damaged = [&file](std::string_view why) {
        return FileTrouble(
            fmt::format("{}: not a restart file of this program, or damaged ({}); begin the run "
                        "anew with --overwrite.",
                        file.string(), why));
    };
    constexpr std::size_t head_bytes = sizeof(std::uint32_t) + sizeof(std::uint64_t);
    constexpr std::size_t tail_bytes = sizeof(std::uint64_t);
    if (!all.starts_with(signature) || all.size() < signature.size() + head_bytes + tail_bytes)
        throw damaged("its beginning is another one");
    std::uint32_t version = 0;
    std::uint64_t size = 0, sum = 0;
    BinaryReader(std::string_view(all).substr(signature.size(), head_bytes))(version, size);
    if (version != format_version)
        throw FileTrouble(
            fmt::format("{}: a restart file of another version of the program or another kind of "
                        "machine; begin the run anew with --overwrite.",
                        file.string()));
    if (all.size() != signature.size() + head_bytes + size + tail_bytes)
        throw damaged("its length is wrong");
    const std::string_view before_sum = std::string_view(all).substr(0, all.size() - tail_bytes);
    BinaryReader(std::string_view(all).substr(before_sum.size()))(sum);
    if (sum != checksum(before_sum))
        throw damaged("its checksum is wrong");
    Checkpoint checkpoint;
    BinaryReader payload(before_sum.substr(signature.size() + head_bytes));
    try {
        payload(checkpoint);
    } catch (const std::runtime_error& error) {
        throw damaged(error.what());
    }
    return checkpoint;
}

void refuse_other_run(const fs::path& file, const RunIdentity& saved, const RunIdentity& now) {
    std::string difference;
    if (saved.program_version != now.program_version)
        difference = fmt::format("program version was {}, is {}", saved.program_version, now.program_version);
    if (difference.empty())
        difference = first_difference(lines_of(saved.case_text), lines_of(now.case_text), "line");
    if (difference.empty())
        difference = first_difference(saved.piles, now.piles, "pile");
    if (difference.empty() && saved.case_text != now.case_text)
        difference = "the ends of lines differ";
    if (!difference.empty())
        throw FileTrouble(
            fmt::format("{}: saved by a run of another case: {}. Go on with the case as it was, or "
                        "begin anew with --overwrite.",
                        file.string(), difference));
}

} // namespace interpile::io
