#pragma once
// One wording for numbers out of range in the closed-form functions.

namespace interpile::solver {

/// \throws std::invalid_argument  "<name> = <value> is outside <low> .. <high>", also for NaN; both ends are allowed
void require_between(const char* name, double value, double low, double high);

/// \throws std::invalid_argument  "<name> = <value> must be larger than 0", also for NaN and infinity
void require_positive(const char* name, double value);

/// \throws std::invalid_argument  for NaN and infinity
void require_finite(const char* name, double value);

} // namespace interpile::solver
