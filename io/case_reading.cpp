#include "io/case_reading.h"

#include "io/text_lines.h"
#include "io/value_reader.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

std::vector<std::string> names_of(const std::vector<KeyInfo>& keys) {
    std::vector<std::string> names;
    for (const KeyInfo& info : keys)
        names.emplace_back(info.key);
    return names;
}

} // namespace

/// "[domain] or [[region]]": the tables that have this key, or empty.
std::string CaseReading::homes_of(std::string_view key) const {
    std::string homes;
    for (const KeyInfo& info : dictionary_.keys)
        if (info.key == key)
            homes += fmt::format("{}{}", homes.empty() ? "" : " or ", header_of(info.table, dictionary_));
    return homes;
}

void CaseReading::read() {
    read_tables();
    for (const std::string& table : table_names(dictionary_)) {
        if (!dictionary_.repeats(table))
            complete(table, keys_of(table));
        for (int n = 1; n <= values_.repeated_count(table); ++n)
            complete(fmt::format("{}[{}]", table, n), keys_of(table));
    }
}

void CaseReading::read_tables() {
    const auto tables = table_names(dictionary_);
    for (const auto& [name, node] : root_) {
        const Place place = place_of(name.source());
        if (std::find(tables.begin(), tables.end(), name.str()) == tables.end()) {
            refuse_table(name);
        } else if (dictionary_.repeats(name.str())) {
            read_repeated(name, node);
        } else if (const auto* table = node.as_table()) {
            values_.headers_[std::string(name.str())] = place_of(table->source());
            read_table(*table, std::string(name.str()), keys_of(name.str()));
        } else {
            values_.faults_.add(place, fmt::format("\"{}\" is not a table here", name.str()),
                                fmt::format("Write [{}] once, above its keys.", name.str()));
        }
    }
}

void CaseReading::read_repeated(const toml::key& name, const toml::node& node) {
    const auto* tables = node.as_array();
    const bool sound =
        tables != nullptr && !tables->empty() &&
        std::all_of(tables->begin(), tables->end(), [](const auto& e) { return e.is_table(); });
    if (!sound) {
        values_.faults_.add(place_of(node.source()), fmt::format("{0}s are not given as [[{0}]]", name.str()),
                            fmt::format("Write [[{0}]] above the keys of every {0}.", name.str()));
        return;
    }
    const std::string table(name.str());
    for (const auto& element : *tables) {
        const std::string prefix = fmt::format("{}[{}]", table, ++values_.repeated_count_[table]);
        values_.headers_[prefix] = place_of(element.source());
        read_table(*element.as_table(), prefix, keys_of(table));
    }
}

std::vector<KeyInfo> CaseReading::keys_of(std::string_view table) const {
    std::vector<KeyInfo> keys;
    for (const KeyInfo& info : dictionary_.keys)
        if (info.table == table)
            keys.push_back(info);
    if (table == "soil") {
        const auto model = root_["soil"]["model"].value<std::string>();
        for (const auto& part : {soil_rule_keys(model.value_or("")), soil_keys(model.value_or(""))})
            keys.insert(keys.end(), part.begin(), part.end());
    }
    return keys;
}

void CaseReading::read_table(const toml::table& table, const std::string& prefix,
                             const std::vector<KeyInfo>& keys) {
    for (const auto& [name, node] : table) {
        const auto info =
            std::find_if(keys.begin(), keys.end(), [&](const KeyInfo& k) { return k.key == name.str(); });
        if (info == keys.end()) {
            refuse_key(name, prefix, keys);
            continue;
        }
        const std::string path = fmt::format("{}.{}", prefix, name.str());
        values_.places_[path] = place_of(node.source());
        if (const auto* list = node.as_array())
            for (const auto& element : *list)
                values_.element_places_[path].push_back(place_of(element.source()));
        if (auto value = read_value(node, *info, path, values_.faults_))
            values_.entries_[path] = {*info, std::move(*value), false};
    }
}

void CaseReading::complete(const std::string& prefix, const std::vector<KeyInfo>& keys) {
    for (const KeyInfo& info : keys) {
        const std::string path = fmt::format("{}.{}", prefix, info.key);
        values_.order_.push_back(path);
        values_.known_[path] = info;
        if (values_.given(path))
            continue;
        if (info.presence == Presence::Default)
            values_.entries_[path] = {info, default_value(info), true};
        else if (info.presence == Presence::Required)
            values_.missing(path, "");
    }
}

void CaseReading::refuse_unknown(const toml::key& name, std::string what, const std::string& nearest) {
    const auto homes = homes_of(name.str());
    std::string mend;
    if (!homes.empty())
        mend = fmt::format("This key belongs to {}.", homes);
    else if (!nearest.empty())
        what += fmt::format("; nearest: \"{}\"", nearest);
    else
        mend = fmt::format("The command {} lists all keys.", dictionary_.help_command);
    values_.faults_.add(place_of(name.source()), what, mend);
}

void CaseReading::refuse_table(const toml::key& name) {
    refuse_unknown(name, fmt::format("unknown table or key \"{}\"", printable(name.str())),
                   nearest_word(name.str(), table_names(dictionary_)));
}

bool CaseReading::belongs_to_other_model(const toml::key& name) {
    for (const std::string& model : soil_model_names())
        for (const auto& part : {soil_rule_keys(model), soil_keys(model)})
            for (const KeyInfo& info : part)
                if (info.key == name.str()) {
                    // Without a known model nothing can be said about its parameters; the model itself is the
                    // fault.
                    const auto chosen = root_["soil"]["model"].value<std::string>().value_or("");
                    if (!soil_keys(chosen).empty())
                        values_.faults_.add(place_of(name.source()),
                                            fmt::format("key \"{}\" belongs to model \"{}\", not to \"{}\"",
                                                        name.str(), model, chosen),
                                            "Remove it, or choose that model.");
                    return true;
                }
    return false;
}

void CaseReading::refuse_key(const toml::key& name, const std::string& prefix,
                             const std::vector<KeyInfo>& keys) {
    if (prefix == "soil" && belongs_to_other_model(name))
        return;
    const std::string table = prefix.substr(0, prefix.find('['));
    refuse_unknown(
        name, fmt::format("unknown key \"{}\" in {}", printable(name.str()), header_of(table, dictionary_)),
        nearest_word(name.str(), names_of(keys)));
}

} // namespace interpile::io
