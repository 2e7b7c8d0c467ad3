#pragma once
// A reference table with words among its numbers: rows of cells by the names in its head.

#include "support/places.h"

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::test {

/// \param file  under tests/sources, with ending; lines beginning with # are left out
/// \throws std::runtime_error  it cannot be read
inline std::vector<std::map<std::string, std::string>> text_rows(const std::string& file) {
    std::ifstream in(interpile::testing::source_folder() + "/tests/sources/" + file);
    if (!in)
        throw std::runtime_error("cannot read " + file);
    std::vector<std::string> head;
    std::vector<std::map<std::string, std::string>> rows;
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with('#'))
            continue;
        std::vector<std::string> cells;
        std::stringstream stream(line);
        for (std::string cell; std::getline(stream, cell, ',');)
            cells.push_back(cell);
        if (head.empty()) {
            head = cells;
            continue;
        }
        auto& row = rows.emplace_back();
        for (std::size_t i = 0; i < head.size(); ++i)
            row[head[i]] = cells.at(i);
    }
    return rows;
}

} // namespace interpile::test
