#include "io/program/text_files.h"

#include "io/diagnostics.h"
#include "postprocess/replace_file.h"

#include <fmt/format.h>

#include <fstream>

namespace interpile::program {

std::filesystem::path write_text(const std::filesystem::path& file, const std::string& text) {
    postprocess::replace_file(file, [&](const std::filesystem::path& part) {
        std::ofstream out(part, std::ios::binary);
        out << text;
        out.close();
        if (!out)
            throw io::FileTrouble(fmt::format("{} cannot be written.", file.string()));
    });
    return file;
}

} // namespace interpile::program
