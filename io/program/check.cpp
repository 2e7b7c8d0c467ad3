#include "io/case_report.h"
#include "io/program/commands.h"

#include <fmt/format.h>

#include <cstdio>

namespace interpile::program {

io::ExitCode check(const CheckOptions& options) {
    const io::Case run_case = io::read_case(options.case_file);
    fmt::print("{}", io::case_report(run_case));
    return io::Done;
}

} // namespace interpile::program
