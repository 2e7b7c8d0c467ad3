#pragma once
// What figures of several results are made of.

#include "io/results_reader.h"

#include <string>

namespace interpile::postprocess {

/// One stage of a result and the name it is told by.
struct NamedStage {
    io::ResultsHeader header;
    io::ResultsStage stage;
    std::string run; ///< empty where all are stages of one run
};

} // namespace interpile::postprocess
