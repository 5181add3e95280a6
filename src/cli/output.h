// SPDX-License-Identifier: MIT
#pragma once
// Files that appear whole or not at all.

#include <string>
#include <utility>
#include <vector>

#include "units/error.h"

namespace bw::cli {

/// File name and bytes.
using Files = std::vector<std::pair<std::string, std::string>>;

/// Replaces folder `dir` by exactly `files`, in one step: either all of them stand there afterwards or the folder is as
/// it was. Fails on a folder that holds anything but an earlier package, and on one that cannot be written.
[[nodiscard]] bw::Result<void> write_package(const std::string& dir, const Files& files);

/// Writes a file that was not there before. Fails when it exists already, and leaves nothing half-written.
[[nodiscard]] bw::Result<void> write_new_file(const std::string& path, const std::string& text);

}  // namespace bw::cli
