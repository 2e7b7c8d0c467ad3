// The only file that includes the JSON library.

#include "io/program/answer.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <regex>

namespace interpile::program {

namespace {

using Json = nlohmann::ordered_json;

Json json_of(const Value& value) {
    return std::visit([](const auto& part) { return Json(part); }, value); // not finite: null
}

Json json_of(const Record& record) {
    Json object = Json::object();
    for (const auto& [key, value] : record)
        object[key] = json_of(value);
    return object;
}

/// The key, option or column that a message is about, which it names first or in quotation marks: "layout.spacing_m" of
/// "layout.spacing_m = 9 is outside ...", "spacing_m" of "key "spacing_m" is missing in [layout]", "--jobs", "depth_m" of
/// "row 3, column depth_m: ...". Empty where it names none.
/// \param of_file  the message is about a place of a file: only there keys stand with their table
std::string key_named_in(std::string_view message, bool of_file) {
    static const std::regex forms(
        "^(?:row \\d+, )?column ([A-Za-z0-9_]+)\\b"
        "|^(--[a-z-]+)"
        "|^(?:\\S+: )?(?:key|unknown key|unknown table or key|repeated key) \"([^\"]+)\""
        "|^([a-z_]+(?:\\[\\d+\\])?\\.[A-Za-z0-9_.]+) ");
    message = message.substr(0, 300); // the library needs stack for every character
    std::cmatch found;
    if (!std::regex_search(message.begin(), message.end(), found, forms))
        return {};
    const auto part = std::find_if(found.begin() + 1, found.end(), [](const auto& p) { return p.matched; });
    const bool dotted = part == found.end() - 1; // else it may be the name of a file
    return dotted && !of_file ? std::string() : part->str();
}

Json json_of(const io::Fault& fault) {
    const auto text_or_null = [](const std::string& text) { return text.empty() ? Json() : Json(text); };
    const auto place_or_null = [](int place) { return place > 0 ? Json(place) : Json(); };
    return {{"file", text_or_null(fault.file)},
            {"line", place_or_null(fault.line)},
            {"column", place_or_null(fault.line > 0 ? fault.column : 0)},
            {"key", text_or_null(key_named_in(fault.what, !fault.file.empty()))},
            {"message", fault.what},
            {"mend", text_or_null(fault.mend)}};
}

const char* in_words(io::ExitCode code) {
    switch (code) {
    case io::Done:
        return "done";
    case io::NotConverged:
        return "not converged";
    case io::BadInput:
        return "bad input";
    case io::FileProblem:
        return "file trouble";
    case io::Stopped:
        return "stopped";
    }
    return "";
}

} // namespace

void Answer::print(const std::string& text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
}

void Answer::text(const std::string& key, const std::string& content) {
    if (form_ == Form::Words)
        print(content);
    else
        put(key, content);
}

void Answer::row(const std::string& list, Record record) {
    auto found = std::find_if(lists_.begin(), lists_.end(), [&](const auto& l) { return l.first == list; });
    if (found == lists_.end())
        found = lists_.insert(lists_.end(), {list, {}});
    found->second.push_back(std::move(record));
}

void Answer::warn(const std::string& warning) {
    if (form_ == Form::Words)
        fmt::print(stderr, "{}\n", warning);
    warnings_.push_back(warning);
}

void Answer::fail(const std::string& message) {
    fail_run(form_ == Form::Words ? "interpile: " + message : message);
}

void Answer::fail(const io::CaseFaults& faults) {
    if (form_ == Form::Words)
        fmt::print(stderr, "{}\n", faults.what());
    faults_.insert(faults_.end(), faults.faults().begin(), faults.faults().end());
}

void Answer::fail_run(const std::string& message) {
    if (form_ == Form::Words)
        fmt::print(stderr, "{}\n", message);
    io::Fault fault;
    fault.what = message;
    faults_.push_back(std::move(fault));
}

void Answer::files(const std::vector<std::filesystem::path>& files) {
    for (const auto& written : files) {
        say("{}\n", written.string());
        file(written);
    }
}

io::ExitCode Answer::end(io::ExitCode code) const {
    if (form_ == Form::Words)
        return code;
    Json object = {{"program", "interpile " INTERPILE_VERSION},
                   {"command", command_.empty() ? Json() : Json(command_)},
                   {"exit_code", static_cast<int>(code)},
                   {"status", in_words(code)}};
    Json results = json_of(numbers_);
    for (const auto& [name, rows] : lists_) {
        Json list = Json::array();
        for (const auto& record : rows)
            list.push_back(json_of(record));
        results[name] = std::move(list);
    }
    object["results"] = std::move(results);
    object["files"] = files_;
    object["warnings"] = warnings_;
    Json faults = Json::array();
    for (const auto& fault : faults_)
        faults.push_back(json_of(fault));
    object["faults"] = std::move(faults);
    // A text of the user that is not UTF-8 must not cost the answer.
    print(object.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
    return code;
}

} // namespace interpile::program
