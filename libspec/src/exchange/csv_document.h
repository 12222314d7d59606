// From the rows of one document to the text that the reader reads.
#pragma once

#include <map>
#include <set>
#include <string_view>
#include <vector>

#include "exchange/csv_tables.h"
#include "exchange/origin_text.h"

namespace ohmlore {

class Csv_document_maker {
public:
  /// `rows` of every table, those of one document; `files` are the names of the tables in findings.
  Csv_document_maker(const std::vector<std::string>& files,
                     const std::vector<std::vector<Table_row_text>>& rows);

  Csv_document make(std::size_t root);

private:
  using Keys = std::vector<std::string_view>; ///< of the rows around a row, from the document inward
  struct Place {
    const Table_row_text* row;
    std::size_t column;
  };
  /// What the columns `empty` and `others` of a row say.
  struct Extras {
    std::vector<std::pair<std::string, bool>> empty; ///< name, and whether it was met
    struct Other {
      std::string parent, key, json;
      bool met = false;
    };
    std::vector<Other> others;
  };

  std::uint32_t at(const Table_row_text& row, std::size_t column);
  void report(const Table_row_text& row, std::size_t column, std::string_view rule, std::string message,
              Severity severity = Severity::error);
  std::size_t column(const Table_row_text& row, std::string_view name) const;

  Extras extras_of(const Table_row_text& row);
  void look_for_unmet(const Table_row_text& row, const Extras& extras);
  bool take_empty(Extras& extras, std::string_view name);

  void members(const Table_row_text& row, Extras& extras, const Record& record, const std::string& prefix,
               const std::string& pointer);
  bool is_there(const Table_row_text& row, const Extras& extras, const Record& record,
                const std::string& prefix, const std::string& pointer) const;
  const std::vector<const Table_row_text*>& children(const Table_row_text& row, std::size_t table) const;
  void children_of(const Table_row_text& row, std::size_t table, const Field& field, std::uint32_t place);
  void value(const Table_row_text& row, const Record& record, const Field& field, const std::string& name);
  void scalar(const Table_row_text& row, std::size_t column, const Type& type, std::string_view text);
  void compare_numbers(const Table_row_text& row, const Record& record, const Field& field,
                       const std::string& name);
  void relocate(std::vector<Finding>& findings);

  const std::vector<std::string>& files_;
  const std::vector<std::vector<Table_row_text>>& rows_;
  /// Of every table its rows by those keys, in the order of the table.
  std::vector<std::map<Keys, std::vector<const Table_row_text*>>> below_;
  std::set<const Table_row_text*> used_;
  Origin_text json_;
  std::vector<Place> places_;
  std::vector<Finding> findings_;
};

}
