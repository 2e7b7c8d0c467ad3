#include "io/case_values.h"

#include "io/case_reading.h"
#include "io/value_reader.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

/// "ground.K0" is in "ground".
std::string_view table_of(std::string_view path) {
    return path.substr(0, path.rfind('.'));
}
std::string_view key_of(std::string_view path) {
    return path.substr(path.rfind('.') + 1);
}

} // namespace

CaseValues::CaseValues(FaultList& faults, const Dictionary& dictionary) : faults_(faults) {
    toml::table root;
    if (!parse_toml(faults, root))
        faults.throw_if_any(); // with lines left out, every further message could be wrong
    CaseReading(root, *this, dictionary).read();
}

int CaseValues::repeated_count(std::string_view table) const {
    const auto found = repeated_count_.find(table);
    return found == repeated_count_.end() ? 0 : found->second;
}

bool CaseValues::any_unsound(std::string_view table) const {
    return std::any_of(places_.begin(), places_.end(), [&](const auto& given) {
        return table_of(given.first) == table && !has(given.first);
    });
}

Place CaseValues::place(std::string_view path) const {
    if (const auto found = places_.find(path); found != places_.end())
        return found->second;
    if (const auto found = headers_.find(table_of(path)); found != headers_.end())
        return found->second;
    return {};
}

Place CaseValues::element_place(std::string_view path, std::size_t i) const {
    const auto found = element_places_.find(path);
    return found != element_places_.end() && i < found->second.size() ? found->second[i] : place(path);
}

std::string CaseValues::as_written(std::string_view path) const {
    if (given(path))
        return fmt::format("{} = {}", path, written_at(faults_, place(path)));
    return has(path) ? fmt::format("{} = {} (default)", path, value_text(entries_.find(path)->second.value))
                     : std::string(path);
}

void CaseValues::fault(std::string_view path, const std::string& what, const std::string& mend) const {
    faults_.add(place(path), fmt::format("{} {}", as_written(path), what), mend);
}

void CaseValues::missing(std::string_view path, const std::string& why) const {
    const auto& info = known_.at(std::string(path));
    const std::string allowed = allowed_values(info);
    const std::string table(table_of(path));
    const bool has_header = headers_.contains(table);
    faults_.add(
        place(path),
        fmt::format("key \"{}\" is missing in [{}]{}", key_of(path), table, why.empty() ? "" : ": " + why),
        fmt::format("{}{}{}.", has_header ? "" : fmt::format("Add [{}]: ", table), info.meaning,
                    allowed.empty() ? "" : "; allowed: " + allowed));
}

void CaseValues::no_effect(std::string_view path, const std::string& because) {
    if (given(path))
        fault(path, "has no effect " + because, "Remove it.");
    entries_.erase(std::string(path));
}

void CaseValues::derive_value(std::string_view path, Value value) {
    if (!given(path))
        entries_[std::string(path)] = {known_.at(std::string(path)), std::move(value), true};
}

void CaseValues::derive(std::string_view path, double value) {
    derive_value(path, value);
}
void CaseValues::derive(std::string_view path, std::string text) {
    derive_value(path, std::move(text));
}

void CaseValues::derive_instead(std::string_view path, double value, std::string how,
                                std::string_view source) {
    if (given(path))
        return;
    derive_value(path, value);
    KeyInfo& info = entries_.at(std::string(path)).info;
    info.presence = Presence::Derived;
    info.standard = std::move(how);
    info.source = source;
}

std::vector<SettingInForce> CaseValues::settings() const {
    std::vector<SettingInForce> all;
    for (const std::string& path : order_) {
        const auto found = entries_.find(path);
        if (found == entries_.end())
            continue;
        const Entry& entry = found->second;
        std::string source;
        if (entry.is_default && entry.info.presence == Presence::Derived)
            source = fmt::format("{}; {}", entry.info.standard, entry.info.source);
        else if (entry.is_default)
            source = entry.info.source;
        const auto* number = std::get_if<double>(&entry.value);
        const bool computed =
            entry.is_default && entry.info.presence == Presence::Derived && number != nullptr;
        all.push_back({path, computed ? fmt::format("{:.6g}", *number) : value_text(entry.value),
                       entry.is_default, source});
    }
    return all;
}

} // namespace interpile::io
