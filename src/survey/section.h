// SPDX-License-Identifier: MIT
#pragma once
// Reads one table of the survey by the field list: checks form and limits, fills defaults and notes each one taken.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "survey/fields.h"
#include "survey/survey.h"
#include "survey/words.h"
#include "text/toml.h"

namespace bw::survey {

/// A default that depends on other fields.
struct Fallback {
    std::string written;  ///< in the survey's syntax
    std::string why;
    bool safety = false;
};

/// One table. After a failure every read does nothing; `finish` gives the failure or refuses unknown keys.
class Table {
public:
    /// `path` finds the fields; `label` names the table in assumptions ("room.wall.3"). An absent table takes every
    /// default.
    Table(std::string path, std::optional<text::Node> node, std::vector<Assumption>& assumed, std::string label = {});

    /// Required by the field list, else left untouched. True when the file has it.
    bool take(std::string_view key, std::string& out);  ///< a text, or one of the field's words
    bool take(std::string_view key, bool& out);
    bool take(std::string_view key, int& out);
    bool take(std::string_view key, double& out);
    bool take(std::string_view key, Nominal& out);
    bool take(std::string_view key, shape::Vec& out);  ///< snapped to the grid
    template <class Unit>
    bool take(std::string_view key, bu::quantity<Unit, double>& out) {
        const auto amount = quantity(key);
        if (amount) out = bu::quantity<Unit, double>::from_value(*amount);
        return amount.has_value();
    }
    template <class Enum>
    requires std::is_enum_v<Enum>
    bool take(std::string_view key, Enum& out) {
        const auto found = word(key);
        if (found) out = value_of<Enum>(*found);
        return found.has_value();
    }
    /// True when the file has it; else the value stays as it is, marked as assumed.
    template <class T>
    bool take(std::string_view key, Given<T>& out) {
        out.assumed = !take(key, out.value);
        return !out.assumed;
    }

    /// As take, with the field list's default where the key is absent.
    template <class T>
    bool take_or_default(std::string_view key, T& out) {
        if (take(key, out)) return true;
        if (ok()) {
            const auto& spec = spec_of(key);
            fall_back(key, out, {std::string(spec.fallback), std::string(spec.why), spec.safety});
        }
        return false;
    }
    template <class T>
    void fall_back(std::string_view key, Given<T>& out, const Fallback& otherwise) {
        fall_back(key, out.value, otherwise);
    }
    /// Puts a default in and notes it. The written value must be readable by the field's own rules.
    template <class T>
    void fall_back(std::string_view key, T& out, const Fallback& otherwise) {
        if (!ok()) return;
        note(key, otherwise);
        const auto& spec = spec_of(key);
        if constexpr (std::is_same_v<T, bool>)
            out = otherwise.written == "true";
        else if constexpr (std::is_enum_v<T>)
            out = value_of<T>(otherwise.written);
        else if constexpr (std::is_arithmetic_v<T>)
            out = static_cast<T>(written_value(spec, otherwise.written));
        else
            out = T::from_value(written_value(spec, otherwise.written));
    }
    /// Notes a default without a value of its own ("not known", "none").
    void note(std::string_view key, const Fallback& otherwise);

    [[nodiscard]] std::optional<text::Node> child(std::string_view key);
    /// Entries of a list of tables; empty where absent. `present` tells an empty list from none.
    [[nodiscard]] std::vector<text::Node> list(std::string_view key, bool* present = nullptr);
    [[nodiscard]] Place place() const { return reader_ ? reader_->table().place() : Place{}; }
    /// Refuses at the value of `key`.
    void refuse(std::string_view key, std::string what, std::string expected);
    void fail(Error error);
    [[nodiscard]] bool ok() const { return !error_ && (!reader_ || reader_->ok()); }
    [[nodiscard]] Result<void> finish();

private:
    [[nodiscard]] const Field& spec_of(std::string_view key) const;
    [[nodiscard]] std::optional<double> quantity(std::string_view key);
    [[nodiscard]] std::optional<std::string> word(std::string_view key);
    [[nodiscard]] static double written_value(const Field& spec, std::string_view written);
    [[nodiscard]] bool present(std::string_view key, const Field& spec);
    [[nodiscard]] Error missing(std::string_view key, const Field& spec) const;

    std::string path_, label_;
    std::optional<text::TableReader> reader_;
    std::optional<Error> error_;  ///< only where there is no table to read
    std::vector<Assumption>* assumed_;
};

/// Three lengths, snapped to the grid.
[[nodiscard]] Result<shape::Vec> read_place(const text::Node& node);
/// Two lengths, snapped to the grid.
[[nodiscard]] Result<shape::Point> read_corner(const text::Node& node);

}  // namespace bw::survey
