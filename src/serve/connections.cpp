// SPDX-License-Identifier: MIT
#include "serve/connections.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <condition_variable>
#include <deque>
#include <thread>

namespace bw::serve {
namespace {

using Clock = std::chrono::steady_clock;

/// Set while a connection is to be turned away by the thread that accepts.
thread_local bool turned_away = false;

int milliseconds_until(Clock::time_point end) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Clock::now()).count();
    return static_cast<int>(std::clamp<std::int64_t>(left, 0, 600000));
}

bool ready(int socket, short what, Clock::time_point end) {
    pollfd poll{socket, what, 0};
    for (;;) {
        const int got = ::poll(&poll, 1, milliseconds_until(end));
        if (got > 0) return (poll.revents & (what | POLLHUP)) != 0;
        if (got == 0 || errno != EINTR) return false;
    }
}

void address_of(const sockaddr_storage& address, std::string& ip, int& port) {
    char text[INET6_ADDRSTRLEN] = "";
    if (address.ss_family == AF_INET) {
        const auto* v4 = reinterpret_cast<const sockaddr_in*>(&address);
        ::inet_ntop(AF_INET, &v4->sin_addr, text, sizeof text);
        port = ntohs(v4->sin_port);
    } else if (address.ss_family == AF_INET6) {
        const auto* v6 = reinterpret_cast<const sockaddr_in6*>(&address);
        ::inet_ntop(AF_INET6, &v6->sin6_addr, text, sizeof text);
        port = ntohs(v6->sin6_port);
    }
    ip = text;
}

/// A socket as the library wants it, with one deadline for a whole request.
class Line : public httplib::Stream {
public:
    Line(Connections& owner, Connections::Peer& peer, const Limits& limits)
        : owner_(owner), peer_(peer), limits_(limits), end_(Clock::now() + limits.request) {}

    bool is_readable() const override { return ready(peer_.socket, POLLIN, Clock::now()); }
    bool is_writable() const override {
        pollfd poll{peer_.socket, POLLOUT | POLLRDHUP, 0};
        return ::poll(&poll, 1, 0) > 0 && (poll.revents & (POLLRDHUP | POLLHUP | POLLERR)) == 0;
    }
    ssize_t read(char* to, std::size_t size) override {
        if (from_ == to_) {
            owner_.wait(peer_, true);
            const bool there = ready(peer_.socket, POLLIN, end_);
            owner_.wait(peer_, false);
            if (!there) return -1;
            const auto got = ::recv(peer_.socket, buffer_.data(), buffer_.size(), 0);
            if (got <= 0) return got;
            from_ = 0, to_ = static_cast<std::size_t>(got);
        }
        const auto taken = std::min(size, to_ - from_);
        std::copy_n(buffer_.data() + from_, taken, to);
        from_ += taken;
        return static_cast<ssize_t>(taken);
    }
    ssize_t write(const char* from, std::size_t size) override {
        if (!ready(peer_.socket, POLLOUT, Clock::now() + limits_.answer)) return -1;
        return ::send(peer_.socket, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);  // as much as it takes
    }
    void get_remote_ip_and_port(std::string& ip, int& port) const override {
        sockaddr_storage address{};
        socklen_t length = sizeof address;
        if (::getpeername(peer_.socket, reinterpret_cast<sockaddr*>(&address), &length) == 0)
            address_of(address, ip, port);
    }
    void get_local_ip_and_port(std::string& ip, int& port) const override {
        sockaddr_storage address{};
        socklen_t length = sizeof address;
        if (::getsockname(peer_.socket, reinterpret_cast<sockaddr*>(&address), &length) == 0)
            address_of(address, ip, port);
    }
    socket_t socket() const override { return peer_.socket; }

    /// Waits for a request to begin; its time runs from then.
    bool next() {
        if (from_ == to_) {
            owner_.wait(peer_, true);
            const bool there = ready(peer_.socket, POLLIN, Clock::now() + limits_.idle);
            owner_.wait(peer_, false);
            if (!there) return false;
        }
        end_ = Clock::now() + limits_.request;
        return true;
    }

private:
    Connections& owner_;
    Connections::Peer& peer_;
    const Limits& limits_;
    Clock::time_point end_;
    std::vector<char> buffer_ = std::vector<char>(8192);
    std::size_t from_ = 0, to_ = 0;
};

