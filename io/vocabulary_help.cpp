#include "io/vocabulary.h"
#include "solver/soil_parameters.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <cmath>

namespace interpile::io {

namespace {

std::string_view type_name(ValueType type) {
    switch (type) {
    case ValueType::Text:
        return "text";
    case ValueType::Prose:
        return "text, lines";
    case ValueType::Texts:
        return "[\"text\", ...]";
    case ValueType::Word:
        return "word";
    case ValueType::DateTime:
        return "date and time as 2026-03-02T07:30:00";
    case ValueType::Number:
        return "number";
    case ValueType::Count:
        return "whole number";
    case ValueType::Flag:
        return "true or false";
    case ValueType::Interval:
        return "[low, high]";
    case ValueType::Point:
        return "[x, y]";
    case ValueType::Points:
        return "[[x, y], ...]";
    case ValueType::Counts:
        return "[n, n, ...]";
    case ValueType::Numbers:
        return "[v, v, ...]";
    case ValueType::Wordings:
        return "table of texts";
    }
    return {};
}

std::string presence_text(const KeyInfo& info) {
    switch (info.presence) {
    case Presence::Required:
        return "required";
    case Presence::Default:
        return "default " + info.standard;
    case Presence::Derived:
        return "default: " + info.standard;
    case Presence::Conditional:
        return "no default";
    }
    return {};
}

void describe(const KeyInfo& info, std::string& text) {
    const std::string allowed = allowed_values(info);
    text += fmt::format("  {:<27} {}; {}{}{}\n", info.key, presence_text(info), type_name(info.type),
                        allowed.empty() ? "" : ", ", allowed);
    text += fmt::format("      {}\n", info.meaning);
    text += fmt::format("      source: {}\n", info.source);
}

} // namespace

std::string_view unit_of(std::string_view key) {
    struct Ending {
        std::string_view ending, unit;
    };
    constexpr std::array endings = {Ending{"_kN_m3", "kN/m3"}, Ending{"_kPa", "kPa"},   Ending{"_pct", "%"},
                                    Ending{"_deg", "deg"},     Ending{"_per_m", "1/m"}, Ending{"_m2", "m2"},
                                    Ending{"_dB", "dB"},       Ending{"_h", "h"},       Ending{"_m", "m"},
                                    Ending{"_mm", "mm"},       Ending{"_pt", "pt"}};
    for (const auto& [ending, unit] : endings)
        if (key.ends_with(ending))
            return unit;
    return "-";
}

std::string allowed_values(const KeyInfo& info) {
    switch (info.type) {
    case ValueType::Text:
    case ValueType::Prose:
    case ValueType::Texts:
    case ValueType::Flag:
    case ValueType::Wordings:
        return {};
    case ValueType::DateTime:
        return fmt::format("years {} .. {}", info.low, info.high);
    case ValueType::Word:
        return fmt::format("\"{}\"", fmt::join(info.choices, "\", \""));
    default:
        break;
    }
    const std::string_view unit = unit_of(info.key);
    const std::string range = std::isinf(info.high) ? fmt::format("at least {}", info.low)
                                                    : fmt::format("{} .. {}", info.low, info.high);
    return unit == "-" ? range : fmt::format("{} {}", range, unit);
}

std::string vocabulary_help(const Dictionary& dictionary) {
    std::string text =
        fmt::format("{}. Units stand in the keys: kN, m, kPa; compression is positive.\n", dictionary.title);
    std::string_view table;
    for (const KeyInfo& info : dictionary.keys) {
        if (info.table != table) {
            table = info.table;
            text += fmt::format("\n{}\n", header_of(table, dictionary));
        }
        describe(info, text);
        if (info.table == "soil" && info.key == "model")
            for (const auto& model : solver::soil_model_table()) {
                text += fmt::format("\n  with model = \"{}\": {}\n", model.name, model.meaning);
                for (const auto& part : {soil_rule_keys(model.name), soil_keys(model.name)})
                    for (const KeyInfo& key_of_soil : part)
                        describe(key_of_soil, text);
            }
    }
    return text;
}

} // namespace interpile::io
