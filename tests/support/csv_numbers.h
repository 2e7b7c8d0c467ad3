#pragma once
// A reference table as rows of numbers.

#include "support/places.h"

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::test {

/// \param file  under tests/sources, with ending; its first line, the head, is left out
/// \throws std::runtime_error if it cannot be read
inline std::vector<std::vector<double>> csv_numbers(const std::string& file) {
    std::ifstream in(interpile::testing::source_folder() + "/tests/sources/" + file);
    if (!in)
        throw std::runtime_error("cannot read " + file);
    std::vector<std::vector<double>> rows;
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) {
        std::stringstream cells(line);
        rows.emplace_back();
        for (std::string cell; std::getline(cells, cell, ',');)
            rows.back().push_back(std::stod(cell));
    }
    return rows;
}

} // namespace interpile::test
