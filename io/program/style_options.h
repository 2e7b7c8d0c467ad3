#pragma once
// How the figures of a command look.

#include "io/program/answer.h"

#include <filesystem>

namespace interpile::program {

struct StyleOptions {
    std::filesystem::path style;      ///< style file; empty: the usual style
    std::filesystem::path label_list; ///< to be written; empty: none
};

/// From now on the figures of this process have the style.
/// \throws io::CaseFaults, io::FileTrouble of the style file
/// \throws io::FileTrouble if the label list exists: the work of a translator
void take_style(const StyleOptions& options);

/// After a command has drawn: write the label list, tell of figures that needed smaller letters.
void end_style(const StyleOptions& options, Answer& answer);

} // namespace interpile::program
