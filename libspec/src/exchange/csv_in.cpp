// Documents out of tables, one after the other.
#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>

#include "exchange/csv_document.h"
#include "exchange/csv_tables.h"

namespace ohmlore {

struct Csv_import::State {
  std::vector<std::string> files;
  Open open;
  std::vector<Finding> findings;
  std::vector<std::unique_ptr<Csv_table>> tables;
  std::vector<std::vector<Table_row_text>> rows; ///< of the document that is being read
  std::vector<std::optional<Table_row_text>> ahead;
  std::size_t root = 0;

  void begin() {
    tables.clear();
    for (std::size_t i = 0; i < all_tables().size(); ++i)
      tables.push_back(std::make_unique<Csv_table>(i, files[i], open(i), findings));
    rows.assign(tables.size(), {});
    ahead.clear();
    ahead.resize(tables.size());
  }

  // All tables to their end: what can not be read, and rows that no document takes. Else a document could be
  // written without rows that come too late.
  void look_through() {
    begin();
    std::unordered_map<std::string, std::size_t> order;
    bool any = false, all_documents = false;
    for (std::size_t i = 0; i < tables.size(); ++i) {
      const Table& table = all_tables()[i];
      if (table.is_root()) order.clear();
      const std::size_t key = table.is_root() ? table.places.find(table.key)->second : 0;
      Table_row_text row;
      std::size_t last = 0;
      while (tables[i]->next(row)) {
        any = true;
        std::string document(row.text(key));
        if (table.is_root()) {
          if (!order.emplace(std::move(document), order.size()).second)
            report(row, key, "this document stands here a second time");
          continue;
        }
        const auto found = order.find(document);
        if (found == order.end() && !all_documents)
          continue; // it may be one of those that could not be read
        else if (found == order.end())
          report(row, key, fmt::format("there is no such row in {}", root_name(i)));
        else if (found->second < last)
          report(row, key,
                 fmt::format(
                     "the rows of one document stand together, and documents in the order of {}; sort this "
                     "table",
                     root_name(i)));
        else
          last = found->second;
      }
      if (table.is_root()) all_documents = tables[i]->is_whole();
    }
    if (!any && findings.empty()) {
      Finding finding;
      finding.rule = "table-malformed";
      finding.file = files[0];
      finding.message = "there is no row in profiles, parts or corpora: these tables hold no document";
      findings.push_back(std::move(finding));
    }
  }

  std::string root_name(std::size_t table) const {
    while (!all_tables()[table].is_root()) table = all_tables()[table].parent;
    return all_tables()[table].name;
  }

  void report(const Table_row_text& row, std::size_t column, std::string message) {
    if (findings.size() < most_findings)
      findings.push_back(finding_in_row(files[row.table], row, column, "row-out-of-place", Severity::error,
                                        std::move(message)));
  }

  bool fill(std::size_t table) {
    if (ahead[table]) return true;
    Table_row_text row;
    if (!tables[table]->next(row)) return false;
    ahead[table] = std::move(row);
    return true;
  }

  std::optional<Csv_document> next() {
    while (root < tables.size() && (!all_tables()[root].is_root() || !fill(root))) ++root;
    if (root == tables.size()) return std::nullopt;
    for (std::vector<Table_row_text>& list : rows) list.clear();
    rows[root].push_back(std::move(*ahead[root]));
    ahead[root].reset();
    const Table& table = all_tables()[root];
    const std::string document(rows[root].front().text(table.places.find(table.key)->second));
    for (std::size_t i = root + 1; i < tables.size() && !all_tables()[i].is_root(); ++i)
      while (fill(i) && ahead[i]->text(0) == document) {
        rows[i].push_back(std::move(*ahead[i]));
        ahead[i].reset();
      }
    return Csv_document_maker(files, rows).make(root);
  }
};

Csv_import::Csv_import(std::string folder, Open open) : state_(std::make_unique<State>()) {
  for (const std::string& name : csv_table_names())
    state_->files.push_back(fmt::format("{}{}.csv", folder, name));
  state_->open = std::move(open);
  state_->look_through();
  if (state_->findings.empty()) state_->begin();
}

Csv_import::~Csv_import() = default;

const std::vector<Finding>& Csv_import::findings() const { return state_->findings; }

std::optional<Csv_document> Csv_import::next() {
  if (!state_->findings.empty()) return std::nullopt;
  return state_->next();
}

}
