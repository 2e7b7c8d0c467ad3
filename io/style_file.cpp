#include "io/style_file.h"

#include "io/case_parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

/// Of a figure in one of two columns, across both, or in the text of an A4 page (own choice; common widths).
double width_mm_of(const std::string& column) {
    return column == "single" ? 85 : column == "double" ? 175 : 160;
}

class StyleReader {
public:
    StyleReader(CaseValues& values, const std::filesystem::path& file) : values_(values) {
        style_.file = file;
    }

    StyleFile read() {
        read_width();
        if (values_.has("page.letter_size_pt"))
            style_.letter_size_pt = values_.number("page.letter_size_pt");
        if (values_.has("contours.most_bands"))
            style_.most_bands = values_.count("contours.most_bands");
        if (values_.has("text.decimal_sign"))
            style_.decimal_comma = values_.text("text.decimal_sign") == ",";
        if (values_.has("text.labels"))
            style_.labels = values_.wordings("text.labels");
        read_formats();
        if (values_.has("files.png_dots_per_inch"))
            style_.png_dots_per_inch = values_.number("files.png_dots_per_inch");
        return style_;
    }

private:
    void read_width() {
        if (values_.has("page.column"))
            style_.width_mm = width_mm_of(values_.text("page.column"));
        if (values_.given("page.column") && values_.given("page.width_mm"))
            values_.fault("page.width_mm", "stands beside page.column, which gives a width too",
                          "Keep one of them.");
        else if (values_.has("page.width_mm"))
            style_.width_mm = values_.number("page.width_mm");
    }

    void read_formats() {
        if (!values_.has("files.formats"))
            return;
        const std::vector<std::string> known = {"pdf", "svg", "png"};
        const auto& words = values_.texts("files.formats");
        for (std::size_t i = 0; i < words.size(); ++i) {
            const auto place = values_.element_place("files.formats", i);
            if (std::find(known.begin(), known.end(), words[i]) == known.end())
                values_.faults().add(place, fmt::format("files.formats: \"{}\" is no format", words[i]),
                                     "Allowed: \"pdf\", \"svg\", \"png\".");
            else if (std::find(style_.formats.begin(), style_.formats.end(), words[i]) !=
                     style_.formats.end())
                values_.faults().add(place, fmt::format("files.formats: \"{}\" stands here twice", words[i]),
                                     "Name every format once.");
            else
                style_.formats.push_back(words[i]);
        }
    }

    CaseValues& values_;
    StyleFile style_;
};

} // namespace

StyleFile parse_style(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults, style_dictionary());
    StyleFile style = StyleReader(values, file).read();
    faults.throw_if_any();
    return style;
}

StyleFile read_style(const std::filesystem::path& file) {
    return parse_style(read_text_file(file), file);
}

} // namespace interpile::io
