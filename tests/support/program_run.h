#pragma once
// Run the real program and see what it said and left behind.

#include <csignal>
#include <filesystem>
#include <string>
#include <vector>

namespace interpile::testing {

struct ProgramRun {
    int exit_code = -1; ///< 128 + signal where it was ended by a signal
    std::string out, err;
};

/// An empty folder that is removed at the end of life.
class WorkingFolder {
public:
    WorkingFolder();
    ~WorkingFolder();
    WorkingFolder(const WorkingFolder&) = delete;
    WorkingFolder& operator=(const WorkingFolder&) = delete;

    const std::filesystem::path& path() const { return path_; }
    /// Write a file into the folder.
    std::filesystem::path write(const std::string& name, const std::string& text) const;
    /// Names of all files in it, sorted.
    std::vector<std::string> files() const;

    /// Run a program with this folder as working folder.
    /// \param interrupt_after_s  send the signal after so many seconds; negative: never
    ProgramRun run(const std::string& program, const std::vector<std::string>& arguments,
                   double interrupt_after_s = -1, int signal = SIGINT) const;

private:
    std::filesystem::path path_;
};

/// The content of a file.
std::string content_of(const std::filesystem::path& file);

} // namespace interpile::testing
