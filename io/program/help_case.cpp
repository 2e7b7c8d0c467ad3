#include "io/program/commands.h"
#include "io/vocabulary.h"

namespace interpile::program {

namespace {

void tell_keys(const std::vector<io::KeyInfo>& keys, const io::Dictionary& dictionary, std::string_view model,
               Answer& answer) {
    for (const auto& info : keys)
        answer.row("keys", {{"table", io::header_of(info.table, dictionary)},
                            {"key", std::string(info.key)},
                            {"unit", std::string(io::unit_of(info.key))},
                            {"soil_model", std::string(model)},
                            {"required", info.presence == io::Presence::Required},
                            {"default", info.standard},
                            {"allowed", io::allowed_values(info)},
                            {"meaning", std::string(info.meaning)},
                            {"source", std::string(info.source)}});
}

/// \param soils  the file also holds the keys of a soil model
io::ExitCode help(const io::Dictionary& dictionary, bool soils, Answer& answer) {
    answer.say("{}", io::vocabulary_help(dictionary));
    tell_keys(dictionary.keys, dictionary, "", answer);
    if (soils)
        for (const auto& model : io::soil_model_names())
            for (const auto& keys : {io::soil_rule_keys(model), io::soil_keys(model)})
                tell_keys(keys, dictionary, model, answer);
    return io::Done;
}

} // namespace

io::ExitCode help_case(Answer& answer) {
    return help(io::case_dictionary(), true, answer);
}

io::ExitCode help_soil_test(Answer& answer) {
    return help(io::soil_test_dictionary(), true, answer);
}

io::ExitCode help_site(Answer& answer) {
    return help(io::site_dictionary(), false, answer);
}

io::ExitCode help_works(Answer& answer) {
    return help(io::works_dictionary(), false, answer);
}

io::ExitCode help_study(Answer& answer) {
    return help(io::study_dictionary(), false, answer);
}

io::ExitCode help_report(Answer& answer) {
    return help(io::report_dictionary(), false, answer);
}

io::ExitCode help_style(Answer& answer) {
    return help(io::style_dictionary(), false, answer);
}

} // namespace interpile::program
