#include "io/program/style_options.h"

#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/style_file.h"
#include "postprocess/canvas.h"
#include "postprocess/wording.h"

#include <fmt/format.h>

namespace interpile::program {

namespace {

constexpr double usual_letter_size_pt = 7;

postprocess::FigureStyle style_of(const io::StyleFile& file) {
    postprocess::FigureStyle style;
    style.width_pt = file.width_mm * postprocess::pt_per_mm;
    style.letter_scale = file.letter_size_pt / usual_letter_size_pt;
    style.most_bands = file.most_bands;
    style.decimal_comma = file.decimal_comma;
    style.formats = formats_of(file.formats);
    style.png_dots_per_inch = file.png_dots_per_inch;
    style.labels = file.labels;
    return style;
}

/// A basic string of TOML.
std::string quoted(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' || c == '\\' ? std::string("\\") + c : std::string(1, c);
    return quoted + "\"";
}

std::string label_list() {
    std::string list =
        "# Texts of figures and what to draw for them, \"\" for the English text; # is a number.\n"
        "[text.labels]\n";
    const auto& labels = postprocess::figure_style().labels;
    for (const auto& key : postprocess::drawn_labels()) {
        const auto found = labels.find(key);
        list += fmt::format("{} = {}\n", quoted(key), quoted(found == labels.end() ? "" : found->second));
    }
    return list;
}

} // namespace

void take_style(const StyleOptions& options) {
    if (!options.label_list.empty() && std::filesystem::exists(options.label_list))
        throw io::FileTrouble(
            fmt::format("--label-list: {} exists and was left untouched; nothing was drawn.",
                        options.label_list.string()));
    if (!options.style.empty())
        postprocess::set_figure_style(style_of(io::read_style(options.style)));
}

void end_style(const StyleOptions& options, Answer& answer) {
    for (const auto& [title, scale] : postprocess::reduced_drawings())
        answer.warn(fmt::format(
            "The figure \"{}\" needs more width: its notes have {:.1f} pt in place of {:.1f} pt.", title,
            scale * usual_letter_size_pt, postprocess::figure_style().letter_scale * usual_letter_size_pt));
    if (options.label_list.empty())
        return;
    if (postprocess::drawn_labels().empty())
        answer.warn("--label-list: nothing was drawn, so that there are no texts to list.");
    else
        answer.files({write_text(options.label_list, label_list())});
}

} // namespace interpile::program
