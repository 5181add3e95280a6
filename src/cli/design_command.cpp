// SPDX-License-Identifier: MIT
#include <filesystem>
#include <memory>
#include <optional>

#include "cli/commands.h"
#include "cli/ending.h"
#include "cli/package.h"
#include "cli/screen.h"
#include "cli/summary.h"

namespace bw::cli {

namespace {

struct Wanted {
    std::string survey, folder;
    bool json = false;
    std::optional<draw::Paper> paper;  ///< of the sheets; empty: what is usual with the units
};

bw::Result<design::Result> designed(const Program& program, const std::string& path, catalogue::Catalogue& catalogue) {
    auto survey = survey::read(path);
    if (!survey) return tl::unexpected(survey.error());
    auto loaded = catalogue::load(program.data);
    if (!loaded) return tl::unexpected(loaded.error());
    catalogue = std::move(*loaded);
    auto result = design::run(*survey, catalogue, design::wide());
    if (!result && result.error().place.file.empty()) result.error().place.file = path;
    return result;
}

Outcome design_job(const Program& program, const Wanted& wanted) {
    end_on_signals();
    catalogue::Catalogue catalogue;
    const auto result = designed(program, wanted.survey, catalogue);
    if (!result) return tl::unexpected(result.error());
    if (wanted.json && wanted.folder.empty()) {
        say(design::to_json(*result, program.units));
        return result->exit_status();
    }
    const auto folder =
        wanted.folder.empty() ? std::filesystem::path(wanted.survey).stem().string() + "-package" : wanted.folder;
    const auto files =
        package(*result, catalogue, program.units, wanted.paper.value_or(draw::usual_paper(program.units)));
    if (!files) return tl::unexpected(files.error());
    if (auto ok = write_package(folder, *files); !ok) return tl::unexpected(ok.error());
    if (wanted.json)
        say(design::to_json(*result, program.units));
    else
        say(summary(*result, program.units) + package_summary(folder, *files));
    return result->exit_status();
}

Outcome compare_jobs(const Program& program, const Wanted& wanted) {
    catalogue::Catalogue catalogue;
    const auto result = designed(program, wanted.survey, catalogue);
    if (!result) return tl::unexpected(result.error());
    say(wanted.json ? design::compare_json(*result, program.units) : comparison(*result, program.units));
    return result->exit_status();
}

}  // namespace

void add_design(Program& program) {
    auto* command =
        program.app.add_subcommand("design", "the whole job: survey in, proved plant and its build package out");
    auto wanted = std::make_shared<Wanted>();
    command->add_option("survey", wanted->survey, "survey file")->required();
    command->add_option("-o,--output", wanted->folder,
                        "folder for the package (default: the survey's name with -package)");
    add_choice<draw::Paper>(*command, "--paper",
                            "paper of the sheets: a3, a4, tabloid or letter (default: tabloid, with SI units a3)",
                            {{"a3", draw::Paper::a3},
                             {"a4", draw::Paper::a4},
                             {"tabloid", draw::Paper::tabloid},
                             {"letter", draw::Paper::letter}},
                            [wanted](draw::Paper paper) { wanted->paper = paper; });
    command->add_flag("--json", wanted->json, "print the result document; without -o no folder is written");
    command->callback(
        [&program, wanted] { program.todo = [&program, wanted] { return design_job(program, *wanted); }; });
}

void add_compare(Program& program) {
    auto* command = program.app.add_subcommand("compare", "candidates side by side");
    auto wanted = std::make_shared<Wanted>();
    command->add_option("survey", wanted->survey, "survey file")->required();
    command->add_flag("--json", wanted->json, "print one JSON document");
    command->callback(
        [&program, wanted] { program.todo = [&program, wanted] { return compare_jobs(program, *wanted); }; });
}

}  // namespace bw::cli
