// SPDX-License-Identifier: MIT
#pragma once
// Which folders hold a package of ours and nothing else: those whose every file stands in the manifest written with it.

#include <filesystem>
#include <string>
#include <vector>

#include "cli/output.h"

namespace bw::cli {

/// Something opened that closes itself.
class Descriptor {
public:
    explicit Descriptor(int descriptor = -1) : descriptor_(descriptor) {}
    Descriptor(Descriptor&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(descriptor_, other.descriptor_);
        return *this;
    }
    ~Descriptor();

    /// False, with errno, where what was written did not arrive.
    bool close();
    [[nodiscard]] int number() const { return descriptor_; }
    explicit operator bool() const { return descriptor_ >= 0; }

private:
    int descriptor_;
};

[[nodiscard]] tl::unexpected<Error> cannot_write(const std::string& path, const std::string& why);
/// For the reason that errno gives.
[[nodiscard]] tl::unexpected<Error> cannot_write(const std::string& path);

/// A folder itself, not one that a link leads to; closed where there is none.
[[nodiscard]] Descriptor open_folder(const std::filesystem::path& folder);

/// Writes a file that is not there yet; never through a link.
[[nodiscard]] bw::Result<void> write_file(const Descriptor& folder, const std::string& name, const std::string& text,
                                          const std::string& shown);

/// The file that lists a package's other files.
inline constexpr const char* manifest_name = ".bankwright-package";
[[nodiscard]] std::string manifest(const Files& files);

/// Names of the package's files that are in a folder. Fails, naming it, on anything else there; `shown` is the folder's name in
/// messages.
[[nodiscard]] bw::Result<std::vector<std::string>> package_in(const Descriptor& folder, const std::string& shown);

/// Takes a package away, and its folder; fails and leaves all where the folder holds anything else.
[[nodiscard]] bw::Result<void> remove_package(const std::filesystem::path& folder);

}  // namespace bw::cli
