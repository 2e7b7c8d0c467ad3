#include "io/value_reader.h"

#include "io/csv_cells.h"
#include "io/text_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

namespace interpile::io {

namespace {

/// Reads one value and its parts; the first fault ends it.
class ValueReader {
public:
    ValueReader(const KeyInfo& info, const std::string& path, FaultList& faults)
        : info_(info), path_(path), faults_(faults) {}

    std::optional<Value> read(const toml::node& node) {
        switch (info_.type) {
        case ValueType::Text:
            return read_text(node);
        case ValueType::Prose:
            return read_prose(node);
        case ValueType::Texts:
            return read_texts(node);
        case ValueType::Word:
            return read_word(node);
        case ValueType::DateTime:
            return read_date_time(node);
        case ValueType::Flag:
            if (const auto* flag = node.as_boolean())
                return Value(flag->get());
            return refuse(node, fmt::format("is {}; true or false is needed", kind(node)), "");
        case ValueType::Number:
        case ValueType::Count:
            if (const auto number = read_number(node))
                return Value(*number);
            return {};
        case ValueType::Interval:
            return read_interval(node);
        case ValueType::Point:
            return as_value(read_list(node, 2, "two numbers [x, y]"));
        case ValueType::Counts:
            return as_value(read_list(node, 0, "a list of whole numbers [n, n, ...]"));
        case ValueType::Numbers:
            return as_value(read_list(node, 0, "a list of numbers [v, v, ...]"));
        case ValueType::Points:
            return read_points(node);
        case ValueType::Wordings:
            return read_wordings(node);
        }
        return {};
    }

private:
    static std::string kind(const toml::node& node) {
        switch (node.type()) {
        case toml::node_type::string:
            return "text";
        case toml::node_type::integer:
        case toml::node_type::floating_point:
            return "a number";
        case toml::node_type::boolean:
            return "a truth value";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::table:
            return "a table";
        default:
            return "a date or time";
        }
    }

    std::nullopt_t refuse(const toml::node& node, const std::string& what, const std::string& mend) {
        const Place place = place_of(node.source());
        faults_.add(place, fmt::format("{} = {} {}", path_, written_at(faults_, place), what), mend);
        return std::nullopt;
    }

    /// A number in quotes, or words where the key takes none.
    std::string mend_of_text(const toml::node& node) const {
        const auto* text = node.as_string();
        if (text == nullptr)
            return {};
        return number_of(text->get(), HUGE_VAL) ? "Write it without quotes." : std::string(info_.meaning);
    }

    std::optional<Value> as_value(std::optional<std::vector<double>> list) {
        if (!list)
            return {};
        return Value(std::move(*list));
    }

    std::optional<Value> read_text(const toml::node& node) {
        const auto* text = node.as_string();
        if (text == nullptr)
            return refuse(node, fmt::format("is {}; text is needed", kind(node)), "Put it into quotes.");
        if (printable(text->get()) != text->get())
            return refuse(node, "has control characters", "Write it on one line, without tabs.");
        return Value(text->get());
    }

    std::optional<Value> read_prose(const toml::node& node) {
        const auto* text = node.as_string();
        if (text == nullptr)
            return refuse(node, fmt::format("is {}; text is needed", kind(node)), "Put it into quotes.");
        std::istringstream lines(text->get());
        for (std::string line; std::getline(lines, line);)
            if (printable(line) != line)
                return refuse(node, "has control characters", "Write it without tabs.");
        return Value(text->get());
    }

    std::optional<Value> read_texts(const toml::node& node) {
        const auto* list = node.as_array();
        if (list == nullptr || list->empty())
            return refuse(node, "is not a list of texts [\"text\", ...]", "");
        std::vector<std::string> texts;
        bool sound = true;
        for (const auto& element : *list) {
            auto text = read_text(element);
            sound = sound && text.has_value();
            if (text)
                texts.push_back(std::get<std::string>(std::move(*text)));
        }
        if (!sound)
            return {};
        return Value(std::move(texts));
    }

