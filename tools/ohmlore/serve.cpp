// ohmlore serve: the language server, over standard input and output.
#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <memory>

#include "commands.h"
#include "ohmlore/serve.h"

static void send(const std::vector<std::string>& messages) {
  for (const std::string& message : messages) {
    const std::string bytes = ohmlore::framed(message);
    std::fwrite(bytes.data(), 1, bytes.size(), stdout);
  }
  std::fflush(stdout);
}

static bool input_waits() {
  pollfd input{STDIN_FILENO, POLLIN, 0};
  return poll(&input, 1, 0) > 0;
}

static int serve(const ohmlore::Serve_options& options) {
  if (isatty(STDIN_FILENO) == 1)
    return complain("serve: an editor starts this and speaks to it over standard input, which is a terminal "
                    "here; tools/editors/README.md says how an editor is set up");
  std::signal(SIGPIPE, SIG_IGN); // an editor that went away is seen when written to
  ohmlore::Language_server server(options);
  ohmlore::Message_reader reader;
  while (!server.ended() && std::ferror(stdout) == 0) {
    char block[1 << 16];
    const ssize_t count = read(STDIN_FILENO, block, sizeof block);
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) break;
    reader.add({block, static_cast<std::size_t>(count)});
    while (const auto received = reader.next()) send(server.take(*received));
    while (!input_waits()) {
      const std::vector<std::string> findings = server.when_idle();
      if (findings.empty()) break;
      send(findings);
    }
  }
  return server.status();
}

void add_serve(CLI::App& app, int& status) {
  auto options = std::make_shared<ohmlore::Serve_options>();
  options->today = today;
  CLI::App* command = app.add_subcommand(
      "serve", "Help an editor while documents are typed: a language server over standard input and output");
  add_root(*command, options->root, "each file");
  command->add_flag_callback(
      "--stdio", [] {}, "taken for the sake of editors that always say so; there is no other way");
  command->footer(
      "Editors start it: tools/editors/README.md says how. It writes no file.\n"
      "Exit status: 0 when the editor shut it down, 1 when it went away without, 2 the work could\n"
      "not be done.");
  command->callback([options, &status] { status = serve(*options); });
}
