#pragma once
// A reference table whose columns are asked for by name.

#include "support/places.h"

#include <algorithm>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::test {

/// Numbers of a CSV file with a head. An empty cell reads as NaN, the mark NL (not liquefiable) as infinity.
class CsvTable {
public:
    /// \param file  under tests/sources, with ending
    /// \throws std::runtime_error  it cannot be read
    explicit CsvTable(const std::string& file) {
        std::ifstream in(interpile::testing::source_folder() + "/tests/sources/" + file);
        std::string line;
        if (!std::getline(in, line))
            throw std::runtime_error("cannot read " + file);
        head_ = cells(line);
        while (std::getline(in, line)) {
            rows_.emplace_back();
            for (const std::string& cell : cells(line))
                rows_.back().push_back(number(cell));
            rows_.back().resize(head_.size(), std::numeric_limits<double>::quiet_NaN());
        }
    }

    std::size_t rows() const { return rows_.size(); }

    /// \throws std::runtime_error  no such column
    double at(std::size_t row, const std::string& column) const {
        const auto found = std::ranges::find(head_, column);
        if (found == head_.end())
            throw std::runtime_error("no column " + column);
        return rows_.at(row).at(static_cast<std::size_t>(found - head_.begin()));
    }

private:
    static std::vector<std::string> cells(const std::string& line) {
        std::stringstream in(line);
        std::vector<std::string> found;
        for (std::string cell; std::getline(in, cell, ',');)
            found.push_back(cell);
        return found;
    }

    static double number(const std::string& cell) {
        if (cell.empty())
            return std::numeric_limits<double>::quiet_NaN();
        return cell == "NL" ? std::numeric_limits<double>::infinity() : std::stod(cell);
    }

    std::vector<std::string> head_;
    std::vector<std::vector<double>> rows_;
};

} // namespace interpile::test
