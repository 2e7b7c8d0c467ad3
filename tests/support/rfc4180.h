#pragma once
// A reader of CSV tables as RFC 4180 defines them, apart from lines that end in \n alone.

#include <algorithm>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace interpile::testing {

class Rfc4180 {
public:
    /// \throws std::logic_error  the text is no such table: an open quotation, characters behind one, no last line end
    explicit Rfc4180(const std::string& text) {
        std::vector<std::string> row;
        for (std::size_t at = 0; at < text.size();) {
            row.push_back(cell(text, at));
            if (at >= text.size())
                throw std::logic_error("the last line is not ended");
            if (text[at++] == '\n')
                rows_.push_back(std::exchange(row, {}));
        }
    }

    const std::vector<std::string>& head() const { return rows_.at(0); }
    std::size_t size() const { return rows_.size() - 1; }
    /// Cells of a row below the head.
    const std::vector<std::string>& row(std::size_t i) const { return rows_.at(i + 1); }

    const std::string& at(std::size_t i, const std::string& column) const {
        const auto found = std::find(head().begin(), head().end(), column);
        if (found == head().end())
            throw std::logic_error("no column " + column);
        return row(i).at(static_cast<std::size_t>(found - head().begin()));
    }
    double number(std::size_t i, const std::string& column) const { return std::stod(at(i, column)); }

private:
    /// The cell that begins at `at`, which then stands at its comma or line end.
    static std::string cell(const std::string& text, std::size_t& at) {
        std::string found;
        if (at < text.size() && text[at] == '"') {
            for (++at; at < text.size(); ++at) {
                if (text[at] == '"' && (at + 1 >= text.size() || text[at + 1] != '"')) {
                    if (++at < text.size() && text[at] != ',' && text[at] != '\n')
                        throw std::logic_error("characters behind a quotation");
                    return found;
                }
                at += text[at] == '"';
                found += text[at];
            }
            throw std::logic_error("an open quotation");
        }
        for (; at < text.size() && text[at] != ',' && text[at] != '\n'; ++at) {
            if (text[at] == '"' || text[at] == '\r')
                throw std::logic_error("a quotation mark or line end within a cell");
            found += text[at];
        }
        return found;
    }

    std::vector<std::vector<std::string>> rows_;
};

} // namespace interpile::testing
