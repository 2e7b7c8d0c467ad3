#pragma once
// Where the tests find the project's files. Known to places.cpp alone, so that nothing else is compiled anew in another
// folder.

#include <string>

namespace interpile::testing {

/// The project's source tree; no slash at the end.
std::string source_folder();

/// The program under test.
std::string program_file();

} // namespace interpile::testing
