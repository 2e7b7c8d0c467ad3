#include "postprocess/replace_file.h"

#include "io/results_reader.h"

#include <fmt/format.h>

#include <system_error>

namespace interpile::postprocess {

void replace_file(const std::filesystem::path& file,
                  const std::function<void(const std::filesystem::path& part)>& write) {
    const std::filesystem::path part = file.string() + ".part";
    std::error_code ignored;
    try {
        if (file.has_parent_path())
            std::filesystem::create_directories(file.parent_path());
        write(part);
        std::filesystem::rename(part, file);
    } catch (const std::filesystem::filesystem_error& error) {
        std::filesystem::remove(part, ignored);
        throw io::FileTrouble(
            fmt::format("{} cannot be written: {}. Is the folder writable and the disk not full?",
                        file.string(), error.code().message()));
    } catch (...) {
        std::filesystem::remove(part, ignored);
        throw;
    }
}

} // namespace interpile::postprocess
