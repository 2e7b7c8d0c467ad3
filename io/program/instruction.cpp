#include "io/instruction_sheet.h"
#include "io/program/result_options.h"
#include "io/program/text_files.h"
#include "io/program/told_numbers.h"

namespace interpile::program {

io::ExitCode instruction(const WorksOptions& options, Answer& answer) {
    const io::WorksFile works = io::read_works(options.file);
    const fs::path folder = folder_for(options.folder, options.file, "_instruction");
    answer.say("{}", io::instruction_summary(works));
    tell_orders(works, answer);
    answer.files({write_text(folder / "instruction.csv", io::instruction_table(works)),
                  write_text(folder / "instruction.html", io::instruction_page(works))});
    return io::Done;
}

} // namespace interpile::program
