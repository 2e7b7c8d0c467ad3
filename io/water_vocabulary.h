#pragma once
// Keys of [water] and [schedule], a part of the vocabulary of cases.

#include "io/vocabulary.h"

namespace interpile::io {

std::vector<KeyInfo> water_and_schedule();

} // namespace interpile::io