    std::optional<Value> read_word(const toml::node& node) {
        const auto* text = node.as_string();
        if (text == nullptr)
            return refuse(node, fmt::format("is {}; a word is needed", kind(node)),
                          "Allowed: " + allowed_values(info_) + ".");
        if (std::find(info_.choices.begin(), info_.choices.end(), text->get()) != info_.choices.end())
            return Value(text->get());
        const std::string nearest = nearest_word(text->get(), info_.choices);
        return refuse(node, "is not one of " + allowed_values(info_),
                      nearest.empty() ? "" : fmt::format("Nearest: \"{}\".", nearest));
    }

    std::optional<Value> read_date_time(const toml::node& node) {
        const std::string form = "Write it as 2026-03-02T07:30:00, without quotes.";
        const auto* moment = node.as_date_time();
        if (moment == nullptr)
            return refuse(node,
                          node.is_date()   ? "has no time of day"
                          : node.is_time() ? "has no date"
                                           : fmt::format("is {}; a date and time is needed", kind(node)),
                          form);
        const toml::date_time& read = moment->get();
        if (read.is_local() && read.date.year >= info_.low && read.date.year <= info_.high)
            return Value(fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", read.date.year,
                                     static_cast<int>(read.date.month), static_cast<int>(read.date.day),
                                     static_cast<int>(read.time.hour), static_cast<int>(read.time.minute),
                                     static_cast<int>(read.time.second)));
        if (!read.is_local())
            return refuse(node, "has a zone", "Write the clock of the site alone. " + form);
        return refuse(node, "is outside " + allowed_values(info_), "");
    }

    std::optional<double> read_number(const toml::node& node) {
        const bool whole = info_.type == ValueType::Count || info_.type == ValueType::Counts;
        double number = 0;
        if (const auto* integer = node.as_integer()) {
            if (integer->flags() != toml::value_flags::none)
                return refuse(node, "is not a decimal number", "Write decimal digits only.");
            number = static_cast<double>(integer->get());
        } else if (const auto* real = node.as_floating_point()) {
            number = real->get();
            if (!std::isfinite(number))
                return refuse(node, "is not a finite number", "Allowed: " + allowed_values(info_) + ".");
            if (whole)
                return refuse(node, "is not a whole number", "Write it without a decimal point.");
        } else {
            return refuse(node,
                          fmt::format("is {}; a {} is needed", kind(node), whole ? "whole number" : "number"),
                          mend_of_text(node));
        }
        if (number < info_.low || number > info_.high)
            return refuse(node, "is outside " + allowed_values(info_), std::string(info_.meaning));
        return number;
    }

    /// Numbers of a list; size 0: any but none.
    std::optional<std::vector<double>> read_list(const toml::node& node, std::size_t size,
                                                 std::string_view needed) {
        const auto* list = node.as_array();
        if (list == nullptr || list->empty() || (size > 0 && list->size() != size))
            return refuse(node, fmt::format("is not {}", needed), "");
        std::vector<double> numbers;
        bool sound = true;
        for (const auto& element : *list) {
            const auto number = read_number(element);
            sound = sound && number.has_value();
            numbers.push_back(number.value_or(0));
        }
        if (!sound)
            return {};
        return numbers;
    }

    std::optional<Value> read_interval(const toml::node& node) {
        auto ends = read_list(node, 2, "two numbers [low, high]");
        if (ends && (*ends)[0] >= (*ends)[1])
            return refuse(node, "does not ascend", "Write the lower end first.");
        return as_value(std::move(ends));
    }

    std::optional<Value> read_points(const toml::node& node) {
        const auto* list = node.as_array();
        if (list == nullptr || list->empty())
            return refuse(node, "is not a list of points [[x, y], ...]", "");
        std::vector<mesh::Vec2> points;
        bool sound = true;
        for (const auto& element : *list) {
            const auto point = read_list(element, 2, "two numbers [x, y]");
            sound = sound && point.has_value();
            if (point)
                points.emplace_back((*point)[0], (*point)[1]);
        }
        if (!sound)
            return {};
        return Value(std::move(points));
    }

