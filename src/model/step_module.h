// SPDX-License-Identifier: MIT
#pragma once
// What passes between the program and the module with the CAD kernel: all texts made, so that the module needs no
// other room's code.

#include <array>
#include <string>
#include <vector>

#include "model/form.h"

namespace bw::model {

struct StepJob {
    struct Part {
        std::string name;
        Look look;
    };
    std::string title, author, time;        ///< UTF-8; time as the header has it
    std::array<std::string, looks> family;  ///< names of the looks
    Scene scene;
    std::vector<Part> placed;  ///< of the scene's placed, in their order
};

/// The module's one function: writes the file's bytes, with UTF-8 in its strings as they were, or why there is none.
using StepModule = void(const StepJob& job, bw::Result<std::string>& bytes);
inline constexpr const char* step_module = "libbankwright_kernel.so";
inline constexpr const char* step_function = "bankwright_step";

}  // namespace bw::model
