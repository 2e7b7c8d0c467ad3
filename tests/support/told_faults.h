#pragma once
// What the reader of a table tells the user.

#include "io/diagnostics.h"

#include <string>

namespace interpile::testing {

/// The message, "nothing" if the text is sound.
/// \param parse  (text, file) -> anything
template <class Parse>
std::string told(Parse parse, const std::string& text, const char* file) {
    try {
        parse(text, file);
    } catch (const io::CaseFaults& faults) {
        return faults.what();
    }
    return "nothing";
}

template <class Parse>
std::size_t fault_count(Parse parse, const std::string& text, const char* file) {
    try {
        parse(text, file);
    } catch (const io::CaseFaults& faults) {
        return faults.faults().size();
    }
    return 0;
}

} // namespace interpile::testing
