#include "io/program/commands.h"
#include "io/vocabulary.h"

#include <fmt/format.h>

#include <cstdio>

namespace interpile::program {

io::ExitCode help_case() {
    fmt::print("{}", io::vocabulary_help());
    return io::Done;
}

io::ExitCode help_soil_test() {
    fmt::print("{}", io::vocabulary_help(io::soil_test_dictionary()));
    return io::Done;
}

io::ExitCode help_site() {
    fmt::print("{}", io::vocabulary_help(io::site_dictionary()));
    return io::Done;
}

io::ExitCode help_works() {
    fmt::print("{}", io::vocabulary_help(io::works_dictionary()));
    return io::Done;
}

io::ExitCode help_study() {
    fmt::print("{}", io::vocabulary_help(io::study_dictionary()));
    return io::Done;
}

io::ExitCode help_report() {
    fmt::print("{}", io::vocabulary_help(io::report_dictionary()));
    return io::Done;
}

} // namespace interpile::program