/// A request that tells no length has no body; the library would wait for the peer's end.
void bodies_have_a_length(httplib::Request& request) {
    if (!request.has_header("Content-Length") && !request.has_header("Transfer-Encoding"))
        request.set_header("Content-Length", "0");
}

}  // namespace

/// A thread a connection, made when first wanted and used again.
class Connections::Threads : public httplib::TaskQueue {
public:
    explicit Threads(Connections& owner) : owner_(owner), most_(owner.limits_.connections) {}

    void enqueue(std::function<void()> task) override {
        std::unique_lock lock(mutex_);
        if (busy_ >= most_) {
            lock.unlock();
            const bool room = owner_.end_one();
            lock.lock();
            // those ended go in a moment; only a handful may be on their way out at once
            const auto left = [this] { return ending_ || busy_ < most_ + 32; };
            if (!room || !gone_.wait_for(lock, std::chrono::seconds(1), left)) {
                lock.unlock();
                turned_away = true;
                task();
                turned_away = false;
                return;
            }
        }
        ++busy_;
        tasks_.push_back(std::move(task));
        if (idle_ < tasks_.size()) threads_.emplace_back([this] { work(); });
        wake_.notify_one();
    }
    void shutdown() override {
        {
            const std::lock_guard lock(mutex_);
            ending_ = true;
        }
        wake_.notify_all();
        owner_.end_all();
        for (auto& thread : threads_) thread.join();
    }

private:
    void work() {
        std::unique_lock lock(mutex_);
        for (;;) {
            ++idle_;
            wake_.wait(lock, [this] { return ending_ || !tasks_.empty(); });
            --idle_;
            if (tasks_.empty()) return;
            const auto task = std::move(tasks_.front());
            tasks_.pop_front();
            lock.unlock();
            task();
            lock.lock();
            --busy_;
            gone_.notify_one();
        }
    }

    Connections& owner_;
    std::size_t most_, busy_ = 0, idle_ = 0;
    std::mutex mutex_;
    std::condition_variable wake_, gone_;
    std::deque<std::function<void()>> tasks_;
    std::vector<std::thread> threads_;
    bool ending_ = false;
};

Connections::Connections(Limits limits) : limits_(limits) {
    new_task_queue = [this] { return new Threads(*this); };
}

void Connections::lengthen_queue() { ::listen(svr_sock_, 512); }

void Connections::wait(Peer& peer, bool waiting) {
    const std::lock_guard lock(mutex_);
    peer.waiting = waiting;
    if (waiting) peer.since = Clock::now();
}

bool Connections::end_one() {
    const std::lock_guard lock(mutex_);
    Peer* longest = nullptr;
    for (auto& peer : peers_)
        if (peer.waiting && peer.socket >= 0 && (longest == nullptr || peer.since < longest->since)) longest = &peer;
    if (longest == nullptr) return false;
    ::shutdown(longest->socket, SHUT_RDWR);
    longest->waiting = false;
    return true;
}

void Connections::end_all() {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    for (auto& peer : peers_) ::shutdown(peer.socket, SHUT_RDWR);
}

bool Connections::process_and_close_socket(socket_t socket) {
    const auto close = [socket] {
        ::shutdown(socket, SHUT_RDWR);
        ::close(socket);
    };
    if (turned_away) {
        close();
        return false;
    }
    std::list<Peer>::iterator peer;
    {
        const std::lock_guard lock(mutex_);
        peer = peers_.insert(peers_.end(), Peer{socket, true, Clock::now()});
        if (ending_) ::shutdown(socket, SHUT_RDWR);
    }
    bool good = true;
    {
        Line line(*this, *peer, limits_);
        bool closed = false;
        while (good && !closed && svr_sock_ != INVALID_SOCKET && line.next())
            good = process_request(line, false, closed, bodies_have_a_length);
    }
    {
        const std::lock_guard lock(mutex_);
        peers_.erase(peer);
    }
    close();
    return good;
}

}  // namespace bw::serve
