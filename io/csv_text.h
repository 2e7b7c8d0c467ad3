#pragma once
// A CSV table (RFC 4180, lines end in \n) written cell by cell.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

class CsvText {
public:
    explicit CsvText(const std::vector<std::string>& head);

    CsvText& cell(std::string_view text); ///< in quotation marks where it needs them
    CsvText& cell(const char* text) { return cell(std::string_view(text)); }
    CsvText& cell(double value); ///< six digits; empty where not a number, "inf" where infinite
    CsvText& cell(const std::optional<double>& value);
    CsvText& cell(bool value); ///< "yes", "no"
    CsvText& cell(int value);
    /// \throws std::logic_error  a mistake of the program: the row has not as many cells as the head
    void end_row();

    const std::string& text() const { return text_; }

private:
    void separate();
    std::string text_;
    std::size_t columns_ = 0, filled_ = 0;
};

/// Remarks in one cell.
std::string joined(const std::vector<std::string>& remarks);

} // namespace interpile::io
