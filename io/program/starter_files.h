#pragma once
// The files of the shipped examples, held by the program itself.

#include <string>
#include <vector>

namespace interpile::program {

struct StarterFile {
    std::string kind; ///< "case"; a kind may have several files
    std::string name; ///< "case.toml"
    std::string text;
};

/// Made at configure time from folders in cases/.
const std::vector<StarterFile>& starter_files();

} // namespace interpile::program