    std::optional<Value> read_wordings(const toml::node& node) {
        const auto* table = node.as_table();
        if (table == nullptr)
            return refuse(node, fmt::format("is {}; a table of texts is needed", kind(node)),
                          fmt::format("Write [{}] above lines \"text\" = \"text\".", path_));
        std::map<std::string, std::string> wordings;
        bool sound = true;
        for (const auto& [name, element] : *table) {
            const std::string from(trimmed(name.str()));
            const auto to = read_wording(name, element);
            sound = sound && to.has_value();
            if (to && !wordings.emplace(from, *to).second) {
                faults_.add(place_of(name.source()), fmt::format("{}: \"{}\" stands here twice", path_, from),
                            "Blanks at the ends do not count; keep one of them.");
                sound = false;
            }
        }
        if (!sound)
            return {};
        return Value(std::move(wordings));
    }

    /// Of one text; where it stands for numbers, as many.
    std::optional<std::string> read_wording(const toml::key& name, const toml::node& node) {
        const auto refuse_key = [&](const std::string& what, const std::string& mend) {
            faults_.add(place_of(name.source()),
                        fmt::format("{}: \"{}\" {}", path_, printable(name.str()), what), mend);
            return std::nullopt;
        };
        if (trimmed(name.str()).empty())
            return refuse_key("is no text", "Write the English text as it is drawn, in quotes.");
        if (printable(name.str()) != name.str())
            return refuse_key("has control characters", "Write it on one line, without tabs.");
        const auto* text = node.as_string();
        if (text == nullptr)
            return refuse_key(fmt::format("has {} for its text", kind(node)), "Put the text into quotes.");
        if (printable(text->get()) != text->get())
            return refuse_key("has control characters in its text", "Write it on one line, without tabs.");
        std::string to(trimmed(text->get()));
        const auto numbers = std::count(name.str().begin(), name.str().end(), '#'),
                   given = std::count(to.begin(), to.end(), '#');
        if (!to.empty() && numbers != given)
            return refuse_key(fmt::format("has {} #, its text {}", numbers, given),
                              "Each # stands for a number, in the same order.");
        return to;
    }

    const KeyInfo& info_;
    const std::string& path_;
    FaultList& faults_;
};

std::string list_text(const std::vector<double>& numbers) {
    std::string text;
    for (const double number : numbers)
        text += fmt::format("{}{}", text.empty() ? "" : ", ", number);
    return "[" + text + "]";
}

struct TextOf {
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(double number) const { return fmt::format("{}", number); }
    std::string operator()(bool flag) const { return flag ? "true" : "false"; }
    std::string operator()(const std::vector<double>& numbers) const { return list_text(numbers); }
    std::string operator()(const std::vector<std::string>& texts) const {
        std::string text;
        for (const auto& element : texts)
            text += fmt::format("{}\"{}\"", text.empty() ? "" : ", ", element);
        return "[" + text + "]";
    }
    std::string operator()(const std::map<std::string, std::string>& wordings) const {
        return fmt::format("{} texts", wordings.size());
    }
    std::string operator()(const std::vector<mesh::Vec2>& points) const {
        std::string text;
        for (const auto& point : points)
            text += (text.empty() ? "" : ", ") + list_text({point.x(), point.y()});
        return "[" + text + "]";
    }
};

} // namespace

std::optional<Value> read_value(const toml::node& node, const KeyInfo& info, const std::string& path,
                                FaultList& faults) {
    return ValueReader(info, path, faults).read(node);
}

Value default_value(const KeyInfo& info) {
    const bool is_text = info.type == ValueType::Text || info.type == ValueType::Word;
    const std::string line = is_text ? fmt::format("v = \"{}\"", info.standard) : "v = " + info.standard;
    FaultList none("vocabulary", line);
    const auto table = toml::parse(line);
    auto value = read_value(*table.get("v"), info, std::string(info.key), none);
    none.throw_if_any(); // a mistake in the vocabulary, found by the tests
    return std::move(*value);
}

std::string value_text(const Value& value) {
    return std::visit(TextOf(), value);
}

std::string written_at(const FaultList& faults, const Place& place) {
    constexpr int longest = 40;
    const auto line = line_of(faults.text(), place.line);
    std::string text = printable(characters(line, place.column, std::min(place.width, longest)));
    if (place.width > longest)
        text += "...";
    return text == "[" ? "[...]" : text; // a list over several lines
}

} // namespace interpile::io
