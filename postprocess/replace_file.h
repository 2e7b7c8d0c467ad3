#pragma once
// A file appears complete or not at all.

#include <filesystem>
#include <functional>

namespace interpile::postprocess {

/// Call write(FILE.part) and give the result its name only when it is complete; an earlier FILE stays
/// untouched if anything fails, and no FILE.part is left behind. The folder is created if it is missing.
/// \throws io::FileTrouble naming the file if the folder, the writing or the renaming fails
void replace_file(const std::filesystem::path& file,
                  const std::function<void(const std::filesystem::path& part)>& write);

} // namespace interpile::postprocess
