#include "corpus/tables.h"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include <fmt/format.h>

#include "corpus/files.h"

namespace ohmlore {
namespace fs = std::filesystem;

Growing_file::Growing_file(std::string path, std::vector<std::string>& troubles)
    : path_(std::move(path)), troubles_(troubles) {
  std::string why;
  const std::optional<Replacement> made = open_replacement(path_, why);
  if (!made) {
    troubles_.push_back(fmt::format("{}: cannot be written: {}", path_, why));
    return;
  }
  real_ = made->path;
  beside_ = made->beside;
  file_ = fdopen(made->file, "wb");
  if (file_ != nullptr) return;
  fail();
  close(made->file);
}

Growing_file::~Growing_file() {
  if (file_ == nullptr) return;
  std::fclose(file_);
  std::remove(beside_.c_str());
}

void Growing_file::fail() {
  troubles_.push_back(fmt::format("{}: cannot be written: {}", path_, std::strerror(errno)));
  if (file_ != nullptr) std::fclose(file_);
  file_ = nullptr;
  std::remove(beside_.c_str());
}

void Growing_file::write(std::string_view bytes) {
  if (file_ != nullptr && std::fwrite(bytes.data(), 1, bytes.size(), file_) != bytes.size()) fail();
}

bool Growing_file::complete() {
  if (file_ != nullptr && (std::fflush(file_) != 0 || fsync(fileno(file_)) != 0)) fail();
  return file_ != nullptr;
}

void Growing_file::finish() {
  if (!complete()) return;
  std::fclose(file_);
  file_ = nullptr;
  if (std::rename(beside_.c_str(), real_.c_str()) != 0) fail();
}

Table_files::Table_files(const std::string& folder, const Csv_options& options,
                         std::vector<std::string>& troubles)
    : options_(options), rows_([this](std::size_t table, std::string_view row) {
        if (table < files_.size()) files_[table]->write(row);
      }) {
  std::error_code error;
  fs::create_directories(folder, error);
  std::vector<std::string> names;
  for (const std::string& name : csv_table_names()) names.push_back(name + ".csv");
  names.emplace_back(metadata_file);
  const std::size_t known = troubles.size();
  for (const std::string& name : names) {
    files_.push_back(std::make_unique<Growing_file>((fs::path(folder) / name).string(), troubles));
    if (troubles.size() == known) continue;
    files_.clear(); // nothing can be written there, and that is said once
    return;
  }
  csv_headers(options_, rows_);
  files_.back()->write(csv_metadata(options_));
}

bool Table_files::add(const Read_result& read, std::string_view file) {
  return csv_of(read, file, options_, rows_);
}

void Table_files::finish() {
  // All of them or none: tables of two states would not fit together.
  for (const std::unique_ptr<Growing_file>& file : files_)
    if (!file->complete()) return;
  for (const std::unique_ptr<Growing_file>& file : files_) file->finish();
}

Csv_import::Read open_table(const std::string& folder, std::size_t table,
                            std::vector<std::string>& troubles) {
  const std::string path = (fs::path(folder) / (csv_table_names()[table] + ".csv")).string();
  std::error_code error;
  if (!fs::exists(path, error)) return {};
  const auto failed = [&troubles, path](const char* why) {
    std::string trouble = fmt::format("{}: cannot be read: {}", path, why);
    if (std::find(troubles.begin(), troubles.end(), trouble) == troubles.end()) // it is opened twice
      troubles.push_back(std::move(trouble));
  };
  if (!fs::is_regular_file(path, error)) {
    failed(fs::is_directory(path, error) ? "it is a folder" : "it is no plain file");
    return {};
  }
  const std::shared_ptr<std::FILE> file(std::fopen(path.c_str(), "rb"), [](std::FILE* f) {
    if (f != nullptr) std::fclose(f);
  });
  if (!file) {
    failed(std::strerror(errno));
    return {};
  }
  return [file, failed](char* at, std::size_t room) {
    const std::size_t read = std::fread(at, 1, room, file.get());
    if (read == 0 && std::ferror(file.get()) != 0) failed(std::strerror(errno));
    return read;
  };
}

}
