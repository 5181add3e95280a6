// SPDX-License-Identifier: MIT
#pragma once
// HTTP/1.1 over the connections of this computer: one thread waits on all of them, a few work.

#include <chrono>
#include <functional>
#include <memory>
#include <optional>

#include "serve/answer.h"
#include "serve/request.h"
#include "units/error.h"

namespace bw::serve {

struct Limits {
    std::size_t connections = 512;                ///< at once; of more, those longest without a request are closed
    std::chrono::seconds idle{30};                ///< between requests
    std::chrono::seconds request{10};             ///< for a request to arrive whole, from its first byte
    std::chrono::seconds answer{10};              ///< for a peer to take an answer, and a second more for each …
    std::size_t bytes_a_second = 64u << 10;       ///< … of these
    std::chrono::seconds quiet{10};               ///< between comments that keep a quiet stream open
    std::size_t body = 1u << 20;                  ///< bytes
    std::size_t quick_work = 12, long_work = 16;  ///< threads for either
};

/// What is sent piece by piece, as it comes about.
class Feed {
public:
    virtual ~Feed() = default;
    /// `ready` is called, from any thread, whenever there may be a next piece; empty: no more.
    virtual void on_ready(std::function<void()> ready) = 0;
    /// The next piece as it goes over the wire; empty: none now; nothing: it has ended.
    [[nodiscard]] virtual std::optional<std::string> next() = 0;
};

/// What comes of a request: an answer, or events that follow its head.
struct Outcome {
    Answer answer;
    std::shared_ptr<Feed> feed{};
};

/// Who answers.
class Site {
public:
    virtual ~Site() = default;
    /// The refusal of a request whose body has not been read, or nothing. Asked between all else, so at once.
    [[nodiscard]] virtual std::optional<Answer> refused(const Request& request, int port) const = 0;
    /// Whether a plant or a document may have to be worked out: such requests wait for each other, not others for them.
    [[nodiscard]] virtual bool lengthy(const Request& request) const = 0;
    /// Asked from several threads.
    [[nodiscard]] virtual Outcome answer(const Request& request) = 0;
};

class Connections {
public:
    /// Opens the port, 0 being any that is free, and answers from then on. Fails where the port is not to be had;
    /// throws std::system_error where there is no thread.
    [[nodiscard]] static Result<std::unique_ptr<Connections>> open(Site& site, int port, const Limits& limits = {});
    ~Connections();
    Connections(const Connections&) = delete;
    Connections& operator=(const Connections&) = delete;

    [[nodiscard]] int port() const;
    /// Connections held at once: fewer than wished for where this process may open few files.
    [[nodiscard]] std::size_t most() const;
    /// Takes no more requests; answers under way are still sent, and streams go on.
    void finish();
    /// Ends everything, once the answers under way are sent.
    void stop();

    class Inside;

private:
    Connections();
    std::unique_ptr<Inside> inside_;
};

}  // namespace bw::serve
