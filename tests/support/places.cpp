#include "support/places.h"

namespace interpile::testing {

std::string source_folder() {
    return SOURCE_DIR;
}

std::string program_file() {
    return INTERPILE_PROGRAM;
}

} // namespace interpile::testing
