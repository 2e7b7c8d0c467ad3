#pragma once
// Faults the user can mend: where, what was read, what is allowed, the mend.

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

/// Exit codes of the program.
enum ExitCode : int { Done = 0, NotConverged = 1, BadInput = 2, FileProblem = 3, Stopped = 130 };

/// One fault of a file of the user (case, site, works, tests of soil) or of a table it names.
struct Fault {
    std::string file;
    int line = 0;      ///< 1-based; 0 where no line is to blame
    int column = 0;    ///< 1-based, in characters
    int width = 1;     ///< characters under the marker
    std::string what;  ///< "layout.spacing_m = 0.17 is outside 0.9 .. 4.0"
    std::string mend;  ///< one line of advice; may be empty
    std::string quote; ///< the faulty line, where `file` is a table; else taken from the text of the file
};

/// All faults of a file and its tables at once; what() is the complete text for the user.
class CaseFaults : public std::runtime_error {
public:
    /// \param text the file the faults point into, for the quoted lines
    CaseFaults(std::vector<Fault> faults, const std::string& text);
    const std::vector<Fault>& faults() const { return faults_; }

private:
    std::vector<Fault> faults_;
};

/// A file that cannot be read or written; what() names it and the mend.
class FileTrouble : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// The candidate with the smallest edit distance to `word`, or empty if none is close (distance > 1/3 of the
/// length).
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

} // namespace interpile::io
