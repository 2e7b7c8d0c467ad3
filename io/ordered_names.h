#pragma once
// Tables about piles may only name piles that were ordered.

#include "io/csv_table.h"

#include <string>
#include <vector>

namespace interpile::io {

/// Blames the first row of every pile in column "pile" that was not ordered, with the nearest ordered name.
void require_ordered(CsvTable& table, const std::vector<std::string>& ordered);

} // namespace interpile::io
