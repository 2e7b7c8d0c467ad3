#pragma once
// Two results files, compared dataset by dataset.

#include <filesystem>
#include <string>

namespace interpile::testing {

/// The first dataset that is missing, of another shape or of other bytes in one of them, or empty. Independent of the
/// table of datasets: it visits what is there.
std::string first_difference(const std::filesystem::path& one, const std::filesystem::path& other);

} // namespace interpile::testing
