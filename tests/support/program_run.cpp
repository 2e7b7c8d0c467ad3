#include "tests/support/program_run.h"

#include <algorithm>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace interpile::testing {

namespace fs = std::filesystem;

namespace {

void redirect(int descriptor, const fs::path& file) {
    const int opened = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    dup2(opened, descriptor);
    close(opened);
}

} // namespace

std::string content_of(const fs::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

WorkingFolder::WorkingFolder() {
    std::string pattern = (fs::temp_directory_path() / "interpile_test_XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error("no temporary folder");
    path_ = pattern;
}

WorkingFolder::~WorkingFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

fs::path WorkingFolder::write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return path_ / name;
}

std::vector<std::string> WorkingFolder::files() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(path_))
        if (entry.is_regular_file())
            names.push_back(fs::relative(entry.path(), path_).string());
    std::sort(names.begin(), names.end());
    return names;
}

ProgramRun WorkingFolder::run(const std::string& program, const std::vector<std::string>& arguments,
                              double interrupt_after_s, int signal) const {
    // What the program says goes beside the folder, so that files() shows only what it wrote itself.
    const fs::path out = path_.string() + ".out", err = path_.string() + ".err";
    std::vector<char*> argv = {const_cast<char*>(program.c_str())};
    for (const auto& argument : arguments)
        argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);
    const pid_t child = fork();
    if (child == 0) {
        redirect(STDOUT_FILENO, out);
        redirect(STDERR_FILENO, err);
        if (chdir(path_.c_str()) == 0)
            execv(program.c_str(), argv.data());
        _exit(127);
    }
    if (interrupt_after_s >= 0) {
        usleep(static_cast<useconds_t>(1e6 * interrupt_after_s));
        kill(child, signal);
    }
    int status = 0;
    waitpid(child, &status, 0);
    ProgramRun result;
    result.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    result.out = content_of(out);
    result.err = content_of(err);
    fs::remove(out);
    fs::remove(err);
    return result;
}

} // namespace interpile::testing
