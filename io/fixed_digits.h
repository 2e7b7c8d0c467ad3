#pragma once
// Numbers of a table to print.

#include <string>

namespace interpile::io {

/// With so many digits behind the point; halves go up in size whatever the noise of the arithmetic, so that equal
/// strokes print equal; never "-0.00".
std::string fixed(double value, int digits);

} // namespace interpile::io
