#pragma once
// A CSV table as written by the program, by the heads of its columns.

#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::testing {

/// Rows of a table without quoted cells.
inline std::vector<std::map<std::string, std::string>> rows_of(const std::string& csv) {
    std::istringstream in(csv);
    std::string line, cell;
    std::vector<std::string> heads;
    std::vector<std::map<std::string, std::string>> rows;
    while (std::getline(in, line)) {
        std::istringstream cells(line + ','); // else an empty last cell is lost
        std::vector<std::string> found;
        while (std::getline(cells, cell, ','))
            found.push_back(cell);
        if (heads.empty()) {
            heads = found;
            continue;
        }
        if (found.size() != heads.size())
            throw std::runtime_error("a row has not as many cells as the head: " + line);
        rows.emplace_back();
        for (std::size_t i = 0; i < heads.size(); ++i)
            rows.back()[heads[i]] = found[i];
    }
    return rows;
}

} // namespace interpile::testing
