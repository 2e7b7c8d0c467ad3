#include "io/program/commands.h"
#include "io/program/report_parts.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/site_summary.h"
#include "postprocess/report/html.h"
#include "postprocess/report/pdf.h"

#include <fmt/format.h>

#include <cctype>
#include <sstream>

namespace interpile::program {

namespace {

struct ChapterPlan {
    std::string word; ///< of text.chapter
    std::string title;
    Blocks (*blocks)(const ReportInput&, SourceList&);
};

/// Between the first chapter and the last, which follow from these.
const std::vector<ChapterPlan>& chapter_plans() {
    static const std::vector<ChapterPlan> plans = {
        {"ground", "Ground", ground_blocks},
        {"need", "Need", need_blocks},
        {"methods", "Simple methods", methods_blocks},
        {"simulation", "Simulation", simulation_blocks},
        {"after", "N and F_L after treatment", after_blocks},
        {"alternatives", "Alternatives compared", alternatives_blocks},
        {"neighbors", "Neighbors", neighbors_blocks},
        {"instruction", "Instruction", instruction_blocks},
        {"as-built", "As built", as_built_blocks},
        {"tests", "Tests after treatment", tests_blocks},
    };
    return plans;
}

/// The user's paragraphs for a chapter.
Blocks texts_of(const io::ReportFile& file, const std::string& chapter) {
    Blocks blocks;
    const auto end_paragraph = [&](std::string& paragraph) {
        if (!paragraph.empty())
            blocks.push_back(report::Paragraph{paragraph});
        paragraph.clear();
    };
    for (const auto& text : file.texts) {
        if (text.chapter != chapter)
            continue;
        std::istringstream lines(text.body);
        std::string paragraph;
        for (std::string line; std::getline(lines, line);)
            if (line.find_first_not_of(" \t\r") == std::string::npos)
                end_paragraph(paragraph);
            else
                paragraph += (paragraph.empty() ? "" : " ") + line;
        end_paragraph(paragraph);
    }
    return blocks;
}

void add_chapter(report::Document& document, const std::string& title, Blocks texts, Blocks blocks) {
    texts.insert(texts.end(), blocks.begin(), blocks.end());
    document.chapters.push_back({title, std::move(texts)});
}

report::Document document_of(const ReportInput& input) {
    const auto& file = input.file;
    report::Document document{
        file.title, file.project, file.client, file.author, input.date, "interpile " INTERPILE_VERSION, {},
        {}};
    document.cautions = {
        "Simulated values and empirical relations: for judgment, not for approval. To be checked by a "
        "licensed engineer against local codes. Treated ground is to be verified by borings or "
        "soundings between the piles."};
    if (input.site)
        document.cautions.push_back(io::design_caution());
    SourceList sources;
    std::vector<std::string> left_out;
    for (const auto& plan : chapter_plans()) {
        Blocks blocks = plan.blocks(input, sources);
        Blocks texts = texts_of(file, plan.word);
        if (blocks.empty())
            left_out.push_back(plan.title);
        if (blocks.empty() && texts.empty())
            continue;
        if (blocks.empty())
            blocks.push_back(report::Paragraph{"No data of this chapter were given to the report."});
        add_chapter(document, plan.title, std::move(texts), std::move(blocks));
    }
    add_chapter(document, "Sources and values from memory", texts_of(file, "sources"),
                sources_blocks(sources));
    Blocks job = texts_of(file, "job");
    const Blocks about = job_blocks(input, left_out);
    job.insert(job.end(), about.begin(), about.end());
    document.chapters.insert(document.chapters.begin(), {"Job and cautions", std::move(job)});
    return document;
}

/// Date in the PDF: the one told where it is a day, else that of the newest result.
std::string created_on(const ReportInput& input) {
    const auto is_day = [](const std::string& text) {
        return text.size() == 10 && std::isdigit(static_cast<unsigned char>(text[0])) && text[4] == '-' &&
               text[7] == '-';
    };
    if (is_day(input.date))
        return input.date + "T00:00:00Z";
    std::string newest;
    for (const auto& result : input.results)
        newest = std::max(newest, result.header.started);
    return newest;
}

} // namespace

io::ExitCode make_report(const ReportOptions& options, Answer& answer) {
    auto style = postprocess::figure_style();
    style.width_pt = postprocess::FigureStyle().width_pt; // that of the text
    postprocess::set_figure_style(style);
    const ReportInput input = read_report_input(options.file);
    const report::Document document = document_of(input);
    // Both are made before either is written.
    const std::string html = report::html_page(document);
    const std::string pdf = report::pdf_pages(document, created_on(input));
    const fs::path folder = folder_for(options.folder, options.file, "_report");
    answer.files({write_text(folder / "report.html", html), write_text(folder / "report.pdf", pdf)});
    return io::Done;
}

} // namespace interpile::program
