#pragma once
// What a command tells: words as it goes, or one JSON object at its end (--json).

#include "io/diagnostics.h"

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace interpile::program {

/// Numbers that are not numbers or infinite are null in JSON.
using Value = std::variant<double, long, bool, std::string>;

/// Keys carry the unit, as columns do.
struct Entry {
    std::string key;
    Value value;
};
using Record = std::vector<Entry>;

/// Every command tells through it what it computed and wrote; the form is chosen here alone. Words are printed at once,
/// JSON by end(), so that standard output holds nothing else. Progress stays on standard error in both forms.
class Answer {
public:
    enum class Form { Words, Json };
    explicit Answer(Form form) : form_(form) {}

    /// The command in JSON; empty until one is known.
    void name_command(std::string command) { command_ = std::move(command); }

    /// For the eye: standard output, nothing in JSON.
    template <typename... T>
    void say(fmt::format_string<T...> format, T&&... parts) const {
        if (form_ == Form::Words)
            print(fmt::format(format, std::forward<T>(parts)...));
    }
    /// A text that is itself what was asked for, as a table without a file: standard output, in JSON under `key`.
    void text(const std::string& key, const std::string& content);

    /// Results for JSON; in words they are among what say() printed.
    void put(std::string key, Value value) { numbers_.push_back({std::move(key), std::move(value)}); }
    /// One more row of a list.
    void row(const std::string& list, Record record);
    /// A remark that was printed already.
    void note(std::string remark) { warnings_.push_back(std::move(remark)); }

    /// Standard error in words.
    void warn(const std::string& warning);
    /// Why there is no result. In words "interpile: " stands before it.
    void fail(const std::string& message);
    void fail(const io::CaseFaults& faults);
    /// The same for a run that ended early: printed as it is.
    void fail_run(const std::string& message);

    /// Written: a line each in words.
    void files(const std::vector<std::filesystem::path>& files);
    /// Written, and said already.
    void file(const std::filesystem::path& file) { files_.push_back(file.string()); }

    /// Print the object if the form is JSON.
    /// \return the same code
    io::ExitCode end(io::ExitCode code) const;

private:
    static void print(const std::string& text);

    Form form_;
    std::string command_;
    Record numbers_;
    std::vector<std::pair<std::string, std::vector<Record>>> lists_;
    std::vector<std::string> warnings_, files_;
    std::vector<io::Fault> faults_;
};

} // namespace interpile::program
