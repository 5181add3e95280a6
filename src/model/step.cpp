// SPDX-License-Identifier: MIT
// STEP is written by a module with the CAD kernel, whose libraries cost a tenth of a second to load: at first use.
#include <dlfcn.h>

#include "model/model.h"
#include "model/part21.h"
#include "model/step_module.h"
#include "text/split.h"

namespace bw::model {
namespace {

/// A message without the folders of the files it names: who reads it on the page has no business with them.
std::string without_folders(std::string_view message) {
    std::string out;
    for (const auto& word : text::split(message, ' '))
        out += (out.empty() ? "" : " ") + word.substr(word.starts_with('/') ? word.rfind('/') + 1 : 0);
    return out;
}

bw::Result<StepModule*> load() {
    // found by the program's run path: beside it as built, in its library folder as installed
    void* module = ::dlopen(step_module, RTLD_NOW | RTLD_LOCAL);
    void* found = module ? ::dlsym(module, step_function) : nullptr;
    if (found) return reinterpret_cast<StepModule*>(found);
    return fail("plant.step needs the module with the CAD kernel, which does not load: " + without_folders(::dlerror()),
                std::string(step_module) + " where it was built or installed, and the Open CASCADE libraries");
}

const bw::Result<StepModule*>& module() {
    static const auto loaded = load();
    return loaded;
}

}  // namespace

bw::Result<std::string> step(const design::Result& result) {
    if (!result.chosen) return fail("nothing was chosen", "a survey whose plant fits");
    const auto& write = module();
    if (!write) return tl::unexpected(write.error());
    const auto& plant = result.chosen->built.plant;
    StepJob job{result.survey.job, result.survey.prepared_by, time_stamp(result.survey.date), {}, scene(plant), {}};
    for (int i = 0; i < looks; ++i) job.family[static_cast<std::size_t>(i)] = name(look_at(i));
    for (const auto& placed : job.scene.placed) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(placed.piece)];
        job.placed.push_back({piece.id, look_of(piece)});
    }
    bw::Result<std::string> bytes;
    (*write)(job, bytes);
    if (bytes) return ascii21(*bytes);
    return bytes;
}

}  // namespace bw::model
