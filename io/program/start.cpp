#include "io/program/commands.h"
#include "io/program/result_options.h"
#include "io/program/starter_files.h"
#include "io/program/text_files.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace interpile::program {

namespace {

std::vector<StarterFile> files_of(const std::string& kind) {
    std::vector<StarterFile> files;
    std::vector<std::string> kinds;
    for (const StarterFile& file : starter_files()) {
        if (file.kind == kind)
            files.push_back(file);
        if (std::find(kinds.begin(), kinds.end(), file.kind) == kinds.end())
            kinds.push_back(file.kind);
    }
    if (files.empty()) {
        const std::string nearest = io::nearest_word(kind, kinds);
        throw UsageError(fmt::format("there is no starter \"{}\"; there are {}{}", kind,
                                     fmt::join(kinds, ", "), nearest.empty() ? "" : "; nearest: " + nearest));
    }
    return files;
}

} // namespace

io::ExitCode start(const StartOptions& options, Answer& answer) {
    const auto files = files_of(options.kind);
    const fs::path folder = options.folder.empty() ? fs::path(options.kind) : options.folder;
    for (const StarterFile& file : files)
        if (fs::exists(folder / file.name))
            throw io::FileTrouble(
                fmt::format("{} exists and was left untouched; nothing was written. Choose another "
                            "folder with -o.",
                            (folder / file.name).string()));
    std::vector<fs::path> written;
    for (const StarterFile& file : files)
        written.push_back(write_text(folder / file.name, file.text));
    answer.say("A copy of a shipped example: an invented site, every value to be replaced by yours.\n");
    answer.files(written);
    return io::Done;
}

} // namespace interpile::program
