// Which records and enumerations there are: found by walking the descriptions.
#include <algorithm>

#include "ohmlore/publish.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

template <class T>
bool add(std::vector<const T*>& list, const T* one) {
  if (std::find(list.begin(), list.end(), one) != list.end()) return false;
  list.push_back(one);
  return true;
}

void walk(const Record& record, std::vector<const Record*>& records) {
  if (!add(records, &record)) return;
  for (const Field& field : record.fields)
    if (const Record* held = innermost(*field.member.type).record) walk(*held, records);
}

}

const Type& innermost(const Type& type) { return type.item != nullptr ? innermost(*type.item) : type; }

std::vector<const Record*> records_of(const Record& root) {
  std::vector<const Record*> records;
  walk(root, records);
  return records;
}

std::vector<const Enumeration*> enumerations_of(const std::vector<const Record*>& records) {
  std::vector<const Enumeration*> enumerations;
  for (const Record* record : records)
    for (const Field& field : record->fields)
      if (const Enumeration* words = innermost(*field.member.type).words; words && field.constant.empty())
        add(enumerations, words);
  return enumerations;
}

std::vector<const Record*> published_records() {
  std::vector<const Record*> records;
  for (const Record* root :
       {&document_record(Document_kind::profile), &document_record(Document_kind::part),
        &document_record(Document_kind::corpus), &report_record, &diff_record, &judgement_record,
        &find_record, &fit_record, &plan_record, &job_record, &baseline_record})
    walk(*root, records);
  return records;
}

}
