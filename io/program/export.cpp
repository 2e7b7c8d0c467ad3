#include "io/program/result_options.h"
#include "postprocess/export_vtk.h"

namespace interpile::program {

io::ExitCode export_result(const ExportOptions& options, Answer& answer) {
    const io::ResultsReader results(options.result);
    chosen_stage(results, {}); // refuses a result without any stage
    warn_unfinished(results, answer);
    answer.files(postprocess::export_vtk(results, folder_for(options.folder, options.result, "_vtk")));
    return io::Done;
}

} // namespace interpile::program
