#include "io/fault_list.h"

#include <algorithm>
#include <tuple>

namespace interpile::io {

void FaultList::add(const Place& place, std::string what, std::string mend) {
    faults_.push_back({file_, place.line, place.column, place.width, std::move(what), std::move(mend), {}});
}

void FaultList::throw_if_any() const {
    if (faults_.empty())
        return;
    auto sorted = faults_;
    std::stable_sort(sorted.begin(), sorted.end(), [this](const Fault& a, const Fault& b) {
        return std::tuple(a.file != file_, std::string_view(a.file), a.line, a.column) <
               std::tuple(b.file != file_, std::string_view(b.file), b.line, b.column);
    });
    throw CaseFaults(std::move(sorted), text_);
}

} // namespace interpile::io
