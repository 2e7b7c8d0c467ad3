#pragma once
// Cells of the tables of a report.

#include "postprocess/report/document.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace interpile::program {

/// A number with so many decimals and a true minus sign; "∞", or "–" for what is not a number.
std::string cell(double value, int decimals);
std::string cell(const std::optional<double>& value, int decimals);

/// Three significant digits: "2.4e-5" in powers of ten below 0.01.
std::string small_cell(double value);

inline postprocess::report::Column text_column(std::string head, std::string unit = {}) {
    return {std::move(head), std::move(unit), true};
}

/// Remarks that return at several depths, each said once with its depths; of those that differ in numbers only, the
/// first is said, and that its numbers are those of its depth.
class RemarkList {
public:
    void add(const std::string& remark, double depth_m);
    /// "At 3.3, 4.3 m: REMARK.", in the order of first use.
    std::vector<std::string> texts() const;

private:
    struct Remark {
        std::string first;
        std::vector<std::string> depths;
        bool differ = false;
    };
    std::vector<std::string> order_; ///< keys of the others
    std::map<std::string, Remark> remarks_;
};

} // namespace interpile::program
