#include "postprocess/report/html_text.h"

#include "postprocess/label.h"

namespace interpile::postprocess::report {

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text)
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"')
            safe += "&quot;";
        else if (static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t')
            safe += c;
    return safe;
}

std::string set_sentence(std::string_view text) {
    std::string html;
    for (const Run& run : sentence(text)) {
        const std::string safe = escaped(run.text);
        html += run.script == Run::Script::Italic      ? "<i>" + safe + "</i>"
                : run.script == Run::Script::Subscript ? "<sub>" + safe + "</sub>"
                                                       : safe;
    }
    return html;
}

} // namespace interpile::postprocess::report
