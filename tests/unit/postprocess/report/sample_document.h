#pragma once
// A small report with every kind of block, and programs from outside to read what becomes of it.

#include "postprocess/report/document.h"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <unistd.h>

namespace interpile::tests {

namespace report = postprocess::report;

inline report::Figure square_figure() {
    return {"a square", {{200, 120}, "square", "", [](postprocess::Canvas& canvas) {
                             canvas.stroke({{10, 10}, {190, 10}, {190, 110}, {10, 110}}, {}, true);
                             canvas.text(postprocess::plain("inside the square"), {20, 60}, {});
                         }}};
}

/// \param rows  of the table
inline report::Document sample_document(int rows) {
    report::Table table{
        "depths & loads", {{"depth", "m"}, {"sigma", "kPa", true}, {"volume", "m3"}}, {}, {"a note <small>"}};
    for (int n = 1; n <= rows; ++n)
        table.rows.push_back({std::to_string(n), "load " + std::to_string(n), "1.5"});
    report::Document document{"Piles \"A\" & B", "Project <X>",         "", "N. N.", "2026-11-25",
                              "interpile test",  {"Not for approval."}, {}};
    document.chapters = {
        {"First chapter",
         {report::Paragraph{"Density D_r and a_s grow."}, report::Heading{"Loads"}, table,
          report::Items{{"one item"}}}},
        {"Second chapter", {report::Caution{"Take care."}, square_figure(), square_figure()}}};
    return document;
}

/// What a program says of a text written to a file.
inline std::string told_of(const std::string& text, const std::string& ending, const std::string& before,
                           const std::string& after) {
    const auto file = std::filesystem::temp_directory_path() /
                      ("interpile-report-test-" + std::to_string(getpid()) + ending);
    std::ofstream(file, std::ios::binary) << text;
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(
        popen((before + " '" + file.string() + "' " + after).c_str(), "r"), pclose);
    std::string told;
    char part[4096];
    for (std::size_t count; (count = fread(part, 1, sizeof part, pipe.get())) > 0;)
        told.append(part, count);
    std::filesystem::remove(file);
    return told;
}

} // namespace interpile::tests
