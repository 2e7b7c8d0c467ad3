#include "io/ordered_names.h"

#include <fmt/format.h>

#include <functional>
#include <set>

namespace interpile::io {

void require_ordered(CsvTable& table, const std::vector<std::string>& ordered) {
    std::set<std::string, std::less<>> known(ordered.begin(), ordered.end());
    for (const CsvTable::Row& row : table.rows()) {
        const std::string pile(row.text("pile"));
        if (!known.insert(pile).second)
            continue;
        const std::string nearest = nearest_word(pile, ordered);
        table.blame(row, "pile", fmt::format("{} was not ordered", pile),
                    (nearest.empty() ? "" : fmt::format("Nearest ordered name: {}. ", nearest)) +
                        "Leave its rows out, or add it to the piles of the works file.");
    }
}

} // namespace interpile::io
