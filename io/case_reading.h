#pragma once
// Fills CaseValues from the TOML tables of a case file.

#include "io/case_syntax.h"
#include "io/case_values.h"

namespace interpile::io {

class CaseReading {
public:
    CaseReading(const toml::table& root, CaseValues& values, const Dictionary& dictionary)
        : root_(root), values_(values), dictionary_(dictionary) {}

    /// Read every table; faults for unknown names, wrong values and missing required keys.
    void read();

private:
    void read_tables();
    void read_repeated(const toml::key& name, const toml::node& node);
    void read_table(const toml::table& table, const std::string& prefix, const std::vector<KeyInfo>& keys);
    void complete(const std::string& prefix, const std::vector<KeyInfo>& keys);
    void refuse_unknown(const toml::key& name, std::string what, const std::string& nearest);
    void refuse_table(const toml::key& name);
    void refuse_key(const toml::key& name, const std::string& prefix, const std::vector<KeyInfo>& keys);
    bool belongs_to_other_model(const toml::key& name);
    std::vector<KeyInfo> keys_of(std::string_view table) const;
    std::string homes_of(std::string_view key) const;

    const toml::table& root_;
    CaseValues& values_;
    const Dictionary& dictionary_;
};

} // namespace interpile::io
