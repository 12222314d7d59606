#include "lint/rows.h"

#include <algorithm>
#include <tuple>

#include "lint/read.h"

namespace ohmlore::rules {

std::vector<Row> rows_by_temperature(const Document& document, const Resistance_model& model) {
  std::vector<Row> rows;
  for (const Table_row& row : model.rows) {
    if (!row.at || !fully_read(document, row)) continue;
    const auto ohm = row_interval(row, Taken::generously);
    const Interval kelvin = written_interval(*row.at);
    if (!ohm || !(ohm->low > 0) || !(kelvin.low > 0)) continue;
    rows.push_back({&row, *ohm, log(*ohm), Interval{1, 1} / kelvin});
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Row& a, const Row& b) { return a.row->at->si < b.row->at->si; });
  return rows;
}

Interval b_of(const Row& colder, const Row& hotter) {
  return (colder.logarithm - hotter.logarithm) / (colder.inverse_kelvin - hotter.inverse_kelvin);
}

Ntc_clash ntc_clash(const Row& colder, const Row& hotter) {
  if (colder.row->at->si == hotter.row->at->si) return Ntc_clash::none;
  if (hotter.ohm.low > colder.ohm.high) return Ntc_clash::rises;
  const Interval b = b_of(colder, hotter);
  if (b.high < possible_b.low) return Ntc_clash::b_too_low;
  if (b.low > possible_b.high) return Ntc_clash::b_too_high;
  return Ntc_clash::none;
}

std::vector<Impossible_row> impossible_ntc_rows(const std::vector<Row>& rows) {
  const auto clash = [&](std::size_t i, std::size_t j) {
    return ntc_clash(rows[std::min(i, j)], rows[std::max(i, j)]);
  };
  const auto blamed =
      blamed_rows(rows.size(), [&](std::size_t i, std::size_t j) { return clash(i, j) != Ntc_clash::none; });
  std::vector<Impossible_row> impossible;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    if (!blamed[row]) continue;
    // Rather a witness that is not blamed itself, and rather one against which the row rises; the nearest.
    std::size_t witness = rows.size();
    for (const auto& [right, rising] :
         {std::pair{true, true}, {true, false}, {false, true}, {false, false}}) {
      if (witness != rows.size()) break;
      witness = nearest_row(rows.size(), row, [&, right = right, rising = rising](std::size_t i) {
        const Ntc_clash why = clash(i, row);
        return why != Ntc_clash::none && !(right && blamed[i]) && (!rising || why == Ntc_clash::rises);
      });
    }
    if (witness != rows.size()) impossible.push_back({row, witness, clash(row, witness)});
  }
  return impossible;
}

static const Table_row* row_at(const Resistance_model& model, double kelvin) {
  const auto found = std::find_if(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
    return row.at && row.at->si == kelvin && row.nominal && written_interval(*row.nominal).low > 0;
  });
  return found == model.rows.end() ? nullptr : found;
}

std::optional<Interval> b_of_table(const Resistance_model& model, double from, double to) {
  const Table_row *first = row_at(model, from), *second = row_at(model, to);
  if (first == nullptr || second == nullptr || from == to) return std::nullopt;
  return b_between(written_interval(*first->nominal), {from, from}, written_interval(*second->nominal),
                   {to, to});
}

}
