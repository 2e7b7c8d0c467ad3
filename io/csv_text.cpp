#include "io/csv_text.h"

#include "io/csv_cells.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace interpile::io {

CsvText::CsvText(const std::vector<std::string>& head) : columns_(head.size()) {
    for (const std::string& name : head)
        cell(name);
    end_row();
}

void CsvText::separate() {
    if (filled_++ > 0)
        text_ += ',';
}

CsvText& CsvText::cell(std::string_view text) {
    separate();
    text_ += written_cell(text);
    return *this;
}

CsvText& CsvText::cell(double value) {
    separate();
    if (!std::isnan(value))
        text_ += fmt::format("{:.6g}", value);
    return *this;
}

CsvText& CsvText::cell(const std::optional<double>& value) {
    return cell(value.value_or(std::numeric_limits<double>::quiet_NaN()));
}

CsvText& CsvText::cell(bool value) {
    return cell(value ? "yes" : "no");
}

CsvText& CsvText::cell(int value) {
    separate();
    text_ += fmt::format("{}", value);
    return *this;
}

void CsvText::end_row() {
    if (filled_ != columns_)
        throw std::logic_error(fmt::format("a row of {} cells under a head of {}", filled_, columns_));
    text_ += '\n';
    filled_ = 0;
}

std::string joined(const std::vector<std::string>& remarks) {
    return fmt::format("{}", fmt::join(remarks, "; "));
}

} // namespace interpile::io
