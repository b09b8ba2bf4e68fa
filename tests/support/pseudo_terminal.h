// SPDX-License-Identifier: GPL-3.0-or-later
// A balance on a wire: one end of a pseudo-terminal pair. A program opens `port()`; what is sent here arrives there.
#pragma once

#include <fcntl.h>
#include <pty.h>
#include <termios.h>
#include <unistd.h>

#include <string>
#include <string_view>

namespace prillbook::testing_support {

class PseudoTerminal {
 public:
  PseudoTerminal() {
    char name[256] = "";
    termios raw{};
    cfmakeraw(&raw);
    if (openpty(&ours_, &theirs_, name, &raw, nullptr) == 0) port_ = name;
  }
  ~PseudoTerminal() { unplug(); }
  PseudoTerminal(const PseudoTerminal&) = delete;
  PseudoTerminal& operator=(const PseudoTerminal&) = delete;

  const std::string& port() const { return port_; }
  bool send(std::string_view bytes) const { return ::write(ours_, bytes.data(), bytes.size()) == ssize_t(bytes.size()); }
  // The cable is drawn.
  void unplug() {
    for (int* end : {&ours_, &theirs_}) {
      if (*end >= 0) ::close(*end);
      *end = -1;
    }
  }

 private:
  int ours_ = -1, theirs_ = -1;
  std::string port_;
};

}  // namespace prillbook::testing_support
