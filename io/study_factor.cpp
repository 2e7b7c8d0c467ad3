#include "io/study_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace interpile::io {

namespace {

/// Every key that some case file may have, "ground.K0"; the soil's keys of all models.
const std::vector<std::pair<std::string, KeyInfo>>& case_keys() {
    static const auto keys = [] {
        std::vector<std::pair<std::string, KeyInfo>> all;
        const auto add = [&](std::string_view table, const KeyInfo& info) {
            all.emplace_back(fmt::format("{}.{}", table, info.key), info);
        };
        for (const KeyInfo& info : case_dictionary().keys)
            add(info.table, info);
        for (const auto& model : soil_model_names())
            for (const auto& part : {soil_rule_keys(model), soil_keys(model)})
                for (const KeyInfo& info : part)
                    add("soil", info);
        return all;
    }();
    return keys;
}

/// "layer[2].thickness_m" is the key "layer.thickness_m".
std::string without_number(const std::string& path) {
    const auto open = path.find('['), close = path.find(']');
    return open == std::string::npos || close == std::string::npos || close < open
               ? path
               : path.substr(0, open) + path.substr(close + 1);
}

const KeyInfo* key_of_case(const std::string& path) {
    const std::string wanted = without_number(path);
    const auto& keys = case_keys();
    const auto found =
        std::find_if(keys.begin(), keys.end(), [&](const auto& k) { return k.first == wanted; });
    return found == keys.end() ? nullptr : &found->second;
}

bool takes_number(const KeyInfo& info) {
    return info.type == ValueType::Number || info.type == ValueType::Count;
}

bool takes_word(const KeyInfo& info) {
    return info.type == ValueType::Word || info.type == ValueType::Text || info.type == ValueType::Flag;
}

/// What a word of the factor is, in messages.
std::string_view kind_of(const KeyInfo& info) {
    return takes_word(info) ? "a word" : "a list";
}

/// With so many digits that 0.1 steps print as 0.1 steps.
double even(double value) {
    return std::stod(fmt::format("{:.12g}", value));
}

class FactorReader {
public:
    FactorReader(const CaseValues& values, int n, StudyDesign design)
        : values_(values), prefix_(fmt::format("factor[{}]", n)), design_(design) {}

    StudyFactor read() {
        if (!values_.has(at("key")))
            return factor_;
        factor_.key = values_.text(at("key"));
        const KeyInfo* info = key_of_case(factor_.key);
        if (info == nullptr) {
            refuse_key();
            return factor_;
        }
        if (factor_.key.ends_with("positions_file")) {
            values_.fault(at("key"), "names a file",
                          "Members stand alone: name layout.positions_m, with the centers as words.");
            return factor_;
        }
        factor_.whole = info->type == ValueType::Count;
        factor_.numeric = takes_number(*info);
        const auto faults = values_.faults().count();
        refuse_mixed(kind_of(*info));
        if (values_.faults().count() > faults || values_.any_unsound(prefix_))
            return factor_;
        if (design_ == StudyDesign::Sample)
            read_range();
        else
            read_grid();
        return factor_;
    }

private:
    std::string at(const char* key) const { return fmt::format("{}.{}", prefix_, key); }

    void refuse_key() {
        std::vector<std::string> names;
        for (const auto& [name, info] : case_keys())
            names.push_back(name);
        const std::string nearest = nearest_word(factor_.key, names);
        values_.fault(at("key"),
                      nearest.empty() ? "is no key of a case file"
                                      : fmt::format("is no key of a case file; nearest: \"{}\"", nearest),
                      nearest.empty() ? "Write TABLE.KEY; the command help-case lists all keys." : "");
    }

