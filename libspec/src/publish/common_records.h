// What the reports of jobs have in common.
#pragma once

#include "model/types.h"

namespace ohmlore {

struct Judge_program : Record_base {
  Value<Text> name;
  Value<Text> version;
};
struct Judge_meter : Record_base {
  Value<Quantity> of_reading;
  Value<std::int64_t> counts;
  Value<std::int64_t> display_counts;
};
struct Judge_leads : Record_base {
  Value<Quantity> resistance;
  Value<Quantity> half_width;
};
struct Judge_range : Record_base {
  Value<Quantity> low;
  Value<Quantity> high;
};

extern const Record judgement_program_record;
constexpr const Record* description(std::type_identity<Judge_program>) { return &judgement_program_record; }
extern const Record judgement_meter_record;
constexpr const Record* description(std::type_identity<Judge_meter>) { return &judgement_meter_record; }
extern const Record judgement_leads_record;
constexpr const Record* description(std::type_identity<Judge_leads>) { return &judgement_leads_record; }
extern const Record judgement_range_record;
constexpr const Record* description(std::type_identity<Judge_range>) { return &judgement_range_record; }

inline constexpr Limits any_number = {0, 1'000'000'000};

}
