#include "postprocess/export_vtk.h"

#include "postprocess/ground.h"
#include "postprocess/replace_file.h"
#include "postprocess/vtk_stage.h"

#include <fmt/format.h>

#include <fstream>

namespace interpile::postprocess {

namespace {

std::string xml_text(const std::string& text) {
    std::string safe;
    for (char c : text)
        safe += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '"' ? "&quot;" : std::string(1, c);
    return safe;
}

void write_collection(const std::filesystem::path& file,
                      const std::vector<std::pair<double, std::string>>& stages) {
    replace_file(file, [&](const std::filesystem::path& part) {
        std::ofstream out(part);
        out << "<?xml version=\"1.0\"?>\n"
               "<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
               "  <Collection>\n";
        for (const auto& [time, name] : stages)
            out << fmt::format("    <DataSet timestep=\"{}\" part=\"0\" file=\"{}\"/>\n", time,
                               xml_text(name));
        out << "  </Collection>\n</VTKFile>\n";
        out.close();
        if (!out)
            throw std::filesystem::filesystem_error("write", part, std::make_error_code(std::errc::io_error));
    });
}

} // namespace

std::vector<std::filesystem::path> export_vtk(const io::ResultsReader& results,
                                              const std::filesystem::path& folder) {
    return export_vtk(
        results.header(), results.stage_count(), [&](int index) { return results.stage(index); }, folder);
}

std::vector<std::filesystem::path> export_vtk(const io::ResultsHeader& header, int stage_count,
                                              const std::function<io::ResultsStage(int)>& stage_at,
                                              const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    std::vector<std::pair<double, std::string>> by_piles, by_time; // the file of each stage
    for (int index = 0; index < stage_count; ++index) {
        const auto stage = stage_at(index);
        const auto name = fmt::format("{}_{:03}.vtu", header.case_name, index);
        write_vtk_stage(header, stage, folder / name);
        files.push_back(folder / name);
        by_piles.emplace_back(piles_finished(header, stage), name);
        by_time.emplace_back(stage.time_s, name);
    }
    files.push_back(folder / (header.case_name + ".pvd"));
    const bool in_time = !by_time.empty() && by_time.back().first > 0;
    write_collection(files.back(), in_time ? by_time : by_piles);
    return files;
}

} // namespace interpile::postprocess