    /// What does not go together, told before anything is read.
    void refuse_mixed(std::string_view kind) {
        const bool sample = design_ == StudyDesign::Sample;
        if (sample && !factor_.numeric)
            values_.fault(at("key"), fmt::format("takes {}", kind),
                          "A sample is of numbers: use design = \"grid\".");
        for (const char* key : {"values", "words", "count"})
            if (sample && values_.given(at(key)))
                values_.fault(at(key), "does not go with design = \"sample\"", "A sample takes from and to.");
        if (sample)
            return;
        const bool listed = values_.given(at("values")), words = values_.given(at("words"));
        if (words && factor_.numeric)
            values_.fault(at("words"), fmt::format("does not go with {}, a number", factor_.key),
                          "Use values.");
        for (const char* key : {"values", "from", "to", "count"})
            if (!factor_.numeric && values_.given(at(key)))
                values_.fault(at(key), fmt::format("does not go with {}, {}", factor_.key, kind),
                              kind == "a list" ? "Use words = [\"[1, 2]\", ...], each as in a case file."
                                               : "Use words.");
        for (const char* key : {"from", "to", "count"})
            if (factor_.numeric && listed && values_.given(at(key)))
                values_.fault(at(key), "is given beside values",
                              "Give either values, or from, to and count.");
    }

    bool has_or_missing(const char* key, const char* why) {
        if (values_.has(at(key)))
            return true;
        values_.missing(at(key), why);
        return false;
    }

    void read_range() {
        if (!has_or_missing("from", "a sample needs it") || !has_or_missing("to", "a sample needs it"))
            return;
        factor_.from = values_.number(at("from"));
        factor_.to = values_.number(at("to"));
        if (!(factor_.to > factor_.from))
            values_.fault(at("to"), fmt::format("is not above from = {}", factor_.from));
    }

    void read_grid() {
        if (!factor_.numeric) {
            if (has_or_missing("words", "values of this key are no single numbers"))
                factor_.words = values_.texts(at("words"));
            if (values_.has(at("words")))
                refuse_repeated("words", factor_.words);
            return;
        }
        if (values_.has(at("values"))) {
            factor_.values = values_.numbers(at("values"));
            refuse_repeated("values", factor_.values);
        } else {
            read_steps();
        }
        for (const double value : factor_.values)
            if (factor_.whole && value != std::round(value)) {
                values_.fault(at(values_.has(at("values")) ? "values" : "count"),
                              fmt::format("gives {}, and {} takes whole numbers", value, factor_.key));
                break;
            }
    }

    void read_steps() {
        if (!values_.given(at("from")) && !values_.given(at("to")) && !values_.given(at("count"))) {
            values_.missing(at("values"), "a factor needs values, or from, to and count");
            return;
        }
        const char* why = "from, to and count go together";
        bool all = true;
        for (const char* key : {"from", "to", "count"})
            all = has_or_missing(key, why) && all;
        if (!all)
            return;
        const double from = values_.number(at("from")), to = values_.number(at("to"));
        const int count = values_.count(at("count"));
        if (from == to)
            values_.fault(at("to"), "equals from", "Steps need two different ends.");
        else
            for (int k = 0; k < count; ++k)
                factor_.values.push_back(even(from + (to - from) * k / (count - 1)));
    }

    template <class T>
    void refuse_repeated(const char* key, const std::vector<T>& all) {
        if (all.empty())
            values_.fault(at(key), "is empty", "A factor needs at least one value.");
        else if (std::set<T>(all.begin(), all.end()).size() != all.size())
            values_.fault(at(key), "has a value twice", "Every member would run twice: keep one of them.");
    }

    const CaseValues& values_;
    std::string prefix_;
    StudyDesign design_;
    StudyFactor factor_;
};

} // namespace

bool takes_list(const std::string& key) {
    const KeyInfo* info = key_of_case(key);
    return info != nullptr && !takes_number(*info) && !takes_word(*info);
}

StudyFactor read_factor(const CaseValues& values, int n, StudyDesign design) {
    return FactorReader(values, n, design).read();
}

} // namespace interpile::io
