#pragma once
// What stands in a report, not how it looks: chapters of headings, paragraphs, lists, cautions, tables and figures.

#include "postprocess/canvas.h"

#include <string>
#include <variant>
#include <vector>

namespace interpile::postprocess::report {

/// All texts are UTF-8; words that are symbols (postprocess/label.h, sentence) are set as symbols.
struct Heading {
    std::string text;
};
struct Paragraph {
    std::string text;
};
struct Items {
    std::vector<std::string> texts;
};
/// Stands out in a frame.
struct Caution {
    std::string text;
};

struct Column {
    std::string head;
    std::string unit;  ///< stands in brackets below the head; "-": without unit; empty: not a quantity
    bool text = false; ///< set to the left and broken into lines; numbers stand at the right
};
struct Table {
    std::string caption;
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows; ///< a cell for every column
    std::vector<std::string> notes = {};        ///< below, in small print
};

struct Figure {
    std::string caption;
    Drawing drawing;
};

using Block = std::variant<Heading, Paragraph, Items, Caution, Table, Figure>;

struct Chapter {
    std::string title;
    std::vector<Block> blocks;
};

struct Document {
    std::string title, project, client, author; ///< any but the title may be empty
    std::string date;                           ///< as it is to stand there; may be empty
    std::string program;                        ///< name and version
    std::vector<std::string> cautions;          ///< on top, before all chapters
    std::vector<Chapter> chapters;
};

/// The one count of chapters, headings, tables and figures, in the order of the document.
class Numbering {
public:
    std::string chapter();                              ///< "2"
    std::string heading();                              ///< "2.1", within the last chapter
    std::string table() { return number(++tables_); }   ///< "3", through the document
    std::string figure() { return number(++figures_); } ///< "3", through the document

private:
    static std::string number(int count) { return std::to_string(count); }
    int chapters_ = 0, headings_ = 0, tables_ = 0, figures_ = 0;
};

/// "[kPa]", "[-]", "[m³]" of "m3", or nothing.
std::string unit_in_brackets(const Column& column);

/// \throws std::invalid_argument  no title; a table without columns or with a row of another length; a figure without
/// size
void require_sound(const Document& document);

} // namespace interpile::postprocess::report
