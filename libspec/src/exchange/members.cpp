#include "exchange/members.h"

#include <algorithm>

#include "document/described.h"

namespace ohmlore {

Members members_of(const Document& document, const Record& record, Node_id object) {
  Members members;
  members.kind = kind_of(document, record, object);
  members.fields.resize(record.fields.size());
  const Node_id end = document.node(object).next;
  for (Node_id key = object + 1; key < end; key = document.node(key + 1).next) {
    const Field* field = field_of(record, members.kind, document.string(key));
    if (field == nullptr)
      members.others.push_back(key);
    else
      members.fields[static_cast<std::size_t>(field - record.fields.data())] = key + 1;
  }
  return members;
}

bool is_readable(const Read_result& read) {
  return read.document.whole() &&
         (read.document.profile() || read.document.part() || read.document.corpus()) &&
         std::none_of(read.findings.begin(), read.findings.end(),
                      [](const Finding& finding) { return finding.severity == Severity::error; });
}

}
