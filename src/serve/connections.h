// SPDX-License-Identifier: MIT
#pragma once
// The HTTP library with a cap on its connections: it gives each a thread, so that idle ones could take them all.

#include <httplib.h>

#include <chrono>
#include <list>
#include <mutex>

namespace bw::serve {

struct Limits {
    std::size_t connections = 192;     ///< at once; of more, those longest without a request are closed
    std::chrono::seconds idle{30};     ///< between requests
    std::chrono::seconds request{10};  ///< for a request to arrive whole
    std::chrono::seconds answer{10};   ///< for a peer to take anything of an answer
};

class Connections : public httplib::Server {
public:
    explicit Connections(Limits limits = {});
    /// Lets many knock at once; after the port is bound.
    void lengthen_queue();
    /// Ends every connection; for the server's own end.
    void end_all();

    /// One peer, from its thread's view.
    struct Peer {
        int socket = -1;
        bool waiting = true;  ///< for the peer to send something
        std::chrono::steady_clock::time_point since{};
    };
    void wait(Peer& peer, bool waiting);

private:
    class Threads;
    bool process_and_close_socket(socket_t socket) override;
    /// Makes room by ending the connection that has waited longest; false where all are at work.
    bool end_one();

    Limits limits_;
    std::mutex mutex_;
    std::list<Peer> peers_;
    bool ending_ = false;
};

}  // namespace bw::serve
