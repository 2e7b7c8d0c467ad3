// The program: read the command line, execute the command, tell what came of it.

#include "io/program/command_line.h"

#include <new>

namespace {

namespace program = interpile::program;
namespace io = interpile::io;

io::ExitCode execute(int argc, char** argv, program::Answer& answer) {
    program::CommandLine line;
    try {
        line.read(argc, argv);
        answer.name_command(line.command());
        return line.execute(answer);
    } catch (const io::CaseFaults& faults) {
        answer.fail(faults);
        return io::BadInput;
    } catch (const program::UsageError& error) {
        answer.name_command(line.command());
        answer.fail(error.what());
        return io::BadInput;
    } catch (const io::FileTrouble& trouble) {
        answer.fail(trouble.what());
        return io::FileProblem;
    } catch (const std::filesystem::filesystem_error& trouble) {
        answer.fail(trouble.what());
        return io::FileProblem;
    } catch (const std::bad_alloc&) {
        answer.fail("not enough memory; choose larger cells or a smaller domain.");
        return io::NotConverged;
    } catch (const std::exception& error) {
        answer.fail(std::string("the computation could not go on: ") + error.what());
        return io::NotConverged;
    }
}

} // namespace

int main(int argc, char** argv) {
    using Form = program::Answer::Form;
    program::Answer answer(program::asks_for_json(argc, argv) ? Form::Json : Form::Words);
    return answer.end(execute(argc, argv, answer));
}
