#include "io/text_lines.h"

namespace interpile::io {

namespace {

/// Bytes of the character at the front; 1 for a byte that begins no valid sequence.
std::size_t character_length(std::string_view text) {
    const auto first = static_cast<unsigned char>(text.front());
    const std::size_t length = first < 0xC2 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : first < 0xF5 ? 4 : 1;
    if (length > text.size())
        return 1;
    for (std::size_t i = 1; i < length; ++i)
        if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80)
            return 1;
    return length;
}

} // namespace

std::string_view line_of(std::string_view text, int number) {
    for (int line = 1; line < number; ++line) {
        const auto end = text.find('\n');
        if (end == std::string_view::npos)
            return {};
        text.remove_prefix(end + 1);
    }
    text = text.substr(0, text.find('\n'));
    if (text.ends_with('\r'))
        text.remove_suffix(1);
    return text;
}

std::string_view characters(std::string_view line, int column, int count) {
    for (int skipped = 1; skipped < column && !line.empty(); ++skipped)
        line.remove_prefix(character_length(line));
    std::size_t bytes = 0;
    for (int taken = 0; taken < count && bytes < line.size(); ++taken)
        bytes += character_length(line.substr(bytes));
    return line.substr(0, bytes);
}

int character_count(std::string_view line) {
    int count = 0;
    for (; !line.empty(); ++count)
        line.remove_prefix(character_length(line));
    return count;
}

std::string printable(std::string_view line) {
    std::string safe;
    while (!line.empty()) {
        const std::size_t length = character_length(line);
        const auto first = static_cast<unsigned char>(line.front());
        if (length == 1 && first == '\t')
            safe += ' ';
        else if ((length == 1 && (first < 0x20 || first >= 0x7F)) ||
                 (first == 0xC2 && static_cast<unsigned char>(line[1]) < 0xA0)) // C1 controls
            safe += '?';
        else
            safe += line.substr(0, length);
        line.remove_prefix(length);
    }
    return safe;
}

} // namespace interpile::io
