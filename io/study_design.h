#pragma once
// Which members a study has: every combination of the values of its factors, or a sample that fills their space.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace interpile::io {

/// Every combination, as indices into the values of each factor; the last factor changes fastest.
/// \param counts  values per factor, each at least one
std::vector<std::vector<std::size_t>> grid_design(const std::vector<std::size_t>& counts);

/// A Latin hypercube: of every factor one value in each of `members` equal parts of 0 .. 1, at random within the part,
/// the parts in random order. The same on every machine.
/// Source: McKay, Beckman & Conover (1979), Technometrics 21(2), from memory.
/// \returns members x factors, each in 0 .. 1
std::vector<std::vector<double>> latin_hypercube(std::size_t members, std::size_t factors,
                                                 std::uint32_t seed);

} // namespace interpile::io
